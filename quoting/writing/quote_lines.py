"""The lines of the client's quote: what is built, hired or done, how many, at what price."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from quoting.domain.quotes import LineKind, Quote, QuoteLine
from quoting.writing.inks import ACCENT, HAIRLINE, QUIET, TINT
from quoting.writing.number_formats import WHOLE, amount_format
from quoting.writing.pages import Page
from quoting.writing.phrases import Phrases
from quoting.writing.pictures.job_pictures import Picture
from quoting.writing.quote_pictures import write_beside
from quoting.writing.text_heights import row_height

_BODY, _SMALL = 10, 9


@dataclass(frozen=True, slots=True, kw_only=True)
class LinesPlace:
    """Where the lines stand: rows counted from 0, of their heading, the first and the last line.

    A line takes several rows: the last one begins at `last_begins`.
    """

    heading: int
    first: int
    last: int
    last_begins: int


def write_lines(page: Page, quote: Quote, phrases: Phrases, pictures: Mapping[str, Picture]) -> LinesPlace:
    """Write heading and lines; each amount is the live product of quantity and price.

    `pictures` are those of pieces, by their labels; a piece may have none.
    """
    heading = page.row
    _write_heading(page, phrases)
    first = last_begins = page.row
    for line in quote.lines:
        last_begins = page.row
        picture = pictures.get(line.label) if line.kind is LineKind.PIECE else None
        _write_line(page, quote, phrases, line, picture)
    return LinesPlace(heading=heading, first=first, last=max(first, page.row - 1), last_begins=last_begins)


def _write_heading(page: Page, phrases: Phrases) -> None:
    keys = ("line", "description", "quantity", "each", "amount")
    lines = 1
    for column, key in enumerate(keys):
        align = "left" if column < 2 else "right"
        ink = page.inks(
            size=_SMALL, color=ACCENT, bold=True, bg_color=TINT, align=align, valign="vcenter", text_wrap=True
        )
        page.write(column, phrases.text(key), ink)
        lines = max(lines, page.lines(phrases.text(key), column, column, _SMALL, bold=True))
    page.end_row(row_height(lines, _SMALL, padding=9))


def _write_line(page: Page, quote: Quote, phrases: Phrases, line: QuoteLine, picture: Picture | None) -> None:
    page.begin_block()
    is_piece = line.kind is LineKind.PIECE
    amounts = each = amount_format(quote.currency)
    if line.kind is LineKind.DELIVERY and not line.amount:
        amounts = amount_format(quote.currency, zero=phrases.text("no_charge"))
        each = amount_format(quote.currency, hides_zero=True)
    page.gap(5)
    page.write(0, line.label, page.inks(size=_BODY, bold=True, color=ACCENT, text_wrap=True))
    page.write(1, line.title, page.inks(size=_BODY, bold=is_piece, text_wrap=True))
    page.write(2, line.quantity, page.inks(size=_BODY, align="right", num_format=WHOLE))
    page.write(3, line.unit_price, page.inks(size=_BODY, align="right", num_format=each))
    product = f"{page.cell(2)}*{page.cell(3)}"
    page.formula(4, product, line.amount, page.inks(size=_BODY, align="right", num_format=amounts))
    lines = max(page.lines(line.title, 1, 1, _BODY, bold=is_piece), page.lines(line.label, 0, 0, _BODY, bold=True))
    page.end_row(row_height(lines, _BODY))
    details = "\n".join(detail.strip() for detail in line.details if detail.strip())
    if picture is not None:
        write_beside(page, details, picture)
    elif details:
        page.paragraph(details, 1, 3, size=_SMALL, color=QUIET, padding=2)
    for column in range(5):
        page.write(column, None, page.inks(bottom=1, bottom_color=HAIRLINE))
    page.end_row(4)
