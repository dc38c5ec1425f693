"""One whole job: its lines, stock, hours, hire, adjustments, terms, and what holds it. Own arithmetic throughout."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from fractions import Fraction

import pytest
from costing_made import (
    BALLOONS,
    DELIVERY,
    HARDWARE,
    LABOUR,
    G,
    H,
    L,
    adjustment,
    arch,
    balloon,
    band,
    column,
    hardware,
    job,
    pack,
    piece,
    plan,
    prices,
    tax,
    usual,
)

from quoting.costing.jobs import cost_job, quote_number
from quoting.domain.prices import BreakagePolicy, ChargeBy
from quoting.domain.problems import Level
from quoting.domain.quotes import Cautions, LineKind

D = Decimal

CAUTIONS = Cautions(client=("Keep away from heat.",), crew=("Two people on ladders.",))


def outcome(plans, adjustments=(), book=None, **changes):
    return cost_job(job([p for p, _ in plans], adjustments, **changes), plans, book or prices(), CAUTIONS)


def sheet(plans, adjustments=(), book=None, **changes):
    made = outcome(plans, adjustments, book, **changes)
    assert made.value is not None, made.problems
    return made.value


def codes(made):
    return [(p.code, p.level, p.place.sheet, p.place.column) for p in made.problems]


ONE = [("Round 11 ivory", 10)]


# --- prices -------------------------------------------------------------------------


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


# --- labour and delivery ---------------------------------------------------------------


def test_hours_follow_size_class_and_place():
    """2 × (36 × 22 + 9 × 20 + 9 × 35) s in the workshop, 2 × (900 + 412.5) s at the venue."""
    made = sheet([(piece("A", 2), column())])
    assert made.hours.workshop == D(2 * 1287) / 3600
    assert made.hours.venue == D(2625) / 3600
    assert made.pieces[0].hours == made.hours


def test_the_least_size_class_that_takes_the_size_then_any_size():
    def seconds(size):
        made = sheet([(piece(), plan(tasks=[("inflate round", 3600, size)]))])
        return made.hours.workshop

    assert [seconds(size) for size in (4, 5, 6, 12, 16)] == [15, 15, 22, 22, 45]
    any_size = prices(labour=(*LABOUR, replace(LABOUR[0], up_to_size=None, seconds=D(99))))
    made = sheet([(piece(), plan(tasks=[("Inflate ROUND", 3600, 36), ("inflate round", 3600)]))], book=any_size)
    assert made.hours.workshop == 198


def test_an_activity_without_a_rate_holds_the_job_at_the_form():
    too_big = plan(tasks=[("inflate round", 1, 36), ("wind strand", 2)])
    made = outcome([(piece(), too_big)])
    assert made.value is None
    assert codes(made) == [("P604", Level.HOLD, "Pieces", 3)] * 2
    assert "inflate round of balloons up to 36 in" in made.problems[0].why


@pytest.mark.parametrize(
    ("miles", "charge", "cost"),
    [
        ("0", "0.00", "6.00"),
        ("10", "0.00", "6.00"),
        ("10.01", "25.00", "15.00"),
        ("30", "25.00", "15.00"),
        ("30.5", "25.88", "15.28"),
        ("100", "147.50", "53.50"),
    ],
)
def test_delivery_by_band_and_per_further_mile_one_way(miles, charge, cost):
    """Beyond 30 miles 1.75 more for each: 70 more are 122.50 on 25; half a mile 0.875."""
    made = sheet([(piece(price="10"), plan())], distance_km=D(miles) * D("1.609344"))
    assert made.quote.lines[-1].amount == D(charge)
    assert made.cost == D(cost)


def test_a_further_charge_within_a_limited_band_counts_from_the_band_before():
    book = prices({"distance_unit": "km"}, delivery=(band(10, 5, 0), replace(band(20, 10, 0, 2), up_to_km=D(40))))
    made = sheet([(piece(price="10"), plan())], book=book, distance_km=D("20.09344"))
    assert made.quote.lines[-1].amount == D("18.00")  # 10 + 2 × (20.09344 − 16.09344)


def test_what_the_client_collects_has_no_delivery():
    made = sheet([(piece(price="10"), plan())], is_collected=True, distance_km=None)
    assert [line.kind for line in made.quote.lines] == [LineKind.PIECE]


def test_a_distance_missing_or_beyond_every_band_holds_the_job_at_its_cell():
    assert codes(outcome(usual(), distance_km=None)) == [("P605", Level.HOLD, "Jobs", 3)]
    far = outcome(usual(), book=prices(delivery=DELIVERY[:2]), distance_km=D(100))
    assert codes(far) == [("P606", Level.HOLD, "Jobs", 3)]
    assert "62.1371 mi" in far.problems[0].why


# --- prices that don't hold -------------------------------------------------------------


def test_an_item_without_a_current_price_holds_the_job_at_the_cell_that_asks_for_it():
    old = (pack(50, "6.00", end=date(2031, 5, 13)), pack(100, "9.00", start=date(2031, 5, 15)))
    book = prices(balloons=(balloon("Round 11 ivory", old), *BALLOONS[1:]))
    made = outcome([(piece("A"), column())], book=book)
    assert codes(made) == [("P601", Level.HOLD, "Pieces", 5)]
    assert made.problems[0].seen == "('ivory',)"
    assert (made.problems[0].job, "Round 11 ivory" in made.problems[0].why) == ("0412", True)
    assert codes(outcome([(piece("A"), column())], book=book, quote_date=date(2031, 5, 13))) == []
    assert codes(outcome([(piece("A"), column())], book=book, quote_date=date(2031, 5, 15))) == []


@pytest.mark.parametrize(
    ("field", "value", "at"),
    [
        ("topper", "foil STAR silver", 6),
        ("accents", ((1, "Foil star silver"),), 7),
        ("item", "Foil star silver", 11),
        ("build", "Our star", 12),
        ("base", "none", 3),
    ],
)
def test_the_cell_that_asked_is_named(field, value, at):
    gone = replace(BALLOONS[3], packs=(pack(1, "1", end=date(2020, 1, 1)),))
    starred = plan([("Foil star silver", 1)])
    made = outcome([(piece("A", colours=None, **{field: value}), starred)], book=prices(balloons=(*BALLOONS[:3], gone)))
    assert codes(made) == [("P601", Level.HOLD, "Pieces", at)]


def test_hardware_bought_or_hired_needs_a_current_price_too():
    stale = tuple(replace(h, price_until=date(2031, 5, 1)) for h in HARDWARE)
    made = outcome(
        [(piece("A", pole="Steel pole"), column()), (piece("B", frame="arch frame"), arch())],
        book=prices(hardware=stale),
    )
    assert sorted(p.why.split(" has")[0] for p in made.problems) == ["Arch frame", "Base plate", "Plinth", "Steel pole"]
    assert {p.code for p in made.problems} == {"P603"}
    assert {(p.why.split(" has")[0], p.place.column) for p in made.problems} >= {("Steel pole", 9), ("Arch frame", 10)}
    assert (
        codes(outcome(usual(), book=prices(hardware=tuple(replace(h, price_from=date(2031, 5, 14)) for h in HARDWARE))))
        == []
    )


def test_certainty_itself_has_no_number_of_spares():
    assert codes(outcome([(piece(), plan(ONE))], book=prices({"service_level": D(1)}))) == [
        ("P602", Level.HOLD, "Pieces", 5)
    ]


def test_the_unit_cost_is_the_least_among_current_packs():
    """A pack of 100 for 11.00 was 0.11; one of 500 for 45.00 is 0.09, but not yet; one of 10 for 1.00 is 0.10."""
    packs = (pack(100, "11.00"), pack(500, "45.00", start=date(2032, 1, 1)), pack(10, "1.00"))
    made = sheet([(piece(), plan(ONE))], book=prices(balloons=(balloon("Round 11 ivory", packs),)))
    assert made.stock[0].unit_cost == D("0.1")


# --- adjustments -------------------------------------------------------------------------


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


# --- tax ----------------------------------------------------------------------------------


def test_taxes_are_those_current_on_the_event_date_each_on_its_categories():
    dated = (tax("ST", 5, end=date(2031, 6, 13)), tax("ST", 6, start=date(2031, 6, 14)), tax("HT", 10, (H,)))
    made = sheet([(piece(price="75"), plan())], book=prices(taxes=dated)).quote.totals
    assert [(t.code, t.rate, t.taxable, t.amount) for t in made.taxes] == [("ST", D("0.06"), D("100.00"), D("6.00"))]
    before = sheet([(piece(price="75"), plan())], book=prices(taxes=dated), event_date=date(2031, 6, 13)).quote.totals
    assert before.tax == D("5.00")


def test_a_tax_on_top_of_a_later_row_or_of_one_not_current():
    rows = (tax("B", 10, on_top_of=("A", "gone")), tax("A", 20), tax("gone", 50, end=date(2030, 1, 1)))
    made = sheet([(piece(price="75"), plan())], book=prices(taxes=rows)).quote.totals
    assert [(t.code, t.taxable, t.amount) for t in made.taxes] == [
        ("A", D("100.00"), D("20.00")),
        ("B", D("120.00"), D("12.00")),
    ]


def test_an_exempt_client_pays_no_tax():
    made = sheet(usual(), exempt_reason="charity, certificate seen").quote
    assert (made.totals.taxes, made.totals.tax, made.exempt_reason) == ((), D("0.00"), "charity, certificate seen")
    assert made.totals.total == sheet(usual()).quote.totals.subtotal


def test_at_prices_including_tax_an_exempt_client_pays_the_price_without_it():
    """60 is 50 and 20 %; delivery 25 is 20.83 and 20 %."""
    book = prices({"prices_include_tax": True}, taxes=(tax("VAT", 20),))
    pays = sheet([(piece(price="60"), plan())], book=book)
    free = sheet([(piece(price="60"), plan())], book=book, exempt_reason="embassy")
    assert (pays.quote.totals.total, pays.quote.totals.tax) == (D("85.00"), D("14.17"))
    assert [line.amount for line in free.quote.lines] == [D("50.00"), D("20.83")]
    assert (free.quote.totals.total, free.quote.totals.prices_include_tax) == (D("70.83"), False)
    assert float(pays.margin) == pytest.approx(float(free.margin), abs=1e-3)


def test_the_margin_is_on_the_price_less_tax_and_a_low_one_is_noted():
    book = prices({"prices_include_tax": True, "floor_margin": D("0.86")}, taxes=(tax("VAT", 20),))
    made = outcome([(piece(price="95"), plan())], book=book)
    assert made.value is not None
    assert made.value.margin == D("0.85")  # 120 less 20 of tax, cost 15
    assert codes(made) == [("P609", Level.NOTE, "Jobs", 1)]
    assert "85.0 %" in made.problems[0].why
    at_floor = prices({"prices_include_tax": True, "floor_margin": D("0.85")}, taxes=(tax("VAT", 20),))
    assert codes(outcome([(piece(price="95"), plan())], book=at_floor)) == []


# --- terms --------------------------------------------------------------------------------


def test_terms_of_an_ordinary_job():
    made = sheet(
        [(piece(price="75.01"), plan(hire=[("Arch frame", 1), ("Plinth", 2)]))],
        deposit=D("0.25"),
        book=prices(taxes=()),
    )
    terms = made.quote.terms
    assert (terms.valid_until, terms.deposit_due, terms.balance_due) == (
        date(2031, 6, 13),
        date(2031, 5, 21),
        date(2031, 6, 7),
    )
    assert (terms.deposit_share, terms.deposit, terms.balance) == (D("0.25"), D("25.00"), D("75.01"))
    assert terms.damage_hold == D("195.00")
    assert made.quote.totals.total == D("100.01")


def test_terms_of_a_hurried_job_are_never_before_the_quote_nor_after_the_event():
    terms = sheet(usual(), event_date=date(2031, 5, 17)).quote.terms
    assert (terms.valid_until, terms.deposit_due, terms.balance_due) == (
        date(2031, 5, 17),
        date(2031, 5, 14),
        date(2031, 5, 14),
    )


def test_the_deposit_is_a_share_of_the_amount_due_and_the_rest_the_balance():
    made = sheet(
        [(piece(price="75.02"), plan())], book=prices({"cash_rounding": D("0.05"), "deposit": D("0.333")}, taxes=())
    )
    assert (made.quote.totals.payable, made.quote.terms.deposit, made.quote.terms.balance) == (
        D("100.00"),
        D("33.30"),
        D("66.70"),
    )


# --- what holds always --------------------------------------------------------------------


def test_the_order_of_pieces_changes_no_amount():
    book = prices(taxes=(tax("ST", "6.25", (G, H)), tax("LT", "9.975", (H, L), on_top_of=("ST",))))
    changes = [
        adjustment(percent="0.0777"),
        adjustment("Arch", percent="0.1", piece="B"),
        adjustment("Rush", amount="9.99", is_discount=False),
    ]
    made, turned = sheet(usual(), changes, book), sheet(usual()[::-1], changes, book)
    assert made.quote.totals == turned.quote.totals
    assert made.quote.terms == turned.quote.terms
    assert (made.cost, made.margin, made.stock, made.hire, made.hours) == (
        turned.cost,
        turned.margin,
        turned.stock,
        turned.hire,
        turned.hours,
    )
    assert {p.label: p.amounts for p in made.pieces} == {p.label: p.amounts for p in turned.pieces}


def test_cost_is_the_sum_of_what_is_printed():
    made = sheet(usual())
    assert made.cost == sum(p.cost for p in made.pieces) + D("15.00")
    for priced, line in zip(made.pieces, [x for x in made.quote.lines if x.kind is LineKind.PIECE], strict=True):
        assert priced.amount == sum(priced.amounts.values()) == line.amount == line.unit_price * line.quantity
    whole = sum((Fraction(p.hours.workshop) for p in made.pieces), Fraction(0))
    assert abs(whole - Fraction(made.hours.workshop)) < Fraction(1, 10**20)


@pytest.mark.parametrize("charge_by", list(ChargeBy))
def test_more_balloons_never_cost_less(charge_by):
    """Pieces of 1 to 120 balloons: the cost and price of one such piece never fall as it grows."""
    book = prices(balloons=tuple(replace(b, charge_by=charge_by) for b in BALLOONS))
    made = [
        sheet([(piece(), plan([("Round 11 ivory", n), ("Round 5 coral", n // 2)]))], book=book)
        for n in range(1, 120, 3)
    ]
    costs, amounts = [m.cost for m in made], [m.quote.totals.total for m in made]
    assert costs == sorted(costs)
    assert amounts == sorted(amounts)


def test_a_part_counted_nought_is_not_stock():
    made = sheet([(piece(), plan([("Round 11 ivory", 0), ("Round 5 coral", 3)]))])
    assert [s.item for s in made.stock] == ["Round 5 coral"]


def test_hardware_in_parts_of_no_charge_has_the_markup():
    book = prices(hardware=(hardware("Ribbon", "other", cost=D("0.333")),))
    made = sheet([(piece(), plan([("Ribbon", 3)]))], book=book)
    assert (made.quote.lines[0].amount, made.pieces[0].cost) == (D("2.50"), D("1.00"))
