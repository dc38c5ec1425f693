"""Checks on the rows of the Adjustments sheet: what they are for, and how much."""

from __future__ import annotations

from collections.abc import Iterator

from quoting.checking.names import asked, folded, nearest_names
from quoting.checking.piece_checks import suspects
from quoting.checking.pool import Pool
from quoting.checking.rows import job_of, row_level
from quoting.domain.codes import problem
from quoting.domain.problems import Problem


def adjusted_jobs(pool: Pool) -> Iterator[Problem]:
    """An adjustment for a job that is not there (the jobs one slip away are held), or for a piece of no job."""
    codes = {folded(job_of(row)): job_of(row) for row in pool.of("jobs") if job_of(row)}
    for row in pool.of("adjustments"):
        typed = job_of(row)
        if not typed and "job" not in row.misread and row.get("piece"):
            yield problem("P432", row.where("piece"), seen=row.seen("piece"))
        if not typed or folded(typed) in codes:
            continue
        owners = suspects(typed, codes, ())
        hint = asked(owners or nearest_names(typed, codes.values()))
        for owner in owners or ("",):
            yield problem("P430", row.where("job"), seen=row.seen("job"), job=owner, hint=hint)


def adjusted_pieces(pool: Pool) -> Iterator[Problem]:
    """An adjustment for a piece that its job does not have."""
    labels: dict[str, dict[str, str]] = {}
    for row in pool.of("pieces"):
        label = str(row.get("piece", ""))
        labels.setdefault(job_of(row), {})[folded(label)] = label
    for row in pool.of("adjustments"):
        label, code = str(row.get("piece", "")), job_of(row)
        if label and code in labels and folded(label) not in labels[code]:
            hint = asked(nearest_names(label, labels[code].values()))
            yield problem("P431", row.where("piece"), seen=row.seen("piece"), job=code, job_code=code, hint=hint)


def percent_or_amount(pool: Pool) -> Iterator[Problem]:
    """An adjustment with both a percent and an amount, or with none."""
    for row in pool.of("adjustments"):
        if row.misread & {"percent", "amount"}:
            continue
        given = [key for key in ("percent", "amount") if key in row.values]
        if len(given) != 1:
            found = "both a percent and an amount" if given else "neither a percent nor an amount"
            yield problem(
                "P433", row.where("amount" if given else "percent"), seen=row.seen("amount"), job=job_of(row),
                level=row_level("adjustments", row), found=found,
            )
