"""The good samples, worked out: every job quoted, to the amounts and counts that were checked in."""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from datetime import date, datetime, time
from decimal import Decimal
from hashlib import sha256
from shutil import copytree
from zipfile import ZipFile

import openpyxl
import pytest
from golden import COMMAND, figures, kept
from scenes import RUN_DATE, SAMPLES, jobs_of, report_of

GOOD = ("dollars", "euros")


@pytest.mark.parametrize("name", GOOD)
def test_every_job_is_quoted(name):
    report = report_of(name)
    held = [result.job for result in report.results if result.sheet is None]
    assert not held, [str(p) for p in report.problems]
    assert not [str(p) for p in report.problems if p.level != "note"]


@pytest.mark.parametrize("name", GOOD)
def test_amounts_and_counts_are_those_checked_in(name):
    found = {job: figures(sheet) for job, sheet in jobs_of(name).items()}
    before = kept(name)
    assert sorted(found) == sorted(before), f"run {COMMAND} and read the difference"
    for job, told in found.items():
        assert told == before[job], f"{job}: run {COMMAND} and read the difference"


@pytest.mark.parametrize("name", GOOD)
def test_printed_amounts_add_up(name):
    """By hand: lines to the subtotal, adjustments to the foot, taxes to the tax, deposit and balance to what is due."""
    for job, sheet in jobs_of(name).items():
        quote, totals = sheet.quote, sheet.quote.totals
        assert all(line.amount == line.unit_price * line.quantity for line in quote.lines), job
        assert sum(line.amount for line in quote.lines) == totals.subtotal, job
        assert sum(a.amount for a in quote.adjustments if a.is_discount) == totals.discount, job
        assert sum(a.amount for a in quote.adjustments if not a.is_discount) == totals.charges, job
        assert sum(tax.amount for tax in totals.taxes) == totals.tax, job
        on_top = 0 if totals.prices_include_tax else totals.tax
        assert totals.subtotal - totals.discount + totals.charges + on_top == totals.total, job
        assert totals.total + totals.cash_rounding == totals.payable, job
        assert quote.terms.deposit + quote.terms.balance == totals.payable, job
        assert all(amount == round(amount, 2) for amount in (totals.subtotal, totals.tax, totals.total, totals.payable))
        for piece in sheet.pieces:
            assert sum(piece.amounts.values()) == piece.amount, (job, piece.label)


def test_order_of_rows_changes_no_amount():
    """The rows of Pieces and Jobs upside down, and Balloons sorted the other way: the same figures."""
    from quoting.batch import _read_tables, _work_out_jobs
    from quoting.checking.books import check_tables
    from quoting.reading.workbooks import read_book

    book = read_book(SAMPLES / "dollars" / "quillbrook.xlsx").value
    turned = book.__class__(
        name=book.name, digest=book.digest, sheets=tuple(_upside_down(s) if s.name in TURNED else s for s in book.sheets)
    )
    checked = check_tables(_read_tables([turned]).value, RUN_DATE)
    results, _ = _work_out_jobs(checked.value, checked.problems, None)
    found = {result.job: figures(result.sheet) for result in results}
    expected = {job: figures(sheet) for job, sheet in jobs_of("dollars").items()}
    assert found.keys() == expected.keys()
    for job, told in found.items():
        assert told == expected[job]


TURNED = ("Jobs", "Pieces", "Balloons", "Hardware", "Labour")


def _upside_down(sheet):
    """The filled rows below the headings in the opposite order (the headings are the first row that fills its width)."""
    width = max(len(cells) for cells in sheet.rows.values())
    heading = next(number for number, cells in sorted(sheet.rows.items()) if len(cells) == width)
    body = [number for number in sorted(sheet.rows) if number > heading]
    swapped = dict(sheet.rows)
    for to, source in zip(body, reversed(body), strict=True):
        swapped[to] = {
            column: _moved(cell, to) for column, cell in sheet.rows[source].items()
        }
    return sheet.__class__(name=sheet.name, rows=swapped)


def _moved(cell, row):
    place = cell.place
    moved = place.__class__(workbook=place.workbook, sheet=place.sheet, row=row, column=place.column)
    values = {f.name: getattr(cell, f.name) for f in fields(cell)}
    return cell.__class__(**{**values, "place": moved})


