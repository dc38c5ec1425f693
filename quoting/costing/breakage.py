"""How many to take along so that enough stay whole."""

from __future__ import annotations

import math
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache

GUARD = 1e-9
"""Below this distance from the wanted level, floats may not decide: the exact integers do."""

BIG = 1e200


@lru_cache(maxsize=4096)
def with_spares(need: int, chance: Decimal | Fraction, service: Decimal | Fraction, items: int = 1) -> int:
    """Give the least N of which at least `need` stay whole with the wanted certainty.

    Each breaks with `chance`, one apart from the other, so N is the least number with
    P(Binomial(N, 1 − chance) ≥ need) ≥ service^(1/items); as that root is irrational,
    the rule is exactly P^items ≥ service. `items` is how many kinds the job has, which
    don't stand in for each other: all are enough together with certainty `service`.

    0 for no need. ValueError unless 0 ≤ chance < 1 and 0 ≤ service < 1 (certainty
    itself would take no end of spares), `need` ≥ 0 and `items` ≥ 1.

    >>> with_spares(96, Decimal("0.03"), Decimal("0.99"))
    104
    """
    if not (0 <= chance < 1 and 0 <= service < 1 and need >= 0 and items >= 1):
        raise ValueError(f"no spares can be worked out for {need} at chance {chance}, service {service}, {items} items")
    if not need or not chance:
        return need
    spares, is_sure = _spares_by_floats(need, float(chance), float(service) ** (1 / items))
    if not is_sure:
        spares = _spares_exactly(need, Fraction(chance), Fraction(service), items, at_least=spares)
    return need + spares


def with_flat_share(need: int, share: Decimal | Fraction) -> int:
    """Give `need` × (1 + share), rounded up exactly; ValueError for a negative share.

    >>> with_flat_share(40, Decimal("0.05"))
    42
    """
    if share < 0 or need < 0:
        raise ValueError("neither a need nor a share of spares is below 0")
    return math.ceil(need * (1 + Fraction(share)))


def _spares_by_floats(need: int, chance: float, level: float) -> tuple[int, bool]:
    """Sum P(exactly k break before `need` stay whole) over k until the level is reached.

    Gives the count, and whether floats are sure of it; where they are not, the true
    count is this one or more.
    """
    # The first term is too small for a float where the need is in the tens of thousands: its logarithm is kept apart.
    scale = need * math.log1p(-chance)
    term = total = 1.0
    broken = 0
    while (reached := total * math.exp(scale)) < level - GUARD:
        broken += 1
        term *= chance * (need - 1 + broken) / broken
        total += term
        if total > BIG:
            term, total, scale = term / BIG, total / BIG, scale + math.log(BIG)
        if total == total + term and reached > 0.5:  # no more digits: the level is that near to 1
            return broken - 1, False
    return broken, reached > level + GUARD


def _spares_exactly(need: int, chance: Fraction, service: Fraction, items: int, *, at_least: int) -> int:
    """Do the same sum in whole numbers: total over b^(need + k), where chance is a / b."""
    a, b = chance.numerator, chance.denominator
    term = total = (b - a) ** need
    scale, broken = b**need, 0
    while broken < at_least or total**items * service.denominator < service.numerator * scale**items:
        broken += 1
        term = term * (need - 1 + broken) * a // broken
        total = total * b + term
        scale *= b
    return broken
