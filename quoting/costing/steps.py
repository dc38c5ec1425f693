"""Sections of workings while they are put together: givens first, then steps as live formulas."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from fractions import Fraction

from quoting.domain.money import Rounding, exact, rounded
from quoting.domain.plans import Section, Working

Number = Decimal | Fraction | int | float

MONEY = "money"
"""Unit of printed amounts: stands for the currency's code."""
EXACT_MONEY = "money, not rounded"

HAIR = "1E-9"
"""Float noise that a formula forgives, as in `quoting.domain.counts`."""


class Steps:
    """Gathers one section, used inside one function and thrown away; `section` gives the frozen one.

    A key given twice is a mistake of ours: ValueError.
    """

    def __init__(self, key: str, title: str, currency: str) -> None:
        self.key, self.title = key, title
        self._units = {MONEY: currency, EXACT_MONEY: f"{currency}, not rounded"}
        self._givens: dict[str, Working] = {}
        self._steps: dict[str, Working] = {}

    def given(self, key: str, label: str, value: Number | str, *, unit: str = "", words: str = "") -> str:
        """Add an input; gives the reference to it."""
        shown = self._units.get(unit, unit)
        self._keep(self._givens, Working(key=key, label=label, value=_plain(value), unit=shown, words=words))
        return ref(key)

    def step(self, key: str, label: str, value: Number, formula: str, *, unit: str = "", words: str = "") -> str:
        """Add a step that a formula works out from earlier ones; gives the reference to it."""
        shown = self._units.get(unit, unit)
        step = Working(key=key, label=label, value=_plain(value), unit=shown, formula=formula, words=words)
        self._keep(self._steps, step)
        return ref(key)

    def has(self, key: str) -> bool:
        """Tell whether a step of this key has been added."""
        return key in self._givens or key in self._steps

    def section(self) -> Section:
        """Give the section: its givens, then its steps, each in the order added."""
        return Section(key=self.key, title=self.title, steps=(*self._givens.values(), *self._steps.values()))

    def _keep(self, where: dict[str, Working], working: Working) -> None:
        if self.has(working.key):
            raise ValueError(f"two steps of the section {self.key!r} have the key {working.key!r}")
        where[working.key] = working


def ref(key: str, section: str = "") -> str:
    """Refer to a step, of the same section or of an earlier one."""
    return "{" + (f"{section}!{key}" if section else key) + "}"


def plus(terms: Iterable[str]) -> str:
    """Join terms into a sum; "0" for none."""
    return "+".join(terms) or "0"


def decimals_of(unit: Decimal) -> int:
    """Count the digits after the point that multiples of a unit have."""
    return max(0, -int(unit.as_tuple().exponent))


def rounding_formula(amount: str, unit: Decimal, rule: Rounding) -> str:
    """Write `quoting.domain.money.rounded` as a formula; a hair decides ties that float noise has moved."""
    digits = decimals_of(unit)
    if rule is Rounding.HALF_UP:
        is_decimal_place = unit == Decimal(1).scaleb(-digits)
        # 2.675 ÷ 0.05 is a hair below 53.5 in floats, where 53.5 is meant.
        nearest = f"ROUND(ROUND(ROUND(({amount})/{unit},6),0)*{unit},{digits})"
        return f"ROUND({amount},{digits})" if is_decimal_place else nearest
    steps = f"ABS({amount})/{unit}"
    whole = f"INT({steps}+{HAIR})" if rule is Rounding.DOWN else f"-INT(0.5+{HAIR}-{steps})"
    return f"ROUND(SIGN({amount})*({whole})*{unit},{digits})"


def piece_key(label: str, number: int) -> str:
    """Give the section key of a piece's workings; a label that would break a reference is put by its number."""
    return f"piece {label}" if not set("{}!").intersection(label) else f"piece number {number}"


def round_half_up(amount: Decimal | Fraction, unit: Decimal) -> Decimal:
    """Round a price or cost as printed; prices go half up whatever the rule for tax is."""
    return rounded(amount, unit, Rounding.HALF_UP)


def _plain(value: Number | str) -> Decimal | float | int | str:
    if isinstance(value, Fraction):
        return value.numerator if value.denominator == 1 else exact(value)
    return value