@pytest.mark.parametrize("name", ["dollars", "euros", "faulty"])
def test_two_runs_give_the_same_bytes(name, evenings, tmp_path):
    """From a copy of the books elsewhere, so that no path can get into a file."""
    from quoting.batch import run_evening

    copytree(SAMPLES / name, tmp_path / "other place" / name)
    again = run_evening([tmp_path / "other place" / name], tmp_path / "out", RUN_DATE)[1].folder
    first = _digests(evenings[name])
    assert first == _digests(again)
    assert len(first) >= 3


def _digests(folder):
    return {str(p.relative_to(folder)): sha256(p.read_bytes()).hexdigest() for p in sorted(folder.rglob("*")) if p.is_file()}


@pytest.mark.parametrize("name", ["dollars", "euros", "faulty"])
def test_the_owners_files_are_left_alone(name, tmp_path):
    from quoting.batch import run_evening

    books = tmp_path / "books"
    copytree(SAMPLES / name, books)
    before = {p.name: (p.read_bytes(), p.stat().st_mtime_ns) for p in books.iterdir()}
    books.chmod(0o555)
    try:
        run_evening([books], tmp_path / "out", RUN_DATE)
    finally:
        books.chmod(0o755)
    assert {p.name: (p.read_bytes(), p.stat().st_mtime_ns) for p in books.iterdir()} == before


def test_a_second_run_of_the_same_evening_writes_nothing_new(tmp_path):
    from quoting.batch import run_evening

    first = run_evening([SAMPLES / "euros"], tmp_path, RUN_DATE)[1]
    second = run_evening([SAMPLES / "euros"], tmp_path, RUN_DATE)[1]
    assert (first.is_unchanged, second.is_unchanged) == (False, True)
    assert second.folder == first.folder
    assert [p.name for p in tmp_path.iterdir()] == [first.folder.name]


INTERNAL = (
    "wholesale", "Balloon depot", "Grossiste", "markup", "margin", "spares", "on hand", "Loading bay code", "porter",
    "no shade after noon", "out of reach", "Take the spare set", "Workings", "breakage", "/tmp", "/root", "pytest",
)
"""Words of the price sheets, of the notes for the shop and of this machine; no phrase for clients has them."""


@pytest.mark.parametrize("name", GOOD)
def test_the_clients_file_leaks_nothing(name, evenings):
    sheets = jobs_of(name)
    files = sorted((evenings[name] / "quotes").glob("*.xlsx"))
    assert len(files) == len(sheets)
    seen = set()
    for file in files:
        job, sheet = next((j, s) for j, s in sheets.items() if _quote_number(file) == s.quote.number)
        seen.add(job)
        text = _all_text(file)
        others = {
            word
            for other in sheets.values()
            for word in (other.quote.client, other.quote.contact, other.quote.email, other.quote.phone, other.quote.venue)
            if word and word not in str(sheet.quote)
        }
        assert not [word for word in (*INTERNAL, *others) if word.casefold() in text.casefold()], file.name
        if sheet.shop_notes:
            assert sheet.shop_notes not in text
        book = openpyxl.load_workbook(file, data_only=True)
        assert all(each.sheet_state == "visible" for each in book.worksheets)
        allowed = {round(float(number), 9) for number in _numbers(sheet.quote)}
        strange = [
            (cell.coordinate, cell.value)
            for each in book.worksheets
            for row in each.iter_rows()
            for cell in row
            if isinstance(cell.value, (int, float)) and round(float(cell.value), 9) not in allowed
        ]
        assert not strange, (file.name, strange)
    assert seen == set(sheets)


def _quote_number(file):
    book = openpyxl.load_workbook(file, data_only=True)
    sheet, cell = book.defined_names["quote_number"].attr_text.replace("$", "").replace("'", "").split("!")
    return str(book[sheet][cell].value)


def _all_text(file):
    with ZipFile(file) as parts:
        assert not [part for part in parts.namelist() if "external" in part.lower() or "vba" in part.lower()]
        return " ".join(parts.read(part).decode("utf-8", "replace") for part in parts.namelist())


def _numbers(value):
    """Every number of a quote, and those that its own foot makes of them."""
    if isinstance(value, bool) or value is None or isinstance(value, (date, datetime, time, str)):
        return
    if isinstance(value, (int, Decimal)):
        yield value
        yield -value
    elif is_dataclass(value):
        for field in fields(value):
            yield from _numbers(getattr(value, field.name))
        if hasattr(value, "deposit_share"):
            yield 1 - value.deposit_share
        if hasattr(value, "subtotal"):
            yield value.subtotal - value.discount
            yield value.subtotal - value.discount + value.charges
            yield value.total - value.tax
    elif isinstance(value, tuple):
        for each in value:
            yield from _numbers(each)
