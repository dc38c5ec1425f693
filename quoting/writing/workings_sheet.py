"""Workings as live formulas: each step refers to earlier steps by their cells."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from quoting.domain.money import Currency
from quoting.domain.plans import Section, Working
from quoting.writing.inks import ACCENT, QUIET, TINT
from quoting.writing.number_formats import WHOLE, amount_format
from quoting.writing.pages import Page
from quoting.writing.text_heights import row_height

_REFERENCE = re.compile(r"\{([^{}]*)\}")
_ARRAY = re.compile(r'(?:-?[\d.]+|"[^"]*")(?:[,;](?:-?[\d.]+|"[^"]*"))+')
"""An array constant of the formula language, which stands in braces too."""

WIDTHS = (330, 104, 116, 330)
"""Pixels of the columns: step, value, unit, in words. They are wider than a page, and so printed smaller."""
LEAST_SCALE = 0.62
"""Type of 9 points is still read at this scale."""
_PADDING = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Cells:
    """Where every step stands: (section key, step key) → (sheet name, address such as "$B$12")."""

    places: Mapping[tuple[str, str], tuple[str, str]]

    def resolved(self, formula: str, section: str, sheet: str) -> str:
        """Give a formula with every `{key}` and `{section!key}` turned into its cell.

        KeyError for a step that isn't there: that is a mistake of ours.
        """

        def cell(found: re.Match[str]) -> str:
            inside = found.group(1)
            if _ARRAY.fullmatch(inside):
                return found.group(0)
            name, address = self.places[_target(inside, section)]
            quoted = name.replace("'", "''")
            return address if name == sheet else f"'{quoted}'!{address}"

        return _REFERENCE.sub(cell, formula)


def place_steps(sheets: Mapping[str, Sequence[Section]]) -> Cells:
    """Lay out sections sheet by sheet, before anything is written, so that steps can refer across sheets."""
    places: dict[tuple[str, str], tuple[str, str]] = {}
    for name, sections in sheets.items():
        row = _HEAD_ROWS
        for section in sections:
            row += _SECTION_ROWS
            for step in section.steps:
                row += 1
                places[section.key, step.key] = (name, f"$B${row}")
    return Cells(places=places)


_HEAD_ROWS = 3
"""Rows above the first section: title, subtitle, headings."""
_SECTION_ROWS = 2
"""Rows above a section's first step: a gap and its title."""
_LONGEST_TITLE = 200
"""A title stays in one row, whatever an owner calls a piece: the steps below must stand where they were placed."""


def write_workings(
    page: Page, sections: Sequence[Section], cells: Cells, *, title: str, subtitle: str, currency: Currency
) -> None:
    """Write a sheet of workings as `place_steps` laid it out; every formula carries its value."""
    page.paragraph(title[:_LONGEST_TITLE], 0, 3, size=16, bold=True, color=ACCENT, padding=6)
    page.paragraph(subtitle, 0, 3, color=QUIET)
    for column, heading in enumerate(("Step", "Value", "Unit", "In words")):
        look = {"align": "right"} if column == 1 else {"align": "left", "indent": 1 if column == 2 else 0}
        ink = page.inks(size=9, bold=True, color=ACCENT, bg_color=TINT, valign="vcenter", **look)
        page.write(column, heading, ink)
    page.end_row(row_height(1, 9, padding=7))
    for section in sections:
        page.begin_block()
        page.gap(8)
        page.paragraph(section.title[:_LONGEST_TITLE], 0, 3, size=11, bold=True, color=ACCENT, padding=5)
        for number, step in enumerate(section.steps):
            # A title never stands alone at the foot of a page, nor a section's end at the head of one.
            if 2 < number <= len(section.steps) - 5:
                page.begin_block()
            _write_step(page, step, section.key, cells, currency)


def _write_step(page: Page, step: Working, section: str, cells: Cells, currency: Currency) -> None:
    name = page.sheet.get_name()
    assert cells.places[section, step.key] == (name, f"$B${page.row + 1}")
    is_given = not step.formula
    page.write(0, step.label, page.inks(size=9, text_wrap=True))
    look: dict[str, object] = {"size": 9, "align": "right", "text_wrap": isinstance(step.value, str)}
    if is_given:
        look |= {"bg_color": TINT, "bold": True}
    ink = page.inks(num_format=step_format(step, currency), **look)
    if is_given:
        page.write(1, step.value, ink)
    else:
        page.formula(1, cells.resolved(step.formula, section, name), step.value, ink)
    page.write(2, step.unit, page.inks(size=9, color=QUIET, text_wrap=True, align="left", indent=1))
    words = step.words or ("given" if is_given else "")
    page.write(3, words, page.inks(size=9, color=QUIET, text_wrap=True))
    texts = ((step.label, 0), (step.unit, 2), (words, 3), *(((step.value, 1),) if isinstance(step.value, str) else ()))
    page.end_row(row_height(max(page.lines(text, column, column, 9) for text, column in texts), 9, padding=_PADDING))


def step_format(step: Working, currency: Currency) -> str:
    """Give a step's number format by its unit and value: money with its digits, counts whole, the rest as it is."""
    if isinstance(step.value, str):
        return "@"
    value = Decimal(str(step.value))
    if _is_money(step, currency) and value % currency.unit == 0:
        return amount_format(currency)
    if value == value.to_integral_value():
        return WHOLE
    return "#,##0.0###" if abs(value) >= _SMALL else "0.0#######"


_SMALL = Decimal("0.01")


def split_by_money(sections: Sequence[Section], currency: Currency) -> tuple[tuple[Section, ...], tuple[Section, ...]]:
    """Tell the steps the crew may see from those that have money in them, directly or through an earlier step.

    A section that has both is in both, each with its own steps; their order stays.
    """
    has_money: set[tuple[str, str]] = set()
    crew: list[Section] = []
    priced: list[Section] = []
    for section in sections:
        for step in section.steps:
            refers = {_target(found, section.key) for found in _REFERENCE.findall(step.formula)}
            if _is_for_shop(section.key) or _is_money(step, currency) or refers & has_money:
                has_money.add((section.key, step.key))
        for kept, wanted in ((crew, False), (priced, True)):
            steps = tuple(s for s in section.steps if ((section.key, s.key) in has_money) is wanted)
            if steps:
                kept.append(replace(section, steps=steps))
    return tuple(crew), tuple(priced)


_PRICED = frozenset({"price", "totals"})


def _is_for_shop(key: str) -> bool:
    """Tell sections that the crew has no use for: prices, and the whole job with a choice that is not in the total."""
    return key in _PRICED or key.startswith("choice ")


def _is_money(step: Working, currency: Currency) -> bool:
    return step.unit == currency.code or step.unit.startswith((f"{currency.code} ", f"{currency.code},"))


def _target(inside: str, section: str) -> tuple[str, str]:
    where, _, key = inside.rpartition("!")
    return (where, key) if where else (section, key)
