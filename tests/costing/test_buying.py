"""The batch's buying list: pooled over the jobs, less what is on hand, in the cheapest packs. Own arithmetic."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

from costing_made import BALLOONS, HARDWARE, balloon, column, job, pack, piece, plan, prices

from quoting.costing.buying import fill_basket
from quoting.costing.jobs import cost_job
from quoting.domain.quotes import Cautions

D = Decimal

DAY = date(2031, 5, 14)


def bought_lines(made, book, day):
    return fill_basket(made, book, day).purchase.lines


def sheets(book, *counts):
    made = []
    for count in counts:
        plans = [(piece(), plan([("Round 5 coral", count), ("Base plate", 1)]))]
        outcome = cost_job(job([p for p, _ in plans]), plans, book, Cautions())
        assert outcome.value is not None
        made.append(outcome.value)
    return made


def test_needs_are_pooled_with_spares_and_bought_at_the_least_cost():
    """37 and 12 take 40 and 14, less 5 on hand 49: 25 for 4.00 and 2 × 12 for 2.00; two base plates, one owned."""
    book = prices(
        balloons=(*BALLOONS[:2], replace(BALLOONS[2], on_hand=5), BALLOONS[3]),
        hardware=(replace(HARDWARE[0], owned=1), *HARDWARE[1:]),
    )
    plates, coral = bought_lines(sheets(book, 37, 12), book, DAY)
    assert (coral.item, coral.need, coral.on_hand, coral.packs, coral.cost) == (
        "Round 5 coral",
        54,
        5,
        ((25, 1, D("4.00"), "wholesale"), (12, 2, D("2.00"), "wholesale")),
        D("8.00"),
    )
    assert (plates.item, plates.need, plates.on_hand, plates.packs, plates.cost) == (
        "Base plate",
        2,
        1,
        ((1, 1, D("4.00"), ""),),
        D("4.00"),
    )


def test_nothing_is_bought_of_what_there_is_enough_of():
    book = prices(balloons=(replace(BALLOONS[2], on_hand=500),))
    made = bought_lines(sheets(book, 37), book, DAY)
    assert [(b.item, b.packs, b.cost) for b in made if b.item == "Round 5 coral"] == [("Round 5 coral", (), D("0.00"))]


def test_only_packs_current_on_the_day_are_bought():
    """The job was priced on 14 May with the packs of 25; from June only packs of 50 have a price."""
    packs = (pack(25, "4.00", end=date(2031, 5, 31)), pack(50, "9.50", start=date(2031, 5, 1)))
    book = prices(balloons=(balloon("Round 5 coral", packs),))
    made = sheets(book, 37)
    coral = {b.item: b for b in bought_lines(made, book, DAY)}["Round 5 coral"]
    assert coral.packs == ((25, 2, D("4.00"), "wholesale"),)
    later = {b.item: b for b in bought_lines(made, book, date(2031, 6, 1))}["Round 5 coral"]
    assert (later.packs, later.cost) == (((50, 1, D("9.50"), "wholesale"),), D("9.50"))


def test_where_no_price_holds_any_more_the_last_known_packs_are_bought():
    packs = (pack(25, "4.00", end=date(2031, 5, 31)),)
    book = prices(balloons=(balloon("Round 5 coral", packs),))
    made = [replace(s, quote=replace(s.quote, event_date=date(2033, 1, 2))) for s in sheets(book, 37)]
    bought = {b.item: b for b in bought_lines(made, book, date(2033, 1, 1))}["Round 5 coral"]
    assert bought.packs == ((25, 2, D("4.00"), "wholesale"),)


def test_a_job_whose_event_is_over_buys_nothing():
    book = prices()
    assert bought_lines(sheets(book, 37), book, date(2031, 6, 15)) == ()
    assert bought_lines(sheets(book, 37), book, date(2031, 6, 14)) != ()


def test_hired_things_are_not_bought_and_no_jobs_buy_nothing():
    plans = [(piece(), column(hire=[("Arch frame", 1)]))]
    made = cost_job(job([plans[0][0]]), plans, prices(), Cautions()).value
    assert made is not None
    assert [b.item for b in bought_lines([made], prices(), DAY)] == [
        "Base plate",
        "Round 11 gold",
        "Round 11 ivory",
        "Steel pole",
    ]
    assert bought_lines([], prices(), DAY) == ()
