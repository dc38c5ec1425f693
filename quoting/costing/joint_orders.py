"""What to buy of every item and from whom, where suppliers have a least order or charge for delivery.

Which suppliers to use ties the items together. Once it is said of every supplier
whether it is used, and whether its order reaches free delivery, the cheapest cover of
each item alone is a bound for all; where these covers happen to reach the amounts
they must, they are the optimum. Branch and bound goes over what can be said of the
suppliers; only where an amount is not reached does an integer program decide.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import Enum

from quoting.costing.covers import NEVER, Cover, cheapest_cover
from quoting.costing.order_programs import Solved, Wanted, solve_program
from quoting.costing.supplier_terms import PLAIN, OrderTerms

MOST_CASES = 20_000
"""Where the search stops; what is left is told as a gap."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bought:
    """What to buy: for each item so many of each of its offers; `cost` with delivery, in smallest units.

    No way costs less than `bound`: it equals `cost` where the choice is proved to be the cheapest.
    """

    numbers: tuple[tuple[int, ...], ...]
    cost: int
    bound: int


def buy_together(wanted: Sequence[Wanted], terms: Mapping[str, OrderTerms]) -> Bought:
    """Give the cheapest packs for all items together, suppliers' minimums and delivery charges counted.

    Of equally cheap ways one that holds least, then one with the fewest packs. A minimum
    that a supplier's offers can't come to is not asked for (`reachable_terms`). ValueError
    for an item that its offers can't cover.
    """
    terms = reachable_terms(wanted, terms)
    numbers: list[tuple[int, ...]] = [()] * len(wanted)
    cost = bound = 0
    for places in _groups(wanted, terms):
        search = _Search([wanted[place] for place in places], terms)
        search.branch({})
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


class _Use(Enum):
    """What is said of a supplier: not used, used and its delivery paid, used up to free delivery."""

    NOT = 0
    PAID = 1
    FREE = 2


_Said = Mapping[str, _Use]


@dataclass(frozen=True, slots=True)
class _Way:
    key: tuple[int, int, int]
    """Cost with delivery, balloons held, packs."""
    numbers: tuple[tuple[int, ...], ...]


