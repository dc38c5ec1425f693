"""The blank book: made from the layouts, read back by our own reading, opened by office software."""

from __future__ import annotations

import re
import zipfile
from datetime import date
from pathlib import Path

import office
import openpyxl
import pytest

from quoting.batch import make_blank_book
from quoting.checking.books import check_tables
from quoting.checking.layouts import book_layouts, layout_of
from quoting.checking.wording import standard_wording, wording_rows
from quoting.domain.money import ZERO
from quoting.domain.prices import Shape
from quoting.forms.registry import all_forms
from quoting.reading.tables import read_tables
from quoting.reading.workbooks import read_book
from quoting.writing.blank_book import write_blank_book
from quoting.writing.blank_headings import heading_text
from quoting.writing.blank_sheets import HEADING_ROW
from quoting.writing.starting_rows import starting_rows

FOLDER = Path(__file__).parent.parent.parent / "templates"
RUN_DATE = date(2031, 5, 14)
IN_FEET, METRIC = False, True


def make(path, is_metric, jobs=()):
    rows = {**starting_rows(is_metric=is_metric), "wording": wording_rows()}
    if jobs:
        rows["shop"] = ({**rows["shop"][0], "name": "Willow Lane Balloons"},)
        rows["jobs"], rows["pieces"] = jobs
    write_blank_book(path, book_layouts(), rows, is_metric=is_metric)
    return path


@pytest.fixture(scope="module", params=[IN_FEET, METRIC], ids=["feet", "metric"])
def blank(request, tmp_path_factory):
    return make(tmp_path_factory.mktemp("blank") / "book.xlsx", request.param), request.param


def read(path):
    book = read_book(path)
    tables = read_tables(book.value, book_layouts())
    return tables.value, (*book.problems, *tables.problems)


def test_only_the_shops_name_is_missing(blank):
    tables, problems = read(blank[0])
    assert not problems
    outcome = check_tables(tables, RUN_DATE)
    examples = [("P487", "Tax")] * len(next(table.rows for table in tables if table.sheet_key == "tax"))
    assert sorted((p.code, p.place.sheet) for p in outcome.problems) == [("P310", "Shop"), *examples]
    assert "name" in next(p.why for p in outcome.problems if p.code == "P310")


def test_every_form_can_be_planned_from_the_starting_rows(tmp_path):
    for is_metric in (IN_FEET, METRIC):
        job = {"job": "0001", "client": "Fernhill Library", "event_date": date(2031, 6, 20), "distance": 5}
        pieces = [{"job": "0001", "piece": str(n), "form": f.name, **f.example} for n, f in enumerate(all_forms(), 1)]
        tables, problems = read(make(tmp_path / f"{is_metric}.xlsx", is_metric, ((job,), pieces)))
        outcome = check_tables(tables, RUN_DATE)
        assert {p.code for p in (*problems, *outcome.problems)} == {"P487"}  # the rates of tax are still examples
        prices = outcome.value.prices
        [checked] = outcome.value.jobs
        for piece in checked.pieces:
            form = next(form for form in all_forms() if form.name == piece.form)
            plan = form.plan(piece, prices)
            assert (plan.value is None) == form.is_refused, [str(p) for p in plan.problems]
        assert prices.wording == standard_wording()


def test_starting_values_are_labelled_and_fills_stay_below_their_sizes(blank):
    tables, _ = read(blank[0])
    rows = {table.sheet_key: table.rows for table in tables}
    labels = {row.get("source") for key in ("balloons", "hardware", "labour") for row in rows[key]}
    assert all("example price" in label or "common practice" in label for label in labels)
    # Usual fills of 5, 9, 11, 12, 16, 24 and 36 in rounds, in inches: common practice, no source.
    practice = {5: 4.5, 9: 8, 11: 9.5, 12: 10.5, 16: 14.5, 24: 21, 36: 32}
    for row in rows["balloons"]:
        assert row.get("usual_fill") > ZERO
        if row.get("shape") == Shape.ROUND.value:
            assert abs(float(row.get("usual_fill")) / 2.54 - practice[row.get("size")]) < 0.35


