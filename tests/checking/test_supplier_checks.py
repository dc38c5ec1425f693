"""Checks of suppliers, stock and cylinders, and how they come into the price book."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
from rows_made import RUN_DATE, cell, good_book, tables

from quoting.checking.books import check_tables
from quoting.domain.problems import Level

WHOLESALE = {"supplier": "Mill Lane Wholesale", "minimum_order": 60, "delivery_charge": 7.5, "free_delivery_from": 250,
             "lead_days": 3}
CYLINDER = {"item": "Cylinder 50", "part": "cylinder", "use": "hire", "cost": 118, "contents": 9000,
            "water_capacity": 50, "pressure": 200}


def checked(**rows):
    """The good book with rows added: sheet key → rows."""
    book = good_book()
    for sheet_key, added in rows.items():
        book.setdefault(sheet_key, []).extend(added)
    return book, check_tables(tables(book), RUN_DATE)


def told(outcome):
    return [(f"{p.place.sheet}!{p.place.cell}", p.code, p.level) for p in outcome.problems]


def test_terms_stock_and_cylinders_reach_the_price_book():
    row = {**good_book()["balloons"][0], "pack": 50, "pack_price": 8, "supplier": "Mill Lane Wholesale", "bags_left": 3,
           "lot": "L2", "lot_on_hand": "L1", "on_hand": 40, "best_before": "2031-08-01", "keeps_days": 365}
    _, outcome = checked(suppliers=[WHOLESALE], hardware=[{**CYLINDER, "supplier": "Gases"}], balloons=[row])
    assert told(outcome) == []
    prices = outcome.value.prices
    (terms,) = prices.suppliers
    assert (terms.name, terms.minimum_order, terms.delivery_charge, terms.free_from, terms.lead_days) == (
        "Mill Lane Wholesale", Decimal(60), Decimal("7.5"), Decimal(250), 3,
    )
    white = prices.balloon("Round 11 matt white")
    assert [(pack.count, pack.limit, pack.lot) for pack in white.packs][1:] == [(25, None, ""), (50, 3, "L2")]
    assert (white.on_hand, white.lot_on_hand, white.good_until, white.keeps_days) == (40, "L1", date(2031, 8, 1), 365)
    cylinder = prices.hardware_item("Cylinder 50")
    assert (cylinder.contents_l, cylinder.supplier, cylinder.part) == (Decimal(9000), "Gases", "cylinder")


def test_a_book_without_the_sheet_has_no_terms():
    assert check_tables(tables(good_book()), RUN_DATE).value.prices.suppliers == ()


def test_a_second_row_of_one_supplier_is_told_and_the_first_holds():
    _, outcome = checked(suppliers=[WHOLESALE, {"supplier": "mill lane  wholesale", "lead_days": 1}])
    assert told(outcome) == [(cell("suppliers", "supplier", 1), "P625", Level.NOTE)]
    assert [(s.name, s.lead_days) for s in outcome.value.prices.suppliers] == [("Mill Lane Wholesale", 3)]
    assert {job.code for job in outcome.value.jobs} == {"0412", "0413"}


def test_a_supplier_one_sign_away_is_told_once():
    row = {**good_book()["balloons"][0], "pack": 50, "supplier": "Mill Lane Wholesal"}
    book, outcome = checked(suppliers=[WHOLESALE], balloons=[row, {**row, "pack": 10}])
    assert told(outcome) == [(cell("balloons", "supplier", len(book["balloons"]) - 2), "P626", Level.NOTE)]


@pytest.mark.parametrize(
    ("day", "count", "codes"), [("2031-05-13", 4, ["P629"]), ("2031-05-14", 4, []), ("2031-05-13", 0, [])]
)
def test_stock_past_its_day_is_told(day, count, codes):
    row = {**good_book()["balloons"][3], "pack": 50, "on_hand": count, "best_before": day}
    assert [code for _, code, _ in told(checked(balloons=[row])[1])] == codes


@pytest.mark.parametrize(
    ("contents", "water", "bar", "is_right"),
    [
        # Real-gas contents in litres by CoolProp's helium, at 15 °C and 1 atm; the ideal gas says 9,919 for the first.
        (9043, 50, 200, True), (9235, 50, 200, True), (8845, 50, 200, True), (9919, 50, 200, False),
        (12986, 50, 300, True), (14854, 50, 300, False), (5468, 40, 150, True), (1277, 10, 137, True),
        (244, "13.4", 18, True), (192, "13.4", 18, True), (420, "13.4", 18, False), (8000, 50, 200, False),
    ],
)
def test_contents_that_cant_be_right_are_told(contents, water, bar, is_right):
    row = {**CYLINDER, "contents": contents, "water_capacity": water, "pressure": bar}
    book, outcome = checked(hardware=[row])
    wanted = [] if is_right else [(cell("hardware", "contents", len(book["hardware"]) - 1), "P620", Level.NOTE)]
    assert told(outcome) == wanted


@pytest.mark.parametrize(
    ("sheet", "row", "key", "code"),
    [
        ("balloons", {"on_hand": -1, "pack": 50}, "on_hand", "P303"),
        ("balloons", {"pack": 0}, "pack", "P303"),
        ("balloons", {"pack": None}, "pack", "P301"),
        ("balloons", {"pack": 50, "bags_left": -2}, "bags_left", "P303"),
        ("balloons", {"pack": 100, "pack_price": 15}, "pack_price", "P452"),
        ("suppliers", {"supplier": None, "lead_days": 2}, "supplier", "P301"),
        ("suppliers", {"supplier": "A", "lead_days": -2}, "lead_days", "P303"),
        ("suppliers", {"supplier": "A", "minimum_order": -2}, "minimum_order", "P303"),
        ("hardware", {**CYLINDER, "contents": None}, "contents", "P307"),
        ("hardware", {**CYLINDER, "contents": 0}, "contents", "P303"),
    ],
)
def test_bad_stock_is_told_at_its_cell_and_the_rest_goes_on(sheet, row, key, code):
    start = good_book()["balloons"][0] if sheet == "balloons" else {}
    filled = {name: value for name, value in {**start, **row}.items() if value is not None}
    book, outcome = checked(**{sheet: [filled]})
    assert (cell(sheet, key, len(book[sheet]) - 1), code) in [(place, found) for place, found, _ in told(outcome)]
    assert "0413" in {job.code for job in outcome.value.jobs}


def test_two_lots_of_one_pack_may_have_two_prices():
    first = {**good_book()["balloons"][0], "pack": 50, "lot": "L1"}
    _, outcome = checked(balloons=[first, {**first, "lot": "L2", "pack_price": 9}])
    assert told(outcome) == []
