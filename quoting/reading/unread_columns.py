"""Columns under headings that are none of ours, where the sheet lacks some of our columns.

An owner who renames a heading sees nothing amiss, and a price may change without a word.
What such a column may hold is gathered here; checking, which knows all books, judges it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from quoting.domain.cells import Cell, Sheet, UnreadColumn, Value
from quoting.domain.layouts import Column, SheetLayout
from quoting.reading.headings import HeadingRow, is_further_part
from quoting.reading.texts import is_blank, seen_text
from quoting.reading.values import read_value


def unread_columns(
    sheet: Sheet, layout: SheetLayout, found: HeadingRow, rows: Sequence[int]
) -> Iterator[UnreadColumn]:
    """The unknown headings with something under them in `rows`, the numbers of the table's rows; none where
    the sheet has all our columns, since then they are columns of the owner's own.
    """
    had = {heading.column.key for heading in found.headings.values()}
    lacking = [column for column in layout.columns if column.key not in had]
    for number, cell in sheet.rows[found.row].items():
        if not lacking or number in found.headings or is_blank(cell) or is_further_part(cell):
            continue
        filled = [sheet.rows[row][number] for row in rows if number in sheet.rows[row]]
        filled = [one for one in filled if not is_blank(one)]
        if filled:
            yield UnreadColumn(
                place=cell.place, heading=seen_text(cell),
                cells=tuple(Value(value=seen_text(one), place=one.place, seen=seen_text(one)) for one in filled),
                lacking=tuple(column.key for column in lacking),
                readings={column.key: _readings(filled, column) for column in lacking if column.changes_price},
            )


def _readings(cells: Sequence[Cell], column: Column) -> tuple[Value, ...]:
    """Those of the cells that can be understood as the column's; a bare number has its first unit."""
    read = [read_value(cell, column, column.units[0] if column.units else "") for cell in cells]
    return tuple(outcome.value for outcome in read if outcome.value is not None)
