"""Workings of delivery: one drive out and back, how often, and what comes on top; and of the job's whole cost."""

from __future__ import annotations

from fractions import Fraction

from quoting.costing.costed_jobs import CostedJob, direct_cost
from quoting.costing.policy_workings import without_tax
from quoting.costing.steps import MONEY, Steps, plus, ref, round_half_up, rounding_formula
from quoting.domain.money import ZERO, Rounding
from quoting.domain.prices import TaxCategory

HALF_UP = Rounding.HALF_UP


def add_delivery(costed: CostedJob, steps: Steps) -> tuple[str, Fraction]:
    """Add distance, loads and what delivery costs; gives the expression of its exact charge, with its value."""
    trip, unit = costed.trip, costed.rules.unit
    if trip is None:
        return "0", Fraction(0)
    measure = costed.prices.shop.distance_unit
    distance = steps.given("distance", "Distance, one way", trip.distance, unit=measure)
    where = "Where its delivery band begins" if trip.band else "Free travel, one way"
    start = steps.given("band start", where, trip.start, unit=measure)
    beyond = steps.step("beyond", "Distance beyond that", trip.beyond, f"MAX(0,{distance}-{start})", unit=measure)
    often = _add_trips(costed, steps)
    charge = _all_trips(costed, steps, "charge", beyond, often)
    cost = _all_trips(costed, steps, "cost", beyond if trip.band else distance, often)
    steps.step("delivery cost", "Delivery: cost", trip.cost, rounding_formula(cost, unit, HALF_UP), unit=MONEY)
    return f"({charge})", trip.charge


def _add_trips(costed: CostedJob, steps: Steps) -> str:
    """Add how many drives out and back there are; "" for one in no van."""
    trip = costed.trip
    assert trip is not None
    if trip.van is not None:
        litres = steps.given("packed", "Room that the pieces take", trip.loads.litres, unit="litres")
        usable = steps.given("usable", f"Room in {trip.van.van}", trip.van.usable_litres, unit="litres")
        formula = f"MAX(1,ROUNDUP(ROUND({litres}/{usable},9),0))"
        steps.step("loads", "Loads", trip.loads.count, formula)
    if trip.trips == 1 and trip.van is None:
        return ""
    visits = steps.given("visits", "Visits that are charged", trip.trips // trip.loads.count)
    loads = ref("loads") if trip.van is not None else "1"
    return steps.step("trips", "Drives out and back", trip.trips, f"{loads}*{visits}")


def _all_trips(costed: CostedJob, steps: Steps, kind: str, way: str, often: str) -> str:
    """Write what all of delivery comes to at "charge" or "cost"."""
    trip, measure = costed.trip, costed.prices.shop.distance_unit
    assert trip is not None
    policy = costed.prices.shop.policy
    if trip.band is not None:
        base_value, per_value = (
            (trip.band.charge, trip.band.charge_per_further)
            if kind == "charge"
            else (trip.band.cost, trip.band.cost_per_further)
        )
        words = f"Delivery band: {'' if kind == 'charge' else 'cost '}per further {measure}"
        base = steps.given(f"band {kind}", f"Delivery band: {kind}", base_value, unit=MONEY)
        per = steps.given(f"further {kind}", words, per_value, unit=MONEY)
        once = f"{base}+{per}*{way}"
    else:
        value = (policy.distance_charge or ZERO) if kind == "charge" else policy.distance_cost
        per = steps.given(f"further {kind}", f"Delivery: {kind} per {measure}", value, unit=MONEY)
        once = f"2*{per}*{way}"
    if trip.van is not None:
        value = trip.van.charge if kind == "charge" else trip.van.cost
        once += "+" + steps.given(f"van {kind}", f"{trip.van.van}: {kind} per trip", value, unit=MONEY)
    whole = f"({once})*{often}" if often else once
    if trip.passed_on:
        if not steps.has("passed on"):
            steps.given("passed on", "Tolls and parking", trip.passed_on, unit=MONEY)
        whole += f"+{ref('passed on')}"
    if trip.waiting_minutes:
        if not steps.has("waiting"):
            steps.given("waiting", "Waiting", trip.waiting_minutes, unit="minutes")
        whole += f"+{ref('waiting')}/60*{ref(f'venue {kind}')}"
    return whole


def add_delivery_line(costed: CostedJob, steps: Steps, carried: tuple[str, Fraction]) -> None:
    """Add the delivery line, where delivery is not in the pieces."""
    if costed.delivery is None:
        return
    charge = without_tax(costed, steps, carried[0], TaxCategory.DELIVERY)
    formula = rounding_formula(charge, costed.rules.unit, HALF_UP)
    steps.step("delivery", "Delivery", costed.delivery, formula, unit=MONEY)


def add_cost(costed: CostedJob, steps: Steps) -> None:
    """Add what all of the job costs the shop."""
    unit = costed.rules.unit
    costs = [ref(f"cost {number}") for number in range(1, len(costed.plans) + 1)]
    if costed.trip is not None:
        costs.append(ref("delivery cost"))
    if costed.attendance:
        exact, value = ref("attendance cost exact"), round_half_up(costed.attendance.cost, unit)
        formula = rounding_formula(exact, unit, HALF_UP)
        costs.append(steps.step("attendance cost", "Set-up, minimum and dear hours: cost", value, formula, unit=MONEY))
    direct = direct_cost(costed.pieces, costed.trip, costed.attendance, unit)
    if costed.prices.shop.policy.overhead:
        own = steps.step("own cost", "The job's own cost", direct, plus(costs), unit=MONEY)
        formula = rounding_formula(f"{own}*{ref('overhead')}", unit, HALF_UP)
        costs = [own, steps.step("overhead amount", "Overhead", costed.overhead, formula, unit=MONEY)]
    steps.step("cost", "What the job costs the shop", direct + costed.overhead, plus(costs), unit=MONEY)
