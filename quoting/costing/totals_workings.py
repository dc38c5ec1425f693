"""Workings of the foot of a quote: subtotal, order adjustments, each tax, total, amount due, deposit."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from quoting.costing.adjustments import order_adjustments_of
from quoting.costing.costed_jobs import CATEGORIES, CostedJob
from quoting.costing.steps import Steps, add_split, plus, ref, round_half_up, rounding_formula
from quoting.costing.tax_workings import Bundle, add_taxes
from quoting.costing.totals import spread
from quoting.domain.money import ZERO, Rounding
from quoting.domain.plans import Section
from quoting.domain.prices import TaxRounding

HALF_UP = Rounding.HALF_UP


@dataclass(frozen=True, slots=True, kw_only=True)
class _Foot:
    """The steps of a foot so far: its lines by name, then category → reference and value."""

    lines: Mapping[str, Bundle]
    by_category: Bundle


def totals_workings(costed: CostedJob) -> Section:
    """Give the section "totals": "subtotal", "discount", "charges", "taxable N" and "tax N" of the Nth tax line, "tax",
    "total", "cash rounding", "payable", "deposit", "balance".
    """
    steps = Steps("totals", "Totals")
    totals = costed.totals
    foot = _Foot(lines=_lines(costed), by_category=_add_categories(costed, steps))
    places = [f"amount {n}" for n in range(1, len(costed.pieces) + 1)]
    places += [f"adjustment {n}.{k}" for n, made in enumerate(costed.adjustments, 1) for k in range(1, len(made) + 1)]
    places += ["delivery"] if costed.trip else []
    steps.step(
        "subtotal",
        "Subtotal",
        totals.subtotal,
        plus(ref(place, "price") for place in places),
        "money",
        "pieces, their adjustments, delivery",
    )
    _add_order_adjustments(costed, steps)
    shifts = [
        _add_spread(costed, steps, foot, key, sign, whole)
        for key, sign, whole in (("discount", -1, totals.discount), ("charges", 1, totals.charges))
        if whole
    ]
    add_taxes(costed, steps, _bundles(costed, steps, foot, shifts))
    _add_end(costed, steps)
    return steps.section()


def _lines(costed: CostedJob) -> dict[str, Bundle]:
    lines: dict[str, Bundle] = {}
    for amount in costed.amounts:
        line = amount.line
        key = f"{line.removeprefix('piece ')} {amount.group}"
        reference = ref("delivery" if line == "delivery" else key, "price")
        lines.setdefault(line, {})[amount.group] = (reference, amount.amount)
    return lines


def _add_categories(costed: CostedJob, steps: Steps) -> Bundle:
    by_category: Bundle = {}
    for category in CATEGORIES:
        own = [line[category] for line in _lines(costed).values() if category in line]
        if own:
            value = sum((value for _, value in own), ZERO)
            reference = steps.step(f"lines {category}", f"Lines: {category}", value, plus(r for r, _ in own), "money")
            by_category[category] = (reference, value)
    return by_category


def _add_order_adjustments(costed: CostedJob, steps: Steps) -> None:
    unit, totals = costed.rules.unit, costed.totals
    references: dict[bool, list[str]] = {True: [], False: []}
    typed = order_adjustments_of(costed.job)
    for number, (adjustment, made) in enumerate(zip(typed, costed.order_adjustments, strict=False), 1):
        if adjustment.percent is not None:
            share = steps.given(f"order {number}, percent", f"{made.name}: share of the subtotal", adjustment.percent)
            amount = f"{ref('subtotal')}*{share}"
        else:
            amount = steps.given(f"order {number}, amount", f"{made.name}: amount", adjustment.amount or ZERO, "money")
        step = steps.step(f"order {number}", made.name, made.amount, rounding_formula(amount, unit, HALF_UP), "money")
        references[made.is_discount].append(step)
    minimum = round_half_up(costed.prices.shop.minimum_order, unit)
    steps.step("discount", "Discounts on the order", totals.discount, plus(references[True]), "money")
    if minimum:
        least = steps.given("minimum", "Minimum order", minimum, "money")
        typed_charges = plus(references[False])
        lifted = sum((m.amount for m in costed.order_adjustments[len(typed) :]), ZERO)
        references[False].append(
            steps.step(
                "lift",
                "What is missing to the minimum",
                lifted,
                f"MAX(0,ROUND({least}-({ref('subtotal')}-{ref('discount')}+{typed_charges}),6))",
                "money",
            )
        )
    steps.step("charges", "Surcharges on the order", totals.charges, plus(references[False]), "money")


def _add_spread(costed: CostedJob, steps: Steps, foot: _Foot, key: str, sign: int, whole: Decimal) -> Bundle:
    """Spread the discounts (or charges) over the categories, as `spread` in the totals core does."""
    values = {category: value for category, (_, value) in foot.by_category.items()}
    parts = spread(whole, values, costed.rules.unit)
    weights = [
        (category, f"MAX(0,{reference})", Fraction(max(ZERO, value)))
        for category, (reference, value) in foot.by_category.items()
    ]
    references = add_split(steps, f"{key} spread", (ref(key), whole), weights, costed.rules.unit)
    minus = "-" if sign < 0 else ""
    return {
        category: (f"{minus}{reference}", sign * parts[category] + 0)
        for (category, _, _), reference in zip(weights, references, strict=True)
    }


def _bundles(costed: CostedJob, steps: Steps, foot: _Foot, shifts: Sequence[Bundle]) -> dict[str, Bundle]:
    """Name the amounts that tax is rounded on together: all, or each line."""
    if costed.rules.tax_rounding is TaxRounding.PER_LINE:
        named = {
            "discount on the order" if r.startswith("-") else "surcharge on the order": shift
            for shift in shifts
            for r, _ in [next(iter(shift.values()))]
        }
        return {**foot.lines, **named}
    if not shifts:
        return {"": foot.by_category}
    net: Bundle = {}
    for category, (reference, value) in foot.by_category.items():
        own = [shift[category] for shift in shifts]
        formula = reference + "".join(r if r.startswith("-") else f"+{r}" for r, _ in own)
        total = value + sum((v for _, v in own), ZERO)
        net[category] = (
            steps.step(f"net {category}", f"After discounts and surcharges: {category}", total, formula, "money"),
            total,
        )
    return {"": net}


def _add_end(costed: CostedJob, steps: Steps) -> None:
    totals, terms, unit = costed.totals, costed.terms, costed.rules.unit
    numbers = range(1, len(totals.taxes) + 1)
    tax = steps.step("tax", "Tax", totals.tax, plus(ref(f"tax {n}") for n in numbers), "money")
    added = "" if totals.prices_include_tax else f"+{tax}"
    total = steps.step(
        "total",
        "Total",
        totals.total,
        f"{ref('subtotal')}-{ref('discount')}+{ref('charges')}{added}",
        "money",
        "the tax is contained in it" if totals.prices_include_tax else "",
    )
    due = total
    if costed.rules.cash_unit:
        cash = steps.given("cash unit", "Amount due in multiples of", costed.rules.cash_unit, "money")
        shift = f"ROUND(ROUND({total}/{cash},6),0)*{cash}-{total}"
        rounding = steps.step(
            "cash rounding", "Rounding of the amount due", totals.cash_rounding, f"ROUND({shift},6)", "money"
        )
        due = f"{total}+{rounding}"
    payable = steps.step("payable", "Amount due", totals.payable, due, "money")
    share = steps.given("deposit share", "Deposit, share of the amount due", terms.deposit_share)
    deposit = steps.step(
        "deposit", "Deposit", terms.deposit, rounding_formula(f"{payable}*{share}", unit, HALF_UP), "money"
    )
    steps.step("balance", "Balance", terms.balance, f"{payable}-{deposit}", "money")
