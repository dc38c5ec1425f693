"""The search over what can be said of suppliers: which are used, and whether their orders reach free delivery.

Which suppliers to use ties items together. Once it is said of every supplier, the
cheapest cover of each item alone is a bound for all; where these covers happen to
reach the amounts they must, they are the optimum. Only where an amount is not reached,
and a sharper bound does not rule the case out, does an integer program decide.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import Enum

from quoting.costing.covers import Cover, cheapest_cover
from quoting.costing.order_programs import Solved, Wanted, solve_program
from quoting.costing.supplier_terms import OrderTerms

MOST_CASES = 20_000
"""Where the search stops; what is left is told as a gap."""


class _Use(Enum):
    """What is said of a supplier: not used, used and its delivery paid, used up to free delivery."""

    NOT = 0
    PAID = 1
    FREE = 2


_Said = Mapping[str, _Use]


@dataclass(frozen=True, slots=True)
class Way:
    """One way of buying: its key to compare it by, and so many of every offer of each item."""

    key: tuple[int, int, int]
    """Cost with delivery, balloons held, packs."""
    numbers: tuple[tuple[int, ...], ...]


class SupplierSearch:
    """Branch and bound over the suppliers of one group of items: `branch({})`, then `settle`, then `result`."""

    def __init__(self, wanted: Sequence[Wanted], terms: Mapping[str, OrderTerms]) -> None:
        self._wanted = wanted
        names = {offer.supplier for item in wanted for offer in item.offers}
        self._terms = {name: terms[name] for name in sorted(names) if name in terms and not terms[name].is_plain}
        self._of_item = [frozenset(o.supplier for o in item.offers if o.supplier in self._terms) for item in wanted]
        self._covers: dict[tuple[int, frozenset[str]], Cover | None] = {}
        self._free_costs: dict[tuple[int, frozenset[str], frozenset[str]], int] = {}
        self._best: Way | None = None
        self._undecided: list[tuple[int, int, _Said, Way]] = []
        self._open_bounds: list[int] = []
        self._cases = 0

    def result(self) -> tuple[Way, int]:
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
        self._keep(self._topped_up(relaxed.numbers, goods))
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

    def _relaxed(self, said: _Said) -> Way | None:
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
        return Way((cost, held, packs), tuple(numbers))

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
        way = Way((sum(goods.values()) + charges, held, sum(number for _, number in pairs)), numbers)
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

    def _topped_up(self, numbers: Sequence[tuple[int, ...]], goods: Mapping[str, int]) -> tuple[tuple[int, ...], ...]:
        """Add packs until every used supplier's minimum is reached, quickly: a way to begin with."""
        added = [list(found) for found in numbers]
        for name, terms in self._terms.items():
            missing = terms.minimum - goods.get(name, 0)
            if not goods.get(name, 0) or missing <= 0:
                continue
            offers = [
                (offer.price, place, at, offer.limit)
                for place, item in enumerate(self._wanted)
                for at, offer in enumerate(item.offers)
                if offer.supplier == name and offer.price
            ]
            for price, place, at, limit in sorted(offers, key=lambda each: (-each[0], each[1:3])):
                room = missing // price if limit is None else min(missing // price, limit - added[place][at])
                added[place][at] += room
                missing -= room * price
            for price, place, at, limit in sorted(offers, key=lambda each: each[:3]):
                if 0 < missing <= price and (limit is None or added[place][at] < limit):
                    added[place][at] += 1
                    missing -= price
        return tuple(tuple(found) for found in added)

    def _decide(self, said: _Said, relaxed: Way, goods: Mapping[str, int]) -> None:
        """Everything is said: where amounts are not reached, the case waits for an integer program."""
        least = self._least(said)
        if all(goods.get(name, 0) >= amount for name, amount in least.items()):
            return  # kept already
        if any(not goods.get(name, 0) and not amount for name, amount in least.items()):
            return  # a supplier that is charged for and not used: "not used" is cheaper
        lacking = frozenset(name for name, amount in least.items() if goods.get(name, 0) < amount)
        bound = max(relaxed.key[0], self._bound(said, lacking))
        self._undecided.append((bound, len(self._undecided), said, relaxed))

    def _bound(self, said: _Said, lacking: frozenset[str]) -> int:
        """What a case costs at least: the amounts that are lacked are spent in any case, their packs then for nothing.

        That is the Lagrangian bound with factor 1 for the suppliers whose amount is not reached.
        """
        least = self._least(said)
        bound = sum(least[name] for name in lacking)
        bound += sum(self._terms[name].charge for name, use in said.items() if use is _Use.PAID)
        shut = frozenset(name for name, use in said.items() if use is _Use.NOT)
        return bound + sum(
            self._free_cost(place, names & shut, names & lacking) for place, names in enumerate(self._of_item)
        )

    def _free_cost(self, place: int, shut: frozenset[str], lacking: frozenset[str]) -> int:
        """What one item costs at least where the packs of some suppliers cost nothing, and others are not used."""
        key = (place, shut, lacking)
        if key not in self._free_costs:
            item = self._wanted[place]
            offers = [offer for offer in item.offers if offer.supplier not in shut]
            offers = [replace(offer, price=0) if offer.supplier in lacking else offer for offer in offers]
            cover = cheapest_cover(item.needs, offers)
            self._free_costs[key] = cover.cost if cover is not None else 0
        return self._free_costs[key]

    def settle(self, most: int) -> None:
        """Decide the waiting cases by integer programs, the most promising first, while they may be cheaper."""
        for number, (bound, _, said, relaxed) in enumerate(sorted(self._undecided, key=lambda case: case[:2])):
            if self._best is not None and bound >= self._best.key[0]:
                return
            if number >= most:
                self._open_bounds.append(bound)
                return
            self._run_program(said, relaxed)

    def _run_program(self, said: _Said, relaxed: Way) -> None:
        least = self._least(said)
        closed = {name for name, use in said.items() if use is _Use.NOT}
        moved = [place for place, names in enumerate(self._of_item) if any(least.get(name) for name in names)]
        charges = sum(self._terms[name].charge for name, use in said.items() if use is _Use.PAID)
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
