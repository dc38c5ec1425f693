"""Real office software works out every amount of a job from the counts of its pieces, in every mode of tax."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import office
import openpyxl
import pytest
from costing_made import (
    BALLOONS,
    HARDWARE,
    G,
    H,
    L,
    T,
    adjustment,
    band,
    column,
    job,
    piece,
    plan,
    prices,
    tax,
    usual,
)
from workings_book import write_workings_book

from quoting.costing.jobs import cost_job
from quoting.costing.steps import ref
from quoting.domain.money import Currency, Rounding
from quoting.domain.prices import BreakagePolicy, ChargeBy, TaxRounding
from quoting.domain.quotes import Cautions

D = Decimal

OFF = [
    adjustment("Regular client", percent="0.1"),
    adjustment("Short notice", percent="0.075", is_discount=False, notice_days=60),
    adjustment("Arch day", amount="20", piece="B"),
    adjustment("Late strike", percent="0.15", piece="A", is_discount=False),
    adjustment("Voucher", amount="13.37"),
]
STACKED = (tax("ST", "6.25", (G, H)), tax("CT", "1.5", (G, L)), tax("LT", "9.975", (H, L, T), on_top_of=("ST", "CT")))
INCLUSIVE = {"prices_include_tax": True}

SCENARIOS = {
    "plain": (prices(), [], {}),
    "adjusted": (prices(), OFF, {}),
    "half down": (prices({"rounding": Rounding.HALF_DOWN}), OFF, {}),
    "down": (prices({"rounding": Rounding.DOWN}), OFF, {}),
    "per line": (prices({"tax_rounding": TaxRounding.PER_LINE}, taxes=STACKED), OFF, {}),
    "compound": (prices(taxes=STACKED), OFF, {}),
    "compound per line down": (
        prices({"tax_rounding": TaxRounding.PER_LINE, "rounding": Rounding.DOWN}, taxes=STACKED),
        OFF,
        {},
    ),
    "inclusive": (prices(INCLUSIVE, taxes=(tax("VAT", "20"),)), OFF, {}),
    "inclusive compound": (prices(INCLUSIVE, taxes=STACKED), OFF, {}),
    "inclusive per line": (prices({**INCLUSIVE, "tax_rounding": TaxRounding.PER_LINE}, taxes=STACKED), OFF, {}),
    "inclusive half down": (prices({**INCLUSIVE, "rounding": Rounding.HALF_DOWN}, taxes=STACKED), OFF, {}),
    "inclusive exempt": (prices(INCLUSIVE, taxes=STACKED), OFF, {"exempt_reason": "charity, certificate on file"}),
    "exempt": (prices(), OFF, {"exempt_reason": "charity"}),
    "flat share": (prices({"breakage_policy": BreakagePolicy.FLAT_SHARE}), [], {}),
    "cash and minimum": (prices({"cash_rounding": D("0.05"), "minimum_order": D(900)}), OFF, {}),
    "krona": (prices({"cash_rounding": D(1), "currency": Currency(code="SEK"), "distance_unit": "km"}), OFF, {}),
    "yen": (
        prices({"currency": Currency(code="JPY"), "rounding": Rounding.HALF_DOWN}, taxes=(tax("JCT", "10"),)),
        [adjustment(percent="0.1")],
        {},
    ),
    "dinar": (
        prices({"currency": Currency(code="KWD")}, taxes=(tax("V", "12.5"),)),
        [adjustment(percent="0.03125")],
        {},
    ),
    "far away": (
        prices(delivery=(band(10, 0, 5), band(None, "12.5", 5, "1.333", cost_further="0.45"))),
        [],
        {"distance_km": D("61.7")},
    ),
    "collected": (prices(), [], {"is_collected": True}),
    "by the day": (
        prices(hardware=tuple(replace(thing, is_per_day=thing.is_hire) for thing in HARDWARE)),
        OFF,
        {"strike_date": date(2031, 6, 16), "is_outdoors": True},
    ),
    "all by pack": (prices(balloons=tuple(replace(b, charge_by=ChargeBy.PACK) for b in BALLOONS)), OFF, {}),
}


def costed(name):
    book, adjustments, changes = SCENARIOS[name]
    plans = usual()
    if name == "plain":  # a label that would break a reference, a fixed price on a built piece and on a hired one
        hired = plan(hire=[("Arch frame", 1)])
        plans = [
            *plans,
            (piece("{x!", 2, price="88.25"), column(13, 0)),
            (piece("Z", 2, price="9.99"), hired),
            (piece("N"), plan()),
        ]
    outcome = cost_job(job([p for p, _ in plans], adjustments, **changes), plans, book, Cautions())
    assert outcome.value is not None, outcome.problems
    return outcome.value


@pytest.fixture(scope="module")
def recalculated(tmp_path_factory):
    """Every scenario's workings, recalculated in one run of the office software: (sheet, section, step) → value."""
    folder = tmp_path_factory.mktemp("workings")
    sheets = {name: costed(name) for name in SCENARIOS}
    cells = write_workings_book(folder / "book.xlsx", {name: sheet.workings for name, sheet in sheets.items()})
    (fresh,) = office.convert([folder / "book.xlsx"], "xlsx", folder / "fresh")
    book = openpyxl.load_workbook(fresh, data_only=True)
    return sheets, {place: book[place[0]][cell].value for place, cell in cells.items()}


