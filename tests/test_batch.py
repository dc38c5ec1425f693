"""A mistake of our own holds only the job it happens in, and says so."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path

import openpyxl
import pytest

from quoting import batch
from quoting.domain.problems import Level
from quoting.domain.quotes import Status
from quoting.writing import papers

DOLLARS = Path(__file__).parent.parent / "sample_workbooks" / "dollars"
DAY = date(2031, 5, 14)


def test_our_own_failure_holds_one_job_and_its_neighbours_are_quoted(monkeypatch):
    good = batch.cost_job

    def failing(job, *rest):
        if job.code == "405":
            raise ZeroDivisionError("a mistake of ours")
        return good(job, *rest)

    monkeypatch.setattr(batch, "cost_job", failing)
    told = []
    report = batch.work_out([DOLLARS], DAY, lambda result, number, total: told.append((result.job, number, total)))
    held = [r.job for r in report.results if r.status is Status.HELD]
    assert held == ["405"]
    [found] = [p for p in report.problems if p.code == "P901"]
    assert (found.job, found.place.sheet) == ("405", "Jobs")
    assert "ZeroDivisionError" in found.why and "a mistake of ours" in found.why
    assert [number for _, number, _ in told] == list(range(1, len(report.results) + 1))


def test_an_unreadable_book_stops_only_itself(tmp_path):
    broken = tmp_path / "broken.xlsx"
    broken.write_bytes(b"no workbook at all")
    alone = batch.work_out([DOLLARS], DAY)
    both = batch.work_out([DOLLARS, broken], DAY)
    assert [r.sheet for r in both.results] == [r.sheet for r in alone.results]
    assert {p.place.workbook for p in both.problems} - {p.place.workbook for p in alone.problems} == {"broken.xlsx"}


def test_missing_sources_and_books_of_one_name_are_told(tmp_path):
    (tmp_path / "empty").mkdir()
    twin = tmp_path / "quillbrook.xlsx"
    twin.write_bytes((DOLLARS / "quillbrook.xlsx").read_bytes())
    report = batch.work_out([DOLLARS, twin, tmp_path / "empty", tmp_path / "gone.xlsx"], DAY)
    codes = {p.code: p.place.workbook for p in report.problems if p.code.startswith("P12")}
    assert codes == {"P120": str(tmp_path / "empty"), "P121": str(tmp_path / "gone.xlsx"), "P122": str(twin)}


def test_a_sheet_that_cannot_be_used_holds_every_job(tmp_path):
    book = openpyxl.load_workbook(DOLLARS / "quillbrook.xlsx")
    book["Adjustments"].title = "Adjustmnts"
    book.save(tmp_path / "quillbrook.xlsx")
    report = batch.work_out([tmp_path], DAY)
    assert {r.status for r in report.results} == {Status.HELD}
    assert "P112" in {p.code for p in report.problems}


def test_a_failure_in_one_jobs_papers_holds_that_job_and_writes_the_others(tmp_path, monkeypatch):
    good = papers.write_workshop

    def failing(path, sheet, *rest):
        if sheet.job == "405":
            raise ZeroDivisionError("a mistake of ours")
        good(path, sheet, *rest)

    monkeypatch.setattr(papers, "write_workshop", failing)
    report, written = batch.run_evening([DOLLARS], tmp_path, DAY)
    [held] = [r for r in report.results if r.status is Status.HELD]
    [found] = [p for p in report.problems if p.code == "P901"]
    assert (held.job, held.sheet, found.job) == ("405", None, "405")
    quotes = [p.name for p in (written.folder / "quotes").iterdir()]
    assert len(quotes) == len(report.results) - 1 and not any("405" in name for name in quotes)
    told = json.loads((written.folder / "results.json").read_text("utf-8"))
    assert [job["job"] for job in told["jobs"] if job["status"] == "held"] == ["405"]


@pytest.mark.parametrize("stage", ["fill_basket", "days_of"])
def test_a_failure_in_what_concerns_all_jobs_leaves_the_quotes_alone(monkeypatch, stage):
    alone = batch.work_out([DOLLARS], DAY)

    def failing(*_):
        raise ZeroDivisionError("a mistake of ours")

    monkeypatch.setattr(batch, stage, failing)
    report = batch.work_out([DOLLARS], DAY)
    assert [r.sheet for r in report.results] == [r.sheet for r in alone.results]
    assert [p.level for p in report.problems if p.code == "P902"] == [Level.NOTE]


def test_a_failure_in_marking_a_book_leaves_the_evening_alone(tmp_path, monkeypatch):
    def failing(*_):
        raise ZeroDivisionError("a mistake of ours")

    monkeypatch.setattr(papers, "write_marked_copy", failing)
    report, written = batch.run_evening([DOLLARS], tmp_path, DAY)
    assert [p.place.workbook for p in report.problems if p.code == "P902"] == ["quillbrook.xlsx"]
    assert (written.folder / "summary.xlsx").exists() and list((written.folder / "quotes").iterdir())
