"""Hours and delivery of a job, and prices that no longer hold. Own arithmetic throughout."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from costing_made import (
    BALLOONS,
    DELIVERY,
    HARDWARE,
    LABOUR,
    arch,
    balloon,
    band,
    column,
    pack,
    piece,
    plan,
    prices,
    usual,
)
from jobs_made import ONE, codes, outcome, sheet

from quoting.domain.problems import Level
from quoting.domain.quotes import LineKind

D = Decimal


def test_hours_follow_size_class_and_place():
    """2 × (36 × 22 + 9 × 20 + 9 × 35) s in the workshop, 2 × (900 + 412.5) s at the venue."""
    made = sheet([(piece("A", 2), column())])
    assert made.hours.workshop == D(2 * 1287) / 3600
    assert made.hours.venue == D(2625) / 3600
    assert made.pieces[0].hours == made.hours


def test_the_least_size_class_that_takes_the_size_then_any_size():
    def seconds(size):
        made = sheet([(piece(), plan(tasks=[("inflate round", 3600, size)]))])
        return made.hours.workshop

    assert [seconds(size) for size in (4, 5, 6, 12, 16)] == [15, 15, 22, 22, 45]
    any_size = prices(labour=(*LABOUR, replace(LABOUR[0], up_to_size=None, seconds=D(99))))
    made = sheet([(piece(), plan(tasks=[("Inflate ROUND", 3600, 36), ("inflate round", 3600)]))], book=any_size)
    assert made.hours.workshop == 198


def test_an_activity_without_a_rate_holds_the_job_at_the_form():
    too_big = plan(tasks=[("inflate round", 1, 36), ("wind strand", 2)])
    made = outcome([(piece(), too_big)])
    assert made.value is None
    assert codes(made) == [("P604", Level.HOLD, "Pieces", 3)] * 2
    assert "inflate round of balloons up to 36 in" in made.problems[0].why


@pytest.mark.parametrize(
    ("miles", "charge", "cost"),
    [
        ("0", "0.00", "6.00"),
        ("10", "0.00", "6.00"),
        ("10.01", "25.00", "15.00"),
        ("30", "25.00", "15.00"),
        ("30.5", "25.88", "15.28"),
        ("100", "147.50", "53.50"),
    ],
)
def test_delivery_by_band_and_per_further_mile_one_way(miles, charge, cost):
    """Beyond 30 miles 1.75 more for each: 70 more are 122.50 on 25; half a mile 0.875."""
    made = sheet([(piece(price="10"), plan())], distance_km=D(miles) * D("1.609344"))
    assert made.quote.lines[-1].amount == D(charge)
    assert made.cost == D(cost)


def test_a_further_charge_within_a_limited_band_counts_from_the_band_before():
    book = prices({"distance_unit": "km"}, delivery=(band(10, 5, 0), replace(band(20, 10, 0, 2), up_to_km=D(40))))
    made = sheet([(piece(price="10"), plan())], book=book, distance_km=D("20.09344"))
    assert made.quote.lines[-1].amount == D("18.00")  # 10 + 2 × (20.09344 − 16.09344)


def test_what_the_client_collects_has_no_delivery():
    made = sheet([(piece(price="10"), plan())], is_collected=True, distance_km=None)
    assert [line.kind for line in made.quote.lines] == [LineKind.PIECE]


def test_a_distance_missing_or_beyond_every_band_holds_the_job_at_its_cell():
    assert codes(outcome(usual(), distance_km=None)) == [("P605", Level.HOLD, "Jobs", 3)]
    far = outcome(usual(), book=prices(delivery=DELIVERY[:2]), distance_km=D(100))
    assert codes(far) == [("P606", Level.HOLD, "Jobs", 3)]
    assert "62.1371 mi" in far.problems[0].why


def test_an_item_without_a_current_price_holds_the_job_at_the_cell_that_asks_for_it():
    old = (pack(50, "6.00", end=date(2031, 5, 13)), pack(100, "9.00", start=date(2031, 5, 15)))
    book = prices(balloons=(balloon("Round 11 ivory", old), *BALLOONS[1:]))
    made = outcome([(piece("A"), column())], book=book)
    assert codes(made) == [("P601", Level.HOLD, "Pieces", 5)]
    assert made.problems[0].seen == "('ivory',)"
    assert (made.problems[0].job, "Round 11 ivory" in made.problems[0].why) == ("0412", True)
    assert codes(outcome([(piece("A"), column())], book=book, quote_date=date(2031, 5, 13))) == []
    assert codes(outcome([(piece("A"), column())], book=book, quote_date=date(2031, 5, 15))) == []


@pytest.mark.parametrize(
    ("field", "value", "at"),
    [
        ("topper", "foil STAR silver", 6),
        ("accents", ((1, "Foil star silver"),), 7),
        ("item", "Foil star silver", 11),
        ("build", "Our star", 12),
        ("base", "none", 3),
    ],
)
def test_the_cell_that_asked_is_named(field, value, at):
    gone = replace(BALLOONS[3], packs=(pack(1, "1", end=date(2020, 1, 1)),))
    starred = plan([("Foil star silver", 1)])
    made = outcome([(piece("A", colours=None, **{field: value}), starred)], book=prices(balloons=(*BALLOONS[:3], gone)))
    assert codes(made) == [("P601", Level.HOLD, "Pieces", at)]


def test_hardware_bought_or_hired_needs_a_current_price_too():
    stale = tuple(replace(h, price_until=date(2031, 5, 1)) for h in HARDWARE)
    made = outcome(
        [(piece("A", pole="Steel pole"), column()), (piece("B", frame="arch frame"), arch())],
        book=prices(hardware=stale),
    )
    assert sorted(p.why.split(" has")[0] for p in made.problems) == ["Arch frame", "Base plate", "Plinth", "Steel pole"]
    assert {p.code for p in made.problems} == {"P603"}
    assert {(p.why.split(" has")[0], p.place.column) for p in made.problems} >= {("Steel pole", 9), ("Arch frame", 10)}
    assert (
        codes(outcome(usual(), book=prices(hardware=tuple(replace(h, price_from=date(2031, 5, 14)) for h in HARDWARE))))
        == []
    )


def test_certainty_itself_has_no_number_of_spares():
    assert codes(outcome([(piece(), plan(ONE))], book=prices({"service_level": D(1)}))) == [
        ("P602", Level.HOLD, "Pieces", 5)
    ]


def test_the_unit_cost_is_the_least_among_current_packs():
    """A pack of 100 for 11.00 was 0.11; one of 500 for 45.00 is 0.09, but not yet; one of 10 for 1.00 is 0.10."""
    packs = (pack(100, "11.00"), pack(500, "45.00", start=date(2032, 1, 1)), pack(10, "1.00"))
    made = sheet([(piece(), plan(ONE))], book=prices(balloons=(balloon("Round 11 ivory", packs),)))
    assert made.stock[0].unit_cost == D("0.1")
