"""Workings of prices: what each piece costs and is sold for, its adjustments, delivery."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from quoting.costing.costed_jobs import CostedJob
from quoting.costing.delivery_workings import add_cost, add_delivery, add_delivery_line
from quoting.costing.labour import Stage
from quoting.costing.policy_workings import add_attendance, add_policy, for_margin, tidy_formula, without_tax, worked
from quoting.costing.pricing import fixed_category, hired, uplift
from quoting.costing.splits import Weight, add_split
from quoting.costing.steps import EXACT_MONEY, MONEY, Steps, piece_key, plus, ref, rounding_formula
from quoting.costing.stock import StockUse
from quoting.domain.money import Rounding
from quoting.domain.plans import Section
from quoting.domain.prices import Hardware, TaxCategory

HALF_UP = Rounding.HALF_UP


def price_workings(costed: CostedJob) -> Section:
    """Give the section "price": "unit N" and "amount N" of piece N, "N goods", "N hire", "N labour" its parts.

    "adjustment N.K" is the Kth adjustment on piece N, "labour" and "delivery" lines of
    their own, "cost" what all of it costs the shop.
    """
    shop = costed.prices.shop
    steps = Steps("price", "Price", shop.currency.code)
    steps.given("markup", "Markup on cost where no price is listed", shop.markup)
    for name, label in (("workshop", "in the workshop"), ("venue", "at the venue")):
        for kind in ("charge", "cost"):
            steps.given(f"{name} {kind}", f"An hour {label}: {kind}", getattr(shop, f"{name}_{kind}"), unit=MONEY)
    add_policy(costed, steps)
    _add_items(costed, steps)
    hires = _add_hire_givens(costed, steps)
    further = add_attendance(costed, steps)
    carried = add_delivery(costed, steps)
    numbers = range(1, len(costed.plans) + 1)
    own = [_own_parts(costed, steps, number, hires) for number in numbers]
    folded = _add_folding(costed, steps, own, {TaxCategory.LABOUR: further, TaxCategory.DELIVERY: carried})
    for number in numbers:
        _add_piece(costed, steps, number, hires, own=own[number - 1], folded=folded)
        _add_adjustments(costed, steps, number)
    _add_labour_line(costed, steps, further)
    add_delivery_line(costed, steps, carried)
    add_cost(costed, steps)
    return steps.section()


def _add_items(costed: CostedJob, steps: Steps) -> None:
    for number, use in enumerate(costed.stock, 1):
        item = use.line.item
        count = ref(f"charged {number}" if use.is_balloon else f"need {number}", "stock")
        formula = f"{count}*{ref(f'unit cost {number}', 'stock')}"
        if use.packs:
            formula = plus(
                f"{ref(f'opened {number}.{p}', 'stock')}*{ref(f'opened price {number}.{p}', 'stock')}"
                for p in range(1, len(use.packs) + 1)
            )
        cost = steps.step(f"item cost {number}", f"{item}: cost of all", use.cost, formula, unit=EXACT_MONEY)
        if use.listed is None:
            formula = f"{cost}*(1+{ref('markup')})"
        else:
            formula = f"{count}*{steps.given(f'listed {number}', f'{item}: listed price', use.listed, unit=MONEY)}"
        steps.step(f"item price {number}", f"{item}: price of all", use.price, formula, unit=EXACT_MONEY)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Hired:
    """One hired item: the expressions of its cost and its charge for one."""

    hardware: Hardware
    cost: str
    charge: str


def _add_hire_givens(costed: CostedJob, steps: Steps) -> dict[str, _Hired]:
    found = {need.item: hired(need, costed.prices) for _, plan in costed.plans for need in plan.hire}
    named = {hardware.item: hardware for hardware in found.values()}
    made: dict[str, _Hired] = {}
    for number, item in enumerate(sorted(named, key=str.casefold), 1):
        hardware = named[item]
        per, times = "event", ""
        if hardware.is_per_day:
            per, times = "day", f"*{steps.given(f'hire days {number}', f'{item}: days away', hardware.days)}"
        cost = steps.given(f"hire cost {number}", f"{item}: cost per {per}", hardware.cost / hardware.days, unit=MONEY)
        cost = f"{cost}{times}"
        charge = f"{cost}*(1+{ref('markup')})"
        if hardware.charge is not None:
            each = hardware.charge / hardware.days
            charge = steps.given(f"hire charge {number}", f"{item}: hire per {per}", each, unit=MONEY) + times
        made[item] = _Hired(hardware=hardware, cost=cost, charge=charge)
    return {item: made[hardware.item] for item, hardware in found.items()}


@dataclass(frozen=True, slots=True, kw_only=True)
class _Materials:
    """A piece's share of one stock item."""

    place: int
    use: StockUse
    share: Fraction
    formula: str


