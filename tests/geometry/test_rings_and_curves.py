"""Properties of rings and curves."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.geometry.curves import SAMPLES, curve_length, curve_points, fixed_rise
from quoting.geometry.helix import helix_point, strand_length
from quoting.geometry.rings import (
    built_height,
    nesting_limit,
    pole_room,
    ring_heights,
    ring_pitch,
    ring_radius,
    ring_width,
    rings_along,
    rings_for_height,
)

fills = st.floats(5, 120)
counts = st.integers(2, 6)
CURVES = ("semicircle", "semi-ellipse", "catenary", "parabola", "square", "full hoop", "half hoop")


@given(fills, fills, counts)
def test_pitch_is_the_same_either_way_and_never_below_half_the_big_fill(first, second, n):
    pitch = ring_pitch(first, second, n)
    assert pitch == ring_pitch(second, first, n)
    if pitch is not None:
        assert pitch >= max(first, second) / 2 - 1e-9


@given(fills, st.floats(0.6, 1), counts)
def test_balloons_of_neighbouring_rings_touch_and_do_not_overlap(big, ratio, n):
    small = big * ratio
    pitch = ring_pitch(big, small, n)
    r1, r2 = ring_radius(big, n), ring_radius(small, n)
    gaps = []
    for place in range(n):
        turn = math.pi / n + 2 * math.pi * place / n
        apart = math.dist((r1, 0, 0), (r2 * math.cos(turn), pitch, r2 * math.sin(turn)))
        gaps.append(apart - (big + small) / 2)
    assert min(gaps) == pytest.approx(0, abs=1e-9 * big)


def test_a_ring_that_drops_through_has_no_pitch():
    assert ring_pitch(90, 10, 4) is None
    assert built_height((90, 10), 4, 0.93) is None
    assert ring_heights((90, 10, 90), 4, 0.93) is None
    assert ring_pitch(90, 10, 2) == 45  # two balloons leave no hole to drop through


@given(counts)
def test_pitch_has_no_jump_at_the_limit(n):
    ratio = nesting_limit(n)
    assert ring_pitch(1, ratio * (1 - 1e-9), n) == pytest.approx(ring_pitch(1, ratio * (1 + 1e-9), n), abs=1e-7)


@given(st.lists(fills, min_size=1, max_size=8), fills, counts, st.floats(0.8, 1))
def test_a_further_ring_makes_a_column_taller(foot, top, n, tightness):
    """Between rings not too unlike; a ring that drops through gives no height at all."""
    shorter, taller = built_height(foot, n, tightness), built_height([*foot, top], n, tightness)
    ratio = top / foot[-1]
    if taller is not None and nesting_limit(n) <= ratio <= 1 / nesting_limit(n):
        assert taller > shorter


@given(fills, counts, st.floats(0.8, 1), st.floats(1, 900))
def test_rings_for_a_height_are_the_nearest(fill, n, tightness, wanted):
    pitch = tightness * ring_pitch(fill, fill, n)
    count = rings_for_height(wanted, fill, pitch)
    miss = abs(built_height((fill,) * count, n, tightness) - wanted)
    assert miss <= abs(built_height((fill,) * (count + 1), n, tightness) - wanted) + 1e-6
    if count > 1:
        assert miss <= abs(built_height((fill,) * (count - 1), n, tightness) - wanted) + 1e-6


def test_a_tie_takes_the_taller():
    assert rings_for_height(15.0, 10.0, 10.0) == 2
    assert rings_for_height(14.99, 10.0, 10.0) == 1
    assert rings_for_height(14.9999999999, 10.0, 10.0) == 2  # a hair of float noise
    assert rings_for_height(0.1, 10.0, 10.0) == 1
    assert rings_along(25.0, 10.0) == 3


@given(fills, counts)
def test_room_and_width(fill, n):
    assert ring_width(fill, n) == pytest.approx(2 * ring_radius(fill, n) + fill)
    assert pole_room(fill, n) >= 0
    assert (pole_room(fill, n) > 0) == (n > 2)


@pytest.mark.parametrize("curve", CURVES)
@pytest.mark.parametrize(("span", "rise"), [(2, 1), (3, 2.5), (10, 3), (1, 6)])
def test_points_stand_evenly_along_the_curve(curve, span, rise):
    rise = fixed_rise(curve, span) or rise
    width = 0.3 if curve == "square" else 0.0
    shares = [i / 400 for i in range(401)]
    points = curve_points(curve, span, rise, shares, width)
    length = curve_length(curve, span, rise, width)
    # Rings of a square arch are counted without the corners, but drawn round them: two quarters of a circle more.
    drawn = length + (math.pi * width / 2 if curve == "square" else 0.0)
    chords = [math.dist(a[:2], b[:2]) for a, b in pairwise(points)]
    assert max(chords) <= drawn / 400 * 1.01
    assert sum(chords) == pytest.approx(drawn, rel=0.006)
    assert max(y for _, y, _ in points) == pytest.approx(rise, rel=1e-4)
    assert points[0][1] == pytest.approx(0, abs=1e-9) and points[-1][1] == pytest.approx(0, abs=1e-9)
    assert SAMPLES >= 400


@given(st.floats(1, 30), st.floats(1, 12), st.floats(0.1, 0.9), st.floats(0, 1))
def test_a_square_arch_is_its_own_mirror_image(span, rise, width, share):
    (x, y, direction), (other, level, back) = curve_points("square", span, rise, (share, 1 - share), width)
    assert (x, y, direction) == pytest.approx((-other, level, -back), abs=1e-6)
    for middle in (0.5, 0.5 + 1e-16, 0.5 - 1e-16, 0.49999999999999994):
        assert curve_points("square", span, rise, (middle,), width)[0][:2] == pytest.approx((0, rise), abs=1e-6)


@pytest.mark.parametrize("curve", CURVES)
def test_points_lead_in_the_direction_given(curve):
    rise = fixed_rise(curve, 4) or 3
    (x1, y1, direction), (x2, y2, _) = curve_points(curve, 4, rise, (0.2, 0.2005))
    assert math.atan2(y2 - y1, x2 - x1) == pytest.approx(direction, abs=0.02)


def test_an_unknown_curve_is_refused():
    with pytest.raises(ValueError, match="zigzag"):
        curve_length("zigzag", 2, 1)
    with pytest.raises(ValueError, match="zigzag"):
        curve_points("zigzag", 2, 1, (0.5,))


@given(st.floats(0.5, 20), st.floats(0.2, 10), st.floats(1.01, 2))
def test_wider_or_higher_is_never_shorter(span, rise, more):
    for curve in ("semi-ellipse", "catenary", "parabola", "square"):
        length = curve_length(curve, span, rise)
        assert curve_length(curve, span * more, rise) > length
        assert curve_length(curve, span, rise * more) > length


@given(st.floats(0.1, 300), st.floats(0, 40), st.floats(0, 12))
def test_a_strand_is_never_shorter_than_it_is_high(height, radius, turns):
    assert strand_length(height, radius, turns) >= height
    x, y, z = helix_point(height, radius, turns, 1.0)
    assert y == height and math.hypot(x, z) == pytest.approx(radius, abs=1e-9)
