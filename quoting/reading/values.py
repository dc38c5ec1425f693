"""One cell understood as its column says."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from datetime import date, datetime, time
from decimal import Decimal

from quoting.domain.cells import Cell, Kind, Value
from quoting.domain.layouts import Column
from quoting.domain.problems import Outcome
from quoting.reading.amounts_of_money import currency_of, read_money
from quoting.reading.dates import NO_DATE, read_date, read_time
from quoting.reading.lists import read_amounts, read_lengths, read_percents, read_wholes, split_list
from quoting.reading.measures import plain_marks, read_measure
from quoting.reading.number_cells import read_number_cell, shown_currency
from quoting.reading.numbers import read_number, read_percent, read_whole
from quoting.reading.texts import folded, folded_lines, is_blank, seen_text
from quoting.reading.troubles import Trouble, trouble_at

_YES = ("yes", "y", "true", "1", "✓", "✔", "sí", "si", "oui", "ja")
_NO = ("no", "n", "false", "0", "non", "nein")


def read_value(cell: Cell, column: Column, unit: str) -> Outcome[Value | None]:
    """The typed value of a cell (see `Kind`), None where it is blank or not understood.

    `unit` is what a bare number stands for, from the heading's brackets: "ft", "in", "m",
    "cm", "mm", "mi", "km", "lb", "oz", "kg", "g", the ISO code of a money column, or "".
    A cell that isn't understood has one problem, P201 to P227, at its place; its `seen` is
    the cell's own text. Never raises, whatever the text.
    """
    if is_blank(cell):
        return Outcome(value=None)
    seen = seen_text(cell)
    found = _understood(cell, column, unit)
    if isinstance(found, Trouble):
        told = Trouble(code=found.code, facts={"heading": column.heading, "fix": column.fix, **found.facts})
        return Outcome(value=None, problems=(trouble_at(told, cell.place, seen),))
    value, currency = found
    return Outcome(value=Value(value=value, place=cell.place, seen=seen, currency=currency))


def _understood(cell: Cell, column: Column, unit: str) -> tuple[object, str] | Trouble:
    """The value and the currency beside it."""
    if cell.is_error and cell.value == NO_DATE:
        return Trouble(code="P229", facts={} if column.kind is Kind.DATE else {"fix": _REFORMAT})
    if cell.is_error:
        return Trouble(code="P201")
    if cell.is_uncalculated:
        return Trouble(code="P202")
    money = column.kind is Kind.MONEY
    currency = currency_of(unit) if money else ""
    if isinstance(cell.value, str) and money:
        amount = read_money(folded(cell.value))
        return amount if isinstance(amount, Trouble) else (amount[0], amount[1] or currency)
    value = _value(cell, column, "" if money else unit)
    if money and isinstance(cell.value, (int, Decimal)):
        currency = shown_currency(cell) or currency
    return value if isinstance(value, Trouble) else (value, currency)


def _value(cell: Cell, column: Column, unit: str) -> object:
    value, kind = cell.value, column.kind
    if isinstance(value, bool):
        return value if kind is Kind.YES_NO else Trouble(code="P217")
    if isinstance(value, (int, Decimal)):
        return read_number_cell(cell, kind, unit)
    if isinstance(value, (date, time)):
        return _calendar_value(value, kind)
    if isinstance(value, str):
        return _text_value(value, column, unit)
    raise TypeError(f"a cell holds a {type(value).__name__}, which no reader gives")


def _calendar_value(value: date | time, kind: Kind) -> object:
    """A cell that office software keeps as a date or a time of day."""
    if isinstance(value, time):
        return value if kind is Kind.TIME else Trouble(code="P203" if kind in _NAMES else "P216")
    if kind is Kind.DATE:
        return value.date() if isinstance(value, datetime) else value
    if kind is Kind.TIME:
        return Trouble(code="P219")
    return Trouble(code="P203" if kind in _NAMES else "P216")


_REFORMAT = "format the cell as a number or text, then type it again"
_NAMES = (Kind.TEXT, Kind.TEXTS, Kind.AMOUNTS)

_MEASURES: Mapping[Kind, Callable[[str, str], object]] = {
    Kind.LENGTH: lambda text, unit: read_measure(text, Kind.LENGTH, unit),
    Kind.DISTANCE: lambda text, unit: read_measure(text, Kind.DISTANCE, unit),
    Kind.MASS: lambda text, unit: read_measure(text, Kind.MASS, unit),
}


def _yes_no(text: str) -> bool | Trouble:
    word = text.casefold()
    return word in _YES if word in _YES or word in _NO else Trouble(code="P221")


_SCALARS: Mapping[Kind, Callable[[str], object]] = {
    Kind.WHOLE: read_whole,
    Kind.NUMBER: read_number,
    Kind.PERCENT: read_percent,
    Kind.DATE: read_date,
    Kind.TIME: read_time,
    Kind.YES_NO: _yes_no,
}
_LISTS: Mapping[Kind, Callable[[str], object]] = {
    Kind.TEXTS: split_list,
    Kind.WHOLES: read_wholes,
    Kind.PERCENTS: read_percents,
    Kind.AMOUNTS: read_amounts,
}


def _text_value(text: str, column: Column, unit: str) -> object:
    kind = column.kind
    if kind is Kind.TEXT:
        # Notes, addresses and terms keep their lines; what is chosen from a list has only one.
        return folded(text) if column.choices or column.choices_from else folded_lines(text)
    if kind in _MEASURES:
        return _MEASURES[kind](folded(text), unit)
    text = _without_suffixes(text, column.suffixes) if column.suffixes else text
    if kind is Kind.LENGTHS:
        return read_lengths(text, unit)
    if kind in _LISTS:
        return _LISTS[kind](text)
    return _SCALARS[kind](folded(text))


def _without_suffixes(text: str, suffixes: tuple[str, ...]) -> str:
    """A number, or a list of numbers, without what the column allows behind each: "22 s" is 22, '5", 11"' is 5, 11."""
    words = "|".join(re.escape(word) for word in sorted(suffixes, key=len, reverse=True))
    return re.sub(rf"(?<=[0-9])\s*(?:{words})\.?(?=\s*(?:[,;\n]|$))", "", plain_marks(text), flags=re.IGNORECASE)
