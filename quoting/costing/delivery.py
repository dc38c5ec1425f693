"""What it takes to bring a job and fetch it back: distance, loads, vans, tolls, parking, waiting."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from quoting.costing.labour import PieceWork
from quoting.costing.loads import loads_of, trips_of
from quoting.costing.steps import round_half_up
from quoting.costing.stock import Planned
from quoting.domain.codes import problem
from quoting.domain.crews import Loads, Van
from quoting.domain.jobs import Job
from quoting.domain.money import ZERO
from quoting.domain.prices import DeliveryBand, PriceBook
from quoting.domain.problems import Outcome

KM_PER_MILE = Decimal("1.609344")
"""Exact by definition of the international mile."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Trip:
    """Delivery of a job: what it is charged at, exact, and its cost, rounded.

    `distance` and `start` (where the band begins, or free travel ends) are in the
    shop's unit, one way. `band` is None where a rate per distance is charged instead.
    `trips` are drives out and back; `passed_on` are tolls and parking, at cost.
    """

    band: DeliveryBand | None
    distance: Fraction
    start: Fraction
    loads: Loads
    van: Van | None
    trips: int
    passed_on: Decimal
    waiting_minutes: Decimal
    charge: Fraction
    cost: Decimal

    @property
    def beyond(self) -> Fraction:
        """Distance past the end of the band before this one, or past free travel."""
        return max(Fraction(0), self.distance - self.start)


def shop_distance(distance_km: Decimal, prices: PriceBook) -> Fraction:
    """Give a distance in the shop's unit."""
    return Fraction(distance_km) / Fraction(KM_PER_MILE if prices.shop.distance_unit == "mi" else 1)


def trip_of(job: Job, plans: Planned, works: Sequence[PieceWork], prices: PriceBook) -> Outcome[Trip | None]:
    """Give the delivery of a job, None where the client collects; a distance that is missing or too far holds it.

    One drive out and back comes to its band's charge (or the rate × distance beyond
    free travel × 2) and its van's; times the trips; tolls and parking as typed and
    waiting at the venue's hour come on top, once. The cost of a rate has no free
    distance. P605, P606 and P660 hold the job.
    """
    if job.is_collected:
        return Outcome(value=None)
    where = job.where("distance")
    if job.distance_km is None:
        return Outcome(value=None, problems=(problem("P605", where, job=job.code),))
    distance = shop_distance(job.distance_km, prices)
    found = _band_for(job.distance_km, prices.delivery)
    is_by_rate = prices.shop.policy.distance_charge is not None
    if found is None and not is_by_rate:
        told = f"{float(distance):.6g} {prices.shop.distance_unit}"
        return Outcome(
            value=None, problems=(problem("P606", where, seen=job.row.seen("distance"), job=job.code, distance=told),)
        )
    loaded = loads_of(job, plans, prices)
    loads, van = loaded.value
    if is_by_rate or found is None:
        band, start = None, Fraction(prices.shop.policy.free_distance)
    else:
        band, start = found[0], shop_distance(found[1], prices)
    trip = _priced(job, prices, band, (distance, start), (loads, van, trips_of(loads, works, prices)))
    return Outcome(value=trip, problems=loaded.problems)


def _priced(
    job: Job, prices: PriceBook, band: DeliveryBand | None, way: tuple[Fraction, Fraction],
    loaded: tuple[Loads, Van | None, int],
) -> Trip:  # fmt: skip
    (distance, start), (loads, van, trips) = way, loaded
    shop, policy, beyond = prices.shop, prices.shop.policy, max(Fraction(0), way[0] - way[1])
    if band is None:
        charge = 2 * Fraction(policy.distance_charge or ZERO) * beyond
        cost = 2 * Fraction(policy.distance_cost) * distance
    else:
        charge = Fraction(band.charge) + Fraction(band.charge_per_further) * beyond
        cost = Fraction(band.cost) + Fraction(band.cost_per_further) * beyond
    passed_on, waiting = job.access.tolls + job.access.parking, job.access.waiting_minutes
    fixed = (ZERO, ZERO) if van is None else (van.charge, van.cost)
    wait = Fraction(waiting) / 60
    return Trip(
        band=band,
        distance=distance,
        start=start,
        loads=loads,
        van=van,
        trips=trips,
        passed_on=passed_on,
        waiting_minutes=waiting,
        charge=(charge + Fraction(fixed[0])) * trips + Fraction(passed_on) + wait * Fraction(shop.venue_charge),
        cost=round_half_up(
            (cost + Fraction(fixed[1])) * trips + Fraction(passed_on) + wait * Fraction(shop.venue_cost),
            shop.currency.unit,
        ),
    )


def _band_for(distance_km: Decimal, bands: Sequence[DeliveryBand]) -> tuple[DeliveryBand, Decimal] | None:
    """Find the band of a distance, and where the band before it ends."""
    start = ZERO
    limited = sorted((b for b in bands if b.up_to_km is not None), key=lambda b: b.up_to_km or ZERO)
    for band in limited:
        assert band.up_to_km is not None
        if distance_km <= band.up_to_km:
            return band, start
        start = band.up_to_km
    open_ended = next((b for b in bands if b.up_to_km is None), None)
    return None if open_ended is None else (open_ended, start)
