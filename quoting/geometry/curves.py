"""Curves that arches follow: their lengths, and points along them.

`span` is the width between the middles of the feet, `rise` the height of the centre
line over them, in any one unit. x runs from −span/2 to span/2, y up from the feet.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Callable, Sequence
from itertools import pairwise

SAMPLES = 1000
"""Chords a smooth curve is cut into to place points along it: good to a few millionths of its length."""


def complete_elliptic_e(m: float) -> float:
    """Complete elliptic integral of the second kind, E(m) with m = k², 0 ≤ m ≤ 1.

    By the arithmetic-geometric mean (NIST DLMF 19.8(i), from memory).
    """
    if m >= 1:
        return 1.0
    mean, geometric, power = 1.0, math.sqrt(1 - m), 0.5
    total = power * m
    while abs(mean - geometric) > 1e-15 * mean:
        difference = (mean - geometric) / 2
        mean, geometric = (mean + geometric) / 2, math.sqrt(mean * geometric)
        power *= 2
        total += power * difference**2
    return math.pi / (2 * mean) * (1 - total)


def semi_ellipse_length(span: float, rise: float) -> float:
    """Half an ellipse of axes `span` and 2 × `rise`."""
    long, short = max(span / 2, rise), min(span / 2, rise)
    return 2 * long * complete_elliptic_e(1 - (short / long) ** 2)


def catenary_shape(span: float, rise: float) -> float:
    """Solve (cosh u − 1)/u = 2 × rise/span for u = span/(2a), a the catenary's parameter.

    Newton's method from above the root, where the convex left side makes it fall to it steadily.
    """
    wanted = 2 * rise / span
    u = min(2 * wanted, 2 * math.log(2 + 2 * wanted))
    for _ in range(60):
        following = next_catenary_shape(u, wanted)
        if abs(following - u) <= 1e-15 * u:
            return following
        u = following
    return u


def next_catenary_shape(u: float, wanted: float) -> float:
    """One Newton step towards (cosh u − 1)/u = wanted; cosh u − 1 is taken as 2 sinh²(u/2) to keep its digits."""
    lift = 2 * math.sinh(u / 2) ** 2
    return u - (lift / u - wanted) * u * u / (u * math.sinh(u) - lift)


def catenary_length(span: float, rise: float) -> float:
    """Give the length of a hanging chain turned over."""
    u = catenary_shape(span, rise)
    return span * math.sinh(u) / u


def parabola_length(span: float, rise: float) -> float:
    """Give the length of a parabola with its top in the middle."""
    slope = 4 * rise / span
    return span / 2 * (math.hypot(1, slope) + math.asinh(slope) / slope)


def circular_arc_length(span: float, rise: float) -> float:
    """Give the length of a circle's arc through both feet and the top, rise at most or above half the span."""
    radius = (span * span / 4 + rise * rise) / (2 * rise)
    return 4 * radius * math.atan(2 * rise / span)


def square_length(span: float, rise: float, ring_width: float = 0.0) -> float:
    """Two legs and a beam, less one ring width at each corner, where leg and beam would fill the same room twice."""
    return span + 2 * rise - 2 * ring_width


def curve_length(curve: str, span: float, rise: float, ring_width: float = 0.0) -> float:
    """Length of a named curve. ValueError for a name that is no curve.

    Semicircle, half hoop and full hoop go by the span alone; only "square" uses `ring_width`.
    """
    if curve in ("semicircle", "half hoop"):
        return math.pi * span / 2
    if curve == "full hoop":
        return math.pi * span
    if curve == "square":
        return square_length(span, rise, ring_width)
    lengths = {"semi-ellipse": semi_ellipse_length, "catenary": catenary_length, "parabola": parabola_length}
    if curve not in lengths:
        raise ValueError(f"{curve!r} is no curve of an arch")
    return lengths[curve](span, rise)


def fixed_rise(curve: str, span: float) -> float | None:
    """Give the rise that a curve's span fixes (semicircle and half hoop half of it, full hoop all), else None."""
    return {"semicircle": span / 2, "half hoop": span / 2, "full hoop": span}.get(curve)


