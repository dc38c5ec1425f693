"""Rows of amounts at the foot of the client's quote, and the cells that the workbook's names stand for."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from xlsxwriter.format import Format

from quoting.domain.quotes import Quote
from quoting.writing.inks import ACCENT, INK, QUIET
from quoting.writing.number_formats import amount_format
from quoting.writing.pages import Page
from quoting.writing.phrases import Phrases
from quoting.writing.text_heights import row_height

TAXED, INNER, OUTER = 2, 3, 4
"""Columns of amounts: what a tax is worked out on; parts of a sum; what is added up."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """How a row of the totals looks."""

    size: float = 10
    color: str = INK
    label_color: str = QUIET
    bold: bool = False
    has_rule: bool = False


PLAIN = Look()
STRONG = Look(size=12, color=ACCENT, label_color=ACCENT, bold=True, has_rule=True)
FAINT = Look(size=9, color=QUIET)


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One amount: what it is called, what it comes to, and its formula ("" for a plain value)."""

    label: str
    amount: Decimal
    formula: str = ""


class Foot:
    """The foot while it is written; `names` gathers the cells of the workbook's names."""

    def __init__(self, page: Page, quote: Quote, phrases: Phrases, names: dict[str, str]) -> None:
        self.page, self.quote, self.phrases, self.names = page, quote, phrases, names

    def row(
        self,
        entry: Entry,
        *,
        look: Look = PLAIN,
        column: int = OUTER,
        name: str = "",
        signed: bool = False,
        is_deducted: bool = False,
        taxed: Entry | None = None,
    ) -> str:
        """Write a row: its label, what it is `taxed` on, its amount; gives the amount's cell."""
        page = self.page
        rule = {"top": 1, "top_color": ACCENT, "valign": "vcenter"} if look.has_rule else {}
        label_ink = page.inks(
            size=look.size, color=look.label_color, bold=look.bold, align="right", text_wrap=True, **rule
        )
        page.span(0, 1, entry.label, label_ink)
        for other in (TAXED, INNER, OUTER) if rule else ():
            page.write(other, None, page.inks(size=look.size, **rule))
        if taxed is not None:
            self._write(taxed, TAXED, page.inks(size=9, color=QUIET, align="right", num_format=taxed.label))
        form = amount_format(self.quote.currency, signed=signed, is_deducted=is_deducted)
        ink = page.inks(size=look.size, color=look.color, bold=look.bold, align="right", num_format=form, **rule)
        cell = self._write(entry, column, ink)
        if name:
            self.name(name, column)
        lines = page.lines(entry.label, 0, 1, look.size, bold=look.bold)
        page.end_row(row_height(lines, look.size, padding=9 if rule else 5))
        return cell

    def _write(self, entry: Entry, column: int, ink: Format) -> str:
        if entry.formula:
            self.page.formula(column, entry.formula, entry.amount, ink)
        else:
            self.page.write(column, entry.amount, ink)
        return self.page.cell(column)

    def name(self, name: str, column: int = OUTER) -> None:
        """Give a workbook name to the cell at a column of the row being written."""
        self.names[name] = f"${chr(65 + column)}${self.page.row + 1}"

    def unseen_zero(self, name: str, height: float) -> str:
        """Leave a gap that holds a 0 which prints as nothing: a name that must be there, of an amount that isn't."""
        ink = self.page.inks(size=9, num_format=amount_format(self.quote.currency, hides_zero=True))
        self.page.write(OUTER, 0, ink)
        self.name(name)
        cell = self.page.cell(OUTER)
        self.page.end_row(height)
        return cell
