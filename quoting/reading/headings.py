"""The heading row of a sheet: where it is, and which column each heading names."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from difflib import SequenceMatcher

from quoting.domain.cells import Cell, Kind, Sheet
from quoting.domain.codes import problem
from quoting.domain.layouts import Column, SheetLayout
from quoting.domain.places import Place
from quoting.domain.problems import Problem
from quoting.reading.amounts_of_money import currency_of
from quoting.reading.measures import is_unit, unit_named
from quoting.reading.texts import folded, is_blank, seen_text
from quoting.reading.troubles import Trouble, trouble_at

ROWS_LOOKED_AT = 60
"""Filled rows from the top among which the heading row is looked for."""

_MEASURES = {Kind.LENGTH: Kind.LENGTH, Kind.LENGTHS: Kind.LENGTH, Kind.DISTANCE: Kind.DISTANCE, Kind.MASS: Kind.MASS}
_BRACKETS = re.compile(r"(.*?)[(\[]([^()\[\]]*)[)\]][^\w(\[]*")


@dataclass(frozen=True, slots=True, kw_only=True)
class Heading:
    """One heading found: its column of the layout, where it stands, and the unit of its brackets ("" for none).

    `doubt` is what to say of every filled cell under it where the heading itself can't be relied on.
    """

    column: Column
    place: Place
    unit: str = ""
    doubt: Trouble | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadingRow:
    """The headings of one sheet, each by its own column number, and what is wrong with them.

    `row` is 0 where no heading row was found. `missing` are the keys of required columns
    that the sheet lacks: a problem has named them, and no row of the sheet is whole.
    """

    row: int
    headings: Mapping[int, Heading] = field(default_factory=dict)
    missing: frozenset[str] = frozenset()
    problems: tuple[Problem, ...] = ()


def squeezed(text: str) -> str:
    """A heading or name for comparing: letters and figures only, without regard to case.

    >>> squeezed("Fills at  each-end *")
    'fillsateachend'
    """
    return "".join(sign for sign in folded(text).casefold() if sign.isalnum())


def is_named(text: str, column: Column) -> bool:
    """True where a text is a column's heading, key or alias, whatever its brackets say."""
    names = [squeezed(name) for name in names_of(column)]
    return squeezed(text) in names or squeezed(_parted(text)[0]) in names


def names_of(column: Column) -> tuple[str, ...]:
    """What a column may be called in a heading row."""
    return (column.key, column.heading, *column.aliases)


def nearest(typed: str, names: Iterable[str]) -> str:
    """The squeezed name that a squeezed text is most likely a slip for, or "".

    Likeness is the share of signs in common (difflib's ratio): 0.8, in short names what one slip leaves.
    """
    likeness = {name: SequenceMatcher(None, typed, name).ratio() for name in names}
    best = max(likeness, key=likeness.__getitem__, default="")
    return best if best and likeness[best] >= min(0.8, 1 - 1.01 / len(best)) else ""


def find_headings(sheet: Sheet, layout: SheetLayout, place: Place) -> HeadingRow:
    """The row with the most headings of the layout (the first of equals), in any order of columns.

    A heading counts by its words or its key, brackets aside; of a merged one its first
    column. Missing required columns, headings that are there twice, units that a column can't
    have and headings that come close to a missing one are problems; P107 where no row will do.
    """
    best, most = 0, 0
    for row in list(sheet.rows)[:ROWS_LOOKED_AT]:
        count = len({column.key for _, column, _ in _named(sheet.rows[row], layout)})
        best, most = (row, count) if count > most else (best, most)
    if most < min(2, len(layout.columns)):
        examples = ", ".join(column.heading for column in layout.columns[:3])
        return HeadingRow(row=0, problems=(problem("P107", place, sheet=layout.name, headings=examples),))
    return _heading_row(best, sheet.rows[best], layout, place)


def _named(cells: Mapping[int, Cell], layout: SheetLayout) -> Iterator[tuple[int, Column, str]]:
    """The cells of a row that are headings of the layout: column number, column, text in brackets."""
    known = {squeezed(name): column for column in reversed(layout.columns) for name in names_of(column)}
    for number, cell in cells.items():
        if not isinstance(cell.value, str) or is_further_part(cell):
            continue
        name, brackets = _parted(cell.value)
        parted, whole = known.get(squeezed(name)), known.get(squeezed(cell.value))
        if parted:
            yield number, parted, brackets
        elif whole:
            yield number, whole, ""


