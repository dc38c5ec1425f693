"""A wall of clusters on a grid: which cluster stands where, of which colours, and what that comes to."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from quoting.domain.plans import Part, Position
from quoting.domain.prices import Balloon
from quoting.forms.drafts import Draft
from quoting.forms.patterns import Pattern, walk_colours
from quoting.forms.wall_openings import Gap
from quoting.geometry.packing import Grid
from quoting.geometry.rings import ring_radius


@dataclass(frozen=True, slots=True, kw_only=True)
class GridWall:
    """A wall of equal clusters; `fill_cm` of every balloon, `balloons` one per colour of the pattern."""

    grid: Grid
    gap: Gap | None
    per_cluster: int
    fill_cm: float
    faces: int
    pattern: Pattern
    balloons: tuple[Balloon, ...]

    @property
    def face_clusters(self) -> int:
        """Clusters of one face."""
        return sum(len(self.columns_in(row)) for row in range(1, self.grid.rows + 1))

    @property
    def count(self) -> int:
        """Balloons of all faces."""
        return self.face_clusters * self.per_cluster * self.faces

    @property
    def radius_cm(self) -> float:
        """From the middle of a cluster to that of its balloons; squeezed where the pitch is tight."""
        squeeze = min(1.0, self.grid.pitch / side_by_side(self.fill_cm, self.per_cluster))
        return ring_radius(self.fill_cm, self.per_cluster) * squeeze

    @property
    def overhang_cm(self) -> float:
        """How far the outermost balloons reach over the grid's edge: nothing for quads side by side."""
        across = self.radius_cm * (math.cos(math.pi / 4) if self.per_cluster == 4 else 1.0)
        return max(0.0, across + self.fill_cm / 2 - self.grid.pitch / 2)

    def columns_in(self, row: int) -> tuple[int, ...]:
        """Give the columns (from 1) of a row that have a cluster."""
        cells = range(1, self.grid.cells_in(row) + 1)
        return tuple(column for column in cells if self.gap is None or not self.gap.has(self.grid, row, column))

    def walk(self) -> Iterator[tuple[int, int, int, int, int]]:
        """Give face, row, column, place in the cluster and colour number (from 0) of every balloon.

        Row after row from the floor up, both faces of a row one after the other.
        """
        mixed = iter(self._mixed())
        for row in range(1, self.grid.rows + 1):
            for face in range(self.faces):
                for column in self.columns_in(row):
                    for place in range(self.per_cluster):
                        yield face, row, column, place, self._colour(row, place, mixed)

    def _mixed(self) -> tuple[int, ...]:
        is_mix = self.pattern.name == "mix"
        return walk_colours(self.pattern, 1, self.count)[0] if is_mix else ()

    def _colour(self, row: int, place: int, mixed: Iterator[int]) -> int:
        count = len(self.pattern.colours)
        if self.pattern.name == "mix":
            return next(mixed)
        if self.pattern.name == "spiral":
            return place % count
        if self.pattern.name == "bands":
            return (row - 1) % count
        if self.pattern.name == "blocks":
            ends = [sum(self.pattern.blocks[: number + 1]) for number in range(count - 1)]
            return sum(row > end for end in ends)
        return 0


def add_row_layers(draft: Draft, wall: GridWall) -> dict[int, int]:
    """Add the build steps, row by row from the floor, equal neighbours in one; gives the step of every row."""
    rows: dict[int, Counter[int]] = {row: Counter() for row in range(1, wall.grid.rows + 1)}
    for _, row, _, _, colour in wall.walk():
        rows[row][colour] += 1
    layers: dict[int, int] = {}
    for same, group in groupby(rows, key=lambda row: (len(wall.columns_in(row)), tuple(sorted(rows[row].items())))):
        members = tuple(group)
        clusters, colours = same
        if not clusters:
            continue
        counts: Counter[str] = Counter()
        for colour, count in colours:
            counts[wall.balloons[colour].item] += count
        what = ", ".join(f"{count} × {item}" for item, count in counts.items())
        name = f"Row {members[0]}" if len(members) == 1 else f"Rows {members[0]}–{members[-1]}, each"
        sides = " on both faces" if wall.faces == 2 else ""
        text = f"{name}: {clusters} clusters of {wall.per_cluster}{sides}: {what} at {draft.short(wall.fill_cm)}"
        colour_of = {balloon.item: balloon.colour for balloon in wall.balloons}
        parts = tuple(Part(item=item, count=count * len(members), role="wall", colour=colour_of[item],
                           fill_cm=wall.fill_cm) for item, count in counts.items())
        layers |= dict.fromkeys(members, draft.add_layer(text, parts))
    return layers


def wall_positions(wall: GridWall, layers: dict[int, int]) -> Iterator[Position]:
    """Give one position per balloon: flat clusters before the frame, and behind it where there are two faces."""
    grid, fill = wall.grid, wall.fill_cm
    radius, over = wall.radius_cm, wall.overhang_cm
    for face, row, column, place, colour in wall.walk():
        x, y = grid.middle(row, column)
        angle = _first_angle(wall.per_cluster, row + column) + 2 * math.pi * place / wall.per_cluster
        balloon = wall.balloons[colour]
        yield Position(
            x_cm=x - grid.width / 2 + radius * math.cos(angle), y_cm=y + over + radius * math.sin(angle),
            z_cm=fill / 2 if face == 0 else -fill / 2, diameter_cm=fill, colour=balloon.colour, item=balloon.item,
            role="wall", layer=layers[row])


def _first_angle(per_cluster: int, turn: int) -> float:
    """How a cluster is turned: quads stand square, triplets point up and down in turn, duplets lie and stand."""
    if per_cluster == 4:
        return math.pi / 4
    if per_cluster == 3:
        return math.pi / 2 if turn % 2 == 0 else -math.pi / 2
    return 0.0 if turn % 2 == 0 else math.pi / 2


def side_by_side(fill_cm: float, per_cluster: int) -> float:
    """Give the pitch of clusters side by side: the square that takes as much of the wall as their balloons' squares.

    Quads stand two by two, so it is twice the fill; others have fill × √(balloons).
    """
    return fill_cm * math.sqrt(per_cluster)
