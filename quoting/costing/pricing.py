"""The price of each piece: materials, labour and hire, or its fixed price, told apart by what is taxed alike."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from quoting.costing.labour import PieceWork
from quoting.costing.steps import round_half_up
from quoting.costing.stock import Planned, StockUse, complaint, is_priced
from quoting.domain.jobs import Job, Piece
from quoting.domain.money import shared_out
from quoting.domain.plans import HireNeed, Plan
from quoting.domain.prices import Hardware, PriceBook, TaxCategory
from quoting.domain.problems import Outcome, Problem
from quoting.domain.quotes import HireLine

SPLIT_ORDER = (TaxCategory.GOODS, TaxCategory.HIRE, TaxCategory.LABOUR)
"""The order in which a piece's amount is told apart; of equal remainders the earlier gains."""

Divisors = Mapping[TaxCategory, Fraction]
"""What prices are divided by: 1, or 1 + the tax contained where an exempt client doesn't pay it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PiecePrice:
    """What one piece comes to. `unit` is for one, `amount` and `cost` for its quantity, all rounded.

    `parts` are the exact components for one piece by category, the tax an exempt
    client doesn't pay taken out; of a fixed price the whole in one category.
    """

    unit: Decimal
    amount: Decimal
    amounts: Mapping[TaxCategory, Decimal]
    parts: Mapping[TaxCategory, Fraction]
    cost: Decimal
    is_fixed: bool


def hire_charge(hardware: Hardware, markup: Decimal) -> Fraction:
    """Say what one hired thing is charged per event: as listed, else its cost with the markup."""
    return Fraction(hardware.cost * (1 + markup) if hardware.charge is None else hardware.charge)


def hire_of(job: Job, plans: Planned, prices: PriceBook) -> Outcome[tuple[HireLine, ...]]:
    """Give the job's hired things by name; one whose price doesn't hold on the quote date holds the job."""
    counts: dict[str, int] = {}
    problems: dict[str, Problem] = {}
    for piece, plan in plans:
        for need in plan.hire:
            key = hired(need, prices).item
            counts[key] = counts.get(key, 0) + need.count * piece.quantity
            if not is_priced(hired(need, prices), job) and key not in problems:
                problems[key] = complaint("P603", job, piece, need, key)
    unit = prices.shop.currency.unit
    lines = []
    for item in sorted(counts, key=str.casefold):
        hardware = prices.hardware_item(item)
        assert hardware is not None  # `hired` found it by this very name
        lines.append(
            HireLine(
                item=item,
                count=counts[item],
                owned=hardware.owned,
                charge=round_half_up(hire_charge(hardware, prices.shop.markup) * counts[item], unit),
                cost=round_half_up(hardware.cost * counts[item], unit),
            )
        )
    return Outcome(value=tuple(line for line in lines if line.count), problems=tuple(problems.values()))


def hired(need: HireNeed, prices: PriceBook) -> Hardware:
    """Find the hardware of a need; KeyError where no price sheet has it (forms let none through)."""
    hardware = prices.hardware_item(need.item)
    if hardware is None:
        raise KeyError(need.item)
    return hardware


def price_pieces(
    plans: Planned, stock: Sequence[StockUse], works: Sequence[PieceWork], prices: PriceBook, divisors: Divisors
) -> tuple[PiecePrice, ...]:
    """Price every piece, in order.

    The cost and price of a stock item, spares and opened packs included, are shared
    to the pieces in proportion to what each uses of it. A price is rounded once, half
    up, for one piece; the amount is that times the quantity.
    """
    costs, goods = [Fraction(0)] * len(plans), [Fraction(0)] * len(plans)
    for use in stock:
        for number, count, _ in use.uses:
            share = Fraction(count, use.line.need)
            costs[number] += use.cost * share
            goods[number] += use.price * share
    return tuple(
        _price_piece(piece, plan, work, prices, divisors, cost=cost, goods=good)
        for (piece, plan), work, cost, good in zip(plans, works, costs, goods, strict=True)
    )


def _price_piece(
    piece: Piece, plan: Plan, work: PieceWork, prices: PriceBook, divisors: Divisors, *, cost: Fraction, goods: Fraction
) -> PiecePrice:
    shop, quantity = prices.shop, piece.quantity
    hire_cost = sum((hired(need, prices).cost * need.count for need in plan.hire), Decimal(0))
    if piece.price is None:
        hire = sum((hire_charge(hired(need, prices), shop.markup) * need.count for need in plan.hire), Fraction(0))
        whole = {TaxCategory.GOODS: goods / quantity, TaxCategory.HIRE: hire, TaxCategory.LABOUR: work.charge(shop)}
    else:
        whole = {fixed_category(plan): Fraction(piece.price)}
    parts = {category: amount / divisors[category] for category, amount in whole.items() if amount}
    parts = parts or {fixed_category(plan): Fraction(0)}
    unit_price = round_half_up(sum(parts.values(), Fraction(0)), shop.currency.unit)
    amount = unit_price * quantity
    split = shared_out(amount, list(parts.values()), shop.currency.unit)
    return PiecePrice(
        unit=unit_price,
        amount=amount,
        amounts=dict(zip(parts, split, strict=True)),
        parts=parts,
        cost=round_half_up(cost + (work.cost(shop) + Fraction(hire_cost)) * quantity, shop.currency.unit),
        is_fixed=piece.price is not None,
    )


def fixed_category(plan: Plan) -> TaxCategory:
    """Say what a fixed price is for: labour for a service, hire for a thing only hired, else goods."""
    if plan.is_labour_only:
        return TaxCategory.LABOUR
    return TaxCategory.HIRE if plan.hire and not plan.parts else TaxCategory.GOODS
