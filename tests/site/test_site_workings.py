"""The section "site" of the workings: office software comes to our figures, and follows when the givens change."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import time
from decimal import Decimal

import office
import openpyxl
import pytest
import xlsxwriter
from sites_made import COLUMN, looked_at, plan, steps

HELIUM = plan(None, (), (("Round 11 ivory", 24.13, "helium"),))
JOBS = {
    "windy": looked_at(
        plan(), HELIUM, is_outdoors=True, celsius=Decimal(5), ceiling_cm=Decimal(250), event_end=time(20)),
    "windier": looked_at(
        plan(replace(COLUMN, mass_g=90_000, height_cm=180, width_cm=90, depth_cm=30, net_lift_g=250)), HELIUM,
        is_outdoors=True, celsius=Decimal("31.5"), altitude_cm=Decimal(70_000), ceiling_cm=Decimal(205),
        event_end=time(22, 30), install_time=time(7, 15),
        shop={"wind_limit": Decimal("8.2"), "gust_factor": Decimal("1.4"), "safety_factor": Decimal(2),
              "friction": Decimal("0.25"), "drag": Decimal("0.9"), "altitude_cm": Decimal(10_000)},
    ),
}


def _references(formula):
    return [inside for inside in re.findall(r"\{([^{}]*)\}", formula) if ";" not in inside]


def test_every_step_refers_to_earlier_steps_only():
    for outcome in JOBS.values():
        known = set()
        for section in outcome.value.workings:
            for step in section.steps:
                assert set(_references(step.formula)) <= known, step.key
                assert step.key not in known
                known.add(step.key)
        assert {"force 1", "ballast 1", "holds 1", "diagonal 1", "needed", "growth", "beaufort"} <= known


@pytest.mark.office
def test_formulas_over_other_givens_come_to_the_other_figures(tmp_path):
    first, other = JOBS["windy"], JOBS["windier"]
    formulas = {step.key: step.formula for section in first.value.workings for step in section.steps}
    wanted = steps(other)
    assert formulas.keys() == wanted.keys()
    assert [key for key, formula in formulas.items() if formula and steps(first)[key] == wanted[key]] == []
    rows = {key: number for number, key in enumerate(formulas, 1)}
    path = tmp_path / "site.xlsx"
    with xlsxwriter.Workbook(path) as book:
        sheet = book.add_worksheet()
        for key, formula in formulas.items():
            place = f"B{rows[key]}"
            if not formula:
                sheet.write(place, wanted[key])
                continue
            for inside in _references(formula):
                formula = formula.replace(f"{{{inside}}}", f"$B${rows[inside]}")  # noqa: PLW2901
            sheet.write_formula(place, f"={formula}", None, -987.5)
    (fresh,) = office.convert([path], "xlsx", tmp_path / "office")
    found = openpyxl.load_workbook(fresh, data_only=True).active
    for key, row in rows.items():
        assert found.cell(row, 2).value == pytest.approx(wanted[key], rel=1e-9, abs=1e-9), key
