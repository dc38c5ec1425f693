"""Spares for a service level against scipy.stats.binom, computed here and in figures made with it beforehand."""

from __future__ import annotations

import math
from decimal import Decimal
from fractions import Fraction

import numpy
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import binom

from quoting.costing.breakage import _spares_by_floats, _spares_exactly, with_flat_share, with_spares

D = Decimal

# need, chance, service, least number; computed with scipy.stats.binom.
SERVICE_LEVEL = [
    (96, "0.03", "0.99", 104),
    (96, "0.03", "0.999", 106),
    (50, "0.02", "0.95", 53),
    (50, "0.05", "0.99", 57),
    (200, "0.03", "0.95", 211),
    (24, "0.03", "0.99", 27),
    (72, "0.03", "0.95", 77),
    (300, "0.03", "0.99", 317),
    (500, "0.05", "0.99", 539),
]
# need of each colour, colours, chance, service for all of them, least number of each; computed with scipy.stats.binom.
SEVERAL_COLOURS = [(24, 4, "0.03", "0.95", 27), (20, 5, "0.03", "0.99", 24), (48, 2, "0.03", "0.99", 53)]


@pytest.mark.parametrize(("need", "chance", "service", "least"), SERVICE_LEVEL)
def test_one_colour(need, chance, service, least):
    assert with_spares(need, D(chance), D(service)) == least


@pytest.mark.parametrize(("need", "colours", "chance", "service", "least"), SEVERAL_COLOURS)
def test_several_colours_that_dont_stand_in_for_each_other(need, colours, chance, service, least):
    assert with_spares(need, D(chance), D(service), colours) == least


NEEDS = [*range(1, 41), *range(45, 200, 11), 250, 333, 500, 777, 1000, 1500, 2500, 4000, 9999]
CHANCES = ("0.001", "0.0099", "0.02", "0.03", "0.05", "0.1", "0.3")
SERVICES = ("0.5", "0.9", "0.95", "0.99", "0.9999")


def test_a_grid_of_more_than_two_thousand_against_scipy():
    """The least N by scipy's own cumulative probabilities; within 1e-10 of the level either side will do."""
    checked = 0
    for need in NEEDS:
        for chance in CHANCES:
            most = need + 60 + int(4 * need * float(chance))
            numbers = numpy.arange(need, most)
            enough = binom.sf(need - 1, numbers, 1 - float(chance))
            for service in SERVICES:
                ours = with_spares(need, D(chance), D(service))
                assert enough[ours - need] >= float(service) - 1e-10, (need, chance, service)
                assert ours == need or enough[ours - need - 1] < float(service) + 1e-10, (need, chance, service)
                checked += 1
    assert checked > 2000


@pytest.mark.parametrize(
    ("need", "chance", "service", "least"),
    [
        (1, "0.05", "0.95", 1),
        (1, "0.05", "0.9500001", 2),
        (1, "0.5", "0.75", 2),
        (1, "0.5", "0.875", 3),
        (2, "0.5", "0.25", 2),
        (2, "0.1", "0.81", 2),
        (2, "0.1", "0.972", 3),
        (1, "0.1", "0.999", 3),
    ],
)
def test_a_level_reached_exactly_is_reached(need, chance, service, least):
    """Own arithmetic: 1 − 0.05 is 0.95 exactly; 1 − 0.5² is 0.75; 0.9² + 2 × 0.1 × 0.9² is 0.972."""
    assert with_spares(need, D(chance), D(service)) == least


def test_the_root_of_the_level_is_never_taken_in_floats_where_it_matters():
    """Own arithmetic: 0.95 each for two kinds is 0.9025 together, exactly; a hair more asks for one more."""
    assert with_spares(1, D("0.05"), D("0.9025"), 2) == 1
    assert with_spares(1, D("0.05"), D("0.9025000000000000000001"), 2) == 2


@given(
    need=st.integers(1, 400),
    chance=st.fractions(Fraction(1, 1000), Fraction(1, 2), max_denominator=1000),
    service=st.fractions(Fraction(1, 100), Fraction(9999, 10000), max_denominator=10000),
    items=st.integers(1, 12),
)
@settings(max_examples=150, deadline=None, derandomize=True)
def test_floats_never_disagree_with_whole_numbers(need, chance, service, items):
    spares = with_spares(need, chance, service, items) - need
    assert spares == _spares_exactly(need, chance, service, items, at_least=0)


def test_needs_too_large_for_a_plain_float_sum():
    """0.97^100000 is below the smallest float; the normal approximation (own arithmetic) comes within a few."""
    need, chance, service = 100_000, 0.03, 0.99
    ours = with_spares(need, D("0.03"), D("0.99"))
    z = 2.3263478740408408
    mean, spread = need / (1 - chance), math.sqrt(need * chance) / (1 - chance)
    assert abs(ours - (mean + z * spread)) < 5
    assert binom.sf(need - 1, ours, 1 - chance) >= service > binom.sf(need - 1, ours - 1, 1 - chance)


def test_a_level_next_to_certainty_is_left_to_whole_numbers():
    level = D("0.999999999999999999")
    _, is_sure = _spares_by_floats(10, 0.03, float(level))
    assert not is_sure
    assert with_spares(10, D("0.03"), level) == 10 + _spares_exactly(
        10, Fraction("0.03"), Fraction(level), 1, at_least=0
    )


@given(need=st.integers(0, 300), more=st.integers(1, 5), items=st.integers(1, 8))
@settings(max_examples=100, deadline=None, derandomize=True)
def test_more_needed_or_more_kinds_never_takes_fewer(need, more, items):
    chance, service = D("0.03"), D("0.95")
    assert with_spares(need, chance, service, items) < with_spares(need + more, chance, service, items)
    assert with_spares(need, chance, service, items) <= with_spares(need, chance, service, items + 1)


def test_nothing_needed_nothing_taken_and_nothing_breaks_nothing_spare():
    assert with_spares(0, D("0.03"), D("0.95")) == 0
    assert with_spares(7, D(0), D("0.95")) == 7


@pytest.mark.parametrize(
    ("need", "chance", "service", "items"),
    [
        (5, "1", "0.9", 1),
        (5, "-0.1", "0.9", 1),
        (5, "0.1", "1", 1),
        (-1, "0.1", "0.9", 1),
        (5, "0.1", "0.9", 0),
    ],
)
def test_what_has_no_answer_is_refused(need, chance, service, items):
    with pytest.raises(ValueError, match="no spares"):
        with_spares(need, D(chance), D(service), items)


def test_a_flat_share_goes_up_to_whole_balloons():
    """Own arithmetic: 40 × 1.05 is 42 exactly, 41 × 1.05 is 43.05."""
    assert [with_flat_share(need, D("0.05")) for need in (0, 1, 20, 40, 41)] == [0, 2, 21, 42, 44]
    assert with_flat_share(300, D("0.07")) == 321
    with pytest.raises(ValueError, match="below 0"):
        with_flat_share(10, D("-0.01"))
