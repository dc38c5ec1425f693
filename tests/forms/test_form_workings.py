"""The workings of every form: live formulas that come to the counts we used, in real office software."""

from __future__ import annotations

import re
from decimal import Decimal

import area_form_cases
import helium_form_cases
import line_form_cases
import office
import openpyxl
import pytest
import xlsxwriter
from forms_price_book import FOOT, INCH, inches, piece, prices

from quoting.forms.registry import all_forms, form_named

D = Decimal
TIED = {"topper": "18 in foil silver", "accents": ((3, "Paper fan"), (2, "18 in foil silver")),
        "wrap": "Twister 260 sage", "wrap_turns": D("2.5")}
TWO, THREE = ("ivory", "sage"), ("ivory", "sage", "coral")
MIX = {"pattern": "mix", "shares": (D("0.55"), D("0.3"), D("0.15")), "colours": THREE}
COLUMN = {"height": 7 * FOOT, "fill": D("9.5") * INCH}
RINGS = {"height": 8 * FOOT, "foot_fills": inches(10, 10, 8), "middle": "rings", "middle_fill": D(5) * INCH}
WOUND = {"height": 9 * FOOT, "foot_fills": inches(10, 8, 5), "middle": "twisters", "turns": D(4)}
ARCH = {"width": 10 * FOOT, "height": 8 * FOOT, "size": 11, "colours": THREE, "pattern": "bands"}
HOOP = {"width": 7 * FOOT, "size": 9, "colours": TWO, "pattern": "spiral"}
BUILD = {"build": "Gift corner", "length": 6 * FOOT, "width": 5 * FOOT, "height": 4 * FOOT, "colours": TWO}
# Halfway between five and six quads of 20 cm at a tightness of 0.93: six.
TIE = D(str(20 + 4.5 * 0.93 * 20 * 2**-0.25))

CASES = {
    "column spiral": ("ring column", {**COLUMN, "colours": TWO, "pattern": "spiral", **TIED}),
    "column bands": ("ring column", {**COLUMN, "colours": THREE, "pattern": "bands", "per_ring": 3}),
    "column blocks": ("ring column", {**COLUMN, "colours": THREE, "pattern": "blocks", "blocks": (3, 4)}),
    "column full blocks": ("ring column", {**COLUMN, "colours": THREE, "pattern": "blocks", "blocks": (3, 4, 4)}),
    "column mix": ("ring column", {**COLUMN, **MIX, "per_ring": 5}),
    "column thirds": ("ring column", {**COLUMN, **MIX, "shares": (D("0.33"),) * 3}),
    "column rings": ("ring column", {"rings": 6, "fill": D(20), "colours": ("ivory",), "per_ring": 6}),
    "column one ring": ("ring column", {"height": D(5), "fill": D(20), "colours": ("ivory",)}),
    "column list": ("ring column", {"fills": inches(10, 10, 9, 5, 5, 9, 4, 10), "colours": THREE, "pattern": "bands"}),
    "column list mix": ("ring column", {"fills": inches(10, 10, 9, 5, 5, 9), **MIX}),
    "column tie": ("ring column", {"height": TIE, "fill": D(20), "colours": ("ivory",)}),
    "graduated rings": ("graduated column", {**RINGS, "colours": TWO, "pattern": "bands", **TIED}),
    "graduated mix": ("graduated column", {**RINGS, **MIX, "per_ring": 5}),
    "graduated blocks": ("graduated column", {**RINGS, "colours": THREE, "pattern": "blocks", "blocks": (2, 9)}),
    "graduated typed": (
        "graduated column", {**RINGS, "height": None, "rings": 17, "colours": TWO, "pattern": "bands"}),
    "graduated wound": ("graduated column", {**WOUND, "colours": THREE, "pattern": "bands", "strands": 4, **TIED}),
    "graduated wound one": ("graduated column", {**WOUND, "foot_fills": inches(10), "colours": ("sage",)}),
    "graduated wound mix": ("graduated column", {**WOUND, **MIX}),
    **{f"arch {curve}": ("packed arch", {**ARCH, "curve": curve, "frame": "Arch frame 10 ft", **TIED})
       for curve in ("semi-ellipse", "catenary", "parabola", "square")},
    "arch flat chain": ("packed arch", {**ARCH, "curve": "catenary", "width": 30 * FOOT, "height": FOOT}),
    "arch tall chain": ("packed arch", {**ARCH, "curve": "catenary", "width": 3 * FOOT, "height": 20 * FOOT}),
    "arch flat ellipse": ("packed arch", {**ARCH, "curve": "semi-ellipse", "width": 30 * FOOT, "height": FOOT}),
    **{f"arch {curve}": ("packed arch", {**HOOP, "curve": curve})
       for curve in ("semicircle", "half hoop", "full hoop")},
    "arch mix": ("packed arch", {**ARCH, **MIX, "curve": "parabola"}),
    "build": ("own build", {**BUILD, **TIED}),
    "hire": ("hire item", {"item": "Backdrop ring"}),
    "service": ("service", {}),
    **line_form_cases.CASES,
    **helium_form_cases.CASES,
    **area_form_cases.CASES,
}
KEY = re.compile(r"\{([^{}]+)\}")


