"""results.json: everything of an evening as data, described by results.schema.json beside this module."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from decimal import Decimal
from fractions import Fraction
from importlib.resources import files as package_files
from pathlib import Path

from quoting.domain.counts import shared_counts
from quoting.domain.flags import Flag
from quoting.domain.money import Currency, Rounding, rounded
from quoting.domain.orders import Purchase
from quoting.domain.plans import Outline, Part
from quoting.domain.problems import Level, Problem
from quoting.domain.quotes import Hours, JobResult, JobSheet, PricedPiece, TaxLine
from quoting.domain.reports import BatchReport
from quoting.writing.file_names import JobFiles, job_files
from quoting.writing.results_buying import amount_text, buy_line_data, purchase_data
from quoting.writing.results_days import days_data, options_data, visits_data

LAYOUT = 1
"""Version of the layout of results.json; it goes up when a key changes its meaning."""

Data = dict[str, object]


def results_data(report: BatchReport) -> Data:
    """Give an evening as plain data, keys in their documented order.

    Amounts are strings with all decimals of the currency, rates and margins strings
    of fractions; lengths are centimetres; dates "2031-05-14". What an exact figure
    (cost, hours) is rounded to, half up, is said in the schema.
    """
    files = job_files(report.results)
    currency = next((sheet.quote.currency for sheet in report.sheets), Currency(code="XXX"))
    return {
        "layout": LAYOUT,
        "run": {
            "date": report.run_date.isoformat(),
            "books": [{"name": name, "digest": digest} for name, digest in report.books],
        },
        "jobs": [_job(result, report.problems_of(result.job), files.get(result.job)) for result in report.results],
        "buying": [buy_line_data(line, currency) for line in report.buying],
        "days": days_data(report.days),
        "problems": [_problem(problem) for problem in report.problems],
        "purchase": purchase_data(report.purchase or Purchase(), currency),
    }


def write_results(path: Path, data: Mapping[str, object]) -> None:
    """Write results.json: UTF-8, indented, a line end at the end. Equal data give equal bytes."""
    text = json.dumps(data, ensure_ascii=False, indent=1, allow_nan=False)
    path.write_text(text + "\n", encoding="utf-8", newline="\n")


def results_schema() -> Data:
    """Give the JSON Schema (draft 2020-12) of results.json."""
    text = package_files("quoting.writing").joinpath("results.schema.json").read_text("utf-8")
    schema: Data = json.loads(text)
    return schema


def _job(result: JobResult, problems: Iterable[Problem], files: JobFiles | None) -> Data:
    head: Data = {
        "job": result.job,
        "number": None,
        "revision": None,
        "status": result.status.value,
        "client": result.client,
        "event_date": _day(result.event_date),
        "currency": None,
        "subtotal": None,
        "discount": None,
        "tax": [],
        "total": None,
        "deposit": None,
        "cost": None,
        "margin": None,
        "pieces": [],
        "visits": [],
        "options": [],
        "flags": _flags(problems, () if result.sheet is None else result.sheet.flags),
        "files": {} if files is None else {"quote": files.quote, "workshop": files.workshop},
    }
    return head if result.sheet is None else head | _quoted(result.sheet)


def _flags(problems: Iterable[Problem], flags: Sequence[Flag]) -> list[Data]:
    """Give notes and flags of the site; a note that a flag says with its figures is not said twice."""
    told = {(flag.code, flag.what) for flag in flags}
    notes: list[Data] = [
        {"code": p.code, "why": p.why}
        for p in problems
        if p.level is Level.NOTE and (p.code, p.why) not in told
    ]
    return notes + [
        {
            "code": flag.code,
            "why": flag.what,
            "to_do": flag.to_do,
            "piece": flag.piece or None,
            "is_for_client": flag.is_for_client,
            "figures": [{"label": f.label, "value": _number(f.value), "unit": f.unit} for f in flag.figures],
        }
        for flag in flags
    ]


def _quoted(sheet: JobSheet) -> Data:
    quote, totals, currency = sheet.quote, sheet.quote.totals, sheet.quote.currency
    return {
        "number": quote.number,
        "revision": quote.revision,
        "currency": currency.code,
        "subtotal": amount_text(totals.subtotal, currency),
        "discount": amount_text(totals.discount, currency),
        "tax": [_tax(line, currency) for line in totals.taxes],
        "total": amount_text(totals.total, currency),
        "deposit": amount_text(quote.terms.deposit, currency),
        "cost": amount_text(sheet.cost, currency),
        "margin": str(rounded(sheet.margin, Decimal("0.0001"), Rounding.HALF_UP)),
        "pieces": _pieces(sheet),
        "visits": visits_data(sheet),
        "options": options_data(sheet),
    }


def _tax(line: TaxLine, currency: Currency) -> Data:
    return {
        "code": line.code,
        "rate": f"{line.rate:f}",
        "taxable": amount_text(line.taxable, currency),
        "amount": amount_text(line.amount, currency),
    }


def _pieces(sheet: JobSheet) -> list[Data]:
    spares = _spares(sheet)
    return [
        {
            "piece": piece.label,
            "form": piece.form,
            "quantity": piece.quantity,
            "count": piece.plan.balloon_count * piece.quantity,
            "balloons": [
                {
                    "item": part.item,
                    "colour": part.colour,
                    "fill": _number(part.fill_cm),
                    "need": part.count * piece.quantity,
                    "with_spares": spares[place, index],
                }
                for index, part in _balloons(piece)
            ],
            "hours": _hours(piece.hours),
            "built": _built(piece.plan.outline),
        }
        for place, piece in enumerate(sheet.pieces)
    ]


def _balloons(piece: PricedPiece) -> list[tuple[int, Part]]:
    return [(index, part) for index, part in enumerate(piece.plan.parts) if part.fill_cm is not None]


def _spares(sheet: JobSheet) -> Mapping[tuple[int, int], int]:
    """Share each item's count with spares over the parts that use it, in proportion, adding up."""
    users: dict[str, list[tuple[int, int]]] = defaultdict(list)
    needs: dict[tuple[int, int], int] = {}
    for place, piece in enumerate(sheet.pieces):
        for index, part in _balloons(piece):
            users[part.item].append((place, index))
            needs[place, index] = part.count * piece.quantity
    shared = dict(needs)
    for line in sheet.stock:
        keys = users[line.item]
        # What the item is needed for without being inflated to a fill keeps its share too.
        rest = line.need - sum(needs[key] for key in keys)
        weights = [Fraction(needs[key]) for key in keys] + [Fraction(max(rest, 0))]
        if keys and sum(weights):
            shared.update(zip(keys, shared_counts(line.with_spares, weights), strict=False))
    return shared


def _built(outline: Outline | None) -> Data | None:
    if outline is None:
        return None
    return {
        "width": _number(outline.width_cm),
        "height": _number(outline.height_cm),
        "depth": _number(outline.depth_cm),
    }


def _hours(hours: Hours) -> Data:
    return {"workshop": _number(hours.workshop), "venue": _number(hours.venue)}


def _problem(problem: Problem) -> Data:
    place = problem.place
    return {
        "code": problem.code,
        "level": problem.level.value,
        "workbook": place.workbook,
        "sheet": place.sheet,
        "cell": place.cell,
        "why": problem.why,
        "fix": problem.fix,
        "seen": problem.seen,
        "job": problem.job,
    }


def _number(number: Decimal | float | None) -> float | None:
    return None if number is None else round(float(number), 4)


def _day(day: date | None) -> str | None:
    return None if day is None else day.isoformat()
