"""Workings of taxes, added to prices before tax or found in prices including it, in all at once or line by line."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from fractions import Fraction

from quoting.costing.costed_jobs import CostedJob
from quoting.costing.steps import Steps, add_split, plus, rounding_formula
from quoting.costing.tax_amounts import Tax, effective_rates, taxes_before
from quoting.domain.money import ZERO, rounded

Bundle = dict[str, tuple[str, Decimal]]
"""Category → reference or expression, and value."""


def add_taxes(costed: CostedJob, steps: Steps, bundles: Mapping[str, Bundle]) -> None:
    """Add "taxable N" and "tax N" for each printed tax, from bundles of amounts that are rounded together.

    A single bundle has the name "".
    """
    listed = [tax for tax in costed.taxes if any(line.code == tax.code for line in costed.totals.taxes)]
    rates = {tax.code: steps.given(f"rate {n}", tax.name or tax.code, tax.rate) for n, tax in enumerate(listed, 1)}
    add = _add_contained if costed.rules.prices_include_tax else _add_before
    found: dict[str, list[tuple[str, str]]] = {tax.code: [] for tax in listed}
    for name, bundle in bundles.items():
        for code, pair in add(costed, steps, listed, rates, name, bundle).items():
            found[code].append(pair)
    for number, (tax, line) in enumerate(zip(listed, costed.totals.taxes, strict=True), 1):
        label = tax.name or tax.code
        if not steps.has(f"tax {number}"):
            steps.step(
                f"taxable {number}",
                f"{label}: taxable amount",
                line.taxable,
                plus(f"({t})" for t, _ in found[tax.code]),
                "money",
            )
            steps.step(f"tax {number}", label, line.amount, plus(t for _, t in found[tax.code]), "money")


def _add_before(
    costed: CostedJob, steps: Steps, taxes: Sequence[Tax], rates: Mapping[str, str], name: str, bundle: Bundle
) -> dict[str, tuple[str, str]]:
    unit, rule = costed.rules.unit, costed.rules.rounding
    values = taxes_before({group: value for group, (_, value) in bundle.items()}, taxes, unit, rule)
    known = {tax.code: tax for tax in taxes}
    references: dict[str, tuple[str, str]] = {}

    def taxable_on(tax: Tax, groups: tuple[str, ...]) -> str:
        terms = [bundle[group][0] for group in groups]
        for below in (known[code] for code in tax.on_top_of if code in known):
            shared = tuple(group for group in groups if group in below.groups)
            is_whole = shared == tuple(group for group in bundle if group in below.groups)
            if shared:
                terms.append(references[below.code][1] if is_whole else tax_on(below, shared))
        return plus(terms)

    def tax_on(tax: Tax, groups: tuple[str, ...]) -> str:
        return rounding_formula(f"(({taxable_on(tax, groups)})*{rates[tax.code]})", unit, rule)

    for number, tax in enumerate(taxes, 1):
        if tax.code not in values:
            continue
        suffix, label = (f", {name}", f"{tax.name or tax.code}, {name}") if name else ("", tax.name or tax.code)
        groups = tuple(group for group in bundle if group in tax.groups)
        taxable = steps.step(
            f"taxable {number}{suffix}",
            f"{label}: taxable amount",
            values[tax.code].taxable,
            taxable_on(tax, groups),
            "money",
        )
        formula = rounding_formula(f"({taxable}*{rates[tax.code]})", unit, rule)
        references[tax.code] = (
            taxable,
            steps.step(f"tax {number}{suffix}", label, values[tax.code].tax, formula, "money"),
        )
    return references


def _add_contained(
    costed: CostedJob, steps: Steps, taxes: Sequence[Tax], rates: Mapping[str, str], name: str, bundle: Bundle
) -> dict[str, tuple[str, str]]:
    pools: dict[tuple[Tax, ...], list[str]] = {}
    for group in bundle:
        borne = tuple(tax for tax in taxes if group in tax.groups)
        if borne:
            pools.setdefault(borne, []).append(group)
    terms: dict[str, list[tuple[str, str]]] = {}
    for borne, groups in pools.items():
        words = " and ".join(filter(None, [", ".join(groups), name]))
        for code, pair in _add_pool(costed, steps, borne, rates, words, [bundle[group] for group in groups]).items():
            terms.setdefault(code, []).append(pair)
    return {code: (plus(f"({t})" for t, _ in pairs), plus(t for _, t in pairs)) for code, pairs in terms.items()}


def _add_pool(
    costed: CostedJob,
    steps: Steps,
    taxes: Sequence[Tax],
    rates: Mapping[str, str],
    words: str,
    amounts: Sequence[tuple[str, Decimal]],
) -> dict[str, tuple[str, str]]:
    """Add the steps that find the taxes in one gross amount; gives by code what each is on and what it comes to."""
    unit, rule = costed.rules.unit, costed.rules.rounding
    value = sum((amount for _, amount in amounts), ZERO)
    gross = steps.step(
        f"gross of {words}", f"Including tax: {words}", value, plus(f"({r})" for r, _ in amounts), "money"
    )
    effective = effective_rates(taxes)
    expressions: dict[str, str] = {}
    for tax in taxes:
        below = plus(["1", *(expressions[code] for code in tax.on_top_of if code in expressions)])
        expressions[tax.code] = f"{rates[tax.code]}*({below})" if below != "1" else rates[tax.code]
    whole_rate = sum(effective, Fraction(0))
    rate = steps.step(
        f"rate of {words}", f"All taxes on {words}, share of the net", whole_rate, plus(expressions.values())
    )
    whole = rounded(Fraction(value) * whole_rate / (1 + whole_rate), unit, rule)
    contained = steps.step(
        f"contained in {words}",
        f"Tax contained in {words}",
        whole,
        rounding_formula(f"({gross}*{rate}/(1+{rate}))", unit, rule),
        "money",
        "gross − gross ÷ (1 + rates)",
    )
    names = [f"tax {place}" for place in range(1, len(taxes) + 1)]
    weights = [(n, f"({expressions[tax.code]})", share) for n, tax, share in zip(names, taxes, effective, strict=True)]
    parts = dict(
        zip(
            (tax.code for tax in taxes),
            add_split(steps, f"split of {words}", (contained, whole), weights, unit),
            strict=True,
        )
    )
    return {
        tax.code: (
            plus([f"{gross}-{contained}", *(parts[code] for code in tax.on_top_of if code in parts)]),
            parts[tax.code],
        )
        for tax in taxes
    }
