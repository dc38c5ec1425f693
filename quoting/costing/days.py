"""Hours and people per date over all jobs, against what the shop has; prep spread over the days before."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from fractions import Fraction

from quoting.costing.prep_days import prep_days
from quoting.domain.codes import problem
from quoting.domain.crews import CrewRules, DayJob, PlanStep, Visit, WorkDay
from quoting.domain.money import Rounding, exact, rounded
from quoting.domain.places import Place
from quoting.domain.prices import Shop
from quoting.domain.problems import Problem
from quoting.domain.quotes import JobSheet

AT_WORK = ("Build", "Strike")
"""Steps of a visit that are work at the venue."""
IN_WORKSHOP = ("Load",)
"""Steps that are counted among the hours in the workshop."""


@dataclass(slots=True)
class _Shares:
    workshop: Fraction = Fraction(0)
    venue: Fraction = Fraction(0)
    travel: Fraction = Fraction(0)
    crew: int = 0

    @property
    def hours(self) -> Fraction:
        return self.workshop + self.venue + self.travel


@dataclass(slots=True)
class _Prep:
    """What a job still has to prepare between two days, both included."""

    job: str
    first: date
    last: date
    left: Fraction


@dataclass(slots=True)
class _Diary:
    shares: dict[tuple[date, str], _Shares] = field(default_factory=dict)

    def of(self, day: date, job: str) -> _Shares:
        return self.shares.setdefault((day, job), _Shares())

    def used(self, day: date) -> Fraction:
        return sum((share.hours for (at, _), share in self.shares.items() if at == day), Fraction(0))


def days_of(sheets: Sequence[JobSheet], shop: Shop | None, run_date: date) -> tuple[WorkDay, ...]:
    """Give every date that has work, ascending, with each job's hours of one pair of hands.

    Venue, road and what keeps no day (loading, filling with helium) stand on the dates
    of the visits, cut at midnight. Other prep goes on the days before the install that
    air-filled latex keeps, not before `run_date`: as late as the shop's hours allow, a
    job whose latex keeps the shortest first, which overbooks no day that another
    spread would not (earliest deadline first, run backwards). What fits nowhere stands
    on the last of its days.
    """
    if shop is None or not sheets:
        return ()
    rules, diary = shop.crew, _Diary()
    for sheet in sheets:
        _note_visits(diary, sheet)
    preps = [_prep(sheet, rules, run_date) for sheet in sheets]
    _spread(diary, [prep for prep in preps if prep.left], rules.hours_per_day)
    clients = {sheet.job: sheet.quote.client for sheet in sheets}
    visits = [visit for sheet in sheets for visit in sheet.visits]
    made: dict[date, list[DayJob]] = defaultdict(list)
    for (day, job), share in sorted(diary.shares.items()):
        if share.hours or share.crew:
            made[day].append(_day_job(job, clients[job], share))
    return tuple(
        WorkDay(
            day=day, jobs=tuple(jobs), crew=_most_people(visits, day), available=rules.hours_per_day,
            crew_limit=rules.crew_limit,
        )
        for day, jobs in sorted(made.items())
    )


def day_problems(days: Sequence[WorkDay], places: Mapping[str, Place]) -> tuple[Problem, ...]:
    """Note every overbooked day to each of its jobs: too many hours P670, too many people at one moment P671."""
    found: list[Problem] = []
    tenth = Decimal("0.1")
    for day in days:
        jobs = ", ".join(job.job for job in day.jobs)
        at_venues = [job for job in day.jobs if job.crew]
        if day.over_hours:
            hours, available = f"{rounded(day.hours, tenth, Rounding.HALF_UP)} h", f"{day.available} h"
            found += [
                problem("P670", places[job.job], seen=job.job, job=job.job, day=day.day, hours=hours,
                        available=available, jobs=jobs)
                for job in day.jobs
            ]  # fmt: skip
        if day.crew_limit is not None and day.crew > day.crew_limit:
            there = ", ".join(job.job for job in at_venues)
            found += [
                problem("P671", places[job.job], seen=job.job, job=job.job, day=day.day, crew=day.crew,
                        limit=day.crew_limit, jobs=there)
                for job in at_venues
            ]  # fmt: skip
    return tuple(found)


def _note_visits(diary: _Diary, sheet: JobSheet) -> None:
    diary.of(sheet.install_date, sheet.job).workshop += Fraction(sheet.late_hours)
    for visit in sheet.visits:
        diary.of(visit.day, sheet.job).crew = max(visit.crew, diary.of(visit.day, sheet.job).crew)
        for step in visit.steps:
            if step.what in IN_WORKSHOP:
                continue
            for day, seconds in _by_date(step, visit.day):
                share = diary.of(day, sheet.job)
                hours = seconds * visit.crew / 3600
                if step.what in AT_WORK:
                    share.venue += hours
                else:
                    share.travel += hours


def _by_date(step: PlanStep, day: date) -> Iterator[tuple[date, Fraction]]:
    """Cut a step at midnight; without a clock all of it is on the visit's day."""
    left = Fraction(step.minutes) * 60
    if step.start is None or step.end is None:
        yield day, left
        return
    at = step.start
    while at.date() < step.end.date():
        midnight = datetime.combine(at.date() + timedelta(days=1), time())
        until = Fraction((midnight - at).total_seconds())
        yield at.date(), min(until, left)
        left, at = max(Fraction(0), left - until), midnight
    yield at.date(), left


