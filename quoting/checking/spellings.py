"""What owners type in several ways, turned into the one way that forms and costing know."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace

from quoting.checking.names import folded
from quoting.domain.cells import Row, Value
from quoting.forms.fields import NONE

MAY_BE_NONE = ("ribbon", "line", "weight", "base", "pole", "frame", "net")
"""Fields of a piece that say "none" for a piece that goes without."""
NO_WORDS = frozenset({NONE, "no", "without", "n/a", "-", "–", "—"})
COLOURS = ("colours", "filler_colours")
AMOUNTS = ("accents", "foils")

_COUNTED = re.compile(r"([0-9]{1,4})\s*(?:[x×*]\s*|\s)(\S.*)", re.IGNORECASE)
_BETWEEN_COLOURS = re.compile(r"\s*(?:/|&|\+|\band\b)\s*", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class KnownNames:
    """What the price sheets name, folded: items of Balloons and Hardware, and colours with and without finish."""

    items: frozenset[str]
    colours: frozenset[str]


def known_names(rows: Mapping[str, tuple[Row, ...]]) -> KnownNames:
    """The names that the rows of all sheets give, good or not."""
    balloons, hardware = rows.get("balloons", ()), rows.get("hardware", ())
    colours: set[str] = set()
    for row in balloons:
        colour, finish = folded(str(row.get("colour", ""))), folded(str(row.get("finish", "")))
        colours |= {colour, f"{finish} {colour}", f"{colour} {finish}"}
    items = (folded(str(row.get("item"))) for row in (*balloons, *hardware) if row.get("item"))
    return KnownNames(items=frozenset(items), colours=frozenset(colours - {""}))


def counted(name: str) -> tuple[int, str]:
    """A count and a name: "3 foil star" and "3 x foil star" are (3, "foil star"), a name alone counts 1."""
    found = _COUNTED.fullmatch(name.strip())
    return (int(found[1]), found[2]) if found else (1, name)


def parted_colours(entry: str) -> tuple[str, ...]:
    """The parts of one entry of a list of colours at /, &, + and "and"; "ivory and sage" has two."""
    return tuple(part for part in _BETWEEN_COLOURS.split(entry.strip()) if part)


def spelled_piece(row: Row, known: KnownNames) -> Row:
    """A row of Pieces whose names are those of the price sheets, as far as there is no doubt what is meant.

    "no" where "none" belongs, "3 foil star" among accents, "1 x Foil star" as topper, "ivory and sage"
    among colours. A name that a sheet really has is left as it is.
    """
    values = dict(row.values)
    for key, value in row.values.items():
        if key in MAY_BE_NONE and _says_none(value.value, known):
            values[key] = replace(value, value=NONE)
        elif key in ("topper", "wrap", *AMOUNTS) and _says_none(value.value, known):
            del values[key]
        elif key in AMOUNTS or key in COLOURS:
            values[key] = _spelled_list(value, known)
        elif key in ("topper", "wrap", *MAY_BE_NONE) and isinstance(value.value, str):
            count, name = counted(value.value)
            is_one = count == 1 and folded(value.value) not in known.items and folded(name) in known.items
            values[key] = replace(value, value=name) if is_one else value
    return replace(row, values=values)


def _says_none(value: object, known: KnownNames) -> bool:
    if isinstance(value, tuple):
        return len(value) == 1 and isinstance(value[0], tuple) and _says_none(value[0][1], known)
    return isinstance(value, str) and folded(value) in NO_WORDS and folded(value) not in known.items


def _spelled_list(value: Value, known: KnownNames) -> Value:
    if not isinstance(value.value, tuple):
        return value
    entries: list[object] = []
    for entry in value.value:
        if isinstance(entry, tuple):
            entries.append(_spelled_amount(entry, known))
        else:
            entries += _spelled_colours(str(entry), known)
    return replace(value, value=tuple(entries))


def _spelled_amount(entry: tuple[int, str], known: KnownNames) -> tuple[int, str]:
    count, name = counted(entry[1])
    is_meant = entry[0] == 1 and count > 0 and folded(entry[1]) not in known.items and folded(name) in known.items
    return (count, name) if is_meant else entry


def _spelled_colours(entry: str, known: KnownNames) -> tuple[str, ...]:
    parts = parted_colours(entry)
    is_meant = folded(entry) not in known.colours and all(folded(part) in known.colours for part in parts)
    return parts if parts and is_meant else (entry,)
