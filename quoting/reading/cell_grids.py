"""Gathering the cells of one sheet, merged ranges spread over all of their cells."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal

from quoting.domain.cells import Cell, Sheet
from quoting.domain.places import Place
from quoting.reading.archives import UnreadableError

LAST_ROW, LAST_COLUMN = 1_048_576, 16_384
"""The farthest cell a sheet can have (ECMA-376 leaves it open; all office software stops here; from memory)."""
MOST_CELLS = 500_000
"""Filled cells of one sheet, merged ones counted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Merge:
    """A merged range, from its first to its last row and column."""

    first_row: int
    first_column: int
    last_row: int
    last_column: int


class CellGrid:
    """Takes in the cells of one sheet as a file gives them, and gives the `Sheet`."""

    __slots__ = ("_count", "_merges", "_place", "_rows")

    def __init__(self, place: Place) -> None:
        self._place = place
        self._rows: dict[int, dict[int, Cell]] = {}
        self._merges: list[Merge] = []
        self._count = 0

    def place(self, row: int, column: int) -> Place:
        """The place of a cell of this sheet; UnreadableError beyond the last row or column there can be."""
        if not (1 <= row <= LAST_ROW and 1 <= column <= LAST_COLUMN):
            raise UnreadableError("P101", f"the sheet {self._place.sheet} has a cell outside every sheet's edge")
        return Place(workbook=self._place.workbook, sheet=self._place.sheet, row=row, column=column)

    def add(self, cell: Cell) -> None:
        """Take in a cell; a blank one is left out. UnreadableError for more cells than a sheet of people has."""
        if cell.value is None and not cell.is_uncalculated:
            return
        self.make_room(1)
        self._count += 1
        self._rows.setdefault(cell.place.row, {})[cell.place.column] = cell

    def make_room(self, count: int) -> None:
        """Refuse at once what would take the sheet beyond MOST_CELLS; UnreadableError."""
        if self._count + count > MOST_CELLS:
            raise UnreadableError("P105", f"the sheet {self._place.sheet} has more than {MOST_CELLS:,} cells")

    def merge(self, merge: Merge) -> None:
        """Take in a merged range."""
        self._merges.append(merge)

    def sheet(self) -> Sheet:
        """The sheet, rows and columns in order. A merged range reaches no further than the filled part of the sheet."""
        last_row = max(self._rows, default=0)
        last_column = max((column for cells in self._rows.values() for column in cells), default=0)
        for merge in self._merges:
            first = self._rows.get(merge.first_row, {}).get(merge.first_column)
            if first is not None:
                self._spread(first, merge, last_row, last_column)
        rows = {row: dict(sorted(cells.items())) for row, cells in sorted(self._rows.items())}
        return Sheet(name=self._place.sheet, rows=rows)

    def _spread(self, first: Cell, merge: Merge, last_row: int, last_column: int) -> None:
        rows = range(merge.first_row, min(merge.last_row, last_row) + 1)
        columns = range(merge.first_column, min(merge.last_column, last_column) + 1)
        self.make_room(len(rows) * len(columns))
        for row in rows:
            for column in columns:
                self._rows.get(row, {}).pop(column, None)
                self.add(replace(first, place=self.place(row, column), merged_from=first.place))


def number_of(text: str) -> int | Decimal:
    """The number of a cell's own text: whole as written, else a float through its shortest text.

    Infinity and NaN stay what they are, for typing to refuse. ValueError where it is no number.

    >>> number_of("19.899999999999999")
    Decimal('19.9')
    """
    stripped = text.strip()
    if stripped.lstrip("+-").isdecimal() and len(stripped) < 40:
        return int(stripped)
    return Decimal(repr(float(stripped)))
