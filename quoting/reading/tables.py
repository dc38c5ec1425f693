"""The sheets of a book as tables of typed values."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from quoting.domain.cells import Book, Cell, Row, Sheet, Table, Value
from quoting.domain.codes import problem
from quoting.domain.layouts import SheetLayout
from quoting.domain.places import Place
from quoting.domain.problems import Level, Outcome, Problem
from quoting.reading.headings import Heading, HeadingRow, find_headings, is_named, nearest, squeezed
from quoting.reading.settings import read_settings
from quoting.reading.texts import is_blank, seen_text
from quoting.reading.troubles import Trouble, trouble_at
from quoting.reading.unread_columns import unread_columns
from quoting.reading.values import read_value

JOB = "job"
"""The column by which a row belongs to a job."""


def read_tables(book: Book, layouts: Sequence[SheetLayout]) -> Outcome[tuple[Table, ...]]:
    """The book's tables in the order of `layouts`; sheets of other names are passed over.

    A sheet counts by its name or key, without regard to case and spaces; one without a
    cell gives no table. Rows keep their physical numbers; blank rows, columns of the
    owner's own and headings repeated further down are passed over. Problems of a row
    that names a job carry the job.
    """
    tables: list[Table] = []
    problems: list[Problem] = list(_near_names(book, layouts))
    for layout in layouts:
        sheets = [sheet for sheet in book.sheets if squeezed(sheet.name) in _names(layout)]
        if len(sheets) > 1:
            problems += [problem("P106", _place(book, sheet), seen=sheet.name) for sheet in sheets]
        elif sheets and _is_filled(sheets[0]):
            read = _read_sheet(sheets[0], layout, _place(book, sheets[0]))
            problems += read.problems
            tables += [] if read.value is None else [read.value]
    return Outcome(value=tuple(tables), problems=tuple(problems))


def _names(layout: SheetLayout) -> tuple[str, str]:
    return squeezed(layout.name), squeezed(layout.key)


def _place(book: Book, sheet: Sheet) -> Place:
    return Place(workbook=book.name, sheet=sheet.name)


def _is_filled(sheet: Sheet) -> bool:
    return any(not is_blank(cell) for cells in sheet.rows.values() for cell in cells.values())


def _near_names(book: Book, layouts: Sequence[SheetLayout]) -> Iterator[Problem]:
    """Sheets whose name comes close to one of ours that the book lacks.

    One that has our headings too is ours with a slip in its name: to go on without it could change prices unseen.
    """
    typed = {squeezed(sheet.name) for sheet in book.sheets}
    lacking = {squeezed(layout.name): layout for layout in layouts if not typed & set(_names(layout))}
    ours = {name for layout in layouts for name in _names(layout)}
    for sheet in book.sheets:
        if squeezed(sheet.name) not in ours:
            near = nearest(squeezed(sheet.name), lacking)
            if near:
                place, layout = _place(book, sheet), lacking[near]
                level = Level.BOOK if _read_sheet(sheet, layout, place).value else Level.NOTE
                yield problem("P112", place, seen=sheet.name, sheet=layout.name, level=level)


def _read_sheet(sheet: Sheet, layout: SheetLayout, place: Place) -> Outcome[Table | None]:
    if layout.is_settings:
        return read_settings(sheet, layout, place)
    found = find_headings(sheet, layout, place)
    if not found.row:
        return Outcome(value=None, problems=found.problems)
    rows: list[Row] = []
    problems = list(found.problems)
    for number, cells in sheet.rows.items():
        read = _read_row(place, number, cells, found, layout) if number > found.row else Outcome(value=None)
        problems += read.problems
        rows += [] if read.value is None else [read.value]
    headings = {heading.column.key: heading.place for heading in found.headings.values() if heading.doubt is None}
    table = Table(
        sheet_key=layout.key, place=place, rows=tuple(rows), headings=headings,
        unread=tuple(unread_columns(sheet, layout, found, [row.place.row for row in rows])),
    )
    return Outcome(value=table, problems=tuple(problems))


def _read_row(
    sheet: Place, number: int, cells: Mapping[int, Cell], found: HeadingRow, layout: SheetLayout
) -> Outcome[Row | None]:
    """One row; None where none of our columns is filled, or where it is a title or the headings once more."""
    filled = {n: cells[n] for n in found.headings if n in cells and not is_blank(cells[n])}
    if not filled or _is_repeated_heading(filled, found):
        return Outcome(value=None)
    place = replace(sheet, row=number)
    if title := _title_across(filled):
        found_title = problem("P116", place.at(title.column), seen=seen_text(cells[title.column]))
        return Outcome(value=None, problems=(found_title,))
    values: dict[str, Value] = {}
    misread = set(found.missing)
    problems: list[Problem] = []
    for column, cell in filled.items():
        heading = found.headings[column]
        read = _read_cell(cell, heading)
        problems += read.problems
        if read.value is not None:
            values[heading.column.key] = read.value
        elif read.problems:
            misread.add(heading.column.key)
    row = Row(
        place=place, values={k: v for k, v in values.items() if k not in misread},
        columns={h.column.key: n for n, h in reversed(list(found.headings.items()))}, misread=frozenset(misread),
    )
    return Outcome(value=row, problems=tuple(_belonging(one, row, layout) for one in problems))


def _is_repeated_heading(filled: Mapping[int, Cell], found: HeadingRow) -> bool:
    """True where every filled cell says its own column's heading: the headings of a further page, or a merged one."""
    return all(is_named(seen_text(cell), found.headings[n].column) for n, cell in filled.items())


def _title_across(filled: Mapping[int, Cell]) -> Place | None:
    """Where one cell is merged across all the filled columns of a row, its place; no value belongs to two columns."""
    origins = {cell.merged_from for cell in filled.values()}
    return next(iter(filled.values())).place if len(filled) > 1 and len(origins) == 1 and None not in origins else None


def _read_cell(cell: Cell, heading: Heading) -> Outcome[Value | None]:
    if heading.doubt is None:
        return read_value(cell, heading.column, heading.unit)
    told = Trouble(code=heading.doubt.code, facts={"heading": heading.column.heading, **heading.doubt.facts})
    found = replace(trouble_at(told, cell.place, seen_text(cell)), level=Level.HOLD)
    return Outcome(value=None, problems=(found,))


def _belonging(found: Problem, row: Row, layout: SheetLayout) -> Problem:
    """The problem with its row's job; in a row that concerns every job it stops them all."""
    if not any(column.key == JOB for column in layout.columns):
        return replace(found, level=Level.BOOK) if layout.key == "tax" else found
    job = str(row.get(JOB, ""))
    is_for_all = layout.key == "adjustments" and not job
    return replace(found, job=job, level=Level.BOOK if is_for_all else found.level)
