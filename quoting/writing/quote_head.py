"""The head of the client's quote: the shop, the quote's number and dates, the client, the event."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from itertools import zip_longest

from xlsxwriter.format import Format

from quoting.domain.quotes import Quote
from quoting.writing.inks import ACCENT, QUIET
from quoting.writing.number_formats import DATE, DATE_AND_TIME
from quoting.writing.pages import CellValue, Page
from quoting.writing.phrases import Phrases
from quoting.writing.text_heights import line_count, row_height

_SMALL, _BODY, _TITLE = 9, 10, 20
_SHORT = 48
"""Letters that fit on one line of the event's column."""


def write_head(page: Page, quote: Quote, phrases: Phrases, names: dict[str, str]) -> None:
    """Write everything above the lines; adds the cell of quote_number to `names`."""
    _write_title(page, quote, phrases)
    _write_shop_and_numbers(page, quote, phrases, names)
    _write_rule(page)
    _write_client_and_event(page, quote, phrases)
    page.gap(10)


def _write_title(page: Page, quote: Quote, phrases: Phrases) -> None:
    ink = page.inks(size=_TITLE, color=ACCENT, bold=True, text_wrap=True)
    page.span(0, 2, quote.shop.name, ink)
    page.span(3, 4, phrases.text("quote_title"), page.inks(size=_TITLE, color=QUIET, align="right"))
    page.end_row(row_height(page.lines(quote.shop.name, 0, 2, _TITLE, bold=True), _TITLE, padding=6))


def _write_shop_and_numbers(page: Page, quote: Quote, phrases: Phrases, names: dict[str, str]) -> None:
    shop = quote.shop
    lines = (
        shop.contact,
        _one_line(shop.address),
        _joined(shop.phone, shop.email),
        _joined(shop.website, shop.tax_number),
    )
    left = _present(*lines)
    right: list[tuple[str, CellValue]] = [
        ("number", quote.number),
        ("revision", quote.revision),
        ("quote_date", quote.quote_date),
        ("valid_until", quote.terms.valid_until),
    ]
    quiet = page.inks(size=_SMALL, color=QUIET, text_wrap=True)
    label_ink = page.inks(size=_SMALL, color=QUIET, align="right", text_wrap=True)
    for text, entry in zip_longest(left, right):
        heights = [1]
        if text:
            page.span(0, 1, text, quiet)
            heights.append(page.lines(text, 0, 1, _SMALL))
        if entry:
            key, value = entry
            label = phrases.text(key)
            page.span(2, 3, label, label_ink)
            page.write(4, value, _value_ink(page, key))
            heights += [page.lines(label, 2, 3, _SMALL), page.lines(str(value), 4, 4, _SMALL, bold=key == "number")]
            if key == "number":
                names["quote_number"] = f"$E${page.row + 1}"
        page.end_row(row_height(max(heights), _SMALL))


def _value_ink(page: Page, key: str) -> Format:
    if key == "number":
        return page.inks(size=_SMALL, bold=True, align="right", text_wrap=True)
    return page.inks(size=_SMALL, align="right", num_format="0" if key == "revision" else DATE)


def _write_rule(page: Page) -> None:
    for column in range(5):
        page.write(column, None, page.inks(bottom=2, bottom_color=ACCENT))
    page.end_row(6)
    page.gap(8)


def _write_client_and_event(page: Page, quote: Quote, phrases: Phrases) -> None:
    """Write two columns of lines: whom the quote is for, and what for."""
    caption = page.inks(size=_SMALL, color=ACCENT, bold=True)
    page.span(0, 1, phrases.text("prepared_for"), caption)
    page.span(2, 4, phrases.text("event"), caption)
    page.end_row(row_height(1, _SMALL))
    left: list[CellValue] = [quote.client, *_present(quote.contact, quote.email, quote.phone)]
    when = datetime.combine(quote.event_date, quote.event_time) if quote.event_time else quote.event_date
    right: list[CellValue] = [*_present(quote.event), when, *_present(*_place(quote))]
    for number, (one, other) in enumerate(zip_longest(left, right)):
        lines = [_write_entry(page, 0, 1, one, number), _write_entry(page, 2, 4, other, number)]
        page.end_row(row_height(max(lines), _BODY, padding=2.5))


def _write_entry(page: Page, first: int, last: int, value: CellValue, number: int) -> int:
    if value is None:
        return 1
    form = DATE_AND_TIME if isinstance(value, datetime) else DATE
    bold = number == 0
    ink = page.inks(
        size=_BODY, bold=bold, text_wrap=True, align="left", num_format=form if not isinstance(value, str) else "@"
    )
    page.span(first, last, value, ink)
    width = sum(page.widths[first : last + 1])
    return line_count(value, width, _BODY, bold=bold) if isinstance(value, str) else 1


def _present(*texts: str) -> Sequence[str]:
    return [text.strip() for text in texts if text.strip()]


def _place(quote: Quote) -> tuple[str, ...]:
    """Give venue and address: on one line where they are short."""
    whole = ", ".join(_present(quote.venue, _one_line(quote.address)))
    return (whole,) if len(whole) <= _SHORT else (quote.venue, _one_line(quote.address))


def _one_line(address: str) -> str:
    """Put an address on one line, where its lines don't end in commas already."""
    return ", ".join(line.strip().rstrip(",") for line in address.split("\n") if line.strip())


def _joined(*texts: str) -> str:
    return " · ".join(_present(*texts))
