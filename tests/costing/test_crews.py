"""Crews, the plan of their day, and what holds a job that can't be done. Own arithmetic on the rules as stated."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, time
from decimal import Decimal
from zoneinfo import ZoneInfo

import pytest
from costing_made import JOBS, column, piece, plan, prices, row, usual
from crews_made import RATES, outline, rules, worked
from jobs_made import codes, outcome, sheet

from quoting.domain.crews import Access
from quoting.domain.problems import Level

D = Decimal
COLUMNS = ("job", "client", "distance", "event_date", "install_time", "event_time", "access_from", "access_until")


def typed(**fields):
    """A Jobs row with more cells filled."""
    return row(JOBS, COLUMNS, job="0412", client="Fernhill Library", **fields)


def shop(**changes):
    return prices({"crew": rules(**changes)})


def install(made):
    return made.visits[0]


@pytest.mark.parametrize(
    ("installs", "until", "crew"),
    [(8, (12, 0), 1), (8, (11, 0), 2), (8, (10, 40), 3), (12, (12, 0), 2), (24, (10, 40), 9)],
)
def test_the_least_crew_whose_work_fits_the_window(installs, until, crew):
    """In from 10:00; an install is a quarter of an hour: 8 are 2 h. Nothing to unload."""
    made = sheet([(piece(), worked(installs))], install_time=time(10), event_time=time(*until))
    assert install(made).crew == crew
    assert install(made).work_hours == D(installs) / 4


def test_unloading_and_walking_in_take_from_the_window():
    """10:00 to 12:00 less 20 + 10 min leaves 1.5 h: 2 h of work take two."""
    book = shop(unloading_minutes=20.0, walk_in_minutes=10.0)
    when = {"install_time": time(10), "event_time": time(12)}
    assert install(sheet([(piece(), worked(8))], book=book, **when)).crew == 2
    at_the_door = Access(walk_in_minutes=D(0))
    assert install(sheet([(piece(), worked(6))], book=book, **when, access=at_the_door)).crew == 1
    assert install(sheet([(piece(), worked(7))], book=book, **when, access=at_the_door)).crew == 2


@pytest.mark.parametrize(("size", "crew"), [((60, 200), 1), ((60, 201), 2), ((300, 150), 1), ((301, 150), 2)])
def test_two_people_for_what_is_over_2_m_high_or_3_m_wide(size, crew):
    made = sheet([(piece(), worked(1, 1, outline=outline(*size)))], strike_date=date(2031, 6, 15))
    assert [(visit.kind, visit.crew, visit.needs_two) for visit in made.visits] == [
        ("install", crew, crew == 2), ("strike", crew, crew == 2),
    ]  # fmt: skip


def test_no_window_is_as_long_as_the_longest_shift():
    """44 installs are 11 h: more than a shift of 10 h for one."""
    assert install(sheet([(piece(), worked(40))])).crew == 1
    assert install(sheet([(piece(), worked(44))])).crew == 2
    assert install(sheet([(piece(), worked(44))], book=shop(longest_shift=12.0))).crew == 1


def test_what_fits_with_no_crew_of_the_shop_is_held_with_what_would_make_it_fit():
    """10:00 to 11:00, 24 installs are 6 h: 6 people; with 2 it takes 3 h, 2 h more than there are, or 4 h prebuilt."""
    book = shop(crew_limit=2)
    when = {"install_time": time(10), "event_time": time(11)}
    made = outcome([(piece(), worked(24))], book=book, **when, row=typed(install_time="10", event_time="11"))
    assert [(p.code, p.level, p.place.cell) for p in made.problems] == [("P654", Level.HOLD, "E2")]
    assert made.value is None
    assert "6 h of work at the venue don't go into 1 h with 2 people" in made.problems[0].why
    assert made.problems[0].fix == (
        "get in 2 h earlier or stay as much longer, build 4 h of it in the workshop, or send 6 people"
    )
    assert outcome([(piece(), worked(24))], book=shop(crew_limit=6), **when).value is not None


def test_a_window_that_unloading_uses_up_and_a_crew_of_one_for_ladder_work_are_held():
    full = outcome(
        [(piece(), worked(1))], book=shop(unloading_minutes=60.0), install_time=time(10),
        access=Access(access_until=time(11)), row=typed(access_until="11:00"),
    )  # fmt: skip
    assert [(p.code, p.place.cell) for p in full.problems] == [("P657", "H2")]
    high = outcome([(piece(), worked(1, outline=outline(60, 250)))], book=shop(crew_limit=1))
    assert codes(high) == [("P656", Level.HOLD, "Jobs", 1)]


def steps(visit):
    def clock(moment):
        return moment and moment.strftime("%d %H:%M")

    return [(step.what, clock(step.start), clock(step.end)) for step in visit.steps]


def test_the_plan_of_the_day_by_the_clock():
    """Load 2 × 2 min ÷ 1; 15 mi at 30 mi/h; 20 min unloading; 8 quarters of an hour; back; strike two quarters late."""
    book = prices({"crew": rules(unloading_minutes=15.0, walk_in_minutes=5.0, speed=30.0)})
    made = sheet(
        [(piece(), worked(8, 4, 2))], book=book, install_time=time(10), event_time=time(13),
        distance_km=D(15) * D("1.609344"), strike_date=date(2031, 6, 14), strike_time=time(23, 30),
    )  # fmt: skip
    set_up, strike = made.visits
    assert steps(set_up) == [
        ("Load", "14 09:26", "14 09:30"), ("Drive out", "14 09:30", "14 10:00"),
        ("Unload and walk in", "14 10:00", "14 10:20"), ("Build", "14 10:20", "14 12:20"),
        ("Finished", "14 12:20", "14 12:20"), ("Drive back", "14 12:20", "14 12:50"),
    ]  # fmt: skip
    assert steps(strike) == [
        ("Drive out", "14 23:00", "14 23:30"), ("Strike", "14 23:30", "14 23:57"),
        ("Carry out and load", "14 23:57", "15 00:17"), ("Drive back", "15 00:17", "15 00:47"),
    ]  # fmt: skip
    assert (set_up.travel_hours, strike.travel_hours) == (1, 1)


def test_without_a_start_the_day_is_planned_back_from_the_event():
    made = sheet([(piece(), worked(8))], event_time=time(19), distance_km=D(0))
    assert steps(install(made))[0] == ("Build", "14 17:00", "14 19:00")
    unknown = sheet([(piece(), worked(8))], distance_km=D(0))
    assert steps(install(unknown)) == [("Build", None, None), ("Finished", None, None)]
    assert install(unknown).steps[0].minutes == 120


def test_access_may_end_after_midnight():
    """In at 22:00, out by 01:00: 3 h; 16 installs are 4 h."""
    late = Access(access_from=time(22), access_until=time(1))
    made = sheet([(piece(), worked(16))], access=late, install_time=time(9))
    assert install(made).crew == 2
    assert steps(install(made))[-2][1] == "15 00:00"


def test_hours_through_a_clock_change_are_true_hours():
    """New York, Saturday 8 March 2031 22:00 to 06:00: 7 h, so 30 quarters (7.5 h) take two people, in autumn one."""
    book = prices({"crew": rules(zone=ZoneInfo("America/New_York"))})
    night = Access(access_from=time(22), access_until=time(6))
    spring, autumn = date(2031, 3, 8), date(2031, 11, 1)
    days = {"event_date": date(2031, 11, 30), "quote_date": date(2031, 3, 1)}
    two = sheet([(piece(), worked(30))], book=book, access=night, install_date=spring, **days)
    one = sheet([(piece(), worked(30))], book=book, access=night, install_date=autumn, **days)
    assert (install(two).crew, install(one).crew) == (2, 1)
    assert steps(install(one))[-2][1] == "02 04:30"  # 22:00 + 7.5 h, of which one came twice


def test_a_start_that_clocks_skip_is_noted_at_its_cell():
    book = prices({"crew": rules(zone=ZoneInfo("America/New_York"))})
    made = outcome(
        [(piece(), worked(1))], book=book, install_date=date(2031, 3, 9), install_time=time(2, 30),
        event_date=date(2031, 3, 20), quote_date=date(2031, 3, 1), row=typed(install_time="2:30"),
    )  # fmt: skip
    assert [(p.code, p.level, p.place.cell) for p in made.problems] == [("P655", Level.NOTE, "E2")]
    assert made.value is not None


def test_dear_hours_are_charged_and_paid_on_top_cut_at_the_boundary():
    """Monday 9 June, 21:00, 8 installs = 2 h for one: 1 h evening 1.25, 1 h night 1.5 → 0.75 h more at 48 and 20."""
    book = prices(hour_rates=RATES)
    day = {"event_date": date(2031, 6, 10), "install_date": date(2031, 6, 9)}
    plain = sheet([(piece(), worked(8))], book=book, install_time=time(10), **day)
    late = sheet([(piece(), worked(8))], book=book, install_time=time(21), **day)
    assert late.quote.totals.subtotal - plain.quote.totals.subtotal == D("0.75") * 48
    assert late.cost - plain.cost == D("0.75") * 20
    assert [(r.name, r.hours) for r in install(late).rated] == [("evening", 1), ("night", 1)]
    two = sheet([(piece(), worked(8, outline=outline(60, 250)))], book=book, install_time=time(21), **day)
    assert [(r.name, r.hours) for r in install(two).rated] == [("evening", 2)]  # two people are done by 22:00


def test_set_up_rounding_and_call_out_are_of_the_job_and_fixed_prices_stand():
    """6 quarters + 20 min set-up = 110 min, to 120 by quarters: 30 min more than the piece's, at 48 an hour."""
    book = shop(setup_minutes=20.0, hours_step=15.0)
    plain, made = (sheet([(piece(), worked(6))], book=b) for b in (prices(), book))
    assert made.quote.totals.subtotal - plain.quote.totals.subtotal == 24
    assert made.cost - plain.cost == 10
    called = sheet([(piece(), worked(6))], book=shop(minimum_hours=4.0))
    assert called.quote.totals.subtotal - plain.quote.totals.subtotal == D("2.5") * 48
    dear = prices({"crew": rules()}, hour_rates=RATES)
    sunday = {"event_date": date(2031, 6, 15), "install_date": date(2031, 6, 15)}
    fixed = sheet([(piece(price="300"), worked(8))], book=dear, **sunday)
    assert fixed.quote.totals.subtotal == 325  # delivery 25; Sunday's hours are the shop's own affair
    assert fixed.cost - sheet([(piece(price="300"), worked(8))]).cost == D("0.6") * 2 * 20


