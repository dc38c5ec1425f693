"""Checks on the rows of the Jobs sheet: their codes, dates and delivery."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, time
from decimal import Decimal

from quoting.checking.names import folded
from quoting.checking.pool import Pool
from quoting.checking.rows import job_of
from quoting.checking.values import RowReader
from quoting.domain.cells import Row
from quoting.domain.codes import problem
from quoting.domain.places import Place
from quoting.domain.problems import Problem
from quoting.domain.quotes import quote_number

WE_DELIVER = "we deliver"
"""How the handover of a delivered job is typed."""


def repeated_jobs(pool: Pool) -> Iterator[Problem]:
    """A second job of one code."""
    known: dict[str, Place] = {}
    for row in pool.of("jobs"):
        code = job_of(row)
        first = known.setdefault(folded(code), row.where("job"))
        if code and first != row.where("job"):
            yield problem("P410", row.where("job"), seen=row.seen("job"), job=code, other=first)


def shared_numbers(pool: Pool) -> Iterator[Problem]:
    """Jobs of different codes whose quotes would have one number: the one code has the prefix, the other gets it."""
    prefix = RowReader("shop", pool.of("shop")[0]).text("quote_prefix") if pool.of("shop") else ""
    sharing: dict[str, dict[str, Row]] = {}
    for row in pool.of("jobs"):
        if code := job_of(row):
            sharing.setdefault(folded(quote_number(prefix, code)), {}).setdefault(folded(code), row)
    for rows in sharing.values():
        for row in rows.values():
            other = next((each for each in rows.values() if each is not row), None)
            if other is not None:
                yield problem(
                    "P428", row.where("job"), seen=row.seen("job"), job=job_of(row), other=other.where("job"),
                    number=quote_number(prefix, job_of(row)), job_code=job_of(other),
                )  # fmt: skip


def jobs_without_pieces(pool: Pool) -> Iterator[Problem]:
    """A job that no piece names."""
    named = {folded(job_of(row)) for row in pool.of("pieces")}
    for row in pool.of("jobs"):
        if job_of(row) and folded(job_of(row)) not in named and "pieces" in pool.found:
            yield problem("P414", row.where("job"), seen=row.seen("job"), job=job_of(row))


def job_dates(pool: Pool) -> Iterator[Problem]:
    """Install, event and strike out of order, or an event that is over on the quote's date."""
    for row in pool.good("jobs"):
        event = row.get("event_date")
        if isinstance(event, date):
            yield from _install_late(row, event)
            yield from _strike_early(row, event)
            yield from _event_over(row, event, pool.run_date)


def _later(first_day: date, first_hour: object, second_day: date, second_hour: object) -> bool:
    """True where the first moment is after the second, as far as times are given."""
    if first_day != second_day:
        return first_day > second_day
    return isinstance(first_hour, time) and isinstance(second_hour, time) and first_hour > second_hour


def _moment(day: date, hour: object) -> str:
    return f"{day.isoformat()} {hour:%H:%M}" if isinstance(hour, time) else day.isoformat()


def _install_late(row: Row, event: date) -> Iterator[Problem]:
    day, hour, event_hour = row.get("install_date", event), row.get("install_time"), row.get("event_time")
    if isinstance(day, date) and _later(day, hour, event, event_hour):
        place = row.where("install_date" if day != event else "install_time")
        yield problem("P415", place, seen=_moment(day, hour), job=job_of(row), event=_moment(event, event_hour))


def _strike_early(row: Row, event: date) -> Iterator[Problem]:
    day, hour, event_hour = row.get("strike_date", event), row.get("strike_time"), row.get("event_time")
    if isinstance(day, date) and _later(event, event_hour, day, hour):
        place = row.where("strike_date" if day != event else "strike_time")
        yield problem("P416", place, seen=_moment(day, hour), job=job_of(row), event=_moment(event, event_hour))


def _event_over(row: Row, event: date, run_date: date) -> Iterator[Problem]:
    quoted = row.get("quote_date", run_date)
    if isinstance(quoted, date) and quoted > event:
        key = "quote_date" if "quote_date" in row.values else "event_date"
        yield problem("P417", row.where(key), seen=row.seen(key), job=job_of(row), event=event, quoted=quoted)


def taxes_out_of_date(pool: Pool) -> Iterator[Problem]:
    """A tax none of whose rates holds on the day of the event: it would be left out without a word."""
    taxes = pool.names("tax", "code")
    for row in pool.good("jobs"):
        event = row.get("event_date")
        if not isinstance(event, date) or row.get("exempt_reason"):
            continue
        for code, name in taxes.items():
            rates = [tax for tax in pool.of("tax") if folded(str(tax.get("code"))) == code]
            if not any(_holds(tax, event) for tax in rates):
                place, seen = row.where("event_date"), row.seen("event_date")
                yield problem("P418", place, seen=seen, job=job_of(row), tax=name, event=event)


def _holds(tax: Row, day: date) -> bool:
    start, end = tax.get("valid_from"), tax.get("valid_until")
    return not (isinstance(start, date) and day < start) and not (isinstance(end, date) and day > end)


def deliveries(pool: Pool) -> Iterator[Problem]:
    """A delivered job without a distance, or while the Delivery sheet can't be used."""
    wrong = pool.bad("delivery")
    for row in pool.good("jobs"):
        if row.get("handover", WE_DELIVER) != WE_DELIVER:
            continue
        place, seen = row.where("distance"), row.seen("distance")
        if not isinstance(row.get("distance"), Decimal):
            yield problem("P424", place, job=job_of(row))
        elif wrong:
            yield problem("P425", place, seen=seen, job=job_of(row), other=wrong[0].place)
