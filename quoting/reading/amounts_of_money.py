"""Amounts of money typed as text, with or without the sign of a currency."""

from __future__ import annotations

import re
from decimal import Decimal

from quoting.reading.numbers import read_number
from quoting.reading.troubles import Trouble

# Signs and the currency each is most often used for (from memory); checking knows which of
# them several currencies share.
_SIGNS = {
    "US$": "USD", "C$": "CAD", "CA$": "CAD", "A$": "AUD", "AU$": "AUD", "NZ$": "NZD", "HK$": "HKD", "S$": "SGD",
    "R$": "BRL", "MX$": "MXN", "$": "USD", "£": "GBP", "€": "EUR", "¥": "JPY", "₹": "INR", "₩": "KRW", "₺": "TRY",
    "₪": "ILS", "₫": "VND", "₱": "PHP", "₦": "NGN", "฿": "THB", "₴": "UAH", "₽": "RUB", "₡": "CRC", "₲": "PYG",
    "zł": "PLN", "Kč": "CZK", "kr": "SEK", "kr.": "DKK", "Fr.": "CHF", "Ft": "HUF", "lei": "RON", "R": "ZAR",
}
# ISO 4217 alphabetic codes in use (from memory of the published list).
_CODE_LIST = (
    "AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BHD BIF BMD BND BOB BRL BSD BTN BWP BYN BZD CAD CDF CHF"
    " CLP CNY COP CRC CUP CVE CZK DJF DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GNF GTQ GYD HKD HNL HTG"
    " HUF IDR ILS INR IQD IRR ISK JMD JOD JPY KES KGS KHR KMF KPW KRW KWD KYD KZT LAK LBP LKR LRD LSL LYD MAD MDL MGA"
    " MKD MMK MNT MOP MRU MUR MVR MWK MXN MYR MZN NAD NGN NIO NOK NPR NZD OMR PAB PEN PGK PHP PKR PLN PYG QAR RON RSD"
    " RUB RWF SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT TND TOP TRY TTD TWD TZS UAH UGX"
    " USD UYU UZS VES VND VUV WST XAF XCD XOF XPF YER ZAR ZMW ZWG"
)
_CODES = frozenset(_CODE_LIST.split())
_PARTS = re.compile(
    r"([-−+]?)\s*([^0-9.,\s'’+−-]*(?:\.(?=\s))?)"
    r"\s*([-−+]?[0-9.,][0-9.,'’\s]*?)\s*([^0-9.,\s'’+−-]*\.?)"
)


def currency_of(sign: str) -> str:
    """The ISO code of a currency's sign or code, any case for a code of the common ones; "" where it is none."""
    bare = sign.strip()
    if bare in _CODES or bare.upper() in ("USD", "EUR", "GBP", "CAD", "AUD", "NZD", "CHF"):
        return bare.upper()
    return _SIGNS.get(bare, "")


def read_money(text: str) -> tuple[Decimal, str] | Trouble:
    """The amount and the ISO code of the currency beside it ("" where none is named).

    >>> read_money("£40")
    (Decimal('40'), 'GBP')

    Trouble P211 where it is no amount, P206 where it has two meanings.
    """
    found = _PARTS.fullmatch(text)
    if not found:
        return Trouble(code="P211")
    sign, before, digits, behind = (part.strip() for part in found.groups())
    named = [currency_of(one) for one in (before, behind) if one]
    if "" in named or len(set(named)) > 1 or (sign and digits[0] in "-−+"):
        return Trouble(code="P211")
    amount = read_number(sign + digits, "P211")
    return amount if isinstance(amount, Trouble) else (amount, named[0] if named else "")
