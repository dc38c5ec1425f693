"""Every problem code there is, with its level and its words, in one table.

Codes are stable: P1.. files and sheets, P2.. single cells, P3.. rows, P4.. across
sheets, P5.. forms, P6.. stock, labour, delivery and price, P7.. site. A code that is no longer
used is not given to something else.
"""

from __future__ import annotations

from dataclasses import dataclass

from quoting.domain.places import Place
from quoting.domain.problems import Level, Problem


@dataclass(frozen=True, slots=True, kw_only=True)
class Code:
    """A kind of problem. `why` and `fix` may name facts in braces; {seen} is the cell's own text."""

    level: Level
    why: str
    fix: str


NOTE, HOLD, BOOK = Level.NOTE, Level.HOLD, Level.BOOK

CODES: dict[str, Code] = {
    # --- P1: files and sheets -------------------------------------------------------
    "P101": Code(level=BOOK, why="this file can't be read as a workbook ({reason})", fix="save it again as .xlsx"),
    "P120": Code(level=BOOK, why="this folder has no workbook in it", fix="name the folder that holds your books (.xlsx, .xlsm or .ods)"),
    "P121": Code(level=BOOK, why="there is no such file or folder", fix="check the name"),
    "P122": Code(level=BOOK, why="another book of this name is read already ({other})", fix="give one of the two another name"),
    # --- P2: single cells -----------------------------------------------------------
    "P204": Code(level=HOLD, why='{heading} is "{seen}"', fix="type one length, e.g. 8 ft or 2.44 m"),
    # --- P3: rows -------------------------------------------------------------------
    # --- P4: across sheets ----------------------------------------------------------
    # --- P5: forms ------------------------------------------------------------------
    # --- P6: stock, labour, delivery, price -----------------------------------------
    # --- P7: site -------------------------------------------------------------------
    # --- P9: the program itself -----------------------------------------------------
    "P901": Code(level=HOLD, why="the program itself failed on this job ({error})", fix="this is our mistake, not yours: please send us this line"),
}


def problem(code: str, place: Place, *, seen: str = "", job: str = "", level: Level | None = None, **facts: object) -> Problem:
    """The problem of a code at a place, its words filled in with `facts`.

    `level` overrides the table's (a missing price is a hold for the job that needs it,
    a note for a price sheet nobody uses). KeyError for an unknown code or a fact left out.
    """
    entry = CODES[code]
    words = {"seen": seen, **facts}
    return Problem(
        code=code,
        level=entry.level if level is None else level,
        place=place,
        why=entry.why.format_map(words),
        fix=entry.fix.format_map(words),
        seen=seen,
        job=job,
    )
