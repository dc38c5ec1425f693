"""All papers put through real office software once: recalculated to the same values, printed without a flaw."""

from __future__ import annotations

import re
from decimal import Decimal
from pathlib import Path

import openpyxl
import pytest
from evenings_made import report
from modes import quotes
from office import convert, formulas_that_differ, page_texts
from quotes_made import quote
from sheets_made import party, sheet
from test_marked_copy import problem

from quoting.domain.money import Rounding, rounded
from quoting.writing.inks import open_workbook
from quoting.writing.marked_copy import write_marked_copy
from quoting.writing.quote_workbook import write_quote
from quoting.writing.rounding_formulas import rounded_formula
from quoting.writing.summary_workbook import write_summary
from quoting.writing.workshop_workbook import write_workshop

pytestmark = pytest.mark.office

LONG = [(f"{n}", f"Column {n}", ("6 ft tall", "Ivory and gold"), 1, "90.00", "goods") for n in range(1, 41)]


PRINTED_QUOTES = [name for name in quotes() if not name.startswith(tuple(Rounding))]
NOT_PRINTED = {"ties", *quotes()} - set(PRINTED_QUOTES)
"""Those that differ from printed ones in the last cent alone."""


@pytest.fixture(scope="module")
def papers(tmp_path_factory) -> dict[str, Path]:
    """Name → file of every kind of paper."""
    folder = tmp_path_factory.mktemp("papers")
    made = {}
    for number, (name, asked) in enumerate(quotes().items()):
        made[name] = folder / f"q{number}.xlsx"
        write_quote(made[name], asked)
    for name, asked in (
        ("small A4", quote()),
        ("small Letter", quote(paper="Letter")),
        ("long", quote(lines=LONG, paper="Letter")),
    ):
        made[name] = folder / f"{name}.xlsx"
        write_quote(made[name], asked)
    for name, told in (("party", party()), ("metric", sheet(unit="cm", paper="A4", shop={"prices_include_tax": True}))):
        made[f"{name} workshop"], made[f"{name} quote"] = folder / f"{name} w.xlsx", folder / f"{name} q.xlsx"
        write_workshop(made[f"{name} workshop"], told)
        write_quote(made[f"{name} quote"], told.quote)
    made["summary"] = folder / "summary.xlsx"
    write_summary(made["summary"], report())
    made["marked"] = folder / "marked.xlsx"
    write_marked_copy(made["small A4"], made["marked"], [problem(14, 2, sheet="Quote"), problem(0, 0, sheet="Quote")])
    made["ties"] = folder / "ties.xlsx"
    _write_ties(made["ties"])
    return made


def _write_ties(path: Path) -> None:
    """A sheet of rounding formulas on exact ties, which binary numbers can't hold."""
    with open_workbook(path, title="ties", author="", made=quote().quote_date) as workbook:
        page = workbook.add_worksheet("ties")
        row = 0
        for rule in Rounding:
            for unit in (Decimal("0.01"), Decimal("0.05"), Decimal(1), Decimal("0.001"), Decimal(10)):
                for steps in (0, 1, 2, 7, 114, 1004, 28_349, 1_000_000_2, 123_456_789):
                    for shift in ("0", "0.499999", "0.5", "0.500001"):
                        amount = (steps + Decimal(shift)) * unit
                        for rate in (Decimal("0.0625"), Decimal("0.2")):
                            exact = amount * rate / rate
                            page.write_number(row, 0, float(amount / rate))
                            formula = rounded_formula(f"A{row + 1}*{rate:f}", unit, rule)
                            page.write_formula(row, 1, f"={formula}", None, float(rounded(exact, unit, rule)))
                            row += 1


def test_every_formula_recalculates_to_what_it_carries(papers, tmp_path):
    count, differing = formulas_that_differ(list(papers.values()), tmp_path)
    assert differing == []
    assert count > 1900
    fresh = openpyxl.load_workbook(tmp_path / "out" / "0.xlsx")  # names survive being saved by other software
    assert {"quote_total", "quote_tax", "quote_number"} <= set(fresh.defined_names)


@pytest.fixture(scope="module")
def pages(papers, tmp_path_factory):
    """Name → texts of its printed pages."""
    names = [name for name in papers if name not in NOT_PRINTED]
    printed = convert([papers[name] for name in names], "pdf", tmp_path_factory.mktemp("printed"))
    return dict(zip(names, map(page_texts, printed), strict=True))


def test_no_page_is_cut_empty_or_in_error(pages):
    for name, texts in pages.items():
        assert texts, name
        for number, text in enumerate(texts, 1):
            assert "##" not in text, (name, number)
            assert len(text.split()) > 12, (name, number, text)
            assert not re.search(r"#(REF|NAME|VALUE|DIV)|Err:\d", text), (name, number)


def test_a_small_quote_is_one_page_on_either_paper(pages):
    for name in [*PRINTED_QUOTES, "small A4", "small Letter", "party quote", "metric quote"]:
        assert len(pages[name]) == 1, name


def test_a_long_quote_has_its_headings_on_every_page_of_lines(pages):
    texts = pages["long"]
    assert 3 <= len(texts) <= 5
    for number, text in enumerate(texts, 1):
        assert f"Page {number} of {len(texts)}" in text
        if re.search(r"Column \d+", text):
            assert re.search(r"Item\s+Description\s+Quantity\s+Each\s+Amount", text), number


def test_every_column_is_on_one_page_across(pages):
    """Label, amount and foot of a line stand on the same page."""
    for name in ("small A4", "small Letter", "long"):
        assert any(
            re.search(r"(Packed arch|Column 1)\s+1\s+(385\.00|90\.00)\s+(385\.00|90\.00)", text) for text in pages[name]
        )
    assert re.search(r"Status\s+Job\s+Client.*Margin\s+Quote", pages["summary"][0])


def test_amounts_print_with_their_currencys_digits_and_signs(pages):
    asked = quotes()
    assert "€667.50" in pages["vat included"][0]
    assert f"¥{int(asked['yen'].totals.payable):,}" in pages["yen"][0]
    assert f"KWD {asked['dinar'].totals.total:,.3f}" in pages["dinar"][0]
    assert "−15.00" in pages["stacked"][0]
    assert "14 June 2031, 15:30" in pages["plain"][0]
