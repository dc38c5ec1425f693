"""Orders of a batch: in time, from what is on hand first, shared to the cent. Own arithmetic on invented figures."""

from __future__ import annotations

import random
from dataclasses import replace
from decimal import Decimal

import pytest
from orders_made import RUN, a_job, balloon, book, bought, days, pack, supplier, thing

from quoting.costing.days import days_of
from quoting.domain.crews import CrewRules
from quoting.domain.problems import Level

D = Decimal


def test_stock_on_hand_goes_to_the_earliest_job_and_left_overs_to_the_next():
    """30 on hand: 25 for the first, 5 for the second, whose other 35 come out of one pack of 50; 15 are left."""
    prices = book(balloon("sage", pack(50, "8.00"), on_hand=30))
    late, early = (a_job(code, days(day), ("sage", n), book=prices) for code, day, n in (("L", 20, 40), ("E", 10, 25)))
    purchase, notes = bought(prices, late, early)
    (line,), (level,) = purchase.lines, purchase.levels
    assert (line.need, line.on_hand, line.packs, line.cost) == (65, 30, ((50, 1, D("8.00"), "wholesale"),), D("8.00"))
    assert (line.needed_by, line.jobs) == (days(19), ("E", "L"))
    assert (level.on_hand, level.bought, level.used, level.left, level.value) == (30, 50, 65, 15, D("2.40"))
    assert {share.job: share.total for share in purchase.shares} == {"L": D("8.00"), "E": D("0.00")}
    assert notes == ()


def test_a_shared_pack_is_split_by_use_to_the_cent():
    """10.00 over uses of 1 : 1 : 1 is 3.34 + 3.33 + 3.33; delivery of 0.50 the same way."""
    prices = book(balloon("sage", pack(100, "10.00")), suppliers=(supplier("Wholesale", charge="0.50"),))
    jobs = [a_job(code, days(9), ("sage", 20), book=prices) for code in "ABC"]
    purchase, _ = bought(prices, *jobs)
    assert [(s.goods, s.charges) for s in purchase.shares] == [
        (D("3.34"), D("0.17")), (D("3.33"), D("0.17")), (D("3.33"), D("0.16")),
    ]
    assert purchase.total == D("10.50") == sum(s.total for s in purchase.shares)
    assert (purchase.orders[0].supplier, purchase.orders[0].charge) == ("Wholesale", D("0.50"))


@pytest.mark.parametrize("seed", range(12))
def test_orders_lines_and_shares_always_add_up_to_the_same_money(seed):
    chance = random.Random(seed)
    names = ["north", "south", "east"]
    balloons = tuple(
        balloon(
            f"kind {n}",
            *(pack(chance.choice((10, 25, 50)), f"{chance.randint(200, 1500) / 100:.3f}", chance.choice(names),
                   limit=chance.choice((None, 2))) for _ in range(chance.randint(1, 3))),
            on_hand=chance.choice((0, 7)),
        )
        for n in range(6)
    )
    suppliers = tuple(
        supplier(name, chance.choice(("0", "40")), chance.choice(("0", "6.75")), chance.choice((None, "80")),
                 chance.choice((0, 4))) for name in names
    )
    prices = book(*balloons, suppliers=suppliers)
    jobs = []
    for code in "ABCDE":
        parts = [(f"kind {n}", chance.randint(1, 60)) for n in chance.sample(range(6), 3)]
        jobs.append(a_job(code, days(chance.randint(2, 12)), *parts, book=prices))
    purchase, notes = bought(prices, *jobs)
    goods = sum((order.goods for order in purchase.orders), D(0))
    assert purchase.total == goods + sum(order.charge for order in purchase.orders)
    assert purchase.total == sum(share.total for share in purchase.shares)
    assert goods == sum(line.cost for line in purchase.lines)
    assert purchase.gap == 0
    for level in purchase.levels:
        assert level.left == level.on_hand + level.bought - level.used - level.expired >= 0
    for line in purchase.lines:
        assert sum(c * n for c, n, *_ in line.packs) + line.on_hand + line.short >= line.need
    short = {(s.job, s.item, s.count) for s in purchase.shortages}
    told = {(note.job, note.why.split(" of ")[1].split(" are ")[0], int(note.why.split()[0])) for note in notes}
    assert short == told
    found = purchase.comparison
    assert found is None or purchase.total == found.together <= found.one_by_one


