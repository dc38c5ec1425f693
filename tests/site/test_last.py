"""Hours afloat, cold and heat, thin air, sun and rough ground."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta
from decimal import Decimal
from zoneinfo import ZoneInfo

import costing_made
import pytest
from sites_made import codes, figures, flag, looked_at, plan, steps, told

from quoting.domain.crews import CrewRules
from quoting.site.last import event_end, filling, growth

D = Decimal

HELIUM = plan(None, (), (("Round 11 ivory", 24.13, "helium"),))


@pytest.mark.parametrize(
    ("times", "expected"),
    [
        ({"event_time": time(14), "event_end": time(18)}, datetime(2031, 6, 14, 18)),
        ({"event_time": time(20), "event_end": time(1)}, datetime(2031, 6, 15, 1)),
        ({"event_end": time(17, 30)}, datetime(2031, 6, 14, 17, 30)),
        # common practice, no source: four hours, or until 22:00
        ({"event_time": time(21)}, datetime(2031, 6, 15, 1)),
        ({}, datetime(2031, 6, 14, 22)),
    ],
)
def test_the_end_of_the_event(times, expected):
    assert event_end(costing_made.job(**times)) == expected


@pytest.mark.parametrize(
    ("times", "expected"),
    [
        ({"install_time": time(10), "event_time": time(14)}, datetime(2031, 6, 14, 8)),
        ({"install_date": date(2031, 6, 13), "install_time": time(1)}, datetime(2031, 6, 12, 23)),
        ({"event_time": time(14)}, datetime(2031, 6, 14, 10)),
        ({"install_date": date(2031, 6, 13), "event_time": time(14)}, datetime(2031, 6, 13, 10)),
        ({}, datetime(2031, 6, 14, 10)),
        ({"event_time": time(7), "event_end": time(9), "install_time": time(12)}, datetime(2031, 6, 14, 9)),
    ],
)
def test_when_helium_is_filled(times, expected):
    assert filling(costing_made.job(**times), D(2)) == expected


def afloat(end, **changes):
    times = {"install_time": time(10), "event_time": time(14), "event_end": end}
    return looked_at(HELIUM, **{**times, **changes})


def test_a_balloon_that_outlasts_the_event_by_hand():
    """Filled at 8:00, two hours before 10:00; over at 22:00: 14 hours, and 14 hours it floats."""
    found = afloat(time(22))
    assert codes(found) == [("P721", "A")]
    assert figures(found, "P721") == {"afloat": 14, "needed": 14}
    assert (steps(found)["needed"], steps(found)["spare 1, 14 h"]) == (14, 0)


def test_a_balloon_that_sinks_before_the_end():
    found = afloat(time(23))
    assert told(found) == [("P720", "Pieces!B67")]
    assert "float 14 h, but 15 h pass" in found.problems[0].why
    assert "fill at Sat 14 Jun, 09:00 or later" in found.problems[0].fix
    assert any("float for about 14 h" in line for line in found.value.cautions.client)
    assert flag(found, "P720").is_for_client


@pytest.mark.parametrize(
    ("zone", "night", "end", "code", "needed"),
    [
        # clocks go back in New York on 2 November 2031, forward on 9 March (US rule since 2007; from memory)
        ("America/New_York", date(2031, 11, 1), time(7), "P721", 14),
        ("America/New_York", date(2031, 11, 1), time(8), "P720", 15),
        ("America/New_York", date(2031, 3, 8), time(9), "P721", 14),
        ("America/New_York", date(2031, 3, 8), time(10), "P720", 15),
        (None, date(2031, 11, 1), time(8), "P721", 14),
    ],
)
def test_hours_afloat_are_counted_through_a_change_of_the_clocks(zone, night, end, code, needed):
    """Filled at 18:00, two hours before 20:00, for an event that ends the next morning."""
    crew = CrewRules(zone=ZoneInfo(zone) if zone else None)
    times = {"install_date": night, "install_time": time(20), "event_date": night + timedelta(days=1)}
    found = looked_at(HELIUM, shop={"crew": crew}, event_time=time(6), event_end=end, **times)
    assert [each for each, _ in codes(found)] == [code]
    assert figures(found, code)["needed"] == steps(found)["needed"] == needed


def test_the_latest_hour_to_fill_is_the_clocks_own():
    """14 h before 8:00 winter time (13:00 UTC) are 23:00 UTC, 19:00 by the summer's clock."""
    times = {"install_date": date(2031, 11, 1), "install_time": time(20), "event_date": date(2031, 11, 2)}
    shop = {"crew": CrewRules(zone=ZoneInfo("America/New_York"))}
    found = looked_at(HELIUM, shop=shop, event_time=time(6), event_end=time(8), **times)
    assert "fill at Sat 1 Nov, 19:00 or later" in found.problems[0].fix


