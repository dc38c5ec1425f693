"""The crew's day on the workshop sheet, and what is priced beside the total on the client's quote."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, time
from decimal import Decimal

import openpyxl
import pytest
from quotes_made import quote
from sheets_made import party

from quoting.domain.crews import Loads, PlanStep, RatedHours, Visit
from quoting.domain.quotes import QuoteOption
from quoting.writing.day_block import visit_words
from quoting.writing.quote_workbook import write_quote
from quoting.writing.workshop_workbook import write_workshop

D = Decimal
DAY = date(2031, 6, 14)


def at(hour, minute, day=14):
    return datetime.combine(date(2031, 6, day), time(hour, minute))


NIGHT = Visit(
    kind="strike", day=DAY, crew=2, needs_two=True, work_hours=D("0.9"), billed_hours=D(2), travel_hours=D(1),
    rated=(RatedHours(name="", factor=D(1), hours=D("0.4")), RatedHours(name="Night", factor=D("1.5"), hours=D("0.5"))),
    steps=(
        PlanStep(what="Drive out", minutes=D(30), start=at(23, 15), end=at(23, 45)),
        PlanStep(what="Strike", minutes=D(27), start=at(23, 45), end=at(0, 12, 15)),
    ),
)  # fmt: skip
UNKNOWN = replace(NIGHT, kind="install", rated=(), steps=(PlanStep(what="Build", minutes=D(90)),))


def test_the_crews_day_stands_on_the_front_page(tmp_path):
    loads = Loads(van="Box van", count=2, litres=9000.0, longest_cm=300.0)
    sheet = replace(party(), visits=(UNKNOWN, NIGHT), loads=loads)
    write_workshop(tmp_path / "w.xlsx", sheet)
    page = openpyxl.load_workbook(tmp_path / "w.xlsx")["Workshop"]
    rows = [[cell.value for cell in row if cell.value is not None] for row in page.iter_rows()]
    assert ["Strike, Sat 14 June 2031"] in rows and ["Install, Sat 14 June 2031"] in rows
    assert ["23:15", "23:45", "Drive out", 2, 30] in rows
    assert ["23:45", "00:12 15 Jun", "Strike", 2, 27] in rows
    assert ["not set", "not set", "Build", 2, 90] in rows
    assert any(row[:1] == ["At the venue, set-up and strike included"] and row[1] == pytest.approx(1.8) for row in rows)


def test_the_words_say_who_goes_in_what_and_which_hours_cost_more():
    loads = Loads(van="Box van", count=2, litres=9000.0, longest_cm=300.0)
    assert visit_words(NIGHT, loads) == (
        "2 people, 0.9 h of work at the venue in all; two at the least: ladder, lift or something over 2 m high or "
        "3 m wide; 2 loads in Box van; 0.5 h at 150 % (Night); counted as 2.00 h."
    )
    alone = replace(NIGHT, crew=1, needs_two=False, rated=(), billed_hours=D("0.9"))
    assert visit_words(alone, Loads(van="", count=1, litres=0, longest_cm=0)) == (
        "1 person, 0.9 h of work at the venue in all."
    )


OPTIONS = (
    QuoteOption(group="Door", label="C", instead_of="A", title="Two columns", details=("6 ft tall",), quantity=2,
                unit_price=D("118.75"), amount=D("237.50"), total=D("512.10")),
    QuoteOption(group="", label="D", instead_of="", title="=Garland", details=(), quantity=1,
                unit_price=D("90.00"), amount=D("90.00"), total=D("803.42")),
)  # fmt: skip


def test_choices_stand_apart_from_the_lines_with_the_total_of_each(tmp_path):
    plain = quote()
    write_quote(tmp_path / "q.xlsx", replace(plain, options=OPTIONS))
    page = openpyxl.load_workbook(tmp_path / "q.xlsx").worksheets[0]
    rows = [[cell.value for cell in row] for row in page.iter_rows(max_col=5)]
    texts = [row[0] or row[1] for row in rows]
    start = texts.index("Your choices")
    assert start > texts.index(plain.lines[-1].title)
    first = next(n for n, row in enumerate(rows) if row[0] == "C")
    assert first > start
    assert rows[first][1:4] == ["Two columns", 2, 118.75] and rows[first][4] == f"=C{first + 1}*D{first + 1}"
    told = [row[1] for row in rows]
    assert "instead of A: $512.10 in total" in told and "in addition: $803.42 in total" in told
    garland = next(cell for row in page.iter_rows() for cell in row if cell.value == "=Garland")
    assert garland.data_type == "s"


def test_a_quote_without_choices_has_no_such_part(tmp_path):
    write_quote(tmp_path / "q.xlsx", quote())
    page = openpyxl.load_workbook(tmp_path / "q.xlsx").worksheets[0]
    assert "Your choices" not in {cell.value for row in page.iter_rows() for cell in row}
