"""Checks on option groups and add-ons."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping

from quoting.checking.names import folded, natural_order
from quoting.checking.pool import Pool
from quoting.checking.rows import job_of
from quoting.domain.cells import Row
from quoting.domain.codes import problem
from quoting.domain.problems import Problem


def option_groups(pool: Pool) -> Iterator[Problem]:
    """Groups with two recommended pieces, with none, or with nothing to choose from."""
    for rows in _groups(pool).values():
        name = str(rows[0].get("option_group"))
        chosen = [row for row in rows if row.get("recommended")]
        for row in chosen[1:]:
            place, seen = row.where("recommended"), row.seen("recommended")
            yield problem("P680", place, seen=seen, job=job_of(row), group=name, other=chosen[0].where("recommended"))
        first = min(rows, key=lambda row: natural_order(str(row.get("piece"))))
        place, seen, job = first.where("option_group"), first.seen("option_group"), job_of(first)
        if len(rows) == 1:
            yield problem("P682", place, seen=seen, job=job, group=name)
        elif not chosen:
            yield problem("P683", place, seen=seen, job=job, group=name, piece=first.get("piece"))


def _groups(pool: Pool) -> Mapping[tuple[str, str], list[Row]]:
    groups: dict[tuple[str, str], list[Row]] = defaultdict(list)
    for row in pool.good("pieces"):
        if row.get("option_group"):
            groups[folded(job_of(row)), folded(str(row.get("option_group")))].append(row)
    return groups


def add_ons(pool: Pool) -> Iterator[Problem]:
    """An add-on that is in a group of alternatives too; a job of which nothing is in the total."""
    whole: dict[str, list[Row]] = defaultdict(list)
    for row in pool.good("pieces"):
        whole[folded(job_of(row))].append(row)
        if row.get("add_on") and row.get("option_group"):
            yield problem("P681", row.where("add_on"), seen=row.seen("add_on"), job=job_of(row))
    for rows in whole.values():
        if all(row.get("add_on") for row in rows):
            row = rows[0]
            yield problem("P684", row.where("add_on"), seen=row.seen("add_on"), job=job_of(row))
