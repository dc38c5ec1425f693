"""The summary: what stands on each sheet, sorted, filtered, linked."""

from __future__ import annotations

import re
import zipfile
from dataclasses import replace
from datetime import date, datetime
from decimal import Decimal
from urllib.parse import unquote
from xml.sax.saxutils import escape

import openpyxl
import pytest
from evenings_made import report
from python_calamine import CalamineWorkbook

from quoting.writing.file_names import job_files, order_files
from quoting.writing.order_workbook import write_order
from quoting.writing.summary_workbook import write_summary


@pytest.fixture(scope="module")
def path(tmp_path_factory):
    path = tmp_path_factory.mktemp("summary") / "summary.xlsx"
    write_summary(path, report())
    return path


def rows(path, name):
    """Rows below the headings, as a second library reads them."""
    return CalamineWorkbook.from_path(path).get_sheet_by_name(name).to_python(skip_empty_area=False)[3:]


def test_jobs_stand_by_event_date_with_their_money(path):
    found = rows(path, "Jobs")
    assert [row[1] for row in found[:-1]] == ["0413", "0415", "0412", "0414", "0416"]
    assert [row[0] for row in found[:-1]] == ["quoted with notes", "held", "quoted", "quoted", "held"]
    quoted = {sheet.job: sheet.quote for sheet in report().sheets}
    for row in found[:-1]:
        if row[1] in quoted:
            assert Decimal(repr(row[7])) == quoted[row[1]].totals.total
            assert row[3] in (
                quoted[row[1]].event_date,
                datetime.combine(quoted[row[1]].event_date, datetime.min.time()),
            )
    assert Decimal(repr(round(found[-1][7], 2))) == sum(q.totals.total for q in quoted.values())
    assert openpyxl.load_workbook(path)["Jobs"]["H9"].value == "=SUM(H4:H8)"


def test_links_lead_to_the_files_beside_the_summary(path):
    names = {f for files in job_files(report().results).values() for f in (files.quote, files.workshop)}
    with zipfile.ZipFile(path) as parts:
        relations = parts.read("xl/worksheets/_rels/sheet1.xml.rels").decode()
    targets = set(re.findall(r'Target="([^"]+)"[^>]*External', relations))
    # The file format has backslashes in links to files beside it; office software reads them everywhere.
    assert {unquote(t.replace("&amp;", "&")).replace("\\", "/") for t in targets} == names
    assert not [t for t in targets if "#" in t or " " in t]


def test_held_jobs_name_the_cell_to_mend(path):
    found = rows(path, "Held")
    assert [(row[0], row[4], row[5], row[8]) for row in found] == [
        ("0415", "Pieces", "G7", "P204"),
        ("0416", "Jobs", "2:2", "P302"),
    ]


def test_a_job_held_by_the_price_sheets_is_listed_too(tmp_path):
    told = report()
    write_summary(tmp_path / "s.xlsx", replace(told, problems=()))
    assert [row[0] for row in rows(tmp_path / "s.xlsx", "Held")] == ["0415", "0416"]


def test_what_to_buy_is_said_in_packs_and_summed(path):
    found = rows(path, "Buying")
    assert found[1][:6] == ["round 5 coral", 12.0, 40.0, "none: on hand", 0.0, ""]
    assert found[0][:6] == [
        "Round 11 sage",
        142.0,
        25.0,
        "1 × 100, 1 × 25",
        125.0,
        "Canal Street Wholesale, Mill Lane Supplies",
    ]
    assert found[2][6] == 14.5


def test_days_and_money_are_by_date(path):
    days = rows(path, "Days")
    assert [row[0] for row in days[:-1]] == [day.day for day in report().days]
    assert days[-1][1] == pytest.approx(sum(float(sheet.hours.workshop) for sheet in report().sheets))
    assert days[-1][2] == pytest.approx(sum(float(sheet.hours.venue) for sheet in report().sheets))
    assert [row[7] == "overbooked" for row in days[:-1]] == [day.is_overbooked for day in report().days]
    assert {row[7] for row in days[:-1]} == {"overbooked", ""}
    install = next(row for row in days if row[0] == date(2031, 6, 14))
    assert "0412 Fernhill Library: " in install[8] and " people" in install[8]
    due = rows(path, "Money")
    assert [row[0] for row in due[:-1]] == sorted(row[0] for row in due[:-1])
    assert due[-1][4] == pytest.approx(float(sum(s.quote.totals.payable for s in report().sheets)))


def test_every_problem_is_listed(path):
    assert [row[-1] for row in rows(path, "Problems")] == ["P101", "P302", "P204", "P535"]


