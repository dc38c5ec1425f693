"""A crew's visits to a venue: whether the work fits the time that the venue gives, and with how many people."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from decimal import Decimal
from fractions import Fraction

from quoting.costing.delivery import Trip
from quoting.costing.labour import PieceWork, Stage, has_strike
from quoting.costing.stock import Planned
from quoting.costing.working_hours import (
    Span,
    billed_seconds,
    blended,
    cut_hours,
    whole_day,
)
from quoting.domain.clocks import instant, later, local_time, seconds_between
from quoting.domain.codes import problem
from quoting.domain.crews import HIGH_CM, WIDE_CM, CrewRules
from quoting.domain.jobs import Job
from quoting.domain.prices import PriceBook
from quoting.domain.problems import Outcome, Problem

HOUR = 3600
USUAL_SPEED = {"mi": Decimal(30), "km": Decimal(50)}
"""Per hour, where the Shop sheet gives none: common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CrewVisit:
    """One visit as costing needs it; all times in seconds, exact.

    `begins` is when the crew is at the venue (None: not known), `before` what passes
    until the work begins (unloading, walking in, further loads), `work` seconds of one
    pair of hands with `setup` among them. `room` is how long the work may take (None:
    as long as it wants). `spans` cut the time of the work, work ÷ crew, by its rates.
    """

    stage: Stage
    day: date
    begins: datetime | None
    before: Fraction
    drive: Fraction
    work: Fraction
    setup: Fraction
    room: Fraction | None
    least: int
    crew: int
    spans: tuple[Span, ...]
    billed: Fraction

    @property
    def lasts(self) -> Fraction:
        """Seconds on the clock that the work takes."""
        return self.work / self.crew

    @property
    def factor(self) -> Fraction:
        """What its hours come to beside plain ones."""
        return blended(self.spans)


def visits_of(
    job: Job, plans: Planned, works: Sequence[PieceWork], trip: Trip | None, prices: PriceBook
) -> Outcome[tuple[CrewVisit, ...]]:
    """Give a job's install and its strike (where there is one to do); none where the client collects.

    The least crew is named whose work ÷ people fits the access window less unloading,
    walking in and further loads, and the longest shift; two people at least where a
    piece is over 2 m high or 3 m wide. P654 holds a job that fits with no crew the
    shop has, P656 one that needs two people; P655 notes a time that clocks skip.
    """
    if job.is_collected or trip is None:
        return Outcome(value=())
    install = _install(job, plans, works, trip, prices)
    strike = _strike(job, plans, works, trip, prices)
    visits = tuple(visit for visit in (install.value, strike) if visit is not None)
    return Outcome(value=visits, problems=(*install.problems, *_skipped_times(job, visits, prices)))


