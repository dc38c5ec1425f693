"""Lengths as a shop shows them."""

from __future__ import annotations

from quoting.domain.counts import nearest_count

CM_PER_INCH = 2.54
"""Exact by definition of the inch."""

LITRES_PER_CUBIC_CM = 0.001


def shown_length(cm: float, unit: str) -> float:
    """Give a length in the shop's unit, "in" or "cm", not rounded but for float noise beyond ten digits.

    >>> shown_length(24.13, "in")
    9.5
    """
    return round(cm / CM_PER_INCH, 10) if unit == "in" else round(cm, 10)


def length_words(cm: float, unit: str) -> str:
    """Say a built length: whole inches with feet, or metres to the centimetre; a tie goes up.

    >>> length_words(215.9, "in")
    '7 ft 1 in'
    >>> length_words(215.9, "cm")
    '2.16 m'
    """
    if unit == "in":
        feet, inches = divmod(nearest_count(cm / CM_PER_INCH), 12)
        return " ".join(word for word in (f"{feet} ft" * bool(feet), f"{inches} in" * bool(inches or not feet)) if word)
    whole = nearest_count(cm)
    return f"{whole / 100:.2f} m" if whole >= 100 else f"{whole} cm"


def counted(count: int, one: str, many: str = "") -> str:
    """Say how many of a thing there are; `many` is its plural where it is not `one` with an s.

    >>> counted(1, "ring"), counted(2, "ring")
    ('1 ring', '2 rings')
    """
    return f"{count} {one if count == 1 else many or one + 's'}"


def fill_words(cm: float, unit: str) -> str:
    """Say a fill, to a hundredth of the shop's unit without needless noughts.

    >>> fill_words(24.13, "in")
    '9.5 in'
    """
    return f"{shown_length(cm, unit):.2f}".rstrip("0").rstrip(".") + f" {unit}"
