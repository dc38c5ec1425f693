"""The settings sheet of the blank book: one setting a row, with its value and what it means."""

from __future__ import annotations

from collections.abc import Mapping

from xlsxwriter.worksheet import Worksheet

from quoting.domain.cells import Kind
from quoting.domain.layouts import Column, SheetLayout
from quoting.writing.blank_cells import CellValue, write_value
from quoting.writing.blank_headings import number_format
from quoting.writing.blank_sheets import HEADING_ROW, BookLook
from quoting.writing.inks import ACCENT, HAIRLINE, QUIET, WARNING
from quoting.writing.text_heights import line_count, row_height

MEANING_WIDTH = 80
"""Width, in signs, of the Meaning column."""


def write_settings_sheet(look: BookLook, layout: SheetLayout, values: Mapping[str, CellValue]) -> Worksheet:
    """The sheet of settings: one a row, with its value and what it means."""
    sheet = look.workbook.add_worksheet(layout.name)
    sheet.hide_gridlines(2)
    sheet.set_row(0, 26)
    sheet.write_string(0, 0, layout.name, look.inks(size=16, bold=True, color=ACCENT, valign="vcenter"))
    sheet.write_string(1, 0, f"{layout.about} Dark settings must be filled in.", look.inks(color=QUIET))
    sheet.set_row(1, 20)
    last_row = HEADING_ROW + len(layout.columns)
    headings = ("About", "Setting", "Value", "Meaning")
    sheet.add_table(HEADING_ROW - 1, 0, last_row - 1, 3, {
        "name": layout.name, "style": None, "autofilter": False, "columns": [{"header": name} for name in headings],
    })
    top = look.inks(bold=True, color="#FFFFFF", bg_color=ACCENT, border=1, border_color=HAIRLINE, valign="vcenter")
    for number, (name, width) in enumerate(zip(headings, (17, 27, 30, MEANING_WIDTH), strict=True)):
        sheet.write_string(HEADING_ROW - 1, number, name, top)
        sheet.set_column(number, number, width)
    before = ""
    for index, column in enumerate(layout.columns):
        group = "" if column.group == before else column.group
        _write_setting(look, sheet, HEADING_ROW + index, column, group=group, value=values.get(column.key))
        before = column.group
    sheet.freeze_panes(HEADING_ROW, 0)
    sheet.set_landscape()
    sheet.set_paper(9 if look.is_metric else 1)
    sheet.fit_to_pages(1, 0)
    sheet.repeat_rows(HEADING_ROW - 1)
    sheet.set_footer("&L&8&A&R&8&P / &N")
    return sheet


def _meaning(column: Column) -> str:
    """What the Meaning column says of a setting."""
    blank = f" Left blank: {column.default}." if column.default else ""
    practice = " Common practice: measure your own." if column.common_practice else ""
    example = "" if column.choices or column.kind is Kind.YES_NO else f" For example: {column.example}."
    return f"{column.note}{example}{blank}{practice}"


def _write_setting(
    look: BookLook, sheet: Worksheet, row: int, column: Column, *, group: str, value: CellValue | None
) -> None:
    meaning = _meaning(column)
    sheet.set_row(row, max(17, row_height(line_count(meaning, 7 * MEANING_WIDTH, 9), 9)))
    quiet = look.inks(size=9, color=QUIET, border=1, border_color=HAIRLINE, text_wrap=True, valign="vcenter")
    sheet.write_string(row, 0, group, quiet)
    sheet.write_string(row, 1, column.heading, look.heading(column))
    body = look.inks(num_format=number_format(column), border=1, border_color=HAIRLINE, align="left",
                     indent=1, text_wrap=True, valign="vcenter")
    if value is None:
        sheet.write_blank(row, 2, None, body)
    else:
        write_value(sheet, row, 2, value, body)
    sheet.write_string(row, 3, meaning, quiet)
    rule = look.drop_downs.rule(column)
    if rule is not None:
        sheet.data_validation(row, 2, row, 2, {"ignore_blank": True, **rule})
    if column.required:
        needed = look.workbook.add_format({"bg_color": WARNING})
        sheet.conditional_format(row, 2, row, 2, {"type": "blanks", "format": needed})
