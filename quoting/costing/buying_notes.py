"""What the owner is told of single jobs when the batch is bought and hired together; no job is held for it.

A job that can't have its stock in time, or clashes with a neighbour, may still be
saved by the owner: by another shop round the corner, or a plate borrowed.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from fractions import Fraction

from quoting.costing.buying import Basket
from quoting.costing.orders import Filled
from quoting.costing.stock import field_of
from quoting.domain.codes import problem
from quoting.domain.counts import shared_counts
from quoting.domain.jobs import Job
from quoting.domain.orders import Clash, GasPurchase, Shortage
from quoting.domain.places import Place
from quoting.domain.plans import Part
from quoting.domain.problems import Problem
from quoting.domain.quotes import JobSheet, PricedPiece


def buying_notes(basket: Basket, sheets: Sequence[JobSheet], jobs: Mapping[str, Job]) -> tuple[Problem, ...]:
    """Give the notes of a batch: P621, P623, P627 (not to be had in time), P622 (hire clash), P624 (lots), P628 (gas).

    `jobs` are the jobs of the sheets by code; the notes stand at their cells.
    """
    purchase = basket.purchase
    found = [note for shortage in purchase.shortages for note in _short(shortage, jobs)]
    found += [note for clash in purchase.clashes for note in _clashing(clash, jobs)]
    by_job = {sheet.job: sheet for sheet in sheets}
    for filled in basket.filled:
        if filled.need.source.lot_on_hand or any(lot.pack.lot for lot in filled.lots):
            found += _mixed(filled, by_job, jobs)
    found += _without_gas(purchase.gas, jobs) if purchase.gas else []
    return tuple(found)


def _date_cell(job: Job) -> tuple[Place, str]:
    """The cell that says when a job's things leave, and its text."""
    key = "install_date" if "install_date" in job.row.values else "event_date"
    return job.where(key), job.row.seen(key)


def _short(shortage: Shortage, jobs: Mapping[str, Job]) -> Iterator[Problem]:
    place, seen = _date_cell(jobs[shortage.job])
    late = "P623" if shortage.comes is None else "P621"
    yield problem(
        "P627" if shortage.is_early else late, place, seen=seen, job=shortage.job,
        item=shortage.item, count=shortage.count, day=shortage.needed_by, comes=shortage.comes,
    )


def day_span(first: date, last: date) -> str:
    """Say a run of days: one date, or the first and the last."""
    return first.isoformat() if first == last else f"{first.isoformat()} to {last.isoformat()}"


def _clashing(clash: Clash, jobs: Mapping[str, Job]) -> Iterator[Problem]:
    wants = ", ".join(f"{code} ({count})" for code, count in clash.jobs)
    for code, _ in clash.jobs:
        place, seen = _date_cell(jobs[code])
        yield problem(
            "P622", place, seen=seen, job=code, item=clash.item, days=day_span(clash.first, clash.last),
            wanted=clash.wanted, owned=clash.owned, short=clash.short, wants=wants,
        )


def _mixed(filled: Filled, sheets: Mapping[str, JobSheet], jobs: Mapping[str, Job]) -> Iterator[Problem]:
    """Pieces that would be built from two colour lots of one item, or from one that is known and one that isn't."""
    for draw in filled.need.draws:
        runs = [(filled.need.source.lot_on_hand, draw.from_hand)]
        runs += [(lot.pack.lot, count) for lot in filled.lots for code, count in lot.used if code == draw.job]
        pieces = _users(sheets[draw.job], filled.need.source.item)
        weights = [Fraction(part.count * piece.quantity) for piece, part in pieces]
        counts = shared_counts(sum(count for _, count in runs), weights) if pieces else ()
        for (piece, part), lots in zip(pieces, _handed_out(runs, counts), strict=True):
            if len(lots) > 1:
                told = next(p for p in jobs[draw.job].pieces if p.label == piece.label)
                key = field_of(told, part)
                yield problem(
                    "P624", told.where(key), seen=told.row.seen(key), job=draw.job, item=filled.need.source.item,
                    piece=piece.label, lots=" and ".join(_lot_words(lot, count) for lot, count in lots.items()),
                )


def _users(sheet: JobSheet, item: str) -> list[tuple[PricedPiece, Part]]:
    """The pieces that have an item, each with its part of it (of several, the first with all their count)."""
    users = []
    for piece in sheet.pieces:
        parts = [part for part in piece.plan.parts if part.item.casefold() == item.casefold() and part.count]
        if parts:
            count = sum(part.count for part in parts)
            first = parts[0]
            users.append((piece, Part(item=item, count=count, role=first.role, fill_cm=first.fill_cm)))
    return users


def _handed_out(runs: Sequence[tuple[str, int]], counts: Sequence[int]) -> list[dict[str, int]]:
    """What each of `counts` gets when runs of (lot, how many) are handed out in order."""
    left = [(lot, count) for lot, count in runs if count]
    given: list[dict[str, int]] = []
    for wanted in counts:
        lots: dict[str, int] = {}
        missing = wanted
        while missing and left:
            lot, count = left[0]
            taken = min(missing, count)
            lots[lot] = lots.get(lot, 0) + taken
            missing -= taken
            left = left[1:] if taken == count else [(lot, count - taken), *left[1:]]
        given.append(lots)
    return given


def _lot_words(lot: str, count: int) -> str:
    return f"{count} of lot {lot}" if lot else f"{count} of a lot that isn't known"


def _without_gas(gas: GasPurchase, jobs: Mapping[str, Job]) -> list[Problem]:
    if not gas.short:
        return []
    return [
        problem("P628", jobs[code].where("job"), seen=jobs[code].row.seen("job"), job=code, litres=f"{litres:.0f}")
        for code, litres in gas.jobs
    ]
