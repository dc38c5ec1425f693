"""The sheets of the blank book: tables with headings and notes, drop-downs and colours."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from xlsxwriter import Workbook
from xlsxwriter.format import Format
from xlsxwriter.utility import xl_col_to_name
from xlsxwriter.worksheet import Worksheet

from quoting.domain.cells import Kind
from quoting.domain.layouts import Column, SheetLayout
from quoting.writing.blank_cells import BlankRows, write_note, write_value
from quoting.writing.blank_headings import heading_note, heading_text, number_format
from quoting.writing.drop_downs import DropDowns
from quoting.writing.inks import ACCENT, HAIRLINE, INK, QUIET, TINT, WARNING, Inks
from quoting.writing.text_heights import line_count, row_height

HEADING_ROW = 4
"""The row of the headings, counted from 1; title, explanation and group names stand above it."""
SPARE_ROWS = {"jobs": 40, "pieces": 120}
"""Blank rows that a table has below its filled ones; 15 where it is not said."""
LAST_ROW = 2000
"""Drop-downs and colours go on down to this row, for rows added below a table."""
FIXED_COLUMNS = {"pieces": 3, "jobs": 2, "balloons": 1, "hardware": 1}
"""Columns that stay in view when scrolling to the right; 0 where it is not said."""
WIDE = 150
"""Width, in signs, that a screen shows at once."""
UNUSED = "#D5D9D9"
"""The grey of cells that a row's form does not use."""
SENTENCES = ("text", "client_notes", "shop_notes", "address")
"""Columns whose texts are sentences: they wrap, and their rows grow."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BookLook:
    """What all sheets of one blank book share."""

    workbook: Workbook
    inks: Inks
    drop_downs: DropDowns
    is_metric: bool

    def heading(self, column: Column) -> Format:
        """A heading's look: white on dark where it must be filled in, dark on light where it may."""
        ink, ground = ("#FFFFFF", ACCENT) if column.required else (INK, TINT)
        return self.inks(
            bold=column.required, color=ink, bg_color=ground, border=1, border_color=HAIRLINE, text_wrap=True,
            valign="vcenter",
        )

    def body(self, column: Column) -> Format:
        """A cell's look: the column's number format, thin lines round it; long texts wrap."""
        side = {"align": "left", "indent": 1} if number_format(column) == "@" else {"align": "right"}
        return self.inks(
            num_format=number_format(column), border=1, border_color=HAIRLINE, text_wrap=wraps(column), **side
        )


def wraps(column: Column) -> bool:
    """True where a column's texts wrap."""
    return column.kind is Kind.TEXT and column.key in SENTENCES


def write_table_sheet(look: BookLook, layout: SheetLayout, rows: BlankRows) -> Worksheet:
    """One sheet with a table: headings with notes, the rows handed in, and blank rows to fill."""
    sheet = look.workbook.add_worksheet(layout.name)
    last_column = len(layout.columns) - 1
    last_row = HEADING_ROW + len(rows) + SPARE_ROWS.get(layout.key, 15)
    _write_top(look, sheet, layout)
    sheet.add_table(HEADING_ROW - 1, 0, last_row - 1, last_column, {
        "name": layout.name.replace(" ", "_"),
        "style": None,
        "columns": [{"header": heading_text(column, look.is_metric)} for column in layout.columns],
    })
    for number, column in enumerate(layout.columns):
        _write_heading(look, sheet, number, column)
        sheet.set_column(number, number, column.width, look.inks(num_format=number_format(column)))
        for row in range(HEADING_ROW, last_row):
            sheet.write_blank(row, number, None, look.body(column))
        rule = look.drop_downs.rule(column)
        if rule is not None:
            sheet.data_validation(HEADING_ROW, number, LAST_ROW - 1, number, {"ignore_blank": True, **rule})
    for index, values in enumerate(rows):
        texts = [(str(values[c.key]), c.width) for c in layout.columns if wraps(c) and c.key in values]
        lines = [line_count(text, 7 * width, 10) for text, width in texts]
        if max(lines, default=1) > 1:
            sheet.set_row(HEADING_ROW + index, row_height(max(lines), 10))
        for number, column in enumerate(layout.columns):
            if column.key in values:
                write_value(sheet, HEADING_ROW + index, number, values[column.key], look.body(column))
    _colour_blanks(look, sheet, layout)
    sheet.freeze_panes(HEADING_ROW, FIXED_COLUMNS.get(layout.key, 0))
    _set_up_page(look, sheet, layout)
    return sheet


