"""Whole evenings as values, for the tests of the summary, results.json and marked copies; invented."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

from sheets_made import party, sheet

from quoting.domain.places import Place
from quoting.domain.problems import Level, Problem, in_order
from quoting.domain.quotes import BuyLine, JobResult, Status
from quoting.domain.reports import BatchReport

JOBS = Place(workbook="jobs.xlsx", sheet="Jobs", row=2)


def problem(code: str, level: Level, place: Place, job: str = "", why: str = 'height is "8 ft-ish"') -> Problem:
    return Problem(
        code=code, level=level, place=place, why=why, fix="type one length, e.g. 8 ft", seen="8 ft-ish", job=job
    )


def report() -> BatchReport:
    """Three quoted jobs (one with a note), two held ones, something to buy."""
    cell = Place(workbook="jobs.xlsx", sheet="Pieces", row=7, column=7)
    column = {
        "form": "ring column",
        "height": Decimal(183),
        "fill": Decimal("24.13"),
        "colours": ("sage",),
        "pattern": "solid",
    }
    second = sheet([column], client="=Orchard & Sons", event_date=date(2031, 5, 30))
    third = sheet([{**column, "colours": ("coral",)}], client="Nim #1 Ashworthy %20", event_date=date(2031, 7, 2))
    named = {"0412": party(), "0413": second, "0414": third}
    results = [
        JobResult(
            job=code,
            client=made.quote.client,
            event_date=made.quote.event_date,
            place=JOBS,
            sheet=made,
            status=Status.NOTES if code == "0413" else Status.QUOTED,
        )
        for code, made in (
            (code, replace(m, job=code, quote=replace(m.quote, number=f"Q-{code}"))) for code, m in named.items()
        )
    ]
    results.append(
        JobResult(
            job="0415", client="Tessaly Grange", event_date=date(2031, 6, 1), status=Status.HELD, place=JOBS, sheet=None
        )
    )
    results.append(JobResult(job="0416", client="", event_date=None, status=Status.HELD, place=JOBS, sheet=None))
    return BatchReport(
        run_date=date(2031, 5, 14),
        books=(("jobs.xlsx", "ab" * 32), ("prices.xlsx", "cd" * 32)),
        results=tuple(results),
        problems=in_order(
            [
                problem("P204", Level.HOLD, cell, "0415"),
                problem("P302", Level.HOLD, JOBS.at(0), "0416", "the event date is missing"),
                problem("P535", Level.NOTE, cell.at(9), "0413", "turns is not used with a solid colour"),
                problem("P101", Level.BOOK, Place(workbook="broken.xlsx"), why="this file can't be read as a workbook"),
            ]
        ),
        buying=(
            BuyLine(
                item="Round 11 sage",
                need=142,
                on_hand=25,
                packs=(
                    (100, 1, Decimal("11.40"), "Canal Street Wholesale"),
                    (25, 1, Decimal("3.10"), "Mill Lane Supplies"),
                ),
                cost=Decimal("14.50"),
            ),
            BuyLine(item="round 5 coral", need=12, on_hand=40, packs=(), cost=Decimal("0.00")),
        ),
    )
