"""What to buy of every item and from whom, where suppliers have a least order or charge for delivery."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from quoting.costing.covers import NEVER
from quoting.costing.order_programs import Wanted
from quoting.costing.supplier_search import SupplierSearch
from quoting.costing.supplier_terms import PLAIN, OrderTerms

MOST_PROGRAMS = 40
"""Integer programs to be solved at most for items that hang together; what is left is told as a gap."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bought:
    """What to buy: for each item so many of each of its offers; `cost` with delivery, in smallest units.

    No way costs less than `bound`: it equals `cost` where the choice is proved to be the cheapest.
    """

    numbers: tuple[tuple[int, ...], ...]
    cost: int
    bound: int


def buy_together(
    wanted: Sequence[Wanted], terms: Mapping[str, OrderTerms], programs: int = MOST_PROGRAMS
) -> Bought:
    """Give the cheapest packs for all items together, suppliers' minimums and delivery charges counted.

    Of equally cheap ways one that holds least, then one with the fewest packs (where an
    integer program decides, as far as it finds them fast). A minimum
    that a supplier's offers can't come to is not asked for (`reachable_terms`). `programs`
    is how many integer programs may be solved for items that hang together: with 0 a good
    way is found fast, with its bound. ValueError for an item that its offers can't cover.
    """
    terms = reachable_terms(wanted, terms)
    numbers: list[tuple[int, ...]] = [()] * len(wanted)
    cost = bound = 0
    for places in _groups(wanted, terms):
        search = SupplierSearch([wanted[place] for place in places], terms)
        search.branch({})
        search.settle(programs)
        best, least = search.result()
        for place, found in zip(places, best.numbers, strict=True):
            numbers[place] = found
        cost, bound = cost + best.key[0], bound + least
    return Bought(numbers=tuple(numbers), cost=cost, bound=bound)


def reachable_terms(wanted: Iterable[Wanted], terms: Mapping[str, OrderTerms]) -> Mapping[str, OrderTerms]:
    """Give the terms, without the minimums that all the packs a supplier has don't come to."""
    most: dict[str, int] = {}
    for item in wanted:
        for offer in item.offers:
            value = NEVER if offer.limit is None and offer.price else (offer.limit or 0) * offer.price
            most[offer.supplier] = most.get(offer.supplier, 0) + value
    return {
        name: OrderTerms(charge=asked.charge, free_from=asked.free_from) if most.get(name, 0) < asked.minimum else asked
        for name, asked in terms.items()
    }


def _groups(wanted: Sequence[Wanted], terms: Mapping[str, OrderTerms]) -> list[list[int]]:
    """Places of items that have to be decided together: those joined by suppliers whose terms aren't plain."""
    groups: list[tuple[set[str], list[int]]] = []
    for place, item in enumerate(wanted):
        names = {offer.supplier for offer in item.offers if not terms.get(offer.supplier, PLAIN).is_plain}
        joined = [group for group in groups if group[0] & names]
        groups = [group for group in groups if not group[0] & names]
        places = sorted([place, *(p for _, others in joined for p in others)])
        groups.append((names.union(*(group[0] for group in joined)), places))
    return sorted(places for _, places in groups)
