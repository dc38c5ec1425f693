"""What client and crew stumbled over on paper: totals parted from lines, 0.00, gaps, prices among the crew's sheets."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date
from decimal import Decimal
from io import BytesIO
from itertools import pairwise

import openpyxl
import pytest
from quotes_made import SMALL, quote
from sheets_made import party, sheet
from xlsxwriter import Workbook

from quoting.domain.plans import BuildStep, Outline, Part
from quoting.writing.front_page import size_words
from quoting.writing.inks import Inks
from quoting.writing.pages import Page
from quoting.writing.pictures.job_pictures import JobPictures, Picture
from quoting.writing.quote_pictures import fitting_pictures
from quoting.writing.quote_workbook import write_quote
from quoting.writing.text_heights import line_count, row_height, with_line_ends
from quoting.writing.workshop_workbook import write_workshop


def written(path, asked):
    write_quote(path / "q.xlsx", asked)
    return openpyxl.load_workbook(path / "q.xlsx").worksheets[0]


def texts(sheet) -> list[str]:
    return [cell.value for row in sheet.iter_rows() for cell in row if isinstance(cell.value, str)]


# --- the quote ------------------------------------------------------------------------------


@pytest.mark.parametrize("count", range(14, 34, 2))
def test_no_page_ends_between_the_last_line_and_the_total(tmp_path, count):
    lines = [(f"{n}", f"Column {n}", ("6 ft tall",), 1, "90.00", "goods") for n in range(1, count + 1)]
    made = written(tmp_path, quote(lines=lines, paper="Letter"))
    row_of = {cell.value: cell.row for row in made.iter_rows() for cell in row if isinstance(cell.value, str)}
    last, total = row_of[f"Column {count}"], row_of["Total"]
    breaks = [mark.id for mark in made.row_breaks.brk]  # a page ends below this row
    assert not [row for row in breaks if last - 1 <= row < total]


class Drawn(JobPictures):
    """Pictures that are asked for, but not drawn."""

    __slots__ = ()

    def for_quote(self, height_px):
        return self.room(height_px)

    def room(self, height_px):
        return {"A": Picture(png=b"", text="", width_px=400, height_px=height_px)}


def heights_taken(rows_before: int, rows_after: int) -> int:
    """Height of the picture on a page of so many rows of 10 points before it, with totals and terms after it."""

    def write(page, pictures):
        def rows(count):
            for _ in range(count):
                page.begin_block()
                page.end_row(10)

        rows(rows_before)
        page.begin_block()
        page.end_row(pictures["A"].height_px * 0.355)
        page.begin_block()
        begins = page.row
        page.end_row(15)  # the last line
        page.end_row(100)  # totals
        together = range(begins, page.row + 1)
        page.begin_block()
        page.end_row(40)  # payments
        rows(rows_after)
        return together

    asked = Drawn(pieces={"A": ("Arch", party().pieces[0].plan)}, looks={}, unit="in")
    trial = Page(Workbook(BytesIO(), {"in_memory": True}).add_worksheet(), Inks(Workbook(BytesIO())), (600,))
    assert trial.row == 0
    return fitting_pictures(asked, write, (600,), "A4")["A"].height_px


def test_pictures_give_way_so_that_the_totals_stand_with_the_lines():
    assert heights_taken(10, 80) == 400  # everything but the terms goes on the first page
    assert heights_taken(46, 80) == 330  # lower pictures keep totals and payments there
    assert heights_taken(50, 80) == 200
    assert heights_taken(64, 80) == 400  # no height would: the picture is as high as ever


def test_a_delivery_that_costs_nothing_is_not_an_amount(tmp_path):
    lines = (*SMALL[:2], ("", "Delivery and collection", (), 1, "0.00", "labour"))
    made = written(tmp_path, quote(lines=lines))
    row = next(cell.row for cell in made["B"] if cell.value == "Delivery and collection")
    assert made.cell(row, 5).value == f"=C{row}*D{row}"
    assert made.cell(row, 5).number_format.split(";")[2] == '"included"'
    assert made.cell(row, 4).number_format.split(";")[2] == ""
    charged = written(tmp_path, quote())
    assert "included" not in "".join(cell.number_format for cell in charged["E"])


def test_deposit_and_balance_due_on_one_day_are_one_line(tmp_path):
    plain = quote(hold="25.00")
    day = plain.terms.balance_due
    asked = replace(plain, terms=replace(plain.terms, deposit_due=day))
    made = written(tmp_path, asked)
    found = texts(made)
    assert "Payable in full" in found and not [t for t in found if t.startswith(("Deposit", "Balance"))]
    row = next(cell.row for cell in made["A"] if cell.value == "Payable in full")
    assert made.cell(row, 3).value.date() == day and "due by" in made.cell(row, 3).number_format
    assert "Refundable damage hold on hired items" in found
    book = openpyxl.load_workbook(tmp_path / "q.xlsx", data_only=True)
    cell = book.worksheets[0][book.defined_names["quote_deposit"].attr_text.partition("!")[2].replace("$", "")]
    assert Decimal(str(cell.value)) == asked.terms.deposit and cell.number_format == ";;;"
    assert "Payable in full" not in texts(written(tmp_path, plain))


def terms_read(tmp_path, **changes) -> str:
    found = texts(written(tmp_path, quote(**changes)))
    return " ".join(" ".join(found[found.index("Terms") : found.index("Acceptance")]).split())


def test_terms_are_those_that_concern_the_client(tmp_path):
    delivered, collected = terms_read(tmp_path), terms_read(tmp_path, is_collected=True, has_hire=False)
    assert "clear access" in delivered and "take it down" in delivered and "Hired items" in delivered
    assert "clear access" not in collected and "take it down" not in collected and "Hired items" not in collected
    assert "fetch everything" in collected and "fetch everything" not in delivered
    for words in (delivered, collected):
        assert "reserved once the deposit is paid" in words and "natural product" in words


def test_terms_of_an_older_book_stand_alone(tmp_path):
    own = {**quote().wording, "terms_text": "Our own terms.\nIn two lines."}
    assert terms_read(tmp_path, wording=own) == "Terms Our own terms. In two lines."


def test_paragraphs_have_even_gaps_whatever_the_columns_come_to(tmp_path):
    """Each row is as high as its text has ends of line: nothing is left to how office software wraps it."""
    made = written(tmp_path, quote())
    rows = {cell.row: cell.value for cell in made["A"] if isinstance(cell.value, str)}
    start = next(row for row, text in rows.items() if text == "Please note")
    small = {row: text for row, text in rows.items() if row > start and made.cell(row, 1).font.size == 8}
    assert len(small) >= 6 and any("\n" in text for text in small.values())
    for row, text in small.items():
        assert made.row_dimensions[row].height == pytest.approx(row_height(text.count("\n") + 1, 8, padding=2), abs=0.5)


def test_line_ends_keep_every_word_and_the_count_of_lines():
    text = quote().cautions[1] + "\n" + "x" * 300 + " end"
    for width in (120, 300, 633):
        ended = with_line_ends(text, width, 8)
        assert ended.split() == text.split()
        assert 0 <= line_count(ended, width, 8) - line_count(text, width, 8) <= 1  # a broken word's end stands alone
    assert with_line_ends("short", 300, 8) == "short"


# --- the workshop sheet ------------------------------------------------------------------------


def test_a_side_of_nothing_is_left_out():
    flat = Outline(width_cm=426.72, height_cm=0, depth_cm=30, longest_rigid_cm=0, packed_volume_l=1, mass_g=1)
    assert size_words(flat, "in") == "14 ft wide"
    assert size_words(replace(flat, width_cm=0, height_cm=61), "cm") == "61 cm tall"
    assert size_words(replace(flat, width_cm=0), "in") == size_words(None, "in") == ""
    assert size_words(replace(flat, height_cm=61), "cm") == "4.27 m wide\n61 cm tall"


@pytest.fixture(scope="module")
def workshop(tmp_path_factory):
    path = tmp_path_factory.mktemp("people") / "w.xlsx"
    write_workshop(path, party())
    return openpyxl.load_workbook(path)


def test_prices_come_last_and_say_on_every_page_that_they_are_not_the_crews(workshop):
    *crew, prices = workshop.worksheets
    assert prices.title == "Prices (shop only)"
    assert "not for the crew" in prices.oddHeader.center.text
    assert not any("not for the crew" in (page.oddHeader.center.text or "") for page in crew)


def test_both_workings_say_that_the_other_sheets_stay_as_quoted(workshop):
    for name in ("Workings", "Prices (shop only)"):
        assert "the other sheets stay as quoted" in workshop[name]["A2"].value


def test_pieces_go_by_their_labels_in_the_workings(workshop):
    labels = [str(cell.value) for name in ("Workings", "Prices (shop only)") for cell in workshop[name]["A"]]
    assert not [label for label in labels if re.search(r"\bpiece \d", label, re.IGNORECASE)]
    assert any(label.startswith("Piece B: exact share of goods") for label in labels)


def build_table(steps, tmp_path):
    made = party()
    piece = replace(made.pieces[0], plan=replace(made.pieces[0].plan, build_order=steps))
    write_workshop(tmp_path / "b.xlsx", replace(made, pieces=(piece,)))
    rows = [[cell.value for cell in row] for row in openpyxl.load_workbook(tmp_path / "b.xlsx")["Build A"].iter_rows()]
    at = next(number for number, row in enumerate(rows) if row[1] == "Step")
    return rows[at], rows[at + 1 : at + 1 + len(steps)]


def test_what_a_step_says_already_is_not_said_again(tmp_path):
    pole = Part(item="Pole 8 ft", count=1, role="pole")
    foils = Part(item="Foil star", count=3, role="accent", fill_cm=40.0)
    stand = BuildStep(number=1, text="Stand: Pole 8 ft, cut to 7 ft", parts=(pole,))
    accents = BuildStep(number=2, text="Accents, tied on: 3 × Foil star", parts=(foils,))
    heads, rows = build_table((stand, accents), tmp_path)
    assert "In all" not in heads and [row[2] for row in rows] == [stand.text, accents.text]
    rings = BuildStep(number=3, text="Rings 1–3, each: 4 × Round", parts=(Part(item="Round", count=12, role="ring"),))
    heads, rows = build_table((stand, accents, rings), tmp_path)
    assert heads[5] == "In all" and [row[5] for row in rows] == [None, None, "12 × Round"]


def page_of(rows: int, *, is_even: bool) -> list[int]:
    """Row counts of the printed pages of a sheet of so many rows of 12 points."""
    made = BytesIO()
    with Workbook(made, {"in_memory": True}) as book:
        page = Page(book.add_worksheet(), Inks(book), (600,))
        for _ in range(rows):
            page.begin_block()
            page.end_row(12)
        page.set_paper("A4", foot="", least_scale=1.0, is_even=is_even)
    marks = [0, *(mark.id for mark in openpyxl.load_workbook(made).worksheets[0].row_breaks.brk), rows]
    return [end - start for start, end in pairwise(marks)]


def test_no_page_of_the_crews_has_a_line_or_two_alone():
    full = page_of(300, is_even=False)[0]
    assert page_of(2 * full + 2, is_even=False) == [full, full, 2]
    even = page_of(2 * full + 2, is_even=True)
    assert len(even) == 3 and max(even) - min(even) <= 2
    assert page_of(3 * full - 4, is_even=True) == [full, full, full - 4]


def test_a_collected_job_reads_the_terms_for_it():
    asked = sheet(is_collected=True, event_date=date(2031, 6, 14))
    assert asked.quote.is_collected and not sheet().quote.is_collected
