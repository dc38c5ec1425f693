"""Books as owners change them: headings renamed, a copy left beside its book, example prices kept.

The books go through reading and checking as cells, so that headings count.
"""

from __future__ import annotations

from datetime import date, time
from decimal import Decimal

import pytest
from rows_made import RUN_DATE, good_book, tables

from quoting.checking.books import check_tables
from quoting.checking.examples import example_notes
from quoting.checking.layouts import book_layouts, layout_of
from quoting.domain.cells import Book, Cell, Kind, Sheet
from quoting.domain.places import Place
from quoting.domain.problems import Level
from quoting.reading.tables import read_tables

HEADINGS, FIRST = 4, 5


def sheet_of(workbook, table, renamed, left_out):
    """A sheet of cells from a table: numbers, dates and texts as a workbook has them; `renamed` headings by key."""
    layout = layout_of(table.sheet_key)
    place = Place(workbook=workbook, sheet=layout.name)
    rows = {}

    def put(row, column, value):
        here = Place(workbook=place.workbook, sheet=place.sheet, row=row, column=column)
        rows.setdefault(row, {})[column] = Cell(place=here, value=value)

    if layout.is_settings:
        put(3, 1, "Setting"), put(3, 2, "Value")
        for number, column in enumerate(layout.columns, 4):
            if column.key not in left_out:
                put(number, 1, renamed.get(column.key, column.heading))
                if column.key in table.rows[0].values:
                    put(number, 2, plain(table.rows[0].get(column.key), column))
        return Sheet(name=layout.name, rows=rows)
    for number, column in enumerate(layout.columns, 1):
        if column.key in left_out:
            continue
        unit = f" ({'cm' if column.units[1] == 'cm' else column.units[1]})" if column.units else ""
        put(HEADINGS, number, renamed.get(column.key, column.heading + unit))
        for row in table.rows:
            if column.key in row.values:
                put(row.place.row, number, plain(row.get(column.key), column))
    return Sheet(name=layout.name, rows=dict(sorted(rows.items())))


