"""What holds for every column and arch, whatever is typed."""

from __future__ import annotations

from collections import Counter
from decimal import Decimal
from itertools import pairwise
from math import dist

from forms_price_book import FOOT, INCH, piece, prices
from hypothesis import given, settings
from hypothesis import strategies as st

from quoting.forms.registry import form_named

D = Decimal
IMPERIAL, METRIC = prices("in"), prices("cm")
COLOURS = ("ivory", "sage", "coral", "slate")
BARE = {"base": "none", "pole": "none"}

quarter_inches = st.integers(16, 130).map(lambda quarters: D(quarters) / 4 * INCH)
tall = st.integers(24, 150).map(lambda whole: D(whole) * INCH)
per_rings = st.integers(2, 6)
palettes = st.integers(1, 4).map(lambda count: COLOURS[:count])


def planned(form, book=IMPERIAL, **typed):
    outcome = form_named(form).plan(piece(form, **typed), book)
    assert outcome.value is not None, [str(problem) for problem in outcome.problems]
    return outcome.value


@given(quarter_inches, tall, tall, per_rings)
@settings(max_examples=60, deadline=None)
def test_taller_is_never_fewer(fill, height, more, per_ring):
    typed = {"fill": fill, "per_ring": per_ring, "colours": ("ivory",), **BARE}
    shorter = planned("ring column", height=height, **typed)
    taller = planned("ring column", height=height + more, **typed)
    assert taller.balloon_count >= shorter.balloon_count
    assert taller.outline.height_cm >= shorter.outline.height_cm


@given(quarter_inches, tall, palettes, per_rings, st.sampled_from(["bands", "mix"]))
@settings(max_examples=60, deadline=None)
def test_colours_add_up_to_the_rings(fill, height, colours, per_ring, pattern):
    plan = planned("ring column", fill=fill, height=height, colours=colours, per_ring=per_ring, pattern=pattern, **BARE)
    rings = plan.balloon_count // per_ring
    assert plan.balloon_count == rings * per_ring
    by_colour = Counter()
    for part in plan.parts:
        by_colour[part.colour] += part.count
    spread = max(by_colour.values()) - min(by_colour.get(colour, 0) for colour in colours)
    assert spread <= (per_ring if pattern == "bands" else 1)
    assert Counter(position.colour for position in plan.positions) == by_colour


@given(quarter_inches, tall, per_rings, palettes)
@settings(max_examples=40, deadline=None)
def test_the_unit_of_the_shop_changes_no_count(fill, height, per_ring, colours):
    typed = {"fill": fill, "height": height, "per_ring": per_ring, "colours": colours, "pattern": "bands", **BARE}
    there, here = planned("ring column", METRIC, **typed), planned("ring column", IMPERIAL, **typed)
    assert there.parts == here.parts and there.tasks == here.tasks and there.outline == here.outline


@given(st.integers(4, 40), st.integers(3, 12), st.sampled_from(["semi-ellipse", "catenary", "parabola", "square"]))
@settings(max_examples=40, deadline=None)
def test_a_wider_or_higher_arch_never_takes_fewer(width, height, curve):
    typed = {"curve": curve, "size": 11, "colours": ("ivory",), "base": "none"}
    arch = planned("packed arch", width=width * FOOT, height=height * FOOT, **typed)
    wider = planned("packed arch", width=(width + 1) * FOOT, height=height * FOOT, **typed)
    higher = planned("packed arch", width=width * FOOT, height=(height + 1) * FOOT, **typed)
    assert arch.balloon_count <= wider.balloon_count and arch.balloon_count <= higher.balloon_count


@given(st.lists(st.sampled_from(["4.5", "8", "9.5", "10.5"]), min_size=1, max_size=5), st.integers(8, 20), per_rings)
@settings(max_examples=40, deadline=None)
def test_a_graduated_column_is_its_own_mirror_image(foot, feet, per_ring):
    fills = tuple(D(fill) * INCH for fill in foot)
    plan = planned("graduated column", foot_fills=fills, middle="rings", middle_fill=D(8) * INCH, height=feet * FOOT,
                   per_ring=per_ring, colours=("ivory",), **BARE)
    rings = sorted({(round(p.y_cm, 6), p.diameter_cm) for p in plan.positions})
    mirrored = sorted((round(plan.outline.height_cm - y, 6), diameter) for y, diameter in rings)
    assert [d for _, d in rings] == [d for _, d in mirrored]
    assert all(abs(a - b) < 1e-5 for (a, _), (b, _) in zip(rings, mirrored, strict=True))
    assert sum(1 for _, d in rings if d == float(fills[0])) >= 2


@given(quarter_inches, tall, per_rings)
@settings(max_examples=40, deadline=None)
def test_balloons_of_a_ring_touch_and_turn_by_half_a_place(fill, height, per_ring):
    plan = planned("ring column", fill=fill, height=height, per_ring=per_ring, colours=("ivory",), **BARE)
    first = [p for p in plan.positions if abs(p.y_cm - float(fill) / 2) < 1e-6]
    a, b = first[0], first[1]
    apart = ((a.x_cm - b.x_cm) ** 2 + (a.z_cm - b.z_cm) ** 2) ** 0.5
    assert abs(apart - float(fill)) < 1e-6
    assert len(first) == per_ring


@given(quarter_inches, per_rings, st.sampled_from(["ring column", "graduated column"]))
@settings(max_examples=40, deadline=None)
def test_every_balloon_nests_between_two_of_the_ring_below(fill, per_ring, form):
    """At a tightness of 1 neighbouring rings touch: no balloon overlaps another, and each touches two below it."""
    size = float(fill)
    if form == "ring column":
        typed = {"fill": fill, "rings": 4}
    else:
        typed = {"foot_fills": (fill, fill * D("0.8")), "middle": "rings", "middle_fill": fill * D("0.8"), "rings": 6}
    plan = planned(form, prices(tightness=D(1)), per_ring=per_ring, colours=("ivory",), **typed, **BARE)
    rings = [plan.positions[start : start + per_ring] for start in range(0, len(plan.positions), per_ring)]
    for lower, upper in pairwise(rings):
        for balloon in upper:
            gaps = sorted(
                dist((balloon.x_cm, balloon.y_cm, balloon.z_cm), (other.x_cm, other.y_cm, other.z_cm))
                - (balloon.diameter_cm + other.diameter_cm) / 2
                for other in lower)
            assert abs(gaps[0]) < 1e-6 * size and abs(gaps[1]) < 1e-6 * size


def test_the_same_piece_gives_the_same_plan():
    typed = {"fill": D(24), "height": D(200), "colours": COLOURS[:2], "pattern": "mix"}
    assert planned("ring column", **typed) == planned("ring column", **typed)
