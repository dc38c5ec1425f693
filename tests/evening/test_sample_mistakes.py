"""The faulty sample: each mistake is named at its cell, and its neighbours are quoted."""

from __future__ import annotations

import tomllib
from functools import cache

import openpyxl
from scenes import CASES, jobs_of, report_of, sample_books

EXPECTED = tomllib.loads((CASES / "faulty.toml").read_text("utf-8"))
HEADING_ROW = 4


@cache
def faulty_book():
    """The faulty sample as openpyxl reads it."""
    (path,) = sample_books("faulty")
    return openpyxl.load_workbook(path)


def listed_problems() -> list[list[str]]:
    """The problems listed, each as [sheet!cell, code]: a heading and row of the list give the cell in the book."""
    listed = []
    for sheet, heading, row, code in EXPECTED["problems"]:
        headings = faulty_book()[sheet][HEADING_ROW]
        (cell,) = [c for c in headings if str(c.value).split(" (")[0].split("\n")[0] == heading]
        listed.append([f"{sheet}!{cell.column_letter}{row}", code])
    return sorted(listed)


def test_problems_are_those_listed_by_cell():
    found = sorted([f"{p.place.sheet}!{p.place.cell}", p.code] for p in report_of("faulty").problems)
    listed = listed_problems()
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
    for place, code in listed_problems():
        sheet, cell = place.split("!")
        marked, before = book[sheet][cell], faulty_book()[sheet][cell]
        assert marked.comment is not None, place
        assert code in marked.comment.text, place
        assert marked.fill.fgColor.rgb != before.fill.fgColor.rgb, place
        assert marked.value == before.value, place
