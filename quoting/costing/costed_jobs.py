"""One job with every amount worked out: what the quote, the job sheet and the workings are made from."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from quoting.costing.adjustments import LineAdjustment, adjust_order, adjust_piece
from quoting.costing.attendance import Attendance, attendance_of
from quoting.costing.delivery import Trip, trip_of
from quoting.costing.hire_days import with_days
from quoting.costing.labour import PieceWork, work_of
from quoting.costing.pricing import Divisors, PiecePrice, PricedPieces, hire_of, price_pieces, uplift
from quoting.costing.steps import round_half_up
from quoting.costing.stock import Planned, StockUse, stock_of
from quoting.costing.tax_amounts import Tax, effective_rates
from quoting.costing.terms import terms_of
from quoting.costing.totals import OrderAmount, TaxableAmount, TotalsRules, work_out_totals
from quoting.costing.visits import CrewVisit, visits_of
from quoting.domain.crews import Shown
from quoting.domain.jobs import Job
from quoting.domain.money import ZERO
from quoting.domain.prices import PriceBook, TaxCategory
from quoting.domain.problems import Outcome, holds
from quoting.domain.quotes import HireLine, OrderAdjustment, Terms, Totals

CATEGORIES = tuple(category.value for category in TaxCategory)


@dataclass(frozen=True, slots=True, kw_only=True)
class CostedJob:
    """All amounts of one job. `adjustments` are those on each piece, in the order of the pieces.

    `amounts` are what the totals were worked out from: each piece's categories share a
    line "piece N", its adjustments are lines of their own, labour and delivery come
    last. `labour` and `delivery` are those lines, None where there is none; `folded`
    are the categories that went into the pieces instead; `overhead` is the shop's share
    on the job's own cost.
    """

    job: Job
    plans: Planned
    prices: PriceBook
    stock: tuple[StockUse, ...]
    works: tuple[PieceWork, ...]
    hire: tuple[HireLine, ...]
    pieces: tuple[PiecePrice, ...]
    adjustments: tuple[tuple[LineAdjustment, ...], ...]
    trip: Trip | None
    visits: tuple[CrewVisit, ...]
    attendance: Attendance
    folded: frozenset[TaxCategory]
    labour: Decimal | None
    delivery: Decimal | None
    overhead: Decimal
    order_adjustments: tuple[OrderAdjustment, ...]
    amounts: tuple[TaxableAmount, ...]
    taxes: tuple[Tax, ...]
    divisors: Divisors
    rules: TotalsRules
    totals: Totals
    terms: Terms


def cost_amounts(job: Job, plans: Planned, prices: PriceBook) -> Outcome[CostedJob | None]:
    """Work out every amount of a job; None where something holds it, with all that does."""
    prices = with_days(job, prices)
    stock, works, hire = stock_of(job, plans, prices), work_of(job, plans, prices), hire_of(job, plans, prices)
    trip = trip_of(job, plans, works.value, prices)
    found = (*stock.problems, *works.problems, *hire.problems, *trip.problems)
    if holds(found):
        return Outcome(value=None, problems=found)
    visits = visits_of(job, plans, works.value, trip.value, prices)
    found = (*found, *visits.problems)
    if holds(found):
        return Outcome(value=None, problems=found)
    taxes, divisors = taxes_of(job, prices), divisors_of(job, prices)
    attendance = attendance_of(plans, works.value, visits.value, prices.shop)
    contained = contained_of(job, prices)
    extra = attended(attendance, prices, contained)
    priced = price_pieces(
        plans,
        stock.value,
        works.value,
        prices,
        divisors=divisors,
        contained=contained,
        folding=_folding(trip.value, extra, prices),
    )
    pieces = priced.prices
    adjusted = [
        adjust_piece(job, piece.label, price.amount, price.amounts, prices)
        for (piece, _), price in zip(plans, pieces, strict=True)
    ]
    labour = _labour_line(plans, priced, extra, prices, divisors)
    delivery = _delivery_line(trip.value, priced, prices, divisors)
    amounts = _amounts(pieces, [outcome.value for outcome in adjusted], labour, delivery)
    order = adjust_order(job, sum((a.amount for a in amounts), Decimal(0)), prices)
    problems = (*found, *(p for outcome in adjusted for p in outcome.problems), *order.problems)
    if holds(problems):
        return Outcome(value=None, problems=problems)
    rules = rules_of(job, prices)
    order_amounts = [OrderAmount(amount=a.amount, is_discount=a.is_discount) for a in order.value]
    totals = work_out_totals(amounts, order_amounts, taxes, rules)
    costed = CostedJob(
        job=job,
        plans=plans,
        prices=prices,
        stock=stock.value,
        works=works.value,
        hire=hire.value,
        pieces=pieces,
        adjustments=tuple(outcome.value for outcome in adjusted),
        trip=trip.value,
        visits=visits.value,
        attendance=attendance,
        folded=priced.folded,
        labour=labour,
        delivery=delivery,
        overhead=round_half_up(
            direct_cost(pieces, trip.value, attendance, rules.unit) * prices.shop.policy.overhead, rules.unit
        ),
        order_adjustments=order.value,
        amounts=amounts,
        taxes=taxes,
        divisors=divisors,
        rules=rules,
        totals=totals,
        terms=terms_of(job, totals.payable, hire.value, prices),
    )
    return Outcome(value=costed, problems=problems)


def direct_cost(pieces: Sequence[PiecePrice], trip: Trip | None, attendance: Attendance, unit: Decimal) -> Decimal:
    """Sum what the shop pays for a job itself: pieces, delivery and further hours, each rounded as printed."""
    own = sum((price.cost for price in pieces), trip.cost if trip else ZERO)
    return (own + round_half_up(attendance.cost, unit)).quantize(unit)


def attended(attendance: Attendance, prices: PriceBook, contained: Divisors) -> Fraction:
    """Give what further hours are charged at, exact: at the shop's hours, or for the target margin."""
    times = uplift(prices.shop)
    if times is None:
        return attendance.charge
    return attendance.charged_cost * times * contained[TaxCategory.LABOUR]


