"""Discounts, surcharges and the minimum order. Own arithmetic throughout."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
from costing_made import (
    adjustment,
    piece,
    plan,
    prices,
    tax,
)
from jobs_made import codes, outcome, sheet

from quoting.domain.problems import Level
from quoting.domain.quotes import LineKind

D = Decimal


def test_line_adjustments_stand_after_their_piece_and_are_of_its_amount():
    made = sheet(
        [(piece("A", price="80"), plan()), (piece("B", price="20"), plan())],
        [
            adjustment("Rush", percent="0.125", is_discount=False, piece="a"),
            adjustment("Friend", amount="3", piece="A"),
        ],
    )
    assert [(line.kind, line.label, line.title, line.amount) for line in made.quote.lines[:4]] == [
        (LineKind.PIECE, "A", "Ring column", D("80.00")),
        (LineKind.CHARGE, "", "Rush", D("10.00")),
        (LineKind.DISCOUNT, "", "Friend", D("-3.00")),
        (LineKind.PIECE, "B", "Ring column", D("20.00")),
    ]
    assert made.quote.totals.subtotal == D("132.00")


def test_order_adjustments_are_of_the_subtotal_whatever_their_order():
    pair = [
        adjustment(percent="0.1"),
        adjustment("Rush", percent="0.2", is_discount=False),
        adjustment("Off", amount="5.005"),
    ]
    for order in (pair, pair[::-1]):
        totals = sheet([(piece(price="75"), plan())], order).quote.totals
        assert (totals.subtotal, totals.discount, totals.charges) == (D("100.00"), D("15.01"), D("20.00"))


@pytest.mark.parametrize(
    ("changes", "goes"),
    [
        ({}, True),
        ({"job": "0412"}, True),
        ({"job": "0999"}, False),
        ({"piece": "Q"}, False),
        ({"notice_days": 31}, False),
        ({"notice_days": 32}, True),
        ({"season_from": date(2031, 6, 14)}, True),
        ({"season_from": date(2031, 6, 15)}, False),
        ({"season_until": date(2031, 6, 14)}, True),
        ({"season_until": date(2031, 6, 13)}, False),
        ({"season_from": date(2031, 5, 1), "season_until": date(2031, 8, 31), "notice_days": 90}, True),
    ],
)
def test_an_adjustment_goes_for_its_job_piece_notice_and_season(changes, goes):
    """The event is on 14 June, 31 days after the quote."""
    made = sheet([(piece(price="75"), plan())], [adjustment(amount="10", **changes)])
    assert made.quote.totals.discount == (D("10.00") if goes else D("0.00"))


def test_a_discount_larger_than_its_piece_or_order_holds_the_job_at_its_row():
    on_piece = outcome([(piece(price="20"), plan())], [adjustment(amount="20.01", piece="A")])
    assert codes(on_piece) == [("P607", Level.HOLD, "Adjustments", 0)]
    two = [adjustment(percent="0.6", piece="A"), adjustment("More", percent="0.6", piece="A")]
    assert codes(outcome([(piece(price="20"), plan())], two)) == [("P607", Level.HOLD, "Adjustments", 0)]
    on_order = outcome([(piece(price="20"), plan())], [adjustment(amount="45.01")])
    assert codes(on_order) == [("P608", Level.HOLD, "Adjustments", 0)]
    assert sheet([(piece(price="20"), plan())], [adjustment(amount="45.00")]).quote.totals.total == 0


def test_a_small_order_is_lifted_to_the_minimum_after_discounts():
    book = prices({"minimum_order": D(180)}, taxes=(tax("ST", "10"),))
    made = sheet([(piece(price="75"), plan())], [adjustment(amount="10")], book=book).quote
    assert [(a.name, a.is_discount, a.amount) for a in made.adjustments] == [
        ("Thank you", True, D("10.00")),
        ("Small order charge", False, D("90.00")),
    ]
    assert (made.totals.charges, made.totals.tax, made.totals.total) == (D("90.00"), D("18.00"), D("198.00"))
    enough = sheet([(piece(price="165"), plan())], [adjustment(amount="10")], book=book).quote
    assert len(enough.adjustments) == 1
