"""Lines that pieces follow, put together from straight parts and curves.

Coordinates are those of a drawing: x to the right, y up, in any one unit.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from quoting.geometry.curves import CurvePoint, curve_follower, curve_length, follow_chords

ARC_SLICES = 400
"""Slices of Simpson's rule over a part of an ellipse: good to a hundred-millionth for axes up to fifty to one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Path:
    """A line with its length. `follow` gives the point (x, y, direction) after a share (0 to 1) of it."""

    length: float
    follow: Callable[[float], CurvePoint]


def straight(start: tuple[float, float], end: tuple[float, float]) -> Path:
    """Give the straight line between two points."""
    (x1, y1), (x2, y2) = start, end
    direction = math.atan2(y2 - y1, x2 - x1)
    return Path(
        length=math.dist(start, end),
        follow=lambda share: (x1 + share * (x2 - x1), y1 + share * (y2 - y1), direction),
    )


def arch_on(left: tuple[float, float], curve: str, span: float, rise: float) -> Path:
    """Give a named curve (see `curves`) that starts at `left` and comes down `span` to its right."""
    x0, y0 = left
    follow = curve_follower(curve, span, rise)

    def follow_from(share: float) -> CurvePoint:
        x, y, direction = follow(share)
        return x0 + span / 2 + x, y0 + y, direction

    return Path(length=curve_length(curve, span, rise), follow=follow_from)


def hanging(left: tuple[float, float], span: float, sag: float) -> Path:
    """Give a chain from `left` to the point `span` to its right, at the same height; straight where it does not sag."""
    x0, y0 = left
    if sag <= 0:
        return straight(left, (x0 + span, y0))
    arch = arch_on((x0, 0.0), "catenary", span, sag)

    def follow(share: float) -> CurvePoint:
        x, y, direction = arch.follow(share)
        return x, y0 - y, -direction

    return Path(length=arch.length, follow=follow)


def ellipse_part_length(half_width: float, rise: float, angle: float) -> float:
    """Length of an ellipse of these half axes from its left end over the top, `angle` (radians) of its parameter.

    By Simpson's rule; a quarter is π/2, to the other end π.
    """
    step = angle / ARC_SLICES
    total = 0.0
    for slice_ in range(ARC_SLICES + 1):
        weight = 2 + 2 * (slice_ % 2) - (slice_ in (0, ARC_SLICES))
        total += weight * math.hypot(half_width * math.sin(slice_ * step), rise * math.cos(slice_ * step))
    return total * step / 3


def ellipse_part(left: tuple[float, float], half_width: float, rise: float, angle: float) -> Path:
    """Give a part of an ellipse that climbs straight up from `left` and bends to the right."""
    x0, y0 = left
    _, follow = follow_chords(lambda share: (
        x0 + half_width * (1 - math.cos(angle * share)), y0 + rise * math.sin(angle * share)))
    return Path(length=ellipse_part_length(half_width, rise, angle), follow=follow)


def joined(paths: Sequence[Path]) -> Path:
    """Give the paths one after the other; each starts where the one before ends; parts of no length are left out."""
    parts = [path for path in paths if path.length > 0]
    ends = [0.0]
    for part in parts:
        ends.append(ends[-1] + part.length)
    whole = ends[-1]

    def follow(share: float) -> CurvePoint:
        along = share * whole
        for part, (start, end) in zip(parts, pairwise(ends), strict=True):
            if along <= end or end == whole:
                return part.follow(min(1.0, (along - start) / part.length))
        raise AssertionError("a share lies on one of the parts")

    return Path(length=whole, follow=follow)
