"""What it takes to bring a job and fetch what is hired: the band that its distance falls in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from quoting.costing.steps import round_half_up
from quoting.domain.codes import problem
from quoting.domain.jobs import Job
from quoting.domain.money import ZERO
from quoting.domain.prices import DeliveryBand, PriceBook
from quoting.domain.problems import Outcome

KM_PER_MILE = Decimal("1.609344")
"""Exact by definition of the international mile."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Trip:
    """Delivery of a job: what it is charged at, exact, and its cost, rounded.

    `distance`, `start` (where the band begins) and `beyond` are in the shop's unit, one way.
    """

    band: DeliveryBand
    distance: Fraction
    start: Fraction
    charge: Fraction
    cost: Decimal

    @property
    def beyond(self) -> Fraction:
        """Distance past the end of the band before this one."""
        return max(Fraction(0), self.distance - self.start)


def trip_of(job: Job, prices: PriceBook) -> Outcome[Trip | None]:
    """Give the delivery of a job, None where the client collects; a distance that is missing or too far holds it.

    The band is the first that reaches the distance. What it asks per further mile or
    kilometre counts from the end of the band before it (from 0 for the first), one way.
    """
    if job.is_collected:
        return Outcome(value=None)
    where = job.where("distance")
    if job.distance_km is None:
        return Outcome(value=None, problems=(problem("P605", where, job=job.code),))
    unit_km = KM_PER_MILE if prices.shop.distance_unit == "mi" else Decimal(1)
    distance = Fraction(job.distance_km) / Fraction(unit_km)
    found = _band_for(job.distance_km, prices.delivery)
    if found is None:
        told = f"{float(distance):.6g} {prices.shop.distance_unit}"
        return Outcome(
            value=None, problems=(problem("P606", where, seen=job.row.seen("distance"), job=job.code, distance=told),)
        )
    band, start_km = found
    start = Fraction(start_km) / Fraction(unit_km)
    beyond = max(Fraction(0), distance - start)
    unit = prices.shop.currency.unit
    trip = Trip(
        band=band,
        distance=distance,
        start=start,
        charge=Fraction(band.charge) + Fraction(band.charge_per_further) * beyond,
        cost=round_half_up(Fraction(band.cost) + Fraction(band.cost_per_further) * beyond, unit),
    )
    return Outcome(value=trip)


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
