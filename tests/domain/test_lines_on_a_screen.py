"""What is said of many cells is said once on a screen."""

from __future__ import annotations

from dataclasses import replace

from quoting.domain.codes import problem
from quoting.domain.places import Place
from quoting.domain.problems import Level, shortened, shown_once

CELL = Place(workbook="jobs.xlsx", sheet="Jobs", row=5, column=13)


def late(row, job="", **more):
    return problem("P425", replace(CELL, row=row), job=job, other="x", **more)


def test_one_problem_is_one_line_as_ever():
    assert shown_once([late(5, "1")]) == (str(late(5, "1")),)


def test_the_same_of_several_jobs_is_one_line_that_counts_them():
    (line,) = shown_once([late(5, "1"), late(6, "2"), late(8, "3")])
    assert line.startswith("jobs.xlsx, Jobs!M5 and 2 more cells: delivery can't be charged")
    assert line.endswith("mend the Delivery sheet (holds 3 jobs)  [P425]")


def test_one_cell_told_to_two_jobs_is_one_line():
    (line,) = shown_once([late(5, "1"), late(5, "2")])
    assert line.startswith("jobs.xlsx, Jobs!M5: ") and "(holds 2 jobs)" in line


def test_other_words_columns_sheets_and_books_are_lines_of_their_own():
    one = late(5, "1")
    others = [
        replace(one, place=replace(CELL, column=14)), replace(one, place=replace(CELL, sheet="Pieces")),
        replace(one, place=replace(CELL, workbook="b.xlsx")), replace(one, why="another"), replace(one, fix="another"),
    ]
    assert len(shown_once([one, *others])) == 6


def test_notes_hold_nothing():
    (line,) = shown_once([late(5, "1", level=Level.NOTE), late(6, "2", level=Level.NOTE)])
    assert "holds" not in line


def test_a_long_list_of_names_is_cut_and_says_by_how_many():
    assert shortened(["A", "B"], 2) == "A, B"
    assert shortened(["A", "B", "C", "D"], 2) == "A, B, … and 2 more"
