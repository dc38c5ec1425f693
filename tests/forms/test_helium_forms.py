"""Line arches, air lines, strands, bouquets, scatters, centrepieces: counts, lift, weights."""

from __future__ import annotations

import math
from decimal import Decimal

import pytest
from forms_price_book import FOOT, HARDWARE, INCH, Shape, balloon, hardware, piece, prices
from helium_form_cases import ARCH, BOUQUET, FOILS, LINE, PIECE, SCATTER, STRAND
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.optimize import brentq

from quoting.forms.registry import form_named

D = Decimal
IN = 2.54
LIFT_AT_20 = 1.03769
"""Grams per litre at 20 °C and 101.325 kPa, ideal gases; computed outside this project's code."""


def planned(form, book=None, **typed):
    typed = {key: value for key, value in typed.items() if value is not None}
    found = form_named(form).plan(piece(form, **typed), book or prices())
    assert found.value is not None, [str(problem) for problem in found.problems]
    return found.value


def value(plan, key):
    return next(step.value for step in plan.workings if step.key == key)


def counts(plan, role):
    return {part.item: part.count for part in plan.parts if part.role == role}


def tasks(plan):
    return {(task.activity, task.size): task.quantity for task in plan.tasks}


# --- line arches ------------------------------------------------------------------------


def test_a_line_arch_has_a_balloon_at_each_spacing_and_one_more():
    """Length of the catenary, 16 ft wide and 8 ft high, by scipy's brentq and quad."""
    a = brentq(lambda a: a * (math.cosh(8 / a) - 1) - 8, 1, 50)
    length = 2 * quad(lambda x: math.cosh(x / a), 0, 8)[0]
    plan = planned("line arch", **ARCH)
    assert value(plan, "length") == pytest.approx(12 * length, rel=1e-9)
    assert plan.balloon_count == math.floor(length) + 1 == 24
    assert counts(plan, "helium") == {"11 in matt ivory": 12, "11 in matt sage": 12}
    assert counts(plan, "weight") == {"Balloon weight": 2}
    assert tasks(plan)["inflate round with helium", 11] == tasks(plan)["tie on line", None] == 24
    first, last = plan.positions[0], plan.positions[-1]
    assert (first.x_cm, last.x_cm) == pytest.approx((-96 * IN, 96 * IN))
    assert max(p.y_cm for p in plan.positions) <= (96 + 9.5 / 2) * IN + 1e-6
    assert plan.outline.height_cm == pytest.approx((96 + 9.5) * IN)


def test_the_lift_of_a_line_arch_and_the_pull_at_its_ends():
    plan = planned("line arch", **ARCH)
    litres = 1.15 * math.pi / 6 * (9.5 * IN) ** 3 / 1000
    net = 24 * (litres * LIFT_AT_20 - 2.8)  # 2.8 g: starting table, common practice, no source
    assert plan.gas_litres == pytest.approx(24 * litres)
    assert plan.outline.net_lift_g == pytest.approx(net, rel=1e-4)
    # The two ends carry the whole lift: up, half of it each; and along the line more than that, by its slope there.
    u = value(plan, "shape 14")
    up = value(plan, "pull") * math.tanh(u)  # sin of the slope of a catenary at its end, tan of which is sinh u
    assert 2 * up == pytest.approx(net, rel=1e-4)
    assert value(plan, "needed") == pytest.approx(1.5 * value(plan, "pull"))


def test_height_and_length_of_a_line_arch_follow_from_each_other():
    by_height = planned("line arch", **ARCH)
    length = D(str(value(by_height, "length"))) * INCH
    by_length = planned("line arch", **{**ARCH, "height": None, "length": length})
    assert value(by_length, "height") == pytest.approx(96, rel=1e-7)
    assert by_length.parts == by_height.parts
    both = planned("line arch", **{**ARCH, "length": length})
    assert both.parts == by_height.parts


def test_weights_are_as_many_as_hold_the_pull():
    light = prices(hardware=(*HARDWARE, hardware("Pebble", "weight", mass="0.05")))
    plan = planned("line arch", light, **ARCH, weight="Pebble")
    needed = value(plan, "needed")
    assert counts(plan, "weight") == {"Pebble": 2 * math.ceil(needed / 50)}
    assert 50 * (math.ceil(needed / 50) - 1) < needed
    hired = planned("line arch", light, **ARCH, weight="Water weight")
    assert {need.item: need.count for need in hired.hire} == {"Water weight": 2}


def test_a_blank_weight_is_the_usual_one_then_the_lightest_single_one():
    book = prices(hardware=(hardware("Pebble", "weight", mass="0.05"), hardware("Brick", "weight", mass=3),
                            hardware("Bag", "weight", mass=1)))
    assert counts(planned("line arch", book, **ARCH), "weight") == {"Bag": 2}


def test_a_line_is_bought_in_rolls():
    longer = {**ARCH, "width": 60 * FOOT, "height": 50 * FOOT}
    assert counts(planned("line arch", **longer, line="Line 100 ft"), "line") == {"Line 100 ft": 2}
    assert counts(planned("line arch", **longer, line="Line piece"), "line") == {"Line piece": 1}


