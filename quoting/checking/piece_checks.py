"""Checks on the rows of the Pieces sheet: whose they are, and whether what they name is there."""

from __future__ import annotations

import re
from collections.abc import Container, Iterable, Iterator, Mapping, Sequence
from decimal import Decimal

from quoting.checking.item_checks import CM_PER_INCH
from quoting.checking.layouts import layout_of
from quoting.checking.names import asked, folded, is_slip, nearest_names
from quoting.checking.pool import Pool
from quoting.checking.rows import job_of
from quoting.checking.spellings import AMOUNTS, COLOURS, MAY_BE_NONE, counted, known_names, parted_colours
from quoting.domain.cells import Row
from quoting.domain.codes import problem
from quoting.domain.places import Place
from quoting.domain.problems import Problem
from quoting.forms.fields import NONE

NAMES_OF = {
    "topper": ("balloons", "hardware"), "accents": ("balloons", "hardware"), "wrap": ("balloons", "hardware"),
    "base": ("hardware",), "pole": ("hardware",), "frame": ("hardware",), "item": ("hardware",), "build": ("builds",),
    "foils": ("balloons",), "ribbon": ("hardware",), "line": ("hardware",), "weight": ("hardware",),
    "net": ("hardware",), "outer": ("balloons",),
}
"""Fields of a piece that name something of other sheets: field → those sheets."""

USUAL_FOR = {"base plate": "base", "pole": "pole", "topper holder": "topper", "weight": "weight"}
"""Parts of which a form takes the usual one where a piece names none: part → the piece's field."""


def uses(row: Row, key: str) -> bool:
    """True where the row's form has the field."""
    forms = layout_of("pieces").column(key).forms
    return not forms or row.get("form") in forms


def strayed_pieces(pool: Pool) -> Iterator[Problem]:
    """A piece that names no job, or one that is not there; every job it may belong to is held."""
    codes = {folded(job_of(row)): job_of(row) for row in pool.of("jobs") if job_of(row)}
    rows = pool.of("pieces")
    for index, row in enumerate(rows):
        typed = job_of(row)
        if folded(typed) in codes and typed:
            continue
        owners = suspects(typed, codes, _neighbours(rows, index, codes))
        place, seen = row.where("job"), row.seen("job")
        if not typed:
            for owner in owners:
                yield problem("P411", place, seen=seen, job=owner, job_code=" or ".join(owners))
            continue
        near = [one for one in owners if is_slip(typed, one)] or nearest_names(typed, codes.values())
        for owner in owners or ("",):
            yield problem("P412", place, seen=seen, job=owner, hint=asked(near))


def suspects(typed: str, codes: Mapping[str, str], neighbours: Sequence[str]) -> tuple[str, ...]:
    """Jobs that a row with a wrong code may belong to: those one slip away, the nearby first; else the nearby."""
    slips = [code for code in codes.values() if typed and is_slip(typed, code)]
    both = [code for code in slips if code in neighbours]
    return tuple(both or slips or neighbours)


def _neighbours(rows: Sequence[Row], index: int, codes: Mapping[str, str]) -> tuple[str, ...]:
    """The jobs of the nearest rows above and below, on the same sheet, that name a known job."""
    sheet = (rows[index].place.workbook, rows[index].place.sheet)

    def nearest(others: Iterable[Row]) -> list[str]:
        here = (codes[folded(job_of(o))] for o in others
                if (o.place.workbook, o.place.sheet) == sheet and folded(job_of(o)) in codes)
        return [next(here, "")]

    found = nearest(reversed(rows[:index])) + nearest(rows[index + 1 :])
    return tuple(dict.fromkeys(code for code in found if code))


def repeated_labels(pool: Pool) -> Iterator[Problem]:
    """A second piece of one label in a job."""
    known: dict[tuple[str, str], Place] = {}
    for row in pool.of("pieces"):
        label = str(row.get("piece", ""))
        first = known.setdefault((folded(job_of(row)), folded(label)), row.where("piece"))
        if job_of(row) and label and first != row.where("piece"):
            code = job_of(row)
            yield problem("P413", row.where("piece"), seen=row.seen("piece"), job=code, job_code=code, other=first)


