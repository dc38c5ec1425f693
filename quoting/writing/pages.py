"""A sheet being written from top to bottom, with the height of every row and where pages may end."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime, time
from decimal import Decimal
from itertools import pairwise

from xlsxwriter.format import Format
from xlsxwriter.worksheet import Worksheet

from quoting.writing.inks import POINTS_PER_PIXEL, Inks
from quoting.writing.printable_text import printable
from quoting.writing.text_heights import in_pieces, line_count, row_height

_PAPERS = {"A4": (9, 595.3, 841.9), "Letter": (1, 612.0, 792.0)}
"""Name → (number in the file format, width, height in points)."""
_SIDE, _TOP, _BOTTOM = 0.7, 0.5, 0.65
"""Margins in inches; the foot of the page stands inside the lower one."""
_LEAST_SCALE = 0.8
"""Print is shrunk to fit one page only as long as it stays easy to read."""
_WIDEST = 1.07
"""Some office software sets columns so much wider than their pixels say: by the true width of a digit."""

_LITTLE = 0.3
"""Share of a page that is too little to stand on the last one alone."""

_HIGHEST = 409.0
"""Points: the file format takes no higher row."""
_PIECE_LINES = 12

_SURE = 0.965
"""Share of a page that is counted on: office softwares set the same rows a little differently."""

CellValue = str | int | float | Decimal | date | datetime | time | None


class Page:
    """One sheet, written row by row: cells at `row`, then `end_row` with the row's height.

    Columns count from 0; `widths` are in pixels. `begin_block` marks rows that should
    stay together on a page, from there to the next mark.
    """

    def __init__(self, sheet: Worksheet, inks: Inks, widths: Sequence[float]) -> None:
        self.sheet, self.inks, self.widths = sheet, inks, tuple(widths)
        self.row = 0
        self._heights: list[float] = []
        self._blocks: list[int] = [0]
        for column, width in enumerate(self.widths):
            sheet.set_column_pixels(column, column, int(width))
        sheet.hide_gridlines(2)

    def write(self, column: int, value: CellValue, ink: Format) -> None:
        """Write a value at a column of the row: text as text, an exact number as a number, None as a blank."""
        write_value(self.sheet, self.row, column, value, ink)

    def formula(self, column: int, formula: str, value: Decimal | float | str, ink: Format) -> None:
        """Write a formula with the value it comes to."""
        write_formula(self.sheet, self.row, column, formula, value=value, ink=ink)

    def span(self, first: int, last: int, value: CellValue, ink: Format) -> None:
        """Write a value over merged columns `first` to `last`."""
        if first == last:
            return self.write(first, value, ink)
        self.sheet.merge_range(self.row, first, self.row, last, "", ink)
        return self.write(first, value, ink)

    def lines(self, text: str, first: int, last: int, size: float, *, bold: bool = False) -> int:
        """Give how many lines `text` takes over columns `first` to `last`."""
        return line_count(text, sum(self.widths[first : last + 1]), size, bold=bold)

    def paragraph(
        self, text: str, first: int, last: int, *, size: float = 9, padding: float = 3, **ink: object
    ) -> None:
        """Write wrapped text over columns as a row of its own, high enough for all of it; rows where one can't be."""
        bold = bool(ink.get("bold"))
        lines = self.lines(text, first, last, size, bold=bold)
        if row_height(lines, size, padding=padding) > _HIGHEST:
            width = sum(self.widths[first : last + 1])
            for piece in in_pieces(text, width, size, _PIECE_LINES, bold=bold):
                self.begin_block()
                self.paragraph(piece, first, last, size=size, padding=padding, **ink)
            return
        self.span(first, last, text, self.inks(size=size, text_wrap=True, **ink))
        self.end_row(row_height(lines, size, padding=padding))

    def end_row(self, height: float) -> None:
        """Close the row at a height in points, at most what the file format allows."""
        height = min(height, _HIGHEST)
        self.sheet.set_row(self.row, height)
        self._heights.append(height)
        self.row += 1

    def gap(self, height: float) -> None:
        """Leave an empty row."""
        self.end_row(height)

    def begin_block(self) -> None:
        """Say that a page may end before this row."""
        self._blocks.append(self.row)

    def cell(self, column: int, *, row: int | None = None) -> str:
        """Give the address of a cell of this sheet, this row unless another is named."""
        return f"{chr(65 + column)}{(self.row if row is None else row) + 1}"

    def set_paper(
        self, paper: str, *, foot: str, head: str = "", repeated: int | None = None, repeated_until: int = 0,
        least_scale: float = _LEAST_SCALE, is_even: bool = False,
    ) -> None:
        """Lay the sheet out for printing, once every row is written.

        A little too much for one page is shrunk to fit it; more gets page breaks before
        blocks. `repeated` is a row that is printed again on every page, where rows up to
        `repeated_until` go beyond the first page. `head` is printed over every page.
        `is_even`: where little would be left for the last page, all pages get as much.
        """
        self.sheet.set_paper(_PAPERS[paper][0])
        self.sheet.set_margins(left=_SIDE, right=_SIDE, top=_TOP, bottom=_BOTTOM)
        self.sheet.set_footer(foot, {"margin": 0.35})
        if head:
            self.sheet.set_header(head, {"margin": 0.22})
        self.sheet.print_area(0, 0, max(self.row - 1, 0), len(self.widths) - 1)
        self.sheet.center_horizontally()
        if self.fits(paper, least_scale=least_scale):
            self.sheet.fit_to_pages(1, 1)
            return
        room, across = self._room(paper)
        # Fitting to a width would make office software ignore page breaks, so the scale is set instead.
        self.sheet.set_print_scale(int(across * 100))
        breaks = self._breaks(room / (int(across * 100) / 100), repeated)
        if is_even and breaks and sum(self._heights[breaks[-1]:]) < _LITTLE * room / across:
            breaks = self._even_breaks(len(breaks), room / across, repeated)
        if repeated is not None and breaks and breaks[0] <= repeated_until:
            self.sheet.repeat_rows(repeated)
        if breaks:
            self.sheet.set_h_pagebreaks(breaks)

    def fits(self, paper: str, *, least_scale: float = _LEAST_SCALE) -> bool:
        """Tell whether the rows written so far go on one page, shrunk a little where they may be."""
        room, across = self._room(paper)
        whole = sum(self._heights)
        return whole * min(across, least_scale) <= room

    def page_starts(self, paper: str) -> tuple[int, ...]:
        """Give the first row of every page that the rows written so far take, shrunk to one page where they may be."""
        room, across = self._room(paper)
        return (0,) if self.fits(paper) else (0, *self._breaks(room / across, None))

    def _room(self, paper: str) -> tuple[float, float]:
        """Height in points that a page has for rows, and the scale at which the columns go on it."""
        _, width, height = _PAPERS[paper]
        across = min(1.0, (width - 144 * _SIDE) / (sum(self.widths) * POINTS_PER_PIXEL * _WIDEST))
        return (height - 72 * (_TOP + _BOTTOM)) * _SURE, across

    def _even_breaks(self, count: int, room: float, repeated: int | None) -> list[int]:
        """Give so many breaks with the least room (points) on a page for which they are enough."""
        least, most = 0.0, room
        for _ in range(12):
            middle = (least + most) / 2
            if len(self._breaks(middle, repeated)) > count:
                least = middle
            else:
                most = middle
        return self._breaks(most, repeated)

    def _breaks(self, room: float, repeated: int | None) -> list[int]:
        starts = sorted({*self._blocks, self.row})
        head = self._heights[repeated] if repeated is not None else 0.0
        breaks: list[int] = []
        used = 0.0
        for start, end in pairwise(starts):
            block = sum(self._heights[start:end])
            if used and used + block > room and start:
                breaks.append(start)
                used = head
            used += block
            while used > room:  # a block longer than a page runs on by itself
                used -= room - head
        return breaks


def write_value(sheet: Worksheet, row: int, column: int, value: CellValue, ink: Format) -> None:
    """Write a value by its kind; text is never taken for anything but text."""
    if value is None or value == "":
        sheet.write_blank(row, column, None, ink)
    elif isinstance(value, str):
        sheet.write_string(row, column, printable(value), ink)
    elif isinstance(value, (date, time)):
        sheet.write_datetime(row, column, value, ink)
    else:
        sheet.write_number(row, column, float(value), ink)


def write_formula(
    sheet: Worksheet, row: int, column: int, formula: str, *, value: Decimal | float | str, ink: Format
) -> None:
    """Write a formula (without "=") with the value it comes to, for readers that compute nothing."""
    carried = value if isinstance(value, str) else float(value)
    sheet.write_formula(row, column, f"={formula}", ink, carried)
