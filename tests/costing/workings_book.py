"""Writes sections of workings into a plain workbook, apart from the program's own writer."""

from __future__ import annotations

import re
from decimal import Decimal

import xlsxwriter

from quoting.domain.plans import Section


def write_workings_book(path, jobs: dict[str, tuple[Section, ...]]) -> dict[tuple[str, str, str], str]:
    """One sheet per job, value in column B; gives (sheet, section, step) → cell. KeyError for a reference forwards."""
    cells = {}
    with xlsxwriter.Workbook(path) as workbook:
        for name, sections in jobs.items():
            sheet = workbook.add_worksheet(name)
            row, known = 0, {}
            for section in sections:
                for step in section.steps:
                    row += 1

                    def cell(found, own=section.key, known=known):
                        inside = found.group(1)
                        where, _, key = inside.rpartition("!")
                        return known[(where or own), key]

                    value = float(step.value) if isinstance(step.value, Decimal) else step.value
                    wrong = -987.5  # the file carries a wrong value, so that only real recalculation can mend it
                    sheet.write_string(row - 1, 0, f"{section.key} / {step.key}")
                    if step.formula:
                        sheet.write_formula(row - 1, 1, "=" + re.sub(r"\{([^{}]*)\}", cell, step.formula), None, wrong)
                    else:
                        sheet.write(row - 1, 1, value)
                    known[section.key, step.key] = f"$B${row}"
                    cells[name, section.key, step.key] = f"B{row}"
    return cells
