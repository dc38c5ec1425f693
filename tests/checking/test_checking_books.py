"""Tables of one or several books to a price book and jobs."""

from __future__ import annotations

import random
from dataclasses import replace
from datetime import date
from decimal import Decimal

from hypothesis import given, settings
from hypothesis import strategies as st
from rows_made import RUN_DATE, cell, good_book, table, tables

from quoting.checking.books import check_tables
from quoting.checking.layouts import layout_of
from quoting.checking.names import is_slip, natural_order
from quoting.checking.wording import standard_wording
from quoting.domain.cells import Kind, Value
from quoting.domain.problems import Level


def checked(book, *more):
    return check_tables((*tables(book), *more), RUN_DATE)


def told(outcome):
    return sorted((f"{p.place.workbook}, {p.place.sheet}!{p.place.cell}", p.code) for p in outcome.problems)


def test_a_good_book_gives_prices_and_jobs_and_no_problem():
    outcome = checked(good_book())
    assert not outcome.problems
    prices = outcome.value.prices
    assert [job.code for job in outcome.value.jobs] == ["0412", "0413"]
    white = prices.balloon("round 11 MATT white")
    assert [(pack.count, pack.price) for pack in white.packs] == [(100, Decimal("14.5")), (25, Decimal("4.5"))]
    assert white.usual_fill_cm == Decimal("24.13")
    assert prices.taxes[1].on_top_of == ("STATE",)
    assert prices.wording["quote_title"] == "Your quote"
    assert prices.wording.keys() == standard_wording().keys()
    assert len(prices.builds["Gift corner"]) == 2


def test_what_is_left_blank_takes_the_default_of_its_schema():
    book = good_book()
    book["jobs"][0].pop("distance")
    book["jobs"][0] |= {"handover": "client collects", "strike_time": "22:00"}
    outcome = checked(book)
    shop, job = outcome.value.prices.shop, outcome.value.jobs[0]
    assert (shop.paper, shop.deposit, shop.deposit_days, shop.tightness) == ("A4", Decimal("0.5"), 7, Decimal("0.93"))
    assert (job.install_date, job.quote_date, job.revision) == (date(2031, 6, 20), RUN_DATE, 1)
    assert job.strike_date == date(2031, 6, 20)  # a time alone: on the day of the event
    assert job.is_collected and not job.is_outdoors and job.distance_km is None
    assert job.pieces[0].quantity == 1 and job.pieces[0].price is None


def test_prices_in_one_book_and_jobs_in_another():
    book = good_book()
    prices = {key: rows for key, rows in book.items() if key not in ("jobs", "pieces", "adjustments")}
    jobs = [table(key, book[key], workbook="jobs.xlsx") for key in ("jobs", "pieces", "adjustments")]
    outcome = checked(prices, *jobs)
    assert not outcome.problems
    assert [job.where("client").workbook for job in outcome.value.jobs] == ["jobs.xlsx", "jobs.xlsx"]


def test_a_second_book_that_repeats_price_rows_word_for_word_says_nothing_new():
    book = good_book()
    again = [table(key, book[key], workbook="b.xlsx") for key in book if key not in ("jobs", "pieces", "adjustments")]
    outcome = checked(book, *again)
    assert not outcome.problems
    assert outcome.value.prices == checked(book).value.prices


def test_two_shops_that_differ_hold_everything_at_the_setting_that_does():
    book = good_book()
    other = table("shop", [{**book["shop"][0], "markup": 2}], workbook="b.xlsx")
    outcome = checked(book, other)
    assert told(outcome) == [(f"b.xlsx, {cell('shop', 'markup')}", "P402")]
    assert outcome.value.prices is None


def test_a_blank_setting_is_named_by_its_value_cell_where_the_sheet_has_one():
    book = good_book()
    del book["shop"][0]["currency"]
    made = list(tables(book))
    where = replace(made[0].place, row=12, column=3)
    made[0] = replace(made[0], headings={"currency": where})
    [found] = check_tables(made, RUN_DATE).problems
    assert (found.code, found.place) == ("P310", where)