# --- gas: temperature, altitude, litres of the sheet ---------------------------------------


def test_higher_and_warmer_places_lift_less():
    here, high = planned("line arch", **ARCH), planned("line arch", prices(altitude_cm=D(150000)), **ARCH)
    mass = value(here, "balloon mass")
    ratio = (high.outline.net_lift_g + mass) / (here.outline.net_lift_g + mass)
    assert ratio == pytest.approx(0.8345, rel=1e-3)  # ICAO atmosphere and CoolProp densities at 20 °C, computed
    warm = planned("line arch", prices(room_celsius=D(30)), **ARCH)
    assert warm.outline.net_lift_g < here.outline.net_lift_g
    assert high.gas_litres == warm.gas_litres == here.gas_litres


def stock(**litres):
    return tuple(balloon(Shape.ROUND, 11, "matt", colour, 9.5, litres=litre) for colour, litre in litres.items())


def test_litres_of_the_sheet_go_by_the_cube_of_the_fill_and_without_the_shape():
    book = prices(balloons=stock(ivory="9.0", sage="9.0"))
    plan = planned("line arch", book, **ARCH)
    assert plan.gas_litres == pytest.approx(24 * 9)
    fuller = planned("line arch", book, **ARCH, fill=D("10.45") * INCH)
    assert fuller.gas_litres == pytest.approx(24 * 9 * 1.1**3)


def test_the_two_ways_to_litres_are_never_mixed():
    asked = piece("line arch", **ARCH)
    found = form_named("line arch").plan(asked, prices(balloons=stock(ivory="9.0", sage=None)))
    [note] = found.problems
    assert (note.code, note.place) == ("P556", asked.where("colours"))
    assert "11 in matt sage" in note.why
    assert found.value.gas_litres == pytest.approx(24 * 1.15 * math.pi / 6 * (9.5 * IN) ** 3 / 1000)


def test_the_owners_own_mass_counts():
    heavy = tuple(balloon(Shape.ROUND, 11, "matt", colour, 9.5, mass_g="4.0") for colour in ("ivory", "sage"))
    plan = planned("line arch", prices(balloons=heavy), **ARCH)
    assert value(plan, "balloon mass") == pytest.approx(24 * 4)


# --- bouquets ------------------------------------------------------------------------------


def test_a_bouquet_of_rounds_and_foils():
    plan = planned("helium bouquet", **BOUQUET, **FOILS)
    assert counts(plan, "helium") == {"18 in foil silver": 2, "18 in foil star": 1, "11 in matt ivory": 4,
                                      "11 in matt sage": 3}
    assert counts(plan, "ribbon") == {"Ribbon cut": 10}
    assert tasks(plan)["inflate foil with helium", 18] == 3
    assert tasks(plan)["tie ribbon", None] == 10
    litres = 2 * 14 + 12 + 7 * 1.15 * math.pi / 6 * (9.5 * IN) ** 3 / 1000
    assert plan.gas_litres == pytest.approx(litres)
    # An 18 in foil weighs 9.72 g by the starting table (common practice, no source).
    assert plan.outline.net_lift_g == pytest.approx(litres * LIFT_AT_20 - 3 * 9.72 - 7 * 2.8, rel=1e-4)
    assert value(plan, "needed") == pytest.approx(1.5 * plan.outline.net_lift_g)
    # Tiers of three at 60, 60 − 7.6, 60 − 15.2 and 60 − 22.8 in
    assert value(plan, "ribbon in all") == pytest.approx(10 * 60 - 7.6 * (0 * 3 + 1 * 3 + 2 * 3 + 3))
    assert plan.outline.height_cm == pytest.approx((60 + 17) * IN)


def test_the_height_of_a_bouquet_leaves_its_ribbons():
    plan = planned("helium bouquet", **{**BOUQUET, "ribbon_length": None, "height": 6 * FOOT})
    assert value(plan, "longest") == pytest.approx(72 - 9.5)
    assert max(p.y_cm + p.diameter_cm / 2 for p in plan.positions) == pytest.approx(72 * IN)


@given(st.integers(1, 60), st.integers(2, 9))
@settings(max_examples=40, deadline=None)
def test_ribbons_add_up_and_none_is_shorter_than_half(count, feet):
    plan = planned("helium bouquet", **{**BOUQUET, "count": count, "ribbon_length": feet * FOOT})
    ends = [p.y_cm - p.diameter_cm / 2 for p in plan.positions]
    assert sum(ends) == pytest.approx(value(plan, "ribbon in all") * IN)
    assert min(ends) >= float(feet * FOOT) / 2 - 1e-6


def test_balloons_of_a_tier_stand_side_by_side():
    plan = planned("helium bouquet", **{**BOUQUET, "count": 9})
    for start in (0, 3, 6):
        tier = plan.positions[start : start + 3]
        apart = math.dist((tier[0].x_cm, tier[0].z_cm), (tier[1].x_cm, tier[1].z_cm))
        assert apart == pytest.approx(9.5 * IN)


# --- scatters ------------------------------------------------------------------------------


