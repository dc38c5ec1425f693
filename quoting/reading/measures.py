"""Lengths, distances and masses typed as text: exact, in centimetres, kilometres and kilograms."""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction

from quoting.domain.cells import Kind
from quoting.reading.numbers import number_meanings
from quoting.reading.texts import plain_number
from quoting.reading.troubles import Trouble, two_meanings

_NAMES: dict[Kind, dict[str, tuple[str, ...]]] = {
    Kind.LENGTH: {
        "ft": ("ft", "feet", "foot", "'"),
        "in": ("in", "ins", "inch", "inches", '"'),
        "m": ("m", "metre", "metres", "meter", "meters"),
        "cm": ("cm", "centimetre", "centimetres", "centimeter", "centimeters"),
        "mm": ("mm", "millimetre", "millimetres", "millimeter", "millimeters"),
    },
    Kind.DISTANCE: {
        "mi": ("mi", "mile", "miles"),
        "km": ("km", "kms", "kilometre", "kilometres", "kilometer", "kilometers"),
        "m": ("metre", "metres", "meter", "meters"),
    },
    Kind.MASS: {
        "lb": ("lb", "lbs", "pound", "pounds"),
        "oz": ("oz", "ounce", "ounces"),
        "kg": ("kg", "kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes"),
        "g": ("g", "gram", "grams", "gramme", "grammes"),
    },
}
_WORTH: dict[Kind, dict[str, Fraction]] = {
    # The international yard and pound of 1959: exact by definition.
    Kind.LENGTH: {
        "ft": Fraction("30.48"), "in": Fraction("2.54"), "m": Fraction(100), "cm": Fraction(1), "mm": Fraction(1, 10),
    },
    Kind.DISTANCE: {"mi": Fraction("1.609344"), "km": Fraction(1), "m": Fraction(1, 1000)},
    Kind.MASS: {
        "lb": Fraction("0.45359237"), "oz": Fraction("0.45359237") / 16, "kg": Fraction(1), "g": Fraction(1, 1000),
    },
}
_BELOW = {"ft": ("in", 12), "m": ("cm", 100), "lb": ("oz", 16)}
"""The unit that may follow another in one measure, and how many of it make one."""
_CODES = {Kind.LENGTH: "P204", Kind.DISTANCE: "P224", Kind.MASS: "P225"}

_HALVES = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅓": "1/3", "⅔": "2/3"}
_MARKS = str.maketrans({**dict.fromkeys("’′‘ʹ`´", "'"), **dict.fromkeys("”″“„ʺ", '"'), "⁄": "/"})
_FRACTION = re.compile(r"(?:([0-9]{1,4})[ -])?([0-9]{1,3})/([1-9][0-9]{0,2})")
_PART = re.compile(
    r"\s*(?P<number>(?:[0-9]{1,4}[ -])?[0-9]{1,3}/[1-9][0-9]{0,2}"
    r"|[0-9]+(?: [0-9]{3}(?![0-9]))*(?:[.,][0-9]+)*|[.,][0-9]+)"
    r"\s*(?P<unit>[a-z]+\.?|'|\")?\s*,?"
)
LONGEST = 60
FARTHEST_CM = Fraction(10_000)
"""No piece is longer than 100 m: of two readings the one beyond it is none."""


def plain_marks(text: str) -> str:
    """A text with the one plain sign for each kind of foot, inch and fraction mark."""
    return text.translate(_MARKS).replace("''", '"')


def unit_named(kind: Kind, text: str) -> str:
    """Our name of a unit of length, distance or mass ("Feet" → "ft"); "" where the kind has no such unit."""
    bare = text.strip().translate(_MARKS).casefold().rstrip(".")
    if kind is Kind.DISTANCE and bare == "m":
        return ""
    return next((unit for unit, names in _NAMES.get(kind, {}).items() if bare in names), "")


def is_unit(text: str) -> bool:
    """True where a text names a unit of any measure."""
    return any(unit_named(kind, text) for kind in _NAMES)


def in_base_units(number: Decimal, unit: str, kind: Kind) -> Decimal:
    """A number of a unit in centimetres, kilometres or kilograms: exact (of an ounce 28 digits)."""
    return _decimal(Fraction(number) * _WORTH[kind][unit])