def test_stairs_take_time_for_each_piece_and_flight():
    book = shop(flight_minutes=1.5)
    made = sheet([(piece(quantity=4), worked(2))], book=book, access=Access(flights=3))
    assert install(made).work_hours == 2 + D(18) / 60


def test_where_the_client_collects_nobody_visits_and_handling_is_not_charged():
    """Loading, installing and striking are the client's; what else is done at a venue is done in the workshop."""
    tasks = [("load piece", 1), ("install piece", 2), ("strike piece", 1), ("inflate round", 36, 11)]
    made = sheet([(piece(), plan(tasks=tasks))], is_collected=True, distance_km=None)
    assert (made.visits, made.loads, made.late_hours) == ((), None, 0)
    assert (made.hours.workshop * 3600, made.hours.venue) == (792, 0)
    assert made.quote.totals.subtotal == round(D(792) / 3600 * 36, 2)
    accents = replace(prices().labour[0], activity="attach accent", is_at_venue=True, up_to_size=None)
    at_venue = (*prices().labour, accents)
    made = sheet([(piece(), plan(tasks=[("attach accent", 240)]))], book=prices(labour=at_venue), is_collected=True)
    assert (made.hours.workshop, made.hours.venue) == (1, 0)
    assert made.quote.totals.subtotal == 36


