"""Pictures on papers: beside a line of the quote, and on a build page of the workshop sheet."""

from __future__ import annotations

import io
from collections.abc import Callable, Mapping

from xlsxwriter import Workbook

from quoting.writing.inks import POINTS_PER_PIXEL, QUIET, Inks
from quoting.writing.pages import Page
from quoting.writing.pictures.job_pictures import JobPictures, Picture
from quoting.writing.text_heights import row_height

_PIXELS_PER_INCH = 96
"""As office software counts."""
_HEIGHTS = (400, 330, 270, 230, 200)
"""Pixels: a picture on a quote is 5, 4.1, 3.4, 2.9 or 2.5 cm high, its words always of one size."""
_LEAST_OF_LONG = _HEIGHTS[2]
_ROOM = 4.0
"""Points over and under a picture together."""
_SMALL = 9


def fitting_pictures(
    pictures: JobPictures | None, write: Callable[[Page, Mapping[str, Picture]], range], widths: tuple[float, ...],
    paper: str,
) -> Mapping[str, Picture]:
    """Draw a quote's pictures as high as one page allows; on a longer quote as high as costs no further page.

    There they may be lower, if so the totals stay on the page of the lines. `write`
    writes the quote on pages that are thrown away, and gives the rows of its last line
    and totals with the first one of the payments.
    """
    if pictures is None or not pictures.pieces:
        return {}
    found: dict[int, tuple[int, int]] = {}
    for height in _HEIGHTS:
        trial = Workbook(io.BytesIO(), {"in_memory": True})
        page = Page(trial.add_worksheet(), Inks(trial), widths)
        together = write(page, pictures.room(height))
        starts = page.page_starts(paper)
        if len(starts) == 1:
            return pictures.for_quote(height)
        found[height] = (len(starts), _torn(together, starts))
    best = min(found[height] for height in _HEIGHTS if height >= _LEAST_OF_LONG)
    heights = [height for height in _HEIGHTS if height >= _LEAST_OF_LONG or found[height] < best]
    return pictures.for_quote(min(heights, key=lambda height: (*found[height], -height)))


def _torn(together: range, starts: tuple[int, ...]) -> int:
    """Say how much a page's start parts: 2 where the totals are on another page than the lines, 1 the payments."""
    if any(start in together[:-1] for start in starts):
        return 2
    return int(together[-1] in starts)


def write_beside(page: Page, details: str, picture: Picture) -> None:
    """Write the details of a line in the second column, its picture over the columns after it, in one row."""
    lines = page.lines(details, 1, 1, _SMALL)
    wide, high = (side * _PIXELS_PER_INCH for side in picture.size_in)
    page.write(1, details, page.inks(size=_SMALL, color=QUIET, text_wrap=True))
    _insert(page, picture, 1.0, left=sum(page.widths) - wide - 2)
    page.end_row(max(row_height(lines, _SMALL, padding=2), high * POINTS_PER_PIXEL + _ROOM))


def write_across(page: Page, picture: Picture) -> None:
    """Write a picture in a row of its own, in the middle of a build page."""
    scale = min(1.0, sum(page.widths) / (picture.size_in[0] * _PIXELS_PER_INCH))
    wide, high = (side * _PIXELS_PER_INCH * scale for side in picture.size_in)
    page.begin_block()
    _insert(page, picture, scale, left=(sum(page.widths) - wide) / 2)
    page.end_row(high * POINTS_PER_PIXEL + _ROOM)


def _insert(page: Page, picture: Picture, scale: float, *, left: float) -> None:
    """Put a picture on the page's row, `left` pixels from its edge; it moves with the row but keeps its size."""
    if not picture.png:
        return
    column = 0
    while column < len(page.widths) - 1 and left >= page.widths[column]:
        left -= page.widths[column]
        column += 1
    page.sheet.insert_image(page.row, column, "picture.png", {
        "image_data": io.BytesIO(picture.png), "x_scale": scale, "y_scale": scale, "x_offset": max(0, round(left)),
        "y_offset": round(_ROOM / 2 / POINTS_PER_PIXEL), "object_position": 2, "description": picture.text,
    })