def _materials(costed: CostedJob, number: int) -> list[_Materials]:
    return [
        _Materials(
            place=place,
            use=use,
            share=Fraction(count, use.line.need),
            formula=f"{ref(f'use {number}.{place}', 'stock')}/{ref(f'need {place}', 'stock')}",
        )
        for place, use in enumerate(costed.stock, 1)
        for at, count, _ in use.uses
        if at == number - 1
    ]


_Own = dict[TaxCategory, tuple[str, Fraction]]
"""What one piece comes to by category, expression and value, before folding and before tax is taken out."""


def _own_parts(costed: CostedJob, steps: Steps, number: int, hires: dict[str, _Hired]) -> _Own:
    (piece, plan), price = costed.plans[number - 1], costed.pieces[number - 1]
    if price.is_fixed:
        typed = piece.price if piece.price is not None else Decimal(0)
        fixed = steps.given(f"fixed {number}", f"One piece {piece.label}: fixed price", typed, unit=MONEY)
        return {fixed_category(plan): (fixed, Fraction(typed))}
    kind = "charge" if uplift(costed.prices.shop) is None else "cost"
    share = "item price" if kind == "charge" else "item cost"
    goods = plus(f"{ref(f'{share} {m.place}')}*{m.formula}" for m in _materials(costed, number))
    hire = plus(f"{count}*{getattr(h, kind)}" for count, h in _hire_counts(costed, number, hires))
    written = {
        TaxCategory.GOODS: f"({goods})/{ref(f'quantity {number}', 'stock')}",
        TaxCategory.HIRE: f"({hire})",
        TaxCategory.LABOUR: worked(costed, steps, number, kind, tuple(Stage)),
    }
    values = {**price.own, **({TaxCategory.LABOUR: price.labour} if price.labour else {})}
    return {
        category: (for_margin(costed, steps, written[category], category), values[category])
        for category in written
        if category in values
    }


def _hire_counts(costed: CostedJob, number: int, hires: dict[str, _Hired]) -> list[tuple[str, _Hired]]:
    piece, plan = costed.plans[number - 1]
    return [(ref(f"hire {at}", piece_key(piece.label, number)), hires[n.item]) for at, n in enumerate(plan.hire, 1)]


def _add_folding(
    costed: CostedJob, steps: Steps, own: list[_Own], charges: Mapping[TaxCategory, tuple[str, Fraction]]
) -> dict[TaxCategory, tuple[str, Fraction]]:
    """Add what charges of the whole job are shared by, where they go into the pieces; gives those charges."""
    folded = {category: charges[category] for category in charges if category in costed.folded}
    if not folded:
        return {}
    terms = []
    for number, ((piece, _), price, parts) in enumerate(zip(costed.plans, costed.pieces, own, strict=True), 1):
        if price.is_fixed:
            continue
        value = sum(price.own.values(), Fraction(0)) * piece.quantity
        sums = plus(expression for category, (expression, _) in parts.items() if category in price.own)
        formula = f"({sums})*{ref(f'quantity {number}', 'stock')}"
        label = f"All of piece {piece.label}, before charges of the whole job"
        terms.append((steps.step(f"own {number}", label, value, formula, unit=EXACT_MONEY), value))
    total = sum((value for _, value in terms), Fraction(0))
    label = "All pieces that take charges of the whole job"
    steps.step("own", label, total, plus(term for term, _ in terms), unit=EXACT_MONEY)
    return folded


