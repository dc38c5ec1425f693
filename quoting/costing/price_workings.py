"""Workings of prices: what each piece costs and is sold for, its adjustments, delivery."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from quoting.costing.costed_jobs import CostedJob
from quoting.costing.pricing import fixed_category, hire_charge, hired
from quoting.costing.splits import Weight, add_split
from quoting.costing.steps import EXACT_MONEY, MONEY, Steps, piece_key, plus, ref, rounding_formula
from quoting.costing.stock import StockUse
from quoting.domain.money import Rounding
from quoting.domain.plans import Section
from quoting.domain.prices import Hardware, TaxCategory

HALF_UP = Rounding.HALF_UP


def price_workings(costed: CostedJob) -> Section:
    """Give the section "price": "unit N" and "amount N" of piece N, "N goods", "N hire", "N labour" its parts.

    "adjustment N.K" is the Kth adjustment on piece N, "delivery" the delivery line,
    "cost" what all of it costs the shop.
    """
    shop = costed.prices.shop
    steps = Steps("price", "Price", shop.currency.code)
    steps.given("markup", "Markup on cost where no price is listed", shop.markup)
    for name, label in (("workshop", "in the workshop"), ("venue", "at the venue")):
        for kind in ("charge", "cost"):
            steps.given(f"{name} {kind}", f"An hour {label}: {kind}", getattr(shop, f"{name}_{kind}"), unit=MONEY)
    _add_items(costed, steps)
    hires = _add_hire_givens(costed, steps)
    for number in range(1, len(costed.plans) + 1):
        _add_piece(costed, steps, number, hires)
        _add_adjustments(costed, steps, number)
    _add_delivery(costed, steps)
    costs = [ref(f"cost {number}") for number in range(1, len(costed.plans) + 1)]
    cost = sum((price.cost for price in costed.pieces), costed.trip.cost if costed.trip else Decimal(0))
    costs += [ref("delivery cost")] if costed.trip else []
    steps.step("cost", "What the job costs the shop", cost, plus(costs), unit=MONEY)
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
        cost = steps.given(f"hire cost {number}", f"{item}: cost per event", hardware.cost, unit=MONEY)
        charge = f"{cost}*(1+{ref('markup')})"
        if hardware.charge is not None:
            charge = steps.given(f"hire charge {number}", f"{item}: hire per event", hardware.charge, unit=MONEY)
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


def _worked(number: int, kind: str) -> str:
    """Write what one piece's work comes to, at "charge" or "cost"."""
    terms = plus(f"{ref(f'{where} {number}', 'labour')}*{ref(f'{where} {kind}')}" for where in ("workshop", "venue"))
    return f"({terms})/3600"


def _add_piece(costed: CostedJob, steps: Steps, number: int, hires: dict[str, _Hired]) -> None:
    (piece, plan), price, unit = costed.plans[number - 1], costed.pieces[number - 1], costed.rules.unit
    materials = _materials(costed, number)
    quantity = ref(f"quantity {number}", "stock")
    counts = [(ref(f"hire {at}", piece_key(piece.label, number)), hires[n.item]) for at, n in enumerate(plan.hire, 1)]
    cost = plus(f"{ref(f'item cost {m.place}')}*{m.formula}" for m in materials)
    cost += f"+({_worked(number, 'cost')}+{plus(f'{count}*{h.cost}' for count, h in counts)})*{quantity}"
    label = f"All of piece {piece.label}"
    steps.step(f"cost {number}", f"{label}: cost", price.cost, rounding_formula(cost, unit, HALF_UP), unit=MONEY)
    weights = (
        _fixed_weights(costed, steps, number)
        if price.is_fixed
        else _worked_weights(costed, steps, number, materials, counts)
    )
    steps.step(
        f"unit {number}", f"One piece {piece.label}: price", price.unit,
        rounding_formula(plus(expression for _, expression, _ in weights), unit, HALF_UP), unit=MONEY,
        words="rounded once, half up",
    )  # fmt: skip
    amount = steps.step(f"amount {number}", label, price.amount, f"{ref(f'unit {number}')}*{quantity}", unit=MONEY)
    parts = add_split(steps, f"piece {number}", (amount, price.amount), weights, unit)
    for (name, _, _), part in zip(weights, parts, strict=True):
        value = price.amounts[TaxCategory(name)]
        steps.step(f"{number} {name}", f"{label}: {name}", value, part, unit=MONEY)


