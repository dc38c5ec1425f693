"""What is wrong, where, and what to type instead: plain data, never an exception."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Generic, TypeVar

from quoting.domain.places import Place

T = TypeVar("T")


class Level(StrEnum):
    """How much a problem stops."""

    NOTE = "note"
    """The job is quoted and the owner is told."""
    HOLD = "hold"
    """The job it belongs to is held; its neighbours are not."""
    BOOK = "book"
    """Nothing in the workbook, sheet or price list concerned can be used."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One thing an owner has to know.

    `code` is stable and stands in `quoting.domain.codes.CODES`; `why` says what is
    wrong, `fix` what to type, `seen` the cell's own text. `job` is the code of the
    job it belongs to, or "" where it belongs to none (a price sheet, a file).
    """

    code: str
    level: Level
    place: Place
    why: str
    fix: str
    seen: str = ""
    job: str = ""

    def __str__(self) -> str:
        fix = f"; {self.fix}" if self.fix else ""
        return f"{self.place}: {self.why}{fix}  [{self.code}]"


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome(Generic[T]):
    """What every stage returns: its value and its problems."""

    value: T
    problems: tuple[Problem, ...] = ()


def shown_once(problems: Iterable[Problem]) -> tuple[str, ...]:
    """The lines for a screen, in the order given: what is said of several cells of a column is said once.

    Problems alike in code, words, column and sheet make one line, at the first of their cells, which tells
    how many more cells there are and how many jobs are held: "Jobs!M5 and 4 more cells: … (holds 5 jobs)".
    """
    alike: dict[tuple[object, ...], list[Problem]] = {}
    for one in problems:
        place = one.place
        alike.setdefault((one.code, one.why, one.fix, place.workbook, place.sheet, place.column), []).append(one)
    return tuple(_line(group) for group in alike.values())


def _line(alike: Sequence[Problem]) -> str:
    first, cells = alike[0], len({one.place for one in alike})
    more = "" if cells == 1 else f" and {cells - 1} more cell{'s' if cells > 2 else ''}"
    jobs = len({one.job for one in alike if one.job and one.level is not Level.NOTE})
    fix = f"; {first.fix}" if first.fix else ""
    held = f" (holds {jobs} jobs)" if jobs > 1 else ""
    return f"{first.place}{more}: {first.why}{fix}{held}  [{first.code}]"


def shortened(names: Sequence[str], most: int = 6) -> str:
    """Names with commas between, at most `most` of them, and how many are left out: "A, B, … and 12 more"."""
    listed = ", ".join(names[:most])
    return f"{listed}, … and {len(names) - most} more" if len(names) > most else listed


def in_order(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """The same problems without repeats, sorted by place, then code."""
    unique = dict.fromkeys(problems)
    return tuple(sorted(unique, key=lambda p: (p.place, p.code, p.seen, p.job)))


def holds(problems: Iterable[Problem]) -> bool:
    """True where any of the problems is more than a note."""
    return any(p.level is not Level.NOTE for p in problems)
