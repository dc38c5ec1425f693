"""Which packs to buy: the cheapest that cover a need, exactly."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from datetime import date
from decimal import Decimal

from quoting.domain.money import ZERO, Rounding, rounded
from quoting.domain.prices import Pack, PriceBook
from quoting.domain.quotes import BuyLine, JobSheet

Bought = tuple[tuple[Pack, int], ...]
"""Packs and how many of each."""


def cheapest_packs(need: int, packs: Sequence[Pack], limits: Sequence[int | None] | None = None) -> Bought | None:
    """Give the cheapest whole packs that hold at least `need` together, each with how many.

    Exactly optimal. Of equally cheap ways the one with the least left over, then the
    one with the fewest packs, then the one with more of the larger packs. `limits`
    says how many of each pack there are (None: no end). () for no need; None where
    no number of packs covers it. ValueError for a pack that holds nothing or costs
    less than nothing.
    """
    if any(pack.count < 1 or pack.price < 0 for pack in packs):
        raise ValueError("a pack holds at least one and costs at least nothing")
    if need <= 0:
        return ()
    if not packs:
        return None
    # Largest first, so that a tie in price and number keeps the larger packs.
    order = sorted(range(len(packs)), key=lambda i: (-packs[i].count, packs[i].price, i))
    step = math.gcd(*(pack.count for pack in packs))
    most = -(-need // step) + max(pack.count for pack in packs) // step - 1
    table = _cheapest_by_count(most, step, [(packs[i], limits[i] if limits else None) for i in order])
    ways = [
        (way[0], count, way[1], way[2]) for count, way in enumerate(table) if way is not None and count * step >= need
    ]
    if not ways:
        return None
    chosen = min(ways, key=lambda way: way[:3])[3]
    return tuple((packs[i], number) for i, number in zip(order, chosen, strict=True) if number)


_Way = tuple[Decimal, int, tuple[int, ...]]


def _cheapest_by_count(most: int, step: int, packs: Sequence[tuple[Pack, int | None]]) -> list[_Way | None]:
    """For every count up to `most` steps: the cheapest way to hold exactly that many (cost, packs, number of each)."""
    nothing = (0,) * len(packs)
    table: list[_Way | None] = [(ZERO, 0, nothing), *[None] * most]
    for place, (pack, limit) in enumerate(packs):
        size = pack.count // step
        before = list(table)
        for count in range(size, most + 1):
            numbers = range(1, min(count // size, limit) + 1) if limit is not None else (1,)
            source = before if limit is not None else table
            for number in numbers:
                under = source[count - number * size]
                if under is None:
                    continue
                cost, bags = under[0] + number * pack.price, under[1] + number
                best = table[count]
                if best is None or (cost, bags) < best[:2]:
                    chosen = (*under[2][:place], under[2][place] + number, *under[2][place + 1 :])
                    table[count] = (cost, bags, chosen)
    return table


def current_packs(packs: Iterable[Pack], day: date) -> tuple[Pack, ...]:
    """Give the packs whose price holds on a day."""
    return tuple(pack for pack in packs if pack.is_current(day))


def cost_of(bought: Bought) -> Decimal:
    """Say what packs cost together."""
    return sum((pack.price * number for pack, number in bought), ZERO)


def buying(sheets: Sequence[JobSheet], prices: PriceBook, day: date) -> tuple[BuyLine, ...]:
    """Give what all quoted jobs need together, with spares, and the cheapest packs to buy beyond what is on hand.

    Sorted by item. Packs whose price holds on `day` are bought; where no pack's does
    any more, all packs of the item come into question at their last price. Hardware that
    is bought comes one by one, beyond the number the shop owns.
    """
    needs: dict[str, int] = {}
    for sheet in sheets:
        for line in sheet.stock:
            needs[line.item] = needs.get(line.item, 0) + line.with_spares
    return tuple(_buy_line(item, need, prices, day) for item, need in sorted(needs.items()) if need)


def _buy_line(item: str, need: int, prices: PriceBook, day: date) -> BuyLine:
    balloon = prices.balloon(item)
    unit = prices.shop.currency.unit
    if balloon is not None:
        bought = cheapest_packs(need - balloon.on_hand, current_packs(balloon.packs, day) or balloon.packs) or ()
        return BuyLine(
            item=item,
            need=need,
            on_hand=balloon.on_hand,
            packs=tuple((pack.count, number, pack.price, pack.supplier) for pack, number in bought),
            cost=rounded(cost_of(bought), unit, Rounding.HALF_UP),
        )
    hardware = prices.hardware_item(item)
    if hardware is None:
        raise KeyError(item)
    on_hand = hardware.owned or 0
    missing = max(0, need - on_hand)
    return BuyLine(
        item=item,
        need=need,
        on_hand=on_hand,
        packs=((1, missing, hardware.cost, ""),) if missing else (),
        cost=rounded(missing * hardware.cost, unit, Rounding.HALF_UP),
    )
