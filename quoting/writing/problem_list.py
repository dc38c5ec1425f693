"""The list sheet of a marked copy: every problem of the book, with a link to its cell."""

from __future__ import annotations

from collections.abc import Sequence

from openpyxl.styles import Alignment, Border, Font, PatternFill, Side
from openpyxl.workbook import Workbook
from openpyxl.worksheet.hyperlink import Hyperlink
from openpyxl.worksheet.properties import PageSetupProperties
from openpyxl.worksheet.worksheet import Worksheet

from quoting.domain.places import Place
from quoting.domain.problems import Level, Problem
from quoting.writing.inks import ACCENT, HAIRLINE, INK, QUIET, TINT, TYPEFACE
from quoting.writing.printable_text import printable
from quoting.writing.text_heights import line_count, row_height

_HEADINGS = (
    ("Where", 18),
    ("What it stops", 16),
    ("Job", 10),
    ("What is wrong", 46),
    ("What to type", 40),
    ("Seen", 18),
    ("Code", 8),
)
_STOPS = {Level.NOTE: "nothing", Level.HOLD: "its job", Level.BOOK: "sheet or book"}
_WHOLE = (
    "This is a copy; your own book is unchanged. Mend the cells in your own book, then run the evening again. "
    "Charts, pictures and the newest kinds of formatting may be missing from this copy."
)
_EMPTY = "This book could not be opened to be marked, so here is the list alone. Your own book is unchanged."
_PIXELS = 7


def write_problem_list(workbook: Workbook, problems: Sequence[Problem], *, is_whole: bool) -> None:
    """Add the list as the first sheet, under a name the book does not have yet, and open the book on it."""
    sheet = workbook.create_sheet(_free_name(workbook), 0)
    for other in workbook.worksheets:
        other.sheet_view.tabSelected = other is sheet
    workbook.active = 0
    sheet.sheet_view.showGridLines = False
    _text(sheet, 1, 1, "Problems in this book", Font(name=TYPEFACE, size=16, bold=True, color=_rgb(ACCENT)), wrap=False)
    sheet.merge_cells(start_row=2, end_row=2, start_column=1, end_column=len(_HEADINGS))
    _text(sheet, 2, 1, _WHOLE if is_whole else _EMPTY, Font(name=TYPEFACE, size=9, color=_rgb(QUIET)))
    sheet.row_dimensions[1].height, sheet.row_dimensions[2].height = 26, 30
    for column, (heading, width) in enumerate(_HEADINGS, 1):
        _text(sheet, 3, column, heading, Font(name=TYPEFACE, size=9, bold=True, color=_rgb(ACCENT)))
        sheet.cell(3, column).fill = PatternFill("solid", fgColor=_rgb(TINT))
        sheet.column_dimensions[chr(64 + column)].width = width
    for row, problem in enumerate(problems, 4):
        _write_problem(sheet, row, problem, workbook)
    _lay_out(sheet, len(problems))


def what_it_stops(problem: Problem) -> str:
    """Say in a word or two what a problem holds up."""
    if problem.level is Level.HOLD and not problem.job:
        return "jobs that use it"
    return _STOPS[problem.level]


def _write_problem(sheet: Worksheet, row: int, problem: Problem, workbook: Workbook) -> None:
    place = problem.place
    where = f"{place.sheet}!{place.cell}" if place.cell else place.sheet or place.workbook
    texts = (where, what_it_stops(problem), problem.job, problem.why, problem.fix, problem.seen, problem.code)
    lines = 1
    for column, (text, (_, width)) in enumerate(zip(texts, _HEADINGS, strict=True), 1):
        _text(sheet, row, column, text, Font(name=TYPEFACE, size=9, color=_rgb(INK)))
        sheet.cell(row, column).border = Border(bottom=Side("thin", color=_rgb(HAIRLINE)))
        lines = max(lines, line_count(text, width * _PIXELS, 9))
    if place.sheet in workbook.sheetnames:
        _link(sheet, row, place)
    sheet.row_dimensions[row].height = min(row_height(lines, 9, padding=5), 409)


def _link(sheet: Worksheet, row: int, place: Place) -> None:
    cell = sheet.cell(row, 1)
    address = place.at(place.column or 1).cell or "A1"
    quoted = place.sheet.replace("'", "''")
    cell.hyperlink = Hyperlink(ref=cell.coordinate, location=f"'{quoted}'!{address}")
    cell.font = Font(name=TYPEFACE, size=9, color=_rgb(ACCENT), underline="single")


def _text(sheet: Worksheet, row: int, column: int, text: str, font: Font, *, wrap: bool = True) -> None:
    cell = sheet.cell(row, column)
    cell.value = printable(text)
    cell.data_type = "s"  # else text that begins with "=" would become a formula
    cell.font = font
    cell.alignment = Alignment(wrap_text=wrap, vertical="top")


def _lay_out(sheet: Worksheet, count: int) -> None:
    sheet.freeze_panes = "A4"
    sheet.auto_filter.ref = f"A3:G{3 + max(count, 1)}"
    sheet.print_title_rows = "3:3"
    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.fitToWidth, sheet.page_setup.fitToHeight = 1, 0
    sheet.sheet_properties.pageSetUpPr = PageSetupProperties(fitToPage=True)


def _free_name(workbook: Workbook) -> str:
    taken = {name.casefold() for name in workbook.sheetnames}
    name, number = "Problems", 1
    while name.casefold() in taken:
        number += 1
        name = f"Problems {number}"
    return name


def _rgb(color: str) -> str:
    return color.removeprefix("#")
