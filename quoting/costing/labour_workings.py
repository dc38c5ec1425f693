"""Workings of labour: seconds of one piece from its tasks and the rates, and the hours of the job."""

from __future__ import annotations

from decimal import Decimal

from quoting.costing.costed_jobs import CostedJob
from quoting.costing.labour import hours_of
from quoting.costing.steps import Steps, piece_key, plus, ref
from quoting.domain.plans import Section
from quoting.domain.prices import ActivityRate


def labour_workings(costed: CostedJob) -> Section:
    """Give the section "labour": "workshop N" and "venue N" are the seconds of one piece N."""
    steps = Steps("labour", "Labour", costed.prices.shop.currency.code)
    rates = _add_rates(costed, steps)
    for number, ((piece, _), work) in enumerate(zip(costed.plans, costed.works, strict=True), 1):
        section = piece_key(piece.label, number)
        for name, seconds, at_venue in (("workshop", work.workshop, False), ("venue", work.venue, True)):
            terms = [
                f"{ref(f'task {place}', section)}*{rates[rate]}"
                for place, rate in enumerate(work.rates, 1)
                if rate.is_at_venue is at_venue
            ]
            label = f"One piece {piece.label}, {name}"
            steps.step(f"{name} {number}", label, seconds, plus(terms), unit="seconds")
    quantities = [piece.quantity for piece, _ in costed.plans]
    workshop = sum((w.workshop * q for w, q in zip(costed.works, quantities, strict=True)), Decimal(0))
    venue = sum((w.venue * q for w, q in zip(costed.works, quantities, strict=True)), Decimal(0))
    _add_hours(steps, "workshop", "Hours in the workshop", workshop, len(quantities))
    _add_hours(steps, "venue", "Hours at the venue", venue, len(quantities))
    return steps.section()


def _add_rates(costed: CostedJob, steps: Steps) -> dict[ActivityRate, str]:
    rates: dict[ActivityRate, str] = {}
    for rate in (rate for work in costed.works for rate in work.rates):
        if rate not in rates:
            size = "" if rate.up_to_size is None else f", up to {rate.up_to_size} in"
            label = f"{rate.activity}{size} ({'venue' if rate.is_at_venue else 'workshop'})"
            rates[rate] = steps.given(f"seconds {len(rates) + 1}", label, rate.seconds, unit="seconds")
    return rates


def _add_hours(steps: Steps, name: str, label: str, seconds: Decimal, pieces: int) -> None:
    terms = [f"{ref(f'{name} {n}')}*{ref(f'quantity {n}', 'stock')}" for n in range(1, pieces + 1)]
    steps.step(f"{name} hours", label, hours_of(seconds), f"({plus(terms)})/3600", unit="hours")
