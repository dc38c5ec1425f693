"""Checks on whole sheets, on settings, and on what any sheet's rows can have wrong."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date

from quoting.checking.layouts import LAYOUT_VERSION, book_layouts, layout_of
from quoting.checking.pool import Pool
from quoting.checking.rows import is_allowed, job_of, row_level
from quoting.domain.cells import Row, Value
from quoting.domain.codes import problem
from quoting.domain.places import Place
from quoting.domain.problems import Level, Problem

PERIODS = (
    ("balloons", "price_from", "price_until"),
    ("hardware", "price_from", "price_until"),
    ("tax", "valid_from", "valid_until"),
    ("adjustments", "season_from", "season_until"),
)

SIGNS_SHARED = {
    "$": frozenset(
        {"USD", "CAD", "AUD", "NZD", "SGD", "HKD", "TWD", "MXN", "TTD", "JMD", "BBD", "BSD", "BZD", "FJD", "XCD"}
    ),
    "£": frozenset({"GBP", "EGP", "FKP", "GIP", "SHP"}),
    "¥": frozenset({"JPY", "CNY"}),
    "kr": frozenset({"SEK", "NOK", "DKK", "ISK"}),
}
"""Signs that several currencies share (from memory): beside any of these the sign says nothing against the shop's."""


def missing_sheets(pool: Pool) -> Iterator[Problem]:
    """A sheet that a run can't do without is in none of its books."""
    if not pool.found:
        return
    workbook = next(iter(pool.found.values())).workbook
    for layout in book_layouts():
        if layout.required and layout.key not in pool.found:
            yield problem("P401", Place(workbook=workbook), sheet=layout.name)


def differing_shops(pool: Pool) -> Iterator[Problem]:
    """Two books give one setting, and not the same."""
    first: dict[str, Value] = {}
    for shop in pool.shops:
        for key, value in shop.values.items():
            known = first.setdefault(key, value)
            if known.value != value.value:
                yield problem(
                    "P402", value.place, seen=value.seen, heading=layout_of("shop").column(key).heading,
                    other=known.seen, book=known.place.workbook,
                )


def layout_versions(pool: Pool) -> Iterator[Problem]:
    """A book of a layout that this program does not read."""
    for shop in pool.shops:
        version = shop.get("layout")
        if isinstance(version, int) and version != LAYOUT_VERSION:
            newer = "use a newer version of this program, or put the number back if it was changed by hand"
            older = "make a new blank book and copy your rows into it"
            yield problem(
                "P403", shop.where("layout"), seen=shop.seen("layout"), version=LAYOUT_VERSION,
                fix=newer if version > LAYOUT_VERSION else older,
            )


def misread_for_all(pool: Pool) -> Iterator[Problem]:
    """A cell that every job depends on was filled but not understood; reading has said why.

    Of the Shop sheet reading itself says that it stops everything.
    """
    for key in ("tax", "adjustments"):
        for row in pool.of(key):
            if row_level(key, row) is not Level.BOOK:
                continue
            for name in sorted(row.misread):
                heading = layout_of(key).column(name).heading
                yield problem("P404", row.where(name), seen=row.seen(name), heading=heading)


def periods_in_order(pool: Pool) -> Iterator[Problem]:
    """A first day that lies after the last day."""
    for sheet_key, start_key, end_key in PERIODS:
        layout = layout_of(sheet_key)
        for row in pool.of(sheet_key):
            start, end = row.get(start_key), row.get(end_key)
            if isinstance(start, date) and isinstance(end, date) and start > end:
                yield problem(
                    "P434", row.where(end_key), seen=row.seen(end_key), job=job_of(row),
                    level=row_level(sheet_key, row), start=row.seen(start_key),
                    from_heading=layout.column(start_key).heading, until_heading=layout.column(end_key).heading,
                )


def foreign_money(pool: Pool) -> Iterator[Problem]:
    """An amount with the sign of another currency than the shop's."""
    shop = pool.of("shop")
    currency = str(shop[0].get("currency", "")) if shop else ""
    if not is_allowed("shop", "currency", currency):  # blank, or no currency's code: the Shop sheet is told so
        return
    for sheet_key, rows in pool.rows.items():
        for row in rows:
            for key, value in row.values.items():
                if _is_foreign(value, currency):
                    yield _foreign(sheet_key, row, key, value, currency)


def _is_foreign(value: Value, currency: str) -> bool:
    if not value.currency or value.currency == currency:
        return False
    bare = re.sub(r"[\d\s.,'’+−-]", "", value.seen).casefold()
    return not {value.currency, currency} <= SIGNS_SHARED.get(bare, frozenset[str]())


def _foreign(sheet_key: str, row: Row, key: str, value: Value, currency: str) -> Problem:
    return problem(
        "P440", value.place, seen=value.seen, job=job_of(row), level=row_level(sheet_key, row),
        heading=layout_of(sheet_key).column(key).heading, currency=currency,
    )
