"""Sheets, price books and suppliers for the tests of buying. All data invented."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

from costing_made import PRICES, job, piece, plan, prices

from quoting.costing.buying import fill_basket
from quoting.costing.buying_notes import buying_notes
from quoting.costing.jobs import cost_job
from quoting.domain.prices import Balloon, BreakagePolicy, ChargeBy, Hardware, Pack, Shape, Supplier
from quoting.domain.quotes import Cautions

D = Decimal
RUN = date(2031, 5, 14)


def supplier(name, minimum="0", charge="0", free=None, lead=0):
    return Supplier(
        name=name, minimum_order=D(minimum), delivery_charge=D(charge),
        free_from=None if free is None else D(free), lead_days=lead, place=PRICES,
    )


def pack(count, price, supplier="wholesale", **changes):
    made = Pack(count=count, price=D(price), supplier=supplier, price_from=None, price_until=None, place=PRICES)
    return replace(made, **changes)


def balloon(item, *packs, on_hand=0, **changes):
    """A round of 11 in that never breaks, so that counts are as asked for."""
    made = Balloon(
        item=item, shape=Shape.ROUND, size=11, finish="matt", colour=item, usual_fill_cm=D(24), packs=packs,
        sell_each=D(1), breakage=D(0), on_hand=on_hand, charge_by=ChargeBy.BALLOON, place=PRICES,
    )
    return replace(made, **changes)


def thing(item, part="frame", *, hire=True, cost="5", **changes):
    made = Hardware(
        item=item, part=part, is_usual=False, is_hire=hire, cost=D(cost), charge=D(20), owned=None, length_cm=None,
        diameter_cm=None, mass_kg=None, damage_hold=D(0), price_from=None, price_until=None, place=PRICES,
    )
    return replace(made, **changes)


def book(*balloons, hardware=(), suppliers=()):
    flat = {"breakage_policy": BreakagePolicy.FLAT_SHARE, "flat_share": D(0)}
    return prices(flat, balloons=balloons, hardware=hardware, suppliers=suppliers)


def a_job(code, day, *parts, hire=(), gas=0.0, strike=None, book):
    """A job that is installed on its event's day; gives the job and its sheet."""
    plans = [(replace(piece("A"), job=code), plan(parts, hire=hire, gas_litres=gas))]
    made = job(
        [plans[0][0]], code=code, event_date=day, install_date=day, strike_date=strike, is_collected=True,
        quote_date=RUN,
    )
    costed = cost_job(made, plans, book, Cautions())
    assert costed.value is not None, costed.problems
    return made, costed.value


def bought(prices_, *jobs, run=RUN):
    """The purchase of jobs made by `a_job`, and what the owner is told."""
    sheets = [sheet for _, sheet in jobs]
    basket = fill_basket(sheets, prices_, run)
    return basket.purchase, buying_notes(basket, sheets, {made.code: made for made, _ in jobs})


def days(number):
    return RUN + timedelta(days=number)
