"""Plain tables on the crew's pages: headings, rows with ruled lines, boxes to tick."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import zip_longest

from quoting.writing.inks import ACCENT, HAIRLINE, INK, QUIET
from quoting.writing.pages import CellValue, Page
from quoting.writing.text_heights import in_pieces, row_height

_MOST_LINES = 28
"""Lines of text in one row: more would be higher than a row may be."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """One column of a table on a page: page columns `first` to `last`, and how its values look."""

    heading: str
    first: int
    last: int
    number_format: str = ""
    bold: bool = False
    is_box: bool = False
    indent: int = 0

    @property
    def is_number(self) -> bool:
        """True where values are numbers, set to the right."""
        return bool(self.number_format)


def write_heading(page: Page, text: str) -> None:
    """Begin a part of the page with its heading, kept together with what follows."""
    page.begin_block()
    page.gap(9)
    page.paragraph(text, 0, len(page.widths) - 1, size=11, bold=True, color=ACCENT, padding=5)


def write_table(page: Page, fields: Sequence[Field], rows: Sequence[Sequence[CellValue]], *, size: float = 10) -> None:
    """Write headings and rows; a page may end between rows, but not after the headings."""
    for field in fields:
        align = "right" if field.is_number else "center" if field.is_box else "left"
        look: dict[str, object] = {"indent": field.indent} if field.indent else {}
        ink = page.inks(
            size=8.5, bold=True, color=QUIET, bottom=1, bottom_color=INK, align=align, text_wrap=True, **look
        )
        page.span(field.first, field.last, field.heading, ink)
    page.end_row(
        row_height(max(page.lines(f.heading, f.first, f.last, 8.5, bold=True) for f in fields), 8.5, padding=4)
    )
    write_rows(page, fields, rows, size=size)


def write_rows(page: Page, fields: Sequence[Field], rows: Sequence[Sequence[CellValue]], *, size: float = 10) -> None:
    """Write rows of a table whose headings stand above already."""
    for number, row in enumerate(rows):
        if number > 1:
            page.begin_block()
        _write_row(page, fields, row, size)


def _write_row(page: Page, fields: Sequence[Field], row: Sequence[CellValue], size: float) -> None:
    """Write a row; one whose text would make it higher than a row may be goes on in further rows."""
    pieces = [_pieces(page, field, value, size) for field, value in zip(fields, row, strict=True)]
    for part in zip_longest(*pieces):
        _write_cells(page, fields, part, size)


def _pieces(page: Page, field: Field, value: CellValue, size: float) -> list[CellValue]:
    if not isinstance(value, str) or page.lines(value, field.first, field.last, size, bold=field.bold) <= _MOST_LINES:
        return [value]
    width = sum(page.widths[field.first : field.last + 1])
    return [*in_pieces(value, width, size, _MOST_LINES, bold=field.bold)]


def _write_cells(page: Page, fields: Sequence[Field], row: Sequence[CellValue], size: float) -> None:
    lines = 1
    for field, value in zip(fields, row, strict=True):
        look: dict[str, object] = {
            "size": size,
            "bold": field.bold,
            "bottom": 1,
            "bottom_color": HAIRLINE,
            "text_wrap": True,
            "valign": "vcenter",
        }
        if field.indent:
            look |= {"align": "left", "indent": field.indent}
        if field.is_number:
            look |= {"align": "right", "num_format": field.number_format}
        if field.is_box:
            look |= {"align": "center", "size": size + 2}
        page.span(field.first, field.last, value, page.inks(**look))
        if isinstance(value, str):
            lines = max(lines, page.lines(value, field.first, field.last, size, bold=field.bold))
    page.end_row(row_height(lines, size, padding=6))
