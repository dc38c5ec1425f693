"""Discounts and surcharges: which go for a job, on a piece or on the whole order, and the minimum order."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from quoting.costing.steps import round_half_up
from quoting.domain.codes import problem
from quoting.domain.jobs import Adjustment, Job
from quoting.domain.money import ZERO, shared_out
from quoting.domain.prices import PriceBook, TaxCategory
from quoting.domain.problems import Outcome, Problem
from quoting.domain.quotes import OrderAdjustment


@dataclass(frozen=True, slots=True, kw_only=True)
class LineAdjustment:
    """A discount (`amount` is negative) or surcharge on one piece; `amounts` tells it apart as the piece is."""

    adjustment: Adjustment
    amount: Decimal
    amounts: Mapping[TaxCategory, Decimal]


def applies(adjustment: Adjustment, job: Job) -> bool:
    """Tell whether an adjustment goes for a job: its job, its notice and its season.

    Notice: quoted fewer days before the event than it says. Season: the event is
    between its dates, both included; a date left open does not bound it.
    """
    if adjustment.job and adjustment.job.casefold() != job.code.casefold():
        return False
    if adjustment.notice_days is not None and (job.event_date - job.quote_date).days >= adjustment.notice_days:
        return False
    if adjustment.season_from is not None and job.event_date < adjustment.season_from:
        return False
    return adjustment.season_until is None or job.event_date <= adjustment.season_until


def adjust_piece(
    job: Job, label: str, amount: Decimal, amounts: Mapping[TaxCategory, Decimal], prices: PriceBook
) -> Outcome[tuple[LineAdjustment, ...]]:
    """Give the adjustments on one piece, as typed in order; percents are of the piece's amount, rounded half up.

    Discounts that take more than the piece and its surcharges come to hold the job.
    """
    own = [a for a in job.adjustments if a.piece and a.piece.casefold() == label.casefold() and applies(a, job)]
    unit = prices.shop.currency.unit
    lines, left = [], amount + sum((_size(a, amount, unit) for a in own if not a.is_discount), ZERO)
    for adjustment in own:
        size = _size(adjustment, amount, unit)
        if adjustment.is_discount and size > left:
            told = problem(
                "P607", adjustment.place, job=job.code, name=adjustment.name, piece=label, amount=size, most=left
            )
            return Outcome(value=(), problems=(told,))
        left -= size if adjustment.is_discount else ZERO
        signed = -size if adjustment.is_discount else size
        split = shared_out(signed, list(amounts.values()), unit)
        parts = {category: part + 0 for category, part in zip(amounts, split, strict=True)}
        lines.append(LineAdjustment(adjustment=adjustment, amount=signed, amounts=parts))
    return Outcome(value=tuple(lines))


def adjust_order(job: Job, subtotal: Decimal, prices: PriceBook) -> Outcome[tuple[OrderAdjustment, ...]]:
    """Give the adjustments on the whole order, then the charge that lifts it to the shop's minimum.

    Percents, of discounts and of surcharges alike, are of the subtotal (pieces, their
    own adjustments, delivery), each rounded half up. The minimum is for subtotal −
    discounts + charges. Discounts that take more than there is hold the job.
    """
    unit = prices.shop.currency.unit
    own = [a for a in job.adjustments if not a.piece and applies(a, job)]
    made = [
        OrderAdjustment(name=a.name, is_discount=a.is_discount, percent=a.percent, amount=_size(a, subtotal, unit))
        for a in own
    ]
    discount = sum((m.amount for m in made if m.is_discount), ZERO)
    charges = sum((m.amount for m in made if not m.is_discount), ZERO)
    problems: tuple[Problem, ...] = ()
    if discount > subtotal:
        last = [a for a in own if a.is_discount][-1]
        problems = (problem("P608", last.place, job=job.code, amount=discount, most=subtotal),)
    missing = round_half_up(prices.shop.minimum_order, unit) - (subtotal - discount + charges)
    if missing > 0:
        name = prices.wording["minimum_order_line"]
        made.append(OrderAdjustment(name=name, is_discount=False, percent=None, amount=missing))
    return Outcome(value=tuple(made), problems=problems)


def order_adjustments_of(job: Job) -> Sequence[Adjustment]:
    """Give the adjustments on the whole order that go for a job, in the order of `adjust_order`."""
    return [a for a in job.adjustments if not a.piece and applies(a, job)]


def _size(adjustment: Adjustment, base: Decimal, unit: Decimal) -> Decimal:
    if adjustment.percent is not None:
        return round_half_up(base * adjustment.percent, unit)
    return round_half_up(adjustment.amount or ZERO, unit)
