"""The work in a piece, in the activities of the Labour sheet."""

from __future__ import annotations

from decimal import Decimal

from quoting.domain.plans import Part
from quoting.domain.prices import Balloon, Shape
from quoting.forms.drafts import Draft
from quoting.forms.formulas import kept_all

INFLATE = {Shape.ROUND: "inflate round", Shape.FOIL: "inflate foil", Shape.TWISTER: "inflate twister"}
INFLATE_HELIUM = {Shape.ROUND: "inflate round with helium", Shape.FOIL: "inflate foil with helium"}
HANDLING = ("load piece", "unload piece", "install piece", "strike piece")


def add_inflating(
    draft: Draft, *, leaving_out: frozenset[str] = frozenset(), helium: frozenset[str] = frozenset()
) -> None:
    """Add inflating for all balloons among the parts, by activity and nominal size.

    Activities in `leaving_out` are counted by the owner's own build; rounds and foils of the roles in
    `helium` are filled with it. Twisters carry no size class.
    """
    groups: dict[tuple[str, int | None], list[int]] = {}
    for number, part in enumerate(draft.parts, 1):
        balloon = _balloon(draft, part)
        if balloon is None:
            continue
        size = None if balloon.shape is Shape.TWISTER else balloon.size
        activity = INFLATE_HELIUM[balloon.shape] if part.role in helium else INFLATE[balloon.shape]
        groups.setdefault((activity, size), []).append(number)
    for (activity, size), numbers in sorted(groups.items(), key=lambda group: (group[0][0], group[0][1] or 0)):
        if activity not in leaving_out:
            total = sum(draft.parts[number - 1].count for number in numbers)
            draft.add_task(activity, Decimal(total), size=size, formula=kept_all([f"part {n}" for n in numbers]))


def _balloon(draft: Draft, part: Part) -> Balloon | None:
    return draft.prices.balloon(part.item) if part.fill_cm is not None else None


def add_ring_tasks(draft: Draft, rings: int, rings_key: str) -> None:
    """Add tying every ring and fitting it to its pole or frame."""
    for activity in ("tie cluster", "build ring"):
        draft.add_task(activity, Decimal(rings), formula="{" + rings_key + "}")


def add_handling(draft: Draft, *, bases: int) -> None:
    """Add setting the stands (where there are any), loading, unloading, installing and striking."""
    draft.add_task("set base and pole", Decimal(bases))
    for activity in HANDLING:
        draft.add_task(activity, Decimal(1))
