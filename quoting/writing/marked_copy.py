"""A copy of the owner's book with every problem shown in its cell and on a list that links to it."""

from __future__ import annotations

import io
import warnings
from collections.abc import Callable, Mapping, Sequence
from functools import partial
from itertools import groupby
from pathlib import Path

import openpyxl
from openpyxl.cell import Cell, MergedCell
from openpyxl.comments import Comment
from openpyxl.styles import PatternFill
from openpyxl.workbook import Workbook
from openpyxl.worksheet.worksheet import Worksheet

from quoting.domain.places import Place
from quoting.domain.problems import Level, Problem, holds
from quoting.writing.carried_values import Carried, carried_values, with_carried_values
from quoting.writing.ods_copies import workbook_of_ods
from quoting.writing.printable_text import printable
from quoting.writing.problem_list import write_problem_list
from quoting.writing.same_bytes import with_fixed_times

_FILLS = {
    Level.NOTE: PatternFill("solid", fgColor="FFF3CF"),
    Level.HOLD: PatternFill("solid", fgColor="FFC98A"),
    Level.BOOK: PatternFill("solid", fgColor="FFC98A"),
}
_TAB = "E07B00"
_NEVER_CALCULATED = "P202"
_AUTHOR = "quoting"


def marked_name(book: Path) -> str:
    """Give the file name of a book's marked copy: its own, with ".xlsx" added where it is no .xlsx or .xlsm."""
    return book.name if book.suffix.lower() in {".xlsx", ".xlsm"} else f"{book.name}.xlsx"


def write_marked_copy(source: Path, target: Path, problems: Sequence[Problem]) -> None:
    """Write a copy of `source` to `target` with its problems marked; `source` is only read.

    Each problem's cell gets a fill and a comment (an existing comment keeps its text
    above ours); a problem of a whole row marks the row's first filled cell, one of a
    whole sheet the sheet's tab. The list sheet "Problems" links to every cell. Formulas
    with their values, formats, drop-downs and macros stay; charts, pictures and newer
    kinds of formatting may be lost, which the list says. An .ods book becomes an .xlsx
    of its values. A book that can't be opened for marking gives a workbook with the
    list alone. Equal input gives equal bytes. OSError where `target` can't be written.
    """
    workbook, is_whole = _opened(source)
    values = carried_values(source, workbook) if is_whole and source.suffix.lower() != ".ods" else {}
    for place, own in groupby(sorted(problems, key=lambda p: p.place), lambda p: p.place):
        _mark(workbook, place, tuple(own))
    write_problem_list(workbook, problems, is_whole=is_whole)
    packed = io.BytesIO()
    workbook.save(packed)
    target.write_bytes(with_fixed_times(packed.getvalue(), _filled_in(workbook, values)))


def _filled_in(workbook: Workbook, values: Mapping[str, Carried]) -> Mapping[str, Callable[[str], str]]:
    """Give, by the name of each sheet's part, what puts back the values its formulas carry."""
    return {
        f"xl/worksheets/sheet{number}.xml": partial(with_carried_values, values=values[sheet.title])
        for number, sheet in enumerate(workbook.worksheets, 1)
        if values.get(sheet.title)
    }


def _opened(source: Path) -> tuple[Workbook, bool]:
    """Give the workbook to mark, and whether it is more than an empty one."""
    try:
        if source.suffix.lower() == ".ods":
            return workbook_of_ods(source), True
        with warnings.catch_warnings():
            # Each is about something that a copy loses, which the list sheet says in our own words.
            warnings.simplefilter("ignore")
            return openpyxl.load_workbook(source, keep_vba=source.suffix.lower() == ".xlsm", rich_text=True), True
    except Exception:  # noqa: BLE001  whatever a library can't open, the owner still gets the list
        empty = Workbook()
        empty.remove(empty.worksheets[0])
        return empty, False


def _mark(workbook: Workbook, place: Place, problems: Sequence[Problem]) -> None:
    sheet = workbook[place.sheet] if place.sheet in workbook.sheetnames else None
    if not isinstance(sheet, Worksheet):
        return
    if holds(problems) or not sheet.sheet_properties.tabColor:
        sheet.sheet_properties.tabColor = _TAB
    if not place.row:
        return
    cell = _cell(sheet, place)
    cell.fill = _FILLS[Level.HOLD if holds(problems) else Level.NOTE]
    if any(problem.code == _NEVER_CALCULATED for problem in problems):
        # Opened, the copy would calculate it and show a value where the list says there is none.
        cell.data_type = "s"
    text = "\n".join(_comment_lines(problem) for problem in problems)
    if cell.comment is not None:
        text = f"{cell.comment.text}\n\n{text}"
    lines = sum(len(line) // 44 + 1 for line in text.split("\n"))
    cell.comment = Comment(printable(text), _AUTHOR, height=16 * lines + 20, width=300)


def _comment_lines(problem: Problem) -> str:
    fix = f"\n{problem.fix[:1].upper()}{problem.fix[1:]}." if problem.fix else ""
    return f"{problem.why[:1].upper()}{problem.why[1:]}.{fix} [{problem.code}]"


def _cell(sheet: Worksheet, place: Place) -> Cell:
    """Give the cell to mark: of a merged range its first, of a row its first filled one."""
    if not place.column:
        filled = [cell for cell in sheet[place.row] if cell.value is not None] if place.row <= sheet.max_row else []
        return _cell(sheet, place.at(filled[0].column if filled else 1))
    cell = sheet.cell(place.row, place.column)
    if isinstance(cell, MergedCell):
        for merged in sheet.merged_cells.ranges:
            if cell.coordinate in merged:
                cell = sheet.cell(merged.min_row, merged.min_col)
                break
    assert isinstance(cell, Cell)  # the first cell of a merged range is a plain one
    return cell
