"""Cells that hold a real number: certain in themselves, but for what their format shows beside it."""

from __future__ import annotations

from decimal import Decimal

from quoting.domain.cells import Cell, Kind
from quoting.reading.amounts_of_money import currency_of
from quoting.reading.lists import one_percent
from quoting.reading.measures import in_base_units, unit_named
from quoting.reading.numbers import percent_of, whole_of, within_limit
from quoting.reading.texts import Frame, frame_of, seen_text
from quoting.reading.troubles import Trouble

_MEASURES = (Kind.LENGTH, Kind.DISTANCE, Kind.MASS)


def read_number_cell(cell: Cell, kind: Kind, unit: str) -> object:
    """The value of a number cell by the column's kind (see `Kind`), or a Trouble.

    A percent format makes 0.12 mean 12 %, and no length, count or price. A unit that the
    format shows ('0.0" m"') goes before the heading's.
    """
    number = within_limit(Decimal(str(cell.value)))
    if isinstance(number, Trouble):
        return number
    frame = frame_of(cell.number_format)
    if kind in (Kind.TEXT, Kind.TEXTS):
        text = seen_text(cell)
        return text if kind is Kind.TEXT else (text,)
    if kind is Kind.PERCENT:
        return number if frame.is_percent else percent_of(number, is_certain=False)
    if kind is Kind.PERCENTS:
        return (number,) if frame.is_percent else one_percent(number, is_certain=False)
    if frame.is_percent:
        return Trouble(code="P220")
    return _plain(number, kind, unit, frame)


def _plain(number: Decimal, kind: Kind, unit: str, frame: Frame) -> object:
    if kind in (Kind.NUMBER, Kind.MONEY):
        return number
    if kind in (Kind.WHOLE, Kind.WHOLES):
        whole = whole_of(number)
        return whole if kind is Kind.WHOLE or isinstance(whole, Trouble) else (whole,)
    if kind in _MEASURES:
        return _measured(number, kind, unit, frame)
    if kind is Kind.LENGTHS:
        length = _measured(number, Kind.LENGTH, unit, frame)
        return length if isinstance(length, Trouble) else (length,)
    if kind is Kind.YES_NO and number in (0, 1):
        return number == 1
    return Trouble(code={Kind.DATE: "P215", Kind.TIME: "P219", Kind.YES_NO: "P221"}.get(kind, "P223"))


def _measured(number: Decimal, kind: Kind, unit: str, frame: Frame) -> Decimal | Trouble:
    named = unit_named(kind, frame.behind) or unit
    if named:
        return in_base_units(number, named, kind)
    return Decimal(0) if not number else Trouble(code="P205")


def shown_currency(cell: Cell) -> str:
    """The ISO code of the currency that a number cell's format shows, or ""."""
    frame = frame_of(cell.number_format)
    return currency_of(frame.before) or currency_of(frame.behind)
