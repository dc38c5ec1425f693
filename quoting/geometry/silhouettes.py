"""What of a cloud of balls is seen from the front: its area and the height of its middle."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from math import floor, sqrt

Ball = tuple[float, float, float]
"""Centre x, centre y over the floor, diameter; one unit of length throughout."""

Interval = tuple[float, float]


def silhouette(balls: Iterable[Ball], slice_height: float, closed_gap: float = 0.0) -> tuple[float, float]:
    """Give the area seen from the front, and the height of its middle over the floor; (0, 0) for no balls.

    Balls that cover each other count once. Cut into level slices, each measured at its
    middle, so that a single ball is right to about slice height ÷ diameter squared.
    Gaps in a slice up to `closed_gap` count as closed: wind does not blow freely
    between neighbouring balloons, but it does between the legs of an arch.

    >>> area, middle = silhouette([(0, 100, 30)], 0.1)
    >>> round(area, 1), round(middle, 6)
    (706.9, 100.0)
    """
    slices: dict[int, list[Interval]] = defaultdict(list)
    for x, y, diameter in balls:
        radius = diameter / 2
        first, last = floor((y - radius) / slice_height), floor((y + radius) / slice_height)
        for index in range(first, last + 1):
            above = (index + 0.5) * slice_height - y
            if abs(above) < radius:
                half = sqrt(radius * radius - above * above)
                slices[index].append((x - half, x + half))
    area = moment = 0.0
    for index in sorted(slices):
        covered = _covered(slices[index], closed_gap) * slice_height
        area += covered
        moment += covered * (index + 0.5) * slice_height
    return (area, moment / area) if area else (0.0, 0.0)


def _covered(intervals: list[Interval], closed_gap: float) -> float:
    """Length of the union of intervals, gaps up to `closed_gap` between them closed."""
    total = 0.0
    intervals.sort()
    start, end = intervals[0]
    for left, right in intervals[1:]:
        if left > end + closed_gap:
            total += end - start
            start, end = left, right
        else:
            end = max(end, right)
    return total + end - start
