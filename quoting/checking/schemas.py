"""The JSON Schemas of the sheets, complete: forms' fields and standard phrases composed in.

Numbers are read as `Decimal`, so that limits and defaults are exact. Beside the
keywords of draft 2020-12 there are two annotations of our own: "sheet" (on a schema)
and "cell" (on a property); `examples` hold what an owner would type.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from decimal import Decimal
from functools import cache
from importlib.resources import files
from typing import Any

from quoting.checking.wording import standard_wording
from quoting.forms.fields import pieces_fields
from quoting.forms.registry import Form, all_forms

SHEET_KEYS = (
    "shop", "balloons", "hardware", "suppliers", "labour", "rates", "holidays", "delivery", "vans", "tax", "wording",
    "builds",
    "jobs", "pieces", "adjustments",
)
"""The sheets of a book in the order of their tabs (after "Start here", which is prose)."""

JsonObject = dict[str, Any]


@cache
def sheet_schemas() -> Mapping[str, Mapping[str, Any]]:
    """Every sheet's complete schema: sheet key → JSON Schema (draft 2020-12) of one row."""
    return {key: _complete(key) for key in SHEET_KEYS}


def _complete(key: str) -> JsonObject:
    text = files("quoting.checking").joinpath(f"schemas/{key}.json").read_text("utf-8")
    schema: JsonObject = json.loads(text, parse_float=Decimal)
    if key == "wording":
        schema["properties"]["phrase"]["enum"] = list(standard_wording())
    if key == "pieces":
        _add_forms(schema)
    return schema


def _add_forms(schema: JsonObject) -> None:
    """Give the Pieces schema the forms' columns, and for each form what it needs and does not use."""
    own = frozenset(schema["properties"])
    schema["properties"]["form"]["enum"] = [form.name for form in all_forms()]
    for key, fragment in pieces_fields().items():
        schema["properties"][key] = json.loads(json.dumps(fragment, default=float), parse_float=Decimal)
    schema["allOf"] = [_rule_of(form, own) for form in all_forms()]


def _rule_of(form: Form, own: frozenset[str]) -> JsonObject:
    used = {field.key for field in form.fields}
    return {
        "if": {"properties": {"form": {"const": form.name}}, "required": ["form"]},
        "then": {
            "required": [field.key for field in form.fields if field.is_required],
            "properties": {key: {"not": {}} for key in pieces_fields() if key not in used | own},
        },
    }