def test_settings_may_be_spread_over_two_books():
    book = good_book()
    book["shop"][0].pop("currency")
    assert not checked(book, table("shop", [{"currency": "USD"}], workbook="b.xlsx")).problems


def test_a_cell_that_every_job_depends_on_and_that_was_not_understood_holds_them_all():
    for key, wrong in (("shop", "deposit"), ("tax", "rate"), ("adjustments", "percent")):
        book = good_book()
        book["shop"][0]["deposit"] = 0.5
        book["adjustments"][0].pop("job")
        made = [table(k, book[k], misread={0: wrong} if k == key else None) for k in book]
        outcome = check_tables(made, RUN_DATE)
        assert {p.code for p in outcome.problems} == (set() if key == "shop" else {"P404"})
        assert outcome.value.prices is None and len(outcome.value.entries) == 2


def test_a_cell_that_was_not_understood_is_not_spoken_of_again_but_holds_its_job():
    book = good_book()
    for key, wrong in (("jobs", "event_date"), ("pieces", "colours"), ("adjustments", "percent")):
        made = [table(k, book[k], misread={0: wrong} if k == key else None) for k in book]
        outcome = check_tables(made, RUN_DATE)
        assert not outcome.problems, key
        assert [job.code for job in outcome.value.jobs] == ["0413"], key


def test_an_item_with_one_row_that_was_not_understood_is_left_out_whole():
    book = good_book()
    made = [table(k, book[k], misread={1: "pack_price"} if k == "balloons" else None) for k in book]
    assert check_tables(made, RUN_DATE).value.prices.balloon("Round 11 matt white") is None


def test_money_of_another_currency_is_refused_where_its_sign_can_not_be_the_shops():
    for seen, currency, shop, is_wrong in (
        ("€40", "EUR", "USD", True), ("$40", "USD", "CAD", False), ("USD 40", "USD", "CAD", True),
        ("US$ 40", "USD", "CAD", True), ("40 £", "GBP", "GBP", False), ("40 kr", "SEK", "NOK", False),
    ):
        book = good_book()
        book["shop"][0]["currency"] = shop
        book["pieces"][2]["price"] = 40
        made = list(tables(book))
        pieces = next(t for t in made if t.sheet_key == "pieces")
        row = pieces.rows[2]
        price = replace(row.values["price"], seen=seen, currency=currency)
        rows = (*pieces.rows[:2], replace(row, values={**row.values, "price": price}))
        made[made.index(pieces)] = replace(pieces, rows=rows)
        outcome = check_tables(made, RUN_DATE)
        expected = [(f"book.xlsx, {cell('pieces', 'price', 2)}", "P440")] if is_wrong else []
        assert told(outcome) == expected
        assert [job.code for job in outcome.value.jobs] == (["0412"] if is_wrong else ["0412", "0413"])


def test_pieces_name_their_job_in_any_case():
    book = good_book()
    book["jobs"][0]["job"] = "Spring-4"
    for row in book["pieces"][:2] + book["adjustments"]:
        row["job"] = "spring-4 "
    outcome = checked(book)
    assert not outcome.problems
    job = outcome.value.jobs[1]
    assert {job.code, job.adjustments[0].job, *(piece.job for piece in job.pieces)} == {"Spring-4"}


def test_the_order_of_rows_changes_nothing():
    book = good_book()
    book["pieces"] += [{"job": "0412", "piece": f"C{n}", "form": "service", "price": n} for n in (2, 10, 1)]
    wanted = [piece.label for piece in checked(book).value.jobs[0].pieces]
    assert wanted == ["A", "B", "C1", "C2", "C10"]
    shuffler = random.Random(7)
    for _ in range(5):
        for key in ("jobs", "pieces", "balloons", "hardware", "tax"):
            shuffler.shuffle(book[key])
        outcome = checked(book)
        assert not outcome.problems
        assert [piece.label for piece in outcome.value.jobs[0].pieces] == wanted
        assert [job.code for job in outcome.value.jobs] == ["0412", "0413"]