CurvePoint = tuple[float, float, float]
"""x, y and the direction of the curve there, in radians from the x axis."""


def curve_points(
    curve: str, span: float, rise: float, shares: Sequence[float], ring_width: float = 0.0
) -> tuple[CurvePoint, ...]:
    """Points after the given shares (0 to 1) of a curve's length: see `curve_follower`."""
    follow = curve_follower(curve, span, rise, ring_width)
    return tuple(follow(share) for share in shares)


def curve_follower(curve: str, span: float, rise: float, ring_width: float = 0.0) -> Callable[[float], CurvePoint]:
    """Give a function from a share (0 to 1) of a curve's length to the point there, from the left foot.

    A full hoop starts and ends at its lowest point and goes round by the right. Of a
    square arch it is the share of a line with round corners, longer than its length.
    ValueError for a name that is no curve.
    """
    if curve == "square":
        return lambda share: _square_point(share, span, rise, ring_width)
    if curve in ("semicircle", "half hoop", "full hoop"):
        return lambda share: _circle_point(curve, span, share)
    return follow_chords(_smooth_curve(curve, span, rise))[1]


def _circle_point(curve: str, span: float, share: float) -> CurvePoint:
    radius = span / 2
    if curve == "full hoop":
        turn = 2 * math.pi * share
        return radius * math.sin(turn), radius * (1 - math.cos(turn)), turn
    turn = math.pi * share
    return -radius * math.cos(turn), radius * math.sin(turn), math.pi / 2 - turn


def _square_point(share: float, span: float, rise: float, ring_width: float) -> CurvePoint:
    """Go round the corners in quarters of a circle: rings that only stood on legs and beam would leave them empty."""
    radius = ring_width / 2
    leg, beam, bend = rise - radius, span - ring_width, math.pi / 2 * radius
    if share > 0.5:
        x, y, direction = _square_point(1 - share, span, rise, ring_width)
        return -x, y, -direction
    along = share * (2 * leg + beam + 2 * bend)
    if along <= leg:
        return -span / 2, along, math.pi / 2
    if along < leg + bend:
        turn = (along - leg) / radius
        return -beam / 2 - radius * math.cos(turn), leg + radius * math.sin(turn), math.pi / 2 - turn
    return -beam / 2 + along - leg - bend, rise, 0.0


def _smooth_curve(curve: str, span: float, rise: float) -> Callable[[float], tuple[float, float]]:
    half = span / 2
    if curve == "semi-ellipse":
        return lambda t: (-half * math.cos(math.pi * t), rise * math.sin(math.pi * t))
    if curve == "parabola":
        return lambda t: (half * (2 * t - 1), rise * (1 - (2 * t - 1) ** 2))
    if curve == "catenary":
        u = catenary_shape(span, rise)
        a, end = half / u, math.sinh(u)
        return lambda t: (a * math.asinh(end * (2 * t - 1)), rise - a * (math.hypot(1, end * (2 * t - 1)) - 1))
    raise ValueError(f"{curve!r} is no curve of an arch")


def follow_chords(point: Callable[[float], tuple[float, float]]) -> tuple[float, Callable[[float], CurvePoint]]:
    """Give the length of a smooth line, `point` from 0 to 1, and a function from a share of it to the point there."""
    points = [point(i / SAMPLES) for i in range(SAMPLES + 1)]
    lengths = [0.0]
    for (x1, y1), (x2, y2) in pairwise(points):
        lengths.append(lengths[-1] + math.hypot(x2 - x1, y2 - y1))

    def follow(share: float) -> CurvePoint:
        along = share * lengths[-1]
        index = max(0, min(bisect_right(lengths, along), SAMPLES) - 1)
        (x1, y1), (x2, y2) = points[index], points[index + 1]
        part = (along - lengths[index]) / (lengths[index + 1] - lengths[index])
        return x1 + part * (x2 - x1), y1 + part * (y2 - y1), math.atan2(y2 - y1, x2 - x1)

    return lengths[-1], follow
