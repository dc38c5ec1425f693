"""The workshop sheet: pull list, build pages, workings as live formulas, no money for the crew."""

from __future__ import annotations

import re
from dataclasses import replace

import openpyxl
import pytest
from python_calamine import CalamineWorkbook
from sheets_made import party, sheet

from quoting.domain.money import Currency
from quoting.domain.plans import Section, Working
from quoting.writing.number_formats import percent_words
from quoting.writing.workings_sheet import place_steps, split_by_money
from quoting.writing.workshop_workbook import write_workshop

USD = Currency(code="USD")


@pytest.fixture(scope="module")
def path(tmp_path_factory):
    path = tmp_path_factory.mktemp("workshop") / "w.xlsx"
    write_workshop(path, party())
    return path


def texts(sheet):
    return [[cell.value for cell in row] for row in sheet.iter_rows()]


def test_sheets_stand_in_the_order_of_use(path):
    names = openpyxl.load_workbook(path).sheetnames
    assert names == ["Workshop", "Pull list", "Build A", "Build B", "Build C", "Workings", "Prices (shop only)"]


def test_labels_that_a_sheet_name_cannot_hold_still_get_their_page(tmp_path):
    made = party()
    pieces = tuple(
        replace(p, label=label) for p, label in zip(made.pieces, ("a/b*" * 20, "A b " * 20, "'"), strict=True)
    )
    write_workshop(tmp_path / "w.xlsx", replace(made, pieces=pieces))
    names = openpyxl.load_workbook(tmp_path / "w.xlsx").sheetnames[2:5]
    assert len({name.casefold() for name in names}) == 3
    assert all(len(name) <= 31 and not re.search(r"[\[\]:*?/\\]", name) for name in names)


def test_the_pull_list_goes_by_colour_then_size_with_every_sizer(path):
    rows = texts(openpyxl.load_workbook(path)["Pull list"])
    pulled = [
        (row[1], row[2], row[5], row[6], row[7]) for row in rows if row[0] == "☐" and row[7] is not None and row[2]
    ]
    stock = {line.item: line for line in party().stock}
    assert [(item.partition(" (")[0], need, spares) for _, item, _, need, spares in pulled] == [
        (line.item, line.need, line.with_spares)
        for line in sorted(
            (s for s in stock.values() if s.shape in {"round", "twister", "foil"}),
            key=lambda s: (s.colour, s.shape, s.size),
        )
    ]
    nine = next(row for row in pulled if row[1].startswith("9 in matt ivory"))
    assert nine[2] == "6 in\n8 in"
    chances = [row[4] for row in rows if row[0] == "☐" and row[7] is not None and row[2] and row[5]]
    assert chances and set(chances) == {percent_words(line.breakage) for line in stock.values() if line.size}


def test_the_build_page_follows_the_plans_layers(path):
    book = openpyxl.load_workbook(path)
    for piece in party().pieces:
        rows = texts(book[f"Build {piece.label}"])
        steps = [(row[1], row[2]) for row in rows if isinstance(row[1], str) and row[1].isdigit()]
        assert steps == [(str(step.number), step.text) for step in piece.plan.build_order]
        counts = [(row[1], row[6], row[7]) for row in rows if row[0] == "☐" and isinstance(row[7], int)]
        wanted = [*((p.item, p.count) for p in piece.plan.parts), *((h.item, h.count) for h in piece.plan.hire)]
        assert counts == [(item, count, count * piece.quantity) for item, count in wanted]


def test_the_crews_sheets_hold_no_money(path):
    book = openpyxl.load_workbook(path)
    for name in book.sheetnames[:-1]:
        shown = [str(cell.value) for row in book[name].iter_rows() for cell in row if cell.value is not None]
        assert not [text for text in shown if "USD" in text or "$ " in text or "markup" in text.casefold()], name
        money = [
            cell.value
            for row in book[name].iter_rows()
            for cell in row
            if cell.data_type == "f" and "Price" in cell.value
        ]
        assert not money, "a crew's formula refers to the price workings"
    assert "USD" in {cell.value for cell in book["Prices (shop only)"]["C"]}


