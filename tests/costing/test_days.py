"""Days over all jobs: three jobs of one day by hand, prep before it, midnight, and days that are overbooked."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, time
from decimal import Decimal
from itertools import product

from costing_made import LABOUR, SHOP, job, piece, plan, prices, rate
from crews_made import rules
from hypothesis import given, settings
from hypothesis import strategies as st

from quoting.costing.days import day_problems, days_of
from quoting.costing.jobs import cost_job
from quoting.domain.money import rounded
from quoting.domain.places import Place
from quoting.domain.problems import Level
from quoting.domain.quotes import Cautions

D = Decimal
RUN = date(2031, 6, 1)
SATURDAY = date(2031, 6, 14)


def made(code, plans, book, **changes):
    sheet = cost_job(replace(job([p for p, _ in plans], **changes), code=code), plans, book, Cautions()).value
    assert sheet is not None
    return sheet


def table(days):
    return {
        day.day.day: {each.job: tuple(float(h) for h in (each.workshop, each.venue, each.travel)) for each in day.jobs}
        for day in days
    }


def test_a_day_with_three_jobs_by_hand():
    """One Saturday, 12 h a day, crew limit 3, latex good 2 days, 30 mi/h, unloading 15 min; 60 balloons an hour.

    A: 6 h of balloons, 12 installs = 3 h, in 09:00 to 10:45: 1.5 h of room, so 2 people for 1.5 h;
       15 mi: 0.5 h a drive;
       strike the same night 23:30: 4 × 412.5 s = 27.5 min by one, carrying out and driving back past midnight.
    B: 3 h of balloons, 4 installs = 1 h by one from 10:00; 6 mi: 0.2 h a drive.
    C: collected: 2 h of balloons with helium, on the day itself, 1 h without; nothing at a venue.
    """
    labour = (*LABOUR, rate("inflate round", 60, 30), rate("inflate round with helium", 60))
    crew = rules(hours_per_day=D(12), crew_limit=3, unloading_minutes=15.0, speed=30.0)
    book = prices({"crew": crew}, labour=labour)
    mile = D("1.609344")
    strike = {"strike_date": SATURDAY, "strike_time": time(23, 30)}

    def piece_of(balloons, installs, strikes=0, helium=0):
        tasks = [("inflate round", balloons, 24), ("install piece", installs), ("strike piece", strikes)]
        return [(piece(), plan(tasks=[*tasks, ("inflate round with helium", helium)]))]

    window = {"install_time": time(9), "event_time": time(10, 45)}
    a = made("A", piece_of(360, 12, 4), book, distance_km=15 * mile, **window, **strike)
    b = made("B", piece_of(180, 4), book, install_time=time(10), distance_km=6 * mile)
    c = made("C", piece_of(60, 0, helium=120), book, is_collected=True)
    days = days_of([a, b, c], replace(SHOP, crew=crew), RUN)

    # Saturday: A 3 h at the venue, 2 people × (2 × 0.5 h road + 0.25 h unloading) = 2.5 h, and the strike: 0.5 h out
    # and 27.5 min before midnight, then 2.5 min carrying out; Sunday: 12.5 min carrying out, 0.5 h back.
    saturday, sunday = table(days)[14], table(days)[15]
    assert saturday["A"] == (0, round(3 + 27.5 / 60, 28), 2.5 + 0.5 + 2.5 / 60)
    assert sunday == {"A": (0, 0, 12.5 / 60 + 0.5)}
    assert saturday["B"] == (0, 1, 0.25 + 0.4)
    assert saturday["C"] == (2, 0, 0)
    # Prep, 6 + 3 + 1 h, goes on Friday, which has room for 12.
    assert table(days)[13] == {"A": (6, 0, 0), "B": (3, 0, 0), "C": (1, 0, 0)}
    assert [(day.day.day, day.crew) for day in days] == [(13, 0), (14, 3), (15, 0)]
    assert not any(day.is_overbooked for day in days)
    tight = days_of([a, b, c], replace(SHOP, crew=replace(crew, hours_per_day=D(8), crew_limit=2)), RUN)
    # With 8 h a day Friday takes 8 and Thursday the other 2; Saturday's 10.15 h are too many, and so are 3 people.
    assert sum(h[0] for h in table(tight)[13].values()) == 8
    assert sum(h[0] for h in table(tight)[12].values()) == 2
    places = {code: Place(workbook="jobs.xlsx", sheet="Jobs", row=n, column=1) for n, code in enumerate("ABC", 2)}
    notes = day_problems(tight, places)
    assert [(p.code, p.level, p.job, p.place.cell) for p in notes] == [
        ("P670", Level.NOTE, "A", "A2"), ("P670", Level.NOTE, "B", "A3"), ("P670", Level.NOTE, "C", "A4"),
        ("P671", Level.NOTE, "A", "A2"), ("P671", Level.NOTE, "B", "A3"),
    ]  # fmt: skip
    assert notes[0].why == "2031-06-14 has 10.2 h of work for 8 h that the shop has, with the jobs A, B, C"
    assert "3 people at venues at one moment, and the shop has 2, with the jobs A, B" in notes[3].why


def prepped(hours, install, code, book):
    """A collected job with nothing but prep: an hour is 240 × 15 s of small rounds."""
    tasks = [("inflate round", hours * 240, 5)]
    return made(code, [(piece(), plan(tasks=tasks))], book, install_date=install, event_date=install, is_collected=True)


def test_prep_goes_no_earlier_than_latex_keeps_and_not_before_today():
    book = prices()
    early = prepped(30, date(2031, 6, 10), "A", book)
    shop = replace(SHOP, crew=rules(hours_per_day=D(8), good_days=3))
    spread = table(days_of([early], shop, RUN))
    assert {day: jobs["A"][0] for day, jobs in spread.items()} == {7: 8, 8: 8, 9: 14}  # what fits nowhere: the last day
    assert {d: j["A"][0] for d, j in table(days_of([early], shop, date(2031, 6, 9))).items()} == {9: 30}
    assert {d: j["A"][0] for d, j in table(days_of([early], shop, date(2031, 6, 10))).items()} == {10: 30}
    same_day = replace(SHOP, crew=rules(good_days=0))
    assert {d: j["A"][0] for d, j in table(days_of([early], same_day, RUN)).items()} == {10: 30}
    assert days_of([], shop, RUN) == ()


@settings(max_examples=40, deadline=None)
@given(st.lists(st.tuples(st.integers(0, 5), st.integers(1, 12)), min_size=1, max_size=4), st.integers(1, 3))
def test_no_day_is_overbooked_that_another_spread_would_keep_free(jobs, good_days):
    """Against Hall's condition for whole-hour prep: every stretch of days holds what can go nowhere else."""
    capacity, book = 6, prices()
    starts = [date(2031, 6, 10 + at) for at, _ in jobs]
    pairs = zip(jobs, starts, strict=True)
    sheets = [prepped(hours, start, f"J{n}", book) for n, ((_, hours), start) in enumerate(pairs)]
    days = days_of(sheets, replace(SHOP, crew=rules(hours_per_day=D(capacity), good_days=good_days)), RUN)
    assert rounded(sum(day.hours for day in days), D("0.000001"), SHOP.rounding) == sum(hours for _, hours in jobs)
    fits = all(
        sum(h for (_, h), s in zip(jobs, starts, strict=True) if s.day - good_days >= low and s.day - 1 <= high)
        <= capacity * (high - low + 1)
        for low, high in product(range(5, 16), repeat=2)
        if low <= high
    )
    assert fits == (not any(day.over_hours for day in days))
