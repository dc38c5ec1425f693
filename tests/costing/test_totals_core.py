"""Properties of the tax-and-totals core: every printed amount adds up, in every mode."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quoting.costing.tax_amounts import Tax, effective_rates
from quoting.costing.totals import OrderAmount, TaxableAmount, TotalsRules, line_net, spread, work_out_totals
from quoting.domain.money import Rounding, rounded
from quoting.domain.prices import TaxRounding

D = Decimal

CENT = D("0.01")
GROUPS = ("goods", "hire", "labour", "delivery")
cents = st.integers(0, 500_000).map(lambda n: D(n) / 100)
amounts = st.lists(
    st.builds(TaxableAmount, amount=cents, group=st.sampled_from(GROUPS), line=st.sampled_from(["", "A", "B", "C"])),
    min_size=1,
    max_size=8,
)
rates = st.integers(0, 30_000).map(lambda n: D(n) / 100_000)


@st.composite
def taxes(draw):
    made = []
    for number in range(draw(st.integers(0, 3))):
        below = draw(st.sets(st.sampled_from([t.code for t in made]))) if made else set()
        groups = draw(st.sets(st.sampled_from(GROUPS), min_size=1))
        made.append(Tax(code=f"T{number}", rate=draw(rates), groups=tuple(groups), on_top_of=tuple(sorted(below))))
    return made


rules = st.builds(
    TotalsRules,
    prices_include_tax=st.booleans(),
    tax_rounding=st.sampled_from(list(TaxRounding)),
    rounding=st.sampled_from(list(Rounding)),
    cash_unit=st.sampled_from([D(0), D("0.05"), D("0.1"), D(1)]),
    group_order=st.just(GROUPS),
)


@st.composite
def orders(draw, most):
    parts = draw(st.lists(st.integers(0, 30), max_size=3))
    made = [OrderAmount(amount=rounded(most * part / 100, CENT, Rounding.DOWN), is_discount=True) for part in parts]
    charge = draw(st.sampled_from([None, D("0.01"), D("7.77"), D("333.33")]))
    return made if charge is None else [*made, OrderAmount(amount=charge, is_discount=False)]


@given(st.data())
@settings(max_examples=120, deadline=None, derandomize=True)
def test_printed_amounts_add_up_in_every_mode(data):
    lines, listed, rule = data.draw(amounts), data.draw(taxes()), data.draw(rules)
    order = data.draw(orders(sum(a.amount for a in lines)))
    totals = work_out_totals(lines, order, listed, rule)
    assert totals.subtotal == sum(a.amount for a in lines)
    assert totals.discount == sum(o.amount for o in order if o.is_discount)
    assert totals.tax == sum(line.amount for line in totals.taxes)
    added = D(0) if rule.prices_include_tax else totals.tax
    assert totals.total == totals.subtotal - totals.discount + totals.charges + added
    assert totals.payable == totals.total + totals.cash_rounding
    if rule.cash_unit:
        assert totals.payable % rule.cash_unit == 0
        assert abs(totals.cash_rounding) * 2 <= rule.cash_unit
    for amount in (
        totals.subtotal,
        totals.discount,
        totals.charges,
        totals.tax,
        totals.total,
        totals.payable,
        *(line.amount for line in totals.taxes),
        *(line.taxable for line in totals.taxes),
    ):
        assert amount.as_tuple().exponent == -2
        assert not (amount == 0 and amount.is_signed())


@given(st.data())
@settings(max_examples=120, deadline=None, derandomize=True)
def test_the_order_of_lines_changes_no_amount(data):
    lines, listed, rule = data.draw(amounts), data.draw(taxes()), data.draw(rules)
    order = data.draw(orders(sum(a.amount for a in lines)))
    shuffled = data.draw(st.permutations(lines))
    assert work_out_totals(lines, order, listed, rule) == work_out_totals(shuffled, order, listed, rule)


@given(amounts, taxes(), st.sampled_from(list(TaxRounding)))
@settings(max_examples=120, deadline=None, derandomize=True)
def test_rounded_tax_stays_within_half_a_cent_per_rounding(lines, listed, where):
    """Against exact fractions: a rounding moves a tax by half a cent at most, those of the taxes below it by less."""
    totals = work_out_totals(lines, (), listed, TotalsRules(tax_rounding=where))
    exact = dict.fromkeys((tax.code for tax in listed), Fraction(0))
    for amount in lines:
        borne = [tax for tax in listed if amount.group in tax.groups]
        for tax, share in zip(borne, effective_rates(borne), strict=True):
            exact[tax.code] += Fraction(amount.amount) * share
    for line in totals.taxes:
        roundings = 1 if where is TaxRounding.PER_TAX else len(lines)
        assert abs(Fraction(line.amount) - exact[line.code]) <= Fraction(1, 100) * roundings


@given(st.lists(cents, min_size=1, max_size=6), rates)
@settings(max_examples=120, deadline=None, derandomize=True)
def test_tax_found_in_prices_comes_back_when_added_again(lines, rate):
    """The net of an inclusive total and its tax are the gross again; net × rate is within a cent of the tax."""
    made = [TaxableAmount(amount=amount, group="goods") for amount in lines]
    (line,) = work_out_totals(
        made, (), [Tax(code="VAT", rate=rate, groups=("goods",))], TotalsRules(prices_include_tax=True)
    ).taxes
    assert line.taxable + line.amount == sum(lines)
    assert abs(line.taxable * rate - line.amount) <= CENT


@given(cents, st.lists(cents, min_size=1, max_size=5))
@settings(max_examples=120, deadline=None, derandomize=True)
def test_a_spread_amount_is_all_spread_each_part_within_a_cent(amount, parts):
    by_group = {str(number): part for number, part in enumerate(parts)}
    split = spread(amount, by_group, CENT)
    whole = sum(parts)
    assert sum(split.values()) == amount
    for group, part in split.items():
        share = Fraction(by_group[group]) / Fraction(whole) if whole else Fraction(1, len(parts))
        assert abs(Fraction(part) - Fraction(amount) * share) < Fraction(CENT)


def test_of_equal_remainders_the_earlier_group_gains():
    order = [OrderAmount(amount=D("0.01"), is_discount=True)]
    lines = [TaxableAmount(amount=D("5.00"), group="b"), TaxableAmount(amount=D("5.00"), group="a")]
    listed = [Tax(code=code, rate=D(0), groups=(code,)) for code in ("a", "b")]
    found = {line.code: line.taxable for line in work_out_totals(lines, order, listed).taxes}
    assert found == {"a": D("5.00"), "b": D("4.99")}
    fixed = work_out_totals(lines, order, listed, TotalsRules(group_order=("a", "b")))
    assert {line.code: line.taxable for line in fixed.taxes} == {"a": D("4.99"), "b": D("5.00")}


def test_a_tax_on_top_of_one_that_shares_only_some_groups():
    """Own arithmetic: B is on 100 of goods and the 10 of A on goods alone, not on the 5 of A on hire."""
    a = Tax(code="A", rate=D("0.1"), groups=("goods", "hire"))
    b = Tax(code="B", rate=D("0.2"), groups=("goods",), on_top_of=("A",))
    lines = [TaxableAmount(amount=D("100.00"), group="goods"), TaxableAmount(amount=D("50.00"), group="hire")]
    totals = work_out_totals(lines, (), [a, b])
    assert [(line.taxable, line.amount) for line in totals.taxes] == [
        (D("150.00"), D("15.00")),
        (D("110.00"), D("22.00")),
    ]
    inclusive = work_out_totals(
        [TaxableAmount(amount=D("132.00"), group="goods"), TaxableAmount(amount=D("55.00"), group="hire")],
        (),
        [a, b],
        TotalsRules(prices_include_tax=True),
    )
    assert [(line.taxable, line.amount) for line in inclusive.taxes] == [
        (D("150.00"), D("15.00")),
        (D("110.00"), D("22.00")),
    ]


def test_a_tax_without_an_amount_in_its_groups_is_not_listed_but_a_zero_rate_is():
    lines = [TaxableAmount(amount=D("10.00"), group="goods")]
    listed = [Tax(code="zero", rate=D(0), groups=("goods",)), Tax(code="hire", rate=D("0.2"), groups=("hire",))]
    totals = work_out_totals(lines, (), listed)
    assert [(line.code, line.name, line.taxable, line.amount) for line in totals.taxes] == [
        ("zero", "zero", D("10.00"), D("0.00"))
    ]


@pytest.mark.parametrize(
    "listed",
    [
        [Tax(code="B", rate=D("0.1"), groups=("g",), on_top_of=("A",)), Tax(code="A", rate=D("0.1"), groups=("g",))],
        [Tax(code="A", rate=D("0.1"), groups=("g",), on_top_of=("A",))],
        [Tax(code="A", rate=D("0.1"), groups=("g",)), Tax(code="A", rate=D("0.2"), groups=("g",))],
    ],
)
@pytest.mark.parametrize("including", [False, True])
def test_taxes_in_a_circle_or_out_of_order_or_twice_are_refused(listed, including):
    with pytest.raises(ValueError, match=r"must come after|two taxes"):
        work_out_totals(
            [TaxableAmount(amount=D("1.00"), group="g")], (), listed, TotalsRules(prices_include_tax=including)
        )


def test_amounts_that_are_not_printed_amounts_are_refused():
    with pytest.raises(ValueError, match="whole multiple"):
        work_out_totals([TaxableAmount(amount=D("1.005"), group="g")])
    with pytest.raises(ValueError, match="over nothing"):
        work_out_totals([], [OrderAmount(amount=D("1.00"), is_discount=True)])
    assert work_out_totals([]).total == 0


def test_units_without_decimals_and_with_three():
    vat = [Tax(code="VAT", rate=D("0.1"), groups=("g",))]
    yen = work_out_totals([TaxableAmount(amount=D(1005), group="g")], (), vat, TotalsRules(unit=D(1)))
    assert (str(yen.tax), str(yen.total)) == ("101", "1106")
    dinar = work_out_totals([TaxableAmount(amount=D("1.005"), group="g")], (), vat, TotalsRules(unit=D("0.001")))
    assert (str(dinar.tax), str(dinar.total)) == ("0.101", "1.106")


def test_line_net_of_a_price_per_hundred():
    assert line_net(D("6.44"), D(30), base_quantity=D(100)) == D("1.93")
    assert line_net(D("0.333"), D(3), allowance=D("0.10"), charge=D("0.25"), unit=D("0.1")) == D("1.2")
