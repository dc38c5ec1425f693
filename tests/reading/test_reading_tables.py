"""Sheets to tables: headings in any order and spelling, physical rows, problems at their cells with their jobs."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quoting.domain.cells import Book, Cell, Kind, Sheet, Table
from quoting.domain.layouts import Column, SheetLayout
from quoting.domain.places import Place
from quoting.domain.problems import Level, Outcome
from quoting.reading.tables import read_tables


def column(key: str, kind: Kind, **more) -> Column:
    heading = more.pop("heading", key.replace("_", " ").capitalize())
    return Column(key=key, heading=heading, kind=kind, note="", fix=f"type {key} again", **more)


SHOP = SheetLayout(
    key="shop",
    name="Shop",
    about="",
    is_settings=True,
    columns=(
        column("name", Kind.TEXT, required=True, heading="Shop name"),
        column("service_level", Kind.PERCENT),
        column("minimum_order", Kind.MONEY),
        column("prices_include_tax", Kind.YES_NO),
    ),
)
JOBS = SheetLayout(
    key="jobs",
    name="Jobs",
    about="",
    columns=(
        column("job", Kind.TEXT, required=True),
        column("client", Kind.TEXT, required=True),
        column("event_date", Kind.DATE, required=True),
        column("distance", Kind.DISTANCE, units=("mi", "km")),
    ),
)
PIECES = SheetLayout(
    key="pieces",
    name="Pieces",
    about="",
    columns=(
        column("job", Kind.TEXT, required=True),
        column("piece", Kind.TEXT, required=True),
        column("quantity", Kind.WHOLE),
        column("height", Kind.LENGTH, units=("ft", "cm")),
        column("foot_fills", Kind.LENGTHS, heading="Fills at each end", units=("in", "cm")),
        column("size", Kind.WHOLE),
        column("price", Kind.MONEY, heading="Fixed price each"),
        column("colours", Kind.TEXTS),
    ),
)
TAX = SheetLayout(
    key="tax",
    name="Tax",
    about="",
    columns=(column("code", Kind.TEXT, required=True), column("rate", Kind.PERCENT, required=True)),
)
ADJUSTMENTS = SheetLayout(
    key="adjustments",
    name="Adjustments",
    about="",
    columns=(column("name", Kind.TEXT, required=True), column("job", Kind.TEXT), column("percent", Kind.PERCENT)),
)
LAYOUTS = (SHOP, JOBS, PIECES, TAX, ADJUSTMENTS)


def sheet(name: str, rows: list[list[object]], merges: tuple[tuple[int, int, int, int], ...] = ()) -> Sheet:
    """A sheet from rows of values; None is a blank cell. Merges are (row, column, last row, last column)."""
    found: dict[int, dict[int, Cell]] = {}
    for number, row in enumerate(rows, 1):
        for place, value in enumerate(row, 1):
            if value is not None:
                where = Place(workbook="book.xlsx", sheet=name, row=number, column=place)
                found.setdefault(number, {})[place] = Cell(place=where, value=value)
    for top, left, bottom, right in merges:
        first = found[top][left]
        for row in range(top, bottom + 1):
            for place in range(left, right + 1):
                where = Place(workbook="book.xlsx", sheet=name, row=row, column=place)
                found.setdefault(row, {})[place] = Cell(place=where, value=first.value, merged_from=first.place)
    return Sheet(name=name, rows={n: dict(sorted(cells.items())) for n, cells in sorted(found.items())})


def read(*sheets: Sheet) -> Outcome[tuple[Table, ...]]:
    return read_tables(Book(name="book.xlsx", digest="0" * 64, sheets=sheets), LAYOUTS)


def told(outcome: Outcome) -> list[tuple[str, str, str]]:
    return [(p.place.cell or p.place.sheet, p.code, p.job) for p in outcome.problems]


def plain(table: Table) -> list[dict[str, object]]:
    return [{key: value.value for key, value in row.values.items()} for row in table.rows]


PIECE_HEADINGS = [
    "Job",
    "Piece",
    "Quantity",
    "Height (ft)",
    "Fills at each end (in)",
    "Size",
    "Fixed price each",
    "Colours",
]


def test_a_plain_sheet():
    outcome = read(
        sheet("Pieces", [PIECE_HEADINGS, ["412", "A", 2, Decimal("7.5"), "10, 8", 11, "£40", "ivory, sage"]])
    )
    (table,) = outcome.value
    assert outcome.problems == ()
    assert plain(table) == [
        {
            "job": "412",
            "piece": "A",
            "quantity": 2,
            "height": Decimal("228.6"),
            "foot_fills": (Decimal("25.4"), Decimal("20.32")),
            "size": 11,
            "price": Decimal(40),
            "colours": ("ivory", "sage"),
        }
    ]
    (row,) = table.rows
    assert (row.place.cell, row.values["height"].place.cell, row.seen("height")) == ("2:2", "D2", "7.5")
    assert row.values["price"].currency == "GBP"
    assert row.where("colours").cell == "H2"
    assert table.headings["height"].cell == "D1"


@settings(max_examples=40, deadline=None)
@given(st.permutations(range(8)), st.integers(0, 4), st.lists(st.integers(1, 12), max_size=3), st.booleans())
def test_order_of_columns_rows_above_blank_rows_and_odd_spelling_change_nothing(order, above, gaps, loud):
    values = ["412", "A", 2, "7 ft", "10, 8", 11, 40, "ivory"]
    headings = [h.upper().replace(" ", "  ") + " *" if loud else h for h in PIECE_HEADINGS]
    rows = [["Our pieces this month"], *[[None]] * above, [None, *(headings[i] for i in order), "My remark"]]
    first = len(rows) + 1
    rows.append([None, *(values[i] for i in order), "call back"])
    for gap in gaps:
        rows += [[" ", None, "\u00a0"]] * gap
        rows.append([None, *(values[i] for i in order)])
    outcome = read(sheet(" pieces ", rows))
    (table,) = outcome.value
    assert outcome.problems == ()
    assert [row.place.row for row in table.rows] == [
        first,
        *(first + sum(gaps[: n + 1]) + n + 1 for n in range(len(gaps))),
    ]
    assert all(each == plain(table)[0] for each in plain(table))
    assert plain(table)[0]["height"] == Decimal("213.36")


def test_keys_serve_as_headings():
    outcome = read(
        sheet("jobs", [["job", "client", "event_date", "distance (km)"], ["1", "Nim", date(2031, 5, 14), 20]])
    )
    assert plain(outcome.value[0]) == [
        {"job": "1", "client": "Nim", "event_date": date(2031, 5, 14), "distance": Decimal(20)}
    ]


def test_a_band_of_groups_above_the_headings_is_not_taken_for_them():
    rows = [["Piece", None, None, "Size", None, None, None, "Colours"], PIECE_HEADINGS, ["1", "A", 1, 7]]
    outcome = read(sheet("Pieces", rows, merges=((1, 1, 1, 3), (1, 4, 1, 7))))
    assert outcome.problems == ()
    assert [row.place.row for row in outcome.value[0].rows] == [3]


def test_merged_headings():
    rows = [["Job", "Piece", "Quantity", "Height (cm)", None], [], ["1", "A", 1, 200, "a remark"]]
    outcome = read(sheet("Pieces", rows, merges=((1, 1, 2, 1), (1, 2, 2, 2), (1, 3, 2, 3), (1, 4, 2, 5))))
    assert outcome.problems == ()
    assert plain(outcome.value[0]) == [{"job": "1", "piece": "A", "quantity": 1, "height": Decimal(200)}]


def test_a_job_code_merged_over_its_pieces_belongs_to_each():
    rows = [["Job", "Piece"], ["412", "A"], [None, "B"], ["413", "A"]]
    outcome = read(sheet("Pieces", rows, merges=((2, 1, 3, 1),)))
    assert [(r["job"], r["piece"]) for r in plain(outcome.value[0])] == [("412", "A"), ("412", "B"), ("413", "A")]


def test_titles_between_rows_and_headings_once_more():
    rows = [["Job", "Piece", "Quantity"], ["Saturday"], ["1", "A", 1], ["Job", "Piece", "Quantity"], ["2", "A", 1]]
    outcome = read(sheet("Pieces", rows, merges=((2, 1, 2, 3),)))
    assert told(outcome) == [("A2", "P116", "")]
    assert outcome.problems[0].level is Level.NOTE
    assert [r["job"] for r in plain(outcome.value[0])] == ["1", "2"]


def test_problems_carry_the_job_of_their_row_and_spare_their_neighbours():
    rows = [PIECE_HEADINGS, [412, "A", "two"], ["413", "A", 1, "8 ft-ish"], ["414", "A", 1, 7], [None, "B", "x"]]
    outcome = read(sheet("Pieces", rows))
    assert told(outcome) == [("C2", "P208", "412"), ("D3", "P204", "413"), ("C5", "P208", "")]
    (table,) = outcome.value
    assert [row.misread for row in table.rows] == [{"quantity"}, {"height"}, frozenset(), {"quantity"}]
    assert "quantity" not in table.rows[0].values


def test_levels_by_whom_a_row_concerns():
    outcome = read(
        sheet("Tax", [["Code", "Rate"], ["VAT", "lots"]]),
        sheet("Adjustments", [["Name", "Job", "Percent"], ["Rush", None, "lots"], ["Rush", "412", "lots"]]),
    )
    assert [(p.place.sheet, p.place.cell, p.level) for p in outcome.problems] == [
        ("Tax", "B2", Level.BOOK),
        ("Adjustments", "C2", Level.BOOK),
        ("Adjustments", "C3", Level.HOLD),
    ]


def test_sheets_of_other_names_and_empty_ones_are_passed_over():
    outcome = read(sheet("Notes", [["Job", "Piece"], ["1", "A"]]), sheet("Jobs", []), sheet("Pieces", [["  "]]))
    assert outcome == Outcome(value=())


def test_a_sheet_whose_name_comes_close():
    outcome = read(sheet("Peices", [["Job", "Piece"], ["1", "A"]]))
    assert [(p.code, p.place.sheet, p.level) for p in outcome.problems] == [("P112", "Peices", Level.BOOK)]
    assert "Pieces" in outcome.problems[0].fix
    own = read(sheet("Taxi", [["Driver", "Telephone"], ["Nim", 5550100]]))
    assert [(p.code, p.level) for p in own.problems] == [("P112", Level.NOTE)]


def test_two_sheets_that_stand_for_one():
    outcome = read(sheet("Jobs", [["Job"]]), sheet("jobs ", [["Job"]]))
    assert outcome.value == ()
    assert [(p.code, p.place.sheet, p.level) for p in outcome.problems] == [
        ("P106", "Jobs", Level.BOOK),
        ("P106", "jobs ", Level.BOOK),
    ]


@pytest.mark.parametrize("rows", [[["a", "b"], ["c", "d"]], [["1", "A", 2]], [["Job"], ["412"]]])
def test_no_row_with_headings(rows):
    outcome = read(sheet("Pieces", rows))
    assert outcome.value == ()
    assert [(p.code, p.level, p.place.cell) for p in outcome.problems] == [("P107", Level.BOOK, "")]


def test_a_required_column_that_is_missing():
    outcome = read(sheet("Jobs", [["Title"], ["Job", "Client"], ["1", "Nim"]]))
    assert told(outcome) == [("2:2", "P108", "")]
    assert outcome.problems[0].level is Level.BOOK
    assert "Event date" in outcome.problems[0].why
    assert outcome.value[0].rows[0].misread == {"event_date"}


def test_a_heading_given_twice_makes_both_columns_doubtful():
    rows = [["Job", "Piece", "Quantity", "quantity"], ["1", "A", 2, None], ["2", "A", None, 3], ["3", "A", None, None]]
    outcome = read(sheet("Pieces", rows))
    assert told(outcome) == [("D1", "P109", ""), ("C2", "P109", "1"), ("D3", "P109", "2")]
    assert [row.misread for row in outcome.value[0].rows] == [{"quantity"}, {"quantity"}, frozenset()]


def test_a_heading_with_a_slip_is_named_and_what_stands_under_it_holds_its_job():
    rows = [["Job", "Piece", "Quantiy", "Remark"], ["1", "A", 3, "x"], ["2", "A", None, "y"]]
    outcome = read(sheet("Pieces", rows))
    assert told(outcome) == [("C1", "P111", ""), ("C2", "P114", "1")]
    assert [p.level for p in outcome.problems] == [Level.NOTE, Level.HOLD]
    assert "did you mean Quantity?" in outcome.problems[0].fix


def test_a_required_heading_with_a_slip():
    outcome = read(sheet("Jobs", [["Job", "Cliemt", "Event date"], ["1", "Nim", "2031-05-14"]]))
    assert told(outcome) == [("B1", "P111", ""), ("1:1", "P108", ""), ("B2", "P114", "1")]
    assert "B1" in outcome.problems[1].fix


@pytest.mark.parametrize("heading", ["Height (yd)", "Height (lb)", "Height (tall)"])
def test_a_unit_that_a_length_cannot_have(heading):
    outcome = read(sheet("Pieces", [["Job", "Piece", heading], ["1", "A", 7], ["2", "A", "7 ft"]]))
    assert told(outcome) == [("C1", "P110", ""), ("C2", "P205", "1")]
    assert plain(outcome.value[0])[1]["height"] == Decimal("213.36")


def test_a_unit_on_a_column_that_takes_none():
    assert told(read(sheet("Pieces", [["Job", "Piece", "Size (in)"], ["1", "A", 11]]))) == []
    assert told(read(sheet("Pieces", [["Job", "Piece", "Size (cm)"], ["1", "A", 28]]))) == [
        ("C1", "P110", ""),
        ("C2", "P110", "1"),
    ]
    assert told(read(sheet("Pieces", [["Job", "Piece", "Quantity (how many)"], ["1", "A", 2]]))) == []


def test_a_currency_in_a_heading_goes_with_bare_amounts():
    outcome = read(sheet("Pieces", [["Job", "Piece", "Fixed price each (€)"], ["1", "A", 40], ["2", "A", "£5"]]))
    assert [row.values["price"].currency for row in outcome.value[0].rows] == ["EUR", "GBP"]


# --- settings ----------------------------------------------------------------------------


def test_settings():
    rows = [
        ["Our shop"],
        [None, "Setting", "Value", "Meaning"],
        [None, "Your shop"],
        [None, "Shop name", "Willow Lane", "as printed"],
        [None, "service level", "95 %"],
        [None, "Minimum order", None],
        [None, "prices_include_tax", "yes"],
        [None, "My own", 5],
    ]
    outcome = read(sheet("Shop", rows))
    assert outcome.problems == ()
    (table,) = outcome.value
    (row,) = table.rows
    assert plain(table) == [{"name": "Willow Lane", "service_level": Decimal("0.95"), "prices_include_tax": True}]
    assert (row.place.cell, row.place.sheet, row.columns) == ("", "Shop", {})
    assert row.values["service_level"].place.cell == "C5"


def test_wrong_settings_concern_everything():
    rows = [["Setting", "Value"], ["Shop name", "Willow"], ["Service level", "lots"], ["Minimum order", "1,200"]]
    outcome = read(sheet("Shop", rows))
    assert [(p.place.cell, p.code, p.level) for p in outcome.problems] == [
        ("B3", "P210", Level.BOOK),
        ("B4", "P206", Level.BOOK),
    ]
    assert outcome.value[0].rows[0].misread == {"service_level", "minimum_order"}


def test_a_setting_given_twice_and_one_with_a_slip():
    rows = [
        ["Setting", "Value"],
        ["Shop name", "Willow"],
        ["Shop name", "Oak"],
        ["Servise level", "90 %"],
        ["Minimun order", None],
    ]
    outcome = read(sheet("Shop", rows))
    assert [(p.place.cell, p.code, p.level) for p in outcome.problems] == [
        ("A2", "P113", Level.BOOK),
        ("A3", "P113", Level.BOOK),
        ("A4", "P115", Level.BOOK),
    ]
    assert outcome.value[0].rows[0].values == {}
    assert outcome.value[0].rows[0].misread == {"name", "service_level"}


def test_settings_without_headings():
    outcome = read(sheet("Shop", [["Shop name", "Willow"]]))
    assert outcome.value == ()
    assert [(p.code, p.level) for p in outcome.problems] == [("P107", Level.BOOK)]
