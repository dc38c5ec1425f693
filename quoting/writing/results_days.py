"""Days, visits and choices as data for results.json."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime
from decimal import Decimal

from quoting.domain.crews import Visit, WorkDay
from quoting.domain.money import Currency, Rounding, rounded
from quoting.domain.quotes import JobSheet, QuoteOption

Data = dict[str, object]


def days_data(days: Iterable[WorkDay]) -> list[Data]:
    """Give every date that has work, with its jobs' hours of one pair of hands."""
    return [
        {
            "date": day.day.isoformat(),
            "jobs": [job.job for job in day.jobs],
            "workshop": _hours(sum((job.workshop for job in day.jobs), Decimal(0))),
            "venue": _hours(sum((job.venue for job in day.jobs), Decimal(0))),
            "travel": _hours(sum((job.travel for job in day.jobs), Decimal(0))),
            "crew": day.crew,
            "available": None if day.available is None else _hours(day.available),
            "overbooked": day.is_overbooked,
        }
        for day in days
    ]


def visits_data(sheet: JobSheet) -> list[Data]:
    """Give the crew's visits with the steps of their day, local times without a zone."""
    return [_visit(visit) for visit in sheet.visits]


def _visit(visit: Visit) -> Data:
    return {
        "kind": visit.kind,
        "date": visit.day.isoformat(),
        "crew": visit.crew,
        "hours": _hours(visit.work_hours),
        "billed": _hours(visit.billed_hours),
        "steps": [
            {"what": step.what, "minutes": _hours(step.minutes), "start": _moment(step.start), "end": _moment(step.end)}
            for step in visit.steps
        ],
    }


def options_data(sheet: JobSheet) -> list[Data]:
    """Give what is priced on the quote, but not in its total."""
    return [_option(option, sheet.quote.currency) for option in sheet.quote.options]


def _option(option: QuoteOption, currency: Currency) -> Data:
    def amount(value: Decimal) -> str:
        return f"{rounded(value, currency.unit, Rounding.HALF_UP):.{currency.digits}f}"

    return {
        "piece": option.label,
        "group": option.group or None,
        "instead_of": option.instead_of or None,
        "quantity": option.quantity,
        "unit_price": amount(option.unit_price),
        "amount": amount(option.amount),
        "total": amount(option.total),
    }


def _hours(number: Decimal) -> float:
    return round(float(number), 4)


def _moment(moment: datetime | None) -> str | None:
    return None if moment is None else moment.isoformat()
