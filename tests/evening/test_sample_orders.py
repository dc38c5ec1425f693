"""What the sample batches buy and hire: it adds up, names no client, and shows every kind of note."""

from __future__ import annotations

import json
import zipfile
from decimal import Decimal

import pytest
from scenes import jobs_of, report_of

GOOD = ("dollars", "euros")


@pytest.mark.parametrize("name", GOOD)
def test_orders_job_costs_and_lines_are_one_sum(name):
    purchase = report_of(name).purchase
    assert purchase.total == sum(o.goods + o.charge for o in purchase.orders) == sum(s.total for s in purchase.shares)
    gas = sum((line.cost for line in purchase.gas.cylinders), Decimal(0)) if purchase.gas else Decimal(0)
    assert sum(o.goods for o in purchase.orders) == sum(line.cost for line in purchase.lines) + gas
    assert purchase.gap == 0
    assert purchase.comparison.together < purchase.comparison.one_by_one


@pytest.mark.parametrize("name", GOOD)
def test_every_need_is_on_hand_bought_or_told_of(name):
    purchase = report_of(name).purchase
    needs: dict[str, int] = {}
    for sheet in jobs_of(name).values():
        for line in sheet.stock:
            needs[line.item] = needs.get(line.item, 0) + line.with_spares
    assert {line.item: line.need for line in purchase.lines} == needs
    levels = {level.item: level for level in purchase.levels}
    for line in purchase.lines:
        level = levels.get(line.item)
        assert (level.used if level else 0) + line.short == line.need, line.item


@pytest.mark.parametrize("name", GOOD)
def test_orders_are_written_for_every_supplier_and_name_no_client(name, evenings):
    orders = report_of(name).purchase.orders
    files = sorted((evenings[name] / "orders").glob("*.xlsx"))
    assert {file.stem for file in files} == {order.supplier or "no supplier named" for order in orders}
    private = {
        word
        for sheet in jobs_of(name).values()
        for word in (sheet.quote.client, sheet.quote.contact, sheet.quote.email, sheet.quote.phone, sheet.quote.venue)
        if word
    }
    for file in files:
        with zipfile.ZipFile(file) as parts:
            text = "".join(parts.read(part).decode("utf-8", "replace") for part in parts.namelist())
        assert not [word for word in private if word in text], file.name


def test_results_have_what_the_purchase_has(evenings):
    data = json.loads((evenings["dollars"] / "results.json").read_text("utf-8"))["purchase"]
    purchase = report_of("dollars").purchase
    assert Decimal(data["total"]) == purchase.total
    assert [order["supplier"] for order in data["orders"]] == [order.supplier for order in purchase.orders]


def test_the_samples_show_every_note_of_buying_and_hire():
    found = {p.code for name in ("dollars", "euros", "faulty") for p in report_of(name).problems}
    assert {"P620", "P621", "P622", "P624", "P625", "P626", "P627", "P629"} <= found


def test_a_backdrop_promised_twice_is_told_to_both_jobs():
    told = [(p.job, p.place.sheet) for p in report_of("dollars").problems if p.code == "P622"]
    assert sorted(told) == [("413-hire", "Jobs"), ("436-stage", "Jobs")]
    (clash,) = report_of("dollars").purchase.clashes
    assert (clash.item, clash.first.isoformat(), clash.last.isoformat(), clash.short) == (
        "Round backdrop frame", "2031-06-21", "2031-06-22", 1,
    )


def test_a_held_job_buys_nothing():
    report = report_of("faulty")
    held = {result.job for result in report.results if result.sheet is None}
    assert held
    assert not held & {job for line in report.purchase.lines for job in line.jobs}