def unknown_things(pool: Pool) -> Iterator[Problem]:
    """An item or build that no sheet has, or whose own row is wrong."""
    known = {key: pool.names(key, "build" if key == "builds" else "item") for key in ("balloons", "hardware", "builds")}
    faults = {key: pool.faults(key, "build" if key == "builds" else "item") for key in known}
    for row in pool.good("pieces"):
        for key, sheets in NAMES_OF.items():
            for name in _named(row, key) if uses(row, key) else ():
                where = [sheet for sheet in sheets if folded(name) in known[sheet]]
                wrong = [faults[sheet][folded(name)] for sheet in where if folded(name) in faults[sheet]]
                place, seen, job = row.where(key), row.seen(key), job_of(row)
                if not where:
                    yield _unknown(row, key, name, [one for sheet in sheets for one in known[sheet].values()])
                elif wrong:
                    yield problem("P421", place, seen=seen, job=job, name=name, other=wrong[0])


def _unknown(row: Row, key: str, name: str, known: Sequence[str]) -> Problem:
    """A name that no sheet has: several items where one belongs, or one that is misspelt or not there."""
    place, seen, job = row.where(key), row.seen(key), job_of(row)
    is_counted = key in AMOUNTS
    first = "" if is_counted else _first_of_several(name, {folded(one) for one in known})
    if first:
        heading = layout_of("pieces").column(key).heading.lower()
        more = _MORE.get(key, "; more of it can go under Accents")
        return problem("P426", place, seen=seen, job=job, heading=heading, first=first, more=more)
    told = " or ".join(layout_of(sheet).name for sheet in NAMES_OF[key])
    hint = _hint(name, known, is_counted=is_counted)
    return problem("P420", place, seen=seen, job=job, name=name, sheets=told, hint=hint)


_MORE = {
    "topper": ", and what else is tied on under Accents",
    "item": ", and how many under Quantity; each further item is a piece of its own",
    "build": ", and how many under Quantity; each further build is a piece of its own",
}


def _first_of_several(name: str, known: Container[str]) -> str:
    """The first item of a text that names several, or several of one, where one belongs; "" for any other text."""
    parts = [counted(part)[1] for part in re.split(r"\s*(?:[,;&+\n]|\band\b)\s*", name) if part]
    is_several = len(parts) > 1 or counted(name)[0] > 1
    return parts[0] if is_several and all(folded(part) in known for part in parts) else ""


def _hint(name: str, known: Sequence[str], *, is_counted: bool) -> str:
    """What may be meant by a name that no sheet has; of one with a count before it, how that is typed."""
    count, rest = counted(name)
    near = nearest_names(rest, known)
    if rest == name or not is_counted:
        return asked(near)
    return asked([f"{count} x {one}" for one in near]) or f"a count goes with an x, as in {count} x {rest}; "


def unparted_colours(pool: Pool) -> Iterator[Problem]:
    """Colours with "/", "&" or "and" between, one of which is a colour of the Balloons sheet, but not all."""
    colours = known_names(pool.rows).colours
    for row in pool.good("pieces"):
        for key in COLOURS:
            value = row.get(key)
            for entry in value if isinstance(value, tuple) and uses(row, key) else ():
                parts = parted_colours(str(entry))
                is_known = folded(str(entry)) in colours
                if len(parts) > 1 and not is_known and any(folded(part) in colours for part in parts):
                    place, seen = row.where(key), row.seen(key)
                    yield problem("P427", place, seen=seen, job=job_of(row), entry=entry, better=", ".join(parts))


def _named(row: Row, key: str) -> tuple[str, ...]:
    """What a field names: one name, each name of a list of amounts, nothing for a blank or "none"."""
    value = row.get(key)
    if isinstance(value, tuple):
        return tuple(str(one[1]) for one in value if isinstance(one, tuple))
    if not isinstance(value, str) or (key in MAY_BE_NONE and folded(value) == NONE):
        return ()
    return (value,)


