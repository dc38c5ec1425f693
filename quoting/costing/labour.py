"""Seconds of work: activity rates × the quantities that plans ask for."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from fractions import Fraction

from quoting.costing.stock import Planned
from quoting.domain.codes import problem
from quoting.domain.jobs import Job, Piece
from quoting.domain.money import ZERO, exact
from quoting.domain.places import Place
from quoting.domain.plans import Task
from quoting.domain.prices import ActivityRate, PriceBook, Shop
from quoting.domain.problems import Outcome, Problem
from quoting.domain.quotes import Hours
from quoting.forms.tasks import HANDLING


class Stage(StrEnum):
    """When and where work is done."""

    WORKSHOP = "workshop"
    INSTALL = "install"
    STRIKE = "strike"


@dataclass(frozen=True, slots=True, kw_only=True)
class Done:
    """One task of a piece that is done: `place` counts the plan's tasks from 1, `seconds` are for a single piece."""

    place: int
    rate: ActivityRate
    seconds: Decimal
    stage: Stage

    def hour(self, shop: Shop, kind: str) -> Decimal:
        """Give what an hour of it comes to, at "charge" or "cost"."""
        own = self.rate.hour_charge if kind == "charge" else self.rate.hour_cost
        return plain_hour(shop, self.stage, kind) if own is None else own


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceWork:
    """The work on a single piece: seconds of one pair of hands, exact."""

    done: tuple[Done, ...]

    def seconds(self, *stages: Stage) -> Decimal:
        """Give the seconds of some stages."""
        return sum((each.seconds for each in self.done if each.stage in stages), ZERO)

    @property
    def workshop(self) -> Decimal:
        """Seconds in the workshop."""
        return self.seconds(Stage.WORKSHOP)

    @property
    def venue(self) -> Decimal:
        """Seconds at the venue, strike included."""
        return self.seconds(*VENUE)

    def amount(self, shop: Shop, kind: str, *stages: Stage) -> Fraction:
        """Say what the work of some stages (none: of all) comes to at "charge" or "cost", not rounded."""
        own = (each for each in self.done if not stages or each.stage in stages)
        return sum((Fraction(each.seconds * each.hour(shop, kind)) for each in own), Fraction(0)) / 3600

    def charge(self, shop: Shop) -> Fraction:
        """Say what the work on one piece is charged at, not rounded."""
        return self.amount(shop, "charge")

    def cost(self, shop: Shop) -> Fraction:
        """Say what the work on one piece costs the shop, not rounded."""
        return self.amount(shop, "cost")

    def hours(self, quantity: int) -> Hours:
        """Give the hours for so many pieces."""
        return Hours(workshop=hours_of(self.workshop * quantity), venue=hours_of(self.venue * quantity))


VENUE = (Stage.INSTALL, Stage.STRIKE)


def has_strike(works: Sequence[PieceWork]) -> bool:
    """Tell whether there is strike work: then the crew drives out a second time, whether its day is given or not."""
    return any(work.seconds(Stage.STRIKE) for work in works)


def plain_hour(shop: Shop, stage: Stage, kind: str) -> Decimal:
    """Give what the shop's hour of a place comes to, at "charge" or "cost"."""
    if stage is Stage.WORKSHOP:
        return shop.workshop_charge if kind == "charge" else shop.workshop_cost
    return shop.venue_charge if kind == "charge" else shop.venue_cost


def hours_of(seconds: Decimal) -> Decimal:
    """Seconds as hours, to 28 digits."""
    return exact(Fraction(seconds) / 3600)


def work_of(job: Job, plans: Planned, prices: PriceBook) -> Outcome[tuple[PieceWork, ...]]:
    """Give the work of each piece, in order; an activity without a rate holds the job.

    Where the client collects, loading, unloading, installing and striking are the
    client's own, and what else is done at a venue is done in the workshop.
    """
    found: dict[tuple[str, int | None], ActivityRate | None] = {}
    problems: list[Problem] = []
    works: list[PieceWork] = []
    for piece, plan in plans:
        done: list[Done] = []
        for place, task in enumerate(plan.tasks, 1):
            if job.is_collected and task.activity in HANDLING:
                continue
            key = (task.activity, task.size)
            rate = found[key] if key in found else found.setdefault(key, rate_for(task, prices.labour))
            if rate is None:
                problems.append(_without_rate(job, piece, task, prices.labour_faults))
                continue
            stage = Stage.WORKSHOP if job.is_collected else _stage_of(rate)
            done.append(Done(place=place, rate=rate, seconds=rate.seconds * task.quantity, stage=stage))
        works.append(PieceWork(done=tuple(done)))
    return Outcome(value=tuple(works), problems=tuple(problems))


def _stage_of(rate: ActivityRate) -> Stage:
    """Work at a venue is of the install, but for the activities whose name begins with "strike"."""
    if not rate.is_at_venue:
        return Stage.WORKSHOP
    return Stage.STRIKE if rate.activity.casefold().startswith("strike") else Stage.INSTALL


def _without_rate(job: Job, piece: Piece, task: Task, faults: Mapping[str, Place]) -> Problem:
    wrong = faults.get(task.activity.casefold())
    if wrong is not None:
        where, seen = piece.where("form"), piece.row.seen("form")
        return problem("P610", where, seen=seen, job=job.code, activity=task.activity, other=wrong)
    size = "" if task.size is None else f" of balloons up to {task.size} in"
    where, seen = piece.where("form"), piece.row.seen("form")
    return problem("P604", where, seen=seen, job=job.code, activity=task.activity, size=size)


def rate_for(task: Task, rates: Sequence[ActivityRate]) -> ActivityRate | None:
    """Find the rate of a task: the least size class that takes it, else the rate for any size, else None.

    A task without a size takes the rate for any size only.
    """
    wanted = task.activity.casefold()
    own = [rate for rate in rates if rate.activity.casefold() == wanted]
    classes = [r for r in own if r.up_to_size is not None and task.size is not None and r.up_to_size >= task.size]
    if classes:
        return min(classes, key=lambda rate: rate.up_to_size or 0)
    return next((rate for rate in own if rate.up_to_size is None), None)
