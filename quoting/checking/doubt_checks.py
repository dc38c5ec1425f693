"""Figures and words that can be meant, but hardly are: told of, and nothing is held for them.

One exception: a word like "no" where the reason of an exemption belongs holds the job, since it would
take all tax off.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from decimal import Decimal

from quoting.checking.layouts import layout_of
from quoting.checking.names import folded
from quoting.checking.pool import Pool
from quoting.checking.rows import job_of
from quoting.checking.values import defaults_of
from quoting.domain.cells import Row
from quoting.domain.codes import problem
from quoting.domain.places import Place
from quoting.domain.problems import Problem

NO_REASONS = frozenset({
    "no", "none", "n", "n/a", "na", "n.a.", "nil", "false", "0", "x", "not exempt", "no exemption", "taxable",
    "unknown", "yes", "y", "true", "1", "exempt", "tbc", "tba", "non", "nein",
})
"""What is typed under "Tax exempt because" and is no reason."""
FAR_OFF = timedelta(days=3 * 365)
MANY = 5
"""Large rounds come by twos, and one is rightly listed above what the two cost; from this many on it is a slip."""
NOTHING = {
    ("balloons", "pack_price"): "these balloons cost nothing",
    ("labour", "seconds"): "this work takes no time",
    ("pieces", "price"): "the piece is free",
}
"""What a 0 in a column comes to."""


def exemptions(pool: Pool) -> Iterator[Problem]:
    """A job that is exempt for no reason: "no", "n/a", a dash."""
    for row in pool.good("jobs"):
        reason = folded(str(row.get("exempt_reason", "")))
        if reason and (reason in NO_REASONS or not any(sign.isalnum() for sign in reason)):
            yield problem("P419", row.where("exempt_reason"), seen=row.seen("exempt_reason"), job=job_of(row))


def noughts(pool: Pool) -> Iterator[Problem]:
    """Prices and times of 0."""
    for (sheet_key, key), so in NOTHING.items():
        heading = layout_of(sheet_key).column(key).heading
        for row in pool.good(sheet_key):
            if row.get(key) == 0:
                place, seen = row.where(key), row.seen(key)
                yield problem("P480", place, seen=seen, job=job_of(row), heading=heading, so=so)


def dear_singles(pool: Pool) -> Iterator[Problem]:
    """One balloon listed above the price of a whole pack of several: most likely the price of a pack."""
    for row in pool.good("balloons"):
        each, pack, price = row.get("sell_each"), row.get("pack"), row.get("pack_price")
        is_known = isinstance(each, Decimal) and isinstance(pack, int) and isinstance(price, Decimal)
        if is_known and pack >= MANY and each > price > 0:  # type: ignore[operator]  # is_known has looked
            place, seen = row.where("sell_each"), row.seen("sell_each")
            yield problem("P481", place, seen=seen, pack=pack, price=row.seen("pack_price"))


def doubtful_days(pool: Pool) -> Iterator[Problem]:
    """A quote that is no longer valid on the day of the run, or whose event is years away."""
    shop = pool.of("shop")
    valid = (shop[0].get("valid_days") if shop else None) or defaults_of("shop")["valid_days"]
    for row in pool.good("jobs"):
        event, quoted = row.get("event_date"), row.get("quote_date", pool.run_date)
        if not isinstance(event, date) or not isinstance(quoted, date) or not isinstance(valid, int):
            continue
        until = min(quoted + timedelta(days=valid), event)
        if quoted <= event and until < pool.run_date:
            place, seen = row.where("quote_date"), row.seen("quote_date")
            yield problem("P482", place, seen=seen, job=job_of(row), until=until)
        if event - quoted > FAR_OFF:
            place, seen = row.where("event_date"), row.seen("event_date")
            yield problem("P483", place, seen=seen, job=job_of(row), quoted=quoted)


def no_taxes(pool: Pool) -> Iterator[Problem]:
    """A Tax sheet with headings and nothing below them."""
    if "tax" in pool.found and not pool.of("tax"):
        yield problem("P484", pool.found["tax"])


def repeated_adjustments(pool: Pool) -> Iterator[Problem]:
    """One discount or surcharge twice: same job, piece, percent or amount, and time."""
    known: dict[tuple[object, ...], Place] = {}
    keys = ("kind", "job", "piece", "percent", "amount", "notice_days", "season_from", "season_until")
    for row in pool.good("adjustments"):
        first = known.setdefault(tuple(_plain(row.get(key)) for key in keys), row.where("name"))
        if first != row.where("name"):
            place, seen = row.where("name"), row.seen("name")
            yield problem("P485", place, seen=seen, job=job_of(row), kind=row.get("kind"), other=first)


def _plain(value: object) -> object:
    return folded(value) if isinstance(value, str) else value


def whole_discounts(pool: Pool) -> Iterator[Problem]:
    """A discount of 100 %."""
    for row in pool.good("adjustments"):
        if row.get("kind") == "discount" and row.get("percent") == 1:
            yield problem("P486", row.where("percent"), seen=row.seen("percent"), job=job_of(row))


def example_names(pool: Pool) -> Iterator[Problem]:
    """A tax or a shop that is still called an example, which clients would read."""
    for row in pool.good("tax"):
        if _is_example(row, "name"):
            fix = "type your own rate, and the tax's name as clients shall read it"
            yield problem("P487", row.where("name"), seen=row.seen("name"), what="rate", fix=fix)
    for row in pool.of("shop"):
        if _is_example(row, "name"):
            yield problem("P487", row.where("name"), seen=row.seen("name"), what="name", fix="type your shop's name")


def _is_example(row: Row, key: str) -> bool:
    return "example" in folded(str(row.get(key, "")))