@pytest.mark.office
def test_every_step_recalculates_to_what_we_wrote(recalculated):
    sheets, values = recalculated
    count, differing = 0, []
    for name, sheet in sheets.items():
        for section in sheet.workings:
            for step in section.steps:
                count += bool(step.formula)
                now = values[name, section.key, step.key]
                if not isinstance(now, (int, float)) or abs(now - float(step.value)) > 1e-6:
                    differing.append(f"{name}: {section.key} / {step.key}: {step.value} → {now!r} ({step.formula})")
    assert not differing
    assert count > 3000


@pytest.mark.office
def test_the_last_steps_are_the_printed_amounts(recalculated):
    sheets, values = recalculated
    for name, sheet in sheets.items():
        totals, terms = sheet.quote.totals, sheet.quote.terms
        printed = {
            "subtotal": totals.subtotal,
            "discount": totals.discount,
            "charges": totals.charges,
            "tax": totals.tax,
            "total": totals.total,
            "payable": totals.payable,
            "deposit": terms.deposit,
            "balance": terms.balance,
        }
        for number, line in enumerate(totals.taxes, 1):
            printed |= {f"taxable {number}": line.taxable, f"tax {number}": line.amount}
        for key, amount in printed.items():
            assert values[name, "totals", key] == pytest.approx(float(amount), abs=1e-9), (name, key)
        assert values[name, "price", "cost"] == pytest.approx(float(sheet.cost), abs=1e-9)
        for number, line in enumerate(sheet.stock, 1):
            if (name, "stock", f"with spares {number}") in values:
                assert values[name, "stock", f"with spares {number}"] == line.with_spares


def test_every_amount_but_a_given_has_a_formula():
    """Only typed inputs are numbers; every section begins with them, and refers to nothing later."""
    given_words = (
        "quantity",
        "chance",
        "pack ",
        "opened",
        "service",
        "share",
        "unit cost",
        "seconds",
        "markup",
        "listed",
        "workshop c",
        "venue c",
        "hire c",
        "fixed",
        "less tax",
        "adjustment",
        "distance",
        "band",
        "further",
        "rate",
        "order",
        "minimum",
        "cash unit",
        "deposit share",
    )
    for name in ("plain", "adjusted", "inclusive per line", "inclusive exempt", "cash and minimum", "all by pack"):
        known = set()
        for section in costed(name).workings:
            if section.key in {"stock", "labour", "price", "totals"}:
                kinds = [bool(step.formula) for step in section.steps]
                assert kinds == sorted(kinds), (name, section.key)
                assert all(s.key.startswith(given_words) for s in section.steps if not s.formula)
            for step in section.steps:
                for part in step.formula.split("{")[1:]:
                    inside = part.split("}")[0]
                    assert ("!" in inside and inside in known) or f"{section.key}!{inside}" in known, (step.key, inside)
                known.add(f"{section.key}!{step.key}")


def test_a_label_that_would_break_references_stands_by_its_number():
    sheet = costed("plain")
    assert sheet.workings[4].key == "piece number 5"
    assert ref("part 1", "piece number 5") == "{piece number 5!part 1}"
