"""What holds of every job."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

import pytest
from costing_made import (
    BALLOONS,
    G,
    H,
    L,
    adjustment,
    arch,
    column,
    hardware,
    piece,
    plan,
    prices,
    tax,
    usual,
)
from hypothesis import given, settings
from hypothesis import strategies as st
from jobs_made import sheet

from quoting.domain.money import Rounding
from quoting.domain.prices import BreakagePolicy, ChargeBy, TaxRounding
from quoting.domain.quotes import LineKind

D = Decimal


def test_the_order_of_pieces_changes_no_amount():
    book = prices(taxes=(tax("ST", "6.25", (G, H)), tax("LT", "9.975", (H, L), on_top_of=("ST",))))
    changes = [
        adjustment(percent="0.0777"),
        adjustment("Arch", percent="0.1", piece="B"),
        adjustment("Rush", amount="9.99", is_discount=False),
    ]
    made, turned = sheet(usual(), changes, book), sheet(usual()[::-1], changes, book)
    assert made.quote.totals == turned.quote.totals
    assert made.quote.terms == turned.quote.terms
    assert (made.cost, made.margin, made.stock, made.hire, made.hours) == (
        turned.cost,
        turned.margin,
        turned.stock,
        turned.hire,
        turned.hours,
    )
    assert {p.label: p.amounts for p in made.pieces} == {p.label: p.amounts for p in turned.pieces}


def test_cost_is_the_sum_of_what_is_printed():
    made = sheet(usual())
    assert made.cost == sum(p.cost for p in made.pieces) + D("15.00")
    for priced, line in zip(made.pieces, [x for x in made.quote.lines if x.kind is LineKind.PIECE], strict=True):
        assert priced.amount == sum(priced.amounts.values()) == line.amount == line.unit_price * line.quantity
    whole = sum((Fraction(p.hours.workshop) for p in made.pieces), Fraction(0))
    assert abs(whole - Fraction(made.hours.workshop)) < Fraction(1, 10**20)


@pytest.mark.parametrize("charge_by", list(ChargeBy))
def test_more_balloons_never_cost_less(charge_by):
    """Pieces of 1 to 120 balloons: the cost and price of one such piece never fall as it grows."""
    book = prices(balloons=tuple(replace(b, charge_by=charge_by) for b in BALLOONS))
    made = [
        sheet([(piece(), plan([("Round 11 ivory", n), ("Round 5 coral", n // 2)]))], book=book)
        for n in range(1, 120, 3)
    ]
    costs, amounts = [m.cost for m in made], [m.quote.totals.total for m in made]
    assert costs == sorted(costs)
    assert amounts == sorted(amounts)


def test_a_part_counted_nought_is_not_stock():
    made = sheet([(piece(), plan([("Round 11 ivory", 0), ("Round 5 coral", 3)]))])
    assert [s.item for s in made.stock] == ["Round 5 coral"]


def test_hardware_in_parts_of_no_charge_has_the_markup():
    book = prices(hardware=(hardware("Ribbon", "other", cost=D("0.333")),))
    made = sheet([(piece(), plan([("Ribbon", 3)]))], book=book)
    assert (made.quote.lines[0].amount, made.pieces[0].cost) == (D("2.50"), D("1.00"))


PLANS = {
    "column": column(),
    "arch": arch(),
    "hired": plan(hire=[("Plinth", 1)], tasks=[("load piece", 1)]),
    "service": plan(tasks=[("install piece", 1)], is_labour_only=True),
    "star": plan([("Foil star silver", 1)], [("inflate foil", 1)]),
}


@st.composite
def planned(draw):
    kinds = draw(st.lists(st.sampled_from(sorted(PLANS)), min_size=1, max_size=5))
    made = []
    for label, kind in zip("ABCDE", kinds, strict=False):
        fixed = draw(st.none() | st.integers(0, 50_000).map(lambda n: D(n) / 100))
        made.append((piece(label, draw(st.integers(1, 9)), fixed), PLANS[kind]))
    return made


books = st.builds(
    lambda shop, listed: prices(shop, taxes=listed),
    st.fixed_dictionaries(
        {
            "prices_include_tax": st.booleans(),
            "tax_rounding": st.sampled_from(list(TaxRounding)),
            "rounding": st.sampled_from(list(Rounding)),
            "cash_rounding": st.sampled_from([D(0), D("0.05")]),
            "minimum_order": st.sampled_from([D(0), D(250)]),
            "breakage_policy": st.sampled_from(list(BreakagePolicy)),
        }
    ),
    st.sampled_from([(tax("V", 20),), (tax("ST", "6.25", (G, H)), tax("LT", "9.975", (H, L), on_top_of=("ST",)))]),
)
CHANGES = [
    adjustment("A off", percent="0.333", piece="A"),
    adjustment("B up", percent="0.1", piece="B", is_discount=False),
    adjustment("Regular", percent="0.075"),
    adjustment("Rush", percent="0.05", is_discount=False),
]


@given(planned(), books, st.lists(st.sampled_from(CHANGES), max_size=4, unique=True), st.booleans(), st.randoms())
@settings(max_examples=60, deadline=None, derandomize=True)
def test_whatever_the_job_its_printed_amounts_add_up(plans, book, changes, is_exempt, random):
    facts = {"exempt_reason": "charity" if is_exempt else ""}
    made = sheet(plans, changes, book, **facts)
    quote, totals = made.quote, made.quote.totals
    assert all(line.amount == line.unit_price * line.quantity for line in quote.lines)
    assert totals.subtotal == sum(line.amount for line in quote.lines)
    assert totals.discount == sum(a.amount for a in quote.adjustments if a.is_discount)
    assert totals.charges == sum(a.amount for a in quote.adjustments if not a.is_discount)
    assert totals.tax == sum(line.amount for line in totals.taxes)
    added = D(0) if totals.prices_include_tax else totals.tax
    assert totals.total == totals.subtotal - totals.discount + totals.charges + added
    assert quote.terms.deposit + quote.terms.balance == totals.payable == totals.total + totals.cash_rounding
    assert not (is_exempt and totals.taxes)
    assert all(p.amount == sum(p.amounts.values()) and min(p.amounts.values()) >= 0 for p in made.pieces)
    shuffled = random.sample(plans, len(plans))
    other = sheet(shuffled, changes, book, **facts)
    assert (other.quote.totals, other.quote.terms, other.cost) == (totals, quote.terms, made.cost)


@given(st.integers(1, 40), st.sampled_from(sorted(PLANS)), st.sampled_from(list(BreakagePolicy)))
@settings(max_examples=30, deadline=None, derandomize=True)
def test_one_piece_more_never_costs_the_shop_less(quantity, kind, policy):
    book = prices({"breakage_policy": policy})
    costs = [sheet([(piece("A", n), PLANS[kind])], book=book).cost for n in (quantity, quantity + 1)]
    assert costs[0] < costs[1]
