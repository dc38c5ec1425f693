"""Drop-downs of the blank book: short fixed lists on a sheet of their own, names from other sheets."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from xlsxwriter import Workbook
from xlsxwriter.utility import xl_col_to_name
from xlsxwriter.worksheet import Worksheet

from quoting.domain.cells import Kind
from quoting.domain.layouts import Column, SheetLayout

LISTS = "Lists"
SHORT = 200
"""Office software takes a list typed into the rule itself only up to about this many signs in all."""

OPEN_LISTS = ("activity",)
"""Columns whose list is a suggestion: an owner may type something else."""


class DropDowns:
    """Where each drop-down's choices stand; the Lists sheet is filled as columns ask for it."""

    def __init__(self, layouts: Sequence[SheetLayout], first_row: int, last_row: int) -> None:
        self._first, self._last = first_row, last_row
        self._ranges = {f"{layout.key}.{column.key}": self._range(layout, number)
                        for layout in layouts for number, column in enumerate(layout.columns)}
        self._lists: dict[tuple[str, ...], int] = {}
        self._names: dict[tuple[str, ...], str] = {}

    def _range(self, layout: SheetLayout, column: int) -> str:
        letters = xl_col_to_name(column)
        start = f"'{layout.name}'!${letters}${self._first}"
        filled = f"COUNTA('{layout.name}'!${letters}${self._first}:${letters}${self._last})"
        return f"OFFSET({start},0,0,MAX(1,{filled}),1)"

    def rule(self, column: Column) -> Mapping[str, object] | None:
        """The data validation of a column's cells; None where anything may be typed."""
        if column.kind is Kind.YES_NO:
            return {"validate": "list", "source": ["yes", "no"], "error_type": "stop", **self._words(column)}
        if column.choices:
            strictness = "information" if column.key in OPEN_LISTS else "stop"
            return {"validate": "list", "source": self._listed(column), "error_type": strictness, **self._words(column)}
        source = self._ranges.get(column.choices_from)
        if source is None:
            return None
        return {"validate": "list", "source": f"={source}", "show_error": False}

    def _listed(self, column: Column) -> str:
        index = self._lists.setdefault(column.choices, len(self._lists))
        self._names.setdefault(column.choices, column.heading)
        letters = xl_col_to_name(index)
        return f"={LISTS}!${letters}$2:${letters}${len(column.choices) + 1}"

    def _words(self, column: Column) -> Mapping[str, object]:
        return {"error_title": column.heading[:32], "error_message": f"{column.fix[:1].upper()}{column.fix[1:]}."[:255]}

    def write_lists(self, workbook: Workbook) -> Worksheet:
        """The sheet that the drop-downs take their choices from, to be left alone."""
        sheet = workbook.add_worksheet(LISTS)
        bold, plain = workbook.add_format({"bold": True}), workbook.add_format({})
        for choices, column in self._lists.items():
            sheet.write_string(0, column, self._names[choices], bold)
            for row, choice in enumerate(choices, 1):
                sheet.write_string(row, column, choice, plain)
        sheet.set_column(0, max(len(self._lists) - 1, 0), 18)
        sheet.hide()
        return sheet
