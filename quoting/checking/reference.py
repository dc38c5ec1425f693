"""The reference of all sheets and columns, for the docs."""

from __future__ import annotations

from quoting.checking.layouts import book_layouts
from quoting.domain.layouts import Column, SheetLayout


def reference_markdown() -> str:
    """Every sheet with its columns as Markdown tables, from the same layouts the blank book is made of.

    Ends in a line end. A required column's heading is bold; `|` in a text is escaped.
    """
    return "\n".join(_sheet(layout) for layout in book_layouts())


def _sheet(layout: SheetLayout) -> str:
    what = "Setting" if layout.is_settings else "Column"
    needed = "" if layout.required else " This sheet may be left out."
    top = f"| {what} | Holds | What it is for | Example |"
    lines = [f"### {layout.name}", "", f"{layout.about}{needed}", "", top, "|---|---|---|---|"]
    lines += [_row(column) for column in layout.columns]
    return "\n".join(lines) + "\n"


def _row(column: Column) -> str:
    units = f" ({' or '.join(column.units)})" if column.units else ""
    heading = f"**{column.heading}**{units}" if column.required else f"{column.heading}{units}"
    cells = (heading, _holds(column), _purpose(column), f"`{column.example}`")
    return "| " + " | ".join(cell.replace("|", "\\|").replace("\n", " ") for cell in cells) + " |"


def _holds(column: Column) -> str:
    if column.choices and len(column.choices) <= 12:
        return ", ".join(column.choices)
    return str(column.kind)


def _purpose(column: Column) -> str:
    told = [column.note]
    if column.default:
        told.append(f"Left blank: {column.default}.")
    if column.common_practice:
        told.append("Common practice.")
    if column.forms:
        forms = [f"{name} (required)" if name in column.required_by else name for name in column.forms]
        told.append(f"For: {', '.join(forms)}.")
    elif column.required_by:
        told.append(f"Required for: {', '.join(column.required_by)}.")
    return " ".join(told)
