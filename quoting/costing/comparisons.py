"""What it would come to if each job were bought for by itself."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from decimal import Decimal

from quoting.costing.joint_orders import buy_together
from quoting.costing.needs import Market, Source, asked_by, need_of
from quoting.costing.order_programs import Wanted
from quoting.costing.prep_days import prep_days
from quoting.costing.supplier_terms import OrderTerms
from quoting.domain.money import Rounding, rounded
from quoting.domain.prices import Pack
from quoting.domain.quotes import JobSheet


def one_by_one(
    sheets: Sequence[JobSheet],
    sources: Mapping[str, Source],
    terms: Mapping[str, OrderTerms],
    market: Market,
    unit: Decimal,
) -> tuple[Decimal, int]:
    """Buy for one job after the other, in order of date: the money it takes at least, and how many are left.

    Each job's order is a good one for that job alone, and counts with what the cheapest
    can't go below: proving a thousand small orders would take too long. What is left over is
    kept for the jobs after it, as a careful shop would. Items that no job needs are not counted.
    """
    stock = dict(sources)
    touched: set[str] = set()
    spent = 0
    for sheet in sorted(sheets, key=lambda each: prep_days(each, market.crew, market.run_date)):
        asked: dict[str, int] = {}
        for line in sheet.stock:
            asked[line.item.casefold()] = asked.get(line.item.casefold(), 0) + line.with_spares
        needs = [
            (key, need_of(stock[key], [asked_by(sheet, count, market)], market))
            for key, count in asked.items()
            if count
        ]
        buying = [(key, need) for key, need in needs if need.to_buy]
        bought = buy_together([Wanted(needs=need.needs, offers=need.offers) for _, need in buying], terms, programs=0)
        spent += bought.bound
        numbers = {key: found for (key, _), found in zip(buying, bought.numbers, strict=True)}
        for key, need in needs:
            touched.add(key)
            used = need.draws[0].from_hand + need.draws[0].granted
            stock[key] = _after(stock[key], used, dict(zip(need.packs, numbers.get(key, ()), strict=False)))
    left = sum(stock[key].on_hand for key in touched)
    return rounded(market.money(spent), unit, Rounding.HALF_UP), left


def _after(source: Source, used: int, bought: Mapping[Pack, int]) -> Source:
    """An item's source once a job has bought and used of it."""
    held = sum(pack.count * number for pack, number in bought.items())
    left = tuple(
        pack if pack.limit is None else replace(pack, limit=pack.limit - bought.get(pack, 0)) for pack in source.packs
    )
    return replace(source, on_hand=source.on_hand + held - used, packs=left)
