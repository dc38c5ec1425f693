"""Splits by largest remainder as live formulas."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction

from quoting.costing.steps import HAIR, MONEY, Steps, decimals_of, plus
from quoting.domain.money import shared_out

Weight = tuple[str, str, Fraction]
"""Name of a part, expression of its weight, and the weight's value."""


def add_split(
    steps: Steps, key: str, whole: tuple[str, Decimal], weights: Sequence[Weight], unit: Decimal,
    *, title: str = "",
) -> tuple[str, ...]:
    """Add `quoting.domain.money.shared_out` as steps; gives the reference to each part.

    `whole` is the amount to split (reference, value); no weight is negative. The part
    named N has the key "{key}, N". A single part is the whole, and adds no step.
    `title` begins the labels ("" for the key).
    """
    title = title or key
    if len(weights) == 1:
        return (whole[0],)
    amount, value = whole
    exact_shares = _exact_shares(value, weights, unit)
    shares = _add_shares(steps, (key, title), f"ABS({amount})/{unit}", weights, exact_shares)
    floors = [f"INT({share}+{HAIR})" for share in shares]
    values = shared_out(value, [weight for _, _, weight in weights], unit)
    left = steps.step(
        f"{key}, left", f"{title}: smallest units left over", int(abs(value) / unit) - sum(map(int, exact_shares)),
        f"ROUND(ABS({amount})/{unit},0)-({plus(floors)})",
    )  # fmt: skip
    rests = [f"MAX(0,{share}-{floor})" for share, floor in zip(shares, floors, strict=True)]
    parts = []
    for place, ((name, _, _), part) in enumerate(zip(weights, values, strict=True)):
        gains = f"IF({_ahead(rests, place)}<{left},1,0)"
        formula = f"SIGN({amount})*ROUND(({floors[place]}+{gains})*{unit},{decimals_of(unit)})"
        words = "largest remainder; of equal ones the earlier"
        parts.append(steps.step(f"{key}, {name}", f"{title}: {name}", part + 0, formula, unit=MONEY, words=words))
    return tuple(parts)


def _add_shares(
    steps: Steps, names: tuple[str, str], whole_units: str, weights: Sequence[Weight], values: Sequence[Fraction]
) -> list[str]:
    """Add the exact share of every part, in smallest units; `names` are the key and the title of the split."""
    key, title = names
    total = plus(expression for _, expression, _ in weights)
    return [
        steps.step(
            f"{key}, {name}, share",
            f"{title}: exact share of {name}, in smallest units",
            value,
            f"IF(({total})=0,1/{len(weights)},({expression})/IF(({total})=0,1,({total})))*{whole_units}",
        )
        for (name, expression, _), value in zip(weights, values, strict=True)
    ]


def _exact_shares(value: Decimal, weights: Sequence[Weight], unit: Decimal) -> list[Fraction]:
    total = sum((weight for _, _, weight in weights), Fraction(0))
    size = abs(Fraction(value)) / Fraction(unit)
    return [size * (weight / total if total else Fraction(1, len(weights))) for _, _, weight in weights]


def _ahead(rests: Sequence[str], place: int) -> str:
    """Count, as a formula, the remainders that come before the one at a place."""
    return plus(
        f"({other}>={rests[place]}-{HAIR})" if number < place else f"({other}>{rests[place]}+{HAIR})"
        for number, other in enumerate(rests)
        if number != place
    )
