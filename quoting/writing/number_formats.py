"""How numbers look: money by currency, dates, percents, plain quantities."""

from __future__ import annotations

from decimal import Decimal

from quoting.domain.money import Currency

DATE = "d mmmm yyyy"
"""The month in words, so that no one takes the day for it."""
DATE_AND_TIME = "d mmmm yyyy, hh:mm"
WEEKDAY = "ddd d mmm yyyy"
CLOCK = "hh:mm"
WHOLE = "#,##0"
MINUS = "\N{MINUS SIGN}"

# The usual written signs (from memory of common usage); other currencies go by their code.
_SIGNS = {
    "USD": "$",
    "EUR": "€",
    "GBP": "£",
    "JPY": "¥",
    "INR": "₹",
    "CAD": "CA$",
    "AUD": "A$",
    "NZD": "NZ$",
    "HKD": "HK$",
    "SGD": "S$",
    "MXN": "MX$",
    "BRL": "R$",
    "KRW": "₩",
    "ILS": "₪",
    "PHP": "₱",
    "VND": "₫",
}


def currency_sign(currency: Currency) -> str:
    """Give the sign that stands before an amount: "$", "€", "CHF "."""
    return _SIGNS.get(currency.code, f"{currency.code} ")


def amount_format(
    currency: Currency, *, signed: bool = False, is_deducted: bool = False, hides_zero: bool = False, zero: str = "",
) -> str:
    """Give the number format of an amount with the currency's digits.

    `signed` puts the currency's sign before it. `is_deducted` shows an amount that
    is kept as a positive number, but is taken off, with a minus. `hides_zero` prints
    nothing for 0, `zero` a word instead of it.
    """
    digits = f".{'0' * currency.digits}" if currency.digits else ""
    sign = f'"{currency_sign(currency)}"' if signed else ""
    plus, minus = f"{sign}#,##0{digits}", f'"{MINUS}"{sign}#,##0{digits}'
    if is_deducted:
        plus, minus = minus, plus
    # 0 has a part of its own, so that it never shows a minus.
    return f"{plus};{minus};{'' if hides_zero else quoted(zero) or f'{sign}0{digits}'}"


def amount_words(amount: Decimal, currency: Currency) -> str:
    """Say an amount as `amount_format` shows it, with its sign.

    >>> amount_words(Decimal("-1234.5"), Currency(code="USD"))
    '−$1,234.50'
    """
    return f"{MINUS if amount < 0 else ''}{currency_sign(currency)}{abs(amount):,.{currency.digits}f}"


def percent_words(share: Decimal) -> str:
    """Say a fraction as a percent, with no needless noughts.

    >>> percent_words(Decimal("0.08875"))
    '8.875 %'
    """
    return f"{number_words(share * 100)} %"


def number_words(number: Decimal) -> str:
    """Say a number plainly: no exponent, no needless noughts."""
    text = f"{number:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def quoted(text: str) -> str:
    """Give text as it stands inside a number format: in quotes, its own quotes left out."""
    return f'"{text.replace(chr(34), "")}"' if text else ""
