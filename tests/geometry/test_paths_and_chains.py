"""Hanging chains and joined lines: properties, and figures from outside with their sources."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from quoting.geometry.chains import chain_length, chain_sag, chain_shape
from quoting.geometry.curves import parabola_length
from quoting.geometry.paths import arch_on, ellipse_part, ellipse_part_length, hanging, joined, straight

# span, length, sag of the catenary, sag of the parabola; solved with scipy (brentq on the closed forms) and
# checked with scipy quad, outside this project
SWAGS = [(3, 3.5, 0.792426, 0.801978), (3, 4, 1.177335, 1.199193), (5, 5.5, 1.001504, 1.009669),
         (2, 2.5, 0.663594, 0.674061)]
# span, straight leg, overall height, length; own arithmetic on 2 × leg + π × span/2, outside this project
LEGS = [(2, 0.5, 1.5, 4.141593), (2.4, 1.2, 2.4, 6.169911), (3, 0.5, 2.0, 5.712389), (3, 1, 2.5, 6.712389)]

lengths = st.floats(0.2, 30)


@pytest.mark.parametrize(("span", "length", "sag", "parabola_sag"), SWAGS)
def test_sag_and_length_of_a_swag(span, length, sag, parabola_sag):
    assert chain_sag(span, length) == pytest.approx(sag, abs=1e-6)
    assert chain_length(span, sag) == pytest.approx(length, abs=3e-6)
    assert parabola_length(span, parabola_sag) == pytest.approx(length, abs=3e-6)


@pytest.mark.parametrize(("span", "length", "sag", "_parabola"), SWAGS)
def test_a_swag_by_numerical_integration(span, length, sag, _parabola):
    """scipy.integrate.quad over the speed of cosh(x/a), with a from the sag: sag = a (cosh(span/2a) − 1)."""
    a = span / 2 / chain_shape(length / span)
    assert a * (math.cosh(span / 2 / a) - 1) == pytest.approx(sag, abs=1e-6)
    arc, _ = quad(lambda x: math.cosh(x / a), -span / 2, span / 2)
    assert arc == pytest.approx(length, rel=1e-9)


@pytest.mark.parametrize(("span", "leg", "height", "length"), LEGS)
def test_legs_and_a_semicircle(span, leg, height, length):
    left, right = -span / 2, span / 2
    path = joined((straight((left, 0), (left, leg)), arch_on((left, leg), "semicircle", span, span / 2),
                   straight((right, leg), (right, 0))))
    assert path.length == pytest.approx(length, abs=1e-6)
    points = [path.follow(number / 1000) for number in range(1001)]
    assert max(y for _, y, _ in points) == pytest.approx(height, abs=1e-6)
    assert points[0][:2] == pytest.approx((left, 0), abs=1e-9)
    assert points[-1][:2] == pytest.approx((right, 0), abs=1e-9)
    assert all(math.dist(a[:2], b[:2]) == pytest.approx(length / 1000, rel=1e-3) for a, b in pairwise(points))


@pytest.mark.parametrize(("half_width", "rise"), [(1, 1), (1, 50), (50, 1), (3, 2), (0.4, 2.2)])
@pytest.mark.parametrize("angle", [0.3, math.pi / 2, 2.4, math.pi])
def test_a_part_of_an_ellipse_by_numerical_integration(half_width, rise, angle):
    """scipy.integrate.quad over the speed of the ellipse."""
    arc, _ = quad(lambda t: math.hypot(half_width * math.sin(t), rise * math.cos(t)), 0, angle,
                  limit=400, epsabs=1e-12, epsrel=1e-12)
    assert ellipse_part_length(half_width, rise, angle) == pytest.approx(arc, rel=2e-8)
    path = ellipse_part((1.0, 2.0), half_width, rise, angle)
    x, y, _ = path.follow(1.0)
    assert (x, y) == pytest.approx((1 + half_width * (1 - math.cos(angle)), 2 + rise * math.sin(angle)), abs=1e-9)


@given(lengths, st.floats(0.002, 20))
def test_the_sag_of_a_length_is_the_sag_it_came_from(span, times):
    sag = span * times
    assert chain_sag(span, chain_length(span, sag)) == pytest.approx(sag, rel=1e-4)


@given(lengths, st.floats(1.0001, 40), st.floats(1.01, 2))
def test_a_longer_chain_hangs_lower(span, stretch, more):
    assert chain_sag(span, span * stretch * more) > chain_sag(span, span * stretch)


def test_a_chain_that_is_taut_or_too_short():
    assert chain_sag(3, 3) == 0
    assert chain_length(3, 0) == 3
    with pytest.raises(ValueError, match="shorter"):
        chain_sag(3, 2.9)


@given(lengths, st.floats(0.05, 10))
def test_a_hanging_line_ends_at_its_points_and_is_lowest_in_the_middle(span, sag):
    path = hanging((1.0, 5.0), span, sag)
    assert path.follow(0.0)[:2] == pytest.approx((1.0, 5.0), abs=1e-6 * (span + sag))
    assert path.follow(1.0)[:2] == pytest.approx((1.0 + span, 5.0), abs=1e-6 * (span + sag))
    assert path.follow(0.5)[1] == pytest.approx(5.0 - sag, abs=1e-4 * (span + sag))
    assert path.follow(0.25)[2] < 0 < path.follow(0.75)[2]


def test_joined_lines_leave_out_parts_of_no_length():
    path = joined((straight((0, 0), (0, 0)), straight((0, 0), (0, 3)), straight((0, 3), (4, 3))))
    assert path.length == 7
    assert path.follow(3 / 7)[:2] == pytest.approx((0, 3))
    assert path.follow(1.0)[:2] == pytest.approx((4, 3))
    assert path.follow(0.9)[2] == 0.0
