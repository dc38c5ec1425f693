"""The faulty sample: each mistake is named at its cell, and its neighbours are quoted."""

from __future__ import annotations

import tomllib

import openpyxl
from scenes import CASES, SAMPLES, jobs_of, report_of

EXPECTED = tomllib.loads((CASES / "faulty.toml").read_text("utf-8"))


def test_problems_are_those_listed_by_cell():
    found = sorted([f"{p.place.sheet}!{p.place.cell}", p.code] for p in report_of("faulty").problems)
    listed = sorted(EXPECTED["problems"])
    assert [entry for entry in found if entry not in listed] == []
    assert [entry for entry in listed if entry not in found] == []
    assert found == listed


def test_there_are_twenty_five_kinds_of_mistake_on_many_sheets():
    problems = report_of("faulty").problems
    assert len({p.code for p in problems}) >= 25
    assert len({p.place.sheet for p in problems}) >= 5


def test_good_neighbours_are_quoted():
    assert sorted(jobs_of("faulty")) == sorted(EXPECTED["quoted"])
    held = {result.job for result in report_of("faulty").results} - set(EXPECTED["quoted"])
    assert held == set(EXPECTED["held"])


def test_every_held_job_says_why():
    report = report_of("faulty")
    silent = [r.job for r in report.results if r.sheet is None and not [p for p in report.problems if p.job == r.job]]
    assert not silent


def test_the_marked_copy_marks_every_cell(evenings):
    (copy,) = (evenings["faulty"] / "marked").iterdir()
    book = openpyxl.load_workbook(copy)
    original = openpyxl.load_workbook(SAMPLES / "faulty" / copy.name)
    for place, code in EXPECTED["problems"]:
        sheet, cell = place.split("!")
        if not cell or ":" in cell:
            continue
        marked, before = book[sheet][cell], original[sheet][cell]
        assert marked.comment is not None, place
        assert code in marked.comment.text, place
        assert marked.fill.fgColor.rgb != before.fill.fgColor.rgb, place
        assert marked.value == before.value, place
