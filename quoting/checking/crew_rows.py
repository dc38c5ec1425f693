"""Hours, crews, vans and the policy of prices: from checked rows to what the price book holds."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date
from decimal import Decimal
from types import MappingProxyType
from zoneinfo import ZoneInfo

from quoting.checking.pool import Pool
from quoting.checking.public_holidays import public_holidays
from quoting.checking.values import RowReader
from quoting.domain.cells import Row
from quoting.domain.crews import Access, CrewRules, HourRate, PricePolicy, Shown, StrikeTrip, Van

ZERO = Decimal(0)
KM_PER_MILE = Decimal("1.609344")
"""Exact by definition of the international mile."""

WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
"""As the Rates sheet names them, and as `date.weekday` counts them."""


def crew_rules(row: Row) -> CrewRules:
    """The people and hours of a checked Shop row; its time zone has been found to be one."""
    read = RowReader("shop", row)
    zone = read.text("time_zone")
    return CrewRules(
        crew_limit=read.whole("crew_limit"), unloading_minutes=_number(read, "unloading_minutes"),
        walk_in_minutes=_number(read, "walk_in_minutes"), setup_minutes=_number(read, "setup_minutes"),
        flight_minutes=_number(read, "flight_minutes"), minimum_hours=_number(read, "minimum_hours"),
        hours_step=_number(read, "hours_step"), longest_shift=_number(read, "longest_shift"),
        hours_per_day=read.amount("hours_per_day"), speed=read.amount("speed"),
        good_days=read.needed(read.whole("good_days"), "good_days"), zone=ZoneInfo(zone) if zone else None,
    )


def price_policy(row: Row) -> PricePolicy:
    """The policy of prices of a checked Shop row."""
    read = RowReader("shop", row)
    unit_km = KM_PER_MILE if read.text("distance_unit") == "mi" else Decimal(1)
    return PricePolicy(
        target_margin=read.amount("target_margin"), overhead=_number(read, "overhead"),
        price_step=_number(read, "price_step"), delivery_shown=Shown(read.text("delivery_shown")),
        labour_shown=Shown(read.text("labour_shown")), free_distance=_number(read, "free_distance") / unit_km,
        distance_charge=read.amount("distance_charge"), distance_cost=_number(read, "distance_cost"),
        strike_trip=StrikeTrip(read.text("strike_trip")),
    )


def _number(read: RowReader, key: str) -> Decimal:
    return read.needed(read.amount(key), key)


def hour_rates(pool: Pool) -> tuple[HourRate, ...]:
    """The rates of the Rates sheet; none where one of its rows is wrong, as then no hour can be rated."""
    return () if pool.bad("rates") else tuple(_hour_rate(row) for row in pool.good("rates"))


def _hour_rate(row: Row) -> HourRate:
    read = RowReader("rates", row)
    return HourRate(
        name=read.text("rate"), factor=_number(read, "factor"), start=read.hour("from"), end=read.hour("until"),
        days=tuple(sorted(WEEKDAYS.index(day) for day in read.texts("days"))), is_holiday=read.flag("on_holidays"),
        place=row.place,
    )


def vans(pool: Pool) -> tuple[Van, ...]:
    """The vans of the Vans sheet; none where one of its rows is wrong."""
    return () if pool.bad("vans") else tuple(_van(row) for row in pool.good("vans"))


def _van(row: Row) -> Van:
    read = RowReader("vans", row)
    return Van(
        van=read.text("van"), usable_litres=_number(read, "usable_litres"), length_cm=read.amount("length"),
        door_height_cm=read.amount("door_height"), charge=_number(read, "charge"), cost=_number(read, "cost"),
        place=row.place,
    )


def holidays_of(pool: Pool) -> Mapping[date, str]:
    """Public holidays of the years around the jobs' dates: the country's, changed by the Holidays sheet."""
    found: dict[date, str] = {}
    years = sorted({day.year + more for day in _dates(pool.good("jobs")) for more in (-1, 0, 1)})
    shop = pool.good("shop")
    country, region = (str(shop[0].get(key, "")) for key in ("country", "region")) if shop else ("", "")
    if country and years:
        found.update(public_holidays(country, region, years) or {})
    for row in pool.good("holidays"):
        read = RowReader("holidays", row)
        day = read.needed(read.day("day"), "day")
        if read.flag("is_holiday"):
            found[day] = read.text("name")
        else:
            found.pop(day, None)
    return MappingProxyType(dict(sorted(found.items())))


def _dates(rows: Iterable[Row]) -> Iterator[date]:
    for row in rows:
        for key in ("event_date", "install_date", "strike_date"):
            value = row.get(key)
            if isinstance(value, date):
                yield value


def access_of(row: Row) -> Access:
    """What a checked Jobs row says of the way into its venue."""
    read = RowReader("jobs", row)
    return Access(
        access_from=read.hour("access_from"), access_until=read.hour("access_until"),
        setup_minutes=read.amount("setup_minutes"), walk_in_minutes=read.amount("walk_in_minutes"),
        flights=read.whole("flights") or 0, tolls=_number(read, "tolls"), parking=_number(read, "parking"),
        waiting_minutes=_number(read, "waiting_minutes"),
    )
