"""Checks on hours, holidays, vans and tidy prices."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from quoting.checking.job_checks import WE_DELIVER
from quoting.checking.pool import Pool
from quoting.checking.public_holidays import public_holidays
from quoting.checking.rows import job_of
from quoting.domain.cells import Row
from quoting.domain.codes import problem
from quoting.domain.money import Currency
from quoting.domain.problems import Problem

ANY_YEAR = 2030
"""A year to ask a country's list with; its rules are the same for all."""


def _shop(pool: Pool) -> Row | None:
    rows = pool.good("shop")
    return rows[0] if rows else None


def time_zones(pool: Pool) -> Iterator[Problem]:
    """A time zone that there is not."""
    row = _shop(pool)
    zone = "" if row is None else str(row.get("time_zone", ""))
    if row is None or not zone:
        return
    try:
        ZoneInfo(zone)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        yield problem("P651", row.where("time_zone"), seen=row.seen("time_zone"))


def holiday_regions(pool: Pool) -> Iterator[Problem]:
    """A country or region whose public holidays are not known; a rate for holidays without either."""
    row = _shop(pool)
    if row is None:
        return
    country, region = str(row.get("country", "")), str(row.get("region", ""))
    if not country:
        if not pool.good("holidays"):
            for rate in pool.good("rates"):
                if rate.get("on_holidays"):
                    yield problem("P653", rate.where("on_holidays"), seen=rate.seen("on_holidays"))
        return
    if public_holidays(country, "", (ANY_YEAR,)) is None:
        facts = {"heading": "the country", "example": "two letters, e.g. US or DE"}
        yield problem("P652", row.where("country"), seen=row.seen("country"), **facts)  # type: ignore[arg-type]  # words
    elif region and public_holidays(country, region, (ANY_YEAR,)) is None:
        facts = {"heading": "the region", "example": "its short sign, e.g. CA or BY"}
        yield problem("P652", row.where("region"), seen=row.seen("region"), **facts)  # type: ignore[arg-type]  # words


def price_steps(pool: Pool) -> Iterator[Problem]:
    """A step for tidy prices that coins can't pay."""
    row = _shop(pool)
    step = None if row is None else row.get("price_step")
    if row is not None and isinstance(step, Decimal):
        unit = Currency(code=str(row.get("currency", ""))).unit
        if step % unit:
            yield problem("P650", row.where("price_step"), seen=row.seen("price_step"), unit=unit)


def wrong_crew_sheets(pool: Pool) -> Iterator[Problem]:
    """Delivered jobs while a row of Rates, Holidays or Vans can't be used: their price would be another."""
    wrong = {
        "P658": [row.place for row in pool.bad("vans")],
        "P659": [row.place for key in ("rates", "holidays") for row in pool.bad(key)],
    }
    for row in pool.good("jobs"):
        if row.get("handover", WE_DELIVER) == WE_DELIVER:
            for code, places in wrong.items():
                if places:
                    yield problem(code, row.where("job"), seen=row.seen("job"), job=job_of(row), other=places[0])


def repeated_holidays(pool: Pool) -> Iterator[Problem]:
    """A day that stands twice on the Holidays sheet."""
    known: dict[date, Row] = {}
    for row in pool.good("holidays"):
        day = row.get("day")
        if isinstance(day, date) and known.setdefault(day, row) is not row:
            yield problem("P661", row.where("day"), seen=row.seen("day"), other=known[day].where("day"))
