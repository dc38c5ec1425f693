"""Rings of equal round balloons on one axis, neighbouring rings turned by half a place.

Lengths are in any one unit. `per_ring` (2 to 6) is the number of balloons in every
ring. The formulas are those of touching spheres; source: own derivation from
sphere-centre distances, checked in tests/outside against figures solved numerically.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from quoting.domain.counts import nearest_count


def ring_radius(fill: float, per_ring: int) -> float:
    """Distance from the axis to the balloons' centres.

    >>> round(ring_radius(10, 4), 4)
    7.0711
    """
    return fill / (2 * math.sin(math.pi / per_ring))


def ring_width(fill: float, per_ring: int) -> float:
    """Overall width of a ring."""
    return 2 * ring_radius(fill, per_ring) + fill


def pole_room(fill: float, per_ring: int) -> float:
    """Diameter free along the axis; a pole must be thinner. 0 for two balloons in a ring."""
    return max(0.0, 2 * ring_radius(fill, per_ring) - fill)


def nesting_limit(per_ring: int) -> float:
    """Ratio small fill ÷ big fill at which two big rings either side of a small one touch each other.

    The root between 0 and 1 of 2 × pitch = big fill, which is a quadratic in the ratio.
    """
    spread = ring_radius(1, per_ring) ** 2
    bend = 0.5 + 2 * spread * math.cos(math.pi / per_ring)
    return 2 * spread / (bend + math.sqrt(bend * bend + (1 - 4 * spread) * spread))


def touching_pitch(first: float, second: float, per_ring: int) -> float | None:
    """Height between the centres of two touching rings, whatever rings may follow; None where none touch.

    They don't touch where the small ring drops through the middle of the big one.
    """
    big, small = max(first, second), min(first, second)
    outer, inner = ring_radius(big, per_ring), ring_radius(small, per_ring)
    square = ((big + small) / 2) ** 2 - outer**2 - inner**2 + 2 * outer * inner * math.cos(math.pi / per_ring)
    return math.sqrt(square) if square > 0 else None


def ring_pitch(first: float, second: float, per_ring: int) -> float | None:
    """Height between the centres of two neighbouring rings of these fills, in either order, not squeezed.

    That of touching rings; below the nesting limit the next big ring would rest on
    this one, so the pitch is half the big fill. None where there is no sensible
    pitch: the small ring drops through the big one.

    >>> round(ring_pitch(10, 10, 4), 4)
    8.409
    """
    pitch = touching_pitch(first, second, per_ring)
    big, small = max(first, second), min(first, second)
    if pitch is not None and small < nesting_limit(per_ring) * big:
        return big / 2
    return pitch


def ring_heights(fills: Sequence[float], per_ring: int, tightness: float) -> tuple[float, ...] | None:
    """Heights of the rings' centres over the floor, fills given from the floor up.

    Built pitch = tightness × pitch of touching rings. None where two neighbours have
    no sensible pitch; () for no fills.
    """
    if not fills:
        return ()
    heights = [fills[0] / 2]
    for lower, upper in pairwise(fills):
        pitch = ring_pitch(lower, upper, per_ring)
        if pitch is None:
            return None
        heights.append(heights[-1] + tightness * pitch)
    return tuple(heights)


def built_height(fills: Sequence[float], per_ring: int, tightness: float) -> float | None:
    """Height of a column of rings: half the first fill, every built pitch, half the last. None as in `ring_heights`."""
    heights = ring_heights(fills, per_ring, tightness)
    if heights is None:
        return None
    return heights[-1] + fills[-1] / 2 if heights else 0.0


def rings_for_height(wanted: float, height_of_one: float, pitch: float) -> int:
    """Find how many rings of one fill bring a piece nearest to the wanted height, at least 1.

    `height_of_one` is the height of the whole piece with a single such ring, `pitch`
    what every further ring adds (built pitch). A tie takes the taller.
    """
    return max(1, nearest_count((wanted - height_of_one) / pitch + 1))


def rings_along(length: float, pitch: float) -> int:
    """Find how many rings at a built pitch come nearest to a curve's length, at least 1; a tie takes more."""
    return max(1, nearest_count(length / pitch))
