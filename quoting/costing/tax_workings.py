"""Workings of taxes, added to prices before tax or found in prices including it, in all at once or line by line."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from fractions import Fraction

from quoting.costing.costed_jobs import CostedJob
from quoting.costing.splits import add_split
from quoting.costing.steps import MONEY, Steps, plus, rounding_formula
from quoting.costing.tax_amounts import Tax, effective_rates, taxes_before
from quoting.domain.money import ZERO, rounded

Bundle = dict[str, tuple[str, Decimal]]
"""Category → reference or expression, and value."""

Found = dict[str, tuple[str, str]]
"""Code of a tax → expressions of what it is on and what it comes to."""


def add_taxes(costed: CostedJob, steps: Steps, bundles: Mapping[str, Bundle]) -> None:
    """Add "taxable N" and "tax N" for the Nth printed tax, from bundles of amounts that are rounded together.

    A single bundle has the name "".
    """
    printed = {line.code for line in costed.totals.taxes}
    listed = [tax for tax in costed.taxes if tax.code in printed]
    work = _TaxSteps(costed, steps, listed)
    add = work.contained_in if costed.rules.prices_include_tax else work.added_to
    found: dict[str, list[tuple[str, str]]] = {tax.code: [] for tax in listed}
    for name, bundle in bundles.items():
        for code, pair in add(name, bundle).items():
            found[code].append(pair)
    for number, (tax, line) in enumerate(zip(listed, costed.totals.taxes, strict=True), 1):
        if steps.has(f"tax {number}"):
            continue
        label, pairs = _label(tax), found[tax.code]
        taxable = plus(f"({t})" for t, _ in pairs)
        steps.step(f"taxable {number}", f"{label}: taxable amount", line.taxable, taxable, unit=MONEY)
        steps.step(f"tax {number}", label, line.amount, plus(t for _, t in pairs), unit=MONEY)


def _label(tax: Tax) -> str:
    return tax.name or tax.code


class _TaxSteps:
    """Adds the steps of all taxes on one bundle after the other, used inside `add_taxes` only."""

    def __init__(self, costed: CostedJob, steps: Steps, taxes: Sequence[Tax]) -> None:
        self.steps, self.taxes = steps, taxes
        self.unit, self.rule = costed.rules.unit, costed.rules.rounding
        self.known = {tax.code: tax for tax in taxes}
        self.rates = {tax.code: steps.given(f"rate {n}", _label(tax), tax.rate) for n, tax in enumerate(taxes, 1)}

    # --- prices before tax ----------------------------------------------------------

    def added_to(self, name: str, bundle: Bundle) -> Found:
        """Add the steps of the taxes on one bundle of prices before tax."""
        amounts = {group: value for group, (_, value) in bundle.items()}
        values = taxes_before(amounts, self.taxes, self.unit, self.rule)
        found: Found = {}
        suffix = f", {name}" if name else ""
        for number, tax in enumerate(self.taxes, 1):
            if tax.code not in values:
                continue
            groups = tuple(group for group in bundle if group in tax.groups)
            taxable = self.steps.step(
                f"taxable {number}{suffix}", f"{_label(tax)}{suffix}: taxable amount", values[tax.code].taxable,
                self._taxable(tax, groups, bundle, found), unit=MONEY,
            )  # fmt: skip
            formula = rounding_formula(f"({taxable}*{self.rates[tax.code]})", self.unit, self.rule)
            amount = self.steps.step(
                f"tax {number}{suffix}", f"{_label(tax)}{suffix}", values[tax.code].tax, formula, unit=MONEY
            )
            found[tax.code] = (taxable, amount)
        return found

    def _taxable(self, tax: Tax, groups: tuple[str, ...], bundle: Bundle, found: Found) -> str:
        terms = [bundle[group][0] for group in groups]
        for below in (self.known[code] for code in tax.on_top_of if code in self.known):
            shared = tuple(group for group in groups if group in below.groups)
            is_whole = shared == tuple(group for group in bundle if group in below.groups)
            if is_whole and below.code in found:
                terms.append(found[below.code][1])
            elif shared:
                taxable = self._taxable(below, shared, bundle, found)
                terms.append(rounding_formula(f"(({taxable})*{self.rates[below.code]})", self.unit, self.rule))
        return plus(terms)

    # --- prices including tax -------------------------------------------------------

    def contained_in(self, name: str, bundle: Bundle) -> Found:
        """Add the steps that find the taxes in one bundle of prices including tax, pool by pool."""
        pools: dict[tuple[Tax, ...], list[str]] = {}
        for group in bundle:
            borne = tuple(tax for tax in self.taxes if group in tax.groups)
            if borne:
                pools.setdefault(borne, []).append(group)
        terms: dict[str, list[tuple[str, str]]] = {}
        for borne, groups in pools.items():
            words = ", ".join(filter(None, [" and ".join(groups), name]))
            for code, pair in self._pool(borne, words, [bundle[group] for group in groups]).items():
                terms.setdefault(code, []).append(pair)
        return {code: (plus(f"({t})" for t, _ in pairs), plus(t for _, t in pairs)) for code, pairs in terms.items()}

    def _pool(self, taxes: Sequence[Tax], words: str, amounts: Sequence[tuple[str, Decimal]]) -> Found:
        value = sum((amount for _, amount in amounts), ZERO)
        gross = self.steps.step(
            f"gross of {words}", f"Including tax: {words}", value, plus(f"({r})" for r, _ in amounts), unit=MONEY
        )
        effective = effective_rates(taxes)
        whole_rate = sum(effective, Fraction(0))
        shares = self._rate_formulas(taxes)
        rate = self.steps.step(
            f"rate of {words}", f"All taxes on {words}, share of the net", whole_rate, plus(shares.values())
        )
        whole = rounded(Fraction(value) * whole_rate / (1 + whole_rate), self.unit, self.rule)
        formula = rounding_formula(f"({gross}*{rate}/(1+{rate}))", self.unit, self.rule)
        contained = self.steps.step(
            f"contained in {words}", f"Tax contained in {words}", whole, formula, unit=MONEY,
            words="gross − gross ÷ (1 + rates)",
        )  # fmt: skip
        weights = [
            (f"tax {place}", f"({shares[tax.code]})", share)
            for place, (tax, share) in enumerate(zip(taxes, effective, strict=True), 1)
        ]
        references = add_split(self.steps, f"split of {words}", (contained, whole), weights, self.unit)
        parts = dict(zip(shares, references, strict=True))
        return {
            tax.code: (
                plus([f"{gross}-{contained}", *(parts[code] for code in tax.on_top_of if code in parts)]),
                parts[tax.code],
            )
            for tax in taxes
        }

    def _rate_formulas(self, taxes: Sequence[Tax]) -> dict[str, str]:
        formulas: dict[str, str] = {}
        for tax in taxes:
            below = [formulas[code] for code in tax.on_top_of if code in formulas]
            rate = self.rates[tax.code]
            formulas[tax.code] = f"{rate}*({plus(['1', *below])})" if below else rate
        return formulas
