"""Dates and times of day typed as text; a date that can be read in two ways is refused."""

from __future__ import annotations

import re
from datetime import date, time

from quoting.reading.troubles import Trouble, two_meanings

# Month names in English, Spanish, French and German, and their usual short forms (from memory).
_MONTHS: tuple[tuple[str, ...], ...] = (
    ("january", "jan", "enero", "ene", "janvier", "janv", "januar", "jänner"),
    ("february", "feb", "febrero", "février", "fevrier", "févr", "fév", "februar"),
    ("march", "mar", "marzo", "mars", "märz", "maerz", "mär", "mrz"),
    ("april", "apr", "abril", "abr", "avril", "avr"),
    ("may", "mayo", "mai"),
    ("june", "jun", "junio", "juin", "juni"),
    ("july", "jul", "julio", "juillet", "juil", "juli"),
    ("august", "aug", "agosto", "ago", "août", "aout"),
    ("september", "sep", "sept", "septiembre", "setiembre", "septembre"),
    ("october", "oct", "octubre", "octobre", "oktober", "okt"),
    ("november", "nov", "noviembre", "novembre"),
    ("december", "dec", "diciembre", "dic", "décembre", "decembre", "déc", "dezember", "dez"),
)
_WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_ISO = re.compile(r"([0-9]{4})([-/.])([0-9]{1,2})\2([0-9]{1,2})(?:[t ]00:00(?::00)?)?")
_FIGURES = re.compile(r"([0-9]{1,2})([-/. ])([0-9]{1,2})\2([0-9]{4})")
_SHORT_YEAR = re.compile(
    r"[0-9]{1,4}([-/.])[0-9]{1,2}\1[0-9]{1,3}"
    r"|[0-9]{1,2}\S* ?[^\W\d_]+\.?[ ,\-/']*[0-9]{2}"
    r"|[^\W\d_]+\.?[ -][0-9]{1,2},? '?[0-9]{2}"
)
_DAY_FIRST = re.compile(
    r"([0-9]{1,2})(?:st|nd|rd|th|er|º|\.)?[ \-/]*(?:of |de )?([^\W\d_]+)\.?,?[ \-/]*(?:de )?([0-9]{4})"
)
_MONTH_FIRST = re.compile(r"([^\W\d_]+)\.?[ \-]*([0-9]{1,2})(?:st|nd|rd|th)?(?:, ?|[ \-])([0-9]{4})")
LONGEST = 60
NO_DATE = "######"
"""What office software shows for a number that is formatted as a date and can't be one."""


def read_date(text: str) -> date | Trouble:
    """The date of a text: 2031-05-14, 14 May 2031, May 14, 2031, 14/05/2031, 05/14/2031.

    In figures, 05/06/2031 has two meanings and is P206; 05/05/2031 has one. Years have
    four figures (else P214). What is no date, or a day that its month does not have, is
    P212; a weekday before the date has to be its own.
    """
    body = " ".join(text.casefold().split())
    if len(body) > LONGEST:
        return Trouble(code="P212")
    weekday, rest = _without_weekday(body)
    found = _read(rest)
    if isinstance(found, date) and weekday is not None and found.weekday() != weekday:
        return Trouble(code="P212")
    return found


def _without_weekday(body: str) -> tuple[int | None, str]:
    first, _, rest = body.partition(" ")
    name = first.rstrip(",.")
    for number, weekday in enumerate(_WEEKDAYS):
        if rest and len(name) >= 3 and weekday.startswith(name) and (len(name) <= 4 or name == weekday):
            return number, rest
    return None, body


def _read(body: str) -> date | Trouble:
    if found := _ISO.fullmatch(body):
        return _day(found[1], found[3], found[4])
    if found := _FIGURES.fullmatch(body):
        return _in_figures(found[1], found[3], found[4])
    if found := _DAY_FIRST.fullmatch(body):
        return _day(found[3], _month(found[2]), found[1])
    if found := _MONTH_FIRST.fullmatch(body):
        return _day(found[3], _month(found[1]), found[2])
    return Trouble(code="P214" if _SHORT_YEAR.fullmatch(body) else "P212")


def _month(name: str) -> int:
    return next((number for number, names in enumerate(_MONTHS, 1) if name in names), 0)


def _day(year: str, month: str | int, day: str) -> date | Trouble:
    try:
        found = date(int(year), int(month), int(day))
    except ValueError:
        return Trouble(code="P212")
    return found if found.year >= 1900 else Trouble(code="P212")


def _in_figures(first: str, second: str, year: str) -> date | Trouble:
    readings = [_day(year, second, first), _day(year, first, second)]
    days = list(dict.fromkeys(one for one in readings if isinstance(one, date)))
    if len(days) == 2:
        words = [f"{one.day} {_MONTHS[one.month - 1][0].capitalize()} {one.year}" for one in days]
        return two_meanings(words[0], words[1], " or ".join(words))
    return days[0] if days else Trouble(code="P212")


_CLOCK = re.compile(r"([0-9]{1,2})(?:[:.h]([0-9]{2}))?(?::([0-9]{2}))? ?(h|uhr|[ap]\.? ?m\.?)?")


def read_time(text: str) -> time | Trouble:
    """The time of day of a text: 14:30, 14h30, 2:30 pm, 2 pm, noon; without am or pm it is the 24-hour clock.

    Trouble P219 where it is none; "midnight" belongs to two days, so it is none either.
    """
    body = " ".join(text.casefold().split())
    if body in ("noon", "midday", "12 noon"):
        return time(12)
    found = _CLOCK.fullmatch(body) if len(body) <= LONGEST else None
    if not found:
        return Trouble(code="P219")
    half = (found[4] or "")[:1] if (found[4] or "")[:1] in ("a", "p") else ""
    is_bare = found[2] is None and not found[4] and "h" not in body
    is_dotted = "." in body.rstrip(".m ") and not found[4]
    hour = int(found[1])
    if is_bare or is_dotted or (half and not 1 <= hour <= 12):
        return Trouble(code="P219")
    if half:
        hour = hour % 12 + (12 if half == "p" else 0)
    try:
        return time(hour, int(found[2] or 0), int(found[3] or 0))
    except ValueError:
        return Trouble(code="P219")
