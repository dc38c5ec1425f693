"""Chains and garlands that hang between two points of one height: length from sag, and sag from length.

They hang in a catenary. `span` is the distance between the points, in any one unit;
u = span ÷ (2a), a the catenary's parameter.
"""

from __future__ import annotations

import math

from quoting.geometry.curves import catenary_length

STRAIGHT = 1e-7
"""Length over span − 1 below which a chain is taken for straight: float noise would be more than its sag."""


def chain_length(span: float, sag: float) -> float:
    """Length of a chain that hangs `sag` below its two ends; `span` where it does not sag.

    >>> round(chain_length(3, 0.792426), 4)
    3.5
    """
    return catenary_length(span, sag) if sag > 0 else span


def chain_sag(span: float, length: float) -> float:
    """How far a chain of this length hangs below its two ends. ValueError where it is shorter than the span.

    >>> round(chain_sag(3, 3.5), 6)
    0.792426
    """
    if length < span * (1 - STRAIGHT):
        raise ValueError("a chain can't be shorter than its span")
    if length <= span * (1 + STRAIGHT):
        return 0.0
    u = chain_shape(length / span)
    return span * math.sinh(u / 2) ** 2 / u


def chain_shape(stretch: float) -> float:
    """Solve sinh u ÷ u = stretch (length ÷ span, above 1) for u.

    Newton's method from above the root, where the convex left side makes it fall to it steadily.
    """
    u = first_chain_shape(stretch)
    for _ in range(80):
        following = next_chain_shape(u, stretch)
        if abs(following - u) <= 1e-15 * u:
            return following
        u = following
    return u


def first_chain_shape(stretch: float) -> float:
    """A start above the root: from the first terms of sinh u ÷ u, or from its growth where that is nearer."""
    return min(math.sqrt(6 * (stretch - 1)), 2 * math.log(1 + 2 * stretch))


def next_chain_shape(u: float, stretch: float) -> float:
    """One Newton step towards sinh u = stretch × u."""
    return u - (math.sinh(u) - stretch * u) / (math.cosh(u) - stretch)
