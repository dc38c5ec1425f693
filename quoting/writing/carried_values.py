"""The values that formulas carry in an owner's book, put back into its copy, which the library would drop."""

from __future__ import annotations

import re
import warnings
from collections.abc import Mapping
from datetime import date, datetime, time, timedelta
from pathlib import Path
from xml.sax.saxutils import escape

import openpyxl
from openpyxl.cell import Cell
from openpyxl.utils.datetime import to_excel
from openpyxl.workbook import Workbook
from openpyxl.worksheet.worksheet import Worksheet

Carried = Mapping[str, tuple[str, str]]
"""Address → kind and text of a formula's value, as the file format has them."""

_CELL = re.compile(r'<c r="([A-Z]+\d+)"([^>]*)>(<f(?:[^>]*/>|.*?</f>))<v\s*(?:/>|></v>)</c>', re.DOTALL)


def carried_values(source: Path, workbook: Workbook) -> Mapping[str, Carried]:
    """Give, by sheet name, what the formulas of `workbook` come to in the file `source` that it was opened from."""
    asked = {sheet.title: _formula_cells(sheet) for sheet in workbook.worksheets}
    if not any(asked.values()):
        return {}
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # the first opening has met the same
        valued = openpyxl.load_workbook(source, data_only=True)
    found: dict[str, Carried] = {}
    for name, addresses in asked.items():
        sheet = valued[name]
        told = {address: _carried(sheet[address], valued) for address in addresses}
        found[name] = {address: value for address, value in told.items() if value is not None}
    return found


def _formula_cells(sheet: Worksheet) -> list[str]:
    return [cell.coordinate for row in sheet.iter_rows() for cell in row if cell.data_type == "f"]


def _carried(cell: Cell, workbook: Workbook) -> tuple[str, str] | None:
    value = cell.value
    if value is None:
        return None
    if cell.data_type == "e":
        return "e", str(value)
    if isinstance(value, bool):
        return "b", str(int(value))
    if isinstance(value, (datetime, date, time, timedelta)):
        return "n", str(to_excel(value, workbook.epoch))  # type: ignore[no-untyped-call]  # its stub lacks types
    return ("n", repr(value)) if isinstance(value, (int, float)) else ("str", str(value))


def with_carried_values(sheet_xml: str, values: Carried) -> str:
    """Give a sheet's part with the values of its formulas filled in."""

    def filled(found: re.Match[str]) -> str:
        address, attributes, formula = found.groups()
        if address not in values:
            return found.group(0)
        kind, text = values[address]
        return f'<c r="{address}"{attributes} t="{kind}">{formula}<v>{escape(text)}</v></c>'

    return _CELL.sub(filled, sheet_xml)
