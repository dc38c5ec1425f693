"""The first sheet of the blank book: what to fill in, in which order, and what to mind."""

from __future__ import annotations

from collections.abc import Sequence

from xlsxwriter.worksheet import Worksheet

from quoting.domain.layouts import SheetLayout
from quoting.writing.blank_sheets import UNUSED, BookLook
from quoting.writing.inks import ACCENT, HAIRLINE, INK, QUIET, TINT, WARNING

START = "Start here"

STEPS = (
    ("shop", "Put in your shop's name, your money and your terms."),
    ("balloons", "Put in what you stock and what you pay. The prices that stand there are examples: type your own."),
    ("hardware", "The same for plates, poles, frames and decoration, to buy or to hire out."),
    ("labour", "How long your hands take. The figures are common practice: measure your own with a watch."),
    ("rates", "If you like: when hours at a venue cost more, such as nights and public holidays."),
    ("holidays", "If you like: public holidays of your own, beside those of the country in the Shop sheet."),
    ("delivery", "What you charge by distance."),
    ("vans", "If you like: what you drive, so that loads are counted."),
    ("tax", "The taxes you have to charge. The rates that stand there are examples: ask your tax adviser."),
    ("wording", "If you like: every phrase that clients read, to change or translate."),
    ("builds", "If you like: your own recipes, for pieces that none of the forms covers."),
    ("jobs", "One row for each enquiry."),
    ("pieces", "One row for each thing to build, hire or do. Choose its form; the columns it doesn't use turn grey."),
    ("adjustments", "If you like: discounts and surcharges."),
)

TYPING = (
    "Lengths as 8 ft, 6'6\", 94 1/2 in, 2.4 m or 240 cm. A bare number has the unit of its heading.",
    "Dates as real dates, or as 14 May 2031. Amounts as 1200.50, percents as 12 %.",
    "You may move, hide and add columns, leave rows blank, write formulas and add sheets of your own.",
    "What is wrong is told by its cell, and holds only its own job.",
)

CAUTIONS = (
    "Latex causes allergies; ask every client.",
    "Uninflated and broken balloons choke small children: pick up every piece.",
    "Never breathe in helium. Keep cylinders upright, secured and in fresh air. Never let balloons go outdoors.",
    "Foil conducts: keep it off power lines and electrical equipment.",
    "Two people for ladders, for anything above 2 m and for wide arches.",
    "Keep exits, escape routes, extinguishers and sprinklers clear.",
    "Outdoors, mind the wind and take pieces down in time.",
    "What this program works out is for planning. Local codes and licensed practice come first.",
)


def write_start_sheet(look: BookLook, layouts: Sequence[SheetLayout]) -> Worksheet:
    """The sheet that leads through the book, with a link to each of the other sheets."""
    sheet = look.workbook.add_worksheet(START)
    sheet.hide_gridlines(2)
    sheet.set_column(0, 0, 4)
    sheet.set_column(1, 1, 16)
    sheet.set_column(2, 2, 96)
    sheet.set_row(0, 32)
    sheet.write_string(0, 0, "Start here", look.inks(size=20, bold=True, color=ACCENT, valign="vcenter"))
    plain, quiet = look.inks(text_wrap=True), look.inks(color=QUIET)
    sheet.write_string(1, 0, "This book holds your prices and your enquiries. One command makes the quotes.", quiet)
    row = _write_steps(look, sheet, layouts, 3)
    row = _write_heading(look, sheet, row, "Make the quotes")
    for text in (
        "Save the book. In a terminal, in the folder of the book:",
        '    quoting check "our book.xlsx"    names every mistake by its cell and writes nothing;',
        '    quoting quote "our book.xlsx"    writes quotes, workshop sheets and a summary into a dated folder.',
        "Your book itself is never changed.",
    ):
        sheet.write_string(row, 1, text, look.inks())
        row += 1
    row = _write_legend(look, sheet, row + 1)
    for title, lines in (("Typing", TYPING), ("Safety", CAUTIONS)):
        row = _write_heading(look, sheet, row + 1, title)
        for text in lines:
            sheet.write_string(row, 0, "·", look.inks(align="right"))
            sheet.merge_range(row, 1, row, 2, "", plain)
            sheet.write_string(row, 1, text, plain)
            row += 1
    sheet.set_portrait()
    sheet.set_paper(9 if look.is_metric else 1)
    sheet.fit_to_pages(1, 1)
    sheet.activate()
    return sheet


def _write_heading(look: BookLook, sheet: Worksheet, row: int, text: str) -> int:
    sheet.set_row(row, 22)
    sheet.write_string(row, 0, text, look.inks(size=13, bold=True, color=ACCENT, valign="vcenter"))
    return row + 1


def _write_steps(look: BookLook, sheet: Worksheet, layouts: Sequence[SheetLayout], row: int) -> int:
    names = {layout.key: layout.name for layout in layouts}
    row = _write_heading(look, sheet, row, "Fill in, from left to right")
    link = look.inks(color=ACCENT, underline=1)
    number = 0
    for key, text in STEPS:
        if key not in names:
            continue
        number += 1
        sheet.write_number(row, 0, number, look.inks(color=QUIET, align="right"))
        sheet.write_url(row, 1, f"internal:'{names[key]}'!A1", link, string=names[key])
        sheet.write_string(row, 2, text, look.inks(text_wrap=True))
        row += 1
    return row + 1


def _write_legend(look: BookLook, sheet: Worksheet, row: int) -> int:
    row = _write_heading(look, sheet, row, "Colours")
    edge = {"border": 1, "border_color": HAIRLINE}
    for sample, ink, text in (
        ("Heading", look.inks(bold=True, color="#FFFFFF", bg_color=ACCENT, **edge), "Bold on dark: must be filled in."),
        ("Heading", look.inks(color=INK, bg_color=TINT, **edge), "Plain on light: may be left blank."),
        ("", look.inks(bg_color=WARNING, **edge), "A cell that this row still needs."),
        ("", look.inks(bg_color=UNUSED, **edge), "A cell that this row's form does not use: skip it."),
    ):
        sheet.write_string(row, 1, sample, ink)
        sheet.write_string(row, 2, text, look.inks(indent=1))
        row += 1
    return row
