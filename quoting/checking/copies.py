"""Two books that are copies of one: a backup beside the book, an .ods beside the .xlsx."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from itertools import combinations

from quoting.checking.names import folded
from quoting.checking.pool import Pool
from quoting.checking.rows import job_of
from quoting.domain.cells import Row
from quoting.domain.codes import problem
from quoting.domain.places import Place
from quoting.domain.problems import Outcome, Problem


def without_copies(pool: Pool) -> Outcome[Pool]:
    """The pool less the jobs and pieces of copies, and one line for each copy; every job of both books is held.

    A copy has all its job codes in another book, and for more than half of them the same
    client. Its price rows stay: where they differ from the other book's, that is said as ever.
    """
    problems: list[Problem] = []
    copies: set[str] = set()
    books = _jobs_by_book(pool)
    for first, second in combinations(books, 2):
        lesser, other = sorted((first, second), key=lambda name: len(books[name]))
        if len(books[first]) == len(books[second]):
            lesser, other = second, first
        if not {first, second} & copies and _is_copy(books[lesser], books[other]):
            copies.add(lesser)
            problems += _told(lesser, other, books[other].values())
    return Outcome(value=_without(pool, copies) if copies else pool, problems=tuple(problems))


def _jobs_by_book(pool: Pool) -> Mapping[str, dict[str, Row]]:
    """Jobs rows of each workbook: workbook → folded code → the first row of that code."""
    books: dict[str, dict[str, Row]] = {}
    for row in pool.of("jobs"):
        if job_of(row):
            books.setdefault(row.place.workbook, {}).setdefault(folded(job_of(row)), row)
    return books


def _is_copy(lesser: Mapping[str, Row], other: Mapping[str, Row]) -> bool:
    same = [code for code in lesser if code in other and _client(lesser[code]) == _client(other[code])]
    return all(code in other for code in lesser) and 2 * len(same) > len(lesser)


def _client(row: Row) -> str:
    return folded(str(row.get("client", "")))


def _told(copy: str, other: str, jobs: Iterable[Row]) -> Iterator[Problem]:
    for row in jobs:
        yield problem("P405", Place(workbook=copy), seen=copy, job=job_of(row), other=other)


def _without(pool: Pool, copies: set[str]) -> Pool:
    """Rows that belong to a job of a copy go; an adjustment for every job only where the other book has it too."""
    rows = dict(pool.rows)
    for key in ("jobs", "pieces"):
        rows[key] = tuple(row for row in pool.of(key) if row.place.workbook not in copies)
    kept = [row for row in pool.of("adjustments") if row.place.workbook not in copies]
    had = [_content(row) for row in kept]
    own = [row for row in pool.of("adjustments") if row.place.workbook in copies and not job_of(row)]
    rows["adjustments"] = (*kept, *(row for row in own if _content(row) not in had))
    return replace(pool, rows=rows)


def _content(row: Row) -> tuple[tuple[str, object], ...]:
    return tuple((key, row.values[key].value) for key in sorted(row.values))
