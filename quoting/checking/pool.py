"""The rows of all books of a run, put together: prices may live in one book and jobs in others."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from quoting.checking.names import code_among, folded
from quoting.checking.schemas import SHEET_KEYS, sheet_schemas
from quoting.checking.spellings import known_names, spelled_piece
from quoting.domain.cells import Row, Table, UnreadColumn, Value
from quoting.domain.places import Place
from quoting.domain.problems import Level, Problem


@dataclass(frozen=True, slots=True, kw_only=True)
class Pool:
    """Every row of a run: sheet key → rows, book by book in the order read, with choices spelled as listed.

    `shops` are the Shop sheets as found; the rows of "shop" are at most one, merged
    from them. `names` tells which sheets were found at all: sheet key → a place of it.
    """

    rows: Mapping[str, tuple[Row, ...]]
    shops: tuple[Row, ...]
    found: Mapping[str, Place]
    run_date: date
    settings: Mapping[str, Place]
    """Where the value of each setting stands, filled or blank: setting key → cell."""
    unread: tuple[tuple[str, UnreadColumn], ...] = ()
    """Columns that reading passed over in sheets that lack some of ours: sheet key, column."""
    spoiled: frozenset[Place] = frozenset()
    """Places of the rows that something more than a note stands against."""

    def of(self, sheet_key: str) -> tuple[Row, ...]:
        """All rows of a sheet."""
        return self.rows.get(sheet_key, ())

    def good(self, sheet_key: str) -> tuple[Row, ...]:
        """The rows of a sheet that can be used."""
        return tuple(row for row in self.of(sheet_key) if row.place not in self.spoiled)

    def bad(self, sheet_key: str) -> tuple[Row, ...]:
        """The rows of a sheet that can't be used."""
        return tuple(row for row in self.of(sheet_key) if row.place in self.spoiled)

    def faults(self, sheet_key: str, key: str = "item") -> Mapping[str, Place]:
        """Names that can't be used because one of their rows is wrong: folded name → that row."""
        return {folded(str(row.get(key))): row.place for row in reversed(self.bad(sheet_key)) if row.get(key)}

    def names(self, sheet_key: str, key: str = "item") -> Mapping[str, str]:
        """Every name a sheet's rows give, good or not: folded name → as first typed."""
        return {folded(str(row.get(key))): str(row.get(key)) for row in reversed(self.of(sheet_key)) if row.get(key)}

    def without(self, problems: Iterable[Problem]) -> Pool:
        """The same pool, with the rows spoiled that a problem (no mere note) stands at."""
        found = {replace(p.place, column=0) for p in problems if p.level is not Level.NOTE and p.place.row}
        return replace(self, spoiled=self.spoiled | found)


def pooled(tables: Sequence[Table], run_date: date) -> Pool:
    """All tables' rows in one pool.

    A row of a price sheet that another book repeats word for word counts once. Job codes in
    Pieces and Adjustments are spelled as the Jobs sheet spells them, what a piece names as `spelled_piece` does.
    """
    rows: dict[str, list[Row]] = {key: [] for key in SHEET_KEYS}
    for table in tables:
        rows[table.sheet_key] += [_spelled(table.sheet_key, row) for row in table.rows]
    shops = tuple(rows["shop"])
    codes = {folded(str(row.get("job", ""))): str(row.get("job", "")) for row in reversed(rows["jobs"])}
    gathered = {key: tuple(_unrepeated(key, rows[key])) for key in SHEET_KEYS}
    known = known_names(gathered)
    gathered["pieces"] = tuple(_with_code(spelled_piece(row, known), codes) for row in rows["pieces"])
    gathered["adjustments"] = tuple(_with_code(row, codes) for row in rows["adjustments"])
    gathered["shop"] = (_merged(shops),) if shops else ()
    found = {table.sheet_key: table.place for table in reversed(tables)}
    shop_tables = [table for table in reversed(tables) if table.sheet_key == "shop"]
    settings = {key: place for table in shop_tables for key, place in table.headings.items()}
    unread = tuple((table.sheet_key, column) for table in tables for column in table.unread)
    return Pool(rows=gathered, shops=shops, found=found, run_date=run_date, settings=settings, unread=unread)


def _spelled(sheet_key: str, row: Row) -> Row:
    """The row with each choice spelled as its list spells it, whatever case was typed."""
    properties = sheet_schemas()[sheet_key]["properties"]
    values = dict(row.values)
    for key, value in row.values.items():
        prop = properties.get(key, {})
        choices = prop.get("enum") or prop.get("items", {}).get("enum") or prop.get("cell", {}).get("suggestions")
        if choices:
            spellings = {folded(choice): choice for choice in choices if isinstance(choice, str)}
            values[key] = replace(value, value=_respelled(value.value, spellings))
    return replace(row, values=values)


def _respelled(value: object, spellings: Mapping[str, str]) -> object:
    if isinstance(value, tuple):
        return tuple(_respelled(one, spellings) for one in value)
    return spellings.get(folded(value), value) if isinstance(value, str) else value


def _with_code(row: Row, codes: Mapping[str, str]) -> Row:
    typed = row.values.get("job")
    if typed is None:
        return row
    code = code_among(str(typed.value), codes) or typed.value
    return replace(row, values={**row.values, "job": replace(typed, value=code)})


def _unrepeated(sheet_key: str, rows: Iterable[Row]) -> Iterable[Row]:
    """The rows, less those that an earlier book has word for word (jobs and pieces are never dropped)."""
    if sheet_key in ("jobs", "pieces", "adjustments"):
        yield from rows
        return
    seen: dict[tuple[tuple[str, object], ...], str] = {}
    for row in rows:
        content = tuple((key, row.values[key].value) for key in sorted(row.values))
        first = seen.setdefault(content, row.place.workbook)
        if first == row.place.workbook or row.misread:
            yield row


def _merged(shops: Sequence[Row]) -> Row:
    """One row of all Shop sheets: each setting as the first book that gives it has it."""
    values: dict[str, Value] = {}
    for shop in reversed(shops):
        values.update(shop.values)
    misread = frozenset(key for shop in shops for key in shop.misread)
    first = next((shop for shop in shops if shop.values), shops[0])
    return replace(first, values=values, misread=misread)