def planned(name, unit="in", **changed):
    form, typed = CASES[name]
    typed = {key: value for key, value in {**typed, **changed}.items() if value is not None}
    outcome = form_named(form).plan(piece(form, D(50) if form == "service" else None, **typed), prices(unit))
    assert outcome.value is not None, [str(problem) for problem in outcome.problems]
    return outcome.value


def write_sheet(book, name, plan, givens):
    """Column A keys, column B values: givens as numbers, the rest as formulas."""
    sheet = book.add_worksheet(name)
    rows = {step.key: number for number, step in enumerate(plan.workings, 1)}
    for step in plan.workings:
        row = rows[step.key]
        sheet.write_string(row - 1, 0, step.key)
        if step.formula:
            formula = KEY.sub(lambda found: f"B{rows[found[1]]}", step.formula)
            sheet.write_formula(row - 1, 1, f"={formula}", None, float(step.value))
        else:
            sheet.write_number(row - 1, 1, float(givens[step.key]))


@pytest.mark.parametrize("name", CASES)
@pytest.mark.parametrize("unit", ["in", "cm"])
def test_steps_refer_to_earlier_steps_and_carry_the_plan(name, unit):
    plan = planned(name, unit)
    seen = set()
    for step in plan.workings:
        assert step.key not in seen, f"{step.key} stands twice"
        assert set(KEY.findall(step.formula)) <= seen, step
        assert step.label
        seen.add(step.key)
    value = {step.key: step.value for step in plan.workings}
    assert [value[f"part {n}"] for n in range(1, len(plan.parts) + 1)] == [part.count for part in plan.parts]
    assert [value[f"task {n}"] for n in range(1, len(plan.tasks) + 1)] == [task.quantity for task in plan.tasks]
    assert [value[f"hire {n}"] for n in range(1, len(plan.hire) + 1)] == [need.count for need in plan.hire]
    assert f"part {len(plan.parts) + 1}" not in value


def test_a_tie_takes_the_taller_through_all_the_float_noise():
    for unit in ("in", "cm"):
        assert planned("column tie", unit).balloon_count == 4 * 6


@pytest.mark.parametrize("name", CASES)
def test_what_is_drawn_and_built_is_what_is_counted(name):
    plan = planned(name)
    built = sum(part.count for step in plan.build_order for part in step.parts)
    assert built == sum(part.count for part in plan.parts)
    assert [step.number for step in plan.build_order] == list(range(1, len(plan.build_order) + 1))
    assert len(plan.positions) + plan.hidden == plan.balloon_count
    if plan.form == "own build":  # a recipe says nothing of where its balloons hang
        assert not plan.positions
        return
    drawn, counted = {}, {}
    for position in plan.positions:
        key = (position.item, position.role, round(position.diameter_cm, 6))
        drawn[key] = drawn.get(key, 0) + 1
    for part in plan.parts:
        if part.fill_cm is not None:
            key = (part.item, part.role, round(part.fill_cm, 6))
            counted[key] = counted.get(key, 0) + part.count
    unseen = {key: counted[key] - drawn.get(key, 0) for key in counted}
    assert set(drawn) <= set(counted) and all(count >= 0 for count in unseen.values())
    assert sum(unseen.values()) == plan.hidden
    assert {position.layer for position in plan.positions} <= {step.number for step in plan.build_order}