def crew_for(work: Fraction, room: Fraction | None, least: int) -> int | None:
    """Give the least number of people, at least `least`, whose work fits the room; None where there is no room."""
    if room is None or work <= 0:
        return least
    return None if room <= 0 else max(least, -(-work // room))


def least_people(plans: Planned) -> int:
    """Say how many people a job needs at the least: two for ladder and lift work."""
    outlines = [plan.outline for _, plan in plans if plan.outline is not None]
    return 2 if any(each.height_cm > HIGH_CM or each.width_cm > WIDE_CM for each in outlines) else 1


def window_of(job: Job) -> tuple[datetime | None, datetime | None]:
    """Give from when and until when the crew may be at work, in local time; None where it isn't known.

    From the access, else the install time. Until the end of access (past midnight
    where that is earlier on the clock), else the event where it is on the same day.
    """
    opens = job.access.access_from or job.install_time
    start = None if opens is None else datetime.combine(job.install_date, opens)
    closes = job.access.access_until
    if closes is not None:
        next_day = opens is not None and closes <= opens
        return start, datetime.combine(job.install_date + timedelta(days=next_day), closes)
    if job.event_time is not None and job.install_date == job.event_date:
        return start, datetime.combine(job.event_date, job.event_time)
    return start, None


def _install(
    job: Job, plans: Planned, works: Sequence[PieceWork], trip: Trip, prices: PriceBook
) -> Outcome[CrewVisit | None]:
    rules, least = prices.shop.crew, least_people(plans)
    drive = _drive(trip, prices)
    own = _seconds(plans, works, Stage.INSTALL)
    setup = setup_seconds(job, plans, rules) if own else Fraction(0)
    before = arrival_seconds(job, rules) + (trip.loads.count - 1) * 2 * drive
    start, until = window_of(job)
    room = Fraction(rules.longest_shift) * HOUR
    if start is not None and until is not None:
        room = min(room, seconds_between(start, until, rules.zone))
    room -= before
    work = own + setup
    crew = crew_for(work, room, least)
    problems = _misfits(job, prices, work=work, room=room, crew=crew, least=least)
    crew = crew or least
    if start is None and until is not None:
        start = later(until, -before - work / crew, rules.zone)
    begun = None if start is None else later(start, before, rules.zone)
    visit = CrewVisit(
        stage=Stage.INSTALL, day=job.install_date, begins=start, before=before, drive=drive, work=work, setup=setup,
        room=room, least=least, crew=crew, spans=_spans(begun, job.install_date, work / crew, prices),
        billed=billed_seconds(work, rules.minimum_hours, rules.hours_step),
    )  # fmt: skip
    return Outcome(value=visit, problems=problems)


def _strike(
    job: Job, plans: Planned, works: Sequence[PieceWork], trip: Trip, prices: PriceBook
) -> CrewVisit | None:
    if not has_strike(works):
        return None
    rules, work = prices.shop.crew, _seconds(plans, works, Stage.STRIKE)
    least, room = least_people(plans), Fraction(rules.longest_shift) * HOUR
    crew = crew_for(work, room, least) or least
    day = job.strike_date or job.event_date
    begins = None
    if job.strike_time is not None and job.strike_date is not None:
        begins = datetime.combine(job.strike_date, job.strike_time)
    return CrewVisit(
        stage=Stage.STRIKE, day=day, begins=begins, before=Fraction(0), drive=_drive(trip, prices), work=work,
        setup=Fraction(0), room=room, least=least, crew=crew, spans=_spans(begins, day, work / crew, prices),
        billed=billed_seconds(work, rules.minimum_hours, rules.hours_step),
    )  # fmt: skip


def setup_seconds(job: Job, plans: Planned, rules: CrewRules) -> Fraction:
    """Give the seconds of one pair of hands for laying out, clearing away and carrying up stairs."""
    minutes = rules.setup_minutes if job.access.setup_minutes is None else job.access.setup_minutes
    carried = sum(piece.quantity for piece, plan in plans if plan.outline is not None)
    return Fraction(minutes + rules.flight_minutes * job.access.flights * carried) * 60


def arrival_seconds(job: Job, rules: CrewRules) -> Fraction:
    """Give the seconds that pass at the venue before work begins: unloading and walking in."""
    walk = rules.walk_in_minutes if job.access.walk_in_minutes is None else job.access.walk_in_minutes
    return Fraction(rules.unloading_minutes + walk) * 60


def _drive(trip: Trip, prices: PriceBook) -> Fraction:
    """Give the seconds of one drive, one way."""
    speed = prices.shop.crew.speed or USUAL_SPEED[prices.shop.distance_unit]
    return trip.distance / Fraction(speed) * HOUR


def _seconds(plans: Planned, works: Sequence[PieceWork], stage: Stage) -> Fraction:
    pairs = zip(plans, works, strict=True)
    return sum((Fraction(work.seconds(stage)) * piece.quantity for (piece, _), work in pairs), Fraction(0))


def _spans(begun: datetime | None, day: date, lasts: Fraction, prices: PriceBook) -> tuple[Span, ...]:
    if begun is None:
        return whole_day(day, lasts, prices.hour_rates, prices.holidays)
    return cut_hours(begun, lasts, prices.hour_rates, prices.holidays, prices.shop.crew.zone)


def _misfits(
    job: Job, prices: PriceBook, *, work: Fraction, room: Fraction, crew: int | None, least: int
) -> tuple[Problem, ...]:
    """Hold what doesn't fit, with what would make it fit."""
    limit = prices.shop.crew.crew_limit
    if limit is not None and limit < least:
        where = job.where("job")
        return (problem("P656", where, seen=job.row.seen("job"), job=job.code, limit=limit),)
    people = limit if limit is not None else crew
    if crew is not None and (people is None or crew <= people):
        return ()
    key = next((k for k in ("access_until", "access_from", "install_time", "event_time") if k in job.row.values), "job")
    shown = {"job": job.code, "seen": job.row.seen(key), "hours": hours_words(work), "room": hours_words(room)}
    if people is None or crew is None:
        return (problem("P657", job.where(key), **shown),)  # type: ignore[arg-type]  # facts are all words
    lacking = work / people - room
    told = problem(
        "P654", job.where(key), **shown, limit=people, crew=crew, earlier=hours_words(lacking),  # type: ignore[arg-type]
        prebuilt=hours_words(work - room * people),
    )  # fmt: skip
    return (told,)


def hours_words(seconds: Fraction) -> str:
    """Say a stretch of time in hours and minutes, a begun minute counted whole.

    >>> hours_words(Fraction(5401))
    '1 h 31 min'
    """
    hours, minutes = divmod(max(0, -(-seconds // 60)), 60)
    words = (f"{hours} h" * bool(hours), f"{minutes} min" * bool(minutes or not hours))
    return " ".join(word for word in words if word)


def _skipped_times(job: Job, visits: Sequence[CrewVisit], prices: PriceBook) -> tuple[Problem, ...]:
    zone = prices.shop.crew.zone
    typed = {Stage.INSTALL: "access_from" if job.access.access_from else "install_time", Stage.STRIKE: "strike_time"}
    return tuple(
        problem(
            "P655", job.where(typed[visit.stage]), seen=job.row.seen(typed[visit.stage]), job=job.code,
            time=f"{visit.begins:%H:%M}", day=visit.day,
        )
        for visit in visits
        if visit.begins is not None and local_time(instant(visit.begins, zone), zone) != visit.begins
    )  # fmt: skip
