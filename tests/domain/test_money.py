"""Rounding and sharing out of money: exact, by the rule named, adding up."""

from __future__ import annotations

from decimal import ROUND_DOWN, ROUND_HALF_DOWN, ROUND_HALF_UP, Context, Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.domain.money import Currency, Rounding, rounded, shared_out

CENT = Decimal("0.01")
AMOUNTS = st.decimals(min_value=-(10**7), max_value=10**7, places=5)
DECIMAL_RULES = {
    Rounding.HALF_UP: ROUND_HALF_UP, Rounding.HALF_DOWN: ROUND_HALF_DOWN, Rounding.DOWN: ROUND_DOWN,
}


@given(AMOUNTS, st.sampled_from(Rounding), st.sampled_from([CENT, Decimal(1), Decimal("0.001")]))
def test_rounding_agrees_with_the_decimal_module(amount, rule, unit):
    wanted = amount.quantize(unit, rounding=DECIMAL_RULES[rule], context=Context(prec=40))
    assert rounded(amount, unit, rule) == wanted


@pytest.mark.parametrize(
    ("amount", "unit", "rule", "wanted"),
    [
        # Canada, Budget 2012: endings 1, 2 go down, 3, 4 up, 6, 7 down, 8, 9 up (read in its excerpt).
        ("4.92", "0.05", Rounding.HALF_UP, "4.90"),
        ("4.93", "0.05", Rounding.HALF_UP, "4.95"),
        ("4.96", "0.05", Rounding.HALF_UP, "4.95"),
        ("4.98", "0.05", Rounding.HALF_UP, "5.00"),
        ("0.015", "0.01", Rounding.HALF_DOWN, "0.01"),
        ("-0.005", "0.01", Rounding.HALF_UP, "-0.01"),
        ("-0.005", "0.01", Rounding.HALF_DOWN, "0.00"),
    ],
)
def test_rounding_to_other_units_and_ties(amount, unit, rule, wanted):
    found = rounded(Decimal(amount), Decimal(unit), rule)
    assert (found, str(found)) == (Decimal(wanted), wanted)


def test_a_third_is_rounded_on_its_exact_value():
    assert rounded(Fraction(1, 3), CENT, Rounding.HALF_UP) == Decimal("0.33")
    assert rounded(Fraction(5, 1000) - Fraction(1, 10**30), CENT, Rounding.HALF_UP) == Decimal("0.00")


@given(
    st.integers(-(10**9), 10**9).map(lambda cents: Decimal(cents) * CENT),
    st.lists(st.integers(0, 1000), min_size=1, max_size=12),
)
def test_parts_add_up_and_stay_within_a_cent_of_their_share(amount, weights):
    parts = shared_out(amount, weights, CENT)
    assert sum(parts) == amount
    total = sum(weights) or len(weights)
    for part, weight in zip(parts, weights if sum(weights) else [1] * len(weights), strict=True):
        assert abs(Fraction(part) - Fraction(amount) * weight / total) < Fraction(1, 100)
        assert str(part) != "-0.00"


def test_the_published_bundle_prices():
    # HMRC manual VATVAL03800 (read in its excerpt): shelf prices 6, 1.50, 1.50, 6 sold together for 10.
    prices = [Decimal(6), Decimal("1.5"), Decimal("1.5"), Decimal(6)]
    assert shared_out(Decimal("10.00"), prices, CENT) == (4, 1, 1, 4)


def test_what_cannot_be_shared_out_is_refused():
    with pytest.raises(ValueError, match="over nothing"):
        shared_out(Decimal(1), [], CENT)
    with pytest.raises(ValueError, match="no whole multiple"):
        shared_out(Decimal("0.005"), [1], CENT)
    with pytest.raises(ValueError, match="above 0"):
        rounded(Decimal(1), Decimal(0), Rounding.DOWN)


def test_currencies_print_their_own_decimals():
    # ISO 4217 minor units, from memory of the published list.
    assert [Currency(code=code).unit for code in ("USD", "JPY", "KWD")] == [CENT, Decimal(1), Decimal("0.001")]
