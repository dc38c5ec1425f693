"""What the sheets of a book look like, made from their schemas."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from functools import cache
from typing import Any

from quoting.checking.schemas import SHEET_KEYS, sheet_schemas
from quoting.domain.cells import Kind
from quoting.domain.layouts import Column, SheetLayout
from quoting.forms.fields import pieces_fields
from quoting.forms.registry import all_forms

LAYOUT_VERSION = 1
"""The version of the book's layout that this program reads and makes; a book carries it on its Shop sheet."""


@cache
def book_layouts() -> tuple[SheetLayout, ...]:
    """Every sheet of a book, in the order of the tabs."""
    return tuple(_layout(key, sheet_schemas()[key]) for key in SHEET_KEYS)


def layout_of(key: str) -> SheetLayout:
    """The layout of a sheet key ("pieces"); ValueError where there is none."""
    return book_layouts()[SHEET_KEYS.index(key)]


def _layout(key: str, schema: Mapping[str, Any]) -> SheetLayout:
    required = frozenset(schema["required"])
    return SheetLayout(
        key=key,
        name=schema["title"],
        about=schema["description"],
        columns=tuple(_column(key, name, prop, name in required) for name, prop in schema["properties"].items()),
        is_settings=schema["sheet"]["is_settings"],
        required=schema["sheet"]["is_required"],
    )


def _column(sheet: str, key: str, prop: Mapping[str, Any], is_required: bool) -> Column:
    cell = prop["cell"]
    kind = Kind(cell["kind"])
    uses, needs = _forms_of(key) if sheet == "pieces" else ((), ())
    return Column(
        key=key,
        heading=prop["title"],
        kind=kind,
        note=prop["description"],
        fix=cell["fix"],
        example=str(prop["examples"][0]),
        required=is_required,
        units=tuple(cell.get("units", ())),
        choices=tuple(cell.get("suggestions", ())) or _choices(kind, prop),
        choices_from=cell.get("choices_from", ""),
        forms=uses,
        required_by=needs,
        default=shown(prop["default"], kind) if "default" in prop else "",
        group=cell.get("group", ""),
        width=cell.get("width", 14),
        common_practice=cell.get("source", "") == "common practice",
        aliases=tuple(cell.get("aliases", ())),
        suffixes=tuple(cell.get("suffixes", ())),
        changes_price=cell.get("changes_price", False),
    )


def _choices(kind: Kind, prop: Mapping[str, Any]) -> tuple[str, ...]:
    if kind is Kind.YES_NO:
        return ("yes", "no")
    return tuple(str(choice) for choice in prop.get("enum", ()))


def _forms_of(key: str) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Names of the forms that use a column of Pieces (none where every row does), and of those that need it."""
    fields = [(form.name, field) for form in all_forms() for field in form.fields if field.key == key]
    uses = tuple(name for name, _ in fields) if key in pieces_fields() else ()
    return uses, tuple(name for name, field in fields if field.is_required)


def shown(value: object, kind: Kind) -> str:
    """A typed value in the words an owner would type: 12 %, yes, 2.4 m as "240 cm", lists with commas."""
    if isinstance(value, (list, tuple)):
        return ", ".join(shown(item, kind) for item in value)
    if kind is Kind.YES_NO:
        return "yes" if value else "no"
    if not isinstance(value, (int, Decimal)):
        return str(value)
    number = Decimal(value)
    if kind in (Kind.PERCENT, Kind.PERCENTS):
        return f"{_plain(number * 100)} %"
    if kind in (Kind.LENGTH, Kind.LENGTHS):
        return f"{_plain(number)} cm"
    return _plain(number) + {Kind.DISTANCE: " km", Kind.MASS: " kg"}.get(kind, "")


def _plain(number: Decimal) -> str:
    text = f"{number:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