def test_practice_one_round_per_square_foot_of_ceiling():
    """Common practice, no source: about one 11 in round per square foot."""
    plan = planned("ceiling scatter", **SCATTER)
    assert plan.balloon_count == 120
    assert counts(plan, "helium") == {"11 in matt ivory": 60, "11 in matt sage": 60}
    assert all(abs(p.x_cm) <= 60 * IN and abs(p.z_cm) <= 72 * IN for p in plan.positions)


def test_a_scatter_by_count():
    plan = planned("ceiling scatter", **{**SCATTER, "width": None, "length": None, "count": 50})
    assert plan.balloon_count == 50
    assert plan.outline.width_cm == pytest.approx(30.48 * math.sqrt(50))
    spread = planned("ceiling scatter", **SCATTER, count=50)
    assert spread.balloon_count == 50 and spread.outline.width_cm == pytest.approx(float(10 * FOOT))


def test_ribbons_of_a_scatter_come_from_rolls():
    plan = planned("ceiling scatter", **SCATTER, ribbon="Ribbon 25 yd", ribbon_length=3 * FOOT)
    assert counts(plan, "ribbon") == {"Ribbon 25 yd": 5}  # 360 ft of ribbon, 75 ft a roll
    assert tasks(plan)["tie ribbon", None] == 120
    assert sum(mark.role == "ribbon" for mark in plan.drawing) == 120


# --- air lines, strands, centrepieces ---------------------------------------------------------


def test_an_air_line_lifts_nothing():
    plan = planned("air line", **LINE)
    assert plan.outline.net_lift_g == plan.gas_litres == 0
    assert plan.balloon_count == 13  # a chain 12 ft wide with a sag of 2 ft is 12.85 ft long
    assert tasks(plan)["inflate round", 11] == 13


def test_a_strand_fills_the_height():
    plan = planned("floor-to-ceiling strand", **STRAND)
    assert plan.balloon_count == 11  # 108 in ÷ 9.5 in = 11.4
    assert plan.outline.is_to_ceiling and not planned("centrepiece", **PIECE).outline.is_to_ceiling
    heights = [p.y_cm for p in plan.positions]
    assert heights[0] == pytest.approx(108 * IN / 22) and heights[-1] == pytest.approx(108 * IN * 21 / 22)
    assert counts(plan, "weight") == {"Balloon weight": 1}


def test_a_centrepiece_of_collar_stem_and_cluster():
    plan = planned("centrepiece", **PIECE)
    assert plan.balloon_count == 8
    assert value(plan, "stem") == pytest.approx(28 - 4.5 - 4)
    assert plan.build_order[0].text == "Stand: Pole 5 ft on Base plate steel, pole cut or set to 26 in"
    assert plan.outline.height_cm == pytest.approx(28 * IN)
    top = [p for p in plan.positions if p.y_cm > 20 * IN]
    assert len(top) == 4 and all(p.y_cm == pytest.approx(26 * IN) for p in top)


# --- what is tied on, and where ----------------------------------------------------------------


def accents(plan):
    return [p for p in plan.positions if p.role == "accent"]


@pytest.mark.parametrize(("place", "share"), [("foot", 0.04), ("middle", 0.5), ("top", 0.96)])
def test_accents_go_where_they_are_put(place, share):
    column = {"height": 7 * FOOT, "fill": D("9.5") * INCH, "colours": ("ivory",)}
    plan = planned("ring column", **column, accents=((2, "18 in foil silver"),), accents_at=(place,))
    tall = plan.outline.height_cm
    assert all(p.y_cm == pytest.approx(share * tall) for p in accents(plan))
    assert accents(plan)[0].x_cm == -accents(plan)[1].x_cm != 0


def test_each_accent_may_have_a_place_of_its_own():
    column = {"height": 7 * FOOT, "fill": D("9.5") * INCH, "colours": ("ivory",)}
    both = ((2, "18 in foil silver"), (1, "18 in foil star"))
    plan = planned("ring column", **column, accents=both, accents_at=("foot", "top"))
    heights = {item: {round(p.y_cm) for p in accents(plan) if p.item == item} for _, item in both}
    assert max(heights["18 in foil silver"]) < min(heights["18 in foil star"])
    assert planned("ring column", **column, accents=both) == planned(
        "ring column", **column, accents=both, accents_at=None)


@pytest.mark.parametrize(("part", "kind"), [
    ("ribbon", "Stroke"), ("tassel", "Shape"), ("lights", "Stroke"), ("greenery", "Shape"), ("decoration", "Shape")])
def test_what_is_no_balloon_is_drawn_too(part, kind):
    book = prices(hardware=(*HARDWARE, hardware("Thing", part, length=20)))
    plan = planned("line arch", book, **ARCH, accents=((3, "Thing"),))
    marks = [mark for mark in plan.drawing if mark.role == part]
    bulbs = [mark for mark in marks if part == "lights" and type(mark).__name__ == "Shape"]
    assert [type(mark).__name__ for mark in marks if mark not in bulbs] == [kind] * 3
    assert len(bulbs) >= 3 * (part == "lights")
    assert all(point[1] >= -1 for mark in marks if kind == "Stroke" for point in mark.points)
