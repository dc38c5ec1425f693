"""Checks on the rows of the Balloons and Hardware sheets against each other."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from datetime import date
from decimal import Decimal
from itertools import combinations

from quoting.checking.layouts import layout_of
from quoting.checking.names import folded
from quoting.checking.pool import Pool
from quoting.domain.cells import Row
from quoting.domain.codes import problem
from quoting.domain.colour_words import is_known_colour
from quoting.domain.problems import Problem
from quoting.forms.fields import NONE

OF_THE_ITEM = ("shape", "size", "finish", "colour", "drawn_as", "usual_fill", "sell_each", "breakage", "on_hand",
               "charge_by", "litres", "grams", "lot_on_hand", "best_before", "keeps_days", "hours_afloat")
"""Columns that speak of the item, not of one of its packs: a row may leave them blank, but not contradict."""

CM_PER_INCH = Decimal("2.54")


def rows_by_item(pool: Pool, sheet_key: str) -> Mapping[str, list[Row]]:
    """The usable rows of a sheet by their folded item name, in the order of the sheet."""
    items: dict[str, list[Row]] = defaultdict(list)
    for row in pool.good(sheet_key):
        items[folded(str(row.get("item")))].append(row)
    return items


def disagreeing_rows(pool: Pool) -> Iterator[Problem]:
    """Rows of one balloon that say different things of the balloon itself."""
    for rows in rows_by_item(pool, "balloons").values():
        for key in OF_THE_ITEM:
            told = [row for row in rows if key in row.values]
            for row in told[1:]:
                if _plain(row.get(key)) != _plain(told[0].get(key)):
                    yield problem(
                        "P451", row.where(key), seen=row.seen(key), heading=layout_of("balloons").column(key).heading,
                        other=told[0].seen(key), where=told[0].where(key),
                    )


def _plain(value: object) -> object:
    return folded(value) if isinstance(value, str) else value


def clashing_prices(pool: Pool) -> Iterator[Problem]:
    """One pack of one balloon from one supplier with two prices at the same time."""
    for rows in rows_by_item(pool, "balloons").values():
        for first, second in combinations(rows, 2):
            same = all(_plain(first.get(key, "")) == _plain(second.get(key, "")) for key in ("pack", "supplier", "lot"))
            if same and overlap(first, second, "price_from", "price_until"):
                place, seen = second.where("pack_price"), second.seen("pack_price")
                yield problem("P452", place, seen=seen, other=first.where("pack_price"))


def overlap(first: Row, second: Row, start_key: str, end_key: str) -> bool:
    """True where the periods of two rows share a day; a blank end is open."""

    def bound(row: Row, key: str, open_end: date) -> date:
        value = row.get(key)
        return value if isinstance(value, date) else open_end

    start = max(bound(first, start_key, date.min), bound(second, start_key, date.min))
    return start <= min(bound(first, end_key, date.max), bound(second, end_key, date.max))


def overfilled_items(pool: Pool) -> Iterator[Problem]:
    """A usual fill above the nominal size (of a twister: the tube's)."""
    for row in pool.good("balloons"):
        size, fill = row.get("size"), row.get("usual_fill")
        if not isinstance(size, int) or not isinstance(fill, Decimal):
            continue
        inches = size // 100 if row.get("shape") == "twister" else size
        if fill > inches * CM_PER_INCH:
            yield problem("P453", row.where("usual_fill"), seen=row.seen("usual_fill"), size=inches)


def colours_not_drawn(pool: Pool) -> Iterator[Problem]:
    """A colour for pictures that they don't know."""
    for row in pool.good("balloons"):
        words = row.get("drawn_as")
        if isinstance(words, str) and not is_known_colour(words):
            yield problem("P459", row.where("drawn_as"), seen=row.seen("drawn_as"), item=row.get("item"))


def prices_run_out(pool: Pool) -> Iterator[Problem]:
    """A balloon or hardware none of whose prices holds any more on the day of the run."""
    for sheet_key in ("balloons", "hardware"):
        for rows in rows_by_item(pool, sheet_key).values():
            ends = [row.get("price_until") for row in rows]
            if all(isinstance(end, date) and end < pool.run_date for end in ends):
                last = max(rows, key=lambda row: str(row.get("price_until")))
                yield problem("P454", last.where("price_until"), seen=last.seen("price_until"), item=last.get("item"))


def twin_balloons(pool: Pool) -> Iterator[Problem]:
    """Two names for one and the same round or twister: a piece that asks for its colour can't be told which."""
    known: dict[tuple[object, ...], Row] = {}
    for rows in rows_by_item(pool, "balloons").values():
        row = rows[0]
        if row.get("shape") == "foil":
            continue
        first = known.setdefault(tuple(_plain(row.get(key)) for key in ("shape", "size", "finish", "colour")), row)
        if first is not row:
            for one, other in ((first, row), (row, first)):
                place, seen = one.where("item"), one.seen("item")
                yield problem("P455", place, seen=seen, item=one.get("item"), other=other.where("item"))


def shared_names(pool: Pool) -> Iterator[Problem]:
    """Hardware whose name a balloon has, that has two rows, or that is called "none"."""
    balloons = {name: rows[0] for name, rows in rows_by_item(pool, "balloons").items()}
    for name, rows in rows_by_item(pool, "hardware").items():
        place, seen = rows[0].where("item"), rows[0].seen("item")
        if name == NONE:
            yield problem("P458", place, seen=seen)
        if name in balloons:
            yield problem("P456", place, seen=seen, item=rows[0].get("item"), other=balloons[name].where("item"))
        for row in rows[1:]:
            yield problem("P457", row.where("item"), seen=row.seen("item"), item=row.get("item"), other=place)
