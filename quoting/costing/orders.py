"""What was bought, handed to the jobs in order of date: orders by supplier, and each job's share of the money."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from fractions import Fraction

from quoting.costing.joint_orders import Bought
from quoting.costing.needs import ItemNeed, Market
from quoting.costing.supplier_terms import PLAIN, OrderTerms
from quoting.domain.money import ZERO, Rounding, rounded, shared_out
from quoting.domain.orders import CostShare, GasPurchase, OrderLine, SupplierOrder
from quoting.domain.prices import Pack, PriceBook
from quoting.domain.quotes import JobSheet


@dataclass(frozen=True, slots=True, kw_only=True)
class Lot:
    """Packs of one kind bought for an item. `used` are (job, how many balloons of them), in order of date."""

    pack: Pack
    packs: int
    arrives: date
    used: tuple[tuple[str, int], ...]

    def cost(self, unit: Decimal) -> Decimal:
        """Say what they cost together, rounded half up."""
        return rounded(self.pack.price * self.packs, unit, Rounding.HALF_UP)


@dataclass(frozen=True, slots=True, kw_only=True)
class Filled:
    """One item's need with what is bought for it, in the order in which it is used up."""

    need: ItemNeed
    lots: tuple[Lot, ...]

    @property
    def bought(self) -> int:
        """How many single ones are bought."""
        return sum(lot.pack.count * lot.packs for lot in self.lots)


def filled_needs(needs: Sequence[ItemNeed], bought: Bought) -> tuple[Filled, ...]:
    """Put the numbers bought to their needs; `bought` has those for the needs of which something has to be bought."""
    numbers = iter(bought.numbers)
    return tuple(_filled(need, next(numbers) if need.to_buy else ()) for need in needs)


def _filled(need: ItemNeed, numbers: Sequence[int]) -> Filled:
    """Packs that come first are used first; of one day, those of one colour lot after each other."""
    chosen = [
        (arrives, pack, number)
        for pack, arrives, number in zip(need.packs, need.arrivals, numbers, strict=False)
        if number
    ]
    chosen.sort(key=lambda each: (each[0], each[1].lot, -each[1].count, each[1].supplier))
    waiting = [(draw.job, draw.granted) for draw in need.draws if draw.granted]
    lots = []
    for arrives, pack, number in chosen:
        left = pack.count * number
        used = []
        while left and waiting:
            job, count = waiting[0]
            taken = min(left, count)
            used.append((job, taken))
            left -= taken
            waiting = waiting[1:] if taken == count else [(job, count - taken), *waiting[1:]]
        lots.append(Lot(pack=pack, packs=number, arrives=arrives, used=tuple(used)))
    return Filled(need=need, lots=tuple(lots))


def orders_from(
    filled: Sequence[Filled],
    gas: GasPurchase | None,
    prices: PriceBook,
    market: Market,
    terms: Mapping[str, OrderTerms],
) -> tuple[SupplierOrder, ...]:
    """Give one order per supplier, by name, cylinders included; `terms` decide on its delivery."""
    unit = prices.shop.currency.unit
    names: dict[str, str] = {}
    lines: dict[str, list[OrderLine]] = {}
    for supplier, line in [*_pack_lines(filled, unit), *_cylinder_lines(gas)]:
        names.setdefault(supplier.casefold(), supplier)
        lines.setdefault(supplier.casefold(), []).append(line)
    asked = {supplier.name.casefold(): supplier for supplier in prices.suppliers}
    orders = []
    for key in sorted(lines):
        goods = sum(line.packs * market.units(line.price) for line in lines[key])
        charge = rounded(market.money(terms.get(key, PLAIN).charge_on(goods)), unit, Rounding.HALF_UP)
        total = sum((line.cost for line in lines[key]), ZERO)
        orders.append(
            SupplierOrder(
                supplier=asked[key].name if key in asked else names[key],
                lines=tuple(lines[key]),
                goods=total,
                charge=charge,
                total=total + charge,
                minimum=asked[key].minimum_order if key in asked else ZERO,
                arrives=market.arrives_from(key),
            )
        )
    return tuple(orders)


