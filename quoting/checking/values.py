"""A checked row's values with their types; the row's schema has seen to it that they have them."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, time
from decimal import Decimal
from functools import cache
from typing import TypeVar

from quoting.checking.schemas import sheet_schemas
from quoting.domain.cells import Kind, Row

T = TypeVar("T")

_DECIMALS = (Kind.NUMBER, Kind.MONEY, Kind.PERCENT, Kind.LENGTH, Kind.DISTANCE, Kind.MASS)


@cache
def defaults_of(sheet_key: str) -> Mapping[str, object]:
    """Default values of a sheet's columns, typed as `Kind` says: column key → value."""
    found: dict[str, object] = {}
    for key, prop in sheet_schemas()[sheet_key]["properties"].items():
        if "default" in prop:
            value = prop["default"]
            found[key] = Decimal(value) if Kind(prop["cell"]["kind"]) in _DECIMALS else value
    return found


class RowReader:
    """Typed reading of one row of a sheet: its value, else the schema's default, else nothing.

    TypeError where a value is of another type than the method asks for: our mistake, never an owner's.
    """

    __slots__ = ("_defaults", "row")

    def __init__(self, sheet_key: str, row: Row) -> None:
        self.row = row
        self._defaults = defaults_of(sheet_key)

    def _get(self, key: str, kind: type[T]) -> T | None:
        value = self.row.get(key, self._defaults.get(key))
        if value is None or isinstance(value, kind):
            return value
        raise TypeError(f"{key} at {self.row.where(key)} is a {type(value).__name__}, not a {kind.__name__}")

    def text(self, key: str) -> str:
        """The text, or ""."""
        return self._get(key, str) or ""

    def amount(self, key: str) -> Decimal | None:
        """The number, money, fraction or measure, or None."""
        return self._get(key, Decimal)

    def whole(self, key: str) -> int | None:
        """The whole number, or None."""
        return self._get(key, int)

    def flag(self, key: str) -> bool:
        """The yes or no; no where neither typed nor given by default."""
        return bool(self._get(key, bool))

    def day(self, key: str) -> date | None:
        """The date, or None."""
        return self._get(key, date)

    def hour(self, key: str) -> time | None:
        """The time of day, or None."""
        return self._get(key, time)

    def texts(self, key: str) -> tuple[str, ...]:
        """The list of texts; empty where blank."""
        return tuple(str(one) for one in self._get(key, tuple) or ())

    def needed(self, value: T | None, key: str) -> T:
        """`value`, which the schema says is never blank; TypeError where it is (our mistake)."""
        if value is None:
            raise TypeError(f"{key} at {self.row.where(key)} is blank")
        return value
