"""Checks on the Suppliers sheet, and on what the other sheets say of packs, stock and cylinders."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from decimal import Decimal

from quoting.checking.names import folded, is_slip
from quoting.checking.pool import Pool
from quoting.domain.cells import Row
from quoting.domain.codes import problem
from quoting.domain.places import Place
from quoting.domain.problems import Problem
from quoting.geometry.cylinders import LEFT_BAR, helium_litres

TOLERANCE = 0.05
"""Contents are stated at 15 or 21 °C, at 1 bar or 1 atm: that makes 2 % either way; an ideal gas is 10 % out."""


def repeated_suppliers(pool: Pool) -> Iterator[Problem]:
    """A second row of one supplier."""
    known: dict[str, Place] = {}
    for row in pool.good("suppliers"):
        name = str(row.get("supplier"))
        first = known.setdefault(folded(name), row.where("supplier"))
        if first != row.where("supplier"):
            yield problem("P625", row.where("supplier"), seen=row.seen("supplier"), supplier=name, other=first)


def misspelt_suppliers(pool: Pool) -> Iterator[Problem]:
    """A supplier of packs that the Suppliers sheet has not, one sign away from one that it has."""
    known = pool.names("suppliers", "supplier")
    told: set[str] = set()
    for row in (*pool.good("balloons"), *pool.good("hardware")):
        name = str(row.get("supplier", ""))
        if not name or folded(name) in known or folded(name) in told:
            continue
        told.add(folded(name))
        meant = next((other for key, other in known.items() if is_slip(folded(name), key)), "")
        if meant:
            yield problem("P626", row.where("supplier"), seen=row.seen("supplier"), meant=meant)


def stock_past_its_day(pool: Pool) -> Iterator[Problem]:
    """Balloons on hand that are no longer good on the day of the run."""
    for row in pool.good("balloons"):
        day = row.get("best_before")
        if row.get("on_hand") and isinstance(day, date) and day < pool.run_date:
            yield problem("P629", row.where("best_before"), seen=row.seen("best_before"))


def doubtful_cylinders(pool: Pool) -> Iterator[Problem]:
    """A cylinder whose stated contents can't be right for its size and pressure."""
    for row in pool.good("hardware"):
        stated, water, bar = (_number(row, key) for key in ("contents", "water_capacity", "pressure"))
        if row.get("part") != "cylinder" or not (stated and water and bar):
            continue
        whole, least = helium_litres(water, bar), helium_litres(water, bar, left_bar=min(LEFT_BAR, bar / 2))
        if not least * (1 - TOLERANCE) <= stated <= whole * (1 + TOLERANCE):
            yield problem(
                "P620", row.where("contents"), seen=row.seen("contents"),
                water=row.seen("water_capacity"), pressure=row.seen("pressure"), real=f"{whole:.0f}",
            )


def _number(row: Row, key: str) -> float:
    value = row.get(key)
    return float(value) if isinstance(value, (int, Decimal)) else 0.0
