"""How long stock takes to work out for a large batch, and how that grows: 2,000 items, 100 to 1,000 jobs.

    python tests/bench/buying_at_scale.py            the whole of it
    python tests/bench/buying_at_scale.py 100 200    these numbers of jobs only

Items in two or three packs from four suppliers with minimums, delivery charges and days to
deliver; each job takes 12 items and one hired thing. Invented figures, seeded. Not part of the tests.
"""

from __future__ import annotations

import random
import sys
import time
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

ROOT = Path(__file__).parent.parent.parent
sys.path[:0] = [str(ROOT), str(ROOT / "tests" / "costing")]

from costing_made import job, piece, plan, prices
from orders_made import RUN, D, balloon, pack, supplier, thing

from quoting.costing.buying import fill_basket
from quoting.costing.buying_notes import buying_notes
from quoting.costing.jobs import cost_job
from quoting.domain.quotes import Cautions

ITEMS, PER_JOB = 2000, 12
SUPPLIERS = ("north", "south", "east", "west")


def price_book(chance: random.Random):
    """2,000 items, each sold by up to three of the suppliers."""
    balloons = tuple(
        balloon(
            f"Round item {n}",
            *(
                pack(count, f"{count * chance.uniform(0.1, 0.2):.2f}", chance.choice(SUPPLIERS))
                for count in chance.sample((10, 25, 50, 100, 144), chance.randint(2, 3))
            ),
            on_hand=chance.choice((0, 0, 20, 60)), breakage=D("0.03"),
        )
        for n in range(ITEMS)
    )
    terms = (
        supplier("north", "60", "7.50", "250", 3), supplier("south", "0", "9.90", "400", 5),
        supplier("east", "100", "0", None, 2), supplier("west", "25", "4.50"),
    )
    return prices(balloons=balloons, hardware=(thing("Plate", owned=6), thing("Frame", owned=2)), suppliers=terms)


def jobs_of(chance: random.Random, count: int):
    """So many jobs over three months, each with its pieces' plans."""
    for number in range(count):
        day = RUN + timedelta(days=chance.randint(8, 98))
        parts = [(f"Round item {n}", chance.randint(5, 120)) for n in chance.sample(range(ITEMS), PER_JOB)]
        one = replace(piece("A"), job=f"J{number}")
        made = job([one], code=f"J{number}", event_date=day, install_date=day, is_collected=True, quote_date=RUN)
        yield made, [(one, plan(parts, hire=[(chance.choice(("Plate", "Frame")), 1)]))]


def measure(count: int) -> tuple[float, float, str]:
    """Seconds of processor time to cost `count` jobs, seconds to buy and hire for them, and what it came to."""
    chance = random.Random(1)
    book = price_book(chance)
    planned = list(jobs_of(chance, count))
    start = time.process_time()
    outcomes = [cost_job(made, plans, book, Cautions()) for made, plans in planned]
    costed = time.process_time()
    sheets = [outcome.value for outcome in outcomes if outcome.value is not None]
    assert len(sheets) == count
    basket = fill_basket(sheets, book, RUN)
    notes = buying_notes(basket, sheets, {made.code: made for made, _ in planned})
    bought = time.process_time()
    found = basket.purchase
    told = (
        f"{len(found.lines)} items, {len(found.orders)} orders, {found.total}, gap {found.gap}; one by one "
        f"{found.comparison.one_by_one}; left {found.comparison.together_left} against "
        f"{found.comparison.one_by_one_left}; {len(found.clashes)} clashes, {len(notes)} notes"
    )
    return costed - start, bought - costed, told


def main() -> None:
    """Print a line for each number of jobs."""
    for count in [int(word) for word in sys.argv[1:]] or [100, 200, 400, 700, 1000]:
        costing, buying, told = measure(count)
        print(f"{count:5} jobs: costing {costing:6.2f} s, buying and hire {buying:6.2f} s  ({told})", flush=True)


if __name__ == "__main__":
    main()
