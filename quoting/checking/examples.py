"""Example prices of the blank book that jobs go by."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from types import MappingProxyType

from quoting.checking.item_checks import rows_by_item
from quoting.checking.names import folded
from quoting.checking.pool import Pool
from quoting.domain.codes import problem
from quoting.domain.places import Place
from quoting.domain.problems import Problem

EXAMPLE_PRICE = "example price"
"""How the source of a starting row's price begins."""


def example_items(pool: Pool) -> Mapping[str, Place]:
    """Items whose source still says that the price is an example: name → that cell, in the order of the sheets."""
    found: dict[str, Place] = {}
    for sheet_key in ("balloons", "hardware"):
        for rows in rows_by_item(pool, sheet_key).values():
            for row in rows:
                if EXAMPLE_PRICE in folded(str(row.get("source", ""))):
                    found.setdefault(str(row.get("item")), row.where("source"))
    return MappingProxyType(found)


def example_notes(items: Mapping[str, Place], used: Collection[str]) -> Iterator[Problem]:
    """One note a sheet for the items `used` whose prices are still examples, at the first of them."""
    sheets: dict[Place, list[str]] = {}
    for item, place in items.items():
        if item in used:
            sheets.setdefault(Place(workbook=place.workbook, sheet=place.sheet), []).append(item)
    for names in sheets.values():
        count = "one item" if len(names) == 1 else f"{len(names)} items"
        yield problem("P488", items[names[0]], seen=names[0], item=names[0], count=count)
