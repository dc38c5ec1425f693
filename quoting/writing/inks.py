"""Workbooks as all our papers begin: one typeface, one accent colour, the same bytes every time."""

from __future__ import annotations

from datetime import date, datetime, time
from pathlib import Path

from xlsxwriter import Workbook
from xlsxwriter.format import Format

from quoting.writing.printable_text import printable

TYPEFACE = "Arial"
"""Every office software has it, or a typeface with the very same widths."""

ACCENT = "#2F5D62"
INK = "#1F2A2C"
QUIET = "#5F6B6D"
HAIRLINE = "#C9D1D0"
TINT = "#EEF3F2"
WARNING = "#FBE9D0"

POINTS_PER_PIXEL = 0.75
"""Office software counts 96 pixels to the inch, a point being 1/72 of one."""


def open_workbook(path: Path, *, title: str, author: str, made: date) -> Workbook:
    """Open a new workbook to be written; the caller closes it (it is a context manager).

    Text is never taken for a formula, link or number. The document's properties are
    `title`, `author` (the shop) and `made` alone, so that equal input gives equal bytes.
    """
    workbook = Workbook(
        str(path),
        {
            "strings_to_formulas": False,
            "strings_to_urls": False,
            "strings_to_numbers": False,
            "in_memory": True,
            "default_format_properties": {"font_name": TYPEFACE, "font_size": 10, "font_color": INK},
        },
    )
    named = {"title": printable(title), "author": printable(author)}
    workbook.set_properties({**named, "created": datetime.combine(made, time())})
    return workbook


_NAMES = {"size": "font_size", "color": "font_color"}
_BODY = {"font_name": TYPEFACE, "font_size": 10, "font_color": INK, "valign": "top"}


class Inks:
    """The formats of one workbook, each made once: `inks(bold=True, size=9)`.

    Without anything named, a cell is set in the body's typeface at 10 points, aligned
    to the top. Names are xlsxwriter's, but for `size` (points) and `color` (of the text).
    """

    def __init__(self, workbook: Workbook) -> None:
        self._workbook = workbook
        self._made: dict[tuple[tuple[str, object], ...], Format] = {}

    def __call__(self, **look: object) -> Format:
        """Give the format of a look, made at its first use."""
        key = tuple(sorted(look.items()))
        if key not in self._made:
            named = {_NAMES.get(name, name): value for name, value in look.items()}
            self._made[key] = self._workbook.add_format({**_BODY, **named})
        return self._made[key]