def _write_top(look: BookLook, sheet: Worksheet, layout: SheetLayout) -> None:
    sheet.hide_gridlines(2)
    sheet.set_row(0, 26)
    sheet.write_string(0, 0, layout.name, look.inks(size=16, bold=True, color=ACCENT, valign="vcenter"))
    _write_about(look, sheet, layout.about, [column.width for column in layout.columns])
    sheet.set_row(2, 14)
    before = ""
    for number, column in enumerate(layout.columns):
        if column.group and column.group != before:
            sheet.write_string(2, number, column.group.upper(), look.inks(size=8, color=QUIET, valign="bottom"))
        before = column.group
    sheet.set_row(HEADING_ROW - 1, 44 if any(column.units for column in layout.columns) else 32)


def _write_about(look: BookLook, sheet: Worksheet, about: str, widths: Sequence[int]) -> None:
    """The sheet's explanation under its title, wrapped over as many columns as one looks at at once."""
    text = f"{about} Dark headings must be filled in. Hold the pointer on a heading to read about it."
    seen = max(number for number in range(1, len(widths) + 1) if sum(widths[:number]) <= WIDE or number == 1)
    ink = look.inks(color=QUIET, text_wrap=True)
    if seen > 1:
        sheet.merge_range(1, 0, 1, seen - 1, "", ink)
    sheet.write_string(1, 0, text, ink)
    sheet.set_row(1, row_height(line_count(text, 7 * sum(widths[:seen]), 10), 10))


def _write_heading(look: BookLook, sheet: Worksheet, number: int, column: Column) -> None:
    sheet.write_string(HEADING_ROW - 1, number, heading_text(column, look.is_metric), look.heading(column))
    write_note(sheet, HEADING_ROW - 1, number, heading_note(column, look.is_metric))


def _colour_blanks(look: BookLook, sheet: Worksheet, layout: SheetLayout) -> None:
    """Amber where a filled row still needs a cell, grey where the row's form does not use one."""
    first, last = HEADING_ROW + 1, LAST_ROW
    end = xl_col_to_name(len(layout.columns) - 1)
    needed = look.workbook.add_format({"bg_color": WARNING})
    unused = look.workbook.add_format({"bg_color": UNUSED, "font_color": "#8A9192"})
    for number, column in enumerate(layout.columns):
        letters = xl_col_to_name(number)
        where = f"{letters}{first}:{letters}{last}"
        if column.required:
            rule = f'=AND(COUNTA($A{first}:${end}{first})>0,{letters}{first}="")'
            sheet.conditional_format(where, {"type": "formula", "criteria": rule, "format": needed})
        if column.forms or column.required_by:
            form = f"${xl_col_to_name(_form_column(layout))}{first}"
            for forms, ink, extra in (
                (column.required_by, needed, f',{letters}{first}=""'), (column.forms, unused, ""),
            ):
                if forms:
                    same = ",".join(f'{form}="{name}"' for name in forms)
                    test = f"OR({same}){extra}" if ink is needed else f'{form}<>"",NOT(OR({same}))'
                    sheet.conditional_format(where, {"type": "formula", "criteria": f"=AND({test})", "format": ink})


def _form_column(layout: SheetLayout) -> int:
    return next(number for number, column in enumerate(layout.columns) if column.key == "form")


def _set_up_page(look: BookLook, sheet: Worksheet, layout: SheetLayout) -> None:
    sheet.set_landscape()
    sheet.set_paper(9 if look.is_metric else 1)
    sheet.set_margins(left=0.4, right=0.4, top=0.5, bottom=0.6)
    sheet.set_footer("&L&8&A&R&8&P / &N")
    sheet.repeat_rows(HEADING_ROW - 1)
    fixed = FIXED_COLUMNS.get(layout.key, 0)
    if fixed:
        sheet.repeat_columns(0, fixed - 1)
    wide = sum(column.width for column in layout.columns)
    sheet.fit_to_pages(1 if wide < 250 else 2 if wide < 400 else 3, 0)