def test_no_table_at_all_is_no_problem_of_ours():
    outcome = check_tables((), RUN_DATE)
    assert not outcome.problems and outcome.value.prices is None and not outcome.value.entries


def test_a_missing_column_is_not_told_again_on_every_row_but_its_rows_are_of_no_use():
    made = list(tables(good_book()))
    jobs = next(t for t in made if t.sheet_key == "jobs")
    rows = tuple(
        replace(row, values={k: v for k, v in row.values.items() if k != "client"},
                columns={k: v for k, v in row.columns.items() if k != "client"})
        for row in jobs.rows
    )
    made[made.index(jobs)] = replace(jobs, rows=rows)
    outcome = check_tables(made, RUN_DATE)
    assert not outcome.problems and not outcome.value.jobs and len(outcome.value.entries) == 2


def test_problems_of_jobs_carry_their_code():
    book = good_book()
    book["pieces"][0]["form"] = "tower"
    [found] = checked(book).problems
    assert (found.job, found.level, found.seen) == ("0412", Level.HOLD, "tower")


def test_codes_one_slip_apart():
    assert all(is_slip("0412", other) for other in ("412", "0142", "041", "04123", "0413", "0412"))
    assert not any(is_slip("0412", other) for other in ("0423", "41", "2140", "Zebra"))


def test_figures_in_names_sort_as_numbers():
    assert sorted(["A10", "b1", "A2", "a1", "10", "9"], key=natural_order) == ["9", "10", "a1", "A2", "A10", "b1"]


def any_value(kind):
    """Any value that reading may give for a kind, sensible or not."""
    decimals = st.decimals(allow_nan=False, allow_infinity=False, places=3, min_value=-10**6, max_value=10**6)
    wholes = st.integers(min_value=-(10**6), max_value=10**6)
    texts = st.text(min_size=1, max_size=12)
    simple = {
        Kind.TEXT: texts | st.sampled_from(["none", "0412", "A", "Paper fan", "ring column", "{", "STATE"]),
        Kind.WHOLE: wholes, Kind.DATE: st.dates(), Kind.TIME: st.times(), Kind.YES_NO: st.booleans(),
        Kind.TEXTS: st.lists(texts, min_size=1, max_size=3).map(tuple),
        Kind.LENGTHS: st.lists(decimals, min_size=1, max_size=3).map(tuple),
        Kind.PERCENTS: st.lists(decimals, min_size=1, max_size=3).map(tuple),
        Kind.WHOLES: st.lists(wholes, min_size=1, max_size=3).map(tuple),
        Kind.AMOUNTS: st.lists(st.tuples(wholes, texts), min_size=1, max_size=3).map(tuple),
    }
    return simple.get(kind, decimals)


@given(st.data())
@settings(max_examples=150, deadline=None)
def test_no_typed_value_anywhere_makes_checking_fail(data):
    made = list(tables(good_book()))
    for _ in range(data.draw(st.integers(1, 4))):
        place = data.draw(st.integers(0, len(made) - 1))
        spoiled = made[place]
        column = data.draw(st.sampled_from(layout_of(spoiled.sheet_key).columns))
        index = data.draw(st.integers(0, len(spoiled.rows) - 1))
        row = spoiled.rows[index]
        values = {key: value for key, value in row.values.items() if key != column.key}
        wrong = row.misread
        action = data.draw(st.sampled_from(["blank", "misread", "other", "other", "other"]))
        if action == "misread":
            wrong |= {column.key}
        if action == "other":
            value = data.draw(any_value(column.kind))
            values[column.key] = Value(value=value, place=row.where(column.key), seen=str(value))
        rows = (*spoiled.rows[:index], replace(row, values=values, misread=wrong), *spoiled.rows[index + 1 :])
        made[place] = replace(spoiled, rows=rows)
    outcome = check_tables(made, RUN_DATE)
    blamed = {p.job for p in outcome.problems if p.level is not Level.NOTE}
    assert {job.code for job in outcome.value.jobs}.isdisjoint(blamed)
    if any(p.level is Level.BOOK for p in outcome.problems):
        assert outcome.value.prices is None
