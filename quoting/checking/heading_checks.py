"""Columns under headings that are none of ours: told of, and a stop to what they may have priced.

The rule: an unknown heading is a note where its sheet lacks some of our columns. Where one of
those changes a price (`changes_price` in its schema) and the values could be its own, the rows hold:
most values are understood and allowed as that column's; names must be names that the column can have;
for free text the two headings must share a word.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

from quoting.checking.layouts import layout_of
from quoting.checking.names import folded
from quoting.checking.piece_checks import NAMES_OF
from quoting.checking.pool import Pool
from quoting.checking.rows import is_allowed, job_of, row_level
from quoting.domain.cells import Kind, Row, UnreadColumn, Value
from quoting.domain.codes import problem
from quoting.domain.layouts import Column
from quoting.domain.places import Place
from quoting.domain.problems import Problem, shortened

_TEXT_KINDS = (Kind.TEXT, Kind.TEXTS, Kind.AMOUNTS)
_OF_JOBS = ("jobs", "pieces", "adjustments")
_NAMING = {
    ("adjustments", "job"): (("jobs", "job"),), ("adjustments", "piece"): (("pieces", "piece"),),
    ("tax", "on_top_of"): (("tax", "code"),), ("builds", "item"): (("balloons", "item"), ("hardware", "item")),
    **{("pieces", key): tuple((sheet, "build" if sheet == "builds" else "item") for sheet in sheets)
       for key, sheets in NAMES_OF.items()},
}
"""Columns that hold names: sheet and key → where those names stand."""


def unread_headings(pool: Pool) -> Iterator[Problem]:
    """A heading that is none of ours, with values under it, where it can't have changed a price."""
    for sheet_key, column in pool.unread:
        if not _fitting(pool, sheet_key, column):
            lacking = sorted((layout_of(sheet_key).column(key) for key in column.lacking), key=_comes_late)
            missing = shortened([one.heading for one in lacking])
            yield problem("P117", column.place, seen=column.heading, missing=missing)


def _comes_late(column: Column) -> bool:
    return not column.changes_price


def misplaced_prices(pool: Pool) -> Iterator[Problem]:
    """Values of a price sheet under an unknown heading that may be meant for a column which changes a price."""
    yield from _misplaced_values(pool, lambda sheet_key: sheet_key not in _OF_JOBS)


def misplaced_entries(pool: Pool) -> Iterator[Problem]:
    """The same on the sheets that say what a job is: looked at last, so that it hides no other mistake of a row."""
    yield from _misplaced_values(pool, lambda sheet_key: sheet_key in _OF_JOBS)


def _misplaced_values(pool: Pool, is_asked: Callable[[str], bool]) -> Iterator[Problem]:
    for sheet_key, column in pool.unread:
        fitting = _fitting(pool, sheet_key, column) if is_asked(sheet_key) else ()
        if not fitting:
            continue
        rows = {row.place: row for row in pool.of(sheet_key)}
        heading = " or ".join(one.heading for one in fitting[:3])
        for cell in column.cells:
            row = rows.get(Place(workbook=cell.place.workbook, sheet=cell.place.sheet, row=cell.place.row))
            if row is not None:
                yield _misplaced(sheet_key, row, cell, column.heading, heading)


def _misplaced(sheet_key: str, row: Row, cell: Value, typed: str, heading: str) -> Problem:
    return problem(
        "P118", cell.place, seen=cell.seen, job=job_of(row), level=row_level(sheet_key, row),
        typed=typed, heading=heading,
    )


def _fitting(pool: Pool, sheet_key: str, column: UnreadColumn) -> tuple[Column, ...]:
    """Columns that change a price, that the sheet lacks and whose values these may be."""
    lacking = [layout_of(sheet_key).column(key) for key in column.readings]
    return tuple(one for one in lacking if _fits(pool, sheet_key, one, column))


def _fits(pool: Pool, sheet_key: str, ours: Column, column: UnreadColumn) -> bool:
    read = column.readings[ours.key]
    if ours.choices and ours.kind is not Kind.YES_NO:
        choices = {folded(choice) for choice in ours.choices}
        return _are_most([folded(str(one.value)) in choices for one in read], column)
    if ours.kind in _TEXT_KINDS:
        return _names_any(pool, (sheet_key, ours.key), read) or _share_a_word(column.heading, ours.heading)
    return _are_most([is_allowed(sheet_key, ours.key, one.value) for one in read], column)


def _are_most(judged: list[bool], column: UnreadColumn) -> bool:
    return 2 * sum(judged) >= len(column.cells)


def _names_any(pool: Pool, field: tuple[str, str], read: tuple[Value, ...]) -> bool:
    known = {name for sheet, key in _NAMING.get(field, ()) for name in pool.names(sheet, key)}
    return any(folded(name) in known for one in read for name in _named(one.value))


def _named(value: object) -> tuple[str, ...]:
    if isinstance(value, tuple):
        return tuple(str(one[1] if isinstance(one, tuple) else one) for one in value)
    return (str(value),)


def _share_a_word(one: str, other: str) -> bool:
    """True where a word of three letters or more begins alike in both, for up to five letters: exempt, exemption."""
    first, second = ({word[:5] for word in re.findall(r"[^\W\d_]{3,}", folded(text))} for text in (one, other))
    return bool((first & second) - {"each", "the", "for", "and", "becau"})
