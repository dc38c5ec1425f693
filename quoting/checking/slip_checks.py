"""Names that are right by themselves, but nobody asks for them, and one sign makes them another name.

Left alone, such a row would drop out of a build, or a size out of an activity, and
change a price without a word.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from quoting.checking.layouts import layout_of
from quoting.checking.names import folded, is_slip
from quoting.checking.pool import Pool
from quoting.domain.codes import problem
from quoting.domain.problems import Problem


def misspelt_builds(pool: Pool) -> Iterator[Problem]:
    """A build that no piece asks for, one sign away from a build of the sheet."""
    asked = {folded(str(row.get("build"))) for row in pool.of("pieces") if row.get("build")}
    known = pool.names("builds", "build")
    for row in pool.good("builds"):
        name = str(row.get("build"))
        if folded(name) not in asked:
            for meant in _meant(name, known.values()):
                place, seen = row.where("build"), row.seen("build")
                yield problem("P472", place, seen=seen, name=name, meant=meant)


def misspelt_activities(pool: Pool) -> Iterator[Problem]:
    """An activity that no form and no build asks for, one sign away from one that is asked for."""
    usual = layout_of("labour").column("activity").choices
    own = [str(row.get("item")) for row in pool.of("builds") if row.get("what") == "work" and row.get("item")]
    asked = {folded(name): name for name in (*usual, *own)}
    for row in pool.good("labour"):
        name = str(row.get("activity"))
        if folded(name) not in asked:
            for meant in _meant(name, asked.values()):
                place, seen = row.where("activity"), row.seen("activity")
                yield problem("P473", place, seen=seen, name=name, meant=meant)


def misspelt_taxes(pool: Pool) -> Iterator[Problem]:
    """A tax code one sign away from another, both with one name: a rate would drop out of its tax."""
    rows = pool.good("tax")
    for row in rows:
        code, called = str(row.get("code")), folded(str(row.get("name")))
        codes = [str(other.get("code")) for other in rows if folded(str(other.get("name"))) == called]
        for meant in _meant(code, codes):
            yield problem("P474", row.where("code"), seen=row.seen("code"), name=code, tax=row.get("name"), meant=meant)


def _meant(name: str, known: Iterable[str]) -> tuple[str, ...]:
    """The first of the known names, as written, that `name` may be a slip for."""
    typed = folded(name)
    for meant in known:
        other = folded(meant)
        # "Wall A" and "Wall B", "Arch 8" and "Arch 9" are two things, not a slip.
        is_series = typed[:-1] == other[:-1] or re.sub(r"\d+", "#", typed) == re.sub(r"\d+", "#", other)
        if other != typed and is_slip(typed, other) and not is_series:
            return (meant,)
    return ()
