"""Real office software works out further hours, crews, delivery and every policy of prices to what we wrote."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, time
from decimal import Decimal

import office
import openpyxl
import pytest
from costing_made import LABOUR, adjustment, arch, column, job, piece, plan, prices, tax, usual
from crews_made import RATES, outline, policy, rules, van
from workings_book import write_workings_book

from quoting.costing.jobs import cost_job
from quoting.domain.crews import Access, Shown, StrikeTrip
from quoting.domain.quotes import Cautions

D = Decimal
DEAR = {"hour_rates": RATES, "holidays": {date(2031, 6, 14): "Founders' day"}}
LATE = {"install_date": date(2031, 6, 13), "install_time": time(20, 45)}
STRIKE = {"strike_date": date(2031, 6, 15), "strike_time": time(23, 50)}
CREW = rules(setup_minutes=45.0, minimum_hours=2.5, hours_step=15.0, flight_minutes=0.5, unloading_minutes=20.0)
SKILLED = (*LABOUR[:-3], replace(LABOUR[-3], hour_charge=D("71.50"), hour_cost=D(33)), *LABOUR[-2:])
VANS = (van("Small van", litres=900, length=200, charge=5, cost="3.10"), van("Box van", litres=4000, cost="11.50"))
FOLD = policy(delivery_shown=Shown.IN_PIECES, labour_shown=Shown.IN_PIECES)
TARGET = policy(target_margin="0.55", overhead="0.12", price_step="0.50")
ALL = policy(target_margin="0.5", overhead="0.08", price_step="5", delivery_shown=Shown.IN_PIECES,
             labour_shown=Shown.OWN_LINE, distance_charge="1.15", distance_cost="0.4", free_distance="5",
             strike_trip=StrikeTrip.AGAIN)  # fmt: skip
WITH_TAX = {"prices_include_tax": True}
FEE = Access(flights=3, tolls=D("6.40"), parking=D("12.00"), waiting_minutes=D(25), setup_minutes=D(30))

SCENARIOS = {
    "dear hours": (prices(**DEAR), {**LATE, **STRIKE}),
    "set-up, minimum and rounding": (prices({"crew": CREW}, **DEAR), {**LATE, **STRIKE, "access": FEE}),
    "own line": (prices({"crew": CREW, "policy": policy(labour_shown=Shown.OWN_LINE)}, **DEAR), {**LATE, **STRIKE}),
    "folded": (prices({"crew": CREW, "policy": FOLD}, **DEAR), {**LATE, **STRIKE}),
    "target": (prices({"crew": CREW, "policy": TARGET}, **DEAR), {**LATE, **STRIKE}),
    "target with tax": (prices({**WITH_TAX, "crew": CREW, "policy": TARGET}, taxes=(tax("V", "19"),)), LATE),
    "target exempt": (
        prices({**WITH_TAX, "crew": CREW, "policy": TARGET}, taxes=(tax("V", "19"),)),
        {"exempt_reason": "charity"},
    ),
    "stepped": (prices({"policy": policy(price_step="2.50", overhead="0.1")}), {}),
    "vans": (prices({"policy": policy(strike_trip=StrikeTrip.AGAIN)}, vans=VANS), {**STRIKE, "access": FEE}),
    "by rate": (prices({"policy": policy(distance_charge="1.20", distance_cost="0.45", free_distance="10")}), {}),
    "skilled": (prices({"crew": CREW}, labour=SKILLED, **DEAR), {**LATE, **STRIKE}),
    "all of it": (
        prices({**WITH_TAX, "crew": CREW, "policy": ALL}, labour=SKILLED, vans=VANS, **DEAR),
        {**LATE, **STRIKE, "access": FEE},
    ),
}  # fmt: skip
OFF = [adjustment("Regular client", percent="0.1"), adjustment("Late", percent="0.15", piece="A", is_discount=False)]


def plans():
    """The usual pieces with sizes: an arch too large for one load of the small van, a column, a hired plinth."""
    made = usual()
    return [
        (made[0][0], replace(made[0][1], outline=outline(60, 210, rigid=190.0, litres=450.0))),
        (made[1][0], replace(made[1][1], outline=outline(290, 190, 60, rigid=120.0, litres=1900.0))),
        *made[2:],
    ]


def costed(name, adjustments=OFF):
    book, changes = SCENARIOS[name]
    made = cost_job(job([p for p, _ in plans()], adjustments, **changes), plans(), replace_wording(book), Cautions())
    assert made.value is not None, made.problems
    return made.value


def replace_wording(book):
    return replace(book, wording={**book.wording, "labour_line": "Labour"})


@pytest.mark.office
def test_every_step_recalculates_to_what_we_wrote(tmp_path):
    sheets = {name: costed(name) for name in SCENARIOS}
    cells = write_workings_book(tmp_path / "book.xlsx", {name: sheet.workings for name, sheet in sheets.items()})
    (fresh,) = office.convert([tmp_path / "book.xlsx"], "xlsx", tmp_path / "fresh")
    book = openpyxl.load_workbook(fresh, data_only=True)
    values = {place: book[place[0]][cell].value for place, cell in cells.items()}
    differing, count = [], 0
    for name, sheet in sheets.items():
        for section in sheet.workings:
            for step in section.steps:
                now = values[name, section.key, step.key]
                count += bool(step.formula)
                if not isinstance(now, (int, float)) or abs(now - float(step.value)) > 1e-6:
                    differing.append(f"{name}: {section.key} / {step.key}: {step.value} → {now!r} ({step.formula})")
        totals = sheet.quote.totals
        assert values[name, "totals", "total"] == pytest.approx(float(totals.total), abs=1e-9)
        assert values[name, "price", "cost"] == pytest.approx(float(sheet.cost), abs=1e-9)
    assert not differing, differing[:5]
    assert count > 1500


@pytest.mark.parametrize("name", SCENARIOS)
def test_sections_refer_to_nothing_later_and_the_amounts_add_up(name):
    known = set()
    made = costed(name)
    for section in made.workings:
        for step in section.steps:
            for part in step.formula.split("{")[1:]:
                inside = part.split("}")[0]
                assert ("!" in inside and inside in known) or f"{section.key}!{inside}" in known, (step.key, inside)
            known.add(f"{section.key}!{step.key}")
    assert sum(line.amount for line in made.quote.lines) == made.quote.totals.subtotal
    for each in made.pieces:
        assert sum(each.amounts.values()) == each.amount


def test_what_is_folded_into_the_pieces_is_the_same_money_but_for_rounding():
    shown, folded = costed("own line", ()), costed("folded", ())
    assert abs(shown.quote.totals.subtotal - folded.quote.totals.subtotal) < D("0.10")
    assert shown.cost == folded.cost
    assert [line.kind.value for line in folded.quote.lines if not line.label] == []
    assert [line.kind.value for line in shown.quote.lines if not line.label] == ["labour", "delivery"]


def test_the_target_margin_is_left_and_tax_does_not_change_it():
    """One worked piece, delivery at cost nothing: margin 55 % of the price before tax, to a cent's share."""
    free = ({"policy": replace(TARGET, price_step=D(0))},)
    for shop, taxes in ((free[0], (tax("ST", 20),)), ({**free[0], **WITH_TAX}, (tax("V", 20),))):
        book = prices(shop, taxes=taxes, delivery=(replace(prices().delivery[0], charge=D(0), cost=D(0)),))
        one = [(piece("A", 4), column())]
        sheet = cost_job(job([one[0][0]], distance_km=D(1)), one, book, Cautions()).value
        assert abs(sheet.margin - D("0.55")) < D("0.0005")


def test_a_price_goes_to_the_step_and_a_fixed_one_stays():
    sheet = costed("stepped")
    steps = {line.label: line.unit_price % D("2.50") for line in sheet.quote.lines if line.label}
    assert steps["A"] == steps["B"] == steps["C"] == 0
    assert next(line.unit_price for line in sheet.quote.lines if line.label == "D") == 120
    tiny = plan([("Round 11 ivory", 1)])
    one = [(piece("A"), tiny)]
    made = cost_job(job([one[0][0]]), one, prices({"policy": policy(price_step="5")}), Cautions()).value
    assert made.quote.lines[0].unit_price == D("5.00")
    assert arch().parts  # the arch's price above is worked out, not nothing
