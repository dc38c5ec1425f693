"""Where a value was typed: workbook, sheet, row and column."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class Place:
    """One cell of one workbook, or a whole row, sheet or workbook.

    `row` and `column` count from 1 as office software shows them. A `column` of 0
    means the whole row, a `row` of 0 the whole sheet, an empty `sheet` the whole
    workbook. Places sort by workbook, sheet, row, column.
    """

    workbook: str
    sheet: str = ""
    row: int = 0
    column: int = 0

    @property
    def cell(self) -> str:
        """The cell's address as office software writes it ("G7"), "7:7" for a row, "" for a sheet."""
        if not self.row:
            return ""
        if not self.column:
            return f"{self.row}:{self.row}"
        return f"{column_letters(self.column)}{self.row}"

    def at(self, column: int) -> Place:
        """The place in the same row at another column."""
        return Place(workbook=self.workbook, sheet=self.sheet, row=self.row, column=column)

    def __str__(self) -> str:
        if not self.sheet:
            return self.workbook
        if not self.row:
            return f"{self.workbook}, {self.sheet}"
        if not self.column:
            return f"{self.workbook}, {self.sheet}, row {self.row}"
        return f"{self.workbook}, {self.sheet}!{self.cell}"


def column_letters(column: int) -> str:
    """Letters of a column counted from 1: 1 is "A", 27 is "AA"."""
    letters = ""
    while column:
        column, place = divmod(column - 1, 26)
        letters = chr(65 + place) + letters
    return letters
