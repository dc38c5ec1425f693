"""Counts from geometry: a hair of float noise changes nothing, and shares add up."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.domain.counts import nearest_count, rounded_down, rounded_up, shared_counts


@pytest.mark.parametrize(
    ("amount", "up", "down", "nearest"),
    [
        (3.0, 3, 3, 3), (3 + 1e-12, 3, 3, 3), (3 - 1e-12, 3, 3, 3), (3.001, 4, 3, 3),
        (2.5, 3, 2, 3), (0.1 + 0.2, 1, 0, 0),
    ],
)
def test_counts(amount, up, down, nearest):
    assert (rounded_up(amount), rounded_down(amount), nearest_count(amount)) == (up, down, nearest)


def test_a_tie_within_a_hair_takes_the_larger():
    assert nearest_count(2.5 - 1e-13) == 3


@given(st.integers(0, 5000), st.lists(st.integers(0, 100), min_size=1, max_size=8).filter(any))
def test_shared_counts_add_up_and_stay_within_one_of_their_share(total, shares):
    counts = shared_counts(total, [Fraction(share) for share in shares])
    assert sum(counts) == total
    for count, share in zip(counts, shares, strict=True):
        assert abs(count - Fraction(total * share, sum(shares))) < 1


@pytest.mark.parametrize("shares", [[], [Fraction(0)], [Fraction(-1), Fraction(2)]])
def test_shares_of_nothing_are_refused(shares):
    with pytest.raises(ValueError, match="above 0"):
        shared_counts(3, shares)
