"""Workings of prices: hours, what each piece costs and is sold for, its adjustments, delivery."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from quoting.costing.costed_jobs import CostedJob
from quoting.costing.labour import hours_of
from quoting.costing.pricing import fixed_category, hire_charge, hired
from quoting.costing.steps import Steps, add_split, piece_key, plus, ref, rounding_formula
from quoting.domain.money import Rounding
from quoting.domain.plans import Section
from quoting.domain.prices import ActivityRate, Hardware, TaxCategory

HALF_UP = Rounding.HALF_UP


def labour_workings(costed: CostedJob) -> Section:
    """Give the section "labour": "workshop N" and "venue N" are the seconds of one piece N."""
    steps = Steps("labour", "Labour")
    rates: dict[ActivityRate, str] = {}
    for rate in (rate for work in costed.works for rate in work.rates):
        if rate not in rates:
            size = "" if rate.up_to_size is None else f", up to {rate.up_to_size} in"
            where = "venue" if rate.is_at_venue else "workshop"
            rates[rate] = steps.given(
                f"seconds {len(rates) + 1}", f"{rate.activity}{size} ({where})", rate.seconds, "seconds"
            )
    for number, ((piece, _), work) in enumerate(zip(costed.plans, costed.works, strict=True), 1):
        section = piece_key(piece.label, number)
        for name, seconds, at_venue in (("workshop", work.workshop, False), ("venue", work.venue, True)):
            terms = [
                f"{ref(f'task {place}', section)}*{rates[rate]}"
                for place, rate in enumerate(work.rates, 1)
                if rate.is_at_venue is at_venue
            ]
            steps.step(f"{name} {number}", f"One piece {piece.label}, {name}", seconds, plus(terms), "seconds")
    for name in ("workshop", "venue"):
        whole = sum(
            (getattr(w, name) * p.quantity for (p, _), w in zip(costed.plans, costed.works, strict=True)), Decimal(0)
        )
        terms = [f"{ref(f'{name} {n}')}*{ref(f'quantity {n}', 'stock')}" for n in range(1, len(costed.works) + 1)]
        steps.step(
            f"{name} hours",
            f"Hours in the {name}" if name == "workshop" else "Hours at the venue",
            hours_of(whole),
            f"({plus(terms)})/3600",
            "hours",
        )
    return steps.section()


def price_workings(costed: CostedJob) -> Section:
    """Give the section "price": "unit N" and "amount N" of piece N, "N goods", "N hire", "N labour" its parts.

    "adjustment N.K" is the Kth adjustment on piece N, "delivery" the delivery line,
    "cost" what all of it costs the shop.
    """
    steps = Steps("price", "Price")
    steps.given("markup", "Markup on cost where no price is listed", costed.prices.shop.markup)
    for name, label in (("workshop", "in the workshop"), ("venue", "at the venue")):
        for kind in ("charge", "cost"):
            rate = getattr(costed.prices.shop, f"{name}_{kind}")
            steps.given(f"{name} {kind}", f"An hour {label}: {kind}", rate, "money")
    _add_items(costed, steps)
    hires = _add_hire_givens(costed, steps)
    for number in range(1, len(costed.plans) + 1):
        _add_piece(costed, steps, number, hires)
        _add_adjustments(costed, steps, number)
    _add_delivery(costed, steps)
    pieces = [ref(f"cost {number}") for number in range(1, len(costed.plans) + 1)]
    cost = sum((price.cost for price in costed.pieces), costed.trip.cost if costed.trip else Decimal(0))
    steps.step(
        "cost",
        "What the job costs the shop",
        cost,
        plus([*pieces, *(["{delivery cost}"] if costed.trip else [])]),
        "money",
    )
    return steps.section()


def _add_items(costed: CostedJob, steps: Steps) -> None:
    for number, use in enumerate(costed.stock, 1):
        item = use.line.item
        count = ref(f"charged {number}" if use.is_balloon else f"need {number}", "stock")
        each = f"{count}*{ref(f'unit cost {number}', 'stock')}"
        opened = plus(
            f"{ref(f'opened {number}.{p}', 'stock')}*{ref(f'opened price {number}.{p}', 'stock')}"
            for p in range(1, len(use.packs) + 1)
        )
        cost = steps.step(
            f"item cost {number}", f"{item}: cost of all", use.cost, opened if use.packs else each, "money"
        )
        if use.listed is None:
            formula = f"{cost}*(1+{ref('markup')})"
        else:
            formula = f"{count}*{steps.given(f'listed {number}', f'{item}: listed price', use.listed, 'money')}"
        steps.step(f"item price {number}", f"{item}: price of all", use.price, formula, "money")


def _add_hire_givens(costed: CostedJob, steps: Steps) -> dict[str, tuple[str, str]]:
    """Give, by item, the references to what one costs and to (or the expression of) its charge."""
    found: dict[str, Hardware] = {}
    for need in (need for _, plan in costed.plans for need in plan.hire):
        hardware = hired(need, costed.prices)
        found[hardware.item] = hardware
    references: dict[str, tuple[str, str]] = {}
    for number, (item, hardware) in enumerate(sorted(found.items(), key=lambda pair: pair[0].casefold()), 1):
        cost = steps.given(f"hire cost {number}", f"{item}: cost per event", hardware.cost, "money")
        charge = f"{cost}*(1+{ref('markup')})"
        if hardware.charge is not None:
            charge = steps.given(f"hire charge {number}", f"{item}: hire per event", hardware.charge, "money")
        references[item] = (cost, charge)
    return references


def _add_piece(costed: CostedJob, steps: Steps, number: int, hires: dict[str, tuple[str, str]]) -> None:
    (piece, plan), price, work = costed.plans[number - 1], costed.pieces[number - 1], costed.works[number - 1]
    shop, name, unit = costed.prices.shop, f"One piece {piece.label}", costed.rules.unit
    quantity, section = ref(f"quantity {number}", "stock"), piece_key(piece.label, number)
    shares = [
        (
            f"{ref(f'use {number}.{place}', 'stock')}/{ref(f'need {place}', 'stock')}",
            place,
            use,
            Fraction(count, use.line.need),
        )
        for place, use in enumerate(costed.stock, 1)
        for at, count, _ in use.uses
        if at == number - 1
    ]
    needs = [(need, hired(need, costed.prices), ref(f"hire {at}", section)) for at, need in enumerate(plan.hire, 1)]
    seconds = {where: ref(f"{where} {number}", "labour") for where in ("workshop", "venue")}
    cost = plus(f"{ref(f'item cost {place}')}*{share}" for share, place, _, _ in shares)
    hire_cost = plus(f"{count}*{hires[hardware.item][0]}" for _, hardware, count in needs)
    labour_cost = f"({seconds['workshop']}*{ref('workshop cost')}+{seconds['venue']}*{ref('venue cost')})/3600"
    steps.step(
        f"cost {number}",
        f"All of piece {piece.label}: cost",
        price.cost,
        rounding_formula(f"{cost}+({labour_cost}+{hire_cost})*{quantity}", unit, HALF_UP),
        "money",
    )
    weights: list[tuple[str, str, Fraction]] = []
    if price.is_fixed:
        category = fixed_category(plan)
        fixed = steps.given(f"fixed {number}", f"{name}: fixed price", piece.price or Decimal(0), "money")
        weights = [
            (category.value, _without_tax(costed, steps, fixed, category), price.parts.get(category, Fraction(0)))
        ]
    else:
        goods = sum((use.price * share for _, _, use, share in shares), Fraction(0)) / piece.quantity
        hire = sum((hire_charge(hardware, shop.markup) * need.count for need, hardware, _ in needs), Fraction(0))
        sold = plus(f"{ref(f'item price {place}')}*{share}" for share, place, _, _ in shares)
        worked = (
            (TaxCategory.GOODS, goods, f"({sold})/{quantity}"),
            (TaxCategory.HIRE, hire, plus(f"{count}*{hires[hardware.item][1]}" for _, hardware, count in needs)),
            (
                TaxCategory.LABOUR,
                work.charge(shop),
                f"({seconds['workshop']}*{ref('workshop charge')}+{seconds['venue']}*{ref('venue charge')})/3600",
            ),
        )
        for category, value, formula in worked:
            if category not in price.parts:
                continue
            key = f"{category.value} each {number}"
            plain = _without_tax(costed, steps, f"({formula})", category)
            reference = steps.step(key, f"{name}: {category.value}", value / costed.divisors[category], plain, "money")
            weights.append((category.value, reference, price.parts[category]))
    steps.step(
        f"unit {number}",
        f"{name}: price",
        price.unit,
        rounding_formula(plus(expression for _, expression, _ in weights), unit, HALF_UP),
        "money",
        "rounded once, half up",
    )
    amount = steps.step(
        f"amount {number}", f"All of piece {piece.label}", price.amount, f"{ref(f'unit {number}')}*{quantity}", "money"
    )
    references = add_split(steps, f"piece {number}", (amount, price.amount), weights, unit)
    for (category_name, _, _), reference in zip(weights, references, strict=True):
        value = price.amounts[TaxCategory(category_name)]
        steps.step(
            f"{number} {category_name}", f"All of piece {piece.label}: {category_name}", value, reference, "money"
        )


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
    price = costed.pieces[number - 1]
    for place, line in enumerate(costed.adjustments[number - 1], 1):
        key, adjustment, unit = f"adjustment {number}.{place}", line.adjustment, costed.rules.unit
        sign = "-" if adjustment.is_discount else ""
        if adjustment.percent is not None:
            share = steps.given(f"{key}, percent", f"{adjustment.name}: share of the piece", adjustment.percent)
            formula = sign + rounding_formula(f"{ref(f'amount {number}')}*{share}", unit, HALF_UP)
        else:
            typed = steps.given(
                f"{key}, amount", f"{adjustment.name}: amount", adjustment.amount or Decimal(0), "money"
            )
            formula = sign + rounding_formula(typed, unit, HALF_UP)
        reference = steps.step(key, adjustment.name, line.amount, formula, "money")
        weights = [(c.value, ref(f"{number} {c.value}"), Fraction(amount)) for c, amount in price.amounts.items()]
        parts = add_split(steps, f"{key} split", (reference, line.amount), weights, unit)
        for (name, _, _), part in zip(weights, parts, strict=True):
            steps.step(f"{key} {name}", f"{adjustment.name}: {name}", line.amounts[TaxCategory(name)], part, "money")


def _add_delivery(costed: CostedJob, steps: Steps) -> None:
    trip, unit = costed.trip, costed.rules.unit
    if trip is None:
        return
    measure = costed.prices.shop.distance_unit
    distance = steps.given("distance", "Distance, one way", trip.distance, measure)
    start = steps.given("band start", "Where its delivery band begins", trip.start, measure)
    beyond = steps.step("beyond", "Distance beyond that", trip.beyond, f"MAX(0,{distance}-{start})", measure)
    for name, base, further in (
        ("charge", trip.band.charge, trip.band.charge_per_further),
        ("cost", trip.band.cost, trip.band.cost_per_further),
    ):
        band = steps.given(f"band {name}", f"Delivery band: {name}", base, "money")
        per = steps.given(f"band {name} further", f"Delivery band: {name} per further {measure}", further, "money")
        if name == "charge":
            formula = _without_tax(costed, steps, f"({band}+{per}*{beyond})", TaxCategory.DELIVERY)
            steps.step("delivery", "Delivery", costed.delivery, rounding_formula(formula, unit, HALF_UP), "money")
        else:
            steps.step(
                "delivery cost",
                "Delivery: cost",
                trip.cost,
                rounding_formula(f"{band}+{per}*{beyond}", unit, HALF_UP),
                "money",
            )