def test_jobs_without_any_of_it_keep_their_price():
    """The column's labour by hand: 1287 s at 36 and 1312.5 s at 48 an hour."""
    made = sheet([(piece(), column())])
    parts = made.pieces[0]
    assert made.quote.totals.subtotal == parts.amount + 25
    assert parts.hours.workshop * 36 + parts.hours.venue * 48 == D(1287 * 36 + D("1312.5") * 48) / 3600
    assert [line.kind.value for line in sheet(usual()).quote.lines] == ["piece"] * 4 + ["delivery"]


def test_activities_with_an_hour_of_their_own():
    """Installing by a rigger: 71.50 charged, 33 paid, where the venue's hour is 48 and 20."""
    rigger = tuple(
        replace(r, hour_charge=D("71.50"), hour_cost=D(33)) if r.activity == "install piece" else r
        for r in prices().labour
    )
    plain, made = (sheet([(piece(), worked(4, 8))], book=b) for b in (prices(), prices(labour=rigger)))
    assert made.quote.totals.subtotal - plain.quote.totals.subtotal == D("23.50")
    assert made.cost - plain.cost == 13


def test_a_plan_begins_before_midnight_where_it_must():
    made = sheet([(piece(), worked(2))], install_time=time(0, 10), distance_km=D(30) * D("1.609344"))
    assert install(made).steps[0].start == datetime(2031, 6, 13, 23, 10)
