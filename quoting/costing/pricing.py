"""The price of each piece: materials, labour and hire, or its fixed price, told apart by what is taxed alike."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from quoting.costing.labour import PieceWork
from quoting.costing.steps import round_half_up
from quoting.costing.stock import Planned, StockUse, complaint, is_priced
from quoting.domain.crews import Shown
from quoting.domain.jobs import Job, Piece
from quoting.domain.money import ZERO, shared_out
from quoting.domain.plans import HireNeed, Plan
from quoting.domain.prices import Hardware, PriceBook, Shop, TaxCategory
from quoting.domain.problems import Outcome, Problem
from quoting.domain.quotes import HireLine

Divisors = Mapping[TaxCategory, Fraction]
"""What prices are divided by: 1, or 1 + the tax contained where an exempt client doesn't pay it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PiecePrice:
    """What one piece comes to. `unit` is for one, `amount` and `cost` for its quantity, all rounded.

    `parts` are the exact components for one piece by category, the tax an exempt
    client doesn't pay taken out; of a fixed price the whole in one category. `own` are
    the same before anything of the whole job is folded in and any tax is taken out;
    `labour` is the labour of one that stands on a line of its own instead.
    """

    unit: Decimal
    amount: Decimal
    amounts: Mapping[TaxCategory, Decimal]
    parts: Mapping[TaxCategory, Fraction]
    cost: Decimal
    is_fixed: bool
    own: Mapping[TaxCategory, Fraction]
    labour: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class PricedPieces:
    """Every piece's price, and the categories of the whole job's charges that were folded into them."""

    prices: tuple[PiecePrice, ...]
    folded: frozenset[TaxCategory]


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


def uplift(shop: Shop) -> Fraction | None:
    """Give what a cost is multiplied by for its price before tax, to leave the target margin; None without one."""
    target = shop.policy.target_margin
    return None if target is None else (1 + Fraction(shop.policy.overhead)) / (1 - Fraction(target))


def price_pieces(
    plans: Planned,
    stock: Sequence[StockUse],
    works: Sequence[PieceWork],
    prices: PriceBook,
    *,
    divisors: Divisors,
    contained: Divisors,
    folding: Mapping[TaxCategory, Fraction],
) -> PricedPieces:
    """Price every piece, in order.

    The cost and price of a stock item, spares and opened packs included, are shared
    to the pieces in proportion to what each uses of it. With a target margin a part's
    price is its cost × `uplift`, times the tax that prices contain. `folding` are
    charges of the whole job, shared to the pieces without a fixed price in proportion
    to what they come to; where there are none they stay out. A price is rounded once,
    half up, for one piece, to the shop's step; the amount is that times the quantity.
    """
    costs, goods = [Fraction(0)] * len(plans), [Fraction(0)] * len(plans)
    for use in stock:
        for number, count, _ in use.uses:
            share = Fraction(count, use.line.need)
            costs[number] += use.cost * share
            goods[number] += use.price * share
    on_line = prices.shop.policy.labour_shown is Shown.OWN_LINE
    owns, labours = [], []
    for (piece, plan), work, cost, good in zip(plans, works, costs, goods, strict=True):
        own = _own_parts(piece, plan, work, prices, contained, cost=cost, goods=good)
        labours.append(own.pop(TaxCategory.LABOUR, Fraction(0)) if on_line and piece.price is None else Fraction(0))
        owns.append(own)
    weights = [
        sum(own.values(), Fraction(0)) * piece.quantity if piece.price is None else Fraction(0)
        for (piece, _), own in zip(plans, owns, strict=True)
    ]
    whole = sum(weights, Fraction(0))
    folded = {category: amount for category, amount in folding.items() if amount and whole}
    return PricedPieces(
        prices=tuple(
            _price_piece(
                piece, plan, work, prices, divisors, cost=cost, own=own, labour=labour,
                folded={c: amount * weight / whole / piece.quantity for c, amount in folded.items() if weight},
            )
            for (piece, plan), work, cost, own, labour, weight in zip(
                plans, works, costs, owns, labours, weights, strict=True
            )
        ),
        folded=frozenset(folded),
    )  # fmt: skip


def _own_parts(
    piece: Piece, plan: Plan, work: PieceWork, prices: PriceBook, contained: Divisors,
    *, cost: Fraction, goods: Fraction,
) -> dict[TaxCategory, Fraction]:  # fmt: skip
    """Give what one piece comes to by category, before tax is taken out for an exempt client."""
    shop = prices.shop
    if piece.price is not None:
        return {fixed_category(plan): Fraction(piece.price)}
    times = uplift(shop)
    if times is not None:
        costs = {
            TaxCategory.GOODS: cost / piece.quantity,
            TaxCategory.HIRE: hire_cost(plan, prices),
            TaxCategory.LABOUR: work.cost(shop),
        }
        return {category: amount * times * contained[category] for category, amount in costs.items() if amount}
    hire = sum((hire_charge(hired(need, prices), shop.markup) * need.count for need in plan.hire), Fraction(0))
    whole = {
        TaxCategory.GOODS: goods / piece.quantity,
        TaxCategory.HIRE: hire,
        TaxCategory.LABOUR: work.charge(shop),
    }
    return {category: amount for category, amount in whole.items() if amount}


def hire_cost(plan: Plan, prices: PriceBook) -> Fraction:
    """Say what the hired things of one piece cost the shop."""
    return sum((Fraction(hired(need, prices).cost * need.count) for need in plan.hire), Fraction(0))


def _price_piece(
    piece: Piece, plan: Plan, work: PieceWork, prices: PriceBook, divisors: Divisors,
    *, cost: Fraction, own: Mapping[TaxCategory, Fraction], labour: Fraction, folded: Mapping[TaxCategory, Fraction],
) -> PiecePrice:  # fmt: skip
    shop, quantity = prices.shop, piece.quantity
    whole = {c: own.get(c, Fraction(0)) + folded.get(c, Fraction(0)) for c in TaxCategory if c in own or c in folded}
    parts = {category: amount / divisors[category] for category, amount in whole.items()}
    parts = parts or {fixed_category(plan): Fraction(0)}
    exact_price = sum(parts.values(), Fraction(0))
    step = ZERO if piece.price is not None else shop.policy.price_step
    unit_price = tidy(exact_price, step, shop.currency.unit)
    amount = unit_price * quantity
    split = shared_out(amount, list(parts.values()), shop.currency.unit)
    return PiecePrice(
        unit=unit_price,
        amount=amount,
        amounts=dict(zip(parts, split, strict=True)),
        parts=parts,
        cost=round_half_up(cost + (work.cost(shop) + hire_cost(plan, prices)) * quantity, shop.currency.unit),
        is_fixed=piece.price is not None,
        own=own,
        labour=labour,
    )


def tidy(amount: Fraction, step: Decimal, unit: Decimal) -> Decimal:
    """Round a price half up to a multiple of the step, but not to nothing; without a step to the smallest coin.

    >>> tidy(Fraction(1234, 100), Decimal(5), Decimal("0.01")), tidy(Fraction(1), Decimal(5), Decimal("0.01"))
    (Decimal('10.00'), Decimal('5.00'))
    """
    if not step or amount <= 0:
        return round_half_up(amount, unit)
    return max(step, round_half_up(amount, step)).quantize(unit)


def fixed_category(plan: Plan) -> TaxCategory:
    """Say what a fixed price is for: labour for a service, hire for a thing only hired, else goods."""
    if plan.is_labour_only:
        return TaxCategory.LABOUR
    return TaxCategory.HIRE if plan.hire and not plan.parts else TaxCategory.GOODS
