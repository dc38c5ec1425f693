"""One job costed, or what holds it."""

from __future__ import annotations

from costing_made import job, prices

from quoting.costing.jobs import cost_job
from quoting.domain.quotes import Cautions

CAUTIONS = Cautions(client=("Keep away from heat.",), crew=("Two people on ladders.",))


def outcome(plans, adjustments=(), book=None, **changes):
    return cost_job(job([p for p, _ in plans], adjustments, **changes), plans, book or prices(), CAUTIONS)


def sheet(plans, adjustments=(), book=None, **changes):
    made = outcome(plans, adjustments, book, **changes)
    assert made.value is not None, made.problems
    return made.value


def codes(made):
    return [(p.code, p.level, p.place.sheet, p.place.column) for p in made.problems]


ONE = [("Round 11 ivory", 10)]
