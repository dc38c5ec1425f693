"""The good samples, worked out: every job quoted, to the amounts and counts that were checked in."""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace
from datetime import date, datetime, time
from decimal import Decimal
from hashlib import sha256
from html import unescape
from shutil import copytree
from zipfile import ZipFile

import openpyxl
import pytest
from golden import COMMAND, figures, kept
from scenes import GOOD, NAMES, RUN_DATE, SAMPLES, jobs_of, report_of

from quoting.batch import price_job, run_evening
from quoting.checking.books import check_tables
from quoting.checking.layouts import book_layouts
from quoting.reading.tables import read_tables
from quoting.reading.workbooks import read_book


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


TURNED = ("Jobs", "Pieces", "Balloons", "Hardware", "Labour", "Tax", "Adjustments")
HEADING_ROW = 4


def test_order_of_rows_changes_no_amount():
    """The rows of Pieces and of six other sheets upside down: the same amounts and counts."""
    book = read_book(SAMPLES / "dollars" / "quillbrook.xlsx").value
    turned = replace(book, sheets=tuple(_upside_down(s) if s.name in TURNED else s for s in book.sheets))
    checked = check_tables(read_tables(turned, book_layouts()).value, RUN_DATE)
    found = {job.code: price_job(job, checked.value.prices).value for job in checked.value.jobs}
    expected = jobs_of("dollars")
    assert sorted(found) == sorted(expected)
    for job, sheet in found.items():
        assert _unordered(figures(sheet)) == _unordered(figures(expected[job]))


def _unordered(told):
    return {key: sorted(value) if isinstance(value, list) else value for key, value in told.items()}


def _upside_down(sheet):
    body = [number for number in sorted(sheet.rows) if number > HEADING_ROW]
    rows = {
        to: {column: replace(cell, place=replace(cell.place, row=to)) for column, cell in sheet.rows[source].items()}
        for to, source in zip(body, reversed(body), strict=True)
    }
    return replace(sheet, rows={**sheet.rows, **rows})


@pytest.mark.parametrize("name", NAMES)
def test_another_run_gives_the_same_bytes_and_leaves_the_books_alone(name, evenings, tmp_path):
    """From a copy of the books elsewhere, so that no path can get into a file; the folder can't be written to."""
    books = tmp_path / "other place" / name
    copytree(SAMPLES / name, books)
    before = {p.name: (p.read_bytes(), p.stat().st_mtime_ns) for p in books.iterdir()}
    books.chmod(0o555)
    try:
        again = run_evening([books], tmp_path / "out", RUN_DATE)[1].folder
        once_more = run_evening([books], tmp_path / "out", RUN_DATE)[1] if name == "euros" else None
    finally:
        books.chmod(0o755)
    assert {p.name: (p.read_bytes(), p.stat().st_mtime_ns) for p in books.iterdir()} == before
    first = _digests(evenings[name])
    assert first == _digests(again)
    assert len(first) >= 3
    if once_more is not None:  # the same evening over again writes nothing new
        assert (once_more.is_unchanged, once_more.folder) == (True, again)
        assert list((tmp_path / "out").iterdir()) == [again]


def _digests(folder):
    files = [path for path in sorted(folder.rglob("*")) if path.is_file()]
    return {str(path.relative_to(folder)): sha256(path.read_bytes()).hexdigest() for path in files}


INTERNAL = (
    "wholesale", "Balloon depot", "Grossiste", "Northgate", "Hallam", "Gasworks", "third beam",
    "markup", "margin", "spares", "on hand", "Loading bay code", "porter",
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
            for word in (other.quote.client, other.quote.contact, other.quote.email, other.quote.phone)
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
        text = " ".join(parts.read(part).decode("utf-8", "replace") for part in parts.namelist())
    return unescape(text).replace("pageMargins", "")  # the only mention of margins that any page needs


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
