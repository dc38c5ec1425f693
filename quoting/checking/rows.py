"""Each row against its sheet's schema; every error in our own words, at the cell to mend."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime, time
from decimal import Decimal
from functools import cache
from types import MappingProxyType
from typing import Any

from jsonschema import Draft202012Validator
from jsonschema.exceptions import ValidationError
from jsonschema.validators import extend

from quoting.checking.layouts import layout_of, shown
from quoting.checking.names import asked, nearest_names
from quoting.checking.schemas import sheet_schemas
from quoting.domain.cells import Row
from quoting.domain.codes import problem
from quoting.domain.layouts import Column
from quoting.domain.places import Place
from quoting.domain.problems import Level, Problem

WIDE_CHOICE = 8
"""A list longer than this is not told in full beside a name that comes close: the drop-down has it."""
LISTED_CHOICE = 30
"""A list longer than this is never told in full."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RowCheck:
    """What one row came to: `is_usable` where nothing but notes stands against it."""

    is_usable: bool
    problems: tuple[Problem, ...] = ()


def check_row(sheet_key: str, row: Row, settings: Mapping[str, Place] = MappingProxyType({})) -> RowCheck:
    """One row judged by its sheet's schema; `settings` tells where the values of the settings sheet stand.

    Cells that reading could not understand (`row.misread`) are not spoken of again,
    nor a required column that the sheet lacks: reading has named its heading row.
    Problems of Jobs, Pieces and Adjustments carry the row's job code; those of the
    settings sheet and of Tax stop everything (level book).
    """
    instance = _instance(row)
    if _validator(sheet_key).is_valid(instance):
        return RowCheck(is_usable=not row.misread)
    problems: dict[tuple[str, str], Problem] = {}
    is_usable = not row.misread
    for error in _validator(sheet_key).iter_errors(instance):
        for key, make in _causes(error):
            is_usable = is_usable and make is _unused
            if key in row.misread or (make is _missing and sheet_key != "shop" and key not in row.columns):
                continue
            found = make(sheet_key, row, layout_of(sheet_key).column(key), error)
            if sheet_key == "shop" and key in settings and key not in row.values:
                found = replace(found, place=settings[key])
            problems.setdefault((key, found.code), found)
    return RowCheck(is_usable=is_usable, problems=tuple(problems.values()))


def is_allowed(sheet_key: str, key: str, value: object) -> bool:
    """True where a sheet's schema takes a value in a column, whatever the rest of its row says."""
    return bool(_property_validator(sheet_key, key).is_valid(_as_json(value)))


def row_level(sheet_key: str, row: Row) -> Level:
    """How much a wrong row of a sheet stops: what concerns every job stops them all."""
    for_everyone = sheet_key in ("shop", "tax") or (sheet_key == "adjustments" and not row.get("job"))
    return Level.BOOK if for_everyone else Level.HOLD


def job_of(row: Row) -> str:
    """The job code that a row gives, or ""."""
    return str(row.get("job", ""))


@cache
def _validator(sheet_key: str) -> Any:
    return _judge()(sheet_schemas()[sheet_key])


@cache
def _property_validator(sheet_key: str, key: str) -> Any:
    return _judge()(sheet_schemas()[sheet_key]["properties"][key])


@cache
def _judge() -> Any:
    """The class of validators; whole Decimals are integers, and a bool is no number."""
    checker = Draft202012Validator.TYPE_CHECKER.redefine_many(
        {
            "number": lambda _, value: isinstance(value, (int, Decimal)) and not isinstance(value, bool),
            "integer": lambda _, value: (isinstance(value, int) and not isinstance(value, bool))
            or (isinstance(value, Decimal) and value == value.to_integral_value()),
        }
    )
    return extend(Draft202012Validator, type_checker=checker)  # type: ignore[no-untyped-call]  # untyped in its stubs


def _instance(row: Row) -> dict[str, object]:
    return {key: _as_json(value.value) for key, value in row.values.items()}


def _as_json(value: object) -> object:
    if isinstance(value, tuple):
        return [_as_json(one) for one in value]
    return value.isoformat() if isinstance(value, (date, datetime, time)) else value


Maker = Callable[[str, Row, Column, ValidationError], Problem]


def _causes(error: ValidationError) -> Iterable[tuple[str, Maker]]:
    """The fields that an error speaks of, each with what makes its problem."""
    path = [str(part) for part in error.absolute_path]
    rules: Mapping[str, Maker] = {
        "enum": _not_listed, "const": _not_listed, "minimum": _out_of_range, "exclusiveMinimum": _out_of_range,
        "maximum": _out_of_range, "exclusiveMaximum": _out_of_range, "maxLength": _too_long,
        "uniqueItems": _named_twice, "not": _unused,
    }
    if error.validator == "required":
        make = _form_needs if "then" in error.absolute_schema_path else _missing
        instance: Any = error.instance
        wanted: Any = error.validator_value
        return [(key, make) for key in wanted if key not in instance]
    return [(path[0], rules.get(str(error.validator), _misshapen))]


def _told(code: str, sheet_key: str, row: Row, column: Column, **facts: object) -> Problem:
    return problem(
        code, row.where(column.key), seen=row.seen(column.key), job=job_of(row), level=row_level(sheet_key, row),
        heading=column.heading, **{"fix": column.fix, **facts},
    )


def _missing(sheet_key: str, row: Row, column: Column, _: ValidationError) -> Problem:
    return _told("P310" if sheet_key == "shop" else "P301", sheet_key, row, column)


def _not_listed(sheet_key: str, row: Row, column: Column, error: ValidationError) -> Problem:
    choices = [str(one) for one in error.validator_value]  # type: ignore[union-attr]  # enum is a list
    near = nearest_names(str(error.instance), choices)
    is_short = len(choices) <= (WIDE_CHOICE if near else LISTED_CHOICE)
    listed = f"choose one of: {', '.join(choices)}" if is_short else column.fix
    return _told("P302", sheet_key, row, column, fix=asked(near) + listed)


def _out_of_range(sheet_key: str, row: Row, column: Column, error: ValidationError) -> Problem:
    words = {"minimum": "at least", "exclusiveMinimum": "above", "maximum": "at most", "exclusiveMaximum": "below"}
    limit: Any = error.validator_value
    rule = f"{words[str(error.validator)]} {shown(limit, column.kind) if limit else 0}"
    return _told("P303" if "inimum" in str(error.validator) else "P304", sheet_key, row, column, rule=rule)


def _misshapen(sheet_key: str, row: Row, column: Column, _: ValidationError) -> Problem:
    return _told("P305", sheet_key, row, column)


def _too_long(sheet_key: str, row: Row, column: Column, error: ValidationError) -> Problem:
    limit = error.validator_value
    return _told("P306", sheet_key, row, column, most=limit, length=len(str(error.instance)))


def _form_needs(sheet_key: str, row: Row, column: Column, _: ValidationError) -> Problem:
    return _told("P307", sheet_key, row, column, form=row.get("form") or row.get("part"))


def _unused(_: str, row: Row, column: Column, __: ValidationError) -> Problem:
    return problem(
        "P308", row.where(column.key), seen=row.seen(column.key), job=job_of(row),
        heading=column.heading, form=row.get("form"),
    )


def _named_twice(sheet_key: str, row: Row, column: Column, _: ValidationError) -> Problem:
    return _told("P309", sheet_key, row, column)
