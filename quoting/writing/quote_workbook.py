"""The client's quote: one calm page for a small job, pages with repeated headings for a long one."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from pathlib import Path

from quoting.domain.quotes import Quote
from quoting.writing.file_names import numbered
from quoting.writing.inks import Inks, open_workbook
from quoting.writing.number_formats import amount_words
from quoting.writing.pages import Page
from quoting.writing.phrases import Phrases, foot_text, sheet_name
from quoting.writing.pictures.job_pictures import JobPictures, Picture
from quoting.writing.quote_foot import Foot
from quoting.writing.quote_head import write_head
from quoting.writing.quote_lines import LinesPlace, write_lines
from quoting.writing.quote_options import write_options
from quoting.writing.quote_payments import write_payments
from quoting.writing.quote_pictures import fitting_pictures
from quoting.writing.quote_terms import write_acceptance, write_terms
from quoting.writing.quote_totals import write_totals
from quoting.writing.text_heights import text_width

_MARK, _TEXT, _QUANTITY, _EACH, _AMOUNT = 44, 282, 80, 106, 132
"""Pixels of the five columns: inside the margins of A4 and of Letter."""
_MOST_MARK, _LEAST_TEXT = 110, 180


def write_quote(path: Path, quote: Quote, pictures: JobPictures | None = None) -> None:
    """Write the client's file from a `Quote` and the pictures of its pieces alone. Equal ones give equal bytes.

    Pictures stand beside their lines, as high as one page allows.

    One sheet. Amounts of lines, subtotal, discounts, taxes, total, deposit and balance
    are live formulas with their values, wherever what the client sees is enough to
    compute them; they recalculate to the same cents. Workbook names: quote_number,
    quote_subtotal, quote_discount (not negative), quote_tax, quote_total, quote_deposit.
    OSError where `path` can't be written.
    """
    phrases = Phrases(quote.wording)
    title = f"{phrases.text('quote_title')} {numbered(quote)}"
    with open_workbook(path, title=title, author=quote.shop.name, made=quote.quote_date) as workbook:
        sheet = workbook.add_worksheet(sheet_name(phrases.text("quote_title"), "Quote"))
        widths = _widths(quote)
        page = Page(sheet, Inks(workbook), widths)
        names: dict[str, str] = {}
        lines, _ = _write(page, quote, _fitting(quote, pictures, widths), names)
        page_foot = foot_text(f"{quote.shop.name} · {numbered(quote)}", phrases)
        page.set_paper(quote.paper, foot=page_foot, repeated=lines.heading, repeated_until=lines.last)
        for name, cell in names.items():
            workbook.define_name(name, f"={sheet_reference(sheet.get_name())}!{cell}")


def _write(
    page: Page, quote: Quote, pictures: Mapping[str, Picture], names: dict[str, str]
) -> tuple[LinesPlace, range]:
    """Write the whole page; gives where its lines stand, and the rows from the last line to the payments."""
    phrases = Phrases(quote.wording)
    write_head(page, quote, phrases, names)
    lines = write_lines(page, quote, phrases, pictures)
    foot = Foot(page, quote, phrases, names)
    due = write_totals(foot, lines)
    together = range(lines.last_begins, page.row + 1)
    page.begin_block()
    write_payments(foot, due)
    write_options(page, quote, phrases)
    write_terms(page, quote, phrases)
    write_acceptance(page, quote, phrases)
    return lines, together


def _fitting(quote: Quote, pictures: JobPictures | None, widths: tuple[float, ...]) -> Mapping[str, Picture]:
    def write(page: Page, drawn: Mapping[str, Picture]) -> range:
        return _write(page, quote, drawn, {})[1]

    return fitting_pictures(pictures, write, widths, quote.paper)


def sheet_reference(name: str) -> str:
    """Give a sheet's name as a formula refers to it."""
    return "'" + name.replace("'", "''") + "'"


def _widths(quote: Quote) -> tuple[float, ...]:
    """Give room to long labels and long amounts at the cost of the description."""
    totals = quote.totals
    parts = [line.unit_price for line in quote.lines] + [tax.amount for tax in totals.taxes]
    parts += [adjustment.amount for adjustment in quote.adjustments]
    mark = min(max([_MARK, *(text_width(line.label, 10, bold=True) + 12 for line in quote.lines)]), _MOST_MARK)
    taxed = max([_QUANTITY, *(text_width(_taxed_words(quote, tax.taxable), 9) + 12 for tax in totals.taxes)])
    each = max([_EACH, *(_width(quote, part, 10) for part in parts)])
    sums = (totals.subtotal, totals.total, totals.payable)
    amount = max([_AMOUNT, *(_width(quote, amount, 12, bold=True) for amount in sums)])
    taken = mark + taxed + each + amount - _MARK - _QUANTITY - _EACH - _AMOUNT
    return mark, max(_TEXT - taken, _LEAST_TEXT), taxed, each, amount


def _width(quote: Quote, amount: Decimal, size: float, *, bold: bool = False) -> float:
    return text_width(amount_words(-abs(amount), quote.currency), size, bold=bold) + 12


def _taxed_words(quote: Quote, amount: Decimal) -> str:
    return "".join(Phrases(quote.wording).around("taxable", "amount")) + amount_words(-abs(amount), quote.currency)
