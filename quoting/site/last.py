"""Does it last: hours afloat, cold, heat, thin air, sun and rough ground."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from datetime import datetime, time, timedelta, tzinfo
from decimal import Decimal
from fractions import Fraction

from quoting.domain.clocks import instant, later, seconds_between
from quoting.domain.jobs import Job, Piece
from quoting.domain.measures import CM_PER_INCH, fill_words
from quoting.domain.plans import Part, Plan
from quoting.domain.prices import Balloon, Shape
from quoting.geometry.gas import ZERO_CELSIUS_KELVIN, air_pressure
from quoting.site.lookout import Lookout
from quoting.site.words import fill_figure, hours_figure, moment_words

HELIUM = "helium"
"""Role of the parts of a plan that are filled with it."""
EVENT_HOURS = 4
"""Taken where nobody has said when the event ends; common practice, no source."""
HOURS_OF_SETTING_UP = 2
"""Before the event, where nobody has said when it is set up; common practice, no source."""
LATE = time(22)
"""End of an event of which neither beginning nor end is known; our own choice."""
HOUR = 3600
"""Seconds."""
HAIR = 1e-6
"""Float noise of a fill in cm."""
NOTICEABLE = 0.005
"""Share of its diameter by which a balloon may change unseen; our own choice."""
OUTDOORS_BREAKAGE = Decimal("0.05")
"""Common practice, no source: 5 % outdoors, 10 % on grass, in heat or after a long haul."""


def check_last(look: Lookout) -> None:
    """Flag what does not last to the end of the event, or needs care to.

    P720 and P724 are notes, P721 to P723 and P725 to P728 flags only.
    """
    for number, (piece, plan) in enumerate(look.plans, 1):
        _check_afloat(look, number, piece, plan)
    _check_change(look)
    _check_outdoors(look)
    if look.job.has_children and any(True for _ in _balloons(look)):
        look.flag("P728", is_for_client=True)  # the client's line is among the cautions of every job


def event_end(job: Job, zone: tzinfo | None = None) -> datetime:
    """The event's end: as typed (on the next day where before its beginning), 4 hours after it begins, or 22:00.

    As local clocks show it; hours are counted through changes of the clocks in `zone`.
    """
    if job.event_end is not None:
        is_next_day = job.event_time is not None and job.event_end < job.event_time
        return datetime.combine(job.event_date, job.event_end) + timedelta(days=is_next_day)
    if job.event_time is not None:
        return later(datetime.combine(job.event_date, job.event_time), Fraction(EVENT_HOURS * HOUR), zone)
    return datetime.combine(job.event_date, LATE)


def filling(job: Job, hours_before: Decimal, zone: tzinfo | None = None) -> datetime:
    """When helium balloons are filled: so many hours before set-up begins, and never after the event's end.

    Set-up begins as typed, else 2 hours before an event of the same day, else at noon;
    local time, as `event_end`.
    """
    if job.install_time is not None:
        begins = datetime.combine(job.install_date, job.install_time)
    elif job.event_time is not None and job.install_date == job.event_date:
        begins = later(datetime.combine(job.event_date, job.event_time), Fraction(-HOURS_OF_SETTING_UP * HOUR), zone)
    else:
        begins = datetime.combine(job.install_date, time(12))
    filled = later(begins, -Fraction(hours_before) * HOUR, zone)
    return min(filled, event_end(job, zone), key=lambda moment: instant(moment, zone))


def growth(filled_celsius: float, venue_celsius: float, filled_m: float, venue_m: float) -> float:
    """Diameter at the venue ÷ diameter where it was filled, by the gas law; altitudes in m over the sea.

    The pressure of the rubber itself, a few parts in a hundred of the air's, is left out.

    >>> round(growth(20, 0, 0, 0), 4)
    0.9767
    """
    warmth = (venue_celsius + ZERO_CELSIUS_KELVIN) / (filled_celsius + ZERO_CELSIUS_KELVIN)
    return float((warmth * air_pressure(filled_m) / air_pressure(venue_m)) ** (1 / 3))


def _check_afloat(look: Lookout, number: int, piece: Piece, plan: Plan) -> None:
    floating = {part.item: look.prices.balloon(part.item) for part in plan.parts if part.role == HELIUM and part.count}
    balloons = [balloon for balloon in floating.values() if balloon is not None]
    if not balloons:
        return
    needed = _add_hours(look)
    unknown = [balloon for balloon in balloons if balloon.hours_afloat is None]
    if unknown:
        facts = {"items": ", ".join(b.item for b in unknown), "other": unknown[0].place, "needed": _hours(needed)}
        look.flag("P722", piece, facts, figures=(hours_figure("needed", needed),))
    for hours in sorted({balloon.hours_afloat for balloon in balloons if balloon.hours_afloat is not None}):
        items = ", ".join(balloon.item for balloon in balloons if balloon.hours_afloat == hours)
        key = f"afloat {number}, {hours:f} h"
        look.given(key, f"Hours that {items} float", float(hours), unit="h", words="Balloons sheet")
        look.step(f"spare {number}, {hours:f} h", f"Hours to spare, piece {piece.label}", float(hours) - needed,
                  f"{{{key}}}-{{needed}}", unit="h")
        _judge_hours(look, piece, items, float(hours), needed)


def _judge_hours(look: Lookout, piece: Piece, items: str, afloat: float, needed: float) -> None:
    zone = look.shop.crew.zone
    latest = later(event_end(look.job, zone), -Fraction(afloat) * HOUR, zone)
    facts = {"items": items, "afloat": _hours(afloat), "needed": _hours(needed), "latest": moment_words(latest)}
    figures = (hours_figure("afloat", afloat), hours_figure("needed", needed))
    if afloat >= needed:
        look.flag("P721", piece, facts, figures=figures)
        return
    look.complain("P720", piece, "piece", facts, figures=figures, is_for_client=True)
    look.tell_client("caution_afloat", item=piece.title or piece.form, hours=_hours(afloat))


def _add_hours(look: Lookout) -> float:
    """Add hours from filling to the event's end under "needed"."""
    job, zone = look.job, look.shop.crew.zone
    midnight = datetime.combine(job.install_date, time())
    filled, ends = (
        float(seconds_between(midnight, moment, zone) / HOUR)
        for moment in (filling(job, look.shop.inflate_before, zone), event_end(job, zone))
    )
    look.given("filled", "Filling, hours after midnight before set-up", filled, unit="h",
               words="as far before set-up as the Shop sheet says" if job.install_time else "hour of set-up not given")
    look.given("ends", "End of the event, hours after the same midnight", ends, unit="h",
               words="Jobs sheet" if job.event_end else f"not given: {EVENT_HOURS} h after it begins, else 22:00")
    look.step("needed", "Hours it must float", ends - filled, "{ends}-{filled}", unit="h")
    return ends - filled


