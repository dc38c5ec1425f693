"""Workbooks in OpenDocument (.ods; ODF 1.2 and 1.3), read from their content part."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date, datetime, timedelta
from xml.etree.ElementTree import Element

from quoting.domain.cells import Cell, Sheet
from quoting.domain.places import Place
from quoting.reading.archives import Archive, UnreadableError
from quoting.reading.cell_grids import CellGrid, Merge, number_of
from quoting.reading.xlsx_books import clock_time
from quoting.reading.xml_parts import attribute, elements, events, local

_DURATION = re.compile(r"(-?)PT(?:(\d{1,6})H)?(?:(\d{1,6})M)?(?:(\d{1,6})(?:[.,]\d+)?S)?")
_ERROR = re.compile(r"#\S+|Err:\d+", re.IGNORECASE)


def read_ods(name: str, archive: Archive) -> tuple[Sheet, ...]:
    """The sheets of a workbook, in the order of their tabs.

    `name` is the workbook's file name, for places. UnreadableError where the file is damaged or locked.
    """
    if archive.has("META-INF/manifest.xml"):
        for _ in elements(archive.part("META-INF/manifest.xml"), "encryption-data"):
            raise UnreadableError("P103")
    sheets = []
    grid: CellGrid | None = None
    row, depth = 0, 0
    for event, tag, element in events(archive.part("content.xml")):
        if tag == "table":
            depth += 1 if event == "start" else -1
            if event == "start" and depth == 1:
                grid, row = CellGrid(Place(workbook=name, sheet=attribute(element, "name"))), 0
            elif event == "end" and depth == 0 and grid is not None:
                sheets.append(grid.sheet())
                grid = None
        elif event == "end" and tag == "table-row" and grid is not None and depth == 1:
            row = _add_rows(grid, row, element)
            element.clear()
    return tuple(sheets)


def _add_rows(grid: CellGrid, row: int, element: Element) -> int:
    """Add a row, as often as it says it is repeated; gives back the last row's number."""
    times = _times(element, "number-rows-repeated")
    cells = list(_cells(element))
    grid.make_room(times * len(cells))
    for number in range(row + 1, row + times + 1) if cells else ():
        for column, found in cells:
            _add_cell(grid, number, column, found)
    return row + times


def _times(element: Element, name: str) -> int:
    text = attribute(element, name, "1")
    return int(text) if text.isdecimal() and len(text) < 10 else 1


def _cells(element: Element) -> Iterator[tuple[int, Element]]:
    """The filled cells of a row with their columns; what a merged range covers is left out."""
    column = 0
    for child in element:
        tag = local(child.tag)
        if tag not in ("table-cell", "covered-table-cell"):
            continue
        times = _times(child, "number-columns-repeated")
        if tag == "table-cell" and (attribute(child, "value-type") or attribute(child, "formula")):
            yield from ((place, child) for place in range(column + 1, column + times + 1))
        column += times


def _add_cell(grid: CellGrid, row: int, column: int, element: Element) -> None:
    place = grid.place(row, column)
    rows, columns = _times(element, "number-rows-spanned"), _times(element, "number-columns-spanned")
    if rows > 1 or columns > 1:
        grid.merge(Merge(first_row=row, first_column=column, last_row=row + rows - 1, last_column=column + columns - 1))
    kinds = [value for key, value in element.items() if local(key) == "value-type"]
    has_formula = bool(attribute(element, "formula"))
    if not kinds:
        grid.add(Cell(place=place, has_formula=True, is_uncalculated=True))
        return
    value = _value(kinds[0], element)
    # The file's own mark of an error stands in a second value-type, of the office software's namespace.
    is_error = "error" in kinds or (has_formula and isinstance(value, str) and bool(_ERROR.fullmatch(value)))
    number_format = _format(kinds, element)
    grid.add(
        Cell(place=place, value=value, number_format=number_format, has_formula=has_formula, is_error=is_error)
    )


def _format(kinds: list[str], element: Element) -> str:
    """The part of a number format that changes meaning: percent, or the currency."""
    if "percentage" in kinds:
        return "0%"
    if "currency" in kinds:
        return f"[${attribute(element, 'currency')}] 0.00"
    return "General"


def _value(kind: str, element: Element) -> object:
    try:
        if kind in ("float", "percentage", "currency"):
            return number_of(attribute(element, "value"))
        if kind == "boolean":
            return attribute(element, "boolean-value") == "true"
        if kind == "date":
            stored = attribute(element, "date-value")
            return date.fromisoformat(stored) if len(stored) == 10 else datetime.fromisoformat(stored[:19])
        if kind == "time":
            return _time(attribute(element, "time-value"))
    except ValueError as error:
        raise UnreadableError("P101", f"a cell in it says it is a {kind} and is none") from error
    return attribute(element, "string-value") or "\n".join(_paragraphs(element)) or None


def _time(stored: str) -> object:
    found = _DURATION.fullmatch(stored)
    if not found:
        raise ValueError(stored)
    hours, minutes, seconds = (int(part or 0) for part in found.groups()[1:])
    return clock_time(timedelta(hours=hours, minutes=minutes, seconds=seconds) * (-1 if found[1] else 1))


def _paragraphs(element: Element) -> Iterator[str]:
    """The lines of a cell's text; notes stuck to the cell are not its text."""
    for child in element:
        if local(child.tag) == "p":
            yield _inline(child)


def _inline(element: Element) -> str:
    parts = [element.text or ""]
    for child in element:
        tag = local(child.tag)
        if tag == "s":
            parts.append(" " * min(_times(child, "c"), 1000))
        elif tag in ("tab", "line-break"):
            parts.append("\t" if tag == "tab" else "\n")
        elif tag != "annotation":
            parts.append(_inline(child))
        parts.append(child.tail or "")
    return "".join(parts)
