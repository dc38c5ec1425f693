"""Orders that must reach an amount, as an integer program: the one place that calls the solver library.

Used only where packs chosen item by item fall short of a supplier's minimum or of
free delivery; what comes back is checked in whole numbers before it is believed.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import highspy
import numpy

from quoting.costing.covers import Offer

MOST_NODES, MOST_NODES_OF_TIES = 4000, 400
"""Where the solver gives up proving the cost, and then looking for less left over at that cost.

Counts, not times, so that every run ends alike."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """One item's needs (see `cheapest_cover`) and the offers that may serve it."""

    needs: tuple[int, ...]
    offers: tuple[Offer, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Solved:
    """Numbers for every item's offers (None where none were found), and a cost that no way can go below."""

    numbers: tuple[tuple[int, ...], ...] | None
    bound: int


def solve_program(wanted: Sequence[Wanted], least: Mapping[str, int]) -> Solved | None:
    """Give the cheapest packs that cover every need while the goods of each supplier come to its `least` amount.

    Of equally cheap ways the one that holds least, as far as it is found fast. None where there is no way.
    """
    offers = [offer for item in wanted for offer in item.offers]
    rows = [*_cover_rows(wanted), *_amount_rows(offers, least)]
    status, found, bound = _run(offers, rows, [float(offer.price) for offer in offers], MOST_NODES)
    if status == highspy.HighsModelStatus.kInfeasible:
        return None
    if found is None:
        return Solved(numbers=None, bound=bound)
    cost = sum(offer.price * number for offer, number in zip(offers, found, strict=True))
    if status == highspy.HighsModelStatus.kOptimal:
        no_dearer = _Row(factors={place: offer.price for place, offer in enumerate(offers)}, most=cost)
        _, fewer, _ = _run(offers, [*rows, no_dearer], [float(offer.count) for offer in offers], MOST_NODES_OF_TIES)
        found = min([found, fewer or found], key=lambda numbers: _held(offers, numbers))
    return Solved(numbers=_by_item(wanted, found), bound=min(bound, cost))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    """A sum of factors (by the place of their offer) × numbers, between two limits."""

    factors: Mapping[int, int]
    least: float = -math.inf
    most: float = math.inf


def _cover_rows(wanted: Sequence[Wanted]) -> list[_Row]:
    rows: list[_Row] = []
    start = 0
    for item in wanted:
        for stage, need in enumerate(item.needs):
            counts = {place: o.count for place, o in enumerate(item.offers, start) if o.stage <= stage}
            rows += [_Row(factors=counts, least=need)] if need > 0 else []
        start += len(item.offers)
    return rows


def _amount_rows(offers: Sequence[Offer], least: Mapping[str, int]) -> list[_Row]:
    return [
        _Row(factors={place: o.price for place, o in enumerate(offers) if o.supplier == name and o.price}, least=amount)
        for name, amount in sorted(least.items())
        if amount > 0
    ]


def _held(offers: Sequence[Offer], numbers: Sequence[int]) -> int:
    return sum(offer.count * number for offer, number in zip(offers, numbers, strict=True))


def _run(
    offers: Sequence[Offer], rows: Sequence[_Row], costs: Sequence[float], most_nodes: int
) -> tuple[highspy.HighsModelStatus, list[int] | None, int]:
    """Solve for whole numbers; gives the status, the numbers where some were found, and the bound rounded up."""
    solver = highspy.Highs()  # type: ignore[no-untyped-call]  # untyped in its own stubs
    solver.setOptionValue("output_flag", False)
    for name, value in (("threads", 1), ("mip_max_nodes", most_nodes), ("random_seed", 0)):
        solver.setOptionValue(name, value)
    for name, share in (("mip_rel_gap", 0.0), ("mip_abs_gap", 0.5)):
        solver.setOptionValue(name, share)
    for offer, cost in zip(offers, costs, strict=True):
        solver.addCol(cost, 0.0, math.inf if offer.limit is None else float(offer.limit), 0, [], [])
    for place in range(len(offers)):
        solver.changeColIntegrality(place, highspy.HighsVarType.kInteger)
    for row in rows:
        places = numpy.array(list(row.factors), dtype=numpy.int32)
        factors = numpy.array(list(row.factors.values()), dtype=numpy.float64)
        solver.addRow(row.least, row.most, len(places), places, factors)
    solver.run()
    info = solver.getInfo()
    has_found = info.primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible
    found = [round(value) for value in solver.getSolution().col_value] if has_found else None
    bound = info.mip_dual_bound
    return solver.getModelStatus(), found, math.ceil(bound - 1e-6) if math.isfinite(bound) else 0


def _by_item(wanted: Sequence[Wanted], numbers: Sequence[int]) -> tuple[tuple[int, ...], ...]:
    parts, start = [], 0
    for item in wanted:
        parts.append(tuple(numbers[start : start + len(item.offers)]))
        start += len(item.offers)
    return tuple(parts)