def doubtful_usuals(pool: Pool) -> Iterator[Problem]:
    """A piece that takes the usual part, while a row that says which is usual is wrong."""
    for wrong in pool.bad("hardware"):
        if not wrong.get("usual") and "usual" not in wrong.misread:
            continue
        for part, key in USUAL_FOR.items():
            if wrong.get("part", part) != part:
                continue
            for row in pool.good("pieces"):
                blank = key not in row.values if key != "topper" else "topper" in row.values
                if uses(row, key) and blank and row.get("form") != "own build":
                    place, seen = row.where(key), row.seen(key)
                    yield problem("P422", place, seen=seen, job=job_of(row), part=part, other=wrong.place)


def overfilled_pieces(pool: Pool) -> Iterator[Problem]:
    """A fill above the nominal size that the piece, or its topper, has."""
    rounds = {
        folded(str(row.get("item"))): row.get("size") for row in pool.good("balloons") if row.get("shape") != "twister"
    }
    for row in pool.good("pieces"):
        topper = rounds.get(folded(str(row.get("topper", ""))))
        for key, size in (("fill", row.get("size")), ("fills", row.get("size")), ("topper_fill", topper)):
            if not uses(row, key) or not isinstance(size, int):
                continue
            value = row.get(key)
            fills = value if isinstance(value, tuple) else (value,)
            if any(isinstance(fill, Decimal) and fill > size * CM_PER_INCH for fill in fills):
                yield problem("P423", row.where(key), seen=row.seen(key), job=job_of(row), size=size)


def doubtful_balloons(pool: Pool) -> Iterator[Problem]:
    """A piece that asks for a colour and size whose own row is wrong: without that row another would be taken."""
    wrong = [row for row in pool.bad("balloons") if row.get("shape", "round") == "round"]
    if not wrong:
        return
    stocked = {row.get("size") for row in pool.good("balloons") if row.get("shape") == "round"}
    sizes = {size for size in (*stocked, *(row.get("size") for row in wrong)) if isinstance(size, int)}
    for row in pool.good("pieces"):
        colours = row.get("colours")
        if not isinstance(colours, tuple) or not uses(row, "colours"):
            continue
        needed = _sizes_needed(pool, row, sizes)
        for spoiled in wrong:
            size = spoiled.get("size")
            is_asked = any(_is_colour(spoiled, str(colour)) for colour in colours)
            if (size in needed and (is_asked or size not in stocked)) or (size is None and is_asked):
                place, name = row.where("colours"), spoiled.get("item", "that balloon")
                yield problem("P421", place, seen=row.seen("colours"), job=job_of(row), name=name, other=spoiled.place)
                break


def _sizes_needed(pool: Pool, row: Row, sizes: Iterable[int]) -> frozenset[object]:
    """Nominal sizes of the rounds a piece takes: its own, its build's, or the least that takes each of its fills."""
    build = folded(str(row.get("build", "")))
    of_build = [one.get("size") for one in pool.good("builds") if folded(str(one.get("build"))) == build]
    if row.get("size") or of_build:
        return frozenset([row.get("size"), *of_build])
    fills: list[object] = []
    for key in ("fill", "fills", "foot_fills", "middle_fill", "top_fill"):
        value = row.get(key)
        fills += value if isinstance(value, tuple) else [value]
    ordered = sorted(sizes)
    known = [fill for fill in fills if isinstance(fill, Decimal)]
    return frozenset(next((size for size in ordered if size * CM_PER_INCH >= fill), None) for fill in known)


def _is_colour(balloon: Row, asked_for: str) -> bool:
    colour, finish = folded(str(balloon.get("colour", ""))), folded(str(balloon.get("finish", "")))
    return folded(asked_for) in (colour, f"{finish} {colour}", f"{colour} {finish}")
