"""Which packs to buy: the cheapest that cover a need, exactly."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from decimal import Decimal

from quoting.costing.covers import Offer, cheapest_cover
from quoting.domain.money import ZERO
from quoting.domain.prices import Pack

Bought = tuple[tuple[Pack, int], ...]
"""Packs and how many of each."""


def cheapest_packs(need: int, packs: Sequence[Pack], limits: Sequence[int | None] | None = None) -> Bought | None:
    """Give the cheapest whole packs that hold at least `need` together, each with how many.

    Exactly optimal (see `quoting.costing.covers.cheapest_cover`). `limits` says how many of
    each pack there are (None: no end). () for no need; None where no number of packs
    covers it. ValueError for a pack that holds nothing or costs less than nothing.
    """
    if any(pack.count < 1 or pack.price < 0 for pack in packs):
        raise ValueError("a pack holds at least one and costs at least nothing")
    if need <= 0:
        return ()
    digits = max([0, *(-int(pack.price.as_tuple().exponent) for pack in packs)])
    offers = [
        Offer(count=pack.count, price=int(pack.price.scaleb(digits)), limit=limits[place] if limits else None)
        for place, pack in enumerate(packs)
    ]
    cover = cheapest_cover([need], offers)
    if cover is None:
        return None
    order = sorted(range(len(packs)), key=lambda i: (-packs[i].count, packs[i].price, i))
    return tuple((packs[i], cover.numbers[i]) for i in order if cover.numbers[i])


def current_packs(packs: Iterable[Pack], day: date) -> tuple[Pack, ...]:
    """Give the packs whose price holds on a day."""
    return tuple(pack for pack in packs if pack.is_current(day))


def cost_of(bought: Bought) -> Decimal:
    """Say what packs cost together."""
    return sum((pack.price * number for pack, number in bought), ZERO)
