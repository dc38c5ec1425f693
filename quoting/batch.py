"""One evening, top to bottom: books in; quotes, workshop sheets, summary and marked copies out.

For scripts: `work_out` gives everything as values and writes nothing, `run_evening`
writes the dated folder as well.
"""

from __future__ import annotations

import traceback
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import partial
from pathlib import Path
from typing import TypeVar

from quoting.checking.books import Checked, JobEntry, check_tables
from quoting.checking.examples import example_notes
from quoting.checking.layouts import book_layouts
from quoting.checking.names import code_among, folded
from quoting.checking.wording import wording_rows
from quoting.costing.buying import fill_basket
from quoting.costing.buying_notes import buying_notes
from quoting.costing.days import day_problems, days_of
from quoting.costing.jobs import cost_job
from quoting.domain.cells import Book, Table
from quoting.domain.codes import problem
from quoting.domain.crews import WorkDay
from quoting.domain.jobs import Job, Piece
from quoting.domain.orders import Purchase
from quoting.domain.places import Place
from quoting.domain.plans import Plan
from quoting.domain.prices import PriceBook
from quoting.domain.problems import Level, Outcome, Problem, holds, in_order
from quoting.domain.quotes import JobResult, JobSheet, Status
from quoting.domain.reports import BatchReport
from quoting.forms.registry import form_named
from quoting.reading.book_files import find_books
from quoting.reading.tables import read_tables
from quoting.reading.workbooks import read_book
from quoting.site.findings import look_at_site
from quoting.writing.blank_book import write_blank_book
from quoting.writing.evening_folder import EveningFolder, evening_folder
from quoting.writing.papers import write_papers
from quoting.writing.starting_rows import starting_rows

T = TypeVar("T")
V = TypeVar("V")

Told = Callable[[JobResult, int, int], None]
"""Called after each job with its result, its number from 1, and how many there are."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """Where an evening's files went; `is_unchanged` where an earlier run wrote the very same."""

    folder: Path
    is_unchanged: bool


def work_out(sources: Sequence[Path], run_date: date, told: Told | None = None) -> BatchReport:
    """Read the books (files, or folders of them) and work out every job; nothing is written.

    `run_date` is the quote date of jobs that give none. Every mistake an owner can
    make is among the report's problems; nothing raises for it.
    """
    books = _read_books(sources)
    tables = _read_tables(books.value)
    checked = check_tables(tables.value, run_date)
    known = _of_entries((*books.problems, *tables.problems, *checked.problems), checked.value)
    prices = None if _has_lost_a_sheet(known) else checked.value.prices
    results, problems = _work_out_jobs(replace(checked.value, prices=prices), known, told)
    bought = _or_nothing("buying", Purchase(), partial(_buy, results, checked.value.jobs, prices, run_date))
    no_days: tuple[WorkDay, ...] = ()
    days = _or_nothing("the days", no_days, partial(_days, results, prices, run_date))
    notes = (
        *bought.problems, *days.problems,
        *example_notes(checked.value.examples, _items_used(results)),
    )
    return BatchReport(
        run_date=run_date,
        books=tuple((book.name, book.digest) for book in books.value),
        results=_noted(results, notes),
        problems=in_order((*known, *problems, *notes)),
        buying=bought.value.lines,
        purchase=bought.value,
        days=days.value,
    )


def run_evening(
    sources: Sequence[Path], into: Path, run_date: date, told: Told | None = None
) -> tuple[BatchReport, Written]:
    """Work out every job and write the evening's dated folder inside `into`.

    The folder appears whole or not at all, and never replaces an earlier one. OSError
    where it can't be written.
    """
    report = work_out(sources, run_date, told)
    paths = {path.name: path for path in find_books(sources).value}
    with evening_folder(into, run_date) as folder:
        report = write_papers(folder.work, report, paths)
    return report, _written(folder)


def plan_piece(piece: Piece, prices: PriceBook) -> Outcome[Plan | None]:
    """The take-off of one piece: parts, tasks, hire, built size, workings; None where it can't be planned."""
    return form_named(piece.form).plan(piece, prices)


def price_job(job: Job, prices: PriceBook) -> Outcome[JobSheet | None]:
    """One job planned and priced; None where something holds it."""
    plans = [(piece, plan_piece(piece, prices)) for piece in job.pieces]
    problems = tuple(p for _, outcome in plans for p in outcome.problems)
    whole = [(piece, outcome.value) for piece, outcome in plans if outcome.value is not None]
    if holds(problems) or len(whole) < len(plans):
        return Outcome(value=None, problems=problems)
    site = look_at_site(job, whole, prices)
    costed = cost_job(job, whole, prices, site.value.cautions)
    problems = (*problems, *site.problems, *costed.problems)
    if costed.value is None or holds(site.problems):
        return Outcome(value=None, problems=problems)
    workings = (*costed.value.workings, *site.value.workings)
    sheet = replace(costed.value, flags=site.value.flags, workings=workings, is_draughty=job.is_draughty)
    return Outcome(value=sheet, problems=problems)


def make_blank_book(path: Path, *, is_metric: bool) -> None:
    """Write a blank book with its starting price sheets. Equal bytes every time; OSError where it can't be written."""
    rows = {**starting_rows(is_metric=is_metric), "wording": wording_rows()}
    write_blank_book(path, book_layouts(), rows, is_metric=is_metric)


def _read_books(sources: Sequence[Path]) -> Outcome[tuple[Book, ...]]:
    found = find_books(sources)
    read = [read_book(path) for path in found.value]
    return Outcome(
        value=tuple(outcome.value for outcome in read if outcome.value is not None),
        problems=(*found.problems, *(p for outcome in read for p in outcome.problems)),
    )


