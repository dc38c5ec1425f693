"""Workings of labour: seconds of one piece from its tasks and the rates, and the hours of the job."""

from __future__ import annotations

from decimal import Decimal

from quoting.costing.costed_jobs import CostedJob
from quoting.costing.labour import VENUE, Stage, hours_of
from quoting.costing.steps import Steps, piece_key, plus, ref
from quoting.domain.plans import Section
from quoting.domain.prices import ActivityRate


def labour_workings(costed: CostedJob) -> Section:
    """Give the section "labour": "workshop N", "install N", "strike N" and "venue N" are seconds of one piece N."""
    steps = Steps("labour", "Labour", costed.prices.shop.currency.code)
    rates = _add_rates(costed, steps)
    for number, ((piece, _), work) in enumerate(zip(costed.plans, costed.works, strict=True), 1):
        section = piece_key(piece.label, number)
        for stage in Stage:
            terms = [
                f"{ref(f'task {each.place}', section)}*{rates[each.rate]}" for each in work.done if each.stage is stage
            ]
            label = f"One piece {piece.label}, {stage.value}"
            steps.step(f"{stage.value} {number}", label, work.seconds(stage), plus(terms), unit="seconds")
        both = plus(ref(f"{stage.value} {number}") for stage in VENUE)
        steps.step(f"venue {number}", f"One piece {piece.label}, venue", work.venue, both, unit="seconds")
    quantities = [piece.quantity for piece, _ in costed.plans]
    workshop = sum((w.workshop * q for w, q in zip(costed.works, quantities, strict=True)), Decimal(0))
    venue = sum((w.venue * q for w, q in zip(costed.works, quantities, strict=True)), Decimal(0))
    _add_hours(steps, "workshop", "Hours in the workshop", workshop, len(quantities))
    _add_hours(steps, "venue", "Hours at the venue", venue, len(quantities))
    return steps.section()


def rate_keys(costed: CostedJob) -> dict[ActivityRate, str]:
    """Give the key of every rate's step: "seconds K"."""
    rates: dict[ActivityRate, str] = {}
    for rate in (each.rate for work in costed.works for each in work.done):
        rates.setdefault(rate, f"seconds {len(rates) + 1}")
    return rates


def _add_rates(costed: CostedJob, steps: Steps) -> dict[ActivityRate, str]:
    made: dict[ActivityRate, str] = {}
    for rate, key in rate_keys(costed).items():
        size = "" if rate.up_to_size is None else f", up to {rate.up_to_size} in"
        label = f"{rate.activity}{size} ({'venue' if rate.is_at_venue else 'workshop'})"
        made[rate] = steps.given(key, label, rate.seconds, unit="seconds")
    return made


def _add_hours(steps: Steps, name: str, label: str, seconds: Decimal, pieces: int) -> None:
    terms = [f"{ref(f'{name} {n}')}*{ref(f'quantity {n}', 'stock')}" for n in range(1, pieces + 1)]
    steps.step(f"{name} hours", label, hours_of(seconds), f"({plus(terms)})/3600", unit="hours")