def _pack_lines(filled: Sequence[Filled], unit: Decimal) -> list[tuple[str, OrderLine]]:
    return [(lot.pack.supplier, _order_line(need, lot, unit)) for need in filled for lot in need.lots]


def _cylinder_lines(gas: GasPurchase | None) -> list[tuple[str, OrderLine]]:
    if gas is None:
        return []
    jobs = tuple(job for job, _ in gas.jobs)
    return [
        (
            line.supplier,
            OrderLine(
                item=line.item, count=line.litres, packs=line.count, price=line.price, cost=line.cost, lot="",
                needed_by=gas.needed_by, jobs=jobs, measure="litres",
            ),
        )
        for line in gas.cylinders
    ]


def _order_line(filled: Filled, lot: Lot, unit: Decimal) -> OrderLine:
    # Packs that no job touches were bought for the order's sake: they are there when the item is first needed.
    users = {job for job, _ in lot.used} or {draw.job for draw in filled.need.draws if draw.granted}
    draws = [draw for draw in filled.need.draws if draw.job in users and draw.granted]
    return OrderLine(
        item=filled.need.source.item,
        count=lot.pack.count,
        packs=lot.packs,
        price=lot.pack.price,
        cost=lot.cost(unit),
        lot=lot.pack.lot,
        needed_by=min(draw.day for draw in draws),
        jobs=tuple(dict.fromkeys(draw.job for draw in draws)),
    )


def shares_of(
    filled: Sequence[Filled],
    gas: GasPurchase | None,
    orders: Sequence[SupplierOrder],
    sheets: Sequence[JobSheet],
    unit: Decimal,
) -> tuple[CostShare, ...]:
    """Split what is bought over the jobs, to the cent.

    The packs of an item from one supplier go by what each job takes of the item beyond
    what was on hand, cylinders by the gas in each job; delivery by each job's share of
    that supplier's goods. What is left over is paid by those it was bought for. In the
    order of the sheets, jobs that pay nothing too.
    """
    jobs = [sheet.job for sheet in sheets]
    goods: dict[str, dict[str, Decimal]] = {}
    for supplier, cost, weights in [*_pack_costs(filled, unit), *_cylinder_costs(gas)]:
        paid = goods.setdefault(supplier, {})
        for (job, _), part in zip(weights, shared_out(cost, [weight for _, weight in weights], unit), strict=True):
            paid[job] = paid.get(job, ZERO) + part
    charges = dict.fromkeys(jobs, ZERO)
    for order in orders:
        paid = goods[order.supplier.casefold()]
        for job, part in zip(paid, shared_out(order.charge, list(paid.values()), unit), strict=True):
            charges[job] += part
    totals = {job: sum((paid.get(job, ZERO) for paid in goods.values()), ZERO) for job in jobs}
    return tuple(CostShare(job=job, goods=totals[job], charges=charges[job]) for job in jobs)


_Cost = tuple[str, Decimal, list[tuple[str, Fraction]]]
"""Whose (folded name), how much, and by what it is shared: job and weight."""


def _pack_costs(filled: Sequence[Filled], unit: Decimal) -> list[_Cost]:
    found: list[_Cost] = []
    for need in filled:
        weights = [(draw.job, Fraction(draw.granted)) for draw in need.need.draws if draw.granted]
        costs: dict[str, Decimal] = {}
        for lot in need.lots:
            key = lot.pack.supplier.casefold()
            costs[key] = costs.get(key, ZERO) + lot.cost(unit)
        found += [(key, cost, weights) for key, cost in costs.items()]
    return found


def _cylinder_costs(gas: GasPurchase | None) -> list[_Cost]:
    if gas is None:
        return []
    weights = [(job, Fraction(litres)) for job, litres in gas.jobs]
    return [(line.supplier.casefold(), line.cost, weights) for line in gas.cylinders]
