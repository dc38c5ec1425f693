"""Every form: what it counts, what it refuses and at which cell."""

from __future__ import annotations

import ast
import re
from collections import Counter
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pytest
from forms_price_book import BUILD, COLUMN_OF, FOOT, HARDWARE, INCH, build_row, inches, piece, prices

from quoting.domain.codes import CODES
from quoting.domain.problems import Level
from quoting.forms import patterns
from quoting.forms.fields import fields, pieces_fields
from quoting.forms.patterns import Pattern, walk_colours
from quoting.forms.registry import Form, all_forms, form_named

D = Decimal
PACKAGE = Path(patterns.__file__).parent


def planned(form, book=None, price=None, **typed):
    outcome = form_named(form).plan(piece(form, price, **typed), book or prices())
    assert outcome.value is not None, [str(problem) for problem in outcome.problems]
    return outcome.value


def refused(form, book=None, price=None, **typed):
    """The (cell key, code) of every problem that holds."""
    typed = {key: value for key, value in typed.items() if value is not None}
    outcome = form_named(form).plan(piece(form, price, **typed), book or prices())
    assert outcome.value is None
    key_of = {number: key for key, number in COLUMN_OF.items()}
    assert all(problem.job == "J1" for problem in outcome.problems)
    return sorted((key_of.get(p.place.column, "row"), p.code) for p in outcome.problems if p.level is not Level.NOTE)


def counts(plan):
    found = Counter()
    for part in plan.parts:
        found[part.item] += part.count
    return dict(found)


def tasks(plan):
    return {(task.activity, task.size): task.quantity for task in plan.tasks}


def hired(plan):
    return {need.item: need.count for need in plan.hire}


RING = {"height": 7 * FOOT, "fill": D("9.5") * INCH, "colours": ("ivory", "sage"), "pattern": "spiral"}
FADE = {"height": 7 * FOOT, "foot_fills": inches(10, 8, 5), "middle": "twisters", "turns": D(3), "colours": ("ivory",)}
ARCH = {"width": 10 * FOOT, "height": 8 * FOOT, "curve": "semi-ellipse", "size": 11, "colours": ("ivory", "sage"),
        "pattern": "bands"}


# --- the registry and the fields -----------------------------------------------------


def test_forms_are_found_by_name():
    names = [form.name for form in all_forms()]
    first = {"graduated column", "hire item", "own build", "packed arch", "ring column", "service"}
    assert names == sorted(names) and first <= set(names)
    assert all(form_named(name).name == name for name in names)
    with pytest.raises(KeyError):
        form_named("pyramid")


def test_every_form_has_an_example_of_its_own_fields_with_all_required():
    for form in all_forms():
        keys = {field.key for field in form.fields} | {"title"}
        assert set(form.example) <= keys and form.summary.endswith(".")
        assert {field.key for field in form.fields if field.is_required} <= set(form.example)


def test_fields_say_all_that_a_column_needs():
    known = pieces_fields()
    for form in all_forms():
        for field in form.fields:
            cell = field.schema["cell"]
            assert {"title", "description", "examples"} <= set(field.schema), field.key
            assert cell["fix"] and cell["kind"] and cell["width"] >= 8
            assert field.key == "price" or field.schema == known[field.key]
    with pytest.raises(KeyError):
        fields("girth")


def test_two_forms_of_one_name_are_refused(monkeypatch):
    from quoting.forms import ring_column, service

    monkeypatch.setattr(service, "FORM", ring_column.FORM)
    with pytest.raises(ValueError, match="ring column"):
        all_forms.__wrapped__()
    assert isinstance(ring_column.FORM, Form)


# --- ring columns ---------------------------------------------------------------------