def _prep(sheet: JobSheet, rules: CrewRules, run_date: date) -> _Prep:
    first, last = prep_days(sheet, rules, run_date)
    left = Fraction(sheet.hours.workshop) - Fraction(sheet.late_hours)
    return _Prep(job=sheet.job, first=first, last=last, left=left)


def _spread(diary: _Diary, preps: Sequence[_Prep], hours_per_day: Decimal | None) -> None:
    if hours_per_day is not None:
        days = sorted({d for p in preps for d in _days_between(p.first, p.last)}, reverse=True)
        for day in days:
            free = Fraction(hours_per_day) - diary.used(day)
            waiting = [prep for prep in preps if prep.first <= day <= prep.last and prep.left]
            for prep in sorted(waiting, key=lambda each: (each.first, each.job), reverse=True):
                taken = min(prep.left, max(free, Fraction(0)))
                if taken:
                    diary.of(day, prep.job).workshop += taken
                    prep.left, free = prep.left - taken, free - taken
    for prep in preps:
        if prep.left:
            diary.of(prep.last, prep.job).workshop += prep.left


def _days_between(first: date, last: date) -> list[date]:
    return [first + timedelta(days=number) for number in range((last - first).days + 1)]


def _day_job(job: str, client: str, share: _Shares) -> DayJob:
    return DayJob(
        job=job, client=client, workshop=exact(share.workshop), venue=exact(share.venue), travel=exact(share.travel),
        crew=share.crew,
    )  # fmt: skip


def _most_people(visits: Sequence[Visit], day: date) -> int:
    """Count the most people out at one moment of a day; visits without a clock can be moved, so each counts alone."""
    spans = {id(visit): span for visit in visits if (span := _span(visit)) is not None}
    clocked = [visit for visit in visits if id(visit) in spans]
    most = max((v.crew for v in visits if v.day == day and id(v) not in spans), default=0)
    for visit in clocked:
        start, _ = spans[id(visit)]
        if start.date() == day:
            out = sum(v.crew for v in clocked if spans[id(v)][0] <= start < spans[id(v)][1])
            most = max(most, out)
    return most


def _span(visit: Visit) -> tuple[datetime, datetime] | None:
    starts = [step.start for step in visit.steps if step.start is not None]
    ends = [step.end for step in visit.steps if step.end is not None]
    return (min(starts), max(ends)) if starts and ends else None

