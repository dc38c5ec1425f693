"""Hours by the clock: work cut where an evening, a night, a weekend or a public holiday begins or ends."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta, tzinfo
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise

from quoting.domain.clocks import instant, later
from quoting.domain.crews import HourRate

PLAIN = Decimal(1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """A stretch at one rate, in seconds after the work began; `name` is "" for the plain rate."""

    start: Fraction
    end: Fraction
    name: str
    factor: Decimal

    @property
    def seconds(self) -> Fraction:
        """How long it is."""
        return self.end - self.start


def cut_hours(
    start: datetime,
    seconds: Fraction,
    rates: Sequence[HourRate],
    holidays: Mapping[date, str],
    zone: tzinfo | None = None,
) -> tuple[Span, ...]:
    """Cut work that begins at a local time wherever its rate changes; the spans add up to `seconds`.

    Of several rates that hold at one moment the highest counts, of equal ones the
    earlier in the sheet; they are never added up. Where none holds the rate is plain.
    """
    if seconds <= 0:
        return ()
    begun = instant(start, zone)
    periods = [
        (_after(begun, opened), _after(begun, closed), rate)
        for rate in rates
        for opened, closed in _periods(rate, start.date(), later(start, seconds, zone).date(), holidays, zone)
    ]
    edges = {Fraction(0), seconds}
    edges |= {edge for opened, closed, _ in periods for edge in (opened, closed) if 0 < edge < seconds}
    spans: list[Span] = []
    ordered = sorted(edges)
    for opened, closed in pairwise(ordered):
        name, factor = _dearest(rate for begin, end, rate in periods if begin <= opened and closed <= end)
        last = spans[-1] if spans else None
        if last is not None and (last.name, last.factor) == (name, factor):
            spans[-1] = Span(start=last.start, end=closed, name=name, factor=factor)
        else:
            spans.append(Span(start=opened, end=closed, name=name, factor=factor))
    return tuple(spans)


def whole_day(
    day: date, seconds: Fraction, rates: Sequence[HourRate], holidays: Mapping[date, str]
) -> tuple[Span, ...]:
    """Rate work of which only the day is known: rates that hold all day count, those by the clock can't."""
    if seconds <= 0:
        return ()
    name, factor = _dearest(r for r in rates if r.start is None and r.end is None and r.is_on(day, holidays))
    return (Span(start=Fraction(0), end=seconds, name=name, factor=factor),)


def blended(spans: Sequence[Span]) -> Fraction:
    """Give the one factor that comes to the same as all spans; 1 for none."""
    total = sum((span.seconds for span in spans), Fraction(0))
    if not total:
        return Fraction(1)
    return sum((span.seconds * Fraction(span.factor) for span in spans), Fraction(0)) / total


def billed_seconds(seconds: Fraction, minimum_hours: Decimal, step_minutes: Decimal) -> Fraction:
    """Round work up to the step and to the minimum call-out; no work stays none.

    >>> billed_seconds(Fraction(3700), Decimal(0), Decimal(15))
    Fraction(4500, 1)
    """
    if seconds <= 0:
        return Fraction(0)
    step = Fraction(step_minutes) * 60
    stepped = -(-seconds // step) * step if step else seconds
    return max(stepped, Fraction(minimum_hours) * 3600)


def _dearest(rates: Iterable[HourRate]) -> tuple[str, Decimal]:
    found = list(rates)
    if not found:
        return "", PLAIN
    best = max(found, key=lambda rate: rate.factor)
    return best.name, best.factor


def _after(begun: datetime, moment: datetime) -> Fraction:
    gap = moment - begun
    return Fraction(gap.days * 86400 + gap.seconds) + Fraction(gap.microseconds, 1_000_000)


def _periods(
    rate: HourRate, first: date, last: date, holidays: Mapping[date, str], zone: tzinfo | None
) -> Iterable[tuple[datetime, datetime]]:
    """Give when a rate holds, as instants, from the day before the first to the last."""
    for number in range((last - first).days + 2):
        day = first + timedelta(days=number - 1)
        if not rate.is_on(day, holidays):
            continue
        opened = datetime.combine(day, rate.start or time())
        closes = rate.end or time()
        day_after = closes <= (rate.start or time())
        closed = datetime.combine(day + timedelta(days=day_after), closes)
        yield instant(opened, zone), instant(closed, zone)
