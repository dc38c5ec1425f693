"""Hours, crews, days, margin and choices of the sample, by hand: own arithmetic on what its book says."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from scenes import jobs_of, report_of

D = Decimal


def visits(job):
    return {visit.kind: visit for visit in jobs_of("dollars")[job].visits}


def test_a_public_holiday_costs_twice():
    """408 is set up on 4 July 2031: its 4.7667 h at the venue cost 55 and 22 more an hour, folded into the pieces."""
    install = visits("408")["install"]
    assert [(r.name, r.factor) for r in install.rated] == [("Public holiday", 2)]
    hours = install.work_hours
    seconds = 18 * 600 + 18 * 240  # 18 pieces and things, installed and unloaded
    assert hours >= D(seconds) / 3600
    sheet = jobs_of("dollars")["408"]
    plain = sheet.hours.workshop * 42 + sheet.hours.venue * 55
    labour = sum(piece.amounts.get("labour", 0) for piece in sheet.pieces)
    assert abs(labour - plain - hours * 55) < D("0.20")  # 20 pieces, each rounded once


def test_a_night_is_cut_at_ten_and_at_midnight():
    """442: in at 21:30, 20 min unloading and walking in; work from 21:50 by two: 10 min plain each, then night."""
    install, strike = visits("442-night")["install"], visits("442-night")["strike"]
    plain, night = install.rated
    assert (plain.name, plain.hours) == ("", D(20) / 60)
    assert night.name == "Night" and night.hours == install.work_hours - D(20) / 60
    assert next(step.start for step in install.steps if step.what == "Build").strftime("%d %H:%M") == "03 21:50"
    # The strike on 4 July at 23:00 ends before midnight: the holiday's 200 % over the night's 150 %.
    assert [(r.name, r.factor) for r in strike.rated] == [("Public holiday", 2)]


def test_the_night_of_the_clock_change():
    """443: from 22:20 on 1 November 2031, when clocks go back at 2 am the next day (second test in test_crews.py)."""
    install = visits("443-clocks")["install"]
    assert install.day == date(2031, 11, 1)
    assert [r.name for r in install.rated] == ["Night"]
    assert install.crew == 2 and install.needs_two  # columns of 7 ft are over 2 m


@pytest.mark.parametrize("job", ["401", "405", "411", "441-gala", "442-night"])
def test_the_margin_is_of_the_price_before_tax(job):
    sheet = jobs_of("dollars")[job]
    totals = sheet.quote.totals
    price = totals.subtotal - totals.discount + totals.charges
    assert abs(sheet.margin - (price - sheet.cost) / price) < D("1e-20")
    assert sheet.margin > D("0.30")  # the floor of the Shop sheet: nothing is below it


def test_a_job_below_the_floor_is_noted_at_its_cell():
    from scenes import SAMPLES

    from quoting.batch import price_job
    from quoting.checking.books import check_tables
    from quoting.checking.layouts import book_layouts
    from quoting.reading.tables import read_tables
    from quoting.reading.workbooks import read_book

    book = read_book(SAMPLES / "dollars" / "quillbrook.xlsx").value
    checked = check_tables(read_tables(book, book_layouts()).value, date(2031, 5, 14)).value
    job = next(job for job in checked.jobs if job.code == "411")
    margin = jobs_of("dollars")["411"].margin
    for floor, noted in ((margin - D("0.0001"), False), (margin + D("0.0001"), True)):
        shop = replace(checked.prices.shop, floor_margin=floor)
        outcome = price_job(job, replace(checked.prices, shop=shop))
        assert ("P609" in {p.code for p in outcome.problems}) is noted
        assert not noted or [p.place.sheet for p in outcome.problems if p.code == "P609"] == ["Jobs"]


def test_overbooked_days_name_their_jobs():
    notes = {(p.code, p.job) for p in report_of("dollars").problems if p.code in ("P670", "P671")}
    assert notes == {("P670", "408"), ("P670", "442-night"), ("P671", "443-clocks"), ("P671", "444-market")}
    days = {day.day: day for day in report_of("dollars").days}
    assert days[date(2031, 7, 4)].is_overbooked and days[date(2031, 11, 1)].crew == 4
    assert not days[date(2031, 9, 19)].is_overbooked


def test_every_hour_of_the_sample_stands_on_some_day():
    """The pieces' hours, and at venues set-up: 40 min for 442, 3 pieces up one flight at half a minute for 441."""
    report = report_of("dollars")
    for place, set_up in (("workshop", 0), ("venue", D(40) / 60 + D("1.5") / 60)):
        worked = sum(getattr(job, place) for day in report.days for job in day.jobs)
        own = sum(getattr(sheet.hours, place) for sheet in report.sheets)
        assert abs(worked - own - set_up) < D("1e-15")


def test_choices_are_priced_beside_the_total():
    quote = jobs_of("dollars")["441-gala"].quote
    assert [line.label for line in quote.lines if line.label] == ["A", "B"]
    assert [(o.label, o.instead_of) for o in quote.options] == [("C", "B"), ("D", ""), ("E", "")]
    # E is a service of 120 at a fixed price, with the county's 1 % alone.
    standing = quote.options[2]
    assert (standing.amount, standing.total - quote.totals.total) == (D("120.00"), D("121.20"))