def _read_tables(books: Sequence[Book]) -> Outcome[tuple[Table, ...]]:
    read = [read_tables(book, book_layouts()) for book in books]
    return Outcome(
        value=tuple(table for outcome in read for table in outcome.value),
        problems=tuple(p for outcome in read for p in outcome.problems),
    )


def _has_lost_a_sheet(problems: Sequence[Problem]) -> bool:
    """True where a sheet of a readable book can't be used: it may hold discounts or prices of any job."""
    return any(p.level is Level.BOOK and p.place.sheet for p in problems)


def _of_entries(problems: Sequence[Problem], checked: Checked) -> tuple[Problem, ...]:
    """The problems, each with its job's code as the Jobs sheet spells it: reading knows it as a row typed it."""
    codes = {folded(entry.code): entry.code for entry in checked.entries}
    return tuple(replace(p, job=code_among(p.job, codes) or p.job) if p.job else p for p in problems)


def _items_used(results: Sequence[JobResult]) -> frozenset[str]:
    """Items of the price sheets that the quoted jobs take."""
    sheets = [result.sheet for result in results if result.sheet is not None]
    bought = {line.item for sheet in sheets for line in sheet.stock}
    return frozenset(bought | {line.item for sheet in sheets for line in sheet.hire})


def _work_out_jobs(
    checked: Checked, known: Sequence[Problem], told: Told | None
) -> tuple[tuple[JobResult, ...], tuple[Problem, ...]]:
    jobs: Mapping[str, Job] = {job.code: job for job in checked.jobs}
    results: list[JobResult] = []
    problems: list[Problem] = []
    for number, entry in enumerate(checked.entries, 1):
        job = jobs.get(entry.code)
        priced = _price_safely(job, checked.prices) if job and checked.prices else _plan_held(entry, checked)
        problems += priced.problems
        own = [p for p in (*known, *priced.problems) if p.job == entry.code]
        sheet = None if holds(own) else priced.value
        status = Status.HELD if sheet is None else Status.NOTES if own else Status.QUOTED
        result = JobResult(
            job=entry.code, client=entry.client, event_date=entry.event_date,
            status=status, place=entry.place, sheet=sheet,
        )
        results.append(result)
        if told:
            told(result, number, len(checked.entries))
    return tuple(results), tuple(problems)


def _buy(
    results: Sequence[JobResult], jobs: Sequence[Job], prices: PriceBook | None, run_date: date
) -> Outcome[Purchase]:
    """Buy and hire for all quoted jobs together; a held job takes nothing."""
    sheets = [result.sheet for result in results if result.sheet is not None]
    if prices is None:
        return Outcome(value=Purchase())
    basket = fill_basket(sheets, prices, run_date)
    return Outcome(value=basket.purchase, problems=buying_notes(basket, sheets, {job.code: job for job in jobs}))


def _days(results: Sequence[JobResult], prices: PriceBook | None, run_date: date) -> Outcome[tuple[WorkDay, ...]]:
    """Every date that has work over all quoted jobs, and the dates that have too much."""
    sheets = [result.sheet for result in results if result.sheet is not None]
    days = days_of(sheets, prices.shop if prices else None, run_date)
    return Outcome(value=days, problems=day_problems(days, {result.job: result.place for result in results}))


def _or_nothing(what: str, nothing: V, work: Callable[[], Outcome[V]]) -> Outcome[V]:
    """What some work over all jobs gives; a mistake of ours in it leaves `nothing`, a note, and the quotes alone."""
    try:
        return work()
    except Exception as error:  # noqa: BLE001  any failure of ours; the quotes must go on
        return Outcome(value=nothing, problems=(problem("P902", Place(workbook=""), what=what, error=_told(error)),))


def _noted(results: Sequence[JobResult], notes: Sequence[Problem]) -> tuple[JobResult, ...]:
    """The results, those quoted with notes for which buying found some."""
    told = {note.job for note in notes}
    return tuple(replace(r, status=Status.NOTES) if r.sheet is not None and r.job in told else r for r in results)


def _plan_held(entry: JobEntry, checked: Checked) -> Outcome[JobSheet | None]:
    """What the forms find wrong with the pieces of a job that something else holds, so that it is told in one round."""
    prices = checked.prices
    if prices is None:
        return Outcome(value=None)
    problems: list[Problem] = []
    for piece in checked.pieces_held:
        if folded(piece.job) == folded(entry.code):
            problems += _safely(partial(plan_piece, piece, prices), entry.place, entry.code).problems
    return Outcome(value=None, problems=tuple(problems))


def _price_safely(job: Job, prices: PriceBook) -> Outcome[JobSheet | None]:
    return _safely(partial(price_job, job, prices), job.where("job"), job.code)


def _safely(work: Callable[[], Outcome[T | None]], place: Place, code: str) -> Outcome[T | None]:
    """What some work on a job gives, but a mistake of ours holds only this one job."""
    try:
        return work()
    except Exception as error:  # noqa: BLE001  any failure of ours; the neighbours must go on
        return Outcome(value=None, problems=(problem("P901", place, seen=code, job=code, error=_told(error)),))


def _told(error: Exception) -> str:
    line = traceback.extract_tb(error.__traceback__)[-1]
    return f"{type(error).__name__}: {error}, {Path(line.filename).name} line {line.lineno}"


def _written(folder: EveningFolder) -> Written:
    assert folder.path is not None  # evening_folder put it in place, or raised
    return Written(folder=folder.path, is_unchanged=folder.is_unchanged)