def test_what_comes_too_late_is_told_at_the_date_of_its_job_and_not_ordered():
    """Three days to deliver: there on the 17th; the job of the 17th is prepared on the 16th."""
    prices = book(balloon("sage", pack(50, "8.00")), suppliers=(supplier("wholesale", lead=3),))
    soon, in_time = (a_job(code, days(d), ("sage", 30), book=prices) for code, d in (("S", 3), ("T", 4)))
    purchase, (note,) = bought(prices, soon, in_time)
    assert (note.code, note.level, note.job, note.place) == ("P621", Level.NOTE, "S", soon[0].where("event_date"))
    assert "30 of sage" in note.why and days(2).isoformat() in note.why and days(3).isoformat() in note.why
    (line,) = purchase.lines
    assert (line.short, line.packs, line.needed_by) == (30, ((50, 1, D("8.00"), "wholesale"),), days(3))
    assert purchase.shortages[0].comes == days(3)


def rostered(prices, **changes):
    """The same price book in a shop that counts its hours: prep may then go on any day that latex keeps."""
    return replace(prices, shop=replace(prices.shop, crew=CrewRules(**changes)))


@pytest.mark.parametrize(
    ("crew", "day", "needed"),
    [
        ({}, 9, 8),
        ({"good_days": 3}, 9, 8),  # without hours of a day all prep is on the last one
        ({"good_days": 3, "hours_per_day": D(8)}, 9, 6),
        ({"good_days": 0, "hours_per_day": D(8)}, 9, 9),
        ({"good_days": 3, "hours_per_day": D(8)}, 2, 0),  # never before the run's date
        ({"good_days": 3, "hours_per_day": D(8)}, 0, 0),
    ],
)
def test_things_are_needed_by_the_first_day_that_prep_may_fall_on(crew, day, needed):
    prices = rostered(book(balloon("sage", pack(50, "8.00"))), **crew)
    made = a_job("A", days(day), ("sage", 30), book=prices)
    purchase, _ = bought(prices, made)
    assert purchase.lines[0].needed_by == days(needed)
    worked_on = [each.day for each in days_of([made[1]], prices.shop, RUN)]
    assert all(days(needed) <= each <= days(day) for each in worked_on)


def test_what_comes_after_the_first_day_of_prep_is_late_and_what_spoils_before_the_last_is_no_good():
    """Prep of the job of the 23rd is on the 20th to the 22nd."""
    crew = {"good_days": 3, "hours_per_day": D(8)}
    for lead, late in ((6, False), (7, True)):
        prices = book(balloon("sage", pack(50, "8.00")), suppliers=(supplier("wholesale", lead=lead),))
        prices = rostered(prices, **crew)
        _, notes = bought(prices, a_job("A", days(9), ("sage", 30), book=prices))
        assert [note.code for note in notes] == ["P621"] * late
    for good, fresh in ((8, 0), (7, 50)):
        stock = balloon("sage", pack(50, "8.00"), on_hand=30, good_until=days(good))
        prices = rostered(book(stock), **crew)
        purchase, _ = bought(prices, a_job("A", days(9), ("sage", 30), book=prices))
        assert purchase.levels[0].bought == fresh


def test_the_dearer_supplier_who_is_in_time_gets_only_what_is_needed_so_soon():
    """20 by the 16th can only come from the corner shop; the 60 of the next week are cheaper at the wholesaler's."""
    prices = book(
        balloon("sage", pack(100, "10.00", "wholesale"), pack(20, "4.00", "corner")),
        suppliers=(supplier("wholesale", lead=5),),
    )
    jobs = [a_job("S", days(3), ("sage", 20), book=prices), a_job("T", days(9), ("sage", 60), book=prices)]
    purchase, notes = bought(prices, *jobs)
    assert [(o.supplier, [(line.packs, line.count, line.jobs) for line in o.lines]) for o in purchase.orders] == [
        ("corner", [(1, 20, ("S",))]), ("wholesale", [(1, 100, ("T",))]),
    ]
    assert [order.arrives for order in purchase.orders] == [RUN, days(5)]
    assert notes == ()


