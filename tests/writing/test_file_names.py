"""Names of files: safe everywhere, unique, readable."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sheets_made import party

from quoting.domain.places import Place
from quoting.domain.quotes import JobResult, Status
from quoting.writing.file_names import LONGEST_NAME, job_files, safe_name, unique_name


@pytest.mark.parametrize(
    ("wanted", "found"),
    [
        ("Q-0412-r2 Fernhill Library", "Q-0412-r2 Fernhill Library.xlsx"),
        ("../../etc/passwd", "-..-etc-passwd.xlsx"),
        ("C:\\Users\\x", "C--Users-x.xlsx"),
        ("con", "_con.xlsx"),
        ("LPT1.quote", "_LPT1.quote.xlsx"),
        ("  a \t b\n", "a b.xlsx"),
        ("trailing... ", "trailing.xlsx"),
        ("", "file.xlsx"),
        ("\x00\x1f", "file.xlsx"),
        ("Cafe\u0301", "Café.xlsx"),
        ("\u202egnp.exe", "gnp.exe.xlsx"),
        ("👩‍👩‍👧 Lind & Søn", "👩‍👩‍👧 Lind & Søn.xlsx"),
        ("שלום", "שלום.xlsx"),
        ('a<b>c"d|e?f*g', "a-b-c-d-e-f-g.xlsx"),
    ],
)
def test_names_are_made_safe(wanted, found):
    assert safe_name(wanted, ".xlsx") == found


@given(st.text(max_size=300))
def test_any_text_gives_a_name_that_can_be_written(tmp_path_factory, wanted):
    name = safe_name(wanted, ".xlsx")
    assert len(name.encode()) <= LONGEST_NAME + 1  # a reserved name gets one sign in front
    assert "/" not in name and "\\" not in name and name not in {".", ".."}
    assert not name.startswith(" ") and name.removesuffix(".xlsx") == name.removesuffix(".xlsx").rstrip(" .")
    path = tmp_path_factory.getbasetemp() / name
    path.write_bytes(b"")
    assert path.resolve().parent == tmp_path_factory.getbasetemp().resolve()
    path.unlink()


def test_one_name_is_not_given_twice_whatever_the_case():
    taken: set[str] = set()
    names = [unique_name(wanted, ".xlsx", taken) for wanted in ("Elm", "ELM", "elm", "x" * 300, "x" * 300)]
    assert names[:3] == ["Elm.xlsx", "ELM (2).xlsx", "elm (3).xlsx"]
    assert len({name.casefold() for name in names}) == 5
    assert max(len(name.encode()) for name in names) <= LONGEST_NAME


def test_papers_are_named_by_number_revision_and_client_and_held_jobs_have_none():
    sheet = party()
    hostile = replace(sheet, quote=replace(sheet.quote, client="../Evil/\x07Inc"))
    place = Place(workbook="jobs.xlsx", sheet="Jobs", row=2)
    results = [
        JobResult(job=str(n), client="", event_date=date(2031, 6, 14), status=Status.QUOTED, place=place, sheet=made)
        for n, made in enumerate((sheet, sheet, hostile, None))
    ]
    files = job_files(results)
    assert files["0"].quote == "quotes/Q-0412-r1 Fernhill Library.xlsx"
    assert files["0"].workshop == "workshop/Q-0412-r1 workshop.xlsx"
    assert files["1"].quote == "quotes/Q-0412-r1 Fernhill Library (2).xlsx"
    assert files["2"].quote == "quotes/Q-0412-r1 ..-Evil-Inc.xlsx"
    assert "3" not in files