def test_lists_are_frozen_filtered_and_print_one_page_wide(path):
    for sheet in openpyxl.load_workbook(path).worksheets:
        if sheet.title in ("Charts", "Days chart"):
            continue
        assert sheet.freeze_panes == "A4"
        assert sheet.auto_filter.ref.startswith("A3:")
        assert sheet.print_title_rows == "$3:$3"
        assert (sheet.page_setup.fitToWidth or 1, sheet.page_setup.fitToHeight) == (1, 0)
        assert sheet.page_setup.orientation == "landscape"


def test_text_stays_text_and_bytes_repeat(path, tmp_path):
    cell = openpyxl.load_workbook(path)["Jobs"]["C4"]
    assert (cell.value, cell.data_type) == ("=Orchard & Sons", "s")
    write_summary(tmp_path / "again.xlsx", report())
    assert (tmp_path / "again.xlsx").read_bytes() == path.read_bytes()


def test_an_evening_without_anything_gives_sheets_that_say_so(tmp_path):
    told = replace(report(), results=(), problems=(), buying=(), purchase=None, books=(), days=())
    write_summary(tmp_path / "s.xlsx", told)
    book = openpyxl.load_workbook(tmp_path / "s.xlsx")
    assert [sheet["A2"].value for sheet in book.worksheets] == [
        "No jobs were found in the books.",
        "No job is held.",
        "Nothing has to be bought.",
        "Nothing has to be ordered.",
        "Nothing has to be bought.",
        "There is no stock, and none is bought.",
        "No stock is left.",
        "Nothing is promised twice, and everything can be there in time.",
        "No job is quoted.",
        "No job is quoted.",
        "Nothing is wrong.",
    ]


def test_orders_stock_money_and_clashes_have_a_sheet_each(path):
    orders = rows(path, "Orders")
    assert [row[0] for row in orders[:2]] == ["Canal Street Wholesale", "Mill: Lane/Supplies"]
    assert [row[4] for row in orders] == [113.9, 3.1, 117.0]
    assert orders[1][8] == "below their minimum: they have no more packs"
    shares = rows(path, "Cost by job")
    assert (shares[-1][4], [row[0] for row in shares[:3]]) == (117.0, ["0412", "0413", "0414"])
    assert rows(path, "Stock after")[1] == ["Round 11 sage", 25.0, 125.0, 142.0, "", 8.0]
    assert rows(path, "Money tied up")[0] == ["Round 11 sage", 8.0, 0.114, 0.91]
    clash, short = rows(path, "Clashes")
    assert clash[0] == "Arch frame" and clash[2:] == ["14 Jun 2031 to 15 Jun 2031", 3.0, 2.0, 1.0, "0412 (1), 0414 (2)"]
    assert short[:3] == ["Round 36 ivory", "comes 2 Jun 2031", "by 29 May 2031"] and short[5:] == [2.0, "0413"]
    assert rows(path, "Helium")[0][:4] == ["Cylinder 50", 1.0, 9000.0, "hire"]


def test_charts_are_native_and_draw_from_the_lists(path):
    with zipfile.ZipFile(path) as parts:
        charts = [parts.read(name).decode() for name in parts.namelist() if name.startswith("xl/charts/chart")]
    assert [sorted(set(re.findall(r"<c:f>(.*?)!", chart))) for chart in charts] == [
        ["Orders"], ["'Cost by job'"], ["'Money tied up'"], ["Days"],
    ]


def test_an_order_is_ready_to_be_sent_and_names_no_client_or_price_charged(tmp_path):
    told = report()
    files = order_files(told.purchase.orders)
    assert list(files.values()) == ["orders/Canal Street Wholesale.xlsx", "orders/Mill- Lane-Supplies.xlsx"]
    write_order(tmp_path / "o.xlsx", told.purchase.orders[0], told)
    found = rows(tmp_path / "o.xlsx", "Order")
    assert [row[:6] for row in found[:2]] == [
        ["Cylinder 50", "", "9000 litres", 1, 95.0, 95.0], ["Round 11 sage", "L2207", "100", 1, 11.4, 11.4],
    ]
    assert [(row[4], row[5]) for row in found[2:]] == [("Goods", 106.4), ("Delivery", 7.5), ("Total", 113.9)]
    with zipfile.ZipFile(tmp_path / "o.xlsx") as parts:
        text = "".join(parts.read(name).decode("utf-8", "replace") for name in parts.namelist())
    assert not [result.client for result in told.results if result.client and escape(result.client) in text]
    numbers = set(re.findall(r"<v>([\d.]+)</v>", text))
    charged = {f"{float(amount):g}" for s in told.sheets for amount in (s.quote.totals.total, s.quote.totals.subtotal)}
    assert "106.4" in numbers and not numbers & charged
