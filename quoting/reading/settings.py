"""Sheets that hold one setting a row: its name, its value, and what it means."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from quoting.domain.cells import Cell, Row, Sheet, Table, Value
from quoting.domain.codes import problem
from quoting.domain.layouts import Column, SheetLayout
from quoting.domain.places import Place
from quoting.domain.problems import Level, Outcome, Problem, shortened
from quoting.reading.headings import ROWS_LOOKED_AT, is_named, nearest, squeezed
from quoting.reading.texts import is_blank, seen_text
from quoting.reading.values import read_value

NAMES, VALUES = "setting", "value"
"""The two headings that a settings sheet needs."""


def read_settings(sheet: Sheet, layout: SheetLayout, place: Place) -> Outcome[Table | None]:
    """The settings as a table of one row whose place is the sheet; None where the headings can't be found.

    Every problem here is of level book: a setting concerns all jobs. A setting that is
    there twice, and a filled one whose name comes close to one of ours, are not guessed at.
    The table's `headings` are the places of the values, filled or blank.
    """
    found = _heading_cells(sheet)
    if found is None:
        return Outcome(value=None, problems=(problem("P107", place, sheet=layout.name, headings="Setting, Value"),))
    heading_row, name_column, value_column = found
    values: dict[str, Value] = {}
    misread: set[str] = set()
    problems: list[Problem] = []
    named = _settings(sheet, layout, heading_row, name_column)
    for row, column in named.items():
        cells = sheet.rows[row]
        cell = cells.get(value_column, Cell(place=cells[name_column].place.at(value_column)))
        rows = [other for other, one in named.items() if one.key == column.key]
        found_here = _setting(cell, column, cells[name_column], rows)
        problems += found_here.problems
        if found_here.value is not None:
            values[column.key] = found_here.value
        elif found_here.problems:
            misread.add(column.key)
    problems += _unknown_settings(sheet, layout, found, named)
    row_read = Row(place=place, values=values, columns={}, misread=frozenset(misread))
    places = {column.key: sheet.rows[row][name_column].place.at(value_column) for row, column in named.items()}
    table = Table(sheet_key=layout.key, place=place, rows=(row_read,), headings=places)
    return Outcome(value=table, problems=tuple(problems))


def _heading_cells(sheet: Sheet) -> tuple[int, int, int] | None:
    """Row of the headings, column of the names, column of the values."""
    for row in list(sheet.rows)[:ROWS_LOOKED_AT]:
        words = {squeezed(seen_text(cell)): column for column, cell in reversed(list(sheet.rows[row].items()))}
        if NAMES in words and VALUES in words:
            return row, words[NAMES], words[VALUES]
    return None


def _settings(sheet: Sheet, layout: SheetLayout, heading_row: int, name_column: int) -> Mapping[int, Column]:
    """Rows that name one of our settings, or come close to one that no row names; row → column."""
    known = {squeezed(name): column for column in reversed(layout.columns) for name in (column.key, column.heading)}
    typed = {
        row: squeezed(seen_text(cells[name_column]).partition("(")[0])
        for row, cells in sheet.rows.items()
        if row > heading_row and name_column in cells
    }
    named = {row: known[name] for row, name in typed.items() if name in known}
    lacking = {squeezed(c.heading): c for c in layout.columns if c.key not in {n.key for n in named.values()}}
    for row, name in typed.items():
        near = "" if row in named else nearest(name, lacking)
        if near:
            named[row] = lacking.pop(near)
    return dict(sorted(named.items()))


def _unknown_settings(
    sheet: Sheet, layout: SheetLayout, found: tuple[int, int, int], named: Mapping[int, Column]
) -> Iterator[Problem]:
    """Filled rows that name no setting, where the sheet lacks some: one of those may be meant."""
    heading_row, name_column, value_column = found
    had = {column.key for column in named.values()}
    lacking = [column.heading for column in layout.columns if column.key not in had]
    for row, cells in sheet.rows.items():
        name, value = cells.get(name_column), cells.get(value_column)
        is_filled = name and value and not is_blank(name) and not is_blank(value) and not value.merged_from
        if lacking and is_filled and name and row > heading_row and row not in named:
            yield problem("P119", name.place, seen=seen_text(name), missing=shortened(lacking))


def _setting(cell: Cell, column: Column, name: Cell, rows: list[int]) -> Outcome[Value | None]:
    typed = seen_text(name)
    if len(rows) > 1:
        others = ", ".join(replace(name.place, row=row).cell for row in rows if row != name.place.row)
        found = problem("P113", name.place, seen=typed, heading=column.heading, other=others)
        return Outcome(value=None, problems=(found,))
    if not is_named(typed, column):
        if is_blank(cell):
            return Outcome(value=None)
        found = problem("P115", name.place, seen=typed, typed=typed, heading=column.heading)
        return Outcome(value=None, problems=(found,))
    read = read_value(cell, column, "")
    problems = tuple(replace(one, level=Level.BOOK) for one in read.problems)
    return Outcome(value=read.value, problems=problems)
