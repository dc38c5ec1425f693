"""The workings of a job's money, from the counts of its pieces to the amount due, as live formulas."""

from __future__ import annotations

from quoting.costing.costed_jobs import CostedJob
from quoting.costing.labour_workings import labour_workings
from quoting.costing.price_workings import price_workings
from quoting.costing.steps import piece_key
from quoting.costing.stock_workings import stock_workings
from quoting.costing.totals_workings import totals_workings
from quoting.costing.visit_workings import visit_workings
from quoting.domain.plans import Section


def workings_of(costed: CostedJob) -> tuple[Section, ...]:
    """Give the sections in order: each piece's own, stock, labour, visits (where
    there are any), price, totals.

    A section refers only to itself and to those before it.
    """
    pieces = tuple(
        Section(
            key=piece_key(piece.label, number),
            title=f"Piece {piece.label}: {piece.title or plan.title or piece.form}",
            steps=plan.workings,
        )
        for number, (piece, plan) in enumerate(costed.plans, 1)
    )
    visits = (visit_workings(costed),) if costed.visits else ()
    return (
        *pieces,
        stock_workings(costed),
        labour_workings(costed),
        *visits,
        price_workings(costed),
        totals_workings(costed),
    )
