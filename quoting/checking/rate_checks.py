"""Checks on the Tax, Delivery, Labour, Wording and Builds sheets."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal
from itertools import combinations, pairwise

from quoting.checking.item_checks import CM_PER_INCH, overlap
from quoting.checking.layouts import layout_of
from quoting.checking.names import asked, folded, nearest_names
from quoting.checking.pool import Pool
from quoting.checking.wording import placeholders, standard_wording
from quoting.domain.cells import Row
from quoting.domain.codes import problem
from quoting.domain.places import Place
from quoting.domain.problems import Problem


def overlapping_taxes(pool: Pool) -> Iterator[Problem]:
    """Two rates of one tax that hold on the same day."""
    for first, second in combinations(pool.good("tax"), 2):
        same = folded(str(first.get("code"))) == folded(str(second.get("code")))
        if same and overlap(first, second, "valid_from", "valid_until"):
            place, seen = second.where("rate"), second.seen("rate")
            yield problem("P460", place, seen=seen, tax=second.get("code"), other=first.where("rate"))


def unknown_taxes(pool: Pool) -> Iterator[Problem]:
    """A tax on top of one that the sheet does not have."""
    known = pool.names("tax", "code")
    for row in pool.good("tax"):
        for name in _listed(row, "on_top_of"):
            if folded(name) not in known:
                hint = asked(nearest_names(name, known.values()))
                yield problem("P461", row.where("on_top_of"), seen=row.seen("on_top_of"), name=name, hint=hint)


def taxes_in_a_circle(pool: Pool) -> Iterator[Problem]:
    """Taxes each of which waits for the other."""
    below: dict[str, set[str]] = {}
    for row in pool.good("tax"):
        below.setdefault(folded(str(row.get("code"))), set()).update(folded(name) for name in _listed(row, "on_top_of"))
    circle = {code for code in below if code in _reached(below, code)}
    for row in pool.good("tax"):
        if folded(str(row.get("code"))) in circle and row.get("on_top_of"):
            yield problem("P462", row.where("on_top_of"), seen=row.seen("on_top_of"), taxes=", ".join(sorted(circle)))


def _reached(below: Mapping[str, set[str]], start: str) -> set[str]:
    found: set[str] = set()
    waiting = set(below.get(start, ()))
    while waiting:
        code = waiting.pop()
        found.add(code)
        waiting |= below.get(code, set()) - found
    return found


def _listed(row: Row, key: str) -> tuple[str, ...]:
    value = row.get(key)
    return tuple(str(one) for one in value) if isinstance(value, tuple) else ()


def bands_in_order(pool: Pool) -> Iterator[Problem]:
    """Delivery rows that are not each farther than the one before, or go on after "no limit"."""
    rows = pool.good("delivery")
    for before, row in pairwise(rows):
        last, limit = before.get("up_to"), row.get("up_to")
        if last is None:
            yield problem("P464", before.where("up_to"))
        elif isinstance(limit, Decimal) and isinstance(last, Decimal) and limit <= last:
            yield problem("P463", row.where("up_to"), seen=row.seen("up_to"), other=before.seen("up_to"))


def repeated_rates(pool: Pool) -> Iterator[Problem]:
    """Two rates of one activity for one size."""
    known: dict[tuple[str, object], Row] = {}
    for row in pool.good("labour"):
        first = known.setdefault((folded(str(row.get("activity"))), row.get("up_to_size")), row)
        if first is not row:
            yield problem(
                "P465", row.where("activity"), seen=row.seen("activity"),
                activity=row.get("activity"), other=first.where("seconds"),
            )


def activities_without_rate(pool: Pool) -> Iterator[Problem]:
    """An activity that forms ask for and no row gives."""
    if "labour" not in pool.found:
        return
    known = pool.names("labour", "activity")
    usual = layout_of("labour").column("activity").choices
    own = [name for name in known.values() if name not in usual]
    for activity in usual:
        if folded(activity) not in known:
            yield problem("P466", pool.found["labour"], activity=activity, hint=asked(nearest_names(activity, own)))


def phrases(pool: Pool) -> Iterator[Problem]:
    """A phrase given twice, or whose words in braces are not those that can be filled in."""
    known: dict[str, Place] = {}
    for row in pool.good("wording"):
        phrase, text = str(row.get("phrase")), str(row.get("text"))
        first = known.setdefault(phrase, row.where("phrase"))
        if first != row.where("phrase"):
            yield problem("P470", row.where("phrase"), seen=row.seen("phrase"), phrase=phrase, other=first)
        trouble = phrase_trouble(phrase, text)
        if trouble:
            wanted = sorted(placeholders(standard_wording()[phrase]) or ())
            names = ", ".join(f"{{{name}}}" for name in wanted) or "there are none"
            yield problem("P471", row.where("text"), seen=row.seen("text"), phrase=phrase, trouble=trouble, names=names)


def phrase_trouble(phrase: str, text: str) -> str:
    """What is wrong with the braces of an owner's text for a standard phrase; "" where nothing is."""
    wanted = placeholders(standard_wording()[phrase]) or frozenset()
    used = placeholders(text)
    if used is None:
        return "has a brace without its pair"
    strange = sorted(used - wanted)
    return f"asks for {{{strange[0]}}}, which can't be filled in there" if strange else ""


def build_rows(pool: Pool) -> Iterator[Problem]:
    """A row of a build that names nothing, or something no sheet has."""
    for row in pool.good("builds"):
        what = str(row.get("what"))
        if what == "balloon" and not row.get("item"):
            for key in ("size", "colour_place"):
                if key not in row.values:
                    yield _lacking(row, key, "a balloon", "an item, or a size and a colour number")
        elif not row.get("item"):
            yield _lacking(row, "item", what, "an item" if what == "hardware" else "an activity")
        else:
            yield from _unknown_part(pool, row, what)
        size, fill = row.get("size"), row.get("fill")
        if isinstance(size, int) and isinstance(fill, Decimal) and fill > size * CM_PER_INCH:
            yield problem("P423", row.where("fill"), seen=row.seen("fill"), size=size)


def _lacking(row: Row, key: str, what: str, needs: str) -> Problem:
    return problem("P467", row.where(key), what=what, needs=needs, fix=layout_of("builds").column(key).fix)


def _unknown_part(pool: Pool, row: Row, what: str) -> Iterator[Problem]:
    sheet_key = {"balloon": "balloons", "hardware": "hardware", "work": "labour"}[what]
    key = "activity" if what == "work" else "item"
    name = str(row.get("item"))
    known, faults = pool.names(sheet_key, key), pool.faults(sheet_key, key)
    place, seen = row.where("item"), row.seen("item")
    if folded(name) not in known:
        hint = asked(nearest_names(name, known.values()))
        yield problem("P420", place, seen=seen, name=name, sheets=layout_of(sheet_key).name, hint=hint)
    elif folded(name) in faults:
        yield problem("P421", place, seen=seen, name=name, other=faults[folded(name)])
