"""Workings of the foot of a quote: subtotal, order adjustments, each tax, total, amount due, deposit."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from quoting.costing.adjustments import order_adjustments_of
from quoting.costing.costed_jobs import CATEGORIES, CostedJob
from quoting.costing.splits import add_split
from quoting.costing.steps import MONEY, Steps, plus, ref, round_half_up, rounding_formula
from quoting.costing.tax_workings import Bundle, add_taxes
from quoting.costing.totals import spread
from quoting.domain.money import ZERO, Rounding
from quoting.domain.plans import Section
from quoting.domain.prices import TaxRounding

HALF_UP = Rounding.HALF_UP

OWN_LINES = ("labour", "delivery")
"""Lines of a quote that are no piece's: the step of the section "price", and the amount of a `CostedJob`."""


def totals_workings(costed: CostedJob) -> Section:
    """Give the section "totals", which ends in "total", "payable", "deposit" and "balance".

    "taxable N" and "tax N" are of the Nth printed tax; "subtotal", "discount",
    "charges", "tax" and "cash rounding" are as printed.
    """
    steps = Steps("totals", "Totals", costed.prices.shop.currency.code)
    by_category = _add_categories(costed, steps)
    places = [f"amount {n}" for n in range(1, len(costed.pieces) + 1)]
    places += [f"adjustment {n}.{k}" for n, made in enumerate(costed.adjustments, 1) for k in range(1, len(made) + 1)]
    places += [line for line in OWN_LINES if getattr(costed, line) is not None]
    steps.step(
        "subtotal", "Subtotal", costed.totals.subtotal, plus(ref(place, "price") for place in places), unit=MONEY,
        words="pieces, their adjustments, labour and delivery where they have a line",
    )  # fmt: skip
    _add_order_adjustments(costed, steps)
    shifts = _add_shifts(costed, steps, by_category)
    if costed.rules.tax_rounding is TaxRounding.PER_LINE:
        add_taxes(costed, steps, {**_lines(costed), **shifts})
    else:
        add_taxes(costed, steps, {"": _add_net(steps, by_category, list(shifts.values()))})
    _add_end(costed, steps)
    return steps.section()


def _lines(costed: CostedJob) -> dict[str, Bundle]:
    lines: dict[str, Bundle] = {}
    for amount in costed.amounts:
        line = amount.line
        key = f"{line.removeprefix('piece ')} {amount.group}"
        reference = ref(line if line in OWN_LINES else key, "price")
        lines.setdefault(line, {})[amount.group] = (reference, amount.amount)
    return lines


def _add_categories(costed: CostedJob, steps: Steps) -> Bundle:
    by_category: Bundle = {}
    for category in CATEGORIES:
        own = [line[category] for line in _lines(costed).values() if category in line]
        if own:
            value = sum((value for _, value in own), ZERO)
            reference = steps.step(
                f"lines {category}", f"Lines: {category}", value, plus(r for r, _ in own), unit=MONEY
            )
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
            amount = steps.given(
                f"order {number}, amount", f"{made.name}: amount", adjustment.amount or ZERO, unit=MONEY
            )
        step = steps.step(
            f"order {number}", made.name, made.amount, rounding_formula(amount, unit, HALF_UP), unit=MONEY
        )
        references[made.is_discount].append(step)
    minimum = round_half_up(costed.prices.shop.minimum_order, unit)
    steps.step("discount", "Discounts on the order", totals.discount, plus(references[True]), unit=MONEY)
    if minimum:
        least = steps.given("minimum", "Minimum order", minimum, unit=MONEY)
        typed_charges = plus(references[False])
        lifted = sum((m.amount for m in costed.order_adjustments[len(typed) :]), ZERO)
        references[False].append(
            steps.step(
                "lift",
                "What is missing to the minimum",
                lifted,
                f"MAX(0,ROUND({least}-({ref('subtotal')}-{ref('discount')}+{typed_charges}),6))",
                unit=MONEY,
            )
        )
    steps.step("charges", "Surcharges on the order", totals.charges, plus(references[False]), unit=MONEY)


def _add_shifts(costed: CostedJob, steps: Steps, by_category: Bundle) -> dict[str, Bundle]:
    """Spread discounts and surcharges over the categories, as the totals core does; negative for discounts."""
    totals, unit = costed.totals, costed.rules.unit
    values = {category: value for category, (_, value) in by_category.items()}
    weights = [(c, f"MAX(0,{reference})", Fraction(max(ZERO, value))) for c, (reference, value) in by_category.items()]
    shifts: dict[str, Bundle] = {}
    for key, name, sign, whole in (
        ("discount", "discount on the order", -1, totals.discount),
        ("charges", "surcharge on the order", 1, totals.charges),
    ):
        if whole:
            parts = spread(whole, values, unit)
            references = add_split(
                steps, f"{key} spread", (ref(key), whole), weights, unit, title=f"{name[:1].upper()}{name[1:]}")
            shifts[name] = {
                category: (f"-{reference}" if sign < 0 else reference, sign * parts[category] + 0)
                for category, reference in zip(by_category, references, strict=True)
            }
    return shifts


def _add_net(steps: Steps, by_category: Bundle, shifts: Sequence[Bundle]) -> Bundle:
    """Add what each category comes to after discounts and surcharges on the order, where there are any."""
    if not shifts:
        return by_category
    net: Bundle = {}
    for category, (reference, value) in by_category.items():
        own = [shift[category] for shift in shifts]
        total = value + sum((v for _, v in own), ZERO)
        label = f"After discounts and surcharges: {category}"
        formula = plus([reference, *(r for r, _ in own)])
        net[category] = (steps.step(f"net {category}", label, total, formula, unit=MONEY), total)
    return net


def _add_end(costed: CostedJob, steps: Steps) -> None:
    totals, terms, unit = costed.totals, costed.terms, costed.rules.unit
    numbers = range(1, len(totals.taxes) + 1)
    tax = steps.step("tax", "Tax", totals.tax, plus(ref(f"tax {n}") for n in numbers), unit=MONEY)
    added = "" if totals.prices_include_tax else f"+{tax}"
    total = steps.step(
        "total",
        "Total",
        totals.total,
        f"{ref('subtotal')}-{ref('discount')}+{ref('charges')}{added}",
        unit=MONEY,
        words="the tax is contained in it" if totals.prices_include_tax else "",
    )
    due = total
    if costed.rules.cash_unit:
        cash = steps.given("cash unit", "Amount due in multiples of", costed.rules.cash_unit, unit=MONEY)
        shift = f"ROUND(ROUND({total}/{cash},6),0)*{cash}-{total}"
        rounding = steps.step(
            "cash rounding", "Rounding of the amount due", totals.cash_rounding, f"ROUND({shift},6)", unit=MONEY
        )
        due = f"{total}+{rounding}"
    payable = steps.step("payable", "Amount due", totals.payable, due, unit=MONEY)
    share = steps.given("deposit share", "Deposit, share of the amount due", terms.deposit_share)
    deposit = steps.step(
        "deposit", "Deposit", terms.deposit, rounding_formula(f"{payable}*{share}", unit, HALF_UP), unit=MONEY
    )
    steps.step("balance", "Balance", terms.balance, f"{payable}-{deposit}", unit=MONEY)
