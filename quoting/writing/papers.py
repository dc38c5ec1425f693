"""Every file of an evening, written into its folder."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import groupby
from pathlib import Path

from quoting.domain.codes import problem
from quoting.domain.places import Place
from quoting.domain.problems import Problem
from quoting.domain.quotes import JobSheet
from quoting.domain.reports import BatchReport
from quoting.writing.file_names import JobFiles, job_files, order_files
from quoting.writing.marked_copy import marked_name, write_marked_copy
from quoting.writing.order_workbook import write_order
from quoting.writing.pictures.job_pictures import job_pictures
from quoting.writing.quote_workbook import write_quote
from quoting.writing.results_file import results_data, write_results
from quoting.writing.summary_workbook import write_summary
from quoting.writing.workshop_workbook import write_workshop


def write_papers(folder: Path, report: BatchReport, books: Mapping[str, Path]) -> BatchReport:
    """Write quotes, workshop sheets, orders, marked copies, the summary and results.json into `folder`.

    `books` are the paths of the books that were read, by file name; only those with
    problems get a marked copy. Gives the report as it was written: where our own code
    fails on one job's papers, that job is held and its neighbours' papers are written.
    OSError where the folder can't be written.
    """
    for part in ("quotes", "workshop", "orders", "marked"):
        (folder / part).mkdir()
    report = _write_jobs(folder, report)
    _write_orders(folder, report)
    report = report.with_failures({}, _mark_books(folder / "marked", report, books))
    write_summary(folder / "summary.xlsx", report)
    write_results(folder / "results.json", results_data(report))
    return report


def _write_jobs(folder: Path, report: BatchReport) -> BatchReport:
    files = job_files(report.results)
    failures: dict[str, Problem] = {}
    for result in report.results:
        if result.sheet is None:
            continue
        try:
            _write_job(folder, files[result.job], result.sheet)
        except OSError:
            raise
        except Exception as error:  # noqa: BLE001  any failure of ours; the neighbours must go on
            for name in (files[result.job].quote, files[result.job].workshop):
                (folder / name).unlink(missing_ok=True)
            failures[result.job] = problem("P901", result.place, seen=result.job, job=result.job, error=_told(error))
    return report.with_failures(failures) if failures else report


def _write_job(folder: Path, names: JobFiles, sheet: JobSheet) -> None:
    drawings = job_pictures(sheet)
    write_quote(folder / names.quote, sheet.quote, drawings)
    write_workshop(folder / names.workshop, sheet, drawings)


def _told(error: Exception) -> str:
    return f"{type(error).__name__}: {error}"


def _write_orders(folder: Path, report: BatchReport) -> None:
    orders = report.purchase.orders if report.purchase else ()
    names = order_files(orders)
    for order in orders:
        write_order(folder / names[order.supplier], order, report)


def _mark_books(folder: Path, report: BatchReport, books: Mapping[str, Path]) -> tuple[Problem, ...]:
    """Mark every book that has problems; gives what failed."""
    failed: list[Problem] = []
    for name, problems in groupby(report.problems, lambda p: p.place.workbook):
        try:
            _mark(folder, books.get(name), tuple(problems))
        except OSError:
            raise
        except Exception as error:  # noqa: BLE001  any failure of ours; the evening must go on
            (folder / marked_name(books[name])).unlink(missing_ok=True)
            failed.append(problem("P902", Place(workbook=name), what="its marked copy", error=_told(error)))
    return tuple(failed)


def _mark(folder: Path, book: Path | None, problems: tuple[Problem, ...]) -> None:
    # A file that could not be read as a workbook can't be marked; the summary names it.
    if book is None or not any(p.place.sheet for p in problems):
        return
    write_marked_copy(book, folder / marked_name(book), problems)
