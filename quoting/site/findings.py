"""The room's entry: everything that is found of a job's site."""

from __future__ import annotations

from dataclasses import dataclass, replace

from quoting.domain.flags import Flag
from quoting.domain.jobs import Job
from quoting.domain.plans import Section
from quoting.domain.prices import PriceBook
from quoting.domain.problems import Outcome
from quoting.domain.quotes import Cautions
from quoting.site.cautions import cautions_for
from quoting.site.fit import check_fit
from quoting.site.last import check_last
from quoting.site.lookout import Lookout, Planned
from quoting.site.stand import check_stand

CHECKS = (check_fit, check_stand, check_last)
"""In the order of the front page: does it fit, stand and last?"""


@dataclass(frozen=True, slots=True, kw_only=True)
class SiteFindings:
    """Cautions for client and crew, flags for the workshop sheet, and the section "site" of the workings (or none)."""

    cautions: Cautions
    flags: tuple[Flag, ...]
    workings: tuple[Section, ...]


def look_at_site(job: Job, plans: Planned, prices: PriceBook) -> Outcome[SiteFindings]:
    """Say whether a job fits, stands and lasts, and what people must be warned of.

    Problems are notes but for P701 (taller than the ceiling), which holds the job.
    """
    look = Lookout(job, plans, prices)
    for check in CHECKS:
        check(look)
    cautions = cautions_for(job, plans, prices)
    client = tuple(dict.fromkeys((*cautions.client, *look.client)))
    found = SiteFindings(
        cautions=replace(cautions, client=client), flags=tuple(look.flags), workings=look.workings)
    return Outcome(value=found, problems=tuple(look.problems))
