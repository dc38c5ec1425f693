"""Hours cut at the clock's boundaries: midnight, weekends, a holiday, changed clocks. Own arithmetic on the rules."""

from __future__ import annotations

from datetime import date, datetime, time
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest
from crews_made import NIGHT, RATES, rated
from hypothesis import given
from hypothesis import strategies as st

from quoting.costing.working_hours import billed_seconds, blended, cut_hours, whole_day
from quoting.domain.clocks import later, seconds_between

D, H = Decimal, 3600


FOURTH = {date(2031, 7, 4): "Independence Day"}


def cut(start, hours, rates=RATES, holidays=FOURTH, zone=None):
    spans = cut_hours(datetime(*start), Fraction(hours) * H, rates, holidays, zone)
    return [(span.name, float(span.seconds / H)) for span in spans]


def test_hours_are_cut_at_the_boundary_not_rounded_to_the_dearer_rate():
    """Tuesday 16:30, 8 h: 1.5 h plain, 4 h evening, 2.5 h night."""
    assert cut((2031, 6, 10, 16, 30), 8) == [("", 1.5), ("evening", 4), ("night", 2.5)]
    spans = cut_hours(datetime(2031, 6, 10, 16, 30), Fraction(8 * H), RATES, {})
    assert blended(spans) == (Fraction(3, 2) + 4 * Fraction(5, 4) + Fraction(5, 2) * Fraction(3, 2)) / 8


def test_past_midnight_the_night_goes_on_and_ends_in_the_morning():
    """Tuesday 23:00, 9 h: 7 h night to 06:00, 2 h plain."""
    assert cut((2031, 6, 10, 23, 0), 9) == [("night", 7), ("", 2)]
    assert cut((2031, 6, 11, 2, 0), 1) == [("night", 1)]


def test_a_night_rate_of_one_weekday_belongs_to_the_day_it_began_on():
    """2031-06-14 is a Saturday: Saturday's night runs into Sunday morning, Friday's does not hold."""
    saturday = (rated("Saturday night", "1.5", (22, 0), (6, 0), days=(5,)),)
    assert cut((2031, 6, 14, 23, 0), 8, saturday) == [("Saturday night", 7), ("", 1)]
    assert cut((2031, 6, 14, 4, 0), 4, saturday) == [("", 4)]


def test_the_dearest_rate_holds_and_none_are_added_up():
    """Saturday 20:00, 8 h: evening 2 h, night 2 h (1.5 > none), then Sunday's 1.6 over the night's 1.5."""
    assert cut((2031, 6, 14, 20, 0), 8) == [("evening", 2), ("night", 2), ("Sunday", 4)]


def test_a_public_holiday_begins_and_ends_at_midnight():
    """3 July 2031 21:00, 30 h: 1 h evening, 2 h night, the whole 4 July at twice, then 3 h of its night."""
    assert cut((2031, 7, 3, 21, 0), 30) == [("evening", 1), ("night", 2), ("public holiday", 24), ("night", 3)]
    assert cut((2031, 7, 3, 21, 0), 6, holidays={}) == [("evening", 1), ("night", 5)]


# Clock changes by law: USA on the second Sunday of March and the first Sunday of November at 02:00,
# EU on the last Sundays of March and October at 01:00 UTC (from memory of 15 U.S.C. 260a and Directive 2000/84/EC).
NEW_YORK, BERLIN = ZoneInfo("America/New_York"), ZoneInfo("Europe/Berlin")
NIGHT_ONLY = (NIGHT,)


@pytest.mark.parametrize(
    ("zone", "evening", "hours"),
    [
        (NEW_YORK, date(2031, 3, 8), 7),
        (NEW_YORK, date(2031, 11, 1), 9),
        (BERLIN, date(2031, 3, 29), 7),
        (BERLIN, date(2031, 10, 25), 9),
        (BERLIN, date(2031, 6, 10), 8),
        (None, date(2031, 3, 8), 8),
    ],
)
def test_the_night_of_a_clock_change_is_an_hour_shorter_or_longer(zone, evening, hours):
    start = datetime.combine(evening, time(22))
    morning = datetime(evening.year, evening.month, evening.day + 1, 6)
    assert seconds_between(start, morning, zone) == hours * H
    assert later(start, Fraction(hours * H), zone) == morning
    spans = cut_hours(start, Fraction(12 * H), NIGHT_ONLY, {}, zone)
    assert [(s.name, s.seconds) for s in spans] == [("night", hours * H), ("", (12 - hours) * H)]


def test_work_through_the_hour_that_comes_twice():
    """Berlin, 26 October 2031: from 01:30, two hours end at 02:30 shown for the second time."""
    end = later(datetime(2031, 10, 26, 1, 30), Fraction(2 * H), BERLIN)
    assert end == datetime(2031, 10, 26, 2, 30)
    assert later(datetime(2031, 10, 26, 1, 30), Fraction(3 * H), BERLIN) == datetime(2031, 10, 26, 3, 30)


def test_where_only_the_day_is_known_only_rates_of_the_whole_day_count():
    spans = whole_day(date(2031, 6, 15), Fraction(H), RATES, {})
    assert [(s.name, s.factor, s.seconds) for s in spans] == [("Sunday", D("1.6"), H)]
    assert blended(whole_day(date(2031, 6, 16), Fraction(H), RATES, {})) == 1
    assert blended(whole_day(date(2031, 7, 4), Fraction(H), RATES, FOURTH)) == 2


@pytest.mark.parametrize(
    ("seconds", "minimum", "step", "billed"),
    [(0, 4, 15, 0), (1, 0, 15, 900), (900, 0, 15, 900), (901, 0, 15, 1800), (3600, 4, 0, 14400), (20000, 4, 0, 20000)],
)
def test_rounding_and_minimum_call_out(seconds, minimum, step, billed):
    assert billed_seconds(Fraction(seconds), D(minimum), D(step)) == billed


@given(
    st.datetimes(datetime(2030, 1, 1), datetime(2032, 1, 1)),
    st.integers(1, 60 * H),
    st.sampled_from([None, NEW_YORK, BERLIN]),
)
def test_spans_follow_each_other_and_add_up(start, seconds, zone):
    spans = cut_hours(start, Fraction(seconds), RATES, FOURTH, zone)
    assert sum(span.seconds for span in spans) == seconds
    assert all(one.end == other.start for one, other in pairwise(spans))
    assert all((one.name, one.factor) != (other.name, other.factor) for one, other in pairwise(spans))
    assert 1 <= blended(spans) <= 2
