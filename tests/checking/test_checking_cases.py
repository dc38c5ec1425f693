"""Every check by cases: a good book with a cell or two changed, and the problems at their cells."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from rows_made import RUN_DATE, cell, good_book, tables

from quoting.checking.books import check_tables
from quoting.checking.layouts import layout_of
from quoting.domain.codes import CODES
from quoting.domain.problems import Level

FOLDER = Path(__file__).parent.parent / "cases" / "checking"
CASES = [
    case for name in ("rows", "crosses") for case in tomllib.loads((FOLDER / f"{name}.toml").read_text("utf-8"))["case"]
]


def edited(case):
    """The good book with the case's edits made."""
    book = good_book()
    for sheet_key, index, key, *value in case.get("edit", ()):
        book[sheet_key][index].pop(key, None)
        if value:
            book[sheet_key][index][key] = value[0]
    for sheet_key, row in case.get("add", ()):
        book[sheet_key].append(row)
    for sheet_key in case.get("clear", ()):
        book[sheet_key].clear()
    for sheet_key in case.get("drop", ()):
        del book[sheet_key]
    return book


def address(book, sheet_key, key, index):
    """The cell a case names; an index below 0 counts from the sheet's last row, no key means the whole sheet."""
    if not sheet_key:
        return "!"
    row = index if index >= 0 else len(book[sheet_key]) + index
    whole = cell(sheet_key, key or layout_of(sheet_key).columns[0].key, row)
    return whole if key else whole.split("!")[0] + "!"


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["name"])
def test_a_mistake_is_named_by_its_cell(case):
    book = edited(case)
    outcome = check_tables(tables(book), RUN_DATE)
    found = sorted({(f"{p.place.sheet}!{p.place.cell}", p.code) for p in outcome.problems})
    assert found == sorted((address(book, sheet, key, index), code) for sheet, key, index, code in case["expect"])
    quoted = {job.code for job in outcome.value.jobs} if outcome.value.prices else set()
    assert sorted({entry.code for entry in outcome.value.entries} - quoted) == sorted(case["held"])


def test_every_job_that_is_held_has_a_problem_of_its_own_or_of_the_book():
    for case in CASES:
        outcome = check_tables(tables(edited(case)), RUN_DATE)
        blamed = {p.job for p in outcome.problems if p.level is not Level.NOTE}
        if not any(p.level is Level.BOOK for p in outcome.problems):
            assert set(case["held"]) <= blamed, case["name"]


def test_every_code_of_rows_and_crosses_has_a_case():
    told = {code for case in CASES for *_, code in case["expect"]}
    # in test_checking_books.py: they need two books, or what reading or costing found
    elsewhere = {"P402", "P404", "P405", "P440", "P488"}
    assert {code for code in CODES if code[:2] in ("P3", "P4")} - elsewhere == told
