"""Cells as found in a workbook, and the typed values read from them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from quoting.domain.places import Place


class Kind(StrEnum):
    """What a column's cells hold, and so how their text is understood.

    The Python value that each gives: TEXT str; WHOLE int; NUMBER, MONEY Decimal;
    PERCENT Decimal fraction (12 % is Decimal("0.12")); LENGTH Decimal centimetres;
    DISTANCE Decimal in the unit of the heading's brackets, or of the text (mi or
    km), always given in kilometres; MASS Decimal kilograms; DATE datetime.date;
    TIME datetime.time; YES_NO bool; TEXTS tuple of str; LENGTHS tuple of Decimal
    centimetres; WHOLES tuple of int; PERCENTS tuple of Decimal fractions; AMOUNTS
    tuple of (int, str), as in "2 x Foil star, 1 x Fan" (a name alone counts 1).
    """

    TEXT = "text"
    WHOLE = "whole number"
    NUMBER = "number"
    MONEY = "money"
    PERCENT = "percent"
    LENGTH = "length"
    DISTANCE = "distance"
    MASS = "mass"
    DATE = "date"
    TIME = "time"
    YES_NO = "yes or no"
    TEXTS = "list of texts"
    LENGTHS = "list of lengths"
    WHOLES = "list of whole numbers"
    PERCENTS = "list of percents"
    AMOUNTS = "list of amounts"


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """One cell as the file holds it, not yet understood.

    `value` is None, str, bool, int, Decimal (a float went through its text),
    datetime.date, datetime.datetime or datetime.time. `is_error` tells an error
    value such as #REF! (then `value` is its text); `is_uncalculated` a formula
    whose result the file does not carry (then `value` is None). `merged_from` is the
    first cell of the merged range it belongs to, None outside of any.
    """

    place: Place
    value: object = None
    number_format: str = ""
    has_formula: bool = False
    is_error: bool = False
    is_uncalculated: bool = False
    merged_from: Place | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One sheet's cells: row number → column number → cell; blank cells are left out.

    A merged range gives its value to every one of its cells, each with its own place.
    """

    name: str
    rows: Mapping[int, Mapping[int, Cell]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Book:
    """One workbook as read. `name` is its file name, `digest` the SHA-256 of its bytes in hex."""

    name: str
    digest: str
    sheets: tuple[Sheet, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Value:
    """A typed value, the place it came from and the text that was seen there.

    `currency` is the ISO code of a currency sign found beside a money value, or "".
    """

    value: object
    place: Place
    seen: str = ""
    currency: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row of a table: field key → value, for the cells that were filled and understood.

    `place` is the row itself (column 0); `columns` maps every field key whose column
    the sheet has to its column number, so that a blank cell can be named too.
    `misread` are the keys whose cell was filled but not understood: their problem
    has been reported, and a further "is missing" about them would be noise.
    """

    place: Place
    values: Mapping[str, Value]
    columns: Mapping[str, int]
    misread: frozenset[str] = frozenset()

    def get(self, key: str, default: object = None) -> object:
        """The typed value of a field, or `default` where its cell is blank."""
        found = self.values.get(key)
        return default if found is None else found.value

    def where(self, key: str) -> Place:
        """The place of a field's cell, filled or blank; the row where the sheet has no such column."""
        found = self.values.get(key)
        if found is not None:
            return found.place
        return self.place.at(self.columns.get(key, 0))

    def seen(self, key: str) -> str:
        """The cell's own text, or ""."""
        found = self.values.get(key)
        return "" if found is None else found.seen


@dataclass(frozen=True, slots=True, kw_only=True)
class UnreadColumn:
    """A column whose heading is none of ours, in a sheet that lacks some of our columns.

    `place` is its heading, `heading` what that says, `cells` are the filled cells under it in the
    table's rows, each as the text seen. `lacking` are the keys of our columns that the sheet is without;
    for those that change a price, `readings` has the cells that can be understood as that column's.
    """

    place: Place
    heading: str
    cells: tuple[Value, ...]
    lacking: tuple[str, ...]
    readings: Mapping[str, tuple[Value, ...]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """The rows of one sheet of one workbook, in the order of the sheet.

    `sheet_key` is the layout's key ("pieces"). A settings sheet gives one row whose
    `place` is the sheet, with each value at its own cell; its `columns` are empty.
    """

    sheet_key: str
    place: Place
    rows: tuple[Row, ...]
    headings: Mapping[str, Place] = field(default_factory=dict)
    unread: tuple[UnreadColumn, ...] = ()
