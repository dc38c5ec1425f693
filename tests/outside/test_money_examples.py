"""Worked examples and rules of revenue authorities and standards, each with its source, through the totals core."""

from __future__ import annotations

import tomllib
from decimal import Decimal
from pathlib import Path

import pytest

from quoting.costing.tax_amounts import Tax
from quoting.costing.totals import OrderAmount, TaxableAmount, TotalsRules, line_net, work_out_totals
from quoting.domain.money import Rounding, rounded
from quoting.domain.prices import TaxRounding

D = Decimal

CASES = tomllib.loads((Path(__file__).parent / "data" / "money_examples.toml").read_text("utf-8"))["case"]

CENT = D("0.01")
# Rows of the collected examples that have no figure for our rules, and why.
NO_FIGURES = {
    "a6": "a choice of the shop: before tax it is a discount, after tax it is prepaid; both are checked in a4 and a5",
    "b3": "rules for retailers' own systems, without figures",
    "c9": "who pays for the discount decides; no figures",
    "d1": "the rule behind d2",
    "d5": "the rule behind d6, from memory",
    "h3": "a fair proportion is asked, no method prescribed",
    "h4": "the statute behind h1 and h2",
    "h5": "the court's rule behind h1 and h2",
    "h9": "allows a share by price, as here, or by weight, which we don't have",
}
IN_THIS_FILE = {"b4", "f6", "f7", "f9", "g1", "g2", "g3", "g4", "g5"}


def test_every_collected_row_is_checked_or_accounted_for():
    counts = {"a": 9, "b": 4, "c": 9, "d": 6, "e": 5, "f": 10, "g": 5, "h": 11}
    rows = {f"{letter}{number}" for letter, most in counts.items() for number in range(1, most + 1)}
    assert {case["row"] for case in CASES} | set(NO_FIGURES) | IN_THIS_FILE == rows
    assert {case["status"] for case in CASES} == {"READ", "SECOND", "MEMORY", "OWN"}


@pytest.mark.parametrize("case", CASES, ids=[f"{case['row']}-{number}" for number, case in enumerate(CASES)])
def test_a_worked_example(case):
    groups = tuple(dict.fromkeys(group for _, group in case["lines"]))
    taxes = [
        Tax(
            code=code,
            rate=D(percent) / 100,
            groups=tuple(more[0]) if more and more[0] else groups,
            on_top_of=tuple(more[1]) if len(more) > 1 else (),
        )
        for code, percent, *more in case["taxes"]
    ]
    order = [
        OrderAmount(amount=D(amount), is_discount=key == "discounts", group=group or None)
        for key in ("discounts", "charges")
        for amount, group in case.get(key, [])
    ]
    totals = work_out_totals(
        [TaxableAmount(amount=D(amount), group=group) for amount, group in case["lines"]],
        order,
        taxes,
        TotalsRules(
            prices_include_tax=case.get("including", False),
            prepaid=D(case.get("prepaid", "0")),
            tax_rounding=TaxRounding.PER_LINE if case.get("per_line") else TaxRounding.PER_TAX,
            rounding=Rounding(case.get("rounding", "half up")),
            cash_unit=D(case.get("cash_unit", "0")),
        ),
    )
    found = {
        "taxes": [str(line.amount) for line in totals.taxes],
        "taxable": [str(line.taxable) for line in totals.taxes],
        **{key: str(getattr(totals, key)) for key in ("subtotal", "tax", "total", "cash_rounding", "payable")},
    }
    assert {key: found[key] for key in case["expect"]} == case["expect"]


def test_b4_rounding_to_a_tenth_of_a_penny():
    """HMRC VAT Notice 700 s 17.5 (from memory): 86.76p to 86.7p, or to the nearest penny; 0.0024 to 0.002."""
    assert rounded(D("0.8676"), D("0.001"), Rounding.DOWN) == D("0.867")
    assert rounded(D("0.8676"), CENT, Rounding.HALF_UP) == D("0.87")
    assert rounded(D("0.0024"), D("0.001"), Rounding.DOWN) == D("0.002")


def due(amount, unit, ties=Rounding.HALF_UP):
    rules = TotalsRules(cash_unit=D(unit), cash_ties=ties)
    return work_out_totals([TaxableAmount(amount=D(amount), group="g")], rules=rules).payable


def test_f1_and_f7_endings_in_five_cents():
    """Canada Budget 2012 (read), Australian guidance (from memory): 1, 2, 6, 7 down; 3, 4, 8, 9 up; 0, 5 stay."""
    expected = ["1.00", "1.00", "1.00", "1.05", "1.05", "1.05", "1.05", "1.05", "1.10", "1.10"]
    assert [str(due(f"1.0{ending}", "0.05")) for ending in range(10)] == expected


def test_f5_oere_in_whole_kronor():
    """Skatteverket 2016.13, page 321578 (read): 1 to 49 öre down, 50 to 99 up."""
    assert all(due(f"7.{oere:02}", "1") == (7 if oere < 50 else 8) for oere in range(100))


def test_f6_a_tie_of_two_and_a_half_cents_goes_up():
    """Australian GST Regulations 2019 s 168-5.11 (read)."""
    assert rounded(D("0.025"), D("0.05"), Rounding.HALF_UP) == D("0.05")
    assert rounded(D("10.075"), D("0.05"), Rounding.HALF_UP) == D("10.10")


def test_f9_ten_cents_with_five_going_down():
    """Reserve Bank of New Zealand, text at grownups.co.nz (secondary): 1 to 5 down, 6 to 9 up."""
    expected = ["2.00"] * 6 + ["2.10"] * 4
    assert [str(due(f"2.0{ending}", "0.10", Rounding.HALF_DOWN)) for ending in range(10)] == expected


def test_g1_to_g5_rules_of_the_electronic_invoice():
    """Peppol BIS Billing 3.0, chapter on calculation (read); the published invoices check the same with figures."""
    # g1: three roundings, not one: 1.005 − 0.005 + 0.005 rounded at once would be 1.01.
    assert line_net(D("1.005"), D(1), allowance=D("0.005"), charge=D("0.004")) == D("1.00")
    # g2: one rounding per group, never per line. g3: rounded figures are summed, not rounded again.
    amounts = [TaxableAmount(amount=D("0.33"), group="S 25")] * 3
    totals = work_out_totals(amounts, taxes=[Tax(code="S 25", rate=D("0.25"), groups=("S 25",))])
    assert (totals.tax, totals.total) == (D("0.25"), D("1.24"))
    # g4: amount = base × percent / 100.
    assert line_net(D("1000") * D("12.345") / 100, D(1)) == D("123.45")
    # g5: an order amount names one group.
    named = [OrderAmount(amount=D("0.30"), is_discount=True, group="S 25")]
    taxes = [Tax(code="S 25", rate=D("0.25"), groups=("S 25",)), Tax(code="E 0", rate=D(0), groups=("E 0",))]
    totals = work_out_totals([*amounts, TaxableAmount(amount=D("9.00"), group="E 0")], named, taxes)
    assert [line.taxable for line in totals.taxes] == [D("0.69"), D("9.00")]
