"""Cells that hold several values, with commas, semicolons or new lines between."""

from __future__ import annotations

import re
from collections.abc import Callable
from decimal import Decimal

from quoting.domain.cells import Kind
from quoting.reading.measures import read_measure, unit_named
from quoting.reading.numbers import percent_of, read_percent, read_whole
from quoting.reading.texts import folded, without_controls
from quoting.reading.troubles import Trouble

_COUNTED = re.compile(r"([-−+]?[0-9][0-9.,]*) ?[x×*] ?(?=\S)(.+)", re.IGNORECASE)
_LEADING_SIGN = re.compile(r"[x×*] ", re.IGNORECASE)
_BARE_COMMA = re.compile(r"(?<=[0-9]),(?=[0-9])")
_SPACED_COMMA = re.compile(r",\s|(?<![0-9]),|,(?![0-9])")
MOST = 1000
"""Entries of one cell."""


def split_list(text: str) -> tuple[str, ...] | Trouble:
    """The entries of a list of names; P222 where one between two marks is empty, P227 where there are too many."""
    return _entries(re.split(r"[,;\n]", without_controls(text)))


def split_numbers(text: str, *, may_be_decimal: bool = True) -> tuple[str, ...] | Trouble:
    """The entries of a list of numbers.

    Where semicolons or new lines part them, a comma is a decimal mark. A comma right
    between two figures beside others with a space, or the only one ("10,8"), may be
    either: P226, unless `may_be_decimal` says that a lone decimal could not be meant.
    """
    body = without_controls(text).strip()
    if ";" in body or "\n" in body:
        return _entries(re.split(r"[;\n]", body))
    bare, spaced = len(_BARE_COMMA.findall(body)), len(_SPACED_COMMA.findall(body))
    if bare and (spaced or (bare == 1 and may_be_decimal)):
        return Trouble(code="P226", facts={"better": "; ".join(re.split(r",\s*", body)[:4])})
    return _entries(body.split(","))


def _entries(parts: list[str]) -> tuple[str, ...] | Trouble:
    entries = [folded(part) for part in parts]
    while entries and not entries[-1]:
        entries.pop()
    if len(entries) > MOST:
        return Trouble(code="P227", facts={"most": MOST})
    return Trouble(code="P222") if "" in entries or not entries else tuple(entries)


def _each(entries: tuple[str, ...] | Trouble, read: Callable[[str], object]) -> tuple[object, ...] | Trouble:
    if isinstance(entries, Trouble):
        return entries
    values = [read(entry) for entry in entries]
    return next((one for one in values if isinstance(one, Trouble)), tuple(values))


def read_lengths(text: str, unit: str) -> tuple[object, ...] | Trouble:
    """Lengths in cm. Bare ones have the heading's `unit`; where a unit is typed behind one or more, all need one.

    "10, 8, 6" under a heading in inches is three lengths in inches; so is "10, 8, 6 in",
    where the last names the very unit of the heading.
    """
    entries = split_numbers(text)
    if isinstance(entries, Trouble):
        return entries
    typed = {_unit_behind(entry) for entry in entries}
    is_mixed = "" in typed and not typed <= {"", unit}
    return _each(entries, lambda entry: _length(entry, "" if is_mixed else unit))


def _length(entry: str, unit: str) -> Decimal | Trouble:
    found = read_measure(entry, Kind.LENGTH, unit)
    is_none = isinstance(found, Trouble) and found.code == "P204"
    return Trouble(code="P228", facts={"entry": entry}) if is_none else found


def _unit_behind(entry: str) -> str:
    """The unit at the end of a length, "?" for one of several or unknown units, "" for none."""
    behind = entry.lstrip("0123456789.,/ -½¼¾⅛⅜⅝⅞⅓⅔")
    return (unit_named(Kind.LENGTH, behind) or "?") if behind else ""


def read_wholes(text: str) -> tuple[object, ...] | Trouble:
    """Whole numbers."""
    return _each(split_numbers(text, may_be_decimal=False), read_whole)


def read_percents(text: str) -> tuple[object, ...] | Trouble:
    """Shares as fractions: "60 %, 40 %" or "60, 40". One without its percent sign between 0 and 1 is P209.

    A share alone is of no use, so "60,40" is two of them.
    """
    return _each(split_numbers(text, may_be_decimal=False), read_percent)


def read_amounts(text: str) -> tuple[object, ...] | Trouble:
    """Counted names: "3 x Foil star, Paper fan" is ((3, "Foil star"), (1, "Paper fan")); P223 for a count below 1."""
    return _each(split_list(text), _counted)


def _counted(entry: str) -> tuple[int, str] | Trouble:
    found = _COUNTED.fullmatch(entry)
    if not found:
        is_name = re.search(r"[^\W\d_]", entry) and not _LEADING_SIGN.match(entry)
        return (1, entry) if is_name else Trouble(code="P223")
    count = read_whole(found[1])
    if isinstance(count, Trouble):
        return count if count.code == "P206" else Trouble(code="P223")
    return (count, found[2]) if count >= 1 else Trouble(code="P223")


def one_percent(number: Decimal, *, is_certain: bool) -> tuple[object, ...] | Trouble:
    """A list of the one share that a number cell holds."""
    share = percent_of(number, is_certain=is_certain)
    return share if isinstance(share, Trouble) else (share,)