def _folding(trip: Trip | None, extra: Fraction, prices: PriceBook) -> dict[TaxCategory, Fraction]:
    policy = prices.shop.policy
    folding: dict[TaxCategory, Fraction] = {}
    if policy.labour_shown is Shown.IN_PIECES and extra:
        folding[TaxCategory.LABOUR] = extra
    if policy.delivery_shown is Shown.IN_PIECES and trip is not None:
        folding[TaxCategory.DELIVERY] = trip.charge
    return folding


def _labour_line(
    plans: Planned, priced: PricedPieces, extra: Fraction, prices: PriceBook, divisors: Divisors
) -> Decimal | None:
    """Give the labour line: further hours that were not folded in, and the pieces' labour where it is shown so."""
    pairs = zip(plans, priced.prices, strict=True)
    of_pieces = sum((price.labour * piece.quantity for (piece, _), price in pairs), Fraction(0))
    left = of_pieces + (Fraction(0) if TaxCategory.LABOUR in priced.folded else extra)
    return round_half_up(left / divisors[TaxCategory.LABOUR], prices.shop.currency.unit) if left else None


def _delivery_line(trip: Trip | None, priced: PricedPieces, prices: PriceBook, divisors: Divisors) -> Decimal | None:
    folds = prices.shop.policy.delivery_shown is Shown.IN_PIECES
    if trip is None or TaxCategory.DELIVERY in priced.folded or (folds and not trip.charge):
        return None
    return round_half_up(trip.charge / divisors[TaxCategory.DELIVERY], prices.shop.currency.unit)


def _amounts(
    pieces: Sequence[PiecePrice],
    adjusted: Sequence[Sequence[LineAdjustment]],
    labour: Decimal | None,
    delivery: Decimal | None,
) -> tuple[TaxableAmount, ...]:
    amounts: list[TaxableAmount] = []
    for number, (piece, adjustments) in enumerate(zip(pieces, adjusted, strict=True), 1):
        lines = [(f"piece {number}", piece.amounts)]
        lines += [(f"adjustment {number}.{place}", line.amounts) for place, line in enumerate(adjustments, 1)]
        amounts += [
            TaxableAmount(amount=amount, group=category.value, line=line)
            for line, parts in lines
            for category, amount in parts.items()
        ]
    if labour is not None:
        amounts.append(TaxableAmount(amount=labour, group=TaxCategory.LABOUR.value, line="labour"))
    if delivery is not None:
        amounts.append(TaxableAmount(amount=delivery, group=TaxCategory.DELIVERY.value, line="delivery"))
    return tuple(amounts)


def taxes_of(job: Job, prices: PriceBook) -> tuple[Tax, ...]:
    """Give the taxes on a job: those current on the event date, the tax point of a décor job; none where exempt.

    In the order of the Tax sheet, but each after the ones it goes on top of.
    """
    return () if job.exempt_reason else _taxes_on(job, prices)


def _taxes_on(job: Job, prices: PriceBook) -> tuple[Tax, ...]:
    current = {rate.code: rate for rate in prices.taxes if rate.is_current(job.event_date)}
    taxes = {
        code: Tax(
            code=code,
            name=rate.name,
            rate=rate.rate,
            groups=tuple(category.value for category in rate.applies_to),
            on_top_of=tuple(below for below in rate.on_top_of if below in current),
        )
        for code, rate in current.items()
    }
    return tuple(_below_first(taxes.values()))


def _below_first(taxes: Iterable[Tax]) -> list[Tax]:
    placed: dict[str, Tax] = {}
    waiting = list(taxes)
    while waiting:
        ready = next((tax for tax in waiting if all(code in placed for code in tax.on_top_of)), None)
        if ready is None:
            raise ValueError("taxes go on top of each other in a circle")
        placed[ready.code] = ready
        waiting.remove(ready)
    return list(placed.values())


def divisors_of(job: Job, prices: PriceBook) -> Divisors:
    """Say what prices are divided by: 1 + a category's taxes for an exempt client at prices including tax, else 1."""
    return contained_of(job, prices) if job.exempt_reason else dict.fromkeys(TaxCategory, Fraction(1))


def contained_of(job: Job, prices: PriceBook) -> Divisors:
    """Give 1 + the taxes of each category where prices include tax, else 1."""
    if not prices.shop.prices_include_tax:
        return dict.fromkeys(TaxCategory, Fraction(1))
    taxes = _taxes_on(job, prices)
    return {
        category: 1 + sum(effective_rates([tax for tax in taxes if category.value in tax.groups]), Fraction(0))
        for category in TaxCategory
    }


def rules_of(job: Job, prices: PriceBook) -> TotalsRules:
    """Give the shop's rules; an exempt client's prices contain no tax. Cash ties go up."""
    shop = prices.shop
    return TotalsRules(
        unit=shop.currency.unit,
        prices_include_tax=shop.prices_include_tax and not job.exempt_reason,
        tax_rounding=shop.tax_rounding,
        rounding=shop.rounding,
        cash_unit=shop.cash_rounding,
        group_order=CATEGORIES,
    )