def test_headings_carry_units_notes_and_looks(blank):
    path, is_metric = blank
    book = openpyxl.load_workbook(path)
    for layout in book_layouts():
        sheet = book[layout.name]
        assert sheet.freeze_panes, layout.name
        if layout.is_settings:
            continue
        assert list(sheet.tables), layout.name
        for number, column in enumerate(layout.columns, 1):
            cell = sheet.cell(HEADING_ROW, number)
            assert cell.value == heading_text(column, is_metric)
            assert column.note in cell.comment.text and column.example in cell.comment.text
            assert cell.font.b is column.required
            assert ("Must be filled in." in cell.comment.text) is column.required
    height = heading_text(layout_of("pieces").column("height"), is_metric)
    assert height == ("Height (cm)" if is_metric else "Height (ft)")


def test_drop_downs_offer_every_choice(blank):
    book = openpyxl.load_workbook(blank[0])
    lists = book["Lists"]
    for layout in book_layouts():
        rules = {
            str(rule.sqref).split(":")[0]: rule.formula1 for rule in book[layout.name].data_validations.dataValidation
        }
        for number, column in enumerate(layout.columns, 1):
            row, place = (HEADING_ROW + number, 3) if layout.is_settings else (HEADING_ROW + 1, number)
            address = openpyxl.utils.get_column_letter(place) + str(row)
            if column.choices_from:
                assert layout_of(column.choices_from.split(".")[0]).name in rules[address]
            elif column.choices and column.choices != ("yes", "no"):
                letters, first, last = re.fullmatch(r"Lists!\$([A-Z]+)\$(\d+):\$\1\$(\d+)", rules[address]).groups()
                offered = [lists[f"{letters}{row}"].value for row in range(int(first), int(last) + 1)]
                assert tuple(offered) == column.choices


def test_the_same_bytes_twice(blank, tmp_path):
    again = make(tmp_path / "again.xlsx", blank[1])
    assert again.read_bytes() == blank[0].read_bytes()


def test_nothing_of_the_maker_is_in_it(blank):
    with zipfile.ZipFile(blank[0]) as parts:
        core = parts.read("docProps/core.xml").decode("utf-8")
    assert "<dc:creator></dc:creator>" in core and "2031-01-01" in core


def test_the_checked_in_blank_books_are_not_stale(tmp_path):
    for name, is_metric in (("blank book, feet and inches.xlsx", IN_FEET), ("blank book, metric.xlsx", METRIC)):
        make_blank_book(tmp_path / name, is_metric=is_metric)
        fresh, checked_in = (tmp_path / name).read_bytes(), (FOLDER / name).read_bytes()
        assert checked_in == fresh, "stale: run python tests/rebuild.py"


@pytest.mark.office
def test_office_software_opens_it_and_keeps_its_drop_downs(tmp_path):
    made = [make(tmp_path / f"{name}.xlsx", is_metric) for name, is_metric in (("feet", IN_FEET), ("metric", METRIC))]
    for before, after in zip(made, office.convert(made, "xlsx", tmp_path / "office"), strict=True):
        old, new = openpyxl.load_workbook(before), openpyxl.load_workbook(after)
        assert new.sheetnames == old.sheetnames
        for layout in book_layouts():
            was, now = old[layout.name], new[layout.name]
            # Run without a screen the software saves no frozen panes, so those are not compared here.
            assert len(now.data_validations.dataValidation) == len(was.data_validations.dataValidation)
            assert list(now.tables) == list(was.tables)
            for row in was.iter_rows(max_row=HEADING_ROW + 10):
                for cell in row:
                    assert now[cell.coordinate].value in (cell.value, cell.value or None), cell
        tables, problems = read(after)
        assert not problems
        assert {p.code for p in check_tables(tables, RUN_DATE).problems} == {"P310", "P487"}
