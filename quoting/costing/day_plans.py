"""The plan of a crew's day with clock times: load, drive, unload, build, finish, strike, drive back."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta
from fractions import Fraction

from quoting.costing.costed_jobs import CostedJob
from quoting.costing.labour import Stage, hours_of
from quoting.costing.visits import CrewVisit, arrival_seconds
from quoting.costing.working_hours import Span
from quoting.domain.clocks import later
from quoting.domain.crews import PlanStep, RatedHours, Visit
from quoting.domain.money import exact

_Stretch = tuple[str, Fraction]


def day_plans(costed: CostedJob) -> tuple[Visit, ...]:
    """Give a job's visits with the steps of their day; steps that take no time are left out.

    Where it is known when the crew may be at the venue, every step has its clock
    times, in local time (changed clocks included), to the second.
    """
    return tuple(_visit(costed, visit) for visit in costed.visits)


def _visit(costed: CostedJob, visit: CrewVisit) -> Visit:
    on_the_way, stretches = _stretches(costed, visit)
    return Visit(
        kind=visit.stage.value,
        day=visit.day,
        crew=visit.crew,
        needs_two=visit.least > 1,
        work_hours=hours_of(exact(visit.work)),
        billed_hours=hours_of(exact(visit.billed)),
        travel_hours=exact(visit.drive * 2 * visit.crew / 3600),
        rated=_rated(visit.spans, visit.crew),
        steps=_steps(costed, visit, on_the_way, stretches),
    )


def _stretches(costed: CostedJob, visit: CrewVisit) -> tuple[Fraction, list[_Stretch]]:
    """Give what passes before the crew is at the venue, and every stretch of the day in order."""
    arrival = arrival_seconds(costed.job, costed.prices.shop.crew)
    if visit.stage is Stage.STRIKE:
        end = [("Strike", visit.lasts), ("Carry out and load", arrival), ("Drive back", visit.drive)]
        return visit.drive, [("Drive out", visit.drive), *end]
    load = loading_seconds(costed) / visit.crew
    return load + visit.drive, [
        ("Load", load),
        ("Drive out", visit.drive),
        ("Fetch further loads", visit.before - arrival),
        ("Unload and walk in", arrival),
        ("Build", visit.lasts),
        ("Finished", Fraction(0)),
        ("Drive back", visit.drive),
    ]


def loading_seconds(costed: CostedJob) -> Fraction:
    """Give the seconds of one pair of hands that loading takes in the workshop."""
    return sum(
        (
            Fraction(each.seconds) * piece.quantity
            for (piece, _), work in zip(costed.plans, costed.works, strict=True)
            for each in work.done
            if each.stage is Stage.WORKSHOP and each.rate.activity.casefold() == "load piece"
        ),
        Fraction(0),
    )


def late_seconds(costed: CostedJob) -> Fraction:
    """Give the workshop seconds that belong to the day itself: loading, and filling with helium."""
    helium = sum(
        (
            Fraction(each.seconds) * piece.quantity
            for (piece, _), work in zip(costed.plans, costed.works, strict=True)
            for each in work.done
            if each.stage is Stage.WORKSHOP and "helium" in each.rate.activity.casefold()
        ),
        Fraction(0),
    )
    return helium + loading_seconds(costed)


def _steps(
    costed: CostedJob, visit: CrewVisit, on_the_way: Fraction, stretches: Sequence[_Stretch]
) -> tuple[PlanStep, ...]:
    zone, steps, passed = costed.prices.shop.crew.zone, [], -on_the_way
    for what, seconds in stretches:
        if not seconds and what != "Finished":
            continue
        start = end = None
        if visit.begins is not None:
            start, end = (
                _whole_second(later(visit.begins, at, zone)) for at in (passed, passed + seconds)
            )
        steps.append(PlanStep(what=what, minutes=exact(seconds / 60), start=start, end=end))
        passed += seconds
    return tuple(steps)


def _whole_second(moment: datetime) -> datetime:
    """Round to the nearest second, which a plan never needs to be finer than."""
    return (moment + timedelta(microseconds=500_000)).replace(microsecond=0)


def _rated(spans: Sequence[Span], crew: int) -> tuple[RatedHours, ...]:
    return tuple(
        RatedHours(name=span.name, factor=span.factor, hours=exact(span.seconds * crew / 3600)) for span in spans
    )
