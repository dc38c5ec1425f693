"""Choices on the client's quote: what is priced, but not in the total, and what the total would be with it."""

from __future__ import annotations

from quoting.domain.quotes import Quote, QuoteOption
from quoting.writing.inks import ACCENT, HAIRLINE, QUIET
from quoting.writing.number_formats import WHOLE, amount_format, amount_words
from quoting.writing.pages import Page
from quoting.writing.phrases import Phrases
from quoting.writing.text_heights import row_height

_BODY, _SMALL = 10, 9


def write_options(page: Page, quote: Quote, phrases: Phrases) -> None:
    """Write every choice apart from the lines: its price, then the total with it. Nothing where there is none."""
    if not quote.options:
        return
    page.begin_block()
    page.gap(8)
    title = phrases.text("options_title")
    page.paragraph(title, 0, 4, size=11, bold=True, color=ACCENT, bottom=1, bottom_color=HAIRLINE)
    for number, option in enumerate(quote.options):
        if number:
            page.begin_block()
        _write_option(page, quote, phrases, option)


def _write_option(page: Page, quote: Quote, phrases: Phrases, option: QuoteOption) -> None:
    amounts = amount_format(quote.currency)
    page.gap(4)
    page.write(0, option.label, page.inks(size=_BODY, bold=True, color=ACCENT, text_wrap=True))
    page.write(1, option.title, page.inks(size=_BODY, bold=True, text_wrap=True))
    page.write(2, option.quantity, page.inks(size=_BODY, align="right", num_format=WHOLE))
    page.write(3, option.unit_price, page.inks(size=_BODY, align="right", num_format=amounts))
    ink = page.inks(size=_BODY, align="right", num_format=amounts)
    page.formula(4, f"{page.cell(2)}*{page.cell(3)}", option.amount, ink)
    lines = max(page.lines(option.title, 1, 1, _BODY, bold=True), page.lines(option.label, 0, 0, _BODY, bold=True))
    page.end_row(row_height(lines, _BODY))
    told = "\n".join(detail.strip() for detail in option.details if detail.strip())
    if told:
        page.paragraph(told, 1, 3, size=_SMALL, color=QUIET, padding=2)
    page.paragraph(_total_words(quote, phrases, option), 1, 3, size=_SMALL, bold=True, padding=3)


def _total_words(quote: Quote, phrases: Phrases, option: QuoteOption) -> str:
    total = amount_words(option.total, quote.currency)
    if option.instead_of:
        return phrases.text("option_instead", piece=option.instead_of, total=total)
    return phrases.text("option_added", total=total)
