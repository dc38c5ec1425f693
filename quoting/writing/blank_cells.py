"""Single cells of the blank book: what may stand in one, and the notes on headings."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, time
from decimal import Decimal

from xlsxwriter.format import Format
from xlsxwriter.worksheet import Worksheet


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedFormula:
    """A formula as an owner types it ("=L30*2"), with the value it came to; "" where it was never worked out."""

    formula: str
    value: str | float = ""


CellValue = str | int | float | Decimal | bool | date | time | TypedFormula
BlankRows = Sequence[Mapping[str, CellValue]]
"""Rows of a sheet: column key → value."""

NOTE_WIDTH, NOTE_LINE = 300, 17
"""Size of a heading's note in pixels: its width, and the height of one line."""


def write_value(sheet: Worksheet, row: int, column: int, value: CellValue, ink: Format) -> None:
    """Write one value with its own type; text is never taken for a formula, link or number."""
    if isinstance(value, TypedFormula):
        sheet.write_formula(row, column, value.formula, ink, value.value)
    elif isinstance(value, bool):
        sheet.write_string(row, column, "yes" if value else "no", ink)
    elif isinstance(value, (int, float, Decimal)):
        sheet.write_number(row, column, value, ink)
    elif isinstance(value, (date, time)):
        sheet.write_datetime(row, column, value, ink)
    else:
        sheet.write_string(row, column, value, ink)


def write_note(sheet: Worksheet, row: int, column: int, note: str) -> None:
    """Hang a note on a cell, large enough for its text."""
    lines = sum(1 + len(line) // 44 for line in note.split("\n"))
    sheet.write_comment(row, column, note, {
        "x_scale": NOTE_WIDTH / 128, "height": NOTE_LINE * (lines + 1), "font_name": "Arial", "font_size": 9,
        "color": "#FFFFFF",
    })
