"""The values of an .ods book as an .xlsx workbook, so that its problems can be marked."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from pathlib import Path

from odf import opendocument, table
from odf.element import Element
from openpyxl.workbook import Workbook
from openpyxl.worksheet.worksheet import Worksheet

from quoting.domain.places import column_letters
from quoting.writing.phrases import sheet_name
from quoting.writing.printable_text import printable

_MOST_CELLS = 200_000
"""Filled cells that are copied; the books of this job have a few thousand."""


def workbook_of_ods(source: Path) -> Workbook:
    """Give a workbook with the sheets and values of an .ods book, each in its own cell; formulas give their values.

    Formats are not carried over. What a book has beyond 200,000 filled cells is left out.
    """
    workbook = Workbook()
    workbook.remove(workbook.worksheets[0])
    for found in opendocument.load(str(source)).spreadsheet.getElementsByType(table.Table):
        name = found.getAttribute("name") or "Sheet"
        _copy(found, workbook.create_sheet(sheet_name(name, "Sheet")))
    return workbook


def _copy(found: Element, sheet: Worksheet) -> None:
    copied, row = 0, 1
    for line in found.getElementsByType(table.TableRow):
        repeated = _repeated(line, "numberrowsrepeated")
        cells = list(_cells(line))
        for number in range(row, row + (repeated if cells else 0)):
            for column, value in cells:
                copied += 1
                if copied > _MOST_CELLS:
                    return
                cell = sheet.cell(number, column)
                cell.value = value
                if isinstance(value, str):
                    cell.data_type = "s"
                sheet.column_dimensions[column_letters(column)].width = 18
        row += repeated


def _cells(line: Element) -> Iterator[tuple[int, str | float | bool | datetime]]:
    """Give the filled cells of a row: column from 1, value."""
    column = 1
    for cell in line.childNodes:
        if cell.qname[1] not in {"table-cell", "covered-table-cell"}:
            continue
        repeated = _repeated(cell, "numbercolumnsrepeated")
        value = _value(cell)
        if value is not None:
            for number in range(column, min(column + repeated, 16_384)):
                yield number, value
        column += repeated


def _value(cell: Element) -> str | float | bool | datetime | None:
    kind = cell.getAttribute("valuetype")
    if kind in {"float", "percentage", "currency"}:
        return float(cell.getAttribute("value"))
    if kind == "boolean":
        return str(cell.getAttribute("booleanvalue")) == "true"
    if kind == "date":
        try:
            # A time zone has no place in a cell of an .xlsx; the hour stands as it was typed.
            return datetime.fromisoformat(cell.getAttribute("datevalue")).replace(tzinfo=None)
        except ValueError:
            return str(cell.getAttribute("datevalue"))
    text = printable("\n".join(_text(node) for node in cell.childNodes if node.qname[1] == "p"))
    return text or None


def _text(node: Element) -> str:
    return "".join(str(part) if part.nodeType == part.TEXT_NODE else _text(part) for part in node.childNodes)


def _repeated(node: Element, name: str) -> int:
    return int(node.getAttribute(name) or 1)
