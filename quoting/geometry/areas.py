"""Flat shapes bounded by closed contours: their area, their edge, and things laid evenly over both.

A contour is its corners in order, without the first one again. A hole is a contour
inside another. Any one unit of length.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise

from quoting.domain.counts import shared_counts

Point = tuple[float, float]
Contour = tuple[Point, ...]

_FINE = 10**9
"""Lengths become exact fractions in steps so small, so that ties fall the same everywhere."""


def rectangle(width: float, height: float) -> tuple[Contour, ...]:
    """Give a rectangle that stands on the x axis, its left lower corner at the origin."""
    return (((0.0, 0.0), (width, 0.0), (width, height), (0.0, height)),)


def edge_length(contours: Sequence[Contour]) -> float:
    """Length of all contours."""
    return sum(math.dist(a, b) for contour in contours for a, b in _sides(contour))


def area(contours: Sequence[Contour]) -> float:
    """Area inside: holes run the other way round than what they are in, so that signed areas just add up."""
    doubled = sum(ax * by - bx * ay for contour in contours for (ax, ay), (bx, by) in _sides(contour))
    return abs(doubled) / 2


def spans_at(contours: Sequence[Contour], y: float) -> tuple[tuple[float, float], ...]:
    """Give the stretches (from x, to x) of a level line that lie inside, left to right."""
    crossings = sorted(
        ax + (y - ay) / (by - ay) * (bx - ax)
        for contour in contours for (ax, ay), (bx, by) in _sides(contour) if (ay <= y) != (by <= y)
    )
    return tuple(zip(crossings[::2], crossings[1::2], strict=True))


def laid_within(contours: Sequence[Contour], count: int, row_pitch: float) -> tuple[Point, ...]:
    """Lay so many things evenly inside: in level rows about `row_pitch` apart, spread over each row's stretches.

    Gives exactly `count` points, bottom row first, each row from the left.
    """
    low = min(y for contour in contours for _, y in contour)
    high = max(y for contour in contours for _, y in contour)
    rows = max(1, round((high - low) / row_pitch))
    spans = [(y, span) for number in range(rows) for y in [low + (number + 0.5) * (high - low) / rows]
             for span in spans_at(contours, y)]
    shares = shared_counts(count, [_exact(right - left) for _, (left, right) in spans])
    return tuple(
        (left + (number + 0.5) * (right - left) / share, y)
        for (y, (left, right)), share in zip(spans, shares, strict=True) for number in range(share)
    )


def laid_along(contours: Sequence[Contour], count: int) -> tuple[Point, ...]:
    """Lay so many things evenly along the contours, each contour getting its share of the whole edge."""
    lengths = [edge_length((contour,)) for contour in contours]
    shares = shared_counts(count, [_exact(length) for length in lengths])
    return tuple(
        point for contour, length, share in zip(contours, lengths, shares, strict=True)
        for point in _stepped(contour, length, share)
    )


def _stepped(contour: Contour, length: float, count: int) -> list[Point]:
    points: list[Point] = []
    walked = 0.0
    for (ax, ay), (bx, by) in _sides(contour):
        side = math.dist((ax, ay), (bx, by))
        while len(points) < count and (wanted := (len(points) + 0.5) * length / count) <= walked + side:
            share = (wanted - walked) / side
            points.append((ax + share * (bx - ax), ay + share * (by - ay)))
        walked += side
    points += [contour[0]] * (count - len(points))  # float noise may leave the very last step open
    return points


def _sides(contour: Contour) -> list[tuple[Point, Point]]:
    return [*pairwise(contour), (contour[-1], contour[0])]


def _exact(length: float) -> Fraction:
    return Fraction(round(length * _FINE), _FINE)