def _check_change(look: Lookout) -> None:
    """What cold, heat and altitude make of the balloons between shop and venue."""
    job, shop = look.job, look.shop
    if job.celsius is None and job.altitude_cm is None:
        return
    inside, here = float(shop.room_celsius), float(shop.altitude_cm) / 100
    there = here if job.altitude_cm is None else float(job.altitude_cm) / 100
    celsius = inside if job.celsius is None else float(job.celsius)
    factor = growth(inside, celsius, here, there)
    parts = [part for part, _ in _balloons(look)]
    if not parts or abs(factor - 1) < NOTICEABLE:
        return
    _add_change(look, inside, celsius, (here, there), factor)
    fill = max(part.fill_cm or 0.0 for part in parts)
    facts = {"change": f"{abs(factor - 1) * 100:.1f}", "celsius": f"{celsius:g}", "fill": _fill(look, fill),
             "becomes": _fill(look, fill * factor)}
    figures = (fill_figure("becomes", fill * factor, shop),)
    look.flag("P723" if factor < 1 else "P725", None, facts, figures=figures)
    _check_growth(look, factor)


def _add_change(look: Lookout, inside: float, celsius: float, metres: tuple[float, float], factor: float) -> None:
    look.given("shop celsius", "Temperature where balloons are filled", inside, unit="°C", words="Shop sheet")
    look.given("celsius", "Temperature at the venue", celsius, unit="°C", words="Jobs sheet, else as in the shop")
    for key, label, altitude in (("shop", "in the shop", metres[0]), ("venue", "at the venue", metres[1])):
        look.given(f"{key} air", f"Pressure of the air {label}", air_pressure(altitude), unit="kPa",
                   words=f"standard atmosphere (ISO 2533) at {altitude:.0f} m")
    kelvin = ZERO_CELSIUS_KELVIN
    look.step("growth", "Diameter at the venue ÷ diameter in the shop", factor,
              f"(({{celsius}}+{kelvin})/({{shop celsius}}+{kelvin})*{{shop air}}/{{venue air}})^(1/3)",
              words="gas law; diameters go with the cube root of volumes")


def _check_growth(look: Lookout, factor: float) -> None:
    """Rounds must not grow beyond their nominal size; all of one size and fill in a piece are told together."""
    for piece, plan in look.plans:
        grown: dict[tuple[int, float], list[str]] = defaultdict(list)
        for part, balloon in _inflated(look, plan):
            fill = part.fill_cm or 0.0
            is_over = factor > 1 and fill * factor > float(balloon.size_cm) + HAIR
            if balloon.shape is Shape.ROUND and is_over:
                grown[balloon.size, fill].append(balloon.item)
        for (size, fill), items in grown.items():
            _say_overgrown(look, piece, size, fill, (factor, ", ".join(dict.fromkeys(items))))


def _say_overgrown(look: Lookout, piece: Piece, size: int, fill: float, grown: tuple[float, str]) -> None:
    factor, items = grown
    facts = {"items": items, "fill": _fill(look, fill), "becomes": _fill(look, fill * factor), "size": size,
             "most": _fill(look, size * CM_PER_INCH / factor)}
    look.complain("P724", piece, "fill", facts, figures=(fill_figure("becomes", fill * factor, look.shop),))


def _check_outdoors(look: Lookout) -> None:
    balloons = [balloon for _, balloon in _balloons(look)]
    if not look.job.is_outdoors or not balloons:
        return
    look.flag("P726")
    own = (look.shop.breakage_chance if b.breakage is None else b.breakage for b in balloons)
    least = max(min(own), look.shop.breakage_outdoors)
    if least < OUTDOORS_BREAKAGE:
        look.flag("P727", None, {"chance": f"{float(least * 100):g} %"})


def _balloons(look: Lookout) -> Iterator[tuple[Part, Balloon]]:
    """Every inflated part of the job with its balloon."""
    for _, plan in look.plans:
        yield from _inflated(look, plan)


def _inflated(look: Lookout, plan: Plan) -> Iterator[tuple[Part, Balloon]]:
    for part in plan.parts:
        balloon = look.prices.balloon(part.item) if part.count and part.fill_cm is not None else None
        if balloon is not None:
            yield part, balloon


def _hours(hours: float) -> str:
    return hours_figure("", hours).shown


def _fill(look: Lookout, cm: float) -> str:
    return fill_words(cm, look.shop.length_unit)


