"""Taxes of a job, its margin, and what is due when. Own arithmetic throughout."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
from costing_made import (
    H,
    piece,
    plan,
    prices,
    tax,
    usual,
)
from jobs_made import codes, outcome, sheet

from quoting.domain.problems import Level

D = Decimal


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
