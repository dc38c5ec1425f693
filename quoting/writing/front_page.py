"""The front page of a workshop workbook: where, when, what, how long, with what care."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime, time
from decimal import Decimal
from itertools import zip_longest

from quoting.domain.measures import length_words
from quoting.domain.plans import Outline
from quoting.domain.quotes import JobSheet, PricedPiece
from quoting.writing.crew_tables import Field, write_heading, write_table
from quoting.writing.day_block import write_days
from quoting.writing.file_names import numbered
from quoting.writing.inks import ACCENT, INK, QUIET
from quoting.writing.number_formats import WHOLE
from quoting.writing.pages import CellValue, Page
from quoting.writing.site_block import write_flags
from quoting.writing.text_heights import row_height

BOX = "\N{BALLOT BOX}"
_HOURS = "0.0"

_PIECES = (
    Field(heading="Piece", first=0, last=1, bold=True),
    Field(heading="What", first=2, last=3),
    Field(heading="Built size", first=4, last=4),
    Field(heading="How many", first=5, last=5, number_format=WHOLE),
    Field(heading="Balloons, all", first=6, last=6, number_format=WHOLE),
    Field(heading="Hours, all", first=7, last=7, number_format=_HOURS),
)
_HIRED = (
    Field(heading="", first=0, last=0, is_box=True),
    Field(heading="Item", first=1, last=4, bold=True),
    Field(heading="Take", first=5, last=5, number_format=WHOLE),
    Field(heading="Owned", first=6, last=6, number_format=WHOLE),
    Field(heading="Back", first=7, last=7, is_box=True),
)


def write_front(page: Page, sheet: JobSheet) -> None:
    """Write the front page: no money on it."""
    quote = sheet.quote
    last = len(page.widths) - 1
    page.span(0, 4, quote.client, page.inks(size=18, bold=True, color=ACCENT, text_wrap=True))
    page.span(5, last, numbered(quote), page.inks(size=14, color=QUIET, align="right"))
    page.end_row(row_height(page.lines(quote.client, 0, 4, 18, bold=True), 18, padding=5))
    page.paragraph(
        quote.event or "Job sheet for the crew", 0, last, size=11, color=QUIET, padding=6, bottom=2, bottom_color=ACCENT
    )
    page.gap(6)
    _write_facts(page, sheet)
    write_heading(page, "Pieces")
    write_table(page, _PIECES, [_piece_row(piece, quote.length_unit) for piece in sheet.pieces])
    write_days(page, sheet)
    _write_hire(page, sheet)
    write_flags(page, sheet.flags)
    _write_hours(page, sheet)
    _write_texts(page, "Notes for the crew", _notes(sheet))
    _write_texts(page, "Care", sheet.cautions)


def _write_facts(page: Page, sheet: JobSheet) -> None:
    """Write two columns of facts: where and who; when."""
    quote = sheet.quote
    place = "\n".join(text for text in (quote.venue, quote.address) if text.strip())
    reach = "\n".join(text for text in (quote.contact, quote.phone, quote.email) if text.strip())
    left: list[tuple[str, CellValue]] = [
        ("Venue", place or "not given"),
        ("Contact", reach or "not given"),
        ("Setting", "outdoors" if sheet.is_outdoors else "indoors, draughty" if sheet.is_draughty else "indoors"),
        ("Distance", _distance(sheet)),
    ]
    right: list[tuple[str, CellValue]] = [
        ("Install", _moment(sheet.install_date, sheet.install_time)),
        ("Event", _moment(quote.event_date, quote.event_time)),
        ("Strike", _moment(sheet.strike_date, sheet.strike_time) or "not planned"),
    ]
    label = page.inks(size=9, color=QUIET)
    for one, other in zip_longest(left, right):
        lines = 1
        for pair, first, last in ((one, 0, 3), (other, 4, 7)):
            if pair is None:
                continue
            start = first + (2 if first == 0 else 1)
            page.span(first, start - 1, pair[0], label)
            _write_fact(page, start, last, pair[1], bold=first > 0)
            if isinstance(pair[1], str):
                lines = max(lines, page.lines(pair[1], start, last, 10))
        page.end_row(row_height(lines, 10, padding=4))


def _write_fact(page: Page, first: int, last: int, value: CellValue, *, bold: bool) -> None:
    form = "ddd d mmm yyyy, hh:mm" if isinstance(value, datetime) else "ddd d mmm yyyy"
    look = {} if isinstance(value, str) else {"num_format": form}
    page.span(first, last, value, page.inks(bold=bold, text_wrap=True, align="left", **look))


def _moment(day: date | None, clock: time | None) -> CellValue:
    if day is None:
        return None
    return datetime.combine(day, clock) if clock else day


def _distance(sheet: JobSheet) -> str:
    km = sheet.distance_km
    if km is None:
        return "not given"
    return f"{km / MILE_KM:.1f} mi" if sheet.quote.length_unit == "in" else f"{km:.1f} km"


MILE_KM = Decimal("1.609344")
"""Exact by definition of the mile."""


def _piece_row(piece: PricedPiece, unit: str) -> Sequence[CellValue]:
    hours = piece.hours.workshop + piece.hours.venue
    title = piece.title if piece.title.casefold() == piece.form.casefold() else f"{piece.title}\n{piece.form}"
    return (
        piece.label,
        title,
        size_words(piece.plan.outline, unit),
        piece.quantity,
        piece.plan.balloon_count * piece.quantity,
        hours,
    )


def size_words(outline: Outline | None, unit: str) -> str:
    """Say a built size: width and height, in the shop's unit; "" for what has none, and for a side that is 0."""
    if outline is None:
        return ""
    sides = ((outline.width_cm, "wide"), (outline.height_cm, "tall"))
    return "\n".join(f"{length_words(side, unit)} {way}" for side, way in sides if side)


def _write_hire(page: Page, sheet: JobSheet) -> None:
    if sheet.hire:
        write_heading(page, "Hired out, to come back")
        write_table(page, _HIRED, [(BOX, line.item, line.count, line.owned, BOX) for line in sheet.hire])


def _write_hours(page: Page, sheet: JobSheet) -> None:
    write_heading(page, "Hours of work")
    for label, hours in (
        ("In the workshop", sheet.hours.workshop),
        ("At the venue, set-up and strike included", _venue_hours(sheet)),
    ):
        page.span(0, 3, label, page.inks(color=QUIET))
        page.write(4, hours, page.inks(bold=True, align="left", num_format=f'{_HOURS}" h"'))
        page.end_row(row_height(1, 10, padding=4))


def _venue_hours(sheet: JobSheet) -> Decimal:
    """Sum the work of all visits; set-up is the job's, not any piece's."""
    return sum((visit.work_hours for visit in sheet.visits), Decimal(0)) if sheet.visits else sheet.hours.venue


def _notes(sheet: JobSheet) -> list[str]:
    own = [
        sheet.shop_notes,
        *(f"{piece.label}: {piece.shop_notes}" for piece in sheet.pieces if piece.shop_notes.strip()),
    ]
    told = [f"The client was told: {sheet.quote.notes}"] if sheet.quote.notes.strip() else []
    return [text for text in (*own, *told) if text.strip()]


def _write_texts(page: Page, heading: str, texts: Sequence[str]) -> None:
    if not texts:
        return
    write_heading(page, heading)
    for number, text in enumerate(texts):
        if number:
            page.begin_block()
        page.paragraph(text, 0, len(page.widths) - 1, size=9.5, color=INK, padding=4)
