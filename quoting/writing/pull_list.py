"""What to take from the shelves: balloons by colour then size with their sizer settings, then everything else."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from quoting.domain.measures import fill_words
from quoting.domain.prices import Shape
from quoting.domain.quotes import JobSheet, StockLine
from quoting.writing.crew_tables import Field, write_heading, write_rows, write_table
from quoting.writing.file_names import numbered
from quoting.writing.front_page import BOX
from quoting.writing.inks import ACCENT, HAIRLINE, QUIET
from quoting.writing.number_formats import WHOLE, percent_words
from quoting.writing.pages import CellValue, Page

_BALLOONS = (
    Field(heading="", first=0, last=0, is_box=True),
    Field(heading="Size", first=1, last=1, bold=True),
    Field(heading="Item", first=2, last=3),
    Field(heading="May break", first=4, last=4),
    Field(heading="Sizer", first=5, last=5, bold=True),
    Field(heading="Need", first=6, last=6, number_format=WHOLE),
    Field(heading="With spares", first=7, last=7, number_format=WHOLE, bold=True),
)
_OTHERS = (
    Field(heading="", first=0, last=0, is_box=True),
    Field(heading="Item", first=1, last=5),
    Field(heading="What", first=6, last=6),
    Field(heading="Take", first=7, last=7, number_format=WHOLE, bold=True),
)
_WHY = (
    "Spares: so many more than needed that enough of every kind stay whole, by the share that may break and the "
    "shop's service level, or by its flat share. More break outdoors and in heat."
)
_BALLOON_SHAPES = frozenset(shape.value for shape in Shape)


def write_pull_list(page: Page, sheet: JobSheet) -> None:
    """Write the pull list of a job, with boxes to tick."""
    last = len(page.widths) - 1
    page.paragraph("Pull list", 0, last, size=18, bold=True, color=ACCENT, padding=5)
    page.paragraph(
        f"{numbered(sheet.quote)} · {sheet.quote.client}", 0, last, size=11, color=QUIET, bottom=2, bottom_color=ACCENT
    )
    balloons = sorted((line for line in sheet.stock if line.shape in _BALLOON_SHAPES), key=_colour_then_size)
    if balloons:
        write_heading(page, "Balloons, by colour")
        page.paragraph(_WHY, 0, last, size=9, color=QUIET, padding=4)
        write_table(page, _BALLOONS, [])
    for (colour, finish), lines in groupby(balloons, key=lambda line: (line.colour, line.finish)):
        page.begin_block()
        page.gap(4)
        page.paragraph(_colour_words(colour, finish), 0, last, size=10, bold=True, bottom=1, bottom_color=HAIRLINE)
        write_rows(page, _BALLOONS, [_balloon_row(line, sheet.quote.length_unit) for line in lines])
    others = [line for line in sheet.stock if line.shape not in _BALLOON_SHAPES]
    if others:
        write_heading(page, "Hardware that stays")
        write_table(page, _OTHERS, [(BOX, line.item, line.shape, line.with_spares) for line in others])
    if sheet.hire:
        write_heading(page, "Hired out, to come back")
        write_table(page, _OTHERS, [(BOX, line.item, "hire", line.count) for line in sheet.hire])


def _colour_then_size(line: StockLine) -> tuple[str, str, str, int, str]:
    return line.colour.casefold(), line.finish.casefold(), line.shape, line.size or 0, line.item.casefold()


def _colour_words(colour: str, finish: str) -> str:
    words = f"{colour}, {finish}" if finish and colour else colour or finish or "Balloons"
    return words[:1].upper() + words[1:]


def _balloon_row(line: StockLine, unit: str) -> Sequence[CellValue]:
    size = f"{line.size}" if line.shape == Shape.TWISTER.value else f"{line.size} in"
    sizer = "\n".join(fill_words(fill, unit) for fill in line.fills_cm)
    chance = percent_words(line.breakage)
    return BOX, size, f"{line.item} ({line.shape})", chance, sizer or "\N{EN DASH}", line.need, line.with_spares
