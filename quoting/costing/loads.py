"""How a job goes on the road: the room its pieces take, their longest stiff part, and the van that takes them."""

from __future__ import annotations

from collections.abc import Sequence

from quoting.costing.labour import PieceWork, has_strike
from quoting.costing.stock import Planned
from quoting.domain.codes import problem
from quoting.domain.counts import HAIR, rounded_up
from quoting.domain.crews import Loads, StrikeTrip, Van
from quoting.domain.jobs import Job
from quoting.domain.measures import length_words
from quoting.domain.plans import Outline
from quoting.domain.prices import PriceBook
from quoting.domain.problems import Outcome


def loads_of(job: Job, plans: Planned, prices: PriceBook) -> Outcome[tuple[Loads, Van | None]]:
    """Give the loads of a job and the van that takes them; without a Vans sheet one load in no van.

    A van takes a job when it is as long as the longest stiff part and its door as high
    as the least side of every piece. Loads = packed volume ÷ usable volume, rounded
    up, at least 1. Of several vans the one whose loads cost the least, then the one
    with fewer loads, then the earlier in the sheet. P660 notes every piece that no van
    takes whole; the van is then chosen by the others.
    """
    outlines = [(piece, plan.outline, piece.quantity) for piece, plan in plans if plan.outline is not None]
    litres = sum(outline.packed_volume_l * quantity for _, outline, quantity in outlines)
    longest = max((outline.longest_rigid_cm for _, outline, _ in outlines), default=0.0)
    if job.is_collected or not prices.vans:
        return Outcome(value=(Loads(van="", count=1, litres=litres, longest_cm=longest), None))
    whole = [(piece, outline) for piece, outline, _ in outlines if any(takes(van, outline) for van in prices.vans)]
    fitting = [van for van in prices.vans if all(takes(van, outline) for _, outline in whole)]
    # Pieces that each go into some van, but not all into one: the longest van then takes them one after another.
    candidates = fitting or [max(prices.vans, key=lambda van: (van.length_cm is None, van.length_cm or 0))]
    van = min(candidates, key=lambda each: (each.cost * load_count(litres, each), load_count(litres, each)))
    made = Loads(van=van.van, count=load_count(litres, van), litres=litres, longest_cm=longest)
    unit = prices.shop.length_unit
    problems = tuple(
        problem(
            "P660", piece.where("form"), seen=piece.row.seen("form"), job=job.code, piece=piece.label,
            longest=length_words(outline.longest_rigid_cm, unit), least=length_words(_least_side(outline), unit),
        )
        for piece, outline, _ in outlines
        if not any(takes(each, outline) for each in prices.vans)
    )
    return Outcome(value=(made, van), problems=problems)


def load_count(litres: float, van: Van) -> int:
    """Give how many loads a volume makes in a van, at least 1."""
    return max(1, rounded_up(litres / float(van.usable_litres)))


def takes(van: Van, outline: Outline) -> bool:
    """Tell whether a piece goes into a van: its longest stiff part by the length, its least side by the door."""
    slack = 1 + HAIR
    is_long_enough = van.length_cm is None or outline.longest_rigid_cm <= float(van.length_cm) * slack
    return is_long_enough and (
        van.door_height_cm is None or _least_side(outline) <= float(van.door_height_cm) * slack
    )


def trips_of(loads: Loads, works: Sequence[PieceWork], prices: PriceBook) -> int:
    """Count the drives out and back that are charged: one per load, again for a strike where the shop says so."""
    again = prices.shop.policy.strike_trip is StrikeTrip.AGAIN and has_strike(works)
    return loads.count * (2 if again else 1)


def _least_side(outline: Outline) -> float:
    return min(outline.width_cm, outline.height_cm, outline.depth_cm)

