"""The tax-and-totals core: a plain function over amounts, for quotes and for anyone's invoices.

It knows nothing of jobs or balloons: amounts that each belong to a tax group,
allowances and charges on the whole order, taxes on groups, and the rules of rounding.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from quoting.costing.tax_amounts import Tax, TaxedAmount, taxes_before, taxes_contained
from quoting.domain.money import ZERO, Rounding, rounded, shared_out
from quoting.domain.prices import TaxRounding
from quoting.domain.quotes import TaxLine, Totals

__all__ = (
    "OrderAmount", "Tax", "TaxableAmount", "Totals", "TotalsRules", "line_net", "spread", "work_out_totals"
)  # fmt: skip

CENT = Decimal("0.01")


@dataclass(frozen=True, slots=True, kw_only=True)
class TaxableAmount:
    """One printed amount, a multiple of the rounding unit, in the tax group that it belongs to.

    `group` is any name; the taxes say which groups they are charged on. Amounts that
    share a `line` name are parts of one line, whose tax is rounded together where tax
    is rounded per line; an amount without one is a line of its own.
    """

    amount: Decimal
    group: str
    line: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderAmount:
    """An allowance (`is_discount`) or charge on the whole order; `amount` is below 0 only in a correction.

    `group` names the one tax group it belongs to; None spreads it over all groups in
    proportion to their lines, by largest remainder, equal remainders to the earlier group.
    """

    amount: Decimal
    is_discount: bool
    group: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TotalsRules:
    """How amounts are taxed and rounded.

    `tax_rounding` PER_TAX rounds each tax once over its whole taxable amount, PER_LINE
    once per line (an order amount then counts as a line). `cash_unit` rounds the
    amount due to its nearest multiple, 0 not at all; `cash_ties` says where a tie
    goes. `stated_rounding` puts an amount found in another's document in its stead.
    `group_order` fixes which group is the earlier; otherwise the first amount does.
    """

    unit: Decimal = CENT
    prices_include_tax: bool = False
    tax_rounding: TaxRounding = TaxRounding.PER_TAX
    rounding: Rounding = Rounding.HALF_UP
    cash_unit: Decimal = ZERO
    cash_ties: Rounding = Rounding.HALF_UP
    prepaid: Decimal = ZERO
    stated_rounding: Decimal | None = None
    group_order: tuple[str, ...] = ()


DEFAULT_RULES = TotalsRules()


def line_net(
    price: Decimal,
    quantity: Decimal,
    *,
    base_quantity: Decimal = Decimal(1),
    allowance: Decimal = ZERO,
    charge: Decimal = ZERO,
    unit: Decimal = CENT,
    rule: Rounding = Rounding.HALF_UP,
) -> Decimal:
    """Give one line's net: price ÷ base quantity × quantity, less its allowance, plus its charge.

    Each of the three is rounded by itself, as EN 16931 asks.

    >>> line_net(Decimal("1.005"), Decimal(3), base_quantity=Decimal(2))
    Decimal('1.51')
    """
    plain = Fraction(price) / Fraction(base_quantity) * Fraction(quantity)
    return rounded(plain, unit, rule) - rounded(allowance, unit, rule) + rounded(charge, unit, rule)


def work_out_totals(
    amounts: Sequence[TaxableAmount],
    order_amounts: Sequence[OrderAmount] = (),
    taxes: Sequence[Tax] = (),
    rules: TotalsRules = DEFAULT_RULES,
) -> Totals:
    """Work out subtotal, discount, charges, every tax, total and amount due; all of them add up.

    A tax is listed where one of its groups has an amount, be it 0. Prices before tax:
    each tax is its rate times (its groups' amounts + the taxes it goes on top of).
    Prices including tax: amounts that bear the same taxes are taken together, their
    tax is gross − gross ÷ (1 + all rates), rounded once, and split over the taxes by
    largest remainder. Taxes must be listed after those they go on top of.

    ValueError: an amount is no multiple of the unit, there is no line to spread an order
    amount over, two taxes have one code, a tax goes on top of a later one.

    >>> gst, qst = Tax(code="GST", rate=Decimal("0.05"), groups=("goods",)), \
                   Tax(code="QST", rate=Decimal("0.09975"), groups=("goods",))
    >>> work_out_totals([TaxableAmount(amount=Decimal("100.00"), group="goods")], taxes=[gst, qst]).total
    Decimal('114.98')
    """
    _check(amounts, order_amounts, rules)
    groups = tuple(dict.fromkeys((*rules.group_order, *(a.group for a in amounts))))
    by_group = _summed((a.group, a.amount) for a in amounts)
    shifts = _order_shifts(order_amounts, {g: by_group[g] for g in groups if g in by_group}, rules.unit)
    bundles = [*_lines(amounts), *shifts]
    if rules.tax_rounding is TaxRounding.PER_TAX:
        bundles = [_summed(pair for bundle in bundles for pair in bundle.items())]
    tax_lines = _tax_lines(bundles, taxes, rules)
    subtotal = sum((a.amount for a in amounts), ZERO)
    discount = sum((o.amount for o in order_amounts if o.is_discount), ZERO)
    charges = sum((o.amount for o in order_amounts if not o.is_discount), ZERO)
    tax = sum((line.amount for line in tax_lines), ZERO)
    total = subtotal - discount + charges + (ZERO if rules.prices_include_tax else tax)
    cash_rounding = _cash_rounding(total - rules.prepaid, rules)
    return Totals(
        prices_include_tax=rules.prices_include_tax,
        subtotal=subtotal.quantize(rules.unit),
        discount=discount.quantize(rules.unit),
        charges=charges.quantize(rules.unit),
        taxes=tax_lines,
        tax=tax.quantize(rules.unit),
        total=total.quantize(rules.unit),
        prepaid=rules.prepaid.quantize(rules.unit),
        cash_rounding=cash_rounding.quantize(rules.unit),
        payable=(total - rules.prepaid + cash_rounding).quantize(rules.unit),
    )


def _check(amounts: Sequence[TaxableAmount], order_amounts: Sequence[OrderAmount], rules: TotalsRules) -> None:
    for amount in (*(a.amount for a in amounts), *(o.amount for o in order_amounts), rules.prepaid):
        if amount % rules.unit:
            raise ValueError(f"{amount} is no whole multiple of {rules.unit}")


def _summed(pairs: Iterable[tuple[str, Decimal]]) -> dict[str, Decimal]:
    sums: dict[str, Decimal] = {}
    for group, amount in pairs:
        sums[group] = sums.get(group, ZERO) + amount
    return sums


def _lines(amounts: Sequence[TaxableAmount]) -> list[dict[str, Decimal]]:
    named: dict[object, list[tuple[str, Decimal]]] = {}
    for number, amount in enumerate(amounts):
        named.setdefault(amount.line or number, []).append((amount.group, amount.amount))
    return [_summed(pairs) for pairs in named.values()]


def spread(amount: Decimal, by_group: Mapping[str, Decimal], unit: Decimal) -> dict[str, Decimal]:
    """Spread an amount over groups in proportion to what they have, by largest remainder.

    A group on the other side of nought than the sum of all gets nothing.
    """
    side = -1 if sum(by_group.values(), ZERO) < 0 else 1
    weights = [max(ZERO, side * value) for value in by_group.values()]
    return dict(zip(by_group, shared_out(amount, weights, unit), strict=True))


def _order_shifts(
    order_amounts: Sequence[OrderAmount], by_group: Mapping[str, Decimal], unit: Decimal
) -> list[dict[str, Decimal]]:
    """Give what order amounts add to each group, one mapping per named amount and one per way that is spread."""
    shifts = [{o.group: -o.amount if o.is_discount else o.amount} for o in order_amounts if o.group is not None]
    for is_discount, sign in ((True, -1), (False, 1)):
        whole = sum((o.amount for o in order_amounts if o.group is None and o.is_discount is is_discount), ZERO)
        if whole:
            shifts.append({group: sign * part for group, part in spread(whole, by_group, unit).items()})
    return shifts


def _tax_lines(
    bundles: Sequence[Mapping[str, Decimal]], taxes: Sequence[Tax], rules: TotalsRules
) -> tuple[TaxLine, ...]:
    work_out = taxes_contained if rules.prices_include_tax else taxes_before
    sums: dict[str, TaxedAmount] = {}
    for bundle in bundles:
        for code, found in work_out(bundle, taxes, rules.unit, rules.rounding).items():
            before = sums.get(code, TaxedAmount(taxable=ZERO, tax=ZERO))
            sums[code] = TaxedAmount(taxable=before.taxable + found.taxable, tax=before.tax + found.tax)
    return tuple(
        TaxLine(
            code=tax.code,
            name=tax.name or tax.code,
            rate=tax.rate,
            taxable=sums[tax.code].taxable.quantize(rules.unit),
            amount=sums[tax.code].tax.quantize(rules.unit),
        )
        for tax in taxes
        if tax.code in sums
    )


def _cash_rounding(due: Decimal, rules: TotalsRules) -> Decimal:
    if rules.stated_rounding is not None:
        return rules.stated_rounding
    if not rules.cash_unit:
        return ZERO
    return rounded(due, rules.cash_unit, rules.cash_ties) - due
