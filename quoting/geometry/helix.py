"""A strand wound round a pole or a piece."""

from __future__ import annotations

import math


def strand_length(height: float, radius: float, turns: float) -> float:
    """Length of a helix that climbs `height` in so many turns; `radius` is measured to the middle of the strand."""
    return math.hypot(height, 2 * math.pi * radius * turns)


def helix_point(
    height: float, radius: float, turns: float, share: float, start: float = 0.0
) -> tuple[float, float, float]:
    """Point (x, height, z) after `share` (0 to 1) of a helix; `start` is its angle at the foot in radians."""
    angle = start + 2 * math.pi * turns * share
    return radius * math.cos(angle), height * share, radius * math.sin(angle)
