"""Cells as owners fill them in passing: a unit behind a bare number, a date without its marks."""

from __future__ import annotations

from decimal import Decimal

import pytest
from workbook_parts import cells, write_parts, xlsx_parts

from quoting.checking.layouts import layout_of
from quoting.domain.cells import Cell
from quoting.domain.places import Place
from quoting.reading.values import read_value
from quoting.reading.workbooks import read_book

HERE = Place(workbook="book.xlsx", sheet="Labour", row=5, column=3)


def read(sheet, key, text):
    outcome = read_value(Cell(place=HERE, value=text), layout_of(sheet).column(key), "")
    return outcome.value.value if outcome.value else outcome.problems[0].code


@pytest.mark.parametrize(
    ("sheet", "key", "typed", "meant"),
    [
        ("labour", "seconds", "22s", Decimal(22)), ("labour", "seconds", "22 sec.", Decimal(22)),
        ("labour", "seconds", "7.5 Seconds", Decimal("7.5")), ("labour", "seconds", "22 min", "P207"),
        ("labour", "seconds", "s", "P207"), ("labour", "seconds", "22 s 5", "P207"),
        ("balloons", "size", '11"', 11), ("balloons", "size", "11”", 11), ("balloons", "size", "11 in", 11),
        ("balloons", "size", "11 ft", "P208"), ("balloons", "size", '10.5"', "P208"), ("pieces", "size", "16 inch", 16),
        ("builds", "size", "5''", 5), ("pieces", "filler_sizes", '5", 11", 16 in', (5, 11, 16)),
        ("pieces", "quantity", '2"', "P208"), ("pieces", "quantity", "2 in", "P208"),
    ],
)
def test_what_may_stand_behind_a_number_of_its_column(sheet, key, typed, meant):
    assert read(sheet, key, typed) == meant


def test_a_number_that_is_shown_as_a_date_and_can_be_none(tmp_path):
    styles = '<cellXfs count="2"><xf numFmtId="0"/><xf numFmtId="14"/></cellXfs>'
    inside = cells('<row r="1"><c r="A1" s="1"><v>20310514</v></c></row>')
    book = read_book(write_parts(tmp_path / "book.xlsx", xlsx_parts({"Jobs": inside}, styles=styles))).value
    cell = book.sheets[0].rows[1][1]
    for sheet, key, fix in (("jobs", "event_date", "type a date"), ("pieces", "quantity", "format the cell")):
        (found,) = read_value(cell, layout_of(sheet).column(key), "").problems
        assert (found.code, found.place.cell, found.seen) == ("P229", "A1", "######")
        assert found.fix.startswith(fix)
