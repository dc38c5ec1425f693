"""Every file of an evening, written into its folder."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import groupby
from pathlib import Path

from quoting.domain.problems import Problem
from quoting.domain.reports import BatchReport
from quoting.writing.file_names import job_files, order_files
from quoting.writing.marked_copy import marked_name, write_marked_copy
from quoting.writing.order_workbook import write_order
from quoting.writing.pictures.job_pictures import job_pictures
from quoting.writing.quote_workbook import write_quote
from quoting.writing.results_file import results_data, write_results
from quoting.writing.summary_workbook import write_summary
from quoting.writing.workshop_workbook import write_workshop


def write_papers(folder: Path, report: BatchReport, books: Mapping[str, Path]) -> None:
    """Write quotes, workshop sheets, orders, marked copies, the summary and results.json into `folder`.

    `books` are the paths of the books that were read, by file name; only those with
    problems get a marked copy. OSError where the folder can't be written.
    """
    files = job_files(report.results)
    for part in ("quotes", "workshop", "orders", "marked"):
        (folder / part).mkdir()
    for result in report.results:
        if result.sheet is not None:
            names = files[result.job]
            drawings = job_pictures(result.sheet)
            write_quote(folder / names.quote, result.sheet.quote, drawings)
            write_workshop(folder / names.workshop, result.sheet, drawings)
    _write_orders(folder, report)
    for name, problems in groupby(report.problems, lambda p: p.place.workbook):
        _mark(folder / "marked", books.get(name), tuple(problems))
    write_summary(folder / "summary.xlsx", report)
    write_results(folder / "results.json", results_data(report))


def _write_orders(folder: Path, report: BatchReport) -> None:
    orders = report.purchase.orders if report.purchase else ()
    names = order_files(orders)
    for order in orders:
        write_order(folder / names[order.supplier], order, report)


def _mark(folder: Path, book: Path | None, problems: tuple[Problem, ...]) -> None:
    # A file that could not be read as a workbook can't be marked; the summary names it.
    if book is None or not any(p.place.sheet for p in problems):
        return
    write_marked_copy(book, folder / marked_name(book), problems)
