"""Loads and vans, trips, rates by distance, tolls and waiting. Own arithmetic on the rules as stated."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
from costing_made import band, piece, prices
from crews_made import outline, policy, van, worked
from jobs_made import codes, outcome, sheet

from quoting.domain.crews import Access, StrikeTrip
from quoting.domain.problems import Level

D = Decimal
MILE = D("1.609344")
ONE_BAND = (band(None, 30, 12),)


def carried(litres, quantity=1, rigid=180.0):
    return [(piece(price="10", quantity=quantity), worked(outline=outline(rigid=rigid, litres=litres)))]


def delivery(made):
    return next(line.amount for line in made.quote.lines if line.kind.value == "delivery")


@pytest.mark.parametrize(
    ("litres", "quantity", "loads"), [(3000, 1, 1), (3000.1, 1, 2), (750, 4, 1), (750, 5, 2), (0, 1, 1), (9000, 1, 3)]
)
def test_loads_are_the_packed_room_over_the_vans(litres, quantity, loads):
    """A van of 3,000 litres; every load is a drive out and back at 30."""
    made = sheet(carried(litres, quantity), book=prices(vans=(van(),), delivery=ONE_BAND))
    assert (made.loads.count, made.loads.van, made.loads.litres) == (loads, "Small van", litres * quantity)
    assert delivery(made) == 30 * loads


def test_the_van_whose_loads_cost_the_least_that_takes_the_longest_part():
    """5,000 litres: two loads of the small van cost 2 × 4, one of the box van 10; a pole of 3 m needs the box van."""
    vans = (van(cost=4), van("Box van", litres=8000, length=400, cost=10, charge=15))
    book = prices(vans=vans, delivery=ONE_BAND)
    small, box = sheet(carried(5000), book=book), sheet(carried(5000, rigid=300.0), book=book)
    assert (small.loads.van, small.loads.count, delivery(small)) == ("Small van", 2, 60)
    assert (box.loads.van, box.loads.count, delivery(box)) == ("Box van", 1, 45)
    assert box.cost - sheet(carried(5000), book=prices(delivery=ONE_BAND)).cost == 10


def test_a_piece_that_no_van_takes_whole_is_noted_at_its_form():
    book = prices(vans=(van(length=250, door=120),))
    long = outcome(carried(100, rigid=250.1), book=book)
    assert codes(long) == [("P660", Level.NOTE, "Pieces", 3)]
    assert long.value.loads.count == 1
    high = [(piece(price="10"), worked(outline=outline(130, 180, 130)))]
    assert codes(outcome(high, book=book)) == [("P660", Level.NOTE, "Pieces", 3)]
    low = [(piece(price="10"), worked(outline=outline(130, 180, 120)))]
    assert codes(outcome(low, book=book)) == []


def test_a_strike_is_a_drive_of_its_own_and_charged_again_where_the_shop_says_so():
    """Whether its date is typed or not: the crew that strikes comes a second time; a date alone takes nobody there."""
    again = {"policy": policy(strike_trip=StrikeTrip.AGAIN)}
    sunday = date(2031, 6, 15)
    for shop, work, strike, charge in (
        (None, 1, sunday, 30), (again, 1, sunday, 60), (again, 1, None, 60), (again, 0, sunday, 30),
    ):  # fmt: skip
        struck = [(piece(price="10"), worked(1, work, outline=outline(rigid=180.0, litres=100)))]
        made = sheet(struck, book=prices(shop, delivery=ONE_BAND), strike_date=strike)
        assert delivery(made) == charge
        assert len(made.visits) == 1 + work
    both = [(piece(price="10"), worked(1, 1, outline=outline(rigid=180.0, litres=5000)))]
    assert delivery(sheet(both, book=prices(again, delivery=ONE_BAND, vans=(van(),)))) == 30 * 2 * 2


@pytest.mark.parametrize(("miles", "charge", "cost"), [(10, "0", "9"), (15, "0", "13.50"), (40, "60", "36")])
def test_a_rate_per_mile_both_ways_beyond_the_free_distance(miles, charge, cost):
    """1.20 a mile both ways beyond 15 miles: 40 miles are 2 × 25 × 1.20; the cost, 0.45 a mile, has nothing free."""
    rate = {"policy": policy(distance_charge="1.20", distance_cost="0.45", free_distance="15")}
    made = sheet(carried(0), book=prices(rate, delivery=()), distance_km=miles * MILE)
    plain = sheet(carried(0), book=prices(delivery=(band(None, 0, 0),)))
    assert delivery(made) == D(charge)
    assert made.cost - plain.cost == D(cost)


def test_tolls_and_parking_are_passed_on_and_waiting_is_charged_at_the_venues_hour():
    """6.40 + 12 at cost, 25 min at 48 and at 20 an hour."""
    fee = Access(tolls=D("6.40"), parking=D("12.00"), waiting_minutes=D(25))
    plain, made = (sheet(carried(0), book=prices(delivery=ONE_BAND), access=a) for a in (Access(), fee))
    assert delivery(made) - delivery(plain) == D("38.40")
    assert made.cost - plain.cost == D("18.40") + D("8.33")
