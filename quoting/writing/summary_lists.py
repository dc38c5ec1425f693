"""What the lists of the summary hold."""

from __future__ import annotations

from collections import Counter
from datetime import date
from decimal import Decimal

from quoting.domain.money import Currency
from quoting.domain.problems import Level, Problem
from quoting.domain.quotes import JobResult, Status
from quoting.domain.reports import BatchReport
from quoting.writing.file_names import JobFiles, job_files, numbered
from quoting.writing.listings import Heading, Link, Listing
from quoting.writing.number_formats import WEEKDAY, amount_format
from quoting.writing.pages import CellValue
from quoting.writing.problem_list import what_it_stops

_PERCENT = "0.0 %"
_HOURS = "0.0"
_Row = tuple[CellValue | Link, ...]


def _paper(report: BatchReport) -> str:
    return report.sheets[0].quote.paper if report.sheets else "A4"


def _currency(report: BatchReport) -> Currency:
    return report.sheets[0].quote.currency if report.sheets else Currency(code="XXX")


def _evening(report: BatchReport) -> str:
    day = report.run_date
    return f"{day.day} {day:%B %Y}"


def _by_event(result: JobResult) -> tuple[date, str]:
    return result.event_date or date.max, result.job


def jobs_list(report: BatchReport) -> Listing:
    """Give every job, by event date, with its money and links to its papers."""
    money = amount_format(_currency(report))
    files = job_files(report.results)
    counts = Counter(result.status for result in report.results)
    told = ", ".join(f"{counts[status]} {status.value}" for status in Status if counts[status])
    return Listing(
        name="Jobs",
        warned=frozenset({Status.HELD.value}),
        title=f"Evening of {_evening(report)}",
        words=f"{told}. Held jobs and the cells to mend are on the next sheet.",
        empty="No jobs were found in the books.",
        paper=_paper(report),
        headings=(
            Heading(text="Status", width=72, bold=True),
            Heading(text="Job", width=52),
            Heading(text="Client", width=130),
            Heading(text="Event", width=108, number_format=WEEKDAY),
            Heading(text="Subtotal", width=72, number_format=money, is_summed=True),
            Heading(text="Discount", width=62, number_format=money, is_summed=True),
            Heading(text="Tax", width=62, number_format=money, is_summed=True),
            Heading(text="Total", width=76, number_format=money, is_summed=True, bold=True),
            Heading(text="Deposit", width=72, number_format=money, is_summed=True),
            Heading(text="Cost", width=72, number_format=money, is_summed=True),
            Heading(text="Margin", width=54, number_format=_PERCENT),
            Heading(text="Quote", width=92),
            Heading(text="Workshop sheet", width=72),
        ),
        rows=[_job_row(result, files.get(result.job)) for result in sorted(report.results, key=_by_event)],
    )


def _job_row(result: JobResult, files: JobFiles | None) -> _Row:
    head: _Row = (result.status.value, result.job, result.client, result.event_date)
    if result.sheet is None or files is None:
        return (*head, *[None] * 9)
    sheet, totals = result.sheet, result.sheet.quote.totals
    return (
        *head,
        totals.subtotal,
        totals.discount,
        totals.tax,
        totals.total,
        sheet.quote.terms.deposit,
        sheet.cost,
        sheet.margin,
        Link(path=files.quote, text=numbered(sheet.quote)),
        Link(path=files.workshop, text="open"),
    )


def held_list(report: BatchReport) -> Listing:
    """Give the held jobs, by event date: what holds each, and which cell to mend."""
    rows: list[_Row] = []
    for result in sorted(report.results, key=_by_event):
        if result.status is Status.HELD:
            holding = [p for p in report.problems_of(result.job) if p.level is not Level.NOTE]
            head = (result.job, result.client, result.event_date)
            # A job can be held by what concerns no job alone, such as a Shop sheet that can't be used.
            rows += [(*head, *_place_cells(p), p.why, p.fix, p.code) for p in holding] or [
                (*head, "", "", "", "the price sheets can't be used", "see the sheet Problems", "")
            ]
    return Listing(
        name="Held",
        title="Held jobs",
        words="Mend these cells in your own book and run the evening again.",
        empty="No job is held.",
        paper=_paper(report),
        headings=(
            Heading(text="Job", width=52, bold=True),
            Heading(text="Client", width=140),
            Heading(text="Event", width=108, number_format=WEEKDAY),
            *_PLACE,
            Heading(text="What is wrong", width=250),
            Heading(text="What to type", width=220),
            Heading(text="Code", width=46),
        ),
        rows=rows,
    )


_PLACE = (
    Heading(text="Workbook", width=130),
    Heading(text="Sheet", width=80),
    Heading(text="Cell", width=52, bold=True),
)


def _place_cells(problem: Problem) -> tuple[str, str, str]:
    return problem.place.workbook, problem.place.sheet, problem.place.cell


def payments_list(report: BatchReport) -> Listing:
    """Give what clients have to pay when, if every quote is accepted."""
    money = amount_format(_currency(report))
    rows: list[_Row] = []
    for sheet in report.sheets:
        terms, quote = sheet.quote.terms, sheet.quote
        for day, what, amount in (
            (terms.deposit_due, "deposit", terms.deposit),
            (terms.balance_due, "balance", terms.balance),
        ):
            if amount:
                rows.append((day, what, sheet.job, quote.client, amount))
    rows.sort(key=lambda row: tuple(str(cell) for cell in row[:3]))
    return Listing(
        name="Money",
        title="Money due",
        words=_margin_words(report),
        empty="No job is quoted.",
        paper=_paper(report),
        headings=(
            Heading(text="Due by", width=120, number_format=WEEKDAY, bold=True),
            Heading(text="What", width=90),
            Heading(text="Job", width=70),
            Heading(text="Client", width=300),
            Heading(text="Amount", width=110, number_format=money, is_summed=True),
        ),
        rows=rows,
    )


def _margin_words(report: BatchReport) -> str:
    before_tax = sum((s.quote.totals.total - s.quote.totals.tax for s in report.sheets), Decimal(0))
    cost = sum((s.cost for s in report.sheets), Decimal(0))
    if not before_tax:
        return "If every quote is accepted."
    return f"If every quote is accepted. Margin of all quotes together: {(before_tax - cost) / before_tax:.1%}."


def problems_list(report: BatchReport) -> Listing:
    """Give every problem of the evening, by place."""
    return Listing(
        name="Problems",
        title="All problems",
        words="By workbook, sheet and cell; the folder marked/ has copies of your books with each one in its cell.",
        empty="Nothing is wrong.",
        paper=_paper(report),
        headings=(
            *_PLACE,
            Heading(text="What it stops", width=84),
            Heading(text="Job", width=52),
            Heading(text="What is wrong", width=270),
            Heading(text="What to type", width=230),
            Heading(text="Seen", width=120),
            Heading(text="Code", width=46),
        ),
        rows=[(*_place_cells(p), what_it_stops(p), p.job, p.why, p.fix, p.seen, p.code) for p in report.problems],
    )
