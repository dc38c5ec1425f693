"""Work that belongs to no piece: set-up, rounding, minimum call-out, and what dear hours cost beyond plain ones."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from quoting.costing.labour import PieceWork, plain_hour
from quoting.costing.stock import Planned
from quoting.costing.visits import CrewVisit
from quoting.domain.prices import Shop


@dataclass(frozen=True, slots=True, kw_only=True)
class Attendance:
    """What a job's visits come to beyond the plain hours of its pieces, exact.


    `charge` and `charged_cost`, the cost as charged for, leave out dear hours of pieces
    with a fixed price: those
    stand as typed. `cost` has them all.
    """

    charge: Fraction
    charged_cost: Fraction
    cost: Fraction

    def __bool__(self) -> bool:
        return bool(self.charge or self.cost)


def attendance_of(plans: Planned, works: Sequence[PieceWork], visits: Sequence[CrewVisit], shop: Shop) -> Attendance:
    """Add up (billed − pieces' work) × factor at the venue's hour + (factor − 1) × pieces' work, for each visit."""

    def summed(kind: str, *, with_fixed: bool) -> Fraction:
        total = Fraction(0)
        for visit in visits:
            hour = Fraction(plain_hour(shop, visit.stage, kind))
            total += added_seconds(visit) * visit.factor * hour / 3600
            total += (visit.factor - 1) * pieces_amount(plans, works, visit, shop, kind, with_fixed=with_fixed)
        return total

    return Attendance(
        charge=summed("charge", with_fixed=False),
        charged_cost=summed("cost", with_fixed=False),
        cost=summed("cost", with_fixed=True),
    )


def added_seconds(visit: CrewVisit) -> Fraction:
    """Give the seconds of a visit that are no piece's: set-up, and what rounding and minimum add."""
    return visit.billed - visit.work + visit.setup


def pieces_amount(
    plans: Planned, works: Sequence[PieceWork], visit: CrewVisit, shop: Shop, kind: str, *, with_fixed: bool
) -> Fraction:
    """Give what the pieces' own work of a visit comes to at plain hours."""
    return sum(
        (
            work.amount(shop, kind, visit.stage) * piece.quantity
            for (piece, _), work in zip(plans, works, strict=True)
            if with_fixed or piece.price is None
        ),
        Fraction(0),
    )
