"""What each piece is sold for, and the stock that goes with it. Own arithmetic throughout."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from costing_made import (
    G,
    H,
    L,
    column,
    piece,
    plan,
    prices,
    usual,
)
from jobs_made import CAUTIONS, ONE, sheet

from quoting.domain.prices import BreakagePolicy
from quoting.domain.quotes import LineKind, quote_number

D = Decimal


def test_a_price_is_materials_with_markup_labour_and_hire():
    """10 ivory take 11 with spares at 0.11 × 2.5 = 3.025; 10 × 22 s at 36 an hour = 2.20; a frame 45: 50.225."""
    made = sheet([(piece(), plan(ONE, [("inflate round", 10, 11)], [("Arch frame", 1)]))])
    (line, delivery), (priced,) = made.quote.lines, made.pieces
    assert (line.unit_price, line.amount, priced.amounts) == (
        D("50.23"),
        D("50.23"),
        {G: D("3.03"), H: D("45.00"), L: D("2.20")},
    )
    assert priced.cost == D("8.31")  # 11 × 0.11 + 6.00 + 220 s at 18 an hour
    assert (delivery.kind, delivery.title, delivery.amount) == (
        LineKind.DELIVERY,
        "Delivery and collection",
        D("25.00"),
    )
    assert made.cost == D("23.31")
    assert made.margin == (D("75.23") - D("23.31")) / D("75.23")


def test_the_unit_price_is_rounded_once_and_the_amount_is_its_multiple():
    """7 pieces of one plinth at 2.45 × 2.5 = 6.125: 6.13 each, 42.91."""
    made = sheet([(piece("A", 7), plan(hire=[("Plinth", 1)]))])
    assert (made.quote.lines[0].unit_price, made.quote.lines[0].amount) == (D("6.13"), D("42.91"))
    assert [(h.item, h.count, h.charge, h.cost) for h in made.hire] == [("Plinth", 7, D("42.88"), D("17.15"))]


def test_a_listed_price_is_for_all_that_is_charged_and_bought_hardware_has_its_charge():
    """8 gold at 5 %: 10 with spares at 0.45 listed; base plate 9.50 listed; pole 3.35 × 2.5 = 8.375: 22.375."""
    made = sheet([(piece(), plan([("Round 11 gold", 8), ("Base plate", 1), ("Steel pole", 1)]))])
    assert made.quote.lines[0].amount == D("22.38")
    assert [(s.item, s.shape, s.with_spares, s.unit_cost, s.charged_count) for s in made.stock] == [
        ("Round 11 gold", "round", 10, D("0.11"), 10),
        ("Base plate", "base plate", 1, D("4.00"), 1),
        ("Steel pole", "pole", 1, D("3.35"), 1),
    ]


def test_an_item_charged_by_pack_is_charged_in_whole_packs_of_the_cheapest_cover():
    """37 coral take 40 with spares; of 12 at 2.00, 25 at 4.00, 50 at 8.50: 12 × 4 is 8.00; × 2.5 is 20.00."""
    made = sheet([(piece(), plan([("Round 5 coral", 37)]))])
    (line,) = made.stock
    assert (line.need, line.with_spares, line.charged_count) == (37, 40, 48)
    assert (made.pieces[0].cost, made.quote.lines[0].amount) == (D("8.00"), D("20.00"))


def test_spares_are_pooled_over_the_job_and_shared_by_use():
    """30 and 10 ivory take 43, at 0.275: 11.825, shared 3 to 1: 8.87 and 2.96; alone, 11 for 10 are 3.03."""
    made = sheet([(piece("A"), plan([("Round 11 ivory", 30)])), (piece("B"), plan(ONE))])
    assert [s.with_spares for s in made.stock] == [43]
    assert [line.amount for line in made.quote.lines[:2]] == [D("8.87"), D("2.96")]


def test_every_kind_of_balloon_is_held_to_the_root_of_the_level():
    """With two kinds each is held to 0.95^(1/2); scipy.stats.binom: 24 at 3 % takes 26 alone and 27 beside another."""
    alone = sheet([(piece(), plan([("Round 11 ivory", 24)]))])
    beside = sheet([(piece(), plan([("Round 11 ivory", 24), ("Round 5 coral", 24)]))])
    assert [s.with_spares for s in alone.stock] == [26]
    assert [s.with_spares for s in beside.stock] == [27, 27]


def test_a_flat_share_is_added_instead_where_the_shop_says_so():
    book = prices({"breakage_policy": BreakagePolicy.FLAT_SHARE, "flat_share": D("0.1")})
    made = sheet([(piece(), plan([("Round 11 ivory", 24), ("Round 11 gold", 30)]))], book=book)
    assert [(s.item, s.with_spares, s.breakage) for s in made.stock] == [
        ("Round 11 gold", 33, D("0.1")),
        ("Round 11 ivory", 27, D("0.1")),
    ]


@pytest.mark.parametrize(
    ("made", "category"),
    [
        (column(), G),
        (plan(tasks=[("install piece", 1)], is_labour_only=True), L),
        (plan(hire=[("Arch frame", 1)]), H),
        (plan(), G),
    ],
)
def test_a_fixed_price_is_for_goods_labour_or_hire(made, category):
    priced = sheet([(piece(quantity=3, price="33.335"), made)])
    assert priced.quote.lines[0].unit_price == D("33.34")
    assert priced.pieces[0].amounts == {category: D("100.02")}


def test_a_piece_is_called_by_its_title_or_its_form():
    named = replace(piece("A"), title="Entrance columns", client_notes="By the door")
    made = sheet([(named, column()), (piece("B"), column())])
    assert [line.title for line in made.quote.lines[:2]] == ["Entrance columns", "Ring column"]
    assert made.quote.lines[0].details == ("9 rings of 4", "By the door")
    assert (made.quote.cautions, made.cautions) == (CAUTIONS.client, CAUTIONS.crew)


def test_the_number_has_the_shops_prefix_once():
    assert sheet(usual()).quote.number == "Q-0412"
    assert [quote_number(p, "q-7") for p in ("Q-", "", "B")] == ["q-7", "q-7", "Bq-7"]
    assert [quote_number("Q", code) for code in ("Queen-1", "q7", "7")] == ["QQueen-1", "Qq7", "Q7"]
    assert [quote_number("Q-", code) for code in ("Queen-1", "Q", "Q-")] == ["Q-Queen-1", "Q-Q", "Q-"]
