"""The blank book to fill in, made from the layouts of its sheets; a filled one where rows are handed in."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path

from xlsxwriter.exceptions import FileCreateError

from quoting.domain.layouts import SheetLayout
from quoting.writing.blank_cells import BlankRows
from quoting.writing.blank_settings import write_settings_sheet
from quoting.writing.blank_sheets import HEADING_ROW, LAST_ROW, BookLook, write_table_sheet
from quoting.writing.drop_downs import DropDowns
from quoting.writing.inks import Inks, open_workbook
from quoting.writing.start_here import write_start_sheet

MADE = date(2031, 1, 1)
"""The date that a blank book says it was made on: always the same, so that its bytes are too."""


def write_blank_book(
    path: Path,
    layouts: Sequence[SheetLayout],
    rows: Mapping[str, BlankRows],
    *,
    is_metric: bool,
    title: str = "Blank book",
) -> None:
    """Write a book with the sheets of `layouts`, in their order, after "Start here".

    `rows` gives what stands in them: sheet key → rows of column key → value. Numbers
    stand in the unit of their heading (feet and inches, or centimetres), percents as
    fractions, text as it is typed. A settings sheet takes one row. Equal input gives
    equal bytes. OSError where the path can't be written.
    """
    workbook = open_workbook(path, title=title, author="", made=MADE)
    look = BookLook(
        workbook=workbook, inks=Inks(workbook), is_metric=is_metric,
        drop_downs=DropDowns(layouts, HEADING_ROW + 1, LAST_ROW),
    )
    write_start_sheet(look, layouts)
    for layout in layouts:
        given = rows.get(layout.key, ())
        if layout.is_settings:
            write_settings_sheet(look, layout, given[0] if given else {})
        else:
            write_table_sheet(look, layout, given)
    look.drop_downs.write_lists(workbook)
    try:
        workbook.close()
    except FileCreateError as error:  # wraps the system's own error, which tells what is wrong
        raise error.args[0] from None