def test_hours_that_nobody_has_measured():
    found = looked_at(plan(None, (), (("Round 24 coral", 53.0, "helium"),)), event_end=time(20), install_time=time(9))
    assert codes(found) == [("P722", "A")]
    assert "13 h pass" in flag(found, "P722").what
    assert not found.problems


def test_balloons_with_air_in_them_float_no_hours():
    assert codes(looked_at(plan(None, ()))) == []


# --- the gas law --------------------------------------------------------------------


def test_growth_by_hand():
    """Charles: (278.15 / 293.15)^(1/3) = 0.98264; the standard atmosphere has 84.556 kPa at 1500 m, 101.325 at 0."""
    assert growth(20, 5, 0, 0) == pytest.approx(0.98264, abs=1e-5)
    assert growth(20, 20, 0, 1500) == pytest.approx((101.325 / 84.556) ** (1 / 3), rel=1e-4)
    assert growth(20, 20, 1500, 1500) == 1


@pytest.mark.parametrize(
    ("job", "expected"),
    [
        ({"celsius": D(20)}, []),
        ({"celsius": D("16")}, []),  # 0.46 %: not seen
        ({"celsius": D(5)}, [("P723", "")]),
        ({"celsius": D(35)}, [("P725", "")]),
        ({"altitude_cm": D(150_000)}, [("P725", "")]),
        ({"altitude_cm": D(150_000), "celsius": D(-26)}, []),  # thin and cold: each undoes the other
        ({}, []),
    ],
)
def test_cold_shrinks_and_heat_and_height_swell(job, expected):
    assert codes(looked_at(plan(None, ()), **job)) == expected


def test_what_becomes_of_a_fill():
    found = looked_at(plan(None, ()), celsius=D(5))
    assert "shrink by 1.7 % across: 9.5 in becomes 9.34 in" in flag(found, "P723").what
    assert steps(found)["growth"] == pytest.approx(0.98264, abs=1e-5)


def test_a_full_balloon_grows_beyond_its_size():
    """11 in at 27.5 cm is 10.83 in; 6.2 % more at 1500 m than at the sea is 11.5 in: fill to 10.36 in."""
    full = plan(None, (), (("Round 11 ivory", 27.5, "ring"), ("Foil star", 45.0, "topper")))
    found = looked_at(full, altitude_cm=D(150_000))
    assert told(found) == [("P724", "Pieces!U67")]
    assert "above their size of 11 in" in found.problems[0].why
    assert "fill them to at most 10.36 in" in found.problems[0].fix


# --- sun, ground, children ----------------------------------------------------------


def test_outdoors_sun_and_rough_ground():
    hardy = plan(None, (), (("Round 16 sage", 36.0, "ring"),))
    assert codes(looked_at(hardy, is_outdoors=True)) == [("P726", "")]  # its spares go by 10 % already
    assert codes(looked_at(plan(None, ()), is_outdoors=True)) == [("P726", "")]  # so do all, by the shop's 5 %
    found = looked_at(plan(None, ()), shop={"breakage_outdoors": Decimal(0)}, is_outdoors=True)
    assert codes(found) == [("P726", ""), ("P727", "")]
    assert "the spares go by 3 %" in flag(found, "P727").what
    assert codes(looked_at(plan(None, rounds=()), is_outdoors=True)) == []


def test_small_children():
    found = looked_at(plan(None, ()), has_children=True)
    assert codes(found) == [("P728", "")]
    assert flag(found, "P728").is_for_client
    assert any("small children away" in line for line in found.value.cautions.client)
    assert codes(looked_at(plan(None, rounds=()), has_children=True)) == []
