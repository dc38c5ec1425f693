"""The taxes on one bundle of amounts: added to prices before tax, or found in prices including it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from quoting.domain.money import ZERO, Rounding, rounded, shared_out


@dataclass(frozen=True, slots=True, kw_only=True)
class Tax:
    """One tax: its rate as a fraction (20 % is 0.2), the groups it is charged on, the taxes it is charged on top of."""

    code: str
    rate: Decimal
    groups: tuple[str, ...]
    name: str = ""
    on_top_of: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class TaxedAmount:
    """What a tax is worked out on, and what it comes to, rounded."""

    taxable: Decimal
    tax: Decimal


def taxes_before(
    bundle: Mapping[str, Decimal], taxes: Sequence[Tax], unit: Decimal, rule: Rounding
) -> dict[str, TaxedAmount]:
    """Give every tax on amounts by group that don't contain it, by code; only taxes with a group in the bundle.

    A tax on top of another is charged on that one's printed amount too, or, where
    they share only some groups, on what the other comes to on the shared groups.
    """
    known = _by_code(taxes)
    return {
        tax.code: _tax_on(tax, _shared(tax, bundle), bundle, known, unit=unit, rule=rule)
        for tax in taxes
        if _shared(tax, bundle)
    }


def _tax_on(
    tax: Tax,
    groups: tuple[str, ...],
    bundle: Mapping[str, Decimal],
    known: Mapping[str, Tax],
    *,
    unit: Decimal,
    rule: Rounding,
) -> TaxedAmount:
    taxable = sum((bundle[group] for group in groups), ZERO)
    for code in tax.on_top_of:
        below = known.get(code)
        if below is not None:
            shared = tuple(group for group in groups if group in below.groups)
            taxable += _tax_on(below, shared, bundle, known, unit=unit, rule=rule).tax
    return TaxedAmount(taxable=taxable, tax=rounded(Fraction(taxable) * Fraction(tax.rate), unit, rule))


def taxes_contained(
    bundle: Mapping[str, Decimal], taxes: Sequence[Tax], unit: Decimal, rule: Rounding
) -> dict[str, TaxedAmount]:
    """Give every tax that amounts by group contain, by code; only taxes with a group in the bundle.

    Groups that bear the same taxes are one pool. A pool keeps its gross: its tax is
    gross − gross ÷ (1 + rates), rounded once, split over its taxes by largest remainder.
    """
    _by_code(taxes)
    found: dict[str, TaxedAmount] = {}
    for pool, gross in pools(bundle, taxes).items():
        for code, part in _contained_in(gross, pool, unit, rule).items():
            before = found.get(code, TaxedAmount(taxable=ZERO, tax=ZERO))
            found[code] = TaxedAmount(taxable=before.taxable + part.taxable, tax=before.tax + part.tax)
    return found


def pools(bundle: Mapping[str, Decimal], taxes: Sequence[Tax]) -> dict[tuple[Tax, ...], Decimal]:
    """Sum amounts by the set of taxes that they bear; untaxed groups are left out."""
    sums: dict[tuple[Tax, ...], Decimal] = {}
    for group, amount in bundle.items():
        borne = tuple(tax for tax in taxes if group in tax.groups)
        if borne:
            sums[borne] = sums.get(borne, ZERO) + amount
    return sums


def effective_rates(taxes: Sequence[Tax]) -> tuple[Fraction, ...]:
    """Give each tax's share of the net amount where all are charged together, compounding where told.

    >>> [str(r) for r in effective_rates([Tax(code="A", rate=Decimal("0.1"), groups=()),
    ...     Tax(code="B", rate=Decimal("0.2"), groups=(), on_top_of=("A",))])]
    ['1/10', '11/50']
    """
    rates: dict[str, Fraction] = {}
    for tax in taxes:
        below = sum((rates[code] for code in tax.on_top_of if code in rates), Fraction(0))
        rates[tax.code] = Fraction(tax.rate) * (1 + below)
    return tuple(rates.values())


def _contained_in(gross: Decimal, taxes: Sequence[Tax], unit: Decimal, rule: Rounding) -> dict[str, TaxedAmount]:
    rates = effective_rates(taxes)
    whole_rate = sum(rates, Fraction(0))
    whole = rounded(Fraction(gross) * whole_rate / (1 + whole_rate), unit, rule)
    parts = dict(zip((tax.code for tax in taxes), shared_out(whole, rates, unit), strict=True))
    return {
        tax.code: TaxedAmount(
            taxable=gross - whole + sum((parts[code] for code in tax.on_top_of if code in parts), ZERO),
            tax=parts[tax.code],
        )
        for tax in taxes
    }


def _shared(tax: Tax, bundle: Mapping[str, Decimal]) -> tuple[str, ...]:
    return tuple(group for group in bundle if group in tax.groups)


def _by_code(taxes: Iterable[Tax]) -> dict[str, Tax]:
    known: dict[str, Tax] = {}
    later = {tax.code for tax in taxes}
    for tax in taxes:
        later.discard(tax.code)
        if tax.code in known:
            raise ValueError(f"two taxes have the code {tax.code!r}")
        if tax.code in tax.on_top_of or later.intersection(tax.on_top_of):
            raise ValueError(f"the tax {tax.code!r} must come after those it goes on top of")
        known[tax.code] = tax
    return known
