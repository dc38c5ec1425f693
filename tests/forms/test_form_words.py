"""What client and crew read of a piece: names, sizes, colours, steps; each case is one an owner stumbled over."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import replace
from decimal import Decimal
from itertools import pairwise

import pytest
from forms_price_book import COLUMN_OF, FOOT, INCH, balloon, balloons, build_row, hardware, inches, piece, prices

from quoting.domain.plans import Plan
from quoting.domain.prices import PriceBook, Shape
from quoting.forms.registry import form_named

D = Decimal
KEY_OF = {number: key for key, number in COLUMN_OF.items()}


def planned(form: str, book: PriceBook | None = None, **typed: object) -> tuple[Plan, list[tuple[str, str]]]:
    """A plan that must come out, and the (cell key, code) of its notes."""
    outcome = form_named(form).plan(piece(form, **typed), book or prices())
    assert outcome.value is not None, [str(problem) for problem in outcome.problems]
    return outcome.value, [(KEY_OF[p.place.column], p.code) for p in outcome.problems]


# --- own builds and hire items: what the client is promised -----------------------------


CORNER = (
    build_row(2, "balloon", size=11, place=1, amount="20"),
    build_row(3, "balloon", size=5, place=2, amount="8"),
    build_row(4, "balloon", item="18 in foil star", amount="2"),
    build_row(5, "hardware", item="Paper fan", amount="3"),
    build_row(6, "hardware", item="Base plate small", amount="1"),
)


def test_an_own_build_says_its_name_and_what_is_in_it():
    plan, notes = planned("own build", prices(builds={"Gift corner": CORNER}), build="gift corner",
                          colours=("ivory", "sage"))
    assert plan.title == "Gift corner"
    assert plan.description == ("28 balloons in ivory and sage", "With 2 × 18 in foil star, 3 × Paper fan")
    assert notes == []


def test_a_colour_that_a_build_never_uses_is_noted_and_not_promised():
    plan, notes = planned("own build", prices(builds={"Gift corner": CORNER}), build="Gift corner",
                          colours=("ivory", "sage", "coral"))
    assert notes == [("colours", "P563")]
    assert not [line for line in plan.description if "coral" in line]


def test_the_colours_of_a_build_are_those_its_balloons_have():
    rows = (build_row(2, "balloon", item="24 in clear clear", amount="1"), build_row(3, "balloon", size=11, place=2))
    plan, notes = planned("own build", prices(builds={"Gift corner": rows}), build="Gift corner",
                          colours=("ivory", "sage"))
    assert plan.description == ("2 balloons in clear and sage",) and notes == [("colours", "P563")]


def test_a_short_piece_promises_only_the_bands_it_has():
    typed = {"fill": D("9.5") * INCH, "pattern": "bands", "colours": ("ivory", "sage", "coral")}
    plan, notes = planned("ring column", rings=2, **typed)
    assert plan.description[1] == "Ivory and sage in bands" and notes == [("colours", "P563")]
    plan, notes = planned("ring column", rings=1, **typed)
    assert plan.description[1] == "Ivory" and notes == [("colours", "P563")]
    assert planned("ring column", rings=3, **typed)[1] == []


def test_a_hire_item_is_called_by_its_name():
    assert planned("hire item", item="backdrop ring")[0].title == "Backdrop ring"


# --- sizes: what was typed and what is built -----------------------------------------------


def test_an_arch_says_its_span_and_what_it_comes_to():
    plan, _ = planned("packed arch", width=8 * FOOT, curve="semicircle", size=11, colours=("ivory",))
    words = plan.description[0]
    assert words.startswith("Semicircle arch, 8 ft between the middles of its feet, 9 ft 11 in over all and ")
    assert plan.outline.width_cm == pytest.approx(float(8 * FOOT) + plan.outline.depth_cm)
    hoop, _ = planned("packed arch", width=8 * FOOT, curve="full hoop", size=11, colours=("ivory",))
    assert "8 ft from middle to middle of its balloons, 9 ft 11 in over all" in hoop.description[0]
    legs, _ = planned("arch on legs", width=8 * FOOT, leg=4 * FOOT, curve="semicircle", size=11, colours=("ivory",))
    assert "8 ft between the middles of its feet, 9 ft 11 in over all" in legs.description[0]
    demi, _ = planned("demi-arch", width=5 * FOOT, height=7 * FOOT, size=11, colours=("ivory",))
    assert "5 ft from the middle of its foot to its tip, 6 ft 11 in over all" in demi.description[0]


COLUMN = {"rings": 7, "fill": D("9.5") * INCH, "colours": ("ivory",)}
FADE = {"height": 7 * FOOT, "foot_fills": inches(10, 8, 5), "middle": "twisters", "turns": D(3), "colours": ("ivory",)}
ARCH = {"width": 8 * FOOT, "curve": "semicircle", "size": 11, "colours": ("ivory",)}


@pytest.mark.parametrize(("form", "typed"), [
    ("ring column", COLUMN), ("graduated column", FADE), ("packed arch", ARCH),
    ("arch on legs", {**ARCH, "leg": 3 * FOOT}),
])
def test_the_quote_says_the_height_with_a_topper_that_the_crew_reads(form, typed):
    bare, _ = planned(form, **typed)
    plan, _ = planned(form, **typed, topper="18 in foil star")
    tall = round(plan.outline.height_cm / 2.54)
    feet, inches_over = divmod(tall, 12)
    words = f"{feet} ft {inches_over} in" if inches_over else f"{feet} ft"
    assert f" tall, {words} with its topper" in plan.description[0]
    assert "with its topper" not in bare.description[0]


def test_a_topper_wider_than_the_ring_is_in_the_width():
    bare, _ = planned("ring column", **COLUMN)
    foil, _ = planned("ring column", **COLUMN, topper="36 in matt ivory")
    assert bare.outline.width_cm == bare.outline.depth_cm == pytest.approx(2.414214 * 24.13, rel=1e-6)
    assert foil.outline.width_cm == foil.outline.depth_cm == pytest.approx(32 * 2.54)
    assert planned("ring column", **COLUMN, topper="18 in foil star")[0].outline.width_cm == bare.outline.width_cm
    wide = next(step.value for step in foil.workings if step.key == "ring width")
    assert wide == pytest.approx(2.414214 * 9.5, rel=1e-6)  # the wrap and the pole still go by the ring


def test_one_of_a_thing_is_not_several():
    plan, _ = planned("ring column", **{**COLUMN, "rings": 1})
    assert plan.description[0].endswith("1 ring of 4")
    wound, _ = planned("graduated column", **{**FADE, "foot_fills": inches(10), "turns": D(1), "strands": 1})
    assert "1 ring of 4 at each end, 1 wound strand of twisters between" in wound.description[0]
    assert any(step.text.startswith("Wind 1 strand, 1 turn, each") for step in wound.build_order)


# --- which balloon a colour and a fill mean -----------------------------------------------


def test_a_twister_of_the_only_finish_stands_in_for_one_not_stocked_and_is_noted():
    """Rounds in pearl and metallic gold, twisters in matt gold alone: the dead end of a gold column."""
    gold = balloon(Shape.TWISTER, 260, "matt", "gold", None)
    # 5 and 11 in are stocked already.
    pearls = [balloon(Shape.ROUND, size, "pearl", "gold", fill) for size, fill in ((9, 8), (12, 10.5))]
    book = prices(balloons=(*balloons(), gold, *pearls))
    typed = {**FADE, "colours": ("pearl gold",)}
    plan, notes = planned("graduated column", book, **typed)
    assert notes == [("colours", "P564")]
    assert {part.item for part in plan.parts if part.role == "strand"} == {"Twister 260 gold"}
    assert [part.item for part in plan.parts if part.role == "ring"] == [
        "11 in pearl gold", "9 in pearl gold", "5 in pearl gold"]


def test_no_other_finish_is_taken_where_two_would_do_or_the_shape_has_the_one_asked_for():
    twisters = [balloon(Shape.TWISTER, 260, finish, "gold", None) for finish in ("matt", "mirror")]
    twisters = [replace(b, item=f"{b.item} {b.finish}") for b in twisters]
    other_size = balloon(Shape.TWISTER, 160, "pearl", "gold", None)
    typed = {**FADE, "colours": ("pearl gold",), "foot_fills": inches(10)}
    for stocked in ((*twisters,), (twisters[0], other_size), ()):
        outcome = form_named("graduated column").plan(
            piece("graduated column", **typed), prices(balloons=(*balloons(), *stocked)))
        assert outcome.value is None
        assert [(KEY_OF[p.place.column], p.code) for p in outcome.problems] == [("colours", "P504")]


def test_the_size_is_the_least_in_which_all_colours_are_stocked():
    """Gold comes in 5 and 11 in only: an 8 in fill takes 11 in rounds, for the ivory between them too."""
    plan, notes = planned("ring column", rings=4, fill=8 * INCH, pattern="bands", colours=("ivory", "pearl gold"))
    assert {part.item for part in plan.parts if part.role == "ring"} == {"11 in matt ivory", "11 in pearl gold"}
    assert notes == []
    plan, _ = planned("ring column", rings=4, fill=8 * INCH, colours=("ivory",))
    assert plan.parts[0].item == "9 in matt ivory"


def test_where_no_size_has_all_colours_the_least_is_named():
    outcome = form_named("ring column").plan(
        piece("ring column", rings=4, fill=12 * INCH, colours=("ivory", "pearl gold"), pattern="bands"), prices())
    assert [(KEY_OF[p.place.column], p.code) for p in outcome.problems] == [("colours", "P504")]
    assert "round 12 in" in str(outcome.problems[0])


# --- the build order ------------------------------------------------------------------------


def steps_of_rings(plan: Plan) -> list[str]:
    return [step.text for step in plan.build_order if step.text.startswith("Ring")]


def ring_counts(plan: Plan) -> tuple[Counter[str], Counter[str]]:
    """Balloons of rings as the parts have them, and as the build order has them."""
    parts, steps = Counter(), Counter()
    for part in plan.parts:
        parts.update({part.item: part.count} if part.role == "ring" else {})
    for step in plan.build_order:
        steps.update({part.item: part.count for part in step.parts if part.role == "ring"})
    return parts, steps


def test_rings_that_take_turns_are_one_step():
    plan, _ = planned("packed arch", width=10 * FOOT, height=8 * FOOT, curve="semi-ellipse", size=11, pattern="bands",
                      colours=("ivory", "sage", "coral"))
    rings = sum(part.count for part in plan.parts if part.role == "ring") // 4
    assert steps_of_rings(plan) == [f"Rings 1–{rings}, in turn: ivory, sage, coral; 4 each at 9.5 in"]
    assert ring_counts(plan)[0] == ring_counts(plan)[1]


def test_a_mix_is_a_few_steps_whatever_its_shares():
    """An arch of a mix took 37 steps, one a ring."""
    for shares in ((), (D("0.5"), D("0.3"), D("0.2")), (D("0.61"), D("0.22"), D("0.17"))):
        typed = {"shares": shares} if shares else {}
        plan, _ = planned("packed arch", width=14 * FOOT, height=9 * FOOT, curve="semi-ellipse", size=11,
                          pattern="mix", colours=("ivory", "sage", "coral"), **typed)
        (text,) = steps_of_rings(plan)
        assert ", in turn: " in text or (", mixed, 4 each at 9.5 in: " in text and text.endswith("spread evenly"))
        assert ring_counts(plan)[0] == ring_counts(plan)[1]
        assert {p.layer for p in plan.positions} <= {step.number for step in plan.build_order}


def test_the_kinds_of_rings_of_a_mix_add_up():
    plan, _ = planned("ring column", rings=11, fill=D("9.5") * INCH, pattern="mix", colours=("ivory", "sage"),
                      shares=(D("0.7"), D("0.3")))
    (text,) = steps_of_rings(plan)
    assert text == ("Rings 1–11, mixed, 4 each at 9.5 in: 9 rings of 3 ivory + 1 sage, 2 rings of 2 ivory + 2 sage,"
                    " spread evenly")


def test_fills_in_turn_are_one_step_and_a_change_is_another():
    plan, _ = planned("ring column", fills=inches(10, 8), repeat=True, rings=6, colours=("ivory",))
    assert steps_of_rings(plan) == ["Rings 1–6, in turn: 4 ivory at 10 in, 4 ivory at 8 in"]
    plan, _ = planned("ring column", rings=7, fill=D("9.5") * INCH, pattern="blocks", colours=("ivory", "sage"),
                      blocks=(3, 4))
    assert steps_of_rings(plan) == ["Rings 1–3, each: 4 × 11 in matt ivory at 9.5 in",
                                    "Rings 4–7, each: 4 × 11 in matt sage at 9.5 in"]


def test_hardware_of_a_topper_has_its_own_measures():
    book = prices(hardware=(*prices().hardware, hardware("Paper star", "decoration", length=30, diameter=28)))
    plan, _ = planned("ring column", book, **COLUMN, topper="Paper star")
    assert plan.outline.width_cm == pytest.approx(28 * 2.54)


# --- what is drawn ---------------------------------------------------------------------------


def test_the_corners_of_a_square_arch_are_drawn_full_and_the_count_stays():
    """Rings: (W + 2H − 2 ring widths) ÷ built pitch; drawn round the corners, no room between two is left empty."""
    plan, _ = planned("packed arch", width=10 * FOOT, height=8 * FOOT, curve="square", size=11, colours=("ivory",))
    ring, pitch = 2.414214 * 9.5, 0.93 * 0.84089642 * 9.5
    assert plan.balloon_count == 4 * round((120 + 2 * 96 - 2 * ring) / pitch) == len(plan.positions)
    places = [(position.x_cm, position.y_cm) for position in plan.positions]
    rings = [places[start : start + 4] for start in range(0, len(places), 4)]
    middles = [tuple(sum(values) / 4 for values in zip(*points, strict=True)) for points in rings]
    steps = [math.dist(one, other) for one, other in pairwise(middles)]
    assert max(steps) < 1.2 * pitch * 2.54 and max(steps) < 1.03 * min(steps)


def test_ribbons_of_a_ceiling_scatter_hang_apart():
    """Seen from the front, ribbons of several rows were drawn in line: bars instead of ribbons."""
    for width, length in ((14, 9), (10, 12), (12, 12), (8, 20), (16, 6)):
        plan, _ = planned("ceiling scatter", width=width * FOOT, length=length * FOOT, size=11, colours=("ivory",),
                          ribbon="Ribbon 25 yd", ribbon_length=3 * FOOT)
        across = sorted(position.x_cm for position in plan.positions)
        assert len(across) == width * length
        room = across[-1] - across[0]
        close = sum(later - earlier < 0.25 * room / len(across) for earlier, later in pairwise(across))
        assert close < 0.1 * len(across), (width, length, close)
        half = (float(width * FOOT) - 24.13) / 2
        assert -half - 1e-6 <= across[0] < -0.7 * half and 0.7 * half < across[-1] <= half + 1e-6