def test_a_column_takes_the_rings_nearest_to_its_height():
    plan = planned("ring column", **RING)
    # (84 − 9.5) ÷ (0.93 × 0.8409 × 9.5) + 1 = 11.03: own arithmetic on the rule of the trade
    assert counts(plan)["11 in matt ivory"] == counts(plan)["11 in matt sage"] == 22
    assert plan.description[0] == "7 ft tall, 11 rings of 4"
    assert plan.outline.height_cm == pytest.approx((9.5 + 10 * 0.93 * 0.84089642 * 9.5) * 2.54, rel=1e-6)
    assert plan.outline.width_cm == pytest.approx(2.414214 * 24.13, rel=1e-6)
    assert tasks(plan)["inflate round", 11] == 44
    assert tasks(plan)["tie cluster", None] == tasks(plan)["build ring", None] == 11
    assert tasks(plan)["set base and pole", None] == tasks(plan)["strike piece", None] == 1


def test_practice_9_to_11_quads_in_six_feet():
    """Common practice, no source: 9–11 quads in a 6 ft column at 9–10 in fill with the usual squeeze."""
    for fill in ("9", "9.5", "10"):
        plan = planned("ring column", height=6 * FOOT, fill=D(fill) * INCH, colours=("ivory",))
        assert 9 <= plan.balloon_count / 4 <= 11


def test_rings_may_be_counted_instead_and_sizes_chosen_by_fill():
    plan = planned("ring column", rings=9, fill=D(8) * INCH, per_ring=3, colours=("ivory",))
    assert counts(plan)["9 in matt ivory"] == 27
    plan = planned("ring column", rings=9, fill=D(8) * INCH, size=11, colours=("ivory",))
    assert counts(plan)["11 in matt ivory"] == 36


def test_a_size_alone_takes_its_usual_fill():
    plan = planned("ring column", rings=2, size=16, colours=("slate",))
    assert plan.parts[0].fill_cm == pytest.approx(14.5 * 2.54)


def test_a_list_of_fills_goes_from_the_floor_up():
    plan = planned("ring column", fills=inches(10, 10, 9, 5), colours=("ivory", "sage"), pattern="bands")
    rings = [(part.item, part.count) for part in plan.parts if part.role == "ring"]
    assert rings == [("11 in matt ivory", 4), ("11 in matt sage", 4), ("9 in matt ivory", 4), ("5 in matt sage", 4)]
    heights = sorted({round(position.y_cm, 6) for position in plan.positions})
    assert len(heights) == 4 and heights[0] == pytest.approx(12.7)


def test_pole_and_base_are_the_usual_that_fit():
    plan = planned("ring column", **RING)
    assert hired(plan) == {"Base plate steel": 1} and counts(plan)["Pole 8 ft"] == 1
    assert "Pole 5 ft" in counts(planned("ring column", **{**RING, "height": 4 * FOOT}))
    assert "Pole 12 ft" in counts(planned("ring column", **{**RING, "height": 10 * FOOT}))  # not usual, but long enough
    bare = planned("ring column", **RING, base="none", pole="None")
    assert not bare.hire and tasks(bare).get(("set base and pole", None)) is None
    assert bare.build_order[0].text.startswith("Rings 1–11")


def test_hired_poles_are_told_their_cut():
    others = (item for item in HARDWARE if item.part != "pole")
    book = prices(hardware=(*others, replace(HARDWARE[3], is_hire=True)))
    plan = planned("ring column", book, **RING)
    assert next(need.cut_cm for need in plan.hire if need.item == "Pole 8 ft") == pytest.approx(plan.outline.height_cm)


# --- graduated columns ----------------------------------------------------------------


def test_twisters_fill_the_middle_exactly():
    plan = planned("graduated column", **FADE)
    assert plan.outline.height_cm == pytest.approx(7 * 30.48)
    assert {k: v for k, v in counts(plan).items() if "matt" in k} == {
        "11 in matt ivory": 8, "9 in matt ivory": 8, "5 in matt ivory": 8}
    assert counts(plan)["Twister 260 ivory"] == 4 * _twisters(plan)
    assert tasks(plan)["wind strand", None] == 4 and tasks(plan)["inflate twister", None] == 4 * _twisters(plan)
    heights = sorted(position.y_cm for position in plan.positions if position.role == "ring")
    assert heights[0] == pytest.approx(5 * 2.54) and heights[-1] == pytest.approx((84 - 5) * 2.54)


