"""Hours by the clock, crews, vans and the policy of prices: what the owner sets, and what a job's day comes to."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime, time, tzinfo
from decimal import Decimal
from enum import StrEnum

from quoting.domain.places import Place

HIGH_CM = 200.0
"""Common practice, no source: work over 2 m high takes two people, as does any ladder or lift."""
WIDE_CM = 300.0
"""Common practice, no source: so does a piece over 3 m wide."""


class Shown(StrEnum):
    """Where a part of the price stands on the quote; the values are what an owner types."""

    IN_PIECES = "in the pieces"
    OWN_LINE = "own line"


class StrikeTrip(StrEnum):
    """Whether fetching things back is a delivery charge of its own; the values are what an owner types."""

    INCLUDED = "in the charge"
    AGAIN = "charged again"


@dataclass(frozen=True, slots=True, kw_only=True)
class HourRate:
    """When venue hours cost and are charged `factor` times the plain rate.

    `days` are weekdays as `date.weekday` counts them, () for every day unless
    `is_holiday` is set: then for public holidays, beside the days named. A time that
    ends before it begins goes past midnight and belongs to the day on which it began;
    without times it is the whole day. Of several rates at one moment the highest holds.
    """

    name: str
    factor: Decimal
    start: time | None
    end: time | None
    days: tuple[int, ...]
    is_holiday: bool
    place: Place

    def is_on(self, day: date, holidays: Mapping[date, str]) -> bool:
        """True where the rate begins on `day`."""
        if self.is_holiday and day in holidays:
            return True
        return day.weekday() in self.days if self.days else not self.is_holiday


@dataclass(frozen=True, slots=True, kw_only=True)
class Van:
    """One kind of vehicle: usable litres, length and door height inside in cm (None: any), money per trip both ways."""

    van: str
    usable_litres: Decimal
    length_cm: Decimal | None
    door_height_cm: Decimal | None
    charge: Decimal
    cost: Decimal
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class CrewRules:
    """The shop's people and their time, as the Shop sheet says. Minutes and hours are for the whole crew together."""

    crew_limit: int | None = None
    """Most people the shop can send to one job or have at work at one moment; None: not said."""
    unloading_minutes: Decimal = Decimal(0)
    walk_in_minutes: Decimal = Decimal(0)
    setup_minutes: Decimal = Decimal(0)
    """Of one pair of hands, per job: laying out before and clearing away after."""
    flight_minutes: Decimal = Decimal(0)
    """Of one pair of hands, for each piece and each flight of stairs, on the way in."""
    minimum_hours: Decimal = Decimal(0)
    """Hours charged and paid at the least for each visit that has work."""
    hours_step: Decimal = Decimal(0)
    """Minutes; the hours of a visit are rounded up to a multiple. 0: they are not rounded."""
    longest_shift: Decimal = Decimal(10)
    """Hours a crew works at a stretch. Common practice, no source."""
    hours_per_day: Decimal | None = None
    """Hours of work the shop has on a day, all people together; None: not said."""
    speed: Decimal | None = None
    """Average speed on the road, in the shop's unit of distance per hour; None: 30 mi or 50 km, common practice."""
    good_days: int = 2
    """Days that air-filled latex keeps indoors before the install. Common practice, no source."""
    zone: tzinfo | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PricePolicy:
    """How costs become prices, as the Shop sheet says. Shares are fractions."""

    target_margin: Decimal | None = None
    """Where given, prices that are not fixed come from cost ÷ (1 − this) instead of markup and charged hours."""
    overhead: Decimal = Decimal(0)
    """Added to every job's own cost."""
    price_step: Decimal = Decimal(0)
    """Prices that are not fixed go to the nearest multiple of this; 0: to the smallest coin."""
    delivery_shown: Shown = Shown.OWN_LINE
    labour_shown: Shown = Shown.IN_PIECES
    free_distance: Decimal = Decimal(0)
    """In the shop's unit, one way; only with a rate."""
    distance_charge: Decimal | None = None
    """Per unit of distance, charged both ways beyond the free distance; None: by the Delivery sheet."""
    distance_cost: Decimal = Decimal(0)
    strike_trip: StrikeTrip = StrikeTrip.INCLUDED


@dataclass(frozen=True, slots=True, kw_only=True)
class Access:
    """What the Jobs sheet says of the way into one venue; None: the shop's own figure, or not known."""

    access_from: time | None = None
    access_until: time | None = None
    setup_minutes: Decimal | None = None
    walk_in_minutes: Decimal | None = None
    flights: int = 0
    tolls: Decimal = Decimal(0)
    parking: Decimal = Decimal(0)
    waiting_minutes: Decimal = Decimal(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanStep:
    """One step of a crew's day, in local time; without a clock only `minutes` is known."""

    what: str
    minutes: Decimal
    start: datetime | None = None
    end: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class RatedHours:
    """Hours of one pair of hands at one rate; `name` is "" for the plain rate."""

    name: str
    factor: Decimal
    hours: Decimal


@dataclass(frozen=True, slots=True, kw_only=True)
class Visit:
    """One visit of a crew to a venue: `kind` is "install" or "strike".

    `work_hours` are those of one pair of hands, set-up included, `billed_hours` the
    same after rounding and the minimum call-out; `travel_hours` are the whole crew's
    on the road. `needs_two` where something is high or wide.
    """

    kind: str
    day: date
    crew: int
    needs_two: bool
    work_hours: Decimal
    billed_hours: Decimal
    travel_hours: Decimal
    rated: tuple[RatedHours, ...]
    steps: tuple[PlanStep, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Loads:
    """How a job goes on the road: how many loads, in which van ("" where the Vans sheet names none)."""

    van: str
    count: int
    litres: float
    longest_cm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class DayJob:
    """One job's hours of one pair of hands on one day, and the people at its venue."""

    job: str
    client: str
    workshop: Decimal
    venue: Decimal
    travel: Decimal
    crew: int

    @property
    def hours(self) -> Decimal:
        """All of them."""
        return self.workshop + self.venue + self.travel


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkDay:
    """One date over all jobs. `crew`: most people at venues at one moment; `available` hours: None where not said."""

    day: date
    jobs: tuple[DayJob, ...]
    crew: int
    available: Decimal | None
    crew_limit: int | None

    @property
    def hours(self) -> Decimal:
        """Hours of all jobs."""
        return sum((job.hours for job in self.jobs), Decimal(0))

    @property
    def over_hours(self) -> Decimal:
        """Hours beyond what the shop has; 0 where they suffice or nothing is said."""
        return Decimal(0) if self.available is None else max(Decimal(0), self.hours - self.available)

    @property
    def is_overbooked(self) -> bool:
        """True where hours or people don't suffice."""
        return self.over_hours > 0 or (self.crew_limit is not None and self.crew > self.crew_limit)
