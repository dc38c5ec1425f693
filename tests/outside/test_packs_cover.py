"""The cheapest packs against solutions of an integer program, and against every way there is."""

from __future__ import annotations

import itertools
from decimal import Decimal

import numpy
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import Bounds, LinearConstraint, milp

from quoting.costing.packs import cheapest_packs, cost_of
from quoting.domain.places import Place
from quoting.domain.prices import Pack

D = Decimal

# packs (count@price), to buy, most of each, cost, bought (count: how many); optimal cost by OR-tools CP-SAT,
# scipy.optimize.milp and brute force, which agreed. Of several optimal ways: least left over, then fewest packs.
KNAPSACKS = {
    "K05": ("25@4.50 50@8.00 100@14.00", 125, None, "18.50", {25: 1, 100: 1}),
    "K09": ("12@3.00 72@14.40 144@25.00", 123, None, "25.00", {144: 1}),
    "K11": ("12@2.10 25@3.90 50@6.90 72@9.20 100@11.50", 0, None, "0", {}),
    "K13": ("50@6.90 100@11.50", 260, (10, 2), "36.80", {50: 2, 100: 2}),
    "K15": ("25@3.99 100@12.50 250@27.00", 226, None, "27.00", {250: 1}),
    "K16": ("12@2.00 25@4.00 50@8.50", 60, None, "10.00", {12: 5}),
}


def packs_of(text):
    return tuple(
        Pack(
            count=int(count), price=D(price), supplier="", price_from=None, price_until=None,
            place=Place(workbook="b", sheet="Balloons", row=row),
        )
        for row, (count, price) in enumerate((word.split("@") for word in text.split()), 2)
    )


@pytest.mark.parametrize("name", KNAPSACKS)
def test_a_knapsack_solved_beforehand(name):
    text, need, limits, cost, plan = KNAPSACKS[name]
    bought = cheapest_packs(need, packs_of(text), limits)
    assert bought is not None
    assert cost_of(bought) == D(cost)
    assert {pack.count: number for pack, number in bought} == plan


@given(
    need=st.integers(1, 700),
    packs=st.lists(st.tuples(st.integers(1, 144), st.integers(0, 4000)), min_size=1, max_size=5),
    limited=st.booleans(),
)
@settings(max_examples=60, deadline=None, derandomize=True)
def test_no_integer_program_finds_a_cheaper_cover(need, packs, limited):
    made = packs_of(" ".join(f"{count}@{cents / 100:.2f}" for count, cents in packs))
    limits = tuple(3 + number for number in range(len(made))) if limited else None
    bought = cheapest_packs(need, made, limits)
    counts = numpy.array([float(pack.count) for pack in made])
    most = limits or [numpy.inf] * len(made)
    solved = milp(
        numpy.array([float(pack.price) for pack in made]),
        integrality=numpy.ones(len(made)),
        bounds=Bounds(0, numpy.array([float(m) for m in most])),
        constraints=LinearConstraint(counts[None, :], lb=need),
        options={"mip_rel_gap": 0},
    )
    if bought is None:
        assert limits is not None and not solved.success
        return
    assert sum(pack.count * number for pack, number in bought) >= need
    assert all(number <= most[made.index(pack)] for pack, number in bought)
    assert float(cost_of(bought)) == pytest.approx(solved.fun, abs=1e-6)


@given(
    need=st.integers(1, 60), packs=st.lists(st.tuples(st.integers(5, 30), st.integers(1, 9)), min_size=1, max_size=3)
)
@settings(max_examples=80, deadline=None, derandomize=True)
def test_cost_then_left_over_then_number_of_packs_against_every_way(need, packs):
    made = packs_of(" ".join(f"{count}@{price}" for count, price in packs))
    ways = itertools.product(*(range(need // pack.count + 2) for pack in made))
    rated = (
        (
            sum(p.price * n for p, n in zip(made, way, strict=True)),
            sum(p.count * n for p, n in zip(made, way, strict=True)),
            sum(way),
        )
        for way in ways
    )
    best = min(rate for rate in rated if rate[1] >= need)
    bought = cheapest_packs(need, made)
    assert bought is not None
    assert (cost_of(bought), sum(p.count * n for p, n in bought), sum(n for _, n in bought)) == best


def test_what_cant_be_covered_and_what_is_no_pack():
    assert cheapest_packs(5, ()) is None
    assert cheapest_packs(301, packs_of("50@1 100@2"), (2, 2)) is None
    assert cheapest_packs(-3, packs_of("50@1")) == ()
    with pytest.raises(ValueError, match="at least one"):
        cheapest_packs(5, packs_of("0@1"))


def test_packs_that_cost_nothing_are_not_heaped_up():
    bought = cheapest_packs(60, packs_of("25@0 50@0"))
    assert bought is not None
    assert [(pack.count, number) for pack, number in bought] == [(50, 1), (25, 1)]
