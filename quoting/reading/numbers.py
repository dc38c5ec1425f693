"""Numbers typed as text, in any usual notation; one that can be read in two ways is refused."""

from __future__ import annotations

import re
from decimal import Decimal

from quoting.reading.texts import plain_number
from quoting.reading.troubles import Trouble, two_meanings

LONGEST = 40
"""Signs of the longest text that is looked at as a number."""
LIMIT = 2**53
"""Office software keeps whole numbers exactly below this only (IEEE 754 double precision)."""

_WHOLE = r"[0-9]+"
_CERTAIN = (
    (re.compile(r"[0-9]{1,3}(?:[ '][0-9]{3})+(?:[.,][0-9]+)?"), " '", ".,"),
    (re.compile(r"[0-9]{1,3}(?:,[0-9]{3})+\.[0-9]+"), ",", "."),
    (re.compile(r"[0-9]{1,3}(?:\.[0-9]{3})+,[0-9]+"), ".", ","),
    (re.compile(r"[0-9]{1,3}(?:,[0-9]{3}){2,}"), ",", ""),
    (re.compile(r"[0-9]{1,3}(?:\.[0-9]{3}){2,}"), ".", ""),
    (re.compile(r"[0-9]{1,2}(?:,[0-9]{2})+,[0-9]{3}(?:\.[0-9]+)?"), ",", "."),  # lakh and crore
)
_ONE_MARK = re.compile(r"([0-9]*)[.,]([0-9]+)")
_MAY_GROUP = re.compile(r"[1-9][0-9]{0,2}[.,][0-9]{3}")


def number_meanings(text: str) -> tuple[Decimal, ...]:
    """Every number a text can be: none, one, or two (the one with a decimal mark first).

    "1,200" and "1.200" have two meanings; "1,200.50", "1 200,5", "1'200", "0.125" and
    "12,5" have one. A sign may stand before it.

    >>> number_meanings("1.200,50")
    (Decimal('1200.50'),)
    """
    body = text.strip().replace("−", "-").replace("’", "'")
    if len(body) > LONGEST:
        return ()
    sign = -1 if body.startswith("-") else 1
    body = body[1:].lstrip() if body[:1] in ("-", "+") else body
    return tuple(sign * number for number in _unsigned(body))


def _unsigned(body: str) -> tuple[Decimal, ...]:
    if re.fullmatch(_WHOLE, body):
        return (Decimal(body),)
    if _MAY_GROUP.fullmatch(body):
        return Decimal(body.replace(",", ".")), Decimal(re.sub("[.,]", "", body))
    if found := _ONE_MARK.fullmatch(body):
        return (Decimal(f"{found[1] or 0}.{found[2]}"),)
    for pattern, grouping, mark in _CERTAIN:
        if pattern.fullmatch(body):
            bare = "".join(sign for sign in body if sign not in grouping)
            return (Decimal(bare.replace(",", ".") if mark else bare),)
    return ()


def read_number(text: str, code: str = "P207") -> Decimal | Trouble:
    """The number of a text; trouble of `code` where it is none, P206 where it has two meanings, P218 beyond LIMIT."""
    found = number_meanings(text)
    if not found:
        return Trouble(code=code)
    if len(found) > 1:
        return two_meanings(plain_number(found[0]), plain_number(found[1]), unmistakable(found))
    return within_limit(found[0])


def unmistakable(found: tuple[Decimal, ...]) -> str:
    """How to type either of two meanings so that it has one: "1.2 or 1200"."""
    return " or ".join(plain_number(number) if number % 1 else str(int(number)) for number in found)


def within_limit(number: Decimal) -> Decimal | Trouble:
    """The number, or trouble where office software could not have kept it."""
    return number if number.is_finite() and abs(number) < LIMIT else Trouble(code="P218")


def read_whole(text: str) -> int | Trouble:
    """The whole number of a text, as `read_number` reads it; trouble P208 where it has a fraction."""
    return whole_of(read_number(text, "P208"))


def whole_of(number: Decimal | Trouble) -> int | Trouble:
    """A number that is whole as an int; trouble P208 where it isn't, earlier trouble as it is."""
    if isinstance(number, Trouble):
        return number
    return int(number) if number == number.to_integral_value() else Trouble(code="P208")


def read_percent(text: str) -> Decimal | Trouble:
    """The fraction that a percent stands for: "12 %", "12%", "12" are 0.12; "0.5" alone is trouble P209.

    A reading of 2,000 % or more is taken for none: "8.875 %" is a tax, not 8875 %.
    """
    body, sign, behind = text.partition("%")
    if behind.strip():
        return Trouble(code="P210")
    found = number_meanings(body)
    if len(found) > 1 and abs(found[1]) >= 2000:
        found = found[:1]
    if not found:
        return Trouble(code="P210")
    if len(found) > 1:
        first, second = (f"{plain_number(number)} %" for number in found)
        return two_meanings(first, second, f"{plain_number(found[0].normalize())} % or {plain_number(found[1])} %")
    return percent_of(found[0], is_certain=bool(sign))


def percent_of(number: Decimal, *, is_certain: bool) -> Decimal | Trouble:
    """A number of percents as a fraction; one between 0 and 1 without a percent sign has two meanings."""
    if not is_certain and 0 < abs(number) < 1:
        return Trouble(
            code="P209", facts={"first": f"{plain_number(number)} %", "second": f"{plain_number(number.scaleb(2))} %"}
        )
    checked = within_limit(number)
    return checked if isinstance(checked, Trouble) else checked.scaleb(-2)
