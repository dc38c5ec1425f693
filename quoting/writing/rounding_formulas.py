"""Money's rounding rules as office-software formulas that come to the same cents."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from quoting.domain.money import Rounding, rounded
from quoting.writing.number_formats import number_words

_HAIR = "0.0000001"
"""Office software computes in binary: a tie that it sees this far off, in units, is a tie."""


def rounded_formula(amount: str, unit: Decimal, rule: Rounding) -> str:
    """Round `amount`, a formula whose value is not negative, to a multiple of `unit` by `rule`.

    >>> rounded_formula("E5*0.2", Decimal("0.01"), Rounding.HALF_UP)
    'ROUND(E5*0.2,2)'
    """
    digits = _digits(unit)
    if rule is Rounding.HALF_UP and unit == Decimal(1).scaleb(-digits):
        return f"ROUND({amount},{digits})"
    steps = f"({amount})/{number_words(unit)}"
    counted = {
        Rounding.HALF_UP: f"INT({steps}+0.5+{_HAIR})",
        Rounding.HALF_DOWN: f"-INT(0.5+{_HAIR}-{steps})",
        Rounding.DOWN: f"INT({steps}+{_HAIR})",
    }[rule]
    return f"ROUND({counted}*{number_words(unit)},{digits})"


def _digits(unit: Decimal) -> int:
    exponent = unit.normalize().as_tuple().exponent
    assert isinstance(exponent, int)  # a unit is a finite amount
    return max(0, -exponent)


def formula_that_gives(
    formula: str, exact: Decimal | Fraction, amount: Decimal, unit: Decimal, preferred: Rounding = Rounding.HALF_UP
) -> str:
    """Give `formula` rounded by a rule by which `exact` comes to `amount`, the preferred one first; "" for none.

    A formula is written only where it comes to the amount that was worked out: the
    paper must not say two things.
    """
    if exact < 0:
        return ""
    order = (preferred, *(rule for rule in Rounding if rule is not preferred))
    for rule in order:
        if rounded(exact, unit, rule) == amount:
            return rounded_formula(formula, unit, rule)
    return ""
