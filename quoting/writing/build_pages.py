"""A page per piece: how it is built, layer by layer."""

from __future__ import annotations

from collections.abc import Sequence

from quoting.domain.measures import fill_words
from quoting.domain.plans import BuildStep, Part
from quoting.domain.quotes import JobSheet, PricedPiece
from quoting.writing.crew_tables import Field, write_heading, write_table
from quoting.writing.file_names import numbered
from quoting.writing.front_page import BOX, size_words
from quoting.writing.inks import ACCENT, QUIET
from quoting.writing.number_formats import WHOLE
from quoting.writing.pages import CellValue, Page
from quoting.writing.pictures.job_pictures import Picture
from quoting.writing.quote_pictures import write_across
from quoting.writing.text_heights import row_height

_LAYERS = (
    Field(heading="", first=0, last=0, is_box=True),
    Field(heading="Step", first=1, last=1, bold=True),
    Field(heading="What to do", first=2, last=4),
    Field(heading="In all", first=5, last=7),
)
_STEPS = (*_LAYERS[:2], Field(heading="What to do", first=2, last=7))
"""Where the text of every step says already how many of what go in."""
_PARTS = (
    Field(heading="", first=0, last=0, is_box=True),
    Field(heading="Item", first=1, last=3, bold=True),
    Field(heading="Where", first=4, last=4),
    Field(heading="Sizer", first=5, last=5, bold=True),
    Field(heading="One piece", first=6, last=6, number_format=WHOLE),
    Field(heading="All", first=7, last=7, number_format=WHOLE, bold=True),
)


def write_build(page: Page, sheet: JobSheet, piece: PricedPiece, picture: Picture | None = None) -> None:
    """Write the page of one piece: its picture, parts and sizer settings, hired things, build order."""
    unit, last = sheet.quote.length_unit, len(page.widths) - 1
    page.span(0, 4, f"{piece.label}  {piece.title}", page.inks(size=18, bold=True, color=ACCENT, text_wrap=True))
    count = f"{piece.quantity} to build" if piece.quantity > 1 else ""
    page.span(5, last, count, page.inks(size=14, bold=True, align="right"))
    page.end_row(row_height(page.lines(f"{piece.label}  {piece.title}", 0, 4, 18, bold=True), 18, padding=5))
    size = size_words(piece.plan.outline, unit).replace("\n", ", ")
    words = " · ".join(text for text in (numbered(sheet.quote), sheet.quote.client, piece.form, size) if text)
    page.paragraph(words, 0, last, size=10, color=QUIET, padding=5, bottom=2, bottom_color=ACCENT)
    if piece.shop_notes.strip():
        page.paragraph(piece.shop_notes, 0, last, size=10, padding=8)
    if picture is not None:
        write_across(page, picture)
    parts = [_part_row(part, piece.quantity, unit) for part in piece.plan.parts]
    parts += [
        (
            BOX,
            need.item,
            "hire",
            fill_words(need.cut_cm, unit) if need.cut_cm else "",
            need.count,
            need.count * piece.quantity,
        )
        for need in piece.plan.hire
    ]
    if parts:
        write_heading(page, "Parts")
        write_table(page, _PARTS, parts)
    if piece.plan.build_order:
        write_heading(page, "Build order, from the first layer on")
        rows = [_layer_row(step, unit) for step in piece.plan.build_order]
        if any(row[-1] for row in rows):
            write_table(page, _LAYERS, rows)
        else:
            write_table(page, _STEPS, [row[:-1] for row in rows])


def _part_row(part: Part, quantity: int, unit: str) -> Sequence[CellValue]:
    sizer = "" if part.fill_cm is None else fill_words(part.fill_cm, unit)
    return BOX, part.item, part.role, sizer, part.count, part.count * quantity


def _layer_row(step: BuildStep, unit: str) -> Sequence[CellValue]:
    untold = [part for part in step.parts if not _is_told(part, step.text)]
    return BOX, str(step.number), step.text, "\n".join(_part_words(part, unit) for part in untold)


def _is_told(part: Part, text: str) -> bool:
    """Tell whether a step's text says already how many of this go in."""
    return f"{part.count} × {part.item}" in text or (part.count == 1 and part.item in text)


def _part_words(part: Part, unit: str) -> str:
    fill = f" at {fill_words(part.fill_cm, unit)}" if part.fill_cm is not None else ""
    return f"{part.count} × {part.item}{fill}"
