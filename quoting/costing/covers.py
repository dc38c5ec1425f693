"""The cheapest way to cover one need with whole packs, in time: exactly, in whole numbers."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

NEVER = 1 << 200
"""Dearer than anything: no way holds this many."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """Packs of one kind that can be bought: `count` in each for `price` (whole smallest units of money).

    `limit` is how many there are (None: no end), `stage` the delivery they come with
    (0 the first), `supplier` whose they are.
    """

    count: int
    price: int
    limit: int | None = None
    stage: int = 0
    supplier: str = ""


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class Cover:
    """So many of each offer, in the order of the offers; covers sort by cost, then what they hold, then packs."""

    cost: int
    held: int
    packs: int
    numbers: tuple[int, ...]


NOTHING = Cover(cost=0, held=0, packs=0, numbers=())


def cheapest_cover(needs: Sequence[int], offers: Sequence[Offer]) -> Cover | None:
    """Give the cheapest whole packs that cover a need in time; exactly optimal, None where nothing covers it.

    `needs[k]` is how many must be there from stages 0 to k together, so it never falls
    from one stage to the next. Of equally cheap ways the one that holds least, then the
    one with the fewest packs, then the one with more of the larger packs. ValueError for
    a pack that holds nothing or costs less than nothing.

    >>> cheapest_cover([125], [Offer(count=25, price=450), Offer(count=50, price=800), Offer(count=100, price=1400)])
    Cover(cost=1850, held=125, packs=2, numbers=(1, 0, 1))
    """
    if any(offer.count < 1 or offer.price < 0 for offer in offers):
        raise ValueError("a pack holds at least one and costs at least nothing")
    if not needs or needs[-1] <= 0:
        return Cover(cost=0, held=0, packs=0, numbers=(0,) * len(offers))
    if not offers:
        return None
    order = sorted(range(len(offers)), key=lambda i: (offers[i].stage, -offers[i].count, offers[i].price, i))
    step = math.gcd(*(offer.count for offer in offers))
    table = _Table(needs[-1], step, max(offer.count for offer in offers))
    stage = 0
    for place in order:
        while stage < offers[place].stage:
            table.demand(needs[stage])
            stage += 1
        table.add(offers[place])
    for need in needs[stage:]:
        table.demand(need)
    return table.best(order)


class _Table:
    """For every count up to the most that can be sensible: the cheapest way to hold exactly that many.

    A way's key is its cost × `_scale` plus its number of packs, so that one number
    compares both. `_taken` has, for every offer added, how many of it each way has.
    """

    def __init__(self, need: int, step: int, largest: int) -> None:
        # Beyond this a pack of the last delivery could be left out.
        self._most = -(-need // step) + largest // step - 1
        self._step = step
        self._scale = self._most + 1
        self._keys = [0, *[NEVER] * self._most]
        self._taken: list[list[int]] = []
        self._sizes: list[int] = []

    def demand(self, need: int) -> None:
        """Leave out every way that holds fewer than `need`."""
        short = min(max(-(-need // self._step), 0), self._most + 1)
        self._keys[:short] = [NEVER] * short

    def add(self, offer: Offer) -> None:
        """Let ways have packs of one more offer."""
        size = offer.count // self._step
        taken = [0] * (self._most + 1)
        if offer.limit is None or offer.limit >= self._most // size:
            self._add_without_end(size, offer.price * self._scale + 1, taken)
        else:
            self._add_up_to(offer.limit, size, offer.price * self._scale + 1, taken)
        self._taken.append(taken)
        self._sizes.append(size)

    def _add_without_end(self, size: int, key: int, taken: list[int]) -> None:
        keys = self._keys
        for count in range(size, self._most + 1):
            found = keys[count - size] + key
            if found < keys[count]:
                keys[count] = found
                taken[count] = taken[count - size] + 1

    def _add_up_to(self, limit: int, size: int, key: int, taken: list[int]) -> None:
        before, keys = self._keys[:], self._keys
        for count in range(size, self._most + 1):
            for number in range(1, min(count // size, limit) + 1):
                found = before[count - number * size] + number * key
                if found < keys[count]:
                    keys[count] = found
                    taken[count] = number

    def best(self, order: Sequence[int]) -> Cover | None:
        """Give the best way that is left; `order` has the place of each offer added, for the order of its numbers."""
        ways = [(key // self._scale, count, key % self._scale) for count, key in enumerate(self._keys) if key < NEVER]
        if not ways:
            return None
        cost, count, packs = min(ways)
        numbers = [0] * len(order)
        left = count
        for place, taken, size in zip(reversed(order), reversed(self._taken), reversed(self._sizes), strict=True):
            numbers[place] = taken[left]
            left -= taken[left] * size
        return Cover(cost=cost, held=count * self._step, packs=packs, numbers=tuple(numbers))
