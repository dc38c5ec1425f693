"""Columns of rings as runs of equal rings: which balloons, how many rings, how high."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from itertools import groupby, pairwise
from typing import TypeVar

from quoting.domain.prices import Balloon, Shape
from quoting.forms.balloon_choice import choose_balloons, choose_size
from quoting.forms.drafts import Draft
from quoting.geometry.rings import built_height, pole_room, ring_heights, ring_pitch, ring_width, rings_for_height

T = TypeVar("T")

MOST_RINGS = 2000
"""A piece of more rings is taken for a slip of the unit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """Equal rings one over the other. `balloons` are one per colour of the pattern.

    `is_free`: its count is worked out from the wanted size. `mirrors`: the number
    (from 1) of the run at the foot whose fill and count it repeats, 0 for none.
    """

    fill_cm: float
    size: int
    rings: int
    balloons: tuple[Balloon, ...]
    is_free: bool = False
    mirrors: int = 0
    count_formula: str = ""
    """For the workings, where the count is neither typed nor free nor mirrored."""

    @property
    def has_pitch(self) -> bool:
        """True where the workings show the pitch between its own rings."""
        return self.rings > 1 or self.is_free


@dataclass(frozen=True, slots=True, kw_only=True)
class Stack:
    """Runs of rings from the floor up; lengths in cm."""

    runs: tuple[Run, ...]
    per_ring: int
    tightness: float
    is_numbered: bool = False
    """True where the workings number even a single run, because more rings follow elsewhere."""

    @property
    def fills(self) -> tuple[float, ...]:
        """One fill per ring, from the floor up."""
        return tuple(run.fill_cm for run in self.runs for _ in range(run.rings))

    @property
    def rings(self) -> int:
        """How many rings there are."""
        return sum(run.rings for run in self.runs)

    @property
    def height_cm(self) -> float:
        """Built height."""
        return _known(built_height(self.fills, self.per_ring, self.tightness))

    @property
    def ring_heights_cm(self) -> tuple[float, ...]:
        """Height of each ring's centres over the floor."""
        return _known(ring_heights(self.fills, self.per_ring, self.tightness))

    @property
    def width_cm(self) -> float:
        """Overall width of the widest ring."""
        return max(ring_width(run.fill_cm, self.per_ring) for run in self.runs)

    @property
    def pole_room_cm(self) -> float:
        """Diameter that the smallest ring leaves free along the axis."""
        return min(pole_room(run.fill_cm, self.per_ring) for run in self.runs)

    def pitch_cm(self, run: Run) -> float:
        """Built pitch between two rings of a run."""
        return self.tightness * _known(ring_pitch(run.fill_cm, run.fill_cm, self.per_ring))

    def step_cm(self, number: int) -> float:
        """Built pitch between run `number` (from 1) and the next."""
        lower, upper = self.runs[number - 1], self.runs[number]
        return self.tightness * _known(ring_pitch(lower.fill_cm, upper.fill_cm, self.per_ring))

    def with_free_rings(self, rings: int) -> Stack:
        """Give the same stack with so many rings in its free run."""
        return replace(self, runs=tuple(replace(run, rings=rings) if run.is_free else run for run in self.runs))


def _known(value: T | None) -> T:
    assert value is not None, "a stack is made only of runs that can stand on each other"
    return value


def run_of(draft: Draft, fill: Decimal, rings: int, colours: tuple[str, ...], key: str) -> Run | None:
    """Make a run of equal rings; reports at the fill's cell `key`, or at the size's or colours'."""
    size = choose_size(draft, fill, key, colours)
    if size is None:
        return None
    balloons = choose_balloons(draft, Shape.ROUND, size, colours)
    return None if balloons is None else Run(fill_cm=float(fill), size=size, rings=rings, balloons=balloons)


def runs_of(draft: Draft, fills: Sequence[Decimal], colours: tuple[str, ...], key: str) -> tuple[Run, ...] | None:
    """Merge a typed list of fills into runs; reports every mistake at the list's cell `key` or the colours'."""
    runs = [run_of(draft, fill, len(tuple(group)), colours, key) for fill, group in groupby(fills)]
    good = tuple(run for run in runs if run is not None)
    return good if len(good) == len(runs) else None


def stack_of(draft: Draft, runs: tuple[Run, ...], per_ring: int, key: str, wanted_cm: float | None) -> Stack | None:
    """Stand runs on each other; a free run gets the rings that bring the stack nearest to `wanted_cm`.

    Reports at the fills' cell `key` where two neighbours have no sensible pitch.
    """
    for lower, upper in pairwise(runs):
        if ring_pitch(lower.fill_cm, upper.fill_cm, per_ring) is None:
            draft.complain("P514", key, first=draft.short(lower.fill_cm), second=draft.short(upper.fill_cm))
            return None
    stack = Stack(runs=runs, per_ring=per_ring, tightness=float(draft.prices.shop.tightness))
    free = next((run for run in runs if run.is_free), None)
    if free is not None:
        assert wanted_cm is not None, "a free run needs a wanted height"
        height_of_one = stack.with_free_rings(1).height_cm
        rings = rings_for_height(wanted_cm, height_of_one, stack.pitch_cm(free))
        stack = stack.with_free_rings(min(MOST_RINGS + 1, rings))
    if stack.rings > MOST_RINGS:
        draft.complain("P537", "height" if free else key, most=MOST_RINGS, what="rings")
        return None
    return stack
