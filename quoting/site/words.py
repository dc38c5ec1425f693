"""Lengths, masses, speeds and moments as a shop reads them, and the figures made of them."""

from __future__ import annotations

from datetime import datetime

from quoting.domain.counts import nearest_count, rounded_up
from quoting.domain.flags import Figure
from quoting.domain.measures import fill_words, length_words
from quoting.domain.prices import Shop

KM_H = 3.6
"""km/h in 1 m/s."""
MPH = 3600 / 1609.344
"""mph in 1 m/s; the mile is 1609.344 m by definition."""
KG_PER_LB = 0.45359237
"""Exact by definition of the pound."""


def mass_words(kg: float, unit: str) -> str:
    """Say a mass in whole pounds or kilograms, up: what holds a piece is not rounded down.

    >>> mass_words(40.52, "in"), mass_words(40.52, "cm")
    ('90 lb', '41 kg')
    """
    return f"{rounded_up(kg / KG_PER_LB)} lb" if unit == "in" else f"{rounded_up(kg)} kg"


def speed_words(m_s: float, distance_unit: str) -> str:
    """Say a wind in m/s to a tenth, and in whole mph or km/h.

    >>> speed_words(5, "mi"), speed_words(5, "km")
    ('5.0 m/s (11 mph)', '5.0 m/s (18 km/h)')
    """
    other = (
        f"{nearest_count(m_s * MPH)} mph" if distance_unit == "mi" else f"{nearest_count(m_s * KM_H)} km/h"
    )
    return f"{m_s:.1f} m/s ({other})"


def force_words(newton: float, unit: str) -> str:
    """Say a force as the weight it feels like, up to a whole pound or kilogram.

    >>> force_words(100, "cm")
    '100 N, as much as 11 kg weigh'
    """
    return f"{rounded_up(newton)} N, as much as {mass_words(newton / 9.80665, unit)} weigh"


def moment_words(moment: datetime) -> str:
    """Say a day and hour as "Sat 14 Jun, 19:00" in English, whatever the machine's language."""
    return f"{_DAYS[moment.weekday()]} {moment.day} {_MONTHS[moment.month - 1]}, {moment:%H:%M}"


_DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def length_figure(label: str, cm: float, shop: Shop) -> Figure:
    """Make a figure of a length."""
    return Figure(label=label, value=cm, unit="cm", shown=length_words(cm, shop.length_unit))


def fill_figure(label: str, cm: float, shop: Shop) -> Figure:
    """Make a figure of a fill."""
    return Figure(label=label, value=cm, unit="cm", shown=fill_words(cm, shop.length_unit))


def mass_figure(label: str, kg: float, shop: Shop) -> Figure:
    """Make a figure of a mass."""
    return Figure(label=label, value=kg, unit="kg", shown=mass_words(kg, shop.length_unit))


def speed_figure(label: str, m_s: float, shop: Shop) -> Figure:
    """Make a figure of a wind."""
    return Figure(label=label, value=m_s, unit="m/s", shown=speed_words(m_s, shop.distance_unit))


def hours_figure(label: str, hours: float) -> Figure:
    """Make a figure of a span of hours."""
    return Figure(label=label, value=hours, unit="h", shown=f"{hours:.1f}".removesuffix(".0") + " h")