def plain(value, column):
    """A typed value as an owner would type it."""
    if column.kind is Kind.PERCENT:
        return f"{value * 100} %"
    if column.kind is Kind.AMOUNTS:
        return ", ".join(f"{count} x {name}" for count, name in value)
    if isinstance(value, tuple):
        return ", ".join(str(one) for one in value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    return value if isinstance(value, (int, Decimal, date, time)) else str(value)


def worked(book, renamed=(), left_out=(), extra=()):
    """What reading and checking make of a book with headings renamed: (problems, Checked)."""
    headings = {(sheet, key): heading for sheet, key, heading in renamed}
    sheets = []
    for table in tables(book):
        own = {key: heading for (sheet, key), heading in headings.items() if sheet == table.sheet_key}
        gone = {key for sheet, key in left_out if sheet == table.sheet_key}
        sheets.append(sheet_of("book.xlsx", table, own, gone))
    for sheet_key, column, values in extra:
        name = layout_of(sheet_key).name
        rows = next(sheet for sheet in sheets if sheet.name == name).rows
        for row, value in zip((HEADINGS, FIRST, FIRST + 1, FIRST + 2), values, strict=False):
            here = Place(workbook="book.xlsx", sheet=name, row=row, column=column)
            rows[row][column] = Cell(place=here, value=value)
    read = read_tables(Book(name="book.xlsx", digest="", sheets=tuple(sheets)), book_layouts())
    checked = check_tables(read.value, RUN_DATE)
    return (*read.problems, *checked.problems), checked.value


def said(problems):
    return sorted({(f"{p.place.sheet}!{p.place.cell}", p.code) for p in problems})


def held(checked):
    quoted = {job.code for job in checked.jobs} if checked.prices else set()
    return sorted({entry.code for entry in checked.entries} - quoted)


def at(sheet_key, key, row):
    number = [column.key for column in layout_of(sheet_key).columns].index(key) + 1
    place = Place(workbook="", sheet=layout_of(sheet_key).name, row=row, column=number)
    return f"{place.sheet}!{place.cell}"


def full_book():
    """The good book with the optional columns in use that these tests rename."""
    book = good_book()
    book["pieces"][0] |= {"quantity": 2, "accents": [[3, "Foil star gold"]]}
    book["jobs"][1]["exempt_reason"] = "charity, certificate 1"
    book["balloons"][2]["sell_each"] = "0.9"
    return book


def test_the_book_of_these_tests_is_good():
    problems, checked = worked(full_book())
    assert (said(problems), held(checked)) == ([], [])
    assert checked.jobs[0].pieces[0].quantity == 2


@pytest.mark.parametrize("heading", ["Qty", "QTY", "quantity", "Quantity (pieces)"])
def test_a_heading_known_by_another_name_is_read(heading):
    problems, checked = worked(full_book(), [("pieces", "quantity", heading)])
    assert said(problems) == []
    assert checked.jobs[0].pieces[0].quantity == 2


# sheet, column, heading typed, filled row, jobs held
RENAMED = [
    ("pieces", "quantity", "How many", 5, ["0412", "0413"]),
    ("pieces", "quantity", "Quantities", 7, ["0412", "0413"]),
    ("pieces", "accents", "Extras", 5, ["0412"]),
    ("adjustments", "job", "For whom", 5, ["0412", "0413"]),
    ("jobs", "exempt_reason", "Tax exempt", 6, ["0413"]),
    ("jobs", "exempt_reason", "Exemption", 6, ["0413"]),
    ("balloons", "sell_each", "My price", 7, []),
    ("hardware", "charge", "Price", 5, []),
    ("delivery", "up_to", "Radius", 5, ["0412", "0413"]),
    ("tax", "on_top_of", "After", 6, ["0412", "0413"]),
]


@pytest.mark.parametrize(("sheet", "key", "heading", "row", "jobs"), RENAMED, ids=str)
def test_values_under_a_renamed_heading_that_changes_a_price_are_a_stop(sheet, key, heading, row, jobs):
    problems, checked = worked(full_book(), [(sheet, key, heading)])
    assert (at(sheet, key, row), "P118") in said(problems)
    assert not any(p.code == "P117" for p in problems)
    assert set(jobs) <= set(held(checked))
    if sheet in ("pieces", "jobs"):
        assert held(checked) == jobs


def test_a_renamed_heading_hides_no_other_mistake_of_its_rows():
    book = full_book()
    book["pieces"][0]["topper"] = "Foil star golden"
    problems, _ = worked(book, [("pieces", "quantity", "How many")])
    found = {(at("pieces", "topper", 5), "P420"), (at("pieces", "quantity", 5), "P118")}
    assert found <= set(said(problems))


def test_items_under_a_renamed_price_are_out_of_the_price_book():
    _, checked = worked(full_book(), [("hardware", "charge", "Price")])
    assert [thing.item for thing in checked.prices.hardware] == ["Pole 7 ft", "Paper fan"]  # no charge was typed


def test_a_heading_close_to_ours_is_asked_about_as_ever():
    problems, checked = worked(full_book(), [("pieces", "accents", "Acents")])
    assert said(problems) == [(at("pieces", "accents", 4), "P111"), (at("pieces", "accents", 5), "P114")]
    assert held(checked) == ["0412"]


def test_an_owners_column_in_a_whole_sheet_is_nobodys_business():
    problems, _ = worked(full_book(), extra=[("pieces", 99, ["Bag number", 1, 2, 3])])
    assert said(problems) == []


def test_an_owners_column_where_others_were_deleted_is_a_note_that_names_them():
    gone = [("pieces", key) for key in ("quantity", "price", "wrap", "topper", "client_notes")]
    book = good_book()
    problems, checked = worked(book, left_out=gone, extra=[("pieces", 99, ["Who builds it", "Ida", "Ida and Bo"])])
    assert said(problems) == [("Pieces!CU4", "P117")]
    assert held(checked) == []
    assert problems[0].level is Level.NOTE and problems[0].seen == "Who builds it"
    assert "Quantity, Fixed price each, Topper, Wrap, Notes for the client" in problems[0].fix


def test_an_empty_column_of_the_owners_says_nothing():
    problems, _ = worked(full_book(), left_out=[("pieces", "wrap")], extra=[("pieces", 99, ["Done", None])])
    assert said(problems) == []


def test_a_renamed_setting_is_told_of():
    book = full_book()
    book["shop"][0]["minimum_order"] = 150
    problems, checked = worked(book, [("shop", "minimum_order", "Smallest job")])
    row = 4 + [column.key for column in layout_of("shop").columns].index("minimum_order")
    assert said(problems) == [(f"Shop!A{row}", "P119")]
    assert "Minimum order" in problems[0].fix
    assert held(checked) == []


# --- copies ------------------------------------------------------------------------------------------


def test_a_copy_of_a_book_is_one_line_and_its_jobs_are_held():
    book = full_book()
    outcome = check_tables((*tables(book), *tables(full_book(), workbook="copy.xlsx")), RUN_DATE)
    assert {(p.place.workbook, p.place.sheet, p.code) for p in outcome.problems} == {("copy.xlsx", "", "P405")}
    assert len({str(p) for p in outcome.problems}) == 1
    assert held(outcome.value) == ["0412", "0413"]


def test_a_copy_with_changes_is_still_one_and_its_neighbours_go_on():
    book, older = full_book(), full_book()
    older["jobs"].pop()
    older["pieces"] = older["pieces"][:1]
    older["adjustments"] = [{"name": "Spring", "kind": "discount", "percent": 0.1}]
    other = {
        "jobs": [{"job": "0777", "client": "Moss Row", "event_date": "2031-06-20", "distance": 20}],
        "pieces": [{"job": "0777", "piece": "A", "form": "hire item", "item": "Pole 7 ft"}],
    }
    many = (*tables(older, workbook="a.xlsx"), *tables(book, workbook="b.xlsx"), *tables(other, workbook="c.xlsx"))
    outcome = check_tables(many, RUN_DATE)
    assert {(p.place.workbook, p.code, p.job) for p in outcome.problems} == {
        ("a.xlsx", "P405", "0412"), ("a.xlsx", "P405", "0413"),
    }
    (job,) = outcome.value.jobs
    assert job.code == "0777"
    assert [one.name for one in job.adjustments] == ["Spring"]  # for every job, and only the copy has it


def test_two_books_that_number_their_own_jobs_alike_are_no_copies():
    other = full_book()
    for job in other["jobs"]:
        job["client"] += " Annexe"
    outcome = check_tables((*tables(full_book()), *tables(other, workbook="other.xlsx")), RUN_DATE)
    assert {p.code for p in outcome.problems} == {"P410", "P413", "P485"}


# --- examples ----------------------------------------------------------------------------------------


def test_example_prices_are_one_note_a_sheet_for_the_items_in_use():
    book = full_book()
    for row in (*book["balloons"], *book["hardware"]):
        row["source"] = "example price, type your own"
    book["balloons"][2]["source"] = "my supplier, May 2031"
    examples = check_tables(tables(book), RUN_DATE).value.examples
    used = ["Round 11 matt white", "Round 11 pearl gold", "Twister 260 white", "Paper fan"]
    notes = list(example_notes(examples, used))
    assert [(str(p.place), p.code, p.level) for p in notes] == [
        (f"book.xlsx, {at('balloons', 'source', 5)}", "P488", Level.NOTE),
        (f"book.xlsx, {at('hardware', 'source', 7)}", "P488", Level.NOTE),
    ]
    assert "2 items" in notes[0].why and "one item" in notes[1].why
    assert list(example_notes(examples, ["Round 11 pearl gold"])) == []


def test_a_sign_of_money_beside_a_wrong_currency_is_not_told_of_cell_by_cell():
    book = full_book()
    book["shop"][0]["currency"] = "£"
    problems, _ = worked(book)
    assert [p.code for p in problems] == ["P302"]


def test_pieces_of_a_held_job_are_there_to_be_planned():
    book = full_book()
    book["jobs"][0].pop("client")
    book["pieces"][1]["build"] = "Gift corners"
    _, checked = worked(book)
    assert [(piece.job, piece.label) for piece in checked.pieces_held] == [("0412", "A")]  # B is told of already
