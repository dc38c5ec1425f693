"""Quotes in every way that money can be worked out, for the tests that recalculate them."""

from __future__ import annotations

from collections.abc import Mapping

from quotes_made import COMPOUND, SALES, SMALL, STACKED, TWO_VATS, VAT, Line, quote

from quoting.domain.money import Rounding
from quoting.domain.prices import TaxRounding
from quoting.domain.quotes import Quote

ORDER = [
    ("Returning client", True, "0.075", None),
    ("Weekday", True, None, "15.00"),
    ("Rush, under 10 days", False, "0.08", None),
]
TIES: tuple[Line, ...] = (
    ("A", "Column", (), 1, "1.15", "goods"),
    ("B", "Column", (), 3, "0.35", "goods"),
    ("C", "Arch", (), 1, "1000000.25", "goods"),
)
NEGATIVE: tuple[Line, ...] = (*SMALL, ("", "Line discount", (), 1, "-20.15", "goods"))
YEN: tuple[Line, ...] = (("A", "Arch", (), 2, "12345", "goods"), ("", "Delivery", (), 1, "3000", "labour"))


def quotes() -> Mapping[str, Quote]:
    """Name → quote: taxes added and included, stacked and compound, each rounding, adjustments, currencies."""
    made = {
        "plain": quote(),
        "no tax": quote(taxes=()),
        "exempt": quote(taxes=(), exempt_reason="school, certificate 77-1"),
        "stacked": quote(taxes=STACKED, adjustments=ORDER, hold="150.00"),
        "compound": quote(taxes=COMPOUND, adjustments=ORDER[:1]),
        "vat included": quote(taxes=VAT, include=True, currency="EUR"),
        "two vats included": quote(taxes=TWO_VATS, include=True, currency="EUR", adjustments=ORDER, cash="0.05"),
        "per line": quote(taxes=SALES, lines=TIES, tax_rounding=TaxRounding.PER_LINE),
        "per line, adjusted": quote(taxes=STACKED, adjustments=ORDER, tax_rounding=TaxRounding.PER_LINE),
        "per line, included": quote(taxes=VAT, include=True, lines=TIES, tax_rounding=TaxRounding.PER_LINE),
        "negative line": quote(lines=NEGATIVE, taxes=STACKED),
        "yen": quote(lines=YEN, taxes=VAT, currency="JPY", cash="10"),
        "dinar": quote(taxes=SALES, currency="KWD"),
        "no deposit": quote(deposit="0"),
        "all at once": quote(deposit="1"),
        "free": quote(lines=(("A", "A gift", (), 1, "0.00", "goods"),)),
        "no lines": quote(lines=()),
    }
    for rule in Rounding:
        for include in (False, True):
            for taxes, name in ((SALES, "one tax"), (STACKED, "stacked"))[: 1 if rule is Rounding.HALF_UP else 2]:
                made[f"{rule.value}, {name}, {include}"] = quote(
                    lines=TIES, taxes=taxes, include=include, rounding=rule, cash="0.05"
                )
    return made