def test_the_last_bags_go_to_the_earliest_jobs_and_the_rest_is_told():
    prices = book(balloon("sage", pack(25, "5.00", limit=3)))
    jobs = [a_job(code, days(d), ("sage", 40), book=prices) for code, d in (("A", 12), ("B", 9))]
    purchase, (note,) = bought(prices, *jobs)
    assert (note.code, note.job, note.why.split(" are ")[0]) == ("P623", "A", "5 of sage")
    assert purchase.lines[0].packs == ((25, 3, D("5.00"), "wholesale"),)
    assert purchase.shortages[0].comes is None


def test_stock_past_its_day_serves_only_the_jobs_before():
    prices = book(balloon("sage", pack(50, "8.00"), on_hand=100, good_until=days(10)))
    jobs = [a_job(code, days(d), ("sage", 30), book=prices) for code, d in (("A", 11), ("B", 12))]
    purchase, _ = bought(prices, *jobs)
    assert purchase.lines[0].packs == ((50, 1, D("8.00"), "wholesale"),)
    assert (purchase.levels[0].used, purchase.levels[0].expired, purchase.levels[0].left) == (60, 0, 90)
    gone, _ = bought(book(replace(prices.balloons[0], good_until=days(-1))), jobs[0])
    assert (gone.levels[0].expired, gone.levels[0].left) == (100, 20)


def test_what_would_not_keep_is_left_for_a_later_order():
    prices = book(balloon("sage", pack(50, "8.00"), keeps_days=60))
    jobs = [a_job(code, days(d), ("sage", 30), book=prices) for code, d in (("A", 61), ("B", 62))]
    purchase, (note,) = bought(prices, *jobs)
    assert (note.code, note.job) == ("P627", "B")
    assert (purchase.lines[0].short, purchase.shortages[0].is_early, purchase.levels[0].used) == (30, True, 30)


def test_bought_hardware_is_ordered_from_its_supplier():
    prices = book(balloon("sage", pack(50, "8.00")), hardware=(
        thing("fan", "decoration", hire=False, cost="1.20", owned=2, supplier="Wholesale"),
    ))
    purchase, _ = bought(prices, a_job("A", days(9), ("sage", 10), ("fan", 5), book=prices))
    (order,) = purchase.orders
    assert (order.supplier.casefold(), [(line.item, line.packs, line.cost) for line in order.lines]) == (
        "wholesale", [("fan", 3, D("3.60")), ("sage", 1, D("8.00"))],
    )


def test_buying_together_against_one_job_after_the_other_with_left_overs_kept():
    """60 + 60: together 100 + 25 for 14.00 + 4.50; alone 100 for 14.00 (40 left), then 25 more. With 9.00 for
    delivery each time the second order costs it once more."""
    prices = book(
        balloon("sage", pack(25, "4.50"), pack(100, "14.00")), suppliers=(supplier("wholesale", charge="9.00"),)
    )
    jobs = [a_job(code, days(d), ("sage", 60), book=prices) for code, d in (("A", 9), ("B", 12))]
    found = bought(prices, *jobs)[0].comparison
    assert (found.together, found.together_left) == (D("27.50"), 5)
    # 60 alone: 3 × 25 for 13.50 (15 left), then 45: 2 × 25 for 9.00 (5 left); twice 9.00 for delivery.
    assert (found.one_by_one, found.one_by_one_left) == (D("40.50"), 5 + 0)
    assert bought(book(balloon("sage", pack(25, "4.50"), on_hand=500)), jobs[0])[0].comparison is None


def test_an_order_below_the_minimum_is_made_only_where_there_are_no_more_packs():
    prices = book(balloon("sage", pack(25, "5.00", limit=3)), suppliers=(supplier("wholesale", minimum="20"),))
    (order,) = bought(prices, a_job("A", days(9), ("sage", 10), book=prices))[0].orders
    assert (order.goods, order.minimum) == (D("5.00"), D(20))
    plenty = book(balloon("sage", pack(25, "5.00")), suppliers=(supplier("wholesale", minimum="20"),))
    (order,) = bought(plenty, a_job("A", days(9), ("sage", 10), book=plenty))[0].orders
    assert (order.goods, order.lines[0].packs) == (D("20.00"), 4)
