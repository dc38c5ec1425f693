"""Hours, holidays, vans, access and choices: mistakes at their cells, and what good rows come to."""

from __future__ import annotations

import tomllib
from datetime import date, time
from decimal import Decimal
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from rows_made import RUN_DATE, cell, good_book, tables

from quoting.checking.books import check_tables
from quoting.domain.crews import Access, Shown, StrikeTrip

CASES = tomllib.loads((Path(__file__).parent.parent / "cases" / "checking" / "crews.toml").read_text("utf-8"))["case"]
SHEETS = ("rates", "holidays", "vans")
D = Decimal


def checked(*changes, **sheets):
    book = {**good_book(), **sheets}
    for sheet_key, index, key, value in changes:
        book[sheet_key][index][key] = value
    return check_tables(tables(book), RUN_DATE)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["name"])
def test_a_mistake_is_named_by_its_cell(case):
    outcome = checked(*case.get("set", ()), **{key: case[key] for key in SHEETS if key in case})
    found = sorted({(f"{p.place.sheet}!{p.place.cell}", p.code) for p in outcome.problems})
    assert found == sorted((cell(sheet, key, index), code) for sheet, key, index, code in case["expect"])
    quoted = {job.code for job in outcome.value.jobs} if outcome.value.prices else set()
    assert sorted({entry.code for entry in outcome.value.entries} - quoted) == sorted(case["held"])


def test_every_code_of_hours_and_choices_that_checking_gives_has_a_case():
    told = {code for case in CASES for *_, code in case["expect"]}
    assert {"P650", "P651", "P652", "P653", "P658", "P659", "P661", "P680", "P681", "P682", "P683", "P684"} <= told


def test_a_book_without_the_new_sheets_and_columns_has_plain_hours_and_prices():
    made = checked().value
    assert (made.prices.hour_rates, made.prices.vans, dict(made.prices.holidays)) == ((), (), {})
    rules, policy = made.prices.shop.crew, made.prices.shop.policy
    assert (rules.crew_limit, rules.hours_per_day, rules.minimum_hours, rules.zone) == (None, None, 0, None)
    assert (policy.target_margin, policy.overhead, policy.price_step, policy.distance_charge) == (None, 0, 0, None)
    assert all(job.access == Access() for job in made.jobs)
    assert not any(p.option_group or p.is_add_on or p.is_recommended for job in made.jobs for p in job.pieces)


def test_what_the_rows_come_to():
    made = checked(
        ["shop", 0, "time_zone", "America/New_York"], ["shop", 0, "free_distance", "16.09344"],
        ["shop", 0, "distance_charge", 1.2], ["shop", 0, "labour_shown", "own line"], ["shop", 0, "crew_limit", 4],
        ["shop", 0, "strike_trip", "charged again"], ["labour", 0, "hour_charge", 71.5],
        ["jobs", 0, "access_from", "08:00"], ["jobs", 0, "access_until", "11:30"], ["jobs", 0, "flights", 2],
        ["jobs", 0, "tolls", 6.4], ["pieces", 0, "option_group", "Entrance"], ["pieces", 0, "recommended", True],
        ["pieces", 1, "option_group", "Entrance"],
        rates=[
            {"rate": "Night", "factor": 1.5, "from": "22:00", "until": "06:00"},
            {"rate": "Weekend", "factor": 1.25, "days": ["sunday", "Saturday"], "on_holidays": True},
        ],
        holidays=[{"day": "2031-06-20", "name": "Lantern day"}],
        vans=[{"van": "Box van", "usable_litres": 4000, "length": 270, "cost": 8}],
    ).value
    night, weekend = made.prices.hour_rates
    assert (night.name, night.factor, night.start, night.end, night.days) == ("Night", D("1.5"), time(22), time(6), ())
    assert (weekend.days, weekend.is_holiday, weekend.start) == ((5, 6), True, None)
    assert weekend.is_on(date(2031, 6, 20), made.prices.holidays) and not weekend.is_on(date(2031, 6, 19), {})
    (van,) = made.prices.vans
    assert (van.van, van.usable_litres, van.length_cm, van.door_height_cm, van.cost) == ("Box van", 4000, 270, None, 8)
    shop = made.prices.shop
    assert shop.crew.zone == ZoneInfo("America/New_York") and shop.crew.crew_limit == 4
    assert (shop.policy.free_distance, shop.policy.distance_charge) == (10, D("1.2"))
    assert (shop.policy.labour_shown, shop.policy.strike_trip) == (Shown.OWN_LINE, StrikeTrip.AGAIN)
    assert made.prices.labour[0].hour_charge == D("71.5")
    job = next(job for job in made.jobs if job.code == "0412")
    assert job.access == Access(access_from=time(8), access_until=time(11, 30), flights=2, tolls=D("6.4"))
    assert [(p.option_group, p.is_recommended) for p in job.pieces] == [("Entrance", True), ("Entrance", False)]


def test_public_holidays_of_a_country_and_region_changed_by_the_sheet():
    """Days as published: Memorial Day is the last Monday of May, All Saints a holiday of Bavaria (from memory)."""
    usa = checked(["shop", 0, "country", "us"]).value.prices.holidays
    assert date(2031, 5, 26) in usa and date(2031, 11, 1) not in usa
    own = [{"day": "2031-05-26", "is_holiday": False}, {"day": "2031-06-20", "name": "Lantern day"}]
    changed = checked(["shop", 0, "country", "US"], holidays=own).value.prices.holidays
    assert date(2031, 5, 26) not in changed and changed[date(2031, 6, 20)] == "Lantern day"
    bavaria = checked(["shop", 0, "country", "DE"], ["shop", 0, "region", "BY"]).value.prices.holidays
    assert date(2031, 11, 1) in bavaria
    assert {day.year for day in usa} == {2030, 2031, 2032}
