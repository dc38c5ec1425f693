"""The block of the front page that says whether a job fits, stands and lasts."""

from __future__ import annotations

from collections.abc import Sequence

from quoting.domain.flags import Flag
from quoting.writing.crew_tables import Field, write_heading, write_table
from quoting.writing.inks import QUIET
from quoting.writing.pages import Page

_COLUMNS = (
    Field(heading="Piece", first=0, last=1, bold=True),
    Field(heading="What was found", first=2, last=3),
    Field(heading="What to do", first=4, last=5, indent=1),
    Field(heading="Figures", first=6, last=7, indent=1),
)

PLANNING = "Figures for planning: a competent person and the local code decide. The steps stand on the sheet Workings."


def write_flags(page: Page, flags: Sequence[Flag]) -> None:
    """Write a row per flag with its figures; nothing where there are none."""
    if not flags:
        return
    write_heading(page, "Fit, stand and last")
    page.paragraph(PLANNING, 0, len(page.widths) - 1, size=8.5, color=QUIET)
    rows = [(flag.piece or "all", _sentence(flag.what), _sentence(flag.to_do), _figures(flag)) for flag in flags]
    write_table(page, _COLUMNS, rows, size=8.5)


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:]


def _figures(flag: Flag) -> str:
    return "\n".join(f"{figure.label}: {figure.shown}" for figure in flag.figures)
