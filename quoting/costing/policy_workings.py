"""Workings of the policy of prices: hours of work as money, further hours, target margin, tidy figures."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction

from quoting.costing.attendance import pieces_amount
from quoting.costing.costed_jobs import CostedJob, attended, contained_of
from quoting.costing.labour import Done, Stage
from quoting.costing.labour_workings import rate_keys
from quoting.costing.pricing import uplift
from quoting.costing.steps import EXACT_MONEY, MONEY, Steps, decimals_of, piece_key, plus, ref
from quoting.domain.prices import TaxCategory


def add_policy(costed: CostedJob, steps: Steps) -> None:
    """Add overhead, target margin and price step, as far as they are set."""
    policy = costed.prices.shop.policy
    if policy.overhead:
        steps.given("overhead", "Overhead, share of a job's own cost", policy.overhead)
    times = uplift(costed.prices.shop)
    if times is not None and policy.target_margin is not None:
        target = steps.given("target margin", "Margin that prices are worked out for", policy.target_margin)
        overhead = ref("overhead") if policy.overhead else "0"
        steps.step("uplift", "Price ÷ cost for that margin", times, f"(1+{overhead})/(1-{target})")
    if policy.price_step:
        steps.given("price step", "Prices go to multiples of", policy.price_step, unit=MONEY)


def for_margin(costed: CostedJob, steps: Steps, formula: str, category: TaxCategory) -> str:
    """Write a part's price: as it stands, or its cost lifted to the target margin, with the tax that prices contain."""
    if uplift(costed.prices.shop) is None:
        return formula
    lifted = f"{formula}*{ref('uplift')}"
    contained = contained_of(costed.job, costed.prices)[category]
    if contained == 1:
        return lifted
    key = f"tax in {category.value}"
    if not steps.has(key):
        steps.given(key, f"Tax contained in prices of {category.value}", contained - 1)
    return f"{lifted}*(1+{ref(key)})"


def without_tax(costed: CostedJob, steps: Steps, formula: str, category: TaxCategory) -> str:
    """Write a price less the tax that an exempt client is not charged."""
    divisor = costed.divisors[category]
    if divisor == 1:
        return formula
    key = f"less tax {category.value}"
    if not steps.has(key):
        steps.given(key, f"Tax contained in prices of {category.value}, not charged to this client", divisor - 1)
    return f"{formula}/(1+{ref(key)})"


def tidy_formula(costed: CostedJob, amount: str) -> str:
    """Write `quoting.costing.pricing.tidy` as a formula."""
    step = ref("price step")
    nearest = f"ROUND(ROUND(ROUND(({amount})/{step},6),0)*{step},{decimals_of(costed.rules.unit)})"
    return f"IF(({amount})>0,MAX({step},{nearest}),0)"


def worked(costed: CostedJob, steps: Steps, number: int, kind: str, stages: Sequence[Stage]) -> str:
    """Write what the work of some stages on one piece N comes to, at "charge" or "cost"."""
    names = {Stage.WORKSHOP: "workshop", Stage.INSTALL: "venue", Stage.STRIKE: "venue"}
    if set(stages) == set(Stage):
        terms = [f"{ref(f'{where} {number}', 'labour')}*{ref(f'{where} {kind}')}" for where in ("workshop", "venue")]
    else:
        terms = [f"{ref(f'{stage.value} {number}', 'labour')}*{ref(f'{names[stage]} {kind}')}" for stage in stages]
    piece, _ = costed.plans[number - 1]
    section = piece_key(piece.label, number)
    rated = [(each, own) for each in costed.works[number - 1].done if (own := _own_hour(each, kind)) is not None]
    keys = rate_keys(costed) if rated else {}
    for each, own in rated:
        if each.stage not in stages:
            continue
        seconds = keys[each.rate]
        key = f"hour {kind} {seconds.removeprefix('seconds ')}"
        if not steps.has(key):
            steps.given(key, f"An hour of {each.rate.activity}: {kind}", own, unit=MONEY)
        base = ref(f"{names[each.stage]} {kind}")
        terms.append(f"{ref(f'task {each.place}', section)}*{ref(seconds, 'labour')}*({ref(key)}-{base})")
    return f"({plus(terms)})/3600"


def _own_hour(each: Done, kind: str) -> Decimal | None:
    return each.rate.hour_charge if kind == "charge" else each.rate.hour_cost


def add_attendance(costed: CostedJob, steps: Steps) -> tuple[str, Fraction]:
    """Add what set-up, rounding, the minimum call-out and dear hours come to; gives the charge, exact.

    Nothing is added where there is none of it.
    """
    charge = attended(costed.attendance, costed.prices, contained_of(costed.job, costed.prices))
    if not costed.attendance:
        return "0", charge
    kind = "charge" if uplift(costed.prices.shop) is None else "cost"
    plain = costed.attendance.charge if kind == "charge" else costed.attendance.charged_cost
    base = steps.step("attendance", f"Set-up, minimum and dear hours: {kind}", plain,
                      _further(costed, steps, kind, with_fixed=False), unit=EXACT_MONEY)  # fmt: skip
    paid = steps.step("attendance cost exact", "Set-up, minimum and dear hours: cost of all", costed.attendance.cost,
                      _further(costed, steps, "cost", with_fixed=True), unit=EXACT_MONEY)  # fmt: skip
    assert paid
    return f"({for_margin(costed, steps, base, TaxCategory.LABOUR)})", charge


def _further(costed: CostedJob, steps: Steps, kind: str, *, with_fixed: bool) -> str:
    terms = []
    for visit in costed.visits:
        name = visit.stage.value
        factor = ref(f"{name} factor", "visits")
        terms.append(f"{ref(f'{name} added', 'visits')}*{factor}*{ref(f'venue {kind}')}/3600")
        if visit.factor == 1 or not pieces_amount(
            costed.plans, costed.works, visit, costed.prices.shop, kind, with_fixed=with_fixed
        ):
            continue
        own = plus(
            f"{worked(costed, steps, number, kind, (visit.stage,))}*{ref(f'quantity {number}', 'stock')}"
            for number, (piece, _) in enumerate(costed.plans, 1)
            if with_fixed or piece.price is None
        )
        terms.append(f"({factor}-1)*({own})")
    return plus(terms)
