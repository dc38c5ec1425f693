"""The one place where geometry becomes a count."""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction

HAIR = 1e-9
"""Relative float noise: a number this close to a whole number is that whole number."""


def _near_whole(amount: float) -> int | None:
    nearest = round(amount)
    return nearest if abs(amount - nearest) <= HAIR * max(1.0, abs(amount)) else None


def rounded_up(amount: float) -> int:
    """The least whole number that is not below `amount`, but for a hair of float noise."""
    whole = _near_whole(amount)
    return math.ceil(amount) if whole is None else whole


def rounded_down(amount: float) -> int:
    """The greatest whole number that is not above `amount`, but for a hair of float noise."""
    whole = _near_whole(amount)
    return math.floor(amount) if whole is None else whole


def nearest_count(amount: float) -> int:
    """The nearest whole number; a tie (within a hair) takes the larger."""
    return rounded_down(amount + 0.5)


def shared_counts(total: int, shares: Sequence[Fraction]) -> tuple[int, ...]:
    """`total` things split by `shares` with the largest-remainder method, adding up to `total`.

    Shares need not add up to 1; equal remainders go to the earlier share.
    ValueError where shares are empty, negative or all zero.
    """
    whole = sum(shares, Fraction(0))
    if not shares or whole <= 0 or min(shares) < 0:
        raise ValueError("shares must be above 0")
    parts = [total * share / whole for share in shares]
    floors = [math.floor(part) for part in parts]
    order = sorted(range(len(parts)), key=lambda i: (floors[i] - parts[i], i))
    for index in order[: total - sum(floors)]:
        floors[index] += 1
    return tuple(floors)
