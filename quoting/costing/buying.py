"""What the whole batch buys: pooled over its jobs, in time for each, at the least cost; and who pays how much of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from quoting.costing.comparisons import one_by_one
from quoting.costing.cylinders import gas_for
from quoting.costing.hire_days import clashes_among
from quoting.costing.joint_orders import buy_together
from quoting.costing.needs import ItemNeed, Market, Source, market_of, needs_of, sources_of
from quoting.costing.order_programs import Wanted
from quoting.costing.orders import Filled, filled_needs, orders_from, shares_of
from quoting.costing.supplier_terms import OrderTerms
from quoting.domain.money import ZERO, Rounding, rounded
from quoting.domain.orders import Comparison, Purchase, Shortage, StockLevel
from quoting.domain.prices import PriceBook
from quoting.domain.quotes import BuyLine, JobSheet


@dataclass(frozen=True, slots=True, kw_only=True)
class Basket:
    """A batch's purchase, with every item's need as it was filled (for notes on single pieces)."""

    purchase: Purchase
    filled: tuple[Filled, ...]


def fill_basket(sheets: Sequence[JobSheet], prices: PriceBook, run_date: date) -> Basket:
    """Work out what the quoted jobs need bought and hired; a job whose event is over takes nothing any more.

    The comparison with buying one by one is left out where its bound says nothing.
    """
    coming = [sheet for sheet in sheets if sheet.quote.event_date >= run_date]
    market, sources = market_of(prices, run_date), sources_of(prices, run_date)
    terms = terms_of(prices, market)
    needs = needs_of(coming, sources, market)
    wanted = [Wanted(needs=need.needs, offers=need.offers) for need in needs if need.to_buy]
    bought = buy_together(wanted, terms)
    filled = filled_needs(needs, bought)
    unit = prices.shop.currency.unit
    gas = gas_for(coming, prices, run_date)
    orders = orders_from(filled, gas, prices, market, terms)
    levels = _levels(filled, sources, run_date, unit)
    total = sum((order.total for order in orders), ZERO)
    packs = rounded(market.money(bought.cost), unit, Rounding.HALF_UP)
    apart = one_by_one(coming, sources, terms, market, unit) if wanted and len(coming) > 1 else None
    purchase = Purchase(
        lines=tuple(_buy_line(need, unit) for need in filled),
        orders=orders,
        levels=levels,
        shortages=tuple(shortage for need in filled for shortage in _shortages(need.need)),
        clashes=clashes_among(coming),
        shares=shares_of(filled, gas, orders, coming, unit),
        gas=gas,
        comparison=_compared(packs, filled, apart) if apart is not None and apart[0] >= packs else None,
        total=total,
        gap=rounded(market.money(bought.cost - bought.bound), unit, Rounding.HALF_UP),
    )
    return Basket(purchase=purchase, filled=filled)


def _compared(together: Decimal, filled: Sequence[Filled], alone: tuple[Decimal, int]) -> Comparison:
    left = sum(
        need.need.source.on_hand + need.bought - sum(draw.from_hand + draw.granted for draw in need.need.draws)
        for need in filled
    )
    return Comparison(together=together, together_left=left, one_by_one=alone[0], one_by_one_left=alone[1])


def terms_of(prices: PriceBook, market: Market) -> dict[str, OrderTerms]:
    """Give the terms of every supplier by folded name: those of the Suppliers sheet, plain ones for the others."""
    names = {pack.supplier for balloon in prices.balloons for pack in balloon.packs}
    names |= {hardware.supplier for hardware in prices.hardware}
    terms = {name.casefold(): OrderTerms() for name in names}
    for supplier in prices.suppliers:
        terms[supplier.name.casefold()] = OrderTerms(
            minimum=market.units(supplier.minimum_order),
            charge=market.units(supplier.delivery_charge),
            free_from=None if supplier.free_from is None else market.units(supplier.free_from),
        )
    return terms


def _buy_line(filled: Filled, unit: Decimal) -> BuyLine:
    need = filled.need
    days = [draw.day for draw in need.draws if draw.granted]
    return BuyLine(
        item=need.source.item,
        need=sum(draw.count for draw in need.draws),
        on_hand=need.source.on_hand,
        packs=tuple((lot.pack.count, lot.packs, lot.pack.price, lot.pack.supplier) for lot in filled.lots),
        cost=sum((lot.cost(unit) for lot in filled.lots), ZERO),
        needed_by=min(days, default=None),
        jobs=tuple(dict.fromkeys(draw.job for draw in need.draws)),
        short=sum(draw.short for draw in need.draws),
    )


def _shortages(need: ItemNeed) -> tuple[Shortage, ...]:
    return tuple(
        Shortage(
            item=need.source.item, job=draw.job, count=draw.short, comes=draw.comes,
            needed_by=draw.until if draw.is_early else draw.day,
            is_early=draw.is_early,
        )
        for draw in need.draws
        if draw.short
    )


def _levels(
    filled: Sequence[Filled], sources: Mapping[str, Source], run_date: date, unit: Decimal
) -> tuple[StockLevel, ...]:
    """Every item that there was, is or will be any of, by name."""
    by_item = {need.need.source.item.casefold(): need for need in filled}
    levels = []
    for key in sorted(sources):
        source, need = sources[key], by_item.get(key)
        bought = need.bought if need else 0
        used = sum(draw.from_hand + draw.granted for draw in need.need.draws) if need else 0
        if not (source.on_hand or bought or used):
            continue
        expired = source.on_hand if source.good_until is not None and source.good_until < run_date else 0
        left = source.on_hand + bought - used - expired
        each = min((pack.price / pack.count for pack in source.packs), default=ZERO)
        levels.append(
            StockLevel(
                item=source.item, on_hand=source.on_hand, bought=bought, used=used, expired=expired, left=left,
                unit_cost=each, value=rounded(left * each, unit, Rounding.HALF_UP),
            )
        )
    return tuple(levels)
