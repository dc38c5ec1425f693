"""Grids that cover, and things laid over flat shapes."""

from __future__ import annotations

import math
from collections import Counter
from itertools import pairwise

import make_letter_outlines
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quoting.geometry import letter_outlines
from quoting.geometry.areas import area, edge_length, laid_along, laid_within, rectangle, spans_at
from quoting.geometry.letters import known_signs, letter_of, line_of
from quoting.geometry.packing import (
    ROW_RISE,
    covering_grid,
    fitting_grid,
    mean_sphere_volume,
    sphere_volume,
    spheres_in,
)

sizes = st.integers(10, 900).map(lambda tenths: tenths / 10)
pitches = st.integers(10, 80).map(lambda tenths: tenths / 10)


@given(sizes, sizes, pitches, st.booleans())
@settings(max_examples=150, deadline=None)
def test_a_grid_covers_with_no_row_or_column_too_many(width, height, pitch, is_staggered):
    grid = covering_grid(width, height, pitch, is_staggered=is_staggered)
    assert grid.width >= width - 1e-6 and grid.height >= height - 1e-6
    assert (grid.columns - 1) * pitch < width + 1e-6
    assert grid.height - grid.row_pitch < height + 1e-6 or grid.rows == 1
    cells = [grid.middle(row, column) for row in range(1, grid.rows + 1) for column in range(1, grid.cells_in(row) + 1)]
    assert len(cells) == grid.count
    nearest = min((math.dist(a, b) for a in cells[:30] for b in cells if a != b), default=pitch)
    assert nearest == pytest.approx(pitch)
    fitting = fitting_grid(width, height, pitch, is_staggered=is_staggered)
    assert fitting.count <= grid.count


@given(sizes, sizes, pitches, st.booleans(), sizes)
@settings(max_examples=150, deadline=None)
def test_a_larger_area_never_takes_fewer(width, height, pitch, is_staggered, more):
    grid = covering_grid(width, height, pitch, is_staggered=is_staggered)
    assert covering_grid(width + more, height, pitch, is_staggered=is_staggered).count >= grid.count
    assert covering_grid(width, height + more, pitch, is_staggered=is_staggered).count >= grid.count


def test_whole_numbers_of_pitches_need_no_row_more():
    grid = covering_grid(3 * 0.1, 2 * 0.1, 0.1, is_staggered=False)  # 0.30000000000000004 wide
    assert (grid.columns, grid.rows) == (3, 2)
    staggered = covering_grid(5, 1 + 3 * ROW_RISE, 1, is_staggered=True)
    assert (staggered.columns, staggered.shifted_columns, staggered.rows) == (5, 5, 4)


def test_means_and_shares_of_balls():
    assert mean_sphere_volume((10, 20), (3, 1)) == pytest.approx((3 * sphere_volume(10) + sphere_volume(20)) / 4)
    assert spheres_in(1000, sphere_volume(5), 0.64) == pytest.approx(640 / sphere_volume(5))


# --- flat shapes --------------------------------------------------------------------------

RING = (((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)), ((3.0, 3.0), (3.0, 7.0), (7.0, 7.0), (7.0, 3.0)))


def test_a_hole_counts_for_the_edge_and_against_the_area():
    assert area(RING) == 100 - 16
    assert edge_length(RING) == 40 + 16
    assert spans_at(RING, 5) == ((0, 3), (7, 10))
    assert spans_at(RING, 1) == ((0, 10),)
    assert (area(rectangle(4, 3)), edge_length(rectangle(4, 3))) == (12, 14)


def is_inside(contours, x, y):
    return any(left - 1e-9 <= x <= right + 1e-9 for left, right in spans_at(contours, y))


@given(st.sampled_from(known_signs()), st.integers(1, 400), st.integers(2, 30))
@settings(max_examples=100, deadline=None)
def test_exactly_so_many_are_laid_and_all_inside(sign, count, rows):
    contours = letter_of(sign).contours
    points = laid_within(contours, count, 1 / rows)
    assert len(points) == count
    assert all(is_inside(contours, x, y) for x, y in points)
    edge = laid_along(contours, count)
    assert len(edge) == count
    corners = [point for contour in contours for point in contour]
    assert min(x for x, _ in corners) - 1e-9 <= min(x for x, _ in edge)
    assert max(y for _, y in edge) <= max(y for _, y in corners) + 1e-9


def test_things_along_an_edge_keep_their_distance():
    points = laid_along(RING, 56)
    assert Counter(round(math.dist(a, b), 6) for a, b in pairwise(points))[1.0] >= 35
    assert sum(1 for x, y in points if 2.9 < x < 7.1 and 2.9 < y < 7.1) == 16


def test_fifty_and_double_w_truly_differ():
    fifty, double = line_of("50"), line_of("WW")
    assert double.width > 1.6 * fifty.width
    assert sum(letter.area for letter, _ in double.letters) > 1.4 * sum(letter.area for letter, _ in fifty.letters)
    with pytest.raises(ValueError, match="♥"):
        line_of("A♥")
    with pytest.raises(ValueError, match="no sign"):
        line_of(" ")
    assert line_of("a b").width > line_of("ab").width


def test_the_outlines_are_those_of_the_command():
    """Stale? Run: python tests/geometry/make_letter_outlines.py."""
    assert make_letter_outlines.outlines() == letter_outlines.OUTLINES
