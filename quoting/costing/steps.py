"""Sections of workings while they are put together: givens first, then steps as live formulas."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from decimal import Decimal
from fractions import Fraction

from quoting.domain.money import Rounding, exact, rounded
from quoting.domain.plans import Section, Working

Number = Decimal | Fraction | int | float
HAIR = "1E-9"


class Steps:
    """Gathers one section, used inside one function and thrown away; `section` gives the frozen one.

    A key given twice is a mistake of ours: ValueError.
    """

    def __init__(self, key: str, title: str) -> None:
        self.key, self.title = key, title
        self._givens: dict[str, Working] = {}
        self._steps: dict[str, Working] = {}

    def given(self, key: str, label: str, value: Number | str, unit: str = "", words: str = "") -> str:
        """Add an input; gives the reference to it."""
        self._keep(self._givens, Working(key=key, label=label, value=_plain(value), unit=unit, words=words))
        return ref(key)

    def step(self, key: str, label: str, value: Number, formula: str, unit: str = "", words: str = "") -> str:
        """Add a step that a formula works out from earlier ones; gives the reference to it."""
        working = Working(key=key, label=label, value=_plain(value), unit=unit, formula=formula, words=words)
        self._keep(self._steps, working)
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


def rounding_formula(amount: str, unit: Decimal, rule: Rounding) -> str:
    """Write `quoting.domain.money.rounded` as a formula; a hair decides ties that float noise has moved."""
    exponent = unit.as_tuple().exponent
    is_decimal_place = unit == Decimal(1).scaleb(int(exponent))
    if rule is Rounding.HALF_UP:
        return f"ROUND({amount},{-int(exponent)})" if is_decimal_place else f"ROUND(({amount})/{unit},0)*{unit}"
    steps = f"ABS({amount})/{unit}"
    whole = f"INT({steps}+{HAIR})" if rule is Rounding.DOWN else f"-INT(0.5+{HAIR}-{steps})"
    return f"ROUND(SIGN({amount})*({whole})*{unit},{max(0, -int(exponent))})"


def add_split(
    steps: Steps, key: str, whole: tuple[str, Decimal], weights: Sequence[tuple[str, str, Fraction]], unit: Decimal
) -> tuple[str, ...]:
    """Add `quoting.domain.money.shared_out` as steps; gives the reference to each part.

    `whole` is the amount to split (reference, value); each weight is (name of the
    part, reference or expression, value), none negative. Parts are keyed "{key}, {name}".
    """
    if len(weights) == 1:
        return (whole[0],)
    amount, value = whole
    total = sum((w for _, _, w in weights), Fraction(0))
    all_weights = plus(expression for _, expression, _ in weights)
    shares: list[Fraction] = []
    for name, expression, weight in weights:
        share = abs(Fraction(value)) / Fraction(unit) * (weight / total if total else Fraction(1, len(weights)))
        shares.append(share)
        steps.step(
            f"{key}, {name}, share",
            f"{key}: exact share of {name}, in smallest units",
            share,
            f"IF(({all_weights})=0,1/{len(weights)},({expression})/IF(({all_weights})=0,1,({all_weights})))*ABS({amount})/{unit}",
        )
    floors = [int(share) for share in shares]
    names = [ref(f"{key}, {name}, share") for name, _, _ in weights]
    whole_of = [f"INT({name}+{HAIR})" for name in names]
    left = int(abs(value) / unit) - sum(floors)
    left_ref = steps.step(
        f"{key}, left",
        f"{key}: smallest units left after whole shares",
        left,
        f"ROUND(ABS({amount})/{unit},0)-({plus(whole_of)})",
    )
    order = sorted(range(len(shares)), key=lambda i: (floors[i] - shares[i], i))
    gaining = set(order[:left])
    rest = [f"MAX(0,{name}-{floor})" for name, floor in zip(names, whole_of, strict=True)]
    parts = []
    for place, (name, _, _) in enumerate(weights):
        ahead = plus(
            f"({other}>={rest[place]}-{HAIR})" if number < place else f"({other}>{rest[place]}+{HAIR})"
            for number, other in enumerate(rest)
            if number != place
        )
        part = (floors[place] + (place in gaining)) * unit * (-1 if value < 0 else 1)
        parts.append(
            steps.step(
                f"{key}, {name}",
                f"{key}: {name}",
                part + 0,
                f"SIGN({amount})*ROUND(({whole_of[place]}+IF({ahead}<{left_ref},1,0))*{unit},{max(0, -int(unit.as_tuple().exponent))})",
                words="largest remainder; of equal ones the earlier",
            )
        )
    return tuple(parts)


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
