"""Lists of the summary: headings that stay in view, rows that can be filtered, printed across the page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from xlsxwriter import Workbook
from xlsxwriter.format import Format
from xlsxwriter.worksheet import Worksheet

from quoting.domain.places import column_letters
from quoting.writing.inks import ACCENT, HAIRLINE, INK, QUIET, TINT, WARNING, Inks
from quoting.writing.pages import CellValue, write_formula, write_value
from quoting.writing.phrases import page_foot
from quoting.writing.printable_text import printable
from quoting.writing.text_heights import line_count, row_height


@dataclass(frozen=True, slots=True, kw_only=True)
class Heading:
    """One column of a list: heading, width in pixels, number format ("" for text), whether its sum stands below."""

    text: str
    width: int
    number_format: str = ""
    is_summed: bool = False
    bold: bool = False

    @property
    def is_number(self) -> bool:
        """True where values are set to the right: numbers, but no dates."""
        return bool(self.number_format) and "y" not in self.number_format


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """A cell that opens a file beside the workbook: `path` with "/" between folder and name."""

    path: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Listing:
    """One sheet of the summary.

    `empty` is what it says where there is no row; cells with a text of `warned` stand out.
    """

    name: str
    title: str
    words: str
    headings: tuple[Heading, ...]
    rows: Sequence[Sequence[CellValue | Link]]
    empty: str
    paper: str = "A4"
    warned: frozenset[str] = frozenset()


FIRST_ROW = 3
"""Row (from 0) of the first line of every list: title, words and headings stand above it."""


def write_listing(workbook: Workbook, inks: Inks, listing: Listing) -> None:
    """Write a list as a sheet: headings frozen, filtered and repeated in print, one page wide."""
    sheet = workbook.add_worksheet(listing.name)
    sheet.hide_gridlines(2)
    sheet.write_string(0, 0, printable(listing.title), inks(size=16, bold=True, color=ACCENT))
    sheet.set_row(0, 26)
    _write_words(sheet, inks, listing)
    for column, heading in enumerate(listing.headings):
        sheet.set_column_pixels(column, column, heading.width)
        align = {"align": "right"} if heading.is_number else {"align": "left", "indent": 1 if column else 0}
        ink = inks(size=9, bold=True, color=ACCENT, bg_color=TINT, **align, text_wrap=True, valign="vcenter")
        sheet.write_string(2, column, heading.text, ink)
    sheet.set_row(2, 27)
    for number, row in enumerate(listing.rows):
        _write_row(sheet, inks, listing, FIRST_ROW + number, row)
    if listing.rows and any(heading.is_summed for heading in listing.headings):
        _write_sums(sheet, inks, listing)
    _lay_out(sheet, listing)


def _write_words(sheet: Worksheet, inks: Inks, listing: Listing) -> None:
    """Below the title; over all columns where one line is too short for them."""
    words = printable(listing.words if listing.rows else listing.empty)
    lines = line_count(words, sum(heading.width for heading in listing.headings), 9)
    if lines == 1:
        sheet.write_string(1, 0, words, inks(size=9, color=QUIET))
    else:
        ink = inks(size=9, color=QUIET, text_wrap=True)
        sheet.merge_range(1, 0, 1, len(listing.headings) - 1, "", ink)
        sheet.write_string(1, 0, words, ink)
    sheet.set_row(1, row_height(lines, 9, padding=6))


def _write_row(sheet: Worksheet, inks: Inks, listing: Listing, row: int, values: Sequence[CellValue | Link]) -> None:
    lines = 1
    for column, (heading, value) in enumerate(zip(listing.headings, values, strict=True)):
        look: dict[str, object] = {
            "size": 9,
            "bold": heading.bold,
            "bottom": 1,
            "bottom_color": HAIRLINE,
            "text_wrap": True,
        }
        if column and not heading.is_number:
            look |= {"align": "left", "indent": 1}  # else it would stand against the number before it
        if value in listing.warned:
            look["bg_color"] = WARNING
        if isinstance(value, Link):
            _write_link(sheet, row, column, value, inks(**look | {"color": ACCENT, "underline": 1}))
        elif isinstance(value, str):
            write_value(sheet, row, column, value, inks(**look))
        else:
            look |= {"align": "right" if heading.is_number else "left", "num_format": heading.number_format}
            write_value(sheet, row, column, value, inks(**look))
        text = value.text if isinstance(value, Link) else value if isinstance(value, str) else ""
        lines = max(lines, line_count(text, heading.width - 10, 9, bold=heading.bold))
    sheet.set_row(row, min(row_height(lines, 9, padding=5), 409))


def _write_link(sheet: Worksheet, row: int, column: int, link: Link, ink: Format) -> None:
    done = sheet.write_url(row, column, f"external:{_encoded(link.path)}", ink, printable(link.text))
    if done:  # a sheet takes so many links and such long ones; a cell beyond that says where the file is
        sheet.write_string(row, column, printable(link.text), ink)


def _encoded(path: str) -> str:
    """Encode the signs that a link would take for something else; letters of every script stay readable."""
    return "".join(f"%{ord(c):02X}" if c in _ENCODED else c for c in path)


_ENCODED = frozenset(' #%"<>[]^`{}?')


def _write_sums(sheet: Worksheet, inks: Inks, listing: Listing) -> None:
    row = FIRST_ROW + len(listing.rows)
    for column, heading in enumerate(listing.headings):
        ink = inks(
            size=9, bold=True, top=1, top_color=INK, num_format=heading.number_format or "General", align="right"
        )
        if not heading.is_summed:
            sheet.write_blank(row, column, None, ink)
            continue
        amounts = [value for value in (line[column] for line in listing.rows) if isinstance(value, (int, Decimal))]
        letter = column_letters(column + 1)
        cells = f"{letter}{FIRST_ROW + 1}:{letter}{FIRST_ROW + len(listing.rows)}"
        write_formula(sheet, row, column, f"SUM({cells})", value=sum(amounts, Decimal(0)), ink=ink)
    sheet.set_row(row, 18)


def _lay_out(sheet: Worksheet, listing: Listing) -> None:
    last = len(listing.headings) - 1
    sheet.freeze_panes(FIRST_ROW, 0)
    if listing.rows:
        sheet.autofilter(FIRST_ROW - 1, 0, FIRST_ROW - 1 + len(listing.rows), last)
    sheet.repeat_rows(FIRST_ROW - 1)
    sheet.set_landscape()
    sheet.set_paper(1 if listing.paper == "Letter" else 9)
    sheet.set_margins(left=0.5, right=0.5, top=0.5, bottom=0.7)
    sheet.set_footer(page_foot(listing.title), {"margin": 0.35})
    sheet.print_area(0, 0, FIRST_ROW + max(len(listing.rows), 1), last)
    sheet.fit_to_pages(1, 0)
