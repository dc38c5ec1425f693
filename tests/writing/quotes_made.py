"""Quotes and job sheets of an invented shop, for the tests of the papers; amounts are worked out by the core."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date, time, timedelta
from decimal import Decimal

from quoting.checking.wording import standard_wording
from quoting.costing.tax_amounts import Tax
from quoting.costing.totals import OrderAmount, TaxableAmount, TotalsRules, work_out_totals
from quoting.domain.money import Currency, Rounding, rounded
from quoting.domain.prices import TaxRounding
from quoting.domain.quotes import LineKind, OrderAdjustment, Quote, QuoteLine, ShopCard, Terms

SHOP = ShopCard(
    name="Thistledown Balloon Décor",
    contact="Wren Okafor-Lund",
    address="4 Millrace Yard\nFernhill",
    email="hello@thistledown.example",
    phone="555 0117",
    website="thistledown.example",
    tax_number="Tax no. TD 40 1187",
)
SALES = (Tax(code="ST", name="State sales tax", rate=Decimal("0.0625"), groups=("goods",)),)
STACKED = (
    Tax(code="ST", name="State sales tax", rate=Decimal("0.0625"), groups=("goods", "labour")),
    Tax(code="CO", name="County sales tax", rate=Decimal("0.01375"), groups=("goods", "labour")),
    Tax(code="CI", name="City amusement tax", rate=Decimal("0.02"), groups=("goods",)),
)
COMPOUND = (
    Tax(code="A", name="Federal tax", rate=Decimal("0.05"), groups=("goods", "labour")),
    Tax(code="B", name="Regional tax", rate=Decimal("0.09975"), groups=("goods", "labour"), on_top_of=("A",)),
)
VAT = (Tax(code="V", name="VAT", rate=Decimal("0.2"), groups=("goods", "labour")),)
TWO_VATS = (
    Tax(code="V", name="VAT", rate=Decimal("0.2"), groups=("goods",)),
    Tax(code="R", name="Reduced VAT", rate=Decimal("0.055"), groups=("labour",)),
)

Line = tuple[str, str, Sequence[str], int, str, str]
"""Label, title, details, quantity, price, tax group."""

SMALL: tuple[Line, ...] = (
    (
        "A",
        "Packed arch",
        ("7 ft 2 in tall, 9 ft wide, 21 rings of 4", "Sage, ivory and blush in a spiral"),
        1,
        "385.00",
        "goods",
    ),
    ("B", "Graduated column", ("6 ft 1 in tall, 10 rings of 4", "With a foil star on top"), 2, "118.75", "goods"),
    ("", "Delivery and collection", (), 1, "45.00", "labour"),
)


def quote(
    *,
    lines: Sequence[Line] = SMALL,
    taxes: Sequence[Tax] = SALES,
    include: bool = False,
    tax_rounding: TaxRounding = TaxRounding.PER_TAX,
    rounding: Rounding = Rounding.HALF_UP,
    cash: str = "0",
    currency: str = "USD",
    adjustments: Sequence[tuple[str, bool, str | None, str | None]] = (),
    deposit: str = "0.5",
    hold: str = "0",
    **more: object,
) -> Quote:
    """A whole quote; `adjustments` are (name, is a discount, percent, amount)."""
    unit = Currency(code=currency).unit
    made = tuple(
        QuoteLine(
            label=label,
            kind=LineKind.PIECE if label else LineKind.DISCOUNT if Decimal(price) < 0 else LineKind.DELIVERY,
            title=title,
            details=tuple(details),
            quantity=quantity,
            unit_price=Decimal(price),
            amount=Decimal(price) * quantity,
        )
        for label, title, details, quantity, price, _ in lines
    )
    subtotal = sum((line.amount for line in made), Decimal(0))
    orders = tuple(
        OrderAdjustment(
            name=name,
            is_discount=is_discount,
            percent=None if percent is None else Decimal(percent),
            amount=Decimal(amount) if percent is None else rounded(subtotal * Decimal(percent), unit, Rounding.HALF_UP),
        )
        for name, is_discount, percent, amount in adjustments
    )
    totals = work_out_totals(
        [TaxableAmount(amount=line.amount, group=given[5]) for line, given in zip(made, lines, strict=True)],
        [OrderAmount(amount=o.amount, is_discount=o.is_discount) for o in orders],
        taxes,
        TotalsRules(
            unit=unit, prices_include_tax=include, tax_rounding=tax_rounding, rounding=rounding, cash_unit=Decimal(cash)
        ),
    )
    paid = rounded(totals.payable * Decimal(deposit), unit, Rounding.HALF_UP)
    day = date(2031, 5, 14)
    values: Mapping[str, object] = {
        "number": "Q-0412",
        "revision": 2,
        "shop": SHOP,
        "client": "Fernhill Library",
        "contact": "Ambrose Tindall",
        "email": "ambrose@fernhill.example",
        "phone": "555 0163",
        "event": "Summer reading party",
        "venue": "Reading garden",
        "address": "22 Alder Street\nFernhill",
        "event_date": date(2031, 6, 14),
        "event_time": time(15, 30),
        "quote_date": day,
        "currency": Currency(code=currency),
        "length_unit": "in",
        "paper": "A4",
        "tax_rounding": tax_rounding,
        "rounding": rounding,
        "cash_unit": Decimal(cash),
        "lines": made,
        "adjustments": orders,
        "totals": totals,
        "terms": Terms(
            valid_until=day + timedelta(days=30),
            deposit_share=Decimal(deposit),
            deposit=paid,
            deposit_due=day + timedelta(days=7),
            balance=totals.payable - paid,
            balance_due=date(2031, 6, 7),
            damage_hold=Decimal(hold),
        ),
        "exempt_reason": "",
        "notes": "",
        "wording": standard_wording(),
        "cautions": tuple(standard_wording()[k] for k in ("caution_latex", "caution_choking", "caution_outdoors")),
    }
    return replace(Quote(**values), **more)  # type: ignore[arg-type]