def _fixed_weights(costed: CostedJob, steps: Steps, number: int) -> list[Weight]:
    (piece, plan), price = costed.plans[number - 1], costed.pieces[number - 1]
    category = fixed_category(plan)
    typed = piece.price if piece.price is not None else Decimal(0)
    fixed = steps.given(f"fixed {number}", f"One piece {piece.label}: fixed price", typed, unit=MONEY)
    return [(category.value, _without_tax(costed, steps, fixed, category), price.parts[category])]


def _worked_weights(
    costed: CostedJob, steps: Steps, number: int, materials: Sequence[_Materials], counts: Sequence[tuple[str, _Hired]]
) -> list[Weight]:
    (piece, plan), price, markup = costed.plans[number - 1], costed.pieces[number - 1], costed.prices.shop.markup
    sold = plus(f"{ref(f'item price {m.place}')}*{m.formula}" for m in materials)
    goods = sum((m.use.price * m.share for m in materials), Fraction(0)) / piece.quantity
    needs = zip(plan.hire, counts, strict=True)
    hire = sum((hire_charge(h.hardware, markup) * need.count for need, (_, h) in needs), Fraction(0))
    labour = costed.works[number - 1].charge(costed.prices.shop)
    worked = {
        TaxCategory.GOODS: (goods, f"({sold})/{ref(f'quantity {number}', 'stock')}"),
        TaxCategory.HIRE: (hire, plus(f"{count}*{h.charge}" for count, h in counts)),
        TaxCategory.LABOUR: (labour, _worked(number, "charge")),
    }
    weights: list[Weight] = []
    for category, (value, formula) in worked.items():
        if category not in price.parts:
            continue
        name, paid = category.value, value / costed.divisors[category]
        plain = _without_tax(costed, steps, f"({formula})", category)
        label = f"One piece {piece.label}: {name}"
        weights.append((name, steps.step(f"{name} each {number}", label, paid, plain, unit=EXACT_MONEY), paid))
    return weights


def _without_tax(costed: CostedJob, steps: Steps, formula: str, category: TaxCategory) -> str:
    """Write a price less the tax that an exempt client is not charged."""
    divisor = costed.divisors[category]
    if divisor == 1:
        return formula
    key = f"less tax {category.value}"
    if not steps.has(key):
        steps.given(key, f"Tax contained in prices of {category.value}, not charged to this client", divisor - 1)
    return f"{formula}/(1+{ref(key)})"


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
        parts = add_split(steps, f"{key} split", (reference, line.amount), weights, unit)
        for (name, _, _), part in zip(weights, parts, strict=True):
            value = line.amounts[TaxCategory(name)]
            steps.step(f"{key} {name}", f"{adjustment.name}: {name}", value, part, unit=MONEY)


def _add_delivery(costed: CostedJob, steps: Steps) -> None:
    trip, unit = costed.trip, costed.rules.unit
    if trip is None:
        return
    measure, band = costed.prices.shop.distance_unit, trip.band
    distance = steps.given("distance", "Distance, one way", trip.distance, unit=measure)
    start = steps.given("band start", "Where its delivery band begins", trip.start, unit=measure)
    beyond = steps.step("beyond", "Distance beyond that", trip.beyond, f"MAX(0,{distance}-{start})", unit=measure)
    base = steps.given("band charge", "Delivery band: charge", band.charge, unit=MONEY)
    per = steps.given("further charge", f"Delivery band: per further {measure}", band.charge_per_further, unit=MONEY)
    charge = _without_tax(costed, steps, f"({base}+{per}*{beyond})", TaxCategory.DELIVERY)
    steps.step("delivery", "Delivery", costed.delivery, rounding_formula(charge, unit, HALF_UP), unit=MONEY)
    base = steps.given("band cost", "Delivery band: cost", band.cost, unit=MONEY)
    per = steps.given("further cost", f"Delivery band: cost per further {measure}", band.cost_per_further, unit=MONEY)
    cost = rounding_formula(f"{base}+{per}*{beyond}", unit, HALF_UP)
    steps.step("delivery cost", "Delivery: cost", trip.cost, cost, unit=MONEY)