def read_measure(text: str, kind: Kind, unit: str) -> Decimal | Trouble:
    """A length in cm, distance in km or mass in kg, exact.

    Takes 8 ft, 8', 6'6", 6' 6 1/2", 6 ft 6 in, 94½ in, 2.4 m, 2,4 m, 1 m 20 cm, 2400 mm,
    5 mi, 800 metres, 3 lb 5 oz. A bare number has the heading's `unit`; where that is ""
    it is trouble P205, unless it is 0. Ranges and guesses ("8-9 ft", "about 8 ft") are not
    understood (P204, P224, P225); a number of two meanings is P206. "5 m" of distance can be
    miles or metres, and is P206 too.
    """
    parts = _split(text)
    if not parts:
        return Trouble(code=_CODES[kind])
    if len(parts) == 1:
        return _single(*parts[0], kind, unit)
    return _compound(parts, kind)


def _split(text: str) -> list[tuple[str, str]]:
    """The numbers of a measure, each with the unit behind it; [] where something else stands between."""
    body = plain_marks(text.strip()).casefold()
    for sign, plain in _HALVES.items():
        body = re.sub(rf"(?<=[0-9])\s*{sign}", f" {plain}", body).replace(sign, plain)
    if len(body) > LONGEST:
        return []
    parts, at = [], 0
    while at < len(body):
        found = _PART.match(body, at)
        if not found or found.end() == at:
            return []
        parts.append((found["number"], found["unit"] or ""))
        at = found.end()
    return [] if body.endswith(",") else parts


def _single(number: str, typed: str, kind: Kind, unit: str) -> Decimal | Trouble:
    if kind is Kind.DISTANCE and typed == "m":
        return two_meanings(f"{number} miles", f"{number} metres", f"{number} mi or {number} metres")
    named = unit_named(kind, typed) if typed else unit
    if typed and not named:
        return Trouble(code=_CODES[kind])
    found = _numbers(number)
    if not typed and not unit:
        return Decimal(0) if found and not any(found) else Trouble(code="P205")
    if len(found) > 1 and kind is Kind.LENGTH:
        found = _likely(number, named, found)
    if len(found) > 1:
        shown = [f"{plain_number(_decimal(one))} {named}" for one in found]
        return two_meanings(shown[0], shown[1], " or ".join(shown))
    return _decimal(found[0] * _WORTH[kind][named]) if found else Trouble(code=_CODES[kind])


def _likely(number: str, unit: str, found: tuple[Fraction, ...]) -> tuple[Fraction, ...]:
    """"2.286 m" is no 2286 m. A comma groups in countries of feet, so there both readings stay."""
    if unit in ("ft", "in") and "," in number:
        return found
    return tuple(one for one in found if one * _WORTH[Kind.LENGTH][unit] <= FARTHEST_CM) or found


def _numbers(text: str) -> tuple[Fraction, ...]:
    """The meanings of a number, which may be a mixed one (94 1/2)."""
    if found := _FRACTION.fullmatch(text):
        top, bottom = int(found[2]), int(found[3])
        return (int(found[1] or 0) + Fraction(top, bottom),) if top < bottom or not found[1] else ()
    return tuple(Fraction(one) for one in number_meanings(text))


def _compound(parts: list[tuple[str, str]], kind: Kind) -> Decimal | Trouble:
    """Feet and inches, metres and centimetres, pounds and ounces: whole of the first, and less than one of it."""
    failed = Trouble(code=_CODES[kind])
    (first, typed), (second, below_typed) = parts[0], parts[1]
    unit = unit_named(kind, typed)
    if len(parts) > 2 or unit not in _BELOW:
        return failed
    below, most = _BELOW[unit]
    if below_typed and unit_named(kind, below_typed) != below:
        return failed
    if not below_typed and (unit == "lb" or (unit == "m" and len(second) != 2)):
        return failed
    wholes, rests = _numbers(first), _numbers(second)
    if len(wholes) != 1 or len(rests) != 1 or wholes[0].denominator != 1 or rests[0] >= most:
        return failed
    worth = _WORTH[kind]
    return _decimal(wholes[0] * worth[unit] + rests[0] * worth[below])


def _decimal(number: Fraction) -> Decimal:
    """A fraction as a Decimal: exact where it ends, else of 28 digits; no needless noughts."""
    exact = Decimal(number.numerator) / Decimal(number.denominator)
    plain = exact.normalize()
    return plain.quantize(Decimal(1)) if plain == plain.to_integral_value() and plain.adjusted() < 20 else plain
