"""Hired things counted by the day: from the day they leave to the day they are back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise

from quoting.domain.jobs import Job
from quoting.domain.orders import Clash
from quoting.domain.prices import PriceBook
from quoting.domain.quotes import JobSheet

DAY = timedelta(days=1)


def days_out(sheet: JobSheet) -> tuple[date, date]:
    """Give the first and last day on which a job's hired things are away.

    From the install to the strike, both included; to the event where nothing is struck.
    """
    return sheet.install_date, max(sheet.strike_date or sheet.quote.event_date, sheet.install_date)


def with_days(job: Job, prices: PriceBook) -> PriceBook:
    """Give the price book for one job: things hired by the day at their cost and charge for the days they are away."""
    if not any(thing.is_per_day for thing in prices.hardware):
        return prices
    days = (max(job.strike_date or job.event_date, job.install_date) - job.install_date).days + 1
    hardware = tuple(
        replace(
            thing,
            cost=thing.cost * days,
            charge=None if thing.charge is None else thing.charge * days,
            days=days,
        )
        if thing.is_per_day
        else thing
        for thing in prices.hardware
    )
    return replace(prices, hardware=hardware)


def clashes_among(sheets: Sequence[JobSheet]) -> tuple[Clash, ...]:
    """Give every run of days on which the same jobs want more of a hired item than the shop owns; by item, then day.

    An item of which it isn't known how many there are can't clash.
    """
    items: dict[str, tuple[str, int, list[tuple[JobSheet, int]]]] = {}
    for sheet in sheets:
        for line in sheet.hire:
            if line.owned is not None:
                items.setdefault(line.item.casefold(), (line.item, line.owned, []))[2].append((sheet, line.count))
    found: list[Clash] = []
    for key in sorted(items):
        item, owned, wants = items[key]
        found += _clashes_of(item, owned, wants)
    return tuple(found)


def _clashes_of(item: str, owned: int, wants: Sequence[tuple[JobSheet, int]]) -> list[Clash]:
    # Who is out changes only on these days; between two of them every day is alike.
    spans = [(*days_out(sheet), sheet.job, count) for sheet, count in wants]
    turns = sorted({day for first, last, _, _ in spans for day in (first, last + DAY)})
    found: list[Clash] = []
    for start, following in pairwise(turns):
        jobs = tuple((job, count) for first, last, job, count in spans if first <= start <= last)
        wanted = sum(count for _, count in jobs)
        if wanted > owned:
            found.append(Clash(item=item, first=start, last=following - DAY, owned=owned, wanted=wanted, jobs=jobs))
    return found
