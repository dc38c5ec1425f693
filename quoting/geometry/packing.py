"""How many balloons fill an area or a room: grids, packing shares, volumes.

Lengths are in any one unit, areas and volumes in its square and cube. Nothing here is
rounded but the whole rows and columns of a grid.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from quoting.domain.counts import rounded_down, rounded_up

SQUARE_DISCS = math.pi / 4
"""Share of a plane that equal discs cover on a square grid."""

HEXAGON_DISCS = math.pi / (2 * math.sqrt(3))
"""The same on a staggered grid, the densest there is."""

CUBIC_SPHERES = math.pi / 6
"""Share of a room that equal spheres fill on a cubic grid."""

CENTRED_SPHERES = math.pi * math.sqrt(3) / 8
"""The same on a body-centred grid."""

DENSEST_SPHERES = math.pi / (3 * math.sqrt(2))
"""The most that equal spheres can fill (Kepler's bound)."""

RANDOM_SPHERES = 0.64
"""Random close packing of equal spheres (0.64 ± 0.02: Berryman 1983); mixed sizes pack a little closer."""

ROW_RISE = math.sqrt(3) / 2
"""Rise of a staggered row over the row below, in pitches."""


def sphere_volume(diameter: float) -> float:
    """Volume of a sphere."""
    return math.pi / 6 * diameter**3


def tube_volume(diameter: float, length: float) -> float:
    """Volume of a long balloon: a tube with half a sphere at each end, `length` over all."""
    return math.pi / 4 * diameter**2 * (length - diameter) + sphere_volume(diameter)


def mean_sphere_volume(diameters: Sequence[float], shares: Sequence[float]) -> float:
    """Mean volume of a mix by number; shares need not add up to 1."""
    mixed = sum(share * sphere_volume(diameter) for diameter, share in zip(diameters, shares, strict=True))
    return mixed / sum(shares)


def spheres_in(volume: float, sphere: float, share: float) -> float:
    """How many spheres of a volume a room holds at a packing share; not rounded."""
    return share * volume / sphere


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """Rows of equal cells, `pitch` from middle to middle, from the bottom up.

    Odd rows (the first, third…) have `columns` cells; even rows have
    `shifted_columns` and, in a staggered grid, begin half a pitch further to the right.
    """

    pitch: float
    columns: int
    shifted_columns: int
    rows: int
    is_staggered: bool

    @property
    def row_pitch(self) -> float:
        """From the middle of a row to the middle of the next."""
        return self.pitch * (ROW_RISE if self.is_staggered else 1.0)

    @property
    def width(self) -> float:
        """From the outer edge of the leftmost cell to that of the rightmost."""
        if self.rows < 2 or not self.is_staggered:
            return self.columns * self.pitch
        return max(self.columns, self.shifted_columns + 0.5) * self.pitch

    @property
    def height(self) -> float:
        """From the bottom of the first row's cells to the top of the last row's."""
        return self.pitch + (self.rows - 1) * self.row_pitch

    @property
    def count(self) -> int:
        """All cells."""
        return sum(self.cells_in(row) for row in range(1, self.rows + 1))

    def cells_in(self, row: int) -> int:
        """How many cells a row (from 1) has."""
        return self.columns if row % 2 else self.shifted_columns

    def middle(self, row: int, column: int) -> tuple[float, float]:
        """Middle of a cell (row and column from 1), from the left edge and the bottom of the grid."""
        shift = 0.5 if self.is_staggered and row % 2 == 0 else 0.0
        return (column - 0.5 + shift) * self.pitch, self.pitch / 2 + (row - 1) * self.row_pitch


def covering_grid(width: float, height: float, pitch: float, *, is_staggered: bool) -> Grid:
    """Give the least grid whose whole rows and columns cover an area."""
    columns = max(1, rounded_up(width / pitch))
    if not is_staggered:
        return Grid(pitch=pitch, columns=columns, shifted_columns=columns, is_staggered=False,
                    rows=max(1, rounded_up(height / pitch)))
    return Grid(pitch=pitch, columns=columns, shifted_columns=max(1, rounded_up(width / pitch - 0.5)),
                rows=max(1, rounded_up((height / pitch - 1) / ROW_RISE) + 1), is_staggered=True)


def fitting_grid(width: float, height: float, pitch: float, *, is_staggered: bool) -> Grid:
    """Give the largest grid whose whole rows and columns fit into an area; it may have none."""
    columns = rounded_down(width / pitch)
    if not is_staggered:
        return Grid(pitch=pitch, columns=columns, shifted_columns=columns, is_staggered=False,
                    rows=rounded_down(height / pitch))
    rows = rounded_down((height / pitch - 1) / ROW_RISE) + 1 if height >= pitch else 0
    return Grid(pitch=pitch, columns=columns, shifted_columns=max(0, rounded_down(width / pitch - 0.5)), rows=rows,
                is_staggered=True)