def test_every_step_is_there_with_its_value(path):
    """Read back by a second library: label, carried value and unit of every step of every section."""
    book = CalamineWorkbook.from_path(path)
    rows = [row[:3] for name in ("Workings", "Prices (shop only)") for row in book.get_sheet_by_name(name).to_python()]
    found = {(row[0], row[2]): row[1] for row in rows}
    steps = [step for section in party().workings for step in section.steps]
    assert len(steps) > 250
    for step in steps:
        assert (step.label, step.unit) in found
    last = {(step.label, step.unit): step.value for step in steps}
    for key, value in last.items():
        carried = found[key]
        assert carried == value if isinstance(value, str) else carried == pytest.approx(float(value), rel=1e-12), key


def test_every_formula_refers_to_earlier_cells_only(path):
    book = openpyxl.load_workbook(path)
    order = {name: number for number, name in enumerate(book.sheetnames)}
    count = 0
    for name in ("Workings", "Prices (shop only)"):
        for row in book[name].iter_rows(min_col=2, max_col=2):
            cell = row[0]
            if cell.data_type != "f":
                continue
            count += 1
            for other, line in re.findall(r"(?:'([^']+)'!)?\$B\$(\d+)", cell.value):
                assert order[other or name] < order[name] or int(line) < cell.row, (
                    f"{name}!{cell.coordinate} {cell.value}"
                )
    assert count > 150


def step(key, formula="", unit="", value=1):
    return Working(key=key, label=key, value=value, unit=unit, formula=formula)


def test_an_unknown_step_is_our_mistake():
    cells = place_steps({"Workings": [Section(key="a", title="A", steps=(step("x"),))]})
    assert cells.resolved("{x}*2", "a", "Workings") == "$B$6*2"
    assert cells.resolved("{a!x}*2", "b", "It's") == "'Workings'!$B$6*2"
    assert cells.resolved('SUM({1,2;3,4})&{"a","b"}&{x}', "a", "Workings") == 'SUM({1,2;3,4})&{"a","b"}&$B$6'
    for wrong in ("{y}", "{b!x}", "{a!y}", "{1}"):
        with pytest.raises(KeyError):
            cells.resolved(wrong, "a", "Workings")


def test_money_is_told_from_the_rest_also_where_it_hides_behind_a_step():
    stock = Section(
        key="stock",
        title="Stock",
        steps=(
            step("need"),
            step("pack price", unit="USD"),
            step("share", "{pack price}/{need}"),
            step("spares", "{need}+1"),
        ),
    )
    later = Section(key="more", title="More", steps=(step("a", "{stock!share}"), step("b", "{stock!spares}")))
    price = Section(key="price", title="Price", steps=(step("markup"),))
    crew, priced = split_by_money([stock, later, price], USD)
    assert [(s.key, [x.key for x in s.steps]) for s in crew] == [("stock", ["need", "spares"]), ("more", ["b"])]
    assert [(s.key, [x.key for x in s.steps]) for s in priced] == [
        ("stock", ["pack price", "share"]),
        ("more", ["a"]),
        ("price", ["markup"]),
    ]


def test_the_same_sheet_gives_the_same_bytes(tmp_path):
    for name in "ab":
        write_workshop(tmp_path / name, party())
    assert (tmp_path / "a").read_bytes() == (tmp_path / "b").read_bytes()


def test_text_from_a_book_stays_text(tmp_path):
    asked = sheet(client="=1+1", event="@SUM(1)", venue="http://a.example", shop_notes="+4", contact="-1")
    write_workshop(tmp_path / "w.xlsx", asked)
    front = openpyxl.load_workbook(tmp_path / "w.xlsx")["Workshop"]
    cells = {cell.value: cell for row in front.iter_rows() for cell in row if cell.value is not None}
    for text in ("=1+1", "@SUM(1)", "+4"):
        assert cells[text].data_type == "s"
    assert all(cell.hyperlink is None for cell in cells.values())