def _add_piece(
    costed: CostedJob, steps: Steps, number: int, hires: dict[str, _Hired],
    *, own: _Own, folded: Mapping[TaxCategory, tuple[str, Fraction]],
) -> None:  # fmt: skip
    (piece, _), price, unit = costed.plans[number - 1], costed.pieces[number - 1], costed.rules.unit
    quantity = ref(f"quantity {number}", "stock")
    hired_cost = plus(f"{count}*{h.cost}" for count, h in _hire_counts(costed, number, hires))
    cost = plus(f"{ref(f'item cost {m.place}')}*{m.formula}" for m in _materials(costed, number))
    cost += f"+({worked(costed, steps, number, 'cost', tuple(Stage))}+{hired_cost})*{quantity}"
    label = f"All of piece {piece.label}"
    steps.step(f"cost {number}", f"{label}: cost", price.cost, rounding_formula(cost, unit, HALF_UP), unit=MONEY)
    weights = _weights(costed, steps, number, own, folded)
    total = plus(expression for _, expression, _ in weights)
    is_stepped = bool(costed.prices.shop.policy.price_step) and not price.is_fixed
    steps.step(
        f"unit {number}", f"One piece {piece.label}: price", price.unit,
        tidy_formula(costed, total) if is_stepped else rounding_formula(total, unit, HALF_UP), unit=MONEY,
        words="rounded once, half up",
    )  # fmt: skip
    amount = steps.step(f"amount {number}", label, price.amount, f"{ref(f'unit {number}')}*{quantity}", unit=MONEY)
    parts = add_split(
        steps, f"piece {number}", (amount, price.amount), weights, unit, title=f"Piece {piece.label}")
    for (name, _, _), part in zip(weights, parts, strict=True):
        value = price.amounts[TaxCategory(name)]
        steps.step(f"{number} {name}", f"{label}: {name}", value, part, unit=MONEY)


def _weights(
    costed: CostedJob, steps: Steps, number: int, own: _Own, folded: Mapping[TaxCategory, tuple[str, Fraction]]
) -> list[Weight]:
    """Give the parts of one piece: its own, its share of what is folded in, less tax that isn't charged."""
    (piece, plan), price = costed.plans[number - 1], costed.pieces[number - 1]
    if price.is_fixed:
        category = fixed_category(plan)
        return [(category.value, without_tax(costed, steps, own[category][0], category), price.parts[category])]
    weights: list[Weight] = []
    for category, paid in price.parts.items():
        terms = [own[category][0]] if category in price.own else []
        if category in folded and any(price.own.values()):
            share = f"{ref(f'own {number}')}/{ref('own')}/{ref(f'quantity {number}', 'stock')}"
            terms.append(f"{folded[category][0]}*{share}")
        name = category.value
        plain = without_tax(costed, steps, f"({plus(terms)})", category)
        label = f"One piece {piece.label}: {name}"
        weights.append((name, steps.step(f"{name} each {number}", label, paid, plain, unit=EXACT_MONEY), paid))
    return weights


def _add_adjustments(costed: CostedJob, steps: Steps, number: int) -> None:
    price, unit = costed.pieces[number - 1], costed.rules.unit
    for place, line in enumerate(costed.adjustments[number - 1], 1):
        key, adjustment = f"adjustment {number}.{place}", line.adjustment
        if adjustment.percent is not None:
            share = steps.given(f"{key}, percent", f"{adjustment.name}: share of the piece", adjustment.percent)
            size = f"{ref(f'amount {number}')}*{share}"
        else:
            typed = adjustment.amount if adjustment.amount is not None else Decimal(0)
            size = steps.given(f"{key}, amount", f"{adjustment.name}: amount", typed, unit=MONEY)
        formula = ("-" if adjustment.is_discount else "") + rounding_formula(size, unit, HALF_UP)
        reference = steps.step(key, adjustment.name, line.amount, formula, unit=MONEY)
        weights = [(c.value, ref(f"{number} {c.value}"), Fraction(amount)) for c, amount in price.amounts.items()]
        parts = add_split(
            steps, f"{key} split", (reference, line.amount), weights, unit, title=adjustment.name)
        for (name, _, _), part in zip(weights, parts, strict=True):
            value = line.amounts[TaxCategory(name)]
            steps.step(f"{key} {name}", f"{adjustment.name}: {name}", value, part, unit=MONEY)


def _add_labour_line(costed: CostedJob, steps: Steps, further: tuple[str, Fraction]) -> None:
    """Add the line that labour stands on where it is not in the pieces."""
    if costed.labour is None:
        return
    kind = "charge" if uplift(costed.prices.shop) is None else "cost"
    terms = []
    for number, price in enumerate(costed.pieces, 1):
        if price.labour:
            each = for_margin(costed, steps, worked(costed, steps, number, kind, tuple(Stage)), TaxCategory.LABOUR)
            terms.append(f"{each}*{ref(f'quantity {number}', 'stock')}")
    if TaxCategory.LABOUR not in costed.folded and further[1]:
        terms.append(further[0])
    charge = without_tax(costed, steps, f"({plus(terms)})", TaxCategory.LABOUR)
    formula = rounding_formula(charge, costed.rules.unit, HALF_UP)
    steps.step("labour", "Labour", costed.labour, formula, unit=MONEY)
