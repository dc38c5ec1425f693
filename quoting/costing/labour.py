"""Seconds of work: activity rates × the quantities that plans ask for."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from quoting.costing.stock import Planned
from quoting.domain.codes import problem
from quoting.domain.jobs import Job
from quoting.domain.money import ZERO, exact
from quoting.domain.plans import Task
from quoting.domain.prices import ActivityRate, PriceBook, Shop
from quoting.domain.problems import Outcome, Problem
from quoting.domain.quotes import Hours


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceWork:
    """Seconds of work for a single piece, exact; `rates` are those of its tasks, in their order."""

    workshop: Decimal
    venue: Decimal
    rates: tuple[ActivityRate, ...]

    def charge(self, shop: Shop) -> Fraction:
        """Say what the work on one piece is charged at, not rounded."""
        return Fraction(self.workshop * shop.workshop_charge + self.venue * shop.venue_charge) / 3600

    def cost(self, shop: Shop) -> Fraction:
        """Say what the work on one piece costs the shop, not rounded."""
        return Fraction(self.workshop * shop.workshop_cost + self.venue * shop.venue_cost) / 3600

    def hours(self, quantity: int) -> Hours:
        """Give the hours for so many pieces."""
        return Hours(workshop=hours_of(self.workshop * quantity), venue=hours_of(self.venue * quantity))


def hours_of(seconds: Decimal) -> Decimal:
    """Seconds as hours, to 28 digits."""
    return exact(Fraction(seconds) / 3600)


def work_of(job: Job, plans: Planned, prices: PriceBook) -> Outcome[tuple[PieceWork, ...]]:
    """Give the work of each piece, in order; an activity without a rate holds the job."""
    found: dict[tuple[str, int | None], ActivityRate | None] = {}
    problems: list[Problem] = []
    works: list[PieceWork] = []
    for piece, plan in plans:
        rates: list[ActivityRate] = []
        seconds = {False: ZERO, True: ZERO}
        for task in plan.tasks:
            key = (task.activity, task.size)
            rate = found[key] if key in found else found.setdefault(key, rate_for(task, prices.labour))
            if rate is None:
                size = "" if task.size is None else f" of balloons up to {task.size} in"
                problems.append(
                    problem(
                        "P604",
                        piece.where("form"),
                        seen=piece.row.seen("form"),
                        job=job.code,
                        activity=task.activity,
                        size=size,
                    )
                )
                continue
            rates.append(rate)
            seconds[rate.is_at_venue] += rate.seconds * task.quantity
        works.append(PieceWork(workshop=seconds[False], venue=seconds[True], rates=tuple(rates)))
    return Outcome(value=tuple(works), problems=tuple(problems))


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
