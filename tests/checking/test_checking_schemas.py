"""The schemas themselves: valid draft 2020-12, and what layouts make of them."""

from __future__ import annotations

import pytest
from jsonschema import Draft202012Validator

from quoting.checking.layouts import book_layouts, layout_of, shown
from quoting.checking.reference import reference_markdown
from quoting.checking.schemas import SHEET_KEYS, sheet_schemas
from quoting.checking.values import defaults_of
from quoting.checking.wording import placeholders, standard_wording
from quoting.domain.cells import Kind
from quoting.forms.registry import all_forms

TYPES = {
    "string": {Kind.TEXT, Kind.DATE, Kind.TIME},
    "integer": {Kind.WHOLE},
    "number": {Kind.NUMBER, Kind.MONEY, Kind.PERCENT, Kind.LENGTH, Kind.DISTANCE, Kind.MASS},
    "boolean": {Kind.YES_NO},
    "array": {Kind.TEXTS, Kind.LENGTHS, Kind.WHOLES, Kind.PERCENTS, Kind.AMOUNTS},
}


@pytest.mark.parametrize("key", SHEET_KEYS)
def test_a_schema_is_valid_and_its_kinds_match_its_types(key):
    schema = sheet_schemas()[key]
    Draft202012Validator.check_schema(schema)
    assert set(schema["required"]) <= set(schema["properties"])
    for name, prop in schema["properties"].items():
        assert Kind(prop["cell"]["kind"]) in TYPES[prop["type"]], name
        assert prop["description"].endswith(".") and prop["examples"] and prop["cell"]["fix"], name
        assert not prop["cell"]["fix"].endswith("."), name


@pytest.mark.parametrize("key", SHEET_KEYS)
def test_defaults_are_values_that_the_schema_allows(key):
    for name, value in defaults_of(key).items():
        prop = sheet_schemas()[key]["properties"][name]
        assert Draft202012Validator({k: v for k, v in prop.items() if k not in ("type",)}).is_valid(value), name


@pytest.mark.parametrize("key", SHEET_KEYS)
def test_headings_are_told_apart_within_a_sheet_and_from_its_group_names(key):
    layout = layout_of(key)
    headings = [column.heading.casefold() for column in layout.columns]
    assert len(set(headings)) == len(headings)


def test_drop_downs_from_other_sheets_name_columns_that_are_there():
    for layout in book_layouts():
        for column in layout.columns:
            if column.choices_from:
                sheet, key = column.choices_from.split(".")
                assert layout_of(sheet).column(key)


def test_the_pieces_sheet_has_every_field_of_every_form():
    pieces = layout_of("pieces")
    for form in all_forms():
        for field in form.fields:
            column = pieces.column(field.key)
            assert not column.forms or form.name in column.forms
            assert (form.name in column.required_by) is field.is_required
        assert set(form.example) <= {column.key for column in pieces.columns}, form.name
    assert set(pieces.column("form").choices) == {form.name for form in all_forms()}


def test_standard_phrases_fill_in_by_name():
    for key, text in standard_wording().items():
        assert placeholders(text) is not None, key


def test_values_in_words():
    assert shown(sheet_schemas()["shop"]["properties"]["deposit"]["default"], Kind.PERCENT) == "50 %"
    defaults = [layout_of("shop").column(key).default for key in ("tightness", "minimum_order", "valid_days")]
    assert defaults == ["93 %", "0", "30"]


def test_the_reference_names_every_column():
    text = reference_markdown()
    for layout in book_layouts():
        assert f"### {layout.name}\n" in text
        assert all(column.heading in text for column in layout.columns)
