"""Garlands, arches on legs, demi-arches, columns of repeated fills: counts, refusals by cell, what always holds."""

from __future__ import annotations

import math
from collections import Counter
from decimal import Decimal
from fractions import Fraction

import pytest
from forms_price_book import COLUMN_OF, FOOT, INCH, balloon, inches, piece, prices
from hypothesis import given, settings
from hypothesis import strategies as st
from line_form_cases import ACROSS, CASES, COUNTED, DEMI, DRAPED, LEGS, STRAIGHT, SWAG, TURNS

from quoting.domain.prices import Shape
from quoting.domain.problems import Level
from quoting.forms.registry import form_named
from quoting.forms.repeats import Repeat
from quoting.forms.stacks import Run
from quoting.geometry.rings import built_height

D = Decimal
IMPERIAL, METRIC = prices("in"), prices("cm")
BARE = {"base": "none", "pole": "none"}


def outcome_of(form, book=IMPERIAL, **typed):
    typed = {key: value for key, value in typed.items() if value is not None}
    return form_named(form).plan(piece(form, **typed), book)


def planned(form, book=IMPERIAL, **typed):
    outcome = outcome_of(form, book, **typed)
    assert outcome.value is not None, [str(problem) for problem in outcome.problems]
    return outcome.value


def counts(plan, role=None):
    found = Counter()
    for part in plan.parts:
        if role is None or part.role == role:
            found[part.item] += part.count
    return dict(found)


def value(plan, key):
    return next(step.value for step in plan.workings if step.key == key)


# --- columns of repeated fills ----------------------------------------------------------


def test_fills_take_turns_up_to_the_height():
    plan = planned("ring column", **TURNS, colours=("ivory", "sage"), pattern="bands")
    # pitch of 10 and 8 in, four a ring, by the rule of the trade (own arithmetic):
    # sqrt(9² − 7.0711² − 5.6569² + 2 × 7.0711 × 5.6569 × cos 45°) = 7.430; × 0.93 = 6.910; (84 − 9) ÷ 6.910 + 1 = 11.85
    assert counts(plan, "ring") == {"11 in matt ivory": 24, "9 in matt sage": 24}
    assert plan.description[0] == "7 ft 1 in tall, 12 rings of 4, 10 in and 8 in in turn"
    rings = sorted({(round(p.y_cm, 6), p.diameter_cm) for p in plan.positions})
    assert [fill for _, fill in rings] == [25.4, 20.32] * 6


@pytest.mark.parametrize(("per_ring", "colours"), [
    (3, ("ivory", "sage", "coral")), (5, ("ivory",)), (6, ("ivory", "sage")),
    (5, ("ivory", "ivory", "sage", "coral", "coral"))])
