"""The client's file: its amounts, names, text, looks of numbers, and what it must not hold."""

from __future__ import annotations

import re
import zipfile
from dataclasses import replace
from decimal import Decimal

import openpyxl
import pytest
from modes import ORDER, quotes
from python_calamine import CalamineWorkbook
from quotes_made import SHOP, STACKED, quote
from sheets_made import party

from quoting.domain.quotes import Quote, ShopCard
from quoting.writing.quote_workbook import write_quote

NAMES = ("quote_number", "quote_subtotal", "quote_discount", "quote_tax", "quote_total", "quote_deposit")


def named(path, *, data_only=True):
    """Workbook name → value of its cell."""
    book = openpyxl.load_workbook(path, data_only=data_only)
    found = {}
    for name, defined in book.defined_names.items():
        ((sheet, cell),) = defined.destinations
        found[name] = book[sheet][cell].value
    return found


def money(value) -> Decimal:
    return Decimal(repr(value)) if isinstance(value, float) else Decimal(value)


@pytest.mark.parametrize("name", quotes())
def test_names_hold_the_amounts_that_were_worked_out(tmp_path, name):
    asked = quotes()[name]
    write_quote(tmp_path / "q.xlsx", asked)
    values = named(tmp_path / "q.xlsx")
    assert tuple(sorted(values)) == tuple(sorted(NAMES))
    assert values.pop("quote_number") == asked.number
    totals = asked.totals
    expected = {
        "quote_subtotal": totals.subtotal,
        "quote_discount": totals.discount,
        "quote_tax": totals.tax,
        "quote_total": totals.total,
        "quote_deposit": asked.terms.deposit,
    }
    assert {key: money(value) for key, value in values.items()} == expected


@pytest.mark.parametrize("name", quotes())
def test_a_second_library_reads_the_same_carried_values(tmp_path, name):
    """A previewer that computes nothing must show every amount."""
    asked = quotes()[name]
    write_quote(tmp_path / "q.xlsx", asked)
    rows = CalamineWorkbook.from_path(tmp_path / "q.xlsx").get_sheet_by_index(0).to_python(skip_empty_area=False)
    amounts = [Decimal(repr(row[4])) for row in rows if isinstance(row[4], float)]
    for line in asked.lines:
        assert line.amount in amounts
    for amount in (asked.totals.subtotal, asked.totals.total, asked.totals.payable, asked.terms.balance):
        assert amount in amounts


def formulas(path) -> dict[str, str]:
    sheet = openpyxl.load_workbook(path).worksheets[0]
    return {cell.coordinate: cell.value for row in sheet.iter_rows() for cell in row if cell.data_type == "f"}


@pytest.mark.parametrize(
    ("name", "live"),
    [
        # amounts of lines, subtotal, tax, what it is on, total, deposit, balance
        ("plain", 3 + 1 + 1 + 0 + 1 + 2),  # the tax is on a part of the subtotal, which is a plain value
        ("stacked", 3 + 1 + 3 + 3 + 2 + 1 + 1 + 2),
        ("vat included", 3 + 1 + 1 + 1 + 1 + 2),
        ("half down, one tax, False", 3 + 1 + 1 + 1 + 1 + 2),
        ("per line", 3 + 1 + 1 + 1 + 1 + 2),
    ],
)
def test_what_the_client_can_see_enough_of_is_live(tmp_path, name, live):
    write_quote(tmp_path / "q.xlsx", quotes()[name])
    found = formulas(tmp_path / "q.xlsx")
    assert len(found) == live, found


HOSTILE = (
    "=1+1",
    "@SUM(A1)",
    "+4",
    "-2+3",
    "http://a.example/x",
    "mailto:a@b.example",
    "internal:Quote!A1",
    "12,5",
    "{=1}",
)


def hostile(text: str) -> Quote:
    plain = quote(lines=((text, text, (text,), 1, "10.00", "goods"),), adjustments=[(text, True, None, "1.00")])
    card = ShopCard(**{key: text for key in ("name", "contact", "address", "email", "phone", "website", "tax_number")})
    texts = dict.fromkeys(
        ("client", "contact", "email", "phone", "event", "venue", "address", "exempt_reason", "notes"), text
    )
    return replace(plain, number=text, shop=card, cautions=(text,), **texts)


@pytest.mark.parametrize("text", HOSTILE)
def test_text_stays_text(tmp_path, text):
    write_quote(tmp_path / "q.xlsx", hostile(text))
    sheet = openpyxl.load_workbook(tmp_path / "q.xlsx").worksheets[0]
    cells = [cell for row in sheet.iter_rows() for cell in row if cell.value in {text, f"={text}"}]
    assert len(cells) >= 10
    assert all(cell.data_type == "s" and cell.hyperlink is None for cell in cells)
    with zipfile.ZipFile(tmp_path / "q.xlsx") as parts:
        assert not [name for name in parts.namelist() if "_rels/sheet" in name]  # no link leads anywhere


def test_odd_text_does_no_harm(tmp_path):
    """Signs that a cell, page foot, property or sheet name has rules of its own about."""
    odd = "\x00\x07&L&R&P[x]'*?:/\\<b>&amp; ]]> \ud800 \ufffe " + "𝔘😀אב\u202e" + "long " * 900
    asked = replace(
        hostile(odd), wording={**quote().wording, "quote_title": "A/B: [x]*?'" * 5, "page": "&P {page} % {pages}"}
    )
    write_quote(tmp_path / "q.xlsx", asked)
    sheet = openpyxl.load_workbook(tmp_path / "q.xlsx").worksheets[0]
    assert sheet.title == "A B x 'A B x 'A B x 'A B x 'A B"
    assert len(sheet.HeaderFooter.oddFooter.left.text or "") < 255
    assert max(d.height or 0 for d in sheet.row_dimensions.values()) <= 409


