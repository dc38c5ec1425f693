"""Whole evenings as values, for the tests of the summary, results.json and marked copies; invented."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

from sheets_made import party, price_book, sheet

from quoting.costing.days import days_of
from quoting.domain.crews import CrewRules
from quoting.domain.orders import (
    Clash,
    Comparison,
    CostShare,
    CylinderLine,
    GasPurchase,
    OrderLine,
    Purchase,
    Shortage,
    StockLevel,
    SupplierOrder,
)
from quoting.domain.places import Place
from quoting.domain.problems import Level, Problem, in_order
from quoting.domain.quotes import BuyLine, JobResult, Status
from quoting.domain.reports import BatchReport

JOBS = Place(workbook="jobs.xlsx", sheet="Jobs", row=2)


def problem(code: str, level: Level, place: Place, job: str = "", why: str = 'height is "8 ft-ish"') -> Problem:
    return Problem(
        code=code, level=level, place=place, why=why, fix="type one length, e.g. 8 ft", seen="8 ft-ish", job=job
    )


D = Decimal

CREW = CrewRules(hours_per_day=D(1), crew_limit=4)
"""An hour a day is too little for any of the jobs' prep."""

BUYING = (
    BuyLine(
        item="Round 11 sage",
        need=142,
        on_hand=25,
        packs=((100, 1, D("11.40"), "Canal Street Wholesale"), (25, 1, D("3.10"), "Mill Lane Supplies")),
        cost=D("14.50"),
        needed_by=date(2031, 6, 13),
        jobs=("0412", "0413"),
    ),
    BuyLine(item="round 5 coral", need=12, on_hand=40, packs=(), cost=D("0.00"), jobs=("0414",)),
)


def order_line(item: str, count: int, packs: int, price: str, jobs: tuple[str, ...], **changes) -> OrderLine:
    made = OrderLine(
        item=item, count=count, packs=packs, price=D(price), cost=packs * D(price), lot="",
        needed_by=date(2031, 6, 13), jobs=jobs,
    )
    return replace(made, **changes)


def purchase() -> Purchase:
    """Two orders and a cylinder, a clash and a shortage, one item left over. The figures add up."""
    canal = SupplierOrder(
        supplier="Canal Street Wholesale",
        lines=(
            order_line("Round 11 sage", 100, 1, "11.40", ("0412", "0413"), lot="L2207"),
            order_line("Cylinder 50", 9000, 1, "95.00", ("0414",), measure="litres"),
        ),
        goods=D("106.40"), charge=D("7.50"), total=D("113.90"), minimum=D(60), arrives=date(2031, 5, 17),
    )
    mill = SupplierOrder(
        supplier="Mill: Lane/Supplies",
        lines=(order_line("Round 11 sage", 25, 1, "3.10", ("0413",)),),
        goods=D("3.10"), charge=D("0.00"), total=D("3.10"), minimum=D(5), arrives=date(2031, 5, 14),
    )
    return Purchase(
        lines=BUYING,
        orders=(canal, mill),
        levels=(
            StockLevel(item="Foil star", on_hand=3, bought=0, used=0, expired=3, left=0,
                       unit_cost=D(1), value=D("0.00")),
            StockLevel(item="Round 11 sage", on_hand=25, bought=125, used=142, expired=0, left=8,
                       unit_cost=D("0.114"), value=D("0.91")),
        ),
        shortages=(
            Shortage(item="Round 36 ivory", job="0413", count=2, needed_by=date(2031, 5, 29), comes=date(2031, 6, 2)),
        ),
        clashes=(
            Clash(item="Arch frame", first=date(2031, 6, 14), last=date(2031, 6, 15), owned=2, wanted=3,
                  jobs=(("0412", 1), ("0414", 2))),
        ),
        shares=(
            CostShare(job="0412", goods=D("9.00"), charges=D("0.70")),
            CostShare(job="0413", goods=D("5.50"), charges=D("0.30")),
            CostShare(job="0414", goods=D("95.00"), charges=D("6.50")),
        ),
        gas=GasPurchase(
            litres=6400.5, needed=6913, on_hand=0, jobs=(("0414", 6400.5),), needed_by=date(2031, 6, 13),
            cylinders=(
                CylinderLine(item="Cylinder 50", supplier="Canal Street Wholesale", is_hire=True, count=1, litres=9000,
                             price=D("95.00"), cost=D("95.00"), deposit=D("150.00")),
            ),
        ),
        comparison=Comparison(together=D("22.00"), together_left=8, one_by_one=D("29.30"), one_by_one_left=31),
        total=D("117.00"),
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
        buying=BUYING,
        purchase=purchase(),
        days=days_of([r.sheet for r in results if r.sheet], price_book(crew=CREW).shop, date(2031, 5, 14)),
    )
