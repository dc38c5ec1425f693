"""Buying against other solvers: 500 random problems, item by item and joint, each as one whole integer program in
scipy.optimize.milp, and the small ones against every way there is."""

from __future__ import annotations

import itertools
import math
import random

import numpy
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp

from quoting.costing.covers import Offer, cheapest_cover
from quoting.costing.joint_orders import buy_together, reachable_terms
from quoting.costing.order_programs import Wanted
from quoting.costing.supplier_terms import OrderTerms

SIZES = (5, 10, 12, 25, 50, 72, 100, 144)


def an_item(chance, suppliers, *, large):
    sizes, most = (SIZES, 400) if large else (SIZES[:4], 40)
    offers = tuple(
        Offer(
            count=chance.choice(sizes),
            price=chance.randint(100, 3000) if large else chance.randint(3, 12),
            limit=chance.choice((None, None, 1, 3)),
            stage=chance.randint(0, 1),
            supplier=chance.choice(suppliers),
        )
        for _ in range(chance.randint(1, 4 if large else 2))
    )
    early = min(chance.randint(0, most // 3), most_of(offers, 0))
    return Wanted(needs=(early, min(max(early, chance.randint(1, most)), most_of(offers, 1))), offers=offers)


def most_of(offers, stage):
    return sum((1000 if o.limit is None else o.limit) * o.count for o in offers if o.stage <= stage)


def some_terms(chance, suppliers, scale):
    return {
        name: OrderTerms(
            minimum=chance.choice((0, 0, 10, 20)) * scale,
            charge=chance.choice((0, 3, 6)) * scale,
            free_from=chance.choice((None, 15 * scale, 25 * scale)),
        )
        for name in suppliers
    }


def least_cost_by_milp(wanted, terms):
    """One program for everything: packs, whether a supplier is used, whether its delivery is free."""
    offers = [(item, offer) for item, each in enumerate(wanted) for offer in each.offers]
    names = sorted(terms)
    width = len(offers) + 2 * len(names)
    large = 10**6

    def column(number):
        return [1.0 if at == number else 0.0 for at in range(width)]

    costs = [float(o.price) for _, o in offers] + [float(terms[n].charge) for n in names]
    costs += [-float(terms[n].charge) for n in names]
    rows, low = [], []
    for item, each in enumerate(wanted):
        for stage, need in enumerate(each.needs):
            counts = [float(o.count) if i == item and o.stage <= stage else 0.0 for i, o in offers]
            rows.append(counts + [0.0] * 2 * len(names))
            low.append(need)
    for place, name in enumerate(names):
        used, free = len(offers) + place, len(offers) + len(names) + place
        goods = numpy.array([float(o.price) if o.supplier == name else 0.0 for _, o in offers] + [0.0] * 2 * len(names))
        for at, (_, offer) in enumerate(offers):
            if offer.supplier == name:
                most = 1000 if offer.limit is None else offer.limit
                rows.append(list(most * numpy.array(column(used)) - numpy.array(column(at))))
                low.append(0)
        rows.append(list(goods - terms[name].minimum * numpy.array(column(used))))
        low.append(0)
        reach = terms[name].free_from if terms[name].free_from is not None else large
        rows.append(list(goods - reach * numpy.array(column(free))))
        low.append(0)
        rows.append(list(numpy.array(column(used)) - numpy.array(column(free))))
        low.append(0)
    upper = [1000.0 if o.limit is None else float(o.limit) for _, o in offers] + [1.0] * 2 * len(names)
    solved = milp(
        costs, integrality=numpy.ones(width), bounds=Bounds(0, upper),
        constraints=LinearConstraint(rows, lb=low), options={"mip_rel_gap": 0},
    )
    assert solved.success, solved.message
    return round(solved.fun)


def cost_of(wanted, terms, numbers):
    """What packs cost with delivery, told apart from the code under test; every need and limit checked."""
    goods = dict.fromkeys(terms, 0)
    for item, found in zip(wanted, numbers, strict=True):
        for offer, number in zip(item.offers, found, strict=True):
            assert 0 <= number <= (math.inf if offer.limit is None else offer.limit)
            goods[offer.supplier] += offer.price * number
        for stage, need in enumerate(item.needs):
            held = sum(o.count * n for o, n in zip(item.offers, found, strict=True) if o.stage <= stage)
            assert held >= need
    cost = 0
    for name, amount in goods.items():
        assert amount == 0 or amount >= terms[name].minimum
        pays = amount and (terms[name].free_from is None or amount < terms[name].free_from)
        cost += amount + (terms[name].charge if pays else 0)
    return cost


@pytest.mark.parametrize("seed", range(10))
def test_single_items_in_time_cost_what_an_integer_program_says(seed):
    """250 items with limits and two deliveries."""
    chance = random.Random(seed)
    for _ in range(25):
        item = an_item(chance, ["any"], large=True)
        cover = cheapest_cover(item.needs, item.offers)
        free = {"any": OrderTerms()}
        assert cover is not None
        assert cost_of([item], free, [cover.numbers]) == cover.cost == least_cost_by_milp([item], free)


@pytest.mark.parametrize("seed", range(10))
def test_joint_orders_cost_what_one_integer_program_for_everything_says(seed):
    """260 batches of up to 8 items from up to 4 suppliers with minimums, delivery charges and limits."""
    chance = random.Random(100 + seed)
    for _ in range(26):
        suppliers = ["a", "b", "c", "d"][: chance.randint(1, 4)]
        wanted = [an_item(chance, suppliers, large=True) for _ in range(chance.randint(1, 8))]
        terms = reachable_terms(wanted, some_terms(chance, suppliers, 300))
        bought = buy_together(wanted, terms)
        assert bought.cost == bought.bound, "not proved"
        assert cost_of(wanted, terms, bought.numbers) == bought.cost == least_cost_by_milp(wanted, terms)


def test_small_joint_orders_against_every_way_there_is():
    """20 batches: least cost, and of equally cheap ways the one that holds least."""
    chance = random.Random(7)
    for _ in range(20):
        suppliers = ["a", "b"]
        wanted = [an_item(chance, suppliers, large=False) for _ in range(2)]
        terms = reachable_terms(wanted, some_terms(chance, suppliers, 1))
        bought = buy_together(wanted, terms)
        offers = [offer for item in wanted for offer in item.offers]
        held = sum(offer.count * n for offer, n in zip(offers, itertools.chain(*bought.numbers), strict=True))
        assert (cost_of(wanted, terms, bought.numbers), held) == best_of_all_ways(wanted, terms)
        assert bought.bound == bought.cost


def best_of_all_ways(wanted, terms):
    offers = [offer for item in wanted for offer in item.offers]
    # No way needs more of one offer than what covers 40 balloons and comes to 25 besides.
    enough = (40 // o.count + 25 // o.price + 2 for o in offers)
    ways = itertools.product(*(range(min(most, o.limit or most) + 1) for o, most in zip(offers, enough, strict=True)))
    best = (math.inf, math.inf)
    for way in ways:
        numbers, start = [], 0
        for item in wanted:
            numbers.append(way[start : start + len(item.offers)])
            start += len(item.offers)
        if sum(o.price * n for o, n in zip(offers, way, strict=True)) > best[0]:
            continue
        try:
            cost = cost_of(wanted, terms, numbers)
        except AssertionError:
            continue
        best = min(best, (cost, sum(o.count * n for o, n in zip(offers, way, strict=True))))
    return best


def test_orders_worked_by_hand():
    """Two items for 8.00 and 9.00 at a, or for 9.00 and 9.50 at b; a takes 4.00 for delivery below 20.00."""
    a = (Offer(count=50, price=800, supplier="a"), Offer(count=50, price=900, supplier="a"))
    b = (Offer(count=50, price=900, supplier="b"), Offer(count=50, price=950, supplier="b"))
    wanted = [Wanted(needs=(50,), offers=(a[0], b[0])), Wanted(needs=(40,), offers=(a[1], b[1]))]
    plain = {"a": OrderTerms(), "b": OrderTerms()}
    assert buy_together(wanted, plain).numbers == ((1, 0), (1, 0))
    charged = {"a": OrderTerms(charge=400, free_from=2000), "b": OrderTerms()}
    assert buy_together(wanted, charged).cost == 1850  # all of it at b, rather than 17.00 + 4.00
    least = {"a": OrderTerms(), "b": OrderTerms(minimum=1000)}
    assert buy_together(wanted, least).numbers == ((1, 0), (1, 0))
    only_b = [Wanted(needs=item.needs, offers=item.offers[1:]) for item in wanted]
    assert buy_together(only_b, {"b": OrderTerms(minimum=2500)}).cost == 2750  # 9.50 and 2 × 9.00