def _twisters(plan):
    value = {step.key: step.value for step in plan.workings}
    length = (value["middle height"] ** 2 + (2 * 3.14159265358979 * 1.5 * 3) ** 2) ** 0.5
    usable = 60 * 0.85 * 1.10
    return -int(-length // usable)


def test_twister_strands_take_the_colours_in_turn():
    typed = {**FADE, "colours": ("ivory", "sage", "coral"), "pattern": "bands", "strands": 4, "height": 12 * FOOT}
    plan = planned("graduated column", **typed)
    strands = {part.item: part.count for part in plan.parts if part.role == "strand"}
    each = strands["Twister 260 sage"]
    assert strands == {"Twister 260 ivory": 2 * each, "Twister 260 sage": each, "Twister 260 coral": each}


def test_a_middle_of_rings_is_counted_to_the_height_or_typed():
    plan = planned("graduated column", height=7 * FOOT, foot_fills=inches(10, 8), middle="rings",
                   middle_fill=D(5) * INCH, colours=("ivory",))
    typed = planned("graduated column", rings=18, foot_fills=inches(10, 8), middle="rings",
                    middle_fill=D(5) * INCH, colours=("ivory",))
    assert counts(plan) == counts(typed)
    assert counts(plan)["5 in matt ivory"] == 56
    assert abs(plan.outline.height_cm - 7 * 30.48) < 5 * 2.54 * 0.84 / 2
    ys = sorted({round(p.y_cm, 6) for p in plan.positions})
    mirrored = [round(plan.outline.height_cm - y, 5) for y in reversed(ys)]
    assert mirrored == pytest.approx(ys, abs=1e-4)


# --- arches ---------------------------------------------------------------------------


@pytest.mark.parametrize(("curve", "rings"), [
    # length ÷ (0.93 × 0.84089642 × 9.5 in): lengths of 10 ft × 8 ft by scipy quad; own arithmetic for the rest
    ("semi-ellipse", 33), ("catenary", 32), ("parabola", 32), ("square", 36)])
def test_arches_take_the_rings_nearest_to_their_length(curve, rings):
    plan = planned("packed arch", **{**ARCH, "curve": curve})
    assert plan.balloon_count == 4 * rings
    assert f"{rings} rings of 4" in plan.description[0]
    assert hired(plan)["Base plate steel"] == 2


@pytest.mark.parametrize(
    ("curve", "rings", "bases"), [("semicircle", 25, 2), ("half hoop", 25, 2), ("full hoop", 51, 1)])
def test_the_span_of_a_circle_fixes_its_height(curve, rings, bases):
    fixed = {key: value for key, value in ARCH.items() if key != "height"}
    plan = planned("packed arch", **{**fixed, "curve": curve})
    assert plan.balloon_count == 4 * rings and hired(plan) == {"Base plate steel": bases}
    assert refused("packed arch", **{**ARCH, "curve": curve, "height": 9 * FOOT}) == [("height", "P526")]
    same = planned("packed arch", **{**ARCH, "curve": curve, "height": (10 if curve == "full hoop" else 5) * FOOT})
    assert counts(same) == counts(plan)


def test_arch_balloons_stand_on_the_floor_and_follow_the_curve():
    plan = planned("packed arch", **ARCH)
    places = [(position.x_cm, position.y_cm) for position in plan.positions]
    rings = [places[start : start + 4] for start in range(0, len(places), 4)]
    assert min(p.y_cm - p.diameter_cm / 2 for p in plan.positions) > -1  # the feet of an ellipse lean a little
    for points in rings:
        x, y = (sum(values) / len(points) for values in zip(*points, strict=True))
        assert (x / (5 * 30.48)) ** 2 + (y / (8 * 30.48)) ** 2 == pytest.approx(1, abs=0.01)


def test_frames_are_taken_where_named():
    plan = planned("packed arch", **ARCH, frame="Arch frame 10 ft", base="none")
    assert hired(plan) == {"Arch frame 10 ft": 1}


def test_stands_and_twisters_are_drawn_where_they_stand():
    plan = planned("ring column", **RING)
    plate, pole = plan.drawing
    assert (plate.role, plate.x_cm, pole.role) == ("base", 0.0, "pole")
    assert pole.points == ((0.0, 0.0, 0.0), (0.0, plan.outline.height_cm, 0.0)) and pole.width_cm == pytest.approx(2.54)
    arch = planned("packed arch", **ARCH, frame="Arch frame 10 ft")
    assert [mark.role for mark in arch.drawing] == ["base", "base", "frame"]
    assert max(y for _, y, _ in arch.drawing[2].points) == pytest.approx(8 * 30.48)
    wound = planned("graduated column", **FADE)
    paths = [position.path for position in wound.positions if position.role == "strand"]
    assert len(paths) == 4 and all(len(path) > 10 for path in paths)
    assert all((x * x + z * z) ** 0.5 == pytest.approx(1.5 * 2.54) for path in paths for x, _, z in path)


# --- own builds, hire, services -------------------------------------------------------


def test_an_own_build_counts_row_by_row():
    plan = planned("own build", build="gift corner", length=6 * FOOT, width=5 * FOOT, height=4 * FOOT,
                   colours=("coral", "sage"))
    assert counts(plan) == {"11 in matt coral": 36, "5 in matt sage": 15, "24 in matt sage": 2,
                            "Twister 260 coral": 10, "Paper fan": 2}
    assert hired(plan) == {"Arch frame 10 ft": 1}
    assert tasks(plan)["tie cluster", None] == 9 and tasks(plan)["inflate twister", None] == 3
    assert tasks(plan)["inflate round", 11] == 36 and tasks(plan)["install piece", None] == 1


def test_an_own_build_may_count_rings_and_pieces_only():
    rows = (build_row(2, "balloon", item="11 in matt ivory", amount="3", per="ring"),
            build_row(3, "work", item="build ring", amount="1", per="ring"))
    plan = planned("own build", prices(builds={"Gift corner": rows}), build="Gift corner", rings=7)
    assert counts(plan) == {"11 in matt ivory": 21} and tasks(plan)["build ring", None] == 7
    assert plan.outline is None and not plan.positions


def test_a_hire_item_is_one_need_of_hire():
    plan = planned("hire item", item="backdrop ring")
    assert hired(plan) == {"Backdrop ring": 1} and not plan.parts and not plan.is_labour_only


def test_a_service_is_labour_alone():
    plan = planned("service", price=D("120.00"))
    assert plan.is_labour_only and not (plan.parts or plan.tasks or plan.hire)


# --- things tied on -------------------------------------------------------------------


@pytest.mark.parametrize(("form", "typed"), [("ring column", RING), ("graduated column", FADE), ("packed arch", ARCH)])
def test_toppers_accents_and_wraps_go_on_every_built_form(form, typed):
    bare = planned(form, **typed)
    plan = planned(form, **typed, topper="18 in foil silver", accents=((3, "Paper fan"), (2, "18 in foil silver")),
                   wrap="Twister 260 sage", wrap_turns=D(3))
    by_role = {role: sum(p.count for p in plan.parts if p.role == role) for role in ("topper", "accent", "wrap")}
    assert by_role["topper"] == 1 and by_role["accent"] == 5 and by_role["wrap"] >= 4
    assert tasks(plan)["attach accent", None] == 5
    assert tasks(plan)["attach topper", None] == tasks(plan)["attach wrap", None] == 1
    assert plan.outline.height_cm == pytest.approx(bare.outline.height_cm + 17 * 2.54)
    assert "Topper: 18 in foil silver" in plan.description
    assert ("Topper cup" in counts(plan)) == (form != "packed arch")
    assert len(plan.positions) == plan.balloon_count


def test_more_turns_never_take_less_wrap():
    used = [planned("ring column", **RING, wrap="Twister 260 sage", wrap_turns=D(turns)).parts[-1].count
            for turns in range(8)]
    assert used == sorted(used) and used[0] == 2  # 84 in ÷ 56.1 in


def test_a_bought_ribbon_winds_too():
    plan = planned("ring column", **RING, wrap="Ribbon 25 yd", wrap_turns=D(40))
    assert counts(plan)["Ribbon 25 yd"] == 4  # about 2,880 in of helix in rolls of 900 in


def test_topper_fill_is_kept_under_the_nominal_size():
    plan = planned("ring column", **RING, topper="36 in matt ivory", topper_fill=D(30) * INCH)
    assert next(p.fill_cm for p in plan.parts if p.role == "topper") == pytest.approx(76.2)
    too_much = refused("ring column", **RING, topper="36 in matt ivory", topper_fill=D(37) * INCH)
    assert too_much == [("topper_fill", "P502")]


# --- refusals: at which cell ------------------------------------------------------------


MIDDLE = {"middle": "rings", "middle_fill": D(5) * INCH, "turns": None}


def without(typed, *keys):
    return {key: value for key, value in typed.items() if key not in keys}


@pytest.mark.parametrize(("form", "typed", "expected"), [
    ("ring column", without(RING, "fill"), [("fill", "P501")]),
    ("ring column", {**RING, "size": 9}, [("fill", "P502")]),
    ("ring column", {**RING, "fill": D(40) * INCH}, [("fill", "P503")]),
    ("ring column", {**RING, "size": 10}, [("size", "P525")]),
    ("ring column", {**without(RING, "fill"), "size": 10}, [("size", "P525")]),
    ("ring column", {**RING, "colours": ("ivroy", "sage")}, [("colours", "P504")]),
    ("ring column", {**RING, "colours": ("ivory", "gold")}, [("colours", "P505")]),
    ("ring column", {**without(RING, "fill"), "size": 11, "colours": ("ivory", "mauve")}, [("colours", "P504")]),
    ("ring column", without(RING, "pattern"), [("pattern", "P506")]),
    ("ring column", {**RING, "pattern": "solid"}, [("colours", "P507")]),
    ("ring column", {**RING, "colours": ("ivory", "sage", "coral")}, [("colours", "P508")]),
    ("ring column", {**RING, "pattern": "blocks", "blocks": (3, 4)}, [("blocks", "P509")]),
    ("ring column", {**RING, "pattern": "blocks", "blocks": (11,)}, [("blocks", "P509")]),
    ("ring column", {**RING, "pattern": "blocks"}, [("blocks", "P510")]),
    ("ring column", {**RING, "pattern": "mix", "shares": (D("0.6"),)}, [("shares", "P511")]),
    ("ring column", {**RING, "pattern": "mix", "shares": (D("0.6"), D("0.3"))}, [("shares", "P511")]),
    ("ring column", without(RING, "height"), [("height", "P512")]),
    ("ring column", {**RING, "rings": 9}, [("rings", "P513")]),
    ("ring column", {**RING, "fills": inches(10, 9)}, [("fill", "P513"), ("height", "P513")]),
    ("ring column", {**without(RING, "fill", "height"), "fills": inches(10, 9), "rings": 3}, [("rings", "P513")]),
    ("ring column", {**without(RING, "fill", "height"), "fills": inches(30, 5)}, [("fills", "P514")]),
    ("ring column", {**RING, "height": 20 * FOOT}, [("pole", "P516")]),
    ("ring column", {**RING, "per_ring": 2}, [("pole", "P516")]),
    ("ring column", {**RING, "height": 10 * FOOT, "per_ring": 3, "colours": ("ivory",)}, [("pole", "P516")]),  # 1.47 in
    ("ring column", {**RING, "pole": "Pole 5 ft"}, [("pole", "P517")]),
    ("ring column", {**RING, "pole": "Fat pole 8 ft"}, [("pole", "P517")]),
    ("ring column", {**RING, "pole": "Base plate small"}, [("pole", "P518")]),
    ("ring column", {**RING, "base": "Base plate gold"}, [("base", "P520")]),
    ("ring column", {**RING, "topper": "Foil moon"}, [("topper", "P520")]),
    ("ring column", {**RING, "accents": ((2, "Foil moon"),)}, [("accents", "P520")]),
    ("ring column", {**RING, "wrap": "Twister 260 sage"}, [("wrap_turns", "P533")]),
    ("ring column", {**RING, "wrap": "Paper fan", "wrap_turns": D(3)}, [("wrap", "P534")]),
    ("ring column", {**RING, "height": D("1E6")}, [("height", "P537")]),
    ("ring column", {**RING, "accents": ((10**9, "18 in foil silver"),)}, [("accents", "P537")]),
    ("ring column", {**RING, "wrap": "Twister 260 sage", "wrap_turns": D(10**9)}, [("wrap_turns", "P537")]),
    ("graduated column", {**FADE, "height": D(10**12), "pole": "none"}, [("height", "P537")]),
    ("own build", {"build": "Gift corner", "length": D(10**12), "width": FOOT, "height": FOOT,
                   "colours": ("coral", "sage")}, [("build", "P537")] * 3),
    ("ring column", without(RING, "colours"), [("colours", "P538")]),
    ("graduated column", without(FADE, "turns"), [("turns", "P523")]),
    ("graduated column", without(FADE, "height"), [("height", "P515")]),
    ("graduated column", {**FADE, "height": 3 * FOOT}, [("height", "P522")]),
    ("graduated column", {**FADE, "colours": ("slate",)}, [("colours", "P504")]),
    ("graduated column", {**FADE, "foot_fills": inches(10, 40)}, [("foot_fills", "P503")]),
    ("graduated column", {**FADE, "foot_fills": inches(32, 5)}, [("foot_fills", "P514")]),
    ("graduated column", {**FADE, "twister": "160"}, [("colours", "P504")]),
    ("graduated column", {**without(FADE, "turns"), "middle": "rings"}, [("middle_fill", "P523")]),
    ("graduated column", {**FADE, **MIDDLE, "height": None, "rings": 6}, [("rings", "P524")]),
    ("graduated column", {**FADE, **MIDDLE, "rings": 9}, [("rings", "P513")]),
    ("graduated column", {**FADE, **MIDDLE, "height": None}, [("height", "P512")]),
    ("graduated column", {**FADE, **MIDDLE, "height": 3 * FOOT}, [("height", "P522")]),
    ("packed arch", without(ARCH, "height"), [("height", "P515")]),
    ("packed arch", without(ARCH, "curve", "width"), [("curve", "P538"), ("width", "P538")]),
    ("packed arch", {**ARCH, "width": 1 * FOOT}, [("width", "P527")]),
    ("packed arch", {**ARCH, "frame": "Backdrop ring"}, [("frame", "P517")]),
    ("packed arch", {**ARCH, "width": D("1E6"), "height": D("1E6")}, [("width", "P537")]),
    ("own build", {"build": "Swan"}, [("build", "P520")]),
    ("own build", {"build": "Gift corner", "colours": ("coral", "sage")},
     [("height", "P528"), ("length", "P528"), ("length", "P528"), ("width", "P528")]),
    ("own build", {"build": "Gift corner", "length": FOOT, "width": FOOT, "height": FOOT, "colours": ("coral",)},
     [("colours", "P529")]),
    ("hire item", {"item": "Pole 8 ft"}, [("item", "P531")]),
    ("hire item", {"item": "Moon"}, [("item", "P520")]),
    ("service", {}, [("price", "P532")]),
], ids=lambda value: value if isinstance(value, str) else "")
def test_refusals_name_the_cell(form, typed, expected):
    assert refused(form, **typed) == expected


def test_a_shop_without_base_plates_is_told_so():
    bare = tuple(item for item in HARDWARE if item.part != "base plate")
    assert refused("ring column", prices(hardware=bare), **RING) == [("base", "P519")]


@pytest.mark.parametrize("fills", [(8, 9), (None,)])
def test_a_size_without_one_usual_fill_asks_for_the_fill(fills):
    from forms_price_book import Shape, balloon

    stock = tuple(balloon(Shape.ROUND, 9, "matt", f"colour {n}", fill) for n, fill in enumerate(fills))
    colours = tuple(b.colour for b in stock)
    typed = {"height": 7 * FOOT, "size": 9, "colours": colours, "pattern": "bands"}
    assert refused("ring column", prices(balloons=stock), **typed) == [("fill", "P521")]


@pytest.mark.parametrize("changed", [
    {"item": "Moon"}, {"item": "", "size": None}, {"item": "5 in matt ivory", "fill": 6}])
def test_a_build_row_that_fails_is_named_in_its_sheet(changed):
    row = build_row(5, "balloon", **changed)
    outcome = form_named("own build").plan(
        piece("own build", build="Gift corner"), prices(builds={"Gift corner": (row,)}))
    assert [(p.code, str(p.place)) for p in outcome.problems] == [("P530", "prices.xlsx, Builds, row 5")]


def test_unused_fields_are_noted_and_stop_nothing():
    typed = {**RING, "shares": (D("0.5"), D("0.5")), "blocks": (3,), "wrap_turns": D(3), "topper_fill": D(20)}
    outcome = form_named("ring column").plan(piece("ring column", **typed), prices())
    assert outcome.value is not None
    assert [(p.code, p.level) for p in outcome.problems] == [("P535", Level.NOTE)] * 4


def test_close_names_and_finishes_are_offered():
    outcome = form_named("ring column").plan(piece("ring column", **{**RING, "colours": ("ivroy", "gold")}), prices())
    fixes = " ".join(problem.fix for problem in outcome.problems)
    assert "ivory" in fixes and "metallic gold" in fixes and "pearl gold" in fixes
    named = planned("ring column", **{**RING, "colours": ("metallic gold", "sage")})
    assert counts(named)["11 in metallic gold"] == 22


def test_every_code_of_the_forms_is_used():
    used = set()
    for path in PACKAGE.glob("*.py"):
        tree = ast.walk(ast.parse(path.read_text("utf-8")))
        used |= {n.value for n in tree if isinstance(n, ast.Constant) and re.fullmatch(r"P5\d\d", str(n.value))}
    assert used == {code for code in CODES if code.startswith("P5")}


# --- patterns ---------------------------------------------------------------------------


def walked(name, colours, rings=5, per_ring=4, **more):
    return walk_colours(Pattern(name=name, colours=tuple("abcdef"[:colours]), **more), rings, per_ring)


def test_walks():
    assert walked("solid", 1, rings=2) == ((0,) * 4,) * 2
    assert walked("spiral", 2, rings=2) == ((0, 1, 0, 1),) * 2
    assert [ring[0] for ring in walked("bands", 3)] == [0, 1, 2, 0, 1]
    assert [ring[0] for ring in walked("blocks", 3, blocks=(1, 3))] == [0, 1, 1, 1, 2]
    assert [ring[0] for ring in walked("blocks", 2, blocks=(2, 3))] == [0, 0, 1, 1, 1]
    assert walked("mix", 2, rings=2, shares=(Fraction(3, 4), Fraction(1, 4))) == ((0, 0, 1, 0), (0, 0, 1, 0))


def test_a_mix_uses_the_largest_remainder_and_spreads_evenly():
    flat = sum(walked("mix", 3, rings=10, shares=(Fraction(1, 3),) * 3), ())
    assert Counter(flat) == {0: 14, 1: 13, 2: 13}
    for start in range(0, 40 - 6):
        window = Counter(flat[start : start + 6])
        assert all(1 <= window[colour] <= 3 for colour in range(3))


def test_own_build_rows_cover_every_way_to_count():
    assert {row.per for row in BUILD} | {"ring", "square metre"} == {
        "piece", "foot", "metre", "square foot", "square metre", "ring"}
