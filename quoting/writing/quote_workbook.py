"""The client's quote: one calm page for a small job, pages with repeated headings for a long one."""

from __future__ import annotations

from pathlib import Path

from quoting.domain.quotes import Quote
from quoting.writing.file_names import numbered
from quoting.writing.inks import Inks, open_workbook
from quoting.writing.number_formats import amount_words
from quoting.writing.pages import Page
from quoting.writing.phrases import Phrases, foot_text, sheet_name
from quoting.writing.quote_foot import Foot
from quoting.writing.quote_head import write_head
from quoting.writing.quote_lines import write_lines
from quoting.writing.quote_payments import write_payments
from quoting.writing.quote_terms import write_acceptance, write_terms
from quoting.writing.quote_totals import write_totals
from quoting.writing.text_heights import text_width

_MARK, _TEXT, _QUANTITY, _EACH, _AMOUNT = 44, 282, 80, 106, 132
"""Pixels of the five columns: inside the margins of A4 and of Letter."""


def write_quote(path: Path, quote: Quote) -> None:
    """Write the client's file from a `Quote` alone. Equal quotes give equal bytes.

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
        page = Page(sheet, Inks(workbook), _widths(quote))
        names: dict[str, str] = {}
        write_head(page, quote, phrases, names)
        lines = write_lines(page, quote, phrases)
        foot = Foot(page, quote, phrases, names)
        write_payments(foot, write_totals(foot, lines))
        write_terms(page, quote, phrases)
        write_acceptance(page, quote, phrases)
        page_foot = foot_text(f"{quote.shop.name} · {numbered(quote)}", phrases)
        page.set_paper(quote.paper, foot=page_foot, repeated=lines.heading, repeated_until=lines.last)
        for name, cell in names.items():
            workbook.define_name(name, f"={sheet_reference(sheet.get_name())}!{cell}")


def sheet_reference(name: str) -> str:
    """Give a sheet's name as a formula refers to it."""
    return "'" + name.replace("'", "''") + "'"


def _widths(quote: Quote) -> tuple[float, ...]:
    """Give room to long labels and long amounts at the cost of the description."""
    labels = max((text_width(line.label, 10, bold=True) for line in quote.lines), default=0)
    totals = quote.totals
    most = max(abs(a) for a in (totals.subtotal, totals.total, totals.payable))
    mark = min(max(_MARK, labels + 12), 110)
    amount = max(_AMOUNT, text_width(amount_words(-most, quote.currency), 12, bold=True) + 14)
    each = max(_EACH, *(text_width(amount_words(-abs(line.unit_price), quote.currency), 10) + 12 for line in quote.lines), 0)
    taken = mark + amount + each - _MARK - _AMOUNT - _EACH
    return mark, max(_TEXT - taken, 160), _QUANTITY, each, amount