class _Search:
    """Branch and bound over the suppliers of one group of items."""

    def __init__(self, wanted: Sequence[Wanted], terms: Mapping[str, OrderTerms]) -> None:
        self._wanted = wanted
        names = {offer.supplier for item in wanted for offer in item.offers}
        self._terms = {name: terms[name] for name in sorted(names) if name in terms and not terms[name].is_plain}
        self._of_item = [frozenset(o.supplier for o in item.offers if o.supplier in self._terms) for item in wanted]
        self._covers: dict[tuple[int, frozenset[str]], Cover | None] = {}
        self._best: _Way | None = None
        self._open_bounds: list[int] = []
        self._cases = 0

    def result(self) -> tuple[_Way, int]:
        """Give the best way found and the cost that no way goes below."""
        if self._best is None:
            raise ValueError("an item can't be covered by its offers")
        return self._best, min([self._best.key[0], *self._open_bounds])

    def branch(self, said: _Said) -> None:
        """Look at everything that can be said further of the suppliers, as far as it may still be cheaper."""
        relaxed = self._relaxed(said)
        if relaxed is None or (self._best is not None and relaxed.key >= self._best.key):
            return
        self._cases += 1
        if self._cases > MOST_CASES:
            self._open_bounds.append(relaxed.key[0])
            return
        goods = self._goods(relaxed.numbers)
        self._keep(relaxed.numbers)
        unsaid = [name for name in self._terms if name not in said]
        if not unsaid:
            self._decide(said, relaxed, goods)
            return
        # The supplier with most of the goods first: what is said of it moves the bound most.
        name = max(unsaid, key=lambda n: (goods.get(n, 0), n))
        for use in self._uses(name, goods.get(name, 0)):
            self.branch({**said, name: use})

    def _uses(self, name: str, goods: int) -> tuple[_Use, ...]:
        terms = self._terms[name]
        can_be_free = bool(terms.charge) and terms.free_from is not None
        used = (_Use.PAID, _Use.FREE) if can_be_free else (_Use.PAID,)
        if not goods:
            return (_Use.NOT, *used)
        is_free = terms.free_from is not None and goods >= terms.free_from
        return (*(used[::-1] if is_free else used), _Use.NOT)

    def _relaxed(self, said: _Said) -> _Way | None:
        """Every item's cheapest cover with the suppliers that are not ruled out, amounts to be reached left aside."""
        closed = frozenset(name for name, use in said.items() if use is _Use.NOT)
        charges = sum(self._terms[name].charge for name, use in said.items() if use is _Use.PAID)
        cost, held, packs = charges, 0, 0
        numbers = []
        for place, names in enumerate(self._of_item):
            cover = self._cover(place, names & closed)
            if cover is None:
                return None
            cost, held, packs = cost + cover.cost, held + cover.held, packs + cover.packs
            numbers.append(cover.numbers)
        return _Way((cost, held, packs), tuple(numbers))

    def _cover(self, place: int, closed: frozenset[str]) -> Cover | None:
        key = (place, closed)
        if key not in self._covers:
            item = self._wanted[place]
            chosen = [at for at, offer in enumerate(item.offers) if offer.supplier not in closed]
            cover = cheapest_cover(item.needs, [item.offers[at] for at in chosen])
            if cover is not None and len(chosen) < len(item.offers):
                numbers = [0] * len(item.offers)
                for at, number in zip(chosen, cover.numbers, strict=True):
                    numbers[at] = number
                cover = Cover(cost=cover.cost, held=cover.held, packs=cover.packs, numbers=tuple(numbers))
            self._covers[key] = cover
        return self._covers[key]

    def _goods(self, numbers: Sequence[Sequence[int]]) -> dict[str, int]:
        goods: dict[str, int] = {}
        for item, found in zip(self._wanted, numbers, strict=True):
            for offer, number in zip(item.offers, found, strict=True):
                if number:
                    goods[offer.supplier] = goods.get(offer.supplier, 0) + number * offer.price
        return goods

    def _keep(self, numbers: tuple[tuple[int, ...], ...]) -> None:
        """Take a way for the best so far where every supplier takes its order and it costs less."""
        goods = self._goods(numbers)
        if not all(terms.takes(goods.get(name, 0)) for name, terms in self._terms.items()):
            return
        charges = sum(terms.charge_on(goods.get(name, 0)) for name, terms in self._terms.items())
        pairs = [
            (offer, number)
            for item, found in zip(self._wanted, numbers, strict=True)
            for offer, number in zip(item.offers, found, strict=True)
        ]
        held = sum(offer.count * number for offer, number in pairs)
        way = _Way((sum(goods.values()) + charges, held, sum(number for _, number in pairs)), numbers)
        if self._best is None or way.key < self._best.key:
            self._best = way

    def _least(self, said: _Said) -> dict[str, int]:
        """What the goods of each used supplier must come to."""
        least = {}
        for name, use in said.items():
            terms = self._terms[name]
            if use is not _Use.NOT:
                least[name] = max(terms.minimum, (terms.free_from or 0) if use is _Use.FREE else 0)
        return least

    def _decide(self, said: _Said, relaxed: _Way, goods: Mapping[str, int]) -> None:
        """Everything is said: where amounts are not reached, an integer program finds what is cheapest."""
        least = self._least(said)
        if all(goods.get(name, 0) >= amount for name, amount in least.items()):
            return  # kept already
        if any(not goods.get(name, 0) and not amount for name, amount in least.items()):
            return  # a supplier that is charged for and not used: "not used" is cheaper
        closed = {name for name, use in said.items() if use is _Use.NOT}
        moved = [place for place, names in enumerate(self._of_item) if any(least.get(name) for name in names)]
        charges = relaxed.key[0] - sum(goods.values())
        fixed = sum(self._cover_cost(place, closed) for place in range(len(self._wanted)) if place not in set(moved))
        solved = self._solve(moved, closed, least)
        if solved is None:
            return
        numbers = list(relaxed.numbers)
        if solved.numbers is not None:
            for place, found in zip(moved, solved.numbers, strict=True):
                numbers[place] = found
            if self._covers_all(numbers):
                self._keep(tuple(numbers))
        bound = fixed + charges + solved.bound
        if self._best is None or bound < self._best.key[0]:
            self._open_bounds.append(bound)

    def _cover_cost(self, place: int, closed: Iterable[str]) -> int:
        cover = self._cover(place, self._of_item[place] & frozenset(closed))
        return cover.cost if cover is not None else 0

    def _solve(self, moved: Sequence[int], closed: Iterable[str], least: Mapping[str, int]) -> Solved | None:
        shut = frozenset(closed)
        chosen = [[at for at, o in enumerate(self._wanted[p].offers) if o.supplier not in shut] for p in moved]
        solved = solve_program(
            [
                Wanted(needs=self._wanted[p].needs, offers=tuple(self._wanted[p].offers[at] for at in places))
                for p, places in zip(moved, chosen, strict=True)
            ],
            least,
        )
        if solved is None or solved.numbers is None:
            return solved
        numbers = []
        for place, places, found in zip(moved, chosen, solved.numbers, strict=True):
            whole = [0] * len(self._wanted[place].offers)
            for at, number in zip(places, found, strict=True):
                whole[at] = number
            numbers.append(tuple(whole))
        return Solved(numbers=tuple(numbers), bound=solved.bound)

    def _covers_all(self, numbers: Sequence[Sequence[int]]) -> bool:
        """Check in whole numbers that every need is covered in time and no limit is passed."""
        for item, found in zip(self._wanted, numbers, strict=True):
            pairs = list(zip(item.offers, found, strict=True))
            if any(number < 0 or (offer.limit is not None and number > offer.limit) for offer, number in pairs):
                return False
            for stage, need in enumerate(item.needs):
                if sum(offer.count * number for offer, number in pairs if offer.stage <= stage) < need:
                    return False
        return True
