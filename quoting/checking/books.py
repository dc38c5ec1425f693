"""The room's entry: the tables of all books of a run to a price book and jobs."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date

from quoting.checking.copies import without_copies
from quoting.checking.crosses import cross_check
from quoting.checking.examples import example_items
from quoting.checking.job_rows import jobs_from, pieces_of
from quoting.checking.names import folded, natural_order
from quoting.checking.pool import Pool, pooled
from quoting.checking.price_book import price_book
from quoting.checking.rows import check_row, job_of
from quoting.domain.cells import Row, Table
from quoting.domain.jobs import Job, Piece
from quoting.domain.places import Place
from quoting.domain.prices import PriceBook
from quoting.domain.problems import Level, Outcome, Problem


@dataclass(frozen=True, slots=True, kw_only=True)
class JobEntry:
    """A row of the Jobs sheet, whatever became of it. A row without a code is called by its row: "row 7"."""

    code: str
    client: str
    event_date: date | None
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """What the books of a run say, as far as it can be used.

    `prices` is None where something stands against every job. `jobs` are the good
    ones, `entries` every job seen, held or not; both in the order of their codes.
    `pieces_held` are the pieces of the jobs held that have no mistake of their own yet: what
    their forms find can be told in the same round. `examples` are the items whose prices are
    still the blank book's examples, each with the cell that says so.
    """

    prices: PriceBook | None
    jobs: tuple[Job, ...]
    entries: tuple[JobEntry, ...]
    pieces_held: tuple[Piece, ...] = ()
    examples: Mapping[str, Place] = field(default_factory=dict)


def check_tables(tables: Sequence[Table], run_date: date) -> Outcome[Checked]:
    """Every row by its sheet's schema, then all rows against each other, then those that are good as domain values.

    `run_date` is the quote date of jobs that give none. A job with a problem (no mere
    note) at its row, at one of its pieces or at one of its adjustments is left out of
    `jobs`; a problem of level book leaves out the price book, and so every job.
    """
    copied = without_copies(pooled(tables, run_date))
    by_row, pool = _row_problems(copied.value)
    crossed = cross_check(pool)
    problems = _without_echoes((*copied.problems, *by_row, *crossed.problems))
    pool = crossed.value
    entries = tuple(sorted(_entries(pool), key=lambda entry: natural_order(entry.code)))
    held = _held(pool, problems)
    is_usable = bool(pool.good("shop")) and not any(p.level is Level.BOOK for p in problems)
    checked = Checked(
        prices=price_book(pool) if is_usable else None,
        jobs=jobs_from(pool, held),
        entries=entries,
        pieces_held=pieces_of(pool, held),
        examples=example_items(pool),
    )
    return Outcome(value=checked, problems=tuple(_told_to_jobs(problems, entries)))


def _row_problems(pool: Pool) -> tuple[list[Problem], Pool]:
    """What stands against single rows, and the pool with those rows spoiled."""
    problems: list[Problem] = []
    spoiled: set[Place] = set()
    for sheet_key, rows in pool.rows.items():
        for row in rows:
            judged = check_row(sheet_key, row, pool.settings)
            problems += judged.problems
            if not judged.is_usable:
                spoiled.add(row.place)
    return problems, replace(pool, spoiled=frozenset(spoiled))


def _without_echoes(problems: Sequence[Problem]) -> tuple[Problem, ...]:
    """The problems, less "Job is blank" where another says of the same cell whose piece it may be."""
    told = {found.place for found in problems if found.code == "P411"}
    return tuple(found for found in problems if found.code != "P301" or found.place not in told)


def _name_of(row: Row) -> str:
    return job_of(row) or f"row {row.place.row}"


def _entries(pool: Pool) -> Iterable[JobEntry]:
    """One entry per code (of two rows with one code, the first)."""
    seen: dict[str, JobEntry] = {}
    for row in pool.of("jobs"):
        day = row.get("event_date")
        entry = JobEntry(
            code=_name_of(row), client=str(row.get("client", "")),
            event_date=day if isinstance(day, date) else None, place=row.where("job"),
        )
        seen.setdefault(folded(entry.code), entry)
    return seen.values()


def _held(pool: Pool, problems: Iterable[Problem]) -> frozenset[str]:
    """Folded codes of the jobs that something stands against."""
    told = {folded(p.job) for p in problems if p.job and p.level is not Level.NOTE}
    wrong = {folded(_name_of(row)) for row in pool.bad("jobs")}
    parts = {folded(job_of(row)) for key in ("pieces", "adjustments") for row in pool.bad(key)}
    return frozenset(told | wrong | parts)


def _told_to_jobs(problems: Iterable[Problem], entries: Iterable[JobEntry]) -> Iterable[Problem]:
    """The problems, those at a Jobs row without a code given to that row's entry."""
    unnamed = {replace(entry.place, column=0): entry.code for entry in entries}
    for found in problems:
        entry = "" if found.job else unnamed.get(replace(found.place, column=0), "")
        yield replace(found, job=entry) if entry else found
