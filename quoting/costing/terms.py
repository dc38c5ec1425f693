"""Until when a quote is valid, and what is due when."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta
from decimal import Decimal

from quoting.costing.steps import round_half_up
from quoting.domain.jobs import Job
from quoting.domain.money import ZERO
from quoting.domain.prices import PriceBook
from quoting.domain.quotes import HireLine, Terms


def terms_of(job: Job, payable: Decimal, hire: Sequence[HireLine], prices: PriceBook) -> Terms:
    """Give the terms of a job.

    Valid for the shop's days, but not past the event. The balance is due so many days
    before the event, but not before the quote; the deposit so many days after the
    quote, but not after the balance. The deposit is its share of the amount due,
    rounded half up; the balance is the rest. The damage hold is that of each hired
    thing times its count: refundable, not taxed, part of no total.
    """
    shop = prices.shop
    share = shop.deposit if job.deposit is None else job.deposit
    deposit = round_half_up(payable * share, shop.currency.unit)
    balance_due = max(job.event_date - timedelta(days=shop.balance_days), job.quote_date)
    return Terms(
        valid_until=max(job.quote_date, min(job.quote_date + timedelta(days=shop.valid_days), job.event_date)),
        deposit_share=share,
        deposit=deposit,
        deposit_due=min(job.quote_date + timedelta(days=shop.deposit_days), balance_due),
        balance=payable - deposit,
        balance_due=balance_due,
        damage_hold=_damage_hold(hire, prices),
    )


def _damage_hold(hire: Sequence[HireLine], prices: PriceBook) -> Decimal:
    held = ZERO
    for line in hire:
        hardware = prices.hardware_item(line.item)
        held += hardware.damage_hold * line.count if hardware is not None else ZERO
    return round_half_up(held, prices.shop.currency.unit)
