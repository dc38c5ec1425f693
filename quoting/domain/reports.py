"""What an evening came to: every job's result, every problem, what to buy."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date

from quoting.domain.crews import WorkDay
from quoting.domain.orders import Purchase
from quoting.domain.problems import Problem, in_order
from quoting.domain.quotes import BuyLine, JobResult, JobSheet, Status


@dataclass(frozen=True, slots=True, kw_only=True)
class BatchReport:
    """One run as values, before anything is written.

    `books` are (file name, SHA-256 of its bytes in hex) of every book that was read.
    `results` stand in the order of the Jobs sheets, `problems` sorted by place.
    `buying` are the lines of `purchase`, by item.
    """

    run_date: date
    books: tuple[tuple[str, str], ...]
    results: tuple[JobResult, ...]
    problems: tuple[Problem, ...]
    buying: tuple[BuyLine, ...] = ()
    purchase: Purchase | None = None
    days: tuple[WorkDay, ...] = ()
    """Every date that has work, ascending."""

    @property
    def sheets(self) -> tuple[JobSheet, ...]:
        """The sheets of the jobs that were quoted, in the order of `results`."""
        return tuple(result.sheet for result in self.results if result.sheet is not None)

    def problems_of(self, job: str) -> tuple[Problem, ...]:
        """The problems of one job, in order."""
        return tuple(p for p in self.problems if p.job == job)

    def with_failures(self, failures: Mapping[str, Problem], others: tuple[Problem, ...] = ()) -> BatchReport:
        """The same run, told of what failed in writing: the jobs of `failures` are held by their problem."""
        results = tuple(
            replace(r, sheet=None, status=Status.HELD) if r.job in failures else r for r in self.results
        )
        return replace(self, results=results, problems=in_order((*self.problems, *failures.values(), *others)))
