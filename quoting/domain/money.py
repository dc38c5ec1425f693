"""Exact money: the one module that rounds it.

Amounts are `Decimal` in the currency's major unit. Rounding happens through
`rounded` with the rule named in the call, so that a printed amount is rounded once.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from fractions import Fraction

ZERO = Decimal(0)


class Rounding(StrEnum):
    """The rules tax authorities use; the values are what an owner types in the Shop sheet."""

    HALF_UP = "half up"
    HALF_DOWN = "half down"
    DOWN = "down"



# ISO 4217 minor units where they are not 2 digits (from memory of the published list).
_MINOR_DIGITS = {
    "BIF": 0, "CLP": 0, "DJF": 0, "GNF": 0, "ISK": 0, "JPY": 0, "KMF": 0, "KRW": 0, "PYG": 0, "RWF": 0,
    "UGX": 0, "VND": 0, "VUV": 0, "XAF": 0, "XOF": 0, "XPF": 0,
    "BHD": 3, "IQD": 3, "JOD": 3, "KWD": 3, "LYD": 3, "OMR": 3, "TND": 3,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Currency:
    """A currency by its ISO 4217 code, with the digits of its minor unit."""

    code: str

    @property
    def digits(self) -> int:
        """Digits after the point that a printed amount has."""
        return _MINOR_DIGITS.get(self.code, 2)

    @property
    def unit(self) -> Decimal:
        """The smallest printed amount, e.g. Decimal("0.01")."""
        return Decimal(1).scaleb(-self.digits)


def rounded(amount: Decimal | Fraction, unit: Decimal, rule: Rounding) -> Decimal:
    """`amount` to a whole multiple of `unit` by `rule`; ties judged on the exact value.

    Half up and half down speak of the size: -0.005 goes to -0.01 and to 0.00.
    The result has the digits of `unit`.

    >>> rounded(Decimal("9.975"), Decimal("0.01"), Rounding.HALF_UP)
    Decimal('9.98')
    """
    if unit <= 0:
        raise ValueError(f"a rounding unit must be above 0, not {unit}")
    steps = Fraction(amount) / Fraction(unit)
    whole, rest = divmod(abs(steps), 1)
    half = Fraction(1, 2)
    goes_up = rest > half or (rest == half and rule is Rounding.HALF_UP)
    count = int(whole) + (1 if goes_up and rule is not Rounding.DOWN else 0)
    result = Decimal(count).quantize(Decimal(1)) * unit
    return -result if steps < 0 and count else result


def exact(amount: Fraction) -> Decimal:
    """A fraction as a Decimal of 28 digits, for workings that show an unrounded amount."""
    return Decimal(amount.numerator) / Decimal(amount.denominator)


def shared_out(amount: Decimal, weights: Sequence[Decimal | Fraction | int], unit: Decimal) -> tuple[Decimal, ...]:
    """`amount` split in proportion to `weights`, every part a multiple of `unit`, adding up exactly.

    Largest-remainder method; equal remainders go to the earlier part. `amount` must
    be a multiple of `unit`; weights are not negative. All-zero weights count as equal.
    """
    if not weights:
        if amount:
            raise ValueError("an amount can't be shared out over nothing")
        return ()
    shares = [Fraction(w) for w in weights]
    total = sum(shares)
    if not total:
        shares, total = [Fraction(1)] * len(shares), Fraction(len(shares))
    steps = Fraction(amount) / Fraction(unit)
    if steps.denominator != 1:
        raise ValueError(f"{amount} is no whole multiple of {unit}")
    sign, count = (-1, -int(steps)) if steps < 0 else (1, int(steps))
    exact_parts = [count * share / total for share in shares]
    floors = [int(part) for part in exact_parts]
    order = sorted(range(len(shares)), key=lambda i: (floors[i] - exact_parts[i], i))
    for index in order[: count - sum(floors)]:
        floors[index] += 1
    # Adding 0 keeps a negative amount's empty part from printing as -0.00.
    return tuple(sign * Decimal(floor) * unit + ZERO for floor in floors)