@pytest.mark.office
def test_office_software_comes_to_the_same_counts(tmp_path):
    path = tmp_path / "workings.xlsx"
    with xlsxwriter.Workbook(path) as book:
        for name in CASES:
            for unit in ("in", "cm"):
                plan = planned(name, unit)
                write_sheet(book, f"{name} {unit}", plan, {step.key: step.value for step in plan.workings})
    count, differing = office.formulas_that_differ([path], tmp_path / "office")
    assert not differing
    assert count > 1000


CHANGES = {
    "column spiral": {"height": 9 * FOOT, "fill": D(8) * INCH, "wrap_turns": D(7)},
    "column bands": {"height": 6 * FOOT, "per_ring": 4},
    "column blocks": {"height": 9 * FOOT, "blocks": (4, 1)},
    "column mix": {"height": 6 * FOOT, "shares": (D("0.2"), D("0.2"), D("0.6"))},
    "column list": {"fills": inches(11, 11, 8, 5, 5, 8, 4, 11)},
    "column list mix": {"shares": (D("0.2"), D("0.5"), D("0.3"))},
    "graduated rings": {"height": 7 * FOOT, "middle_fill": D("4.5") * INCH},
    "graduated mix": {"height": 9 * FOOT, "shares": (D("0.4"), D("0.3"), D("0.3"))},
    "graduated blocks": {"height": 9 * FOOT, "blocks": (2, 13)},
    "graduated typed": {"rings": 23},
    "graduated wound": {"height": 11 * FOOT, "turns": D(9), "strands": 6},
    "arch semi-ellipse": {"width": 12 * FOOT, "height": 9 * FOOT},
    "arch catenary": {"width": 8 * FOOT, "height": 9 * FOOT},
    "arch parabola": {"width": 13 * FOOT, "height": 9 * FOOT},
    "arch square": {"width": 13 * FOOT, "height": 9 * FOOT},
    "arch full hoop": {"width": 6 * FOOT},
    "arch mix": {"width": 12 * FOOT, "shares": (D("0.34"), D("0.33"), D("0.33"))},
    "build": {"length": 11 * FOOT, "width": 3 * FOOT},
    **line_form_cases.CHANGES,
    **helium_form_cases.CHANGES,
    **area_form_cases.CHANGES,
}


@pytest.mark.office
def test_office_software_follows_when_the_givens_change(tmp_path):
    """The formulas of one plan over the givens of another come to the other's counts: nothing is written in stone."""
    path, plans = tmp_path / "changed.xlsx", {}
    with xlsxwriter.Workbook(path) as book:
        for name, changed in CHANGES.items():
            plan, other = planned(name), planned(name, **changed)
            assert [step.key for step in plan.workings] == [step.key for step in other.workings], name
            assert plan.parts != other.parts, name
            write_sheet(book, name, plan, {step.key: step.value for step in other.workings})
            plans[name] = other
    (fresh,) = office.convert([path], "xlsx", tmp_path / "office")
    sheets = openpyxl.load_workbook(fresh, data_only=True)
    differing = []
    for name, other in plans.items():
        for row, step in enumerate(other.workings, 1):
            found = sheets[name].cell(row, 2).value
            if found != pytest.approx(float(step.value), abs=1e-6, rel=1e-9):
                differing.append((name, step.key, found, step.value))
    assert not differing


def test_every_form_has_cases():
    missing = {form.name for form in all_forms() if not form.is_refused} - {form for form, _ in CASES.values()}
    assert not missing, f"add cases of these forms to CASES in this file: {sorted(missing)}"
