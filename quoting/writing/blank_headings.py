"""Headings of the blank book and the notes on them."""

from __future__ import annotations

from quoting.domain.cells import Kind
from quoting.domain.layouts import Column

UNITED = (Kind.LENGTH, Kind.LENGTHS, Kind.DISTANCE, Kind.MASS)

NUMBER_FORMATS = {
    Kind.WHOLE: "0", Kind.NUMBER: "General", Kind.MONEY: "#,##0.00", Kind.PERCENT: "0.00%", Kind.LENGTH: "General",
    Kind.DISTANCE: "General", Kind.MASS: "General", Kind.DATE: "yyyy-mm-dd", Kind.TIME: "hh:mm", Kind.YES_NO: "General",
}
"""Formats of a column's cells. Kinds left out are text, so that "10, 8" or "0412" stays as typed."""


def unit_of(column: Column, is_metric: bool) -> str:
    """The unit a bare number of the column has in a book of one system, or ""."""
    return column.units[1 if is_metric else 0] if column.units else ""


def heading_text(column: Column, is_metric: bool) -> str:
    """The heading with its unit in brackets: "Height (ft)"."""
    unit = unit_of(column, is_metric)
    return f"{column.heading} ({unit})" if unit else column.heading


def heading_note(column: Column, is_metric: bool) -> str:
    """What the note on a heading says: what to type, an example, and whether it must be filled in."""
    lines = [column.note, "", f"For example: {column.example}"]
    unit = unit_of(column, is_metric)
    if unit:
        lines.append(f"A bare number is in {unit}; any other unit may be typed with it.")
    if column.default:
        lines.append(f"Left blank: {column.default}.")
    if column.common_practice:
        lines.append("Common practice: measure your own.")
    if column.required:
        lines.append("Must be filled in.")
    if column.forms:
        lines.append(f"Used by: {', '.join(column.forms)}.")
    if column.required_by:
        lines.append(f"Must be filled in for: {', '.join(column.required_by)}.")
    return "\n".join(lines)


def number_format(column: Column) -> str:
    """The number format of a column's cells."""
    return NUMBER_FORMATS.get(column.kind, "@")