def test_braces_in_an_owners_words_are_only_filled_where_they_name_something(tmp_path):
    words = {**quote().wording, "acceptance_text": "Yes to {number} {unknown} {0} {", "thanks": "{}"}
    write_quote(tmp_path / "q.xlsx", replace(quote(), wording=words))
    texts = [c.value for row in openpyxl.load_workbook(tmp_path / "q.xlsx").worksheets[0].iter_rows() for c in row]
    assert "Yes to Q-0412 {unknown} {0} {" in texts
    assert "{}" in texts


def test_the_same_quote_gives_the_same_bytes(tmp_path):
    for name in "ab":
        write_quote(tmp_path / name, party().quote)
    assert (tmp_path / "a").read_bytes() == (tmp_path / "b").read_bytes()


def test_nothing_internal_is_in_any_part(tmp_path):
    sheet = party()
    told = replace(sheet, shop_notes="SECRET-NOTE")
    write_quote(tmp_path / "q.xlsx", told.quote)
    figures = [sheet.cost, sheet.margin, *(piece.cost for piece in sheet.pieces)]
    secrets = ["SECRET-NOTE", "Canal Street", "mind the gutter", "markup", "cost", "spare", "/tmp", "root"]
    secrets += [text for figure in figures for text in (str(figure), f"{figure:.2f}", f"{float(figure):.16g}")]
    with zipfile.ZipFile(tmp_path / "q.xlsx") as parts:
        names = parts.namelist()
        text = "\n".join(parts.read(name).decode("utf-8").casefold() for name in names)
    assert not [secret for secret in secrets if secret.casefold() in text]
    assert "Entrance arch".casefold() in text  # the search would find what is there
    assert not [name for name in names if "comment" in name or "external" in name or "sheet2" in name]
    assert 'state="hidden"' not in text and 'hidden="1"' not in text
    properties = re.findall(r"<dc:creator>(.*?)</dc:creator>", text)
    assert properties == [SHOP.name.casefold()]


def test_amounts_and_dates_look_as_the_currency_and_the_reader_need(tmp_path):
    write_quote(tmp_path / "q.xlsx", quotes()["stacked"])
    sheet = openpyxl.load_workbook(tmp_path / "q.xlsx").worksheets[0]
    formats = {cell.number_format for row in sheet.iter_rows() for cell in row if cell.value is not None}
    assert {"d mmmm yyyy", "d mmmm yyyy, hh:mm", '"due by "d mmmm yyyy'} <= formats
    assert '"$"#,##0.00;"−""$"#,##0.00;"$"0.00' in formats  # the total
    assert '"−"#,##0.00;#,##0.00;0.00' in formats  # a discount, kept as a positive amount
    assert '"on "#,##0.00;"on ""−"#,##0.00;"on "0.00' in formats  # what a tax is on
    write_quote(tmp_path / "y.xlsx", quotes()["yen"])
    sheet = openpyxl.load_workbook(tmp_path / "y.xlsx").worksheets[0]
    assert '"¥"#,##0;"−""¥"#,##0;"¥"0' in {cell.number_format for row in sheet.iter_rows() for cell in row}


def test_a_long_quote_repeats_its_headings_and_breaks_between_lines(tmp_path):
    lines = [(f"{n}", f"Column {n}", ("6 ft tall", "Ivory"), 1, "90.00", "goods") for n in range(1, 41)]
    write_quote(tmp_path / "q.xlsx", quote(lines=lines))
    sheet = openpyxl.load_workbook(tmp_path / "q.xlsx").worksheets[0]
    heading = next(cell.row for cell in sheet["B"] if cell.value == "Description")
    assert sheet.print_title_rows == f"${heading}:${heading}"
    breaks = [b.id for b in sheet.row_breaks.brk]
    assert len(breaks) >= 2
    titles = {cell.row for cell in sheet["B"] if str(cell.value).startswith("Column ")}
    assert all(row + 2 in titles or sheet.cell(row + 1, 2).value is None for row in breaks)
    assert not [row for row in breaks if row in titles]  # no page ends between a line and its details


def test_every_standard_phrase_of_the_quote_can_be_changed(tmp_path):
    """Nothing that the client reads is in the program: with every phrase a code, no other word is left."""
    codes = {key: f"<{number}>" for number, key in enumerate(quote().wording)}
    asked = quote(taxes=STACKED, adjustments=ORDER, hold="9.00", wording=codes, notes="own", cautions=("own",))
    write_quote(tmp_path / "q.xlsx", asked)
    sheet = openpyxl.load_workbook(tmp_path / "q.xlsx").worksheets[0]
    texts = {str(cell.value) for row in sheet.iter_rows() for cell in row if cell.data_type == "s"}
    own = {asked.client, asked.contact, asked.email, asked.phone, asked.event, asked.number, "own"}
    own |= {"Reading garden, 22 Alder Street, Fernhill", SHOP.name, SHOP.contact, "4 Millrace Yard, Fernhill"}
    own |= {f"{SHOP.phone} · {SHOP.email}", f"{SHOP.website} · {SHOP.tax_number}"}
    own |= {text for line in asked.lines for text in (line.label, line.title, "\n".join(line.details))}
    own |= {"Returning client, 7.5 %", "Weekday", "Rush, under 10 days, 8 %"}
    own |= {"State sales tax, 6.25 %", "County sales tax, 1.375 %", "City amusement tax, 2 %"}
    assert {text for text in texts - own if not re.fullmatch(r"<\d+>", text)} == set()