def is_further_part(cell: Cell) -> bool:
    """True for a cell of a merged heading that is not of its first column."""
    return cell.merged_from is not None and cell.merged_from.column != cell.place.column


def _parted(text: str) -> tuple[str, str]:
    found = _BRACKETS.fullmatch(folded(text))
    return (found[1], found[2].strip()) if found else (text, "")


def _heading_row(row: int, cells: Mapping[int, Cell], layout: SheetLayout, place: Place) -> HeadingRow:
    sheet_place = Place(workbook=place.workbook, sheet=place.sheet, row=row)
    headings: dict[int, Heading] = {}
    problems: list[Problem] = []
    first: dict[str, int] = {}
    for number, column, brackets in _named(cells, layout):
        made, found = _heading(sheet_place.at(number), column, brackets, seen_text(cells[number]))
        problems += found
        earlier = first.setdefault(column.key, number)
        if earlier != number:
            other = sheet_place.at(earlier)
            problems.append(problem("P109", made.place, seen=column.heading, heading=column.heading, other=other.cell))
            doubt = Trouble(code="P109", facts={"other": other.cell})
            headings[earlier] = _doubted(headings[earlier], doubt)
            made = _doubted(made, doubt)
        headings[number] = made
    missing = [column for column in layout.columns if column.key not in first]
    near = dict(_near_misses(cells, headings, missing, sheet_place))
    problems += [problem("P111", h.place, seen=seen_text(cells[n]), heading=h.column.heading) for n, h in near.items()]
    problems += _missing(sheet_place, missing, near.values())
    lost = frozenset(column.key for column in missing if column.required)
    return HeadingRow(row=row, headings={**headings, **near}, missing=lost, problems=tuple(problems))


def _doubted(heading: Heading, doubt: Trouble) -> Heading:
    return Heading(column=heading.column, place=heading.place, unit=heading.unit, doubt=doubt)


def _heading(place: Place, column: Column, brackets: str, seen: str) -> tuple[Heading, tuple[Problem, ...]]:
    """One heading with the unit its brackets name; P110 for a unit that its column can't have."""
    measure = _MEASURES.get(column.kind)
    if column.kind is Kind.MONEY:
        return Heading(column=column, place=place, unit=currency_of(brackets)), ()
    unit = unit_named(measure, brackets) if measure else ""
    is_inches = "size" in column.key and unit_named(Kind.LENGTH, brackets) == "in"
    if unit or is_inches or not brackets or not (measure or is_unit(brackets)):
        return Heading(column=column, place=place, unit=unit), ()
    example = f"{column.heading} ({column.units[0]})" if column.units else column.heading
    facts: dict[str, str] = {"unit": brackets, "heading": column.heading, "example": example}
    trouble = Trouble(code="P110", facts=facts)
    heading = Heading(column=column, place=place, doubt=None if measure else trouble)
    return heading, (trouble_at(trouble, place, seen),)


def _near_misses(
    cells: Mapping[int, Cell], headings: Mapping[int, Heading], missing: Iterable[Column], place: Place
) -> Iterator[tuple[int, Heading]]:
    """Columns whose heading comes close to one that the sheet lacks: most likely a slip of the keys."""
    wanted = {squeezed(column.heading): column for column in missing}
    for number, cell in cells.items():
        if number in headings or is_blank(cell) or is_further_part(cell):
            continue
        name, _ = _parted(seen_text(cell))
        near = nearest(squeezed(name), wanted)
        if near:
            column = wanted.pop(near)
            doubt = Trouble(code="P114", facts={"typed": seen_text(cell)})
            yield number, Heading(column=column, place=place.at(number), doubt=doubt)


def _missing(place: Place, missing: Iterable[Column], near: Iterable[Heading]) -> Iterator[Problem]:
    typed = {heading.column.key: heading for heading in near}
    for column in missing:
        if column.required:
            heading = typed.get(column.key)
            hint = f"did you mean it by {heading.place.cell}? Rename that, or " if heading else ""
            yield problem("P108", place, heading=column.heading, hint=hint)
