"""Hire stock by the day, colour lots, cylinders. Own arithmetic on invented figures."""

from __future__ import annotations

import itertools
import random
from dataclasses import replace
from decimal import Decimal

import pytest
from orders_made import a_job, balloon, book, bought, days, pack, supplier, thing

from quoting.costing.cylinders import cheapest_cylinders
from quoting.domain.problems import Level

D = Decimal


def hiring(code, first, last, count, prices, *, item="plate"):
    return a_job(code, days(first), hire=[(item, count)], strike=None if last is None else days(last), book=prices)


def test_a_plate_promised_twice_is_told_to_both_jobs_with_dates_and_counts():
    prices = book(hardware=(thing("plate", owned=5),))
    jobs = [hiring("A", 10, 12, 3, prices), hiring("B", 12, 14, 3, prices), hiring("C", 15, None, 5, prices)]
    purchase, notes = bought(prices, *jobs)
    (clash,) = purchase.clashes
    assert (clash.item, clash.first, clash.last, clash.owned, clash.wanted, clash.short) == (
        "plate", days(12), days(12), 5, 6, 1,
    )
    assert clash.jobs == (("A", 3), ("B", 3))
    assert [(n.code, n.level, n.job) for n in notes] == [("P622", Level.NOTE, "A"), ("P622", Level.NOTE, "B")]
    assert notes[0].place == jobs[0][0].where("event_date")
    assert f"on {days(12).isoformat()}: 6 wanted, 5 owned, 1 short, for the jobs A (3), B (3)" in notes[0].why


def test_back_on_one_day_and_out_on_the_next_is_no_clash_and_unknown_numbers_are_not_checked():
    prices = book(hardware=(thing("plate", owned=3), thing("net")))
    jobs = [hiring("A", 10, 12, 3, prices), hiring("B", 13, None, 3, prices)]
    jobs += [hiring(code, 10, None, 40, prices, item="net") for code in "CD"]
    assert bought(prices, *jobs)[0].clashes == ()


def test_one_job_can_want_more_than_there_is_all_by_itself():
    prices = book(hardware=(thing("plate", owned=3),))
    (clash,) = bought(prices, hiring("A", 10, 11, 4, prices))[0].clashes
    assert (clash.first, clash.last, clash.jobs) == (days(10), days(11), (("A", 4),))


@pytest.mark.parametrize("seed", range(8))
def test_clashes_are_those_found_by_counting_every_day(seed):
    chance = random.Random(seed)
    prices = book(hardware=(thing("plate", owned=4),))
    spans = {f"J{n}": (chance.randint(1, 20), chance.randint(0, 6), chance.randint(1, 3)) for n in range(9)}
    jobs = [hiring(code, start, start + long, count, prices) for code, (start, long, count) in spans.items()]
    by_day = {}
    for clash in bought(prices, *jobs)[0].clashes:
        for offset in range((clash.last - clash.first).days + 1):
            by_day[(clash.first - days(0)).days + offset] = (clash.wanted, sorted(clash.jobs))
    counted = {}
    for day in range(40):
        out = sorted((code, count) for code, (start, long, count) in spans.items() if start <= day <= start + long)
        if sum(count for _, count in out) > 4:
            counted[day] = (sum(count for _, count in out), out)
    assert by_day == counted


def test_a_piece_from_two_colour_lots_is_told_at_its_cell():
    """20 of lot L1 on hand: the first job has 15 of them, the second 5 and 10 new ones, the third new ones alone."""
    prices = book(balloon("Round sage", pack(50, "8.00", lot="L2"), on_hand=20, lot_on_hand="L1"))
    jobs = [a_job(code, days(10 + n), ("Round sage", 15), book=prices) for n, code in enumerate("ABC")]
    _, (note,) = bought(prices, *jobs)
    assert (note.code, note.job, note.place) == ("P624", "B", jobs[1][0].pieces[0].where("colours"))
    assert "5 of lot L1 and 10 of lot L2" in note.why


def test_lots_that_nobody_named_are_not_told_of_and_one_lot_is_no_mix():
    for change in ({}, {"lot_on_hand": "L2"}):
        packs = (pack(50, "8.00", lot="L2" if change else ""),)
        prices = book(balloon("Round sage", *packs, on_hand=20, **change))
        assert bought(prices, a_job("A", days(9), ("Round sage", 40), book=prices))[1] == ()


