"""Spares by the place and the heat: more break outdoors and in the sun. Own arithmetic on common-practice shares."""

from __future__ import annotations

from decimal import Decimal

import pytest
from costing_made import balloon, job, piece, plan, prices
from orders_made import pack

from quoting.costing.breakage import with_spares
from quoting.costing.jobs import cost_job
from quoting.domain.prices import BreakagePolicy, Shape
from quoting.domain.quotes import Cautions

D = Decimal


def pulled(own, shop=None, shape=Shape.ROUND, **changes):
    book = prices(shop, balloons=(balloon("Round 11 ivory", (pack(100, "11.00"),), breakage=own, shape=shape),))
    plans = [(piece(), plan([("Round 11 ivory", 200)]))]
    outcome = cost_job(job([plans[0][0]], **changes), plans, book, Cautions())
    assert outcome.value is not None, outcome.problems
    return outcome.value.stock[0]


@pytest.mark.parametrize(
    ("own", "changes", "chance"),
    [
        (None, {}, "0.03"),
        (D("0.02"), {}, "0.02"),
        (D("0.02"), {"is_outdoors": True}, "0.05"),
        (D("0.08"), {"is_outdoors": True}, "0.08"),
        (D("0.02"), {"is_outdoors": True, "celsius": D("27.9")}, "0.05"),
        (D("0.02"), {"is_outdoors": True, "celsius": D(28)}, "0.1"),
        (D("0.02"), {"celsius": D(31)}, "0.1"),
        (D("0.12"), {"celsius": D(31)}, "0.12"),
    ],
)
def test_the_chance_is_the_balloons_own_but_no_less_than_the_place_makes_it(own, changes, chance):
    line = pulled(own, **changes)
    assert line.breakage == D(chance)
    assert line.with_spares == with_spares(200, D(chance), D("0.95"))


def test_a_shop_sets_its_own_chances():
    shop = {"breakage_outdoors": D("0.01"), "breakage_heat": D("0.2")}
    assert pulled(D("0.02"), shop, is_outdoors=True).breakage == D("0.02")
    assert pulled(D("0.02"), shop, celsius=D(30)).breakage == D("0.2")


def test_foils_stay_as_they_are():
    assert pulled(D("0.01"), shape=Shape.FOIL, is_outdoors=True, celsius=D(35)).breakage == D("0.01")


def test_a_flat_share_stays_flat():
    flat = {"breakage_policy": BreakagePolicy.FLAT_SHARE, "flat_share": D("0.05")}
    assert pulled(D("0.02"), flat, is_outdoors=True, celsius=D(35)).with_spares == 210
