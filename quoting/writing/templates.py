"""The two blank books that an owner begins with: one in feet and inches, one metric."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

from quoting.domain.layouts import SheetLayout
from quoting.writing.blank_book import write_blank_book
from quoting.writing.starting_rows import starting_rows

TEMPLATES: Mapping[str, bool] = {"blank book, feet and inches.xlsx": False, "blank book, metric.xlsx": True}
"""The checked-in blank books: file name → whether it is metric."""


def write_template(
    path: Path, layouts: Sequence[SheetLayout], wording: Sequence[Mapping[str, str]], *, is_metric: bool
) -> None:
    """Write one blank book with its starting rows; `wording` are the rows of the standard phrases.

    OSError where the path can't be written.
    """
    rows = {**starting_rows(is_metric=is_metric), "wording": wording}
    write_blank_book(path, layouts, rows, is_metric=is_metric)


def write_templates(folder: Path, layouts: Sequence[SheetLayout], wording: Sequence[Mapping[str, str]]) -> None:
    """Write every blank book of `TEMPLATES` into a folder, over those that are there."""
    for name, is_metric in TEMPLATES.items():
        write_template(folder / name, layouts, wording, is_metric=is_metric)