CYLINDERS = (
    thing("large", "cylinder", cost="118", damage_hold=D(150), contents_l=D(9000), supplier="gases"),
    thing("small", "cylinder", cost="46", damage_hold=D(60), contents_l=D(1800), supplier="gases"),
    thing("thrown away", "cylinder", hire=False, cost="32", contents_l=D(240)),
)


def test_gas_is_pooled_with_what_is_lost_and_covered_at_the_least_cost():
    """2 × 4,000 litres and 8 % are 8,640: one large for 118 beats five small for 230; 14 for delivery, shared 1 : 1."""
    prices = book(hardware=CYLINDERS, suppliers=(supplier("gases", charge="14"),))
    jobs = [a_job(code, days(9), gas=4000.0, book=prices) for code in "AB"]
    purchase, notes = bought(prices, *jobs)
    gas = purchase.gas
    assert (gas.litres, gas.needed, gas.on_hand, gas.short, gas.needed_by) == (8000.0, 8640, 0, 0, days(8))
    (line,) = gas.cylinders
    assert (line.item, line.count, line.cost, line.deposit) == ("large", 1, D("118.00"), D("150.00"))
    assert line.is_hire
    (order,) = purchase.orders
    assert (order.goods, order.charge, order.lines[0].measure) == (D("118.00"), D("14.00"), "litres")
    assert [share.total for share in purchase.shares] == [D("66.00"), D("66.00")]
    assert notes == ()


def test_full_cylinders_of_the_shop_come_first():
    prices = book(hardware=(replace(CYLINDERS[1], owned=3), CYLINDERS[0], CYLINDERS[2]))
    gas = bought(prices, a_job("A", days(9), gas=5100.0, book=prices))[0].gas  # 5,508 with losses, 5,400 there
    assert (gas.on_hand, [(c.item, c.count) for c in gas.cylinders]) == (5400, [("thrown away", 1)])


def test_gas_without_a_cylinder_is_told_to_its_job():
    prices = book()
    purchase, (note,) = bought(prices, a_job("A", days(9), gas=100.0, book=prices))
    assert (note.code, note.job, purchase.gas.short, purchase.orders) == ("P628", "A", 108, ())
    assert bought(prices, a_job("A", days(9), book=prices))[0].gas is None


@pytest.mark.parametrize("litres", [1, 239, 240, 241, 1800, 3700, 8999, 9001, 20000, 31000])
def test_no_way_of_taking_cylinders_is_cheaper_and_the_deposit_only_breaks_ties(litres):
    kinds = (*CYLINDERS, thing("twin", "cylinder", cost="46", damage_hold=D(40), contents_l=D(1800)))
    ways = itertools.product(range(5), range(19), range(9), range(19))
    best = min(
        (
            (sum(k.cost * n for k, n in zip(kinds, way, strict=True)),
             sum(k.damage_hold * n for k, n in zip(kinds, way, strict=True)))
            for way in ways
            if sum(int(k.contents_l) * n for k, n in zip(kinds, way, strict=True)) >= litres
        ),
    )  # fmt: skip
    found = cheapest_cylinders(litres, kinds)
    assert (sum(k.cost * n for k, n in found), sum(k.damage_hold * n for k, n in found)) == best


def test_very_much_gas_is_counted_in_steps_that_never_fall_short():
    found = cheapest_cylinders(5_000_001, CYLINDERS)
    assert sum(int(kind.contents_l) * number for kind, number in found) >= 5_000_001
    assert found[0][0].item == "large" and found[0][1] in (556, 557)


def priced(item_days, *, per_day, charge="6.00"):
    first, last = item_days
    charge = None if charge is None else D(charge)
    prices = book(hardware=(thing("plate", cost="2.50", charge=charge, is_per_day=per_day),))
    return hiring("A", first, last, 3, prices)[1]


def test_hire_by_the_day_counts_from_the_install_to_the_strike():
    """3 plates at 6.00 for 3 days are 54.00, and cost 3 × 2.50 × 3; by the event 18.00, and for one day the same."""
    sheet = priced((10, 12), per_day=True)
    assert (sheet.hire[0].charge, sheet.hire[0].cost, sheet.quote.lines[0].amount) == (D(54), D("22.50"), D(54))
    assert priced((10, 12), per_day=False).quote.lines[0].amount == D(18)
    assert priced((10, None), per_day=True).quote.lines[0].amount == D(18)


def test_hire_by_the_day_without_a_charge_takes_the_markup_on_its_cost():
    """3 × 2.50 × 2 days with 150 % markup: 37.50."""
    assert priced((10, 11), per_day=True, charge=None).quote.lines[0].amount == D("37.50")
