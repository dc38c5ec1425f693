"""Local times and the true time between them, changed clocks included."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta, tzinfo
from fractions import Fraction


def instant(local: datetime, zone: tzinfo | None) -> datetime:
    """Give a local time as an instant in UTC; without a zone no clock is ever changed.

    A time that comes twice when clocks go back is the first; one that clocks skip is
    taken as if they had not been changed yet.
    """
    return local.replace(tzinfo=UTC) if zone is None else local.replace(tzinfo=zone, fold=0).astimezone(UTC)


def local_time(moment: datetime, zone: tzinfo | None) -> datetime:
    """Give an instant as the clock on the wall shows it there, without its zone."""
    return (moment if zone is None else moment.astimezone(zone)).replace(tzinfo=None)


def seconds_between(start: datetime, end: datetime, zone: tzinfo | None) -> Fraction:
    """Give the true seconds between two local times, changed clocks included."""
    gap = instant(end, zone) - instant(start, zone)
    return Fraction(gap.days * 86400 + gap.seconds) + Fraction(gap.microseconds, 1_000_000)


def later(local: datetime, seconds: Fraction, zone: tzinfo | None) -> datetime:
    """Give the local time so many seconds after another (before it where negative), to the microsecond."""
    return local_time(instant(local, zone) + timedelta(microseconds=round(seconds * 1_000_000)), zone)
