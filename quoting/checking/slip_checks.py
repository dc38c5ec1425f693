"""Names that are right by themselves, but nobody asks for them, and one sign makes them another name.

Left alone, such a row would drop out of a build, or a size out of an activity, and
change a price without a word.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from itertools import islice

from quoting.checking.layouts import layout_of
from quoting.checking.names import folded, is_slip
from quoting.checking.piece_checks import uses
from quoting.checking.pool import Pool
from quoting.checking.rows import job_of
from quoting.domain.cells import Row
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


def doubtful_builds(pool: Pool) -> Iterator[Problem]:
    """A piece of a build that a wrong row may belong to, having lost its name: it would go without that row."""
    rows = pool.of("builds")
    wrong = [row for row in pool.bad("builds") if not row.get("build")]
    suspects = {folded(name): row for row in reversed(wrong) for name in _beside(rows, row)}
    for piece in pool.good("pieces"):
        row = suspects.get(folded(str(piece.get("build", ""))))
        if row is not None and uses(piece, "build"):
            place, seen = piece.where("build"), piece.seen("build")
            yield problem("P421", place, seen=seen, job=job_of(piece), name=piece.get("build"), other=row.place)


def _beside(rows: Sequence[Row], row: Row) -> Iterator[str]:
    """The builds of the nearest rows above and below that name one: rows of a build stand together."""
    at = rows.index(row)
    for others in (reversed(rows[:at]), rows[at + 1 :]):
        yield from islice((str(one.get("build")) for one in others if one.get("build")), 1)


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
