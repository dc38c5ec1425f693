"""Splits by largest remainder and the rounding rules, written as formulas, against money's own in office software."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import office
import openpyxl
import pytest
from workings_book import write_workings_book

from quoting.costing.splits import add_split
from quoting.costing.steps import Steps, decimals_of, rounding_formula
from quoting.domain.money import Rounding, rounded, shared_out

D = Decimal
# Amount, weights, unit: equal remainders, weights all 0, thirds, one whole share, negatives, other units.
SPLITS = [
    ("0.01", (1, 1), "0.01"),
    ("0.01", (1, 1, 1, 1), "0.01"),
    ("0.03", (1, 1, 1, 1), "0.01"),
    ("-0.03", (2, 2, 1), "0.01"),
    ("100.00", (1, 1, 1), "0.01"),
    ("10.00", (95, 60), "0.01"),
    ("3.50", (0, 0, 0), "0.01"),
    ("0.05", (0, 3, 3), "0.01"),
    ("28.92", (1, 0, 2), "0.01"),
    ("7", (5, 5, 4), "1"),
    ("1.001", (1, 1), "0.001"),
    ("0.00", (4, 9), "0.01"),
    ("99.99", (33, 33, 33), "0.01"),
]
AMOUNTS = (
    "0.005",
    "-0.005",
    "1.0049",
    "2.675",
    "-2.675",
    "9.975",
    "0.015",
    "1.115",
    "12.5",
    "0.5",
    "-0.5",
    "1.5",
    "0.0249",
)
UNITS = ("0.01", "0.05", "1", "0.001")


@pytest.fixture(scope="module")
def recalculated(tmp_path_factory):
    folder = tmp_path_factory.mktemp("splits")
    sheets = {}
    for number, (amount, weights, unit) in enumerate(SPLITS, 1):
        steps = Steps("split", "Split", "USD")
        whole = steps.given("whole", "Whole", D(amount))
        named = [
            (f"part {n}", steps.given(f"weight {n}", "Weight", weight), Fraction(weight))
            for n, weight in enumerate(weights, 1)
        ]
        add_split(steps, "split", (whole, D(amount)), named, D(unit))
        sheets[f"split {number}"] = (steps.section(),)
    steps = Steps("rounding", "Rounding", "USD")
    for amount in AMOUNTS:
        given = steps.given(amount, "Amount", D(amount))
        for unit in UNITS:
            for rule in Rounding:
                value = rounded(D(amount), D(unit), rule)
                steps.step(f"{amount} {unit} {rule}", "Rounded", value, rounding_formula(given, D(unit), rule))
    sheets["rounding"] = (steps.section(),)
    cells = write_workings_book(folder / "book.xlsx", sheets)
    (fresh,) = office.convert([folder / "book.xlsx"], "xlsx", folder / "fresh")
    book = openpyxl.load_workbook(fresh, data_only=True)
    return sheets, {(sheet, key): book[sheet][cell].value for (sheet, _, key), cell in cells.items()}


@pytest.mark.office
@pytest.mark.parametrize("number", range(1, len(SPLITS) + 1))
def test_a_split_is_moneys_own_to_the_smallest_unit(recalculated, number):
    sheets, values = recalculated
    amount, weights, unit = SPLITS[number - 1]
    expected = [float(part) for part in shared_out(D(amount), weights, D(unit))]
    found = [values[f"split {number}", f"split, part {n}"] for n in range(1, len(weights) + 1)]
    assert found == pytest.approx(expected, abs=1e-9)
    (section,) = sheets[f"split {number}"]
    written = {step.key: float(step.value) for step in section.steps}
    assert {key: values[f"split {number}", key] for key in written} == pytest.approx(written, abs=1e-9)


@pytest.mark.office
def test_every_rounding_rule_is_moneys_own(recalculated):
    sheets, values = recalculated
    (section,) = sheets["rounding"]
    written = {step.key: float(step.value) for step in section.steps}
    assert len(written) == len(AMOUNTS) * (1 + len(UNITS) * len(Rounding))
    assert {key: values["rounding", key] for key in written} == pytest.approx(written, abs=1e-9)


def test_a_single_part_is_the_whole_and_adds_no_step():
    steps = Steps("split", "Split", "USD")
    assert add_split(steps, "split", ("{whole}", D(5)), [("all", "{w}", Fraction(1))], D("0.01")) == ("{whole}",)
    assert steps.section().steps == ()


def test_a_key_given_twice_is_our_mistake():
    steps = Steps("s", "S", "USD")
    steps.given("x", "X", 1)
    with pytest.raises(ValueError, match="two steps"):
        steps.step("x", "X", 1, "1")


def test_units_know_their_digits():
    assert [decimals_of(D(unit)) for unit in ("0.01", "0.05", "1", "0.001", "1E+1")] == [2, 2, 0, 3, 0]