def test_spirals_of_three_five_and_six(per_ring, colours):
    typed = {"height": 7 * FOOT, "fill": D("9.5") * INCH, "pattern": "spiral", "per_ring": per_ring}
    plan = planned("ring column", **typed, colours=colours, **BARE)
    rings = plan.balloon_count // per_ring
    each = Counter(f"11 in matt {colour}" for colour in colours)
    assert counts(plan, "ring") == {item: rings * count * per_ring // len(colours) for item, count in each.items()}
    # the stripe climbs: neighbouring rings stand half a place apart
    by_height = {}
    for position in plan.positions:
        by_height.setdefault(round(position.y_cm, 6), []).append(math.atan2(position.z_cm, position.x_cm))
    low, high = (sorted(angle % (2 * math.pi / per_ring) for angle in by_height[y])[0] for y in sorted(by_height)[:2])
    turn = abs(low - high) % (2 * math.pi / per_ring)
    assert turn == pytest.approx(math.pi / per_ring, abs=1e-6)


fills_lists = st.lists(st.sampled_from(["8", "9", "9.5", "10", "10.5"]), min_size=1, max_size=4)


@given(fills_lists, st.integers(24, 150), st.integers(2, 6))
@settings(max_examples=40, deadline=None)
def test_no_other_number_of_rings_comes_nearer(fills, height_in, per_ring):
    runs = tuple(Run(fill_cm=float(D(fill) * INCH), size=11, rings=1, balloons=()) for fill in fills)
    repeat = Repeat(cycle=runs, per_ring=per_ring, tightness=0.93).with_height(height_in * 2.54)

    def miss(rings):
        listed = [float(D(fills[ring % len(fills)]) * INCH) for ring in range(rings)]
        return abs(built_height(listed, per_ring, 0.93) - height_in * 2.54)

    least = min(miss(rings) for rings in range(1, 60))
    assert miss(repeat.rings) <= least + 1e-6
    assert all(miss(rings) > least + 1e-7 for rings in range(repeat.rings + 1, 60))  # a tie takes the taller
    assert repeat.stack.height_cm == pytest.approx(
        repeat.starts_cm[(repeat.rings - 1) % len(fills)] + (repeat.rings - 1) // len(fills) * repeat.cycle_cm)


@given(fills_lists, st.integers(24, 120), st.integers(1, 40), st.sampled_from(["bands", "mix"]))
@settings(max_examples=40, deadline=None)
def test_a_taller_column_of_turns_never_takes_fewer(fills, height, more, pattern):
    typed = {"fills": inches(*fills), "repeat": True, "colours": ("ivory", "sage"), "pattern": pattern, **BARE}
    shorter = planned("ring column", height=height * INCH, **typed)
    taller = planned("ring column", height=(height + more) * INCH, **typed)
    assert taller.balloon_count >= shorter.balloon_count
    assert sum(counts(shorter).values()) == shorter.balloon_count == len(shorter.positions)


# --- arches -------------------------------------------------------------------------------


def test_an_arch_on_legs_is_as_long_as_its_legs_and_curve():
    plan = planned("arch on legs", **LEGS)
    # (2 × 48 + π × 96 ÷ 2) in ÷ (0.93 × 0.84089642 × 9.5 in) = 33.2 rings: own arithmetic
    assert counts(plan, "ring") == {"11 in matt ivory": 66, "11 in matt sage": 66}
    assert {need.item: need.count for need in plan.hire} == {"Base plate steel": 2}
    assert plan.outline.height_cm == pytest.approx((96 + 9.5 * 2.414214 / 2) * 2.54, rel=1e-6)
    assert planned("arch on legs", **{**LEGS, "leg": None, "height": 8 * FOOT}).parts == plan.parts
    assert planned("arch on legs", **LEGS, height=8 * FOOT).parts == plan.parts


def test_a_demi_arch_ends_at_its_tip():
    plan = planned("demi-arch", **DEMI)
    last = [p for p in plan.positions if p.layer == max(q.layer for q in plan.positions)][-4:]
    x, y = (sum(getattr(p, axis) for p in last) / 4 for axis in ("x_cm", "y_cm"))
    assert math.hypot(x - 5 * 30.48, y - 6 * 30.48) < 15  # half a fill before the tip, and the curve bends there
    assert {need.item: need.count for need in plan.hire} == {"Base plate steel": 1}
    quarter = planned("demi-arch", **{**DEMI, "leg": None, "tip": None, "width": 7 * FOOT})
    assert value(quarter, "length") == pytest.approx(84 * math.pi / 2, rel=1e-9)  # a quarter of a circle


def test_a_topper_sits_on_the_top_of_a_demi_arch():
    plan = planned("demi-arch", **DEMI, topper="18 in foil silver")
    topper = next(p for p in plan.positions if p.role == "topper")
    top = max((p for p in plan.positions if p.role == "ring"), key=lambda p: p.y_cm)
    assert abs(topper.x_cm - top.x_cm) < 25


# --- garlands -----------------------------------------------------------------------------


@pytest.mark.parametrize(("fullness", "least", "most"), [("light", 10, 15), ("medium", 10, 15), ("full", 15, 20)])
@pytest.mark.parametrize("fill", ["9.5", "10"])
def test_practice_balloons_per_foot_of_an_organic_garland(fullness, least, most, fill):
    """Common practice, no source: 10–15 balloons per foot, very full 15–20."""
    typed = {**STRAIGHT, "size": None, "fill": D(fill) * INCH, "length": 50 * FOOT, "fullness": fullness}
    assert least <= planned("garland", **typed).balloon_count / 50 <= most


def test_a_garland_of_ten_feet():
    plan = planned("garland", **STRAIGHT)
    # 120 in ÷ (0.93 × 0.84089642 × 9.5 in) = 16.2 clusters; 3.048 m × 4 × 2 faces = 24.4: 12 a face, 72 balloons
    assert sum(counts(plan, "spine").values()) == 64
    fillers = counts(plan, "filler")
    by_size = {size: sum(n for item, n in fillers.items() if item.startswith(f"{size} in")) for size in (5, 11, 16)}
    assert by_size == {5: 43, 11: 22, 16: 7}  # 43.2, 21.6, 7.2 by the largest remainder
    tasks = {(task.activity, task.size): task.quantity for task in plan.tasks}
    assert tasks["tie cluster", None] == tasks["build ring", None] == 16 + 24
    assert tasks["inflate round", 5] == 43
    assert plan.outline.mass_g > 0 and plan.outline.width_cm > 10 * 30.48


@pytest.mark.parametrize(("typed", "length_ft"), [
    # lengths of catenaries by scipy brentq and quad outside this project's code, in feet
    ({**SWAG, "width": 3 * FOOT, "sag": D("0.792426") * FOOT}, 3.5),
    ({**DRAPED, "segments": (3 * FOOT, 5 * FOOT), "sag": None, "length": D("8.8") * FOOT}, 8.8),
    (ACROSS, 12),
])
def test_lengths_of_routes(typed, length_ft):
    assert value(planned("garland", **typed), "length") == pytest.approx(12 * length_ft, rel=1e-5)


def test_sag_from_length():
    """5 ft of span with 5.5 ft of garland sags 1.001504 ft: solved with scipy outside this project's code."""
    plan = planned("garland", **{**SWAG, "width": 5 * FOOT, "sag": None, "length": D("5.5") * FOOT})
    assert value(plan, "sag") == pytest.approx(12 * 1.001504, rel=1e-6)


def test_what_hangs_lowest_touches_the_floor_line_and_nothing_is_below():
    for name, (form, typed) in CASES.items():
        if form == "garland":
            plan = planned(form, **typed)
            assert min(p.y_cm - p.diameter_cm / 2 for p in plan.positions if p.role != "wrap") > -5, name


def test_one_face_leaves_the_back_bare():
    one, both = planned("garland", **STRAIGHT, faces="one"), planned("garland", **STRAIGHT)
    assert all(p.z_cm > 0 for p in one.positions if p.role == "filler")
    assert any(p.z_cm < 0 for p in both.positions if p.role == "filler")
    assert counts(one, "spine") == counts(both, "spine")
    assert sum(counts(both, "filler").values()) == 2 * sum(counts(one, "filler").values())


def test_fillers_take_colours_of_their_own():
    plan = planned("garland", **STRAIGHT, filler_colours=("slate",))
    assert {part.colour for part in plan.parts if part.role == "filler"} == {"slate"}
    assert "filled with slate" in plan.description[2]
    shared = planned("garland", **STRAIGHT, filler_shares=(D("0.8"), D("0.1"), D("0.1")))
    fives = {item: count for item, count in counts(shared, "filler").items() if item.startswith("5 in")}
    assert sorted(fives.values()) == [4, 4, 35] or sorted(fives.values()) == [4, 5, 34]


def test_clusters_are_strewn_evenly_along_the_line():
    """The deterministic strewing leaves no eighth of a long garland with fewer than half its share of fillers."""
    plan = planned("garland", **{**STRAIGHT, "length": 40 * FOOT})
    fillers = [p.x_cm for p in plan.positions if p.role == "filler"]
    eighth = 40 * 30.48 / 8
    per_part = Counter(min(7, max(0, int((x + 20 * 30.48) // eighth))) for x in fillers)
    assert min(per_part[part] for part in range(8)) > len(fillers) / 16


garlands = st.fixed_dictionaries({
    "length": st.integers(3, 40).map(lambda feet: feet * FOOT),
    "fullness": st.sampled_from(["light", "medium", "full"]),
    "per_ring": st.integers(2, 6),
    "filler_sizes": st.sampled_from([(5,), (5, 11), (16, 5, 9)]),
    "colours": st.integers(1, 3).map(lambda count: ("ivory", "sage", "coral")[:count]),
})


@given(garlands, st.integers(1, 9))
@settings(max_examples=25, deadline=None)
def test_garlands(typed, more):
    typed = {"route": "straight", "size": 11, **typed}
    one, both = planned("garland", **typed, faces="one"), planned("garland", **typed, faces="both")
    longer = planned("garland", **{**typed, "length": typed["length"] + more * FOOT}, faces="one")
    assert one.balloon_count <= longer.balloon_count
    assert one.balloon_count <= both.balloon_count
    assert one.parts == planned("garland", METRIC, **typed, faces="one").parts
    assert Counter((p.item, p.role) for p in both.positions) == Counter(
        {(part.item, part.role): part.count for part in both.parts})
    assert len(both.positions) == both.balloon_count
    assert both == planned("garland", **typed, faces="both")


@given(st.integers(3, 20), st.integers(1, 8), st.integers(1, 5))
@settings(max_examples=15, deadline=None)
def test_a_wider_or_deeper_swag_never_takes_fewer(width, sag, more):
    def count(width, sag):
        return planned("garland", **{**SWAG, "width": width * FOOT, "sag": sag * FOOT}).balloon_count

    assert count(width, sag) <= count(width + more, sag)
    assert count(width, sag) <= count(width, sag + more)


@given(st.integers(4, 16), st.integers(1, 8), st.integers(1, 6), st.sampled_from(["arch on legs", "demi-arch"]))
@settings(max_examples=40, deadline=None)
def test_a_wider_or_higher_arch_never_takes_fewer(width, leg, rise, form):
    curve = {"curve": "semi-ellipse"} if form == "arch on legs" else {}

    def plan_of(width, leg, rise, book=IMPERIAL):
        return planned(form, book, width=width * FOOT, leg=leg * FOOT, height=(leg + rise) * FOOT, size=11,
                       colours=("ivory",), base="none", **curve)

    plan = plan_of(width, leg, rise)
    for bigger in (plan_of(width + 1, leg, rise), plan_of(width, leg + 1, rise), plan_of(width, leg, rise + 1)):
        assert plan.balloon_count <= bigger.balloon_count
    there = plan_of(width, leg, rise, METRIC)
    assert there.parts == plan.parts and there.outline == plan.outline


# --- refusals: at which cell ------------------------------------------------------------


def without(typed, *keys):
    return {key: value for key, value in typed.items() if key not in keys}


@pytest.mark.parametrize(("form", "typed", "expected"), [
    ("ring column", {**TURNS, "colours": ("sage",), "height": None}, [("height", "P512")]),
    ("ring column", {**TURNS, "colours": ("sage",), "rings": 9}, [("rings", "P513")]),
    ("ring column", {**TURNS, "colours": ("sage",), "fill": D(20)}, [("fill", "P513")]),
    ("ring column", {**TURNS, "colours": ("sage",), "fills": None}, [("fills", "P538")]),
    ("ring column", {**TURNS, "colours": ("sage",), "fills": inches(32, 5)}, [("fills", "P514")]),
    ("ring column", {**TURNS, "colours": ("sage",), "height": D("1E6")}, [("height", "P537")]),
    ("ring column", {**COUNTED, "rings": 3000}, [("rings", "P537")]),
    ("ring column", {**TURNS, "colours": ("mauve",)}, [("colours", "P504"), ("colours", "P504")]),
    ("ring column", {**TURNS, "colours": ("sage", "ivory"), "pattern": "blocks", "blocks": (2, 2)},
     [("blocks", "P509")]),
    ("arch on legs", without(LEGS, "leg"), [("height", "P515")]),
    ("arch on legs", {**LEGS, "height": 9 * FOOT}, [("height", "P539")]),
    ("arch on legs", {**LEGS, "leg": None, "height": 3 * FOOT}, [("height", "P539")]),
    ("arch on legs", {**LEGS, "curve": "parabola"}, [("curve", "P539")]),
    ("arch on legs", {**LEGS, "curve": "semi-ellipse"}, [("height", "P538")]),
    ("arch on legs", {**LEGS, "curve": "semi-ellipse", "height": 4 * FOOT}, [("leg", "P539")]),
    ("arch on legs", {**LEGS, "width": FOOT}, [("width", "P527")]),
    ("arch on legs", {**LEGS, "width": D("1E6")}, [("width", "P537")]),
    ("arch on legs", without(LEGS, "fill"), [("fill", "P501")]),
    ("demi-arch", {**DEMI, "leg": 7 * FOOT}, [("leg", "P539")]),
    ("demi-arch", {**DEMI, "tip": 2 * FOOT}, [("tip", "P539")]),
    ("demi-arch", {**DEMI, "tip": 8 * FOOT}, [("tip", "P539")]),
    ("demi-arch", without(DEMI, "width", "height"), [("height", "P538"), ("width", "P538")]),
    ("demi-arch", {**DEMI, "width": INCH}, [("width", "P527")]),
    ("garland", without(STRAIGHT, "length"), [("length", "P561")]),
    ("garland", without(SWAG, "width"), [("width", "P561")]),
    ("garland", without(SWAG, "sag"), [("length", "P561")]),
    ("garland", {**SWAG, "length": 15 * FOOT}, [("length", "P539")]),
    ("garland", {**without(SWAG, "sag"), "length": 9 * FOOT}, [("length", "P560")]),
    ("garland", without(DRAPED, "segments"), [("segments", "P561")]),
    ("garland", {**DRAPED, "width": 9 * FOOT}, [("width", "P539")]),
    ("garland", without(ACROSS, "height", "width"), [("height", "P561"), ("width", "P561")]),
    ("garland", {**ACROSS, "length": 9 * FOOT}, [("length", "P539")]),
    ("garland", {**SWAG, "width": D("1E6")}, [("width", "P537")]),
    ("garland", without(SWAG, "filler_sizes", "route"), [("filler_sizes", "P538"), ("route", "P538")]),
    ("garland", without(SWAG, "size"), [("fill", "P501")]),
    ("garland", {**SWAG, "fills": inches(10, 8), "fill": 10 * INCH}, [("fill", "P513")]),
    ("garland", {**SWAG, "shares": (D("0.5"), D("0.5"))}, [("shares", "P511")]),
    ("garland", {**SWAG, "shares": (D("0.5"), D("0.3"), D("0.1"))}, [("shares", "P511")]),
    ("garland", {**SWAG, "filler_shares": (D("0.5"), D("0.5"))}, [("filler_shares", "P511")]),
    ("garland", {**SWAG, "filler_size_shares": (D(1),)}, [("filler_size_shares", "P511")]),
    ("garland", {**without(SWAG, "filler_size_shares"), "filler_sizes": (5, 7)}, [("filler_sizes", "P525")]),
    ("garland", {**SWAG, "filler_colours": ("mauve",)}, [("filler_colours", "P504")] * 3),
    ("garland", {**SWAG, "frame": "Pole 8 ft"}, [("frame", "P518")]),
], ids=lambda value: value if isinstance(value, str) else "")
def test_refusals_name_the_cell(form, typed, expected):
    outcome = outcome_of(form, **typed)
    assert outcome.value is None
    key_of = {number: key for key, number in COLUMN_OF.items()}
    found = [(key_of[p.place.column], p.code) for p in outcome.problems if p.level is not Level.NOTE]
    assert sorted(found) == expected
    assert all(problem.job == "J1" for problem in outcome.problems)


def test_both_dimensions_that_contradict_are_named():
    (problem,) = outcome_of("garland", **{**SWAG, "length": 15 * FOOT}).problems
    assert "Length is 15 ft" in problem.why and "10 ft with a sag of 2 ft takes 11 ft" in problem.why


def test_a_filler_without_a_usual_fill_is_refused():
    stock = (balloon(Shape.ROUND, 11, "matt", "ivory", 9.5), balloon(Shape.ROUND, 5, "matt", "ivory", None))
    typed = {**STRAIGHT, "colours": ("ivory",), "filler_sizes": (5,), "filler_size_shares": None}
    (problem,) = outcome_of("garland", prices(balloons=stock), **typed).problems
    assert (problem.place.column, problem.code) == (COLUMN_OF["filler_sizes"], "P562")


def test_measures_that_a_route_does_not_use_are_noted():
    outcome = outcome_of("garland", **STRAIGHT, sag=FOOT, width=9 * FOOT)
    assert outcome.value is not None
    assert [(p.place.column, p.code) for p in outcome.problems] == [
        (COLUMN_OF["width"], "P535"), (COLUMN_OF["sag"], "P535")]


def test_the_shop_says_how_full_full_is():
    fuller = planned("garland", prices(fillers_medium=D(8)), **STRAIGHT)
    assert sum(counts(fuller, "filler").values()) == 3 * 2 * 24  # 3.048 m × 8 = 24.4 a face
    assert value(fuller, "fillers per metre") == 8
    assert Fraction(sum(counts(fuller, "spine").values()), 4) == 16


def test_a_garland_too_short_for_fillers_is_its_spine_alone():
    for plan in (planned("garland", **{**STRAIGHT, "length": INCH}),
                 planned("garland", prices(fillers_medium=D(0)), **STRAIGHT)):
        assert not counts(plan, "filler") and counts(plan, "spine")
        assert len(plan.positions) == plan.balloon_count
        assert not any("Fillers" in step.text for step in plan.build_order)
