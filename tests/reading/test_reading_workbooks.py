"""Workbook files to cells: what a library wrote is what we read, and odd or bad files are named, never fatal."""

from __future__ import annotations

import os
import pickle
import random
import zipfile
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from pathlib import Path

import openpyxl
import pytest
import xlsxwriter
from hypothesis import given, settings
from hypothesis import strategies as st
from openpyxl.styles import Protection
from openpyxl.worksheet.formula import ArrayFormula
from workbook_parts import cells, write_parts, xlsx_parts

from quoting.domain.cells import Book, Cell
from quoting.domain.problems import Level
from quoting.reading import archives, cell_grids
from quoting.reading.workbooks import read_book


def book_of(path: Path) -> Book:
    outcome = read_book(path)
    assert outcome.problems == ()
    return outcome.value


def sheet_of(path: Path, name: str = "Sheet1") -> dict[str, Cell]:
    (found,) = [sheet for sheet in book_of(path).sheets if sheet.name == name]
    return {cell.place.cell: cell for row in found.rows.values() for cell in row.values()}


def values_of(path: Path, name: str = "Sheet1") -> dict[str, object]:
    return {address: cell.value for address, cell in sheet_of(path, name).items()}


def refused(path: Path) -> str:
    outcome = read_book(path)
    assert outcome.value is None
    (found,) = outcome.problems
    assert found.level is Level.BOOK
    assert str(found.place) == path.name
    assert "\n" not in found.why
    assert len(found.why) < 120
    return found.code


def saved(tmp_path: Path, sheets: dict[str, str], **more) -> Path:
    return write_parts(tmp_path / "book.xlsx", xlsx_parts(sheets, **more))


# --- what libraries write ----------------------------------------------------------------


def test_every_kind_of_cell(tmp_path):
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "Sheet1"
    typed = {
        "A1": "text",
        "B1": 412,
        "C1": 8.5,
        "D1": True,
        "E1": datetime(2031, 5, 14),
        "F1": datetime(2031, 5, 14, 18, 30),
        "G1": time(14, 30),
        "H1": 19.9,
        "I1": "Café – naïve 🎈",
        "J1": "=1+1",
        "K1": "#REF!",
        "L1": timedelta(hours=9),
        "M1": timedelta(hours=30),
        "N1": "  spaced  ",
        "C9": -0.1,
    }
    for address, value in typed.items():
        sheet[address] = value
    sheet["C9"].number_format = "0%"
    book.save(tmp_path / "book.xlsx")
    found = sheet_of(tmp_path / "book.xlsx")
    assert {a: c.value for a, c in found.items()} == {
        "A1": "text",
        "B1": 412,
        "C1": Decimal("8.5"),
        "D1": True,
        "E1": datetime(2031, 5, 14),
        "F1": datetime(2031, 5, 14, 18, 30),
        "G1": time(14, 30),
        "H1": Decimal("19.9"),
        "I1": "Café – naïve 🎈",
        "J1": None,
        "K1": "#REF!",
        "L1": time(9),
        "M1": "30:00:00",
        "N1": "  spaced  ",
        "C9": Decimal("-0.1"),
    }
    assert found["J1"].is_uncalculated
    assert found["K1"].is_error
    assert found["C9"].number_format == "0%"
    assert found["C9"].place.row == 9


def test_formulas_give_the_value_the_file_carries(tmp_path):
    with xlsxwriter.Workbook(tmp_path / "book.xlsx") as book:
        sheet = book.add_worksheet()
        sheet.write_formula("A1", "=2*4", None, 8)
        sheet.write_formula("A2", '="8"&" ft"', None, "8 ft")
        sheet.write_formula("A3", "=1=1", None, True)
        sheet.write_formula("A4", "=1/0", None, "#DIV/0!")
        sheet.write_array_formula("A5:A5", "{=SUM(A1:A1)}", None, 8)
    found = sheet_of(tmp_path / "book.xlsx")
    assert [found[f"A{n}"].value for n in (1, 2, 3, 4, 5)] == [8, "8 ft", True, "#DIV/0!", 8]
    assert all(cell.has_formula for cell in found.values())
    assert [a for a, cell in found.items() if cell.is_error] == ["A4"]


def test_a_formula_never_calculated_is_told_from_one_that_came_to_nothing(tmp_path):
    rows = (
        '<row r="1"><c r="A1" t="str"><f>IF(1,"","")</f><v></v></c><c r="B1"><f>2*2</f></c><c r="C1"><f>2*2</f><v/></c>'
        '<c r="D1" t="str"><f>x</f></c></row>'
    )
    found = sheet_of(saved(tmp_path, {"Sheet1": cells(rows)}))
    assert sorted(found) == ["B1", "C1", "D1"]
    assert all(cell.is_uncalculated for cell in found.values())


def test_an_array_formula_never_calculated(tmp_path):
    book = openpyxl.Workbook()
    book.active["A1"] = ArrayFormula("A1:A1", "=SUM(B1:B2)")
    book.save(tmp_path / "book.xlsx")
    assert sheet_of(tmp_path / "book.xlsx", "Sheet")["A1"].is_uncalculated


def test_merged_ranges_fill_all_their_cells(tmp_path):
    book = openpyxl.Workbook()
    sheet = book.active
    sheet["B2"], sheet["E5"] = "all of it", "end"
    sheet.merge_cells("B2:C3")
    sheet.merge_cells("D1:D2")
    book.save(tmp_path / "book.xlsx")
    found = sheet_of(tmp_path / "book.xlsx", "Sheet")
    assert {a: c.value for a, c in found.items()} == {
        **dict.fromkeys(("B2", "C2", "B3", "C3"), "all of it"),
        "E5": "end",
    }
    assert {a: str(c.merged_from.cell) for a, c in found.items() if c.merged_from} == dict.fromkeys(
        ("B2", "C2", "B3", "C3"), "B2"
    )
    assert found["C3"].place.cell == "C3"


def test_a_merge_to_the_end_of_the_sheet_stays_within_its_filled_part(tmp_path):
    rows = '<row r="1"><c r="A1"><v>1</v></c></row><row r="9"><c r="C9"><v>2</v></c></row>'
    merged = cells(rows) + '<mergeCells><mergeCell ref="A1:XFD1048576"/></mergeCells>'
    found = sheet_of(saved(tmp_path, {"Sheet1": merged}))
    assert len(found) == 27


def test_the_1904_date_system(tmp_path):
    book = openpyxl.Workbook()
    book.epoch = openpyxl.utils.datetime.CALENDAR_MAC_1904
    book.active["A1"] = datetime(2031, 5, 14)
    book.save(tmp_path / "book.xlsx")
    assert sheet_of(tmp_path / "book.xlsx", "Sheet")["A1"].value == datetime(2031, 5, 14)


def test_a_number_no_date_can_be_is_an_error_where_it_is_formatted_as_one(tmp_path):
    styles = '<cellXfs><xf numFmtId="0"/><xf numFmtId="14"/></cellXfs>'
    numbers = {"A1": 99999999999, "B1": -5, "C1": 48000}
    rows = "".join(f'<c r="{address}" s="1"><v>{number}</v></c>' for address, number in numbers.items())
    rows = f'<row r="1">{rows}</row>'
    found = sheet_of(saved(tmp_path, {"Sheet1": cells(rows)}, styles=styles))
    assert [found[a].is_error for a in ("A1", "B1", "C1")] == [True, True, False]
    assert found["C1"].value == datetime(2031, 6, 1)  # 48000 days after 30 December 1899 (own arithmetic)


def test_strict_files_read_like_the_usual_ones(tmp_path):
    rows = (
        '<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1"><v>2.5</v></c>'
        '<c r="C1" t="d"><v>2031-05-14T00:00:00</v></c></row>'
    )
    found = values_of(saved(tmp_path, {"Sheet1": cells(rows)}, strict=True, texts="<si><t>hello</t></si>"))
    assert found == {"A1": "hello", "B1": Decimal("2.5"), "C1": datetime(2031, 5, 14)}


def test_rich_and_inline_texts_and_escapes(tmp_path):
    texts = (
        '<si><r><t xml:space="preserve">Fern </t></r><r><t>hill</t></r><rPh sb="0" eb="1"><t>x</t></rPh></si>'
        "<si><t>a_x000D_b_x005F_</t></si>"
    )
    rows = (
        '<row><c t="s"><v>0</v></c><c t="s"><v>1</v></c><c t="inlineStr"><is><t>in</t></is></c></row>'
        "<row><c><v>7</v></c></row>"
    )
    found = values_of(saved(tmp_path, {"Sheet1": cells(rows)}, texts=texts))
    assert found == {"A1": "Fern hill", "B1": "a\rb_", "C1": "in", "A2": 7}


def test_infinity_and_the_end_of_exact_whole_numbers_arrive_as_they_are(tmp_path):
    rows = '<row r="1"><c r="A1"><v>1e309</v></c><c r="B1"><v>9007199254740993</v></c><c r="C1"><v>NaN</v></c></row>'
    found = values_of(saved(tmp_path, {"Sheet1": cells(rows)}))
    assert found["A1"] == Decimal("Infinity")
    assert found["B1"] == 9007199254740993
    assert found["C1"].is_nan()


def test_hidden_sheets_count_and_chart_sheets_do_not(tmp_path):
    with xlsxwriter.Workbook(tmp_path / "book.xlsx") as book:
        sheet = book.add_worksheet("Jobs")
        sheet.write("A1", 1)
        sheet.set_row(0, None, None, {"hidden": True})
        hidden = book.add_worksheet("Hidden")
        hidden.write("A1", 2)
        hidden.hide()
        chart = book.add_chart({"type": "column"})
        chart.add_series({"values": "=Jobs!$A$1"})
        book.add_chartsheet("Chart").set_chart(chart)
    assert [(s.name, len(s.rows)) for s in book_of(tmp_path / "book.xlsx").sheets] == [("Jobs", 1), ("Hidden", 1)]


def test_a_macro_book_and_any_ending_are_judged_by_content(tmp_path):
    book = openpyxl.Workbook()
    book.active["A1"] = "x"
    book.save(tmp_path / "book.xlsx")
    for name in ("book.xlsm", "book.ods", "book.bin"):
        (tmp_path / name).write_bytes((tmp_path / "book.xlsx").read_bytes())
        assert values_of(tmp_path / name, "Sheet") == {"A1": "x"}


def test_a_protected_sheet_is_read(tmp_path):
    book = openpyxl.Workbook()
    book.active["A1"] = "x"
    book.active["A1"].protection = Protection(locked=True, hidden=True)
    book.active.protection.set_password("secret")
    book.save(tmp_path / "book.xlsx")
    assert values_of(tmp_path / "book.xlsx", "Sheet") == {"A1": "x"}


@settings(max_examples=30, deadline=None)
@given(
    st.lists(
        st.one_of(
            st.floats(allow_nan=False, allow_infinity=False),
            st.integers(-(2**53), 2**53),
            st.booleans(),
            st.text(st.characters(exclude_categories=("Cs", "Cc")), min_size=1, max_size=20).filter(
                lambda t: t[0] not in "=#"
            ),
            st.datetimes(datetime(1900, 3, 1), datetime(2199, 1, 1)).map(lambda d: d.replace(microsecond=0)),
        ),
        min_size=1,
        max_size=20,
    )
)
def test_cells_equal_what_openpyxl_wrote(tmp_path_factory, values):
    """Independent check: openpyxl writes, openpyxl reads back, and we read the same; a float is its own text."""
    path = tmp_path_factory.mktemp("written") / "book.xlsx"
    book = openpyxl.Workbook()
    for row, value in enumerate(values, 1):
        book.active.cell(row, 1).value = value
    book.save(path)
    back = openpyxl.load_workbook(path).active
    found = values_of(path, "Sheet")
    for row, value in enumerate(values, 1):
        other = back.cell(row, 1).value
        got = found[f"A{row}"]
        assert got == (Decimal(repr(other)) if isinstance(other, float) else other)
        assert isinstance(got, bool) == isinstance(value, bool)


def test_a_book_can_be_handed_to_another_process(tmp_path):
    book = openpyxl.Workbook()
    book.active["A1"], book.active["A2"] = 8.5, "=A1"
    book.save(tmp_path / "book.xlsx")
    whole = read_book(tmp_path / "book.xlsx")
    assert pickle.loads(pickle.dumps(whole)) == whole
    bad = read_book(tmp_path / "none.xlsx")
    assert pickle.loads(pickle.dumps(bad)) == bad


def test_the_file_is_named_by_its_digest_and_left_as_it_is(tmp_path):
    path = saved(tmp_path, {"Sheet1": cells("")})
    before = path.read_bytes()
    path.chmod(0o444)
    first, again = book_of(path), book_of(path)
    assert first == again
    assert len(first.digest) == 64
    assert path.read_bytes() == before


# --- files that can't be read ------------------------------------------------------------


def test_what_is_no_file_is_refused_at_once(tmp_path):
    os.mkfifo(tmp_path / "pipe.xlsx")
    (tmp_path / "folder.xlsx").mkdir()
    assert refused(tmp_path / "pipe.xlsx") == "P102"
    assert refused(tmp_path / "folder.xlsx") == "P102"
    (tmp_path / "link.xlsx").symlink_to("/dev/zero")
    assert refused(tmp_path / "link.xlsx") == "P102"
    (tmp_path / "gone.xlsx").symlink_to(tmp_path / "nowhere")
    assert refused(tmp_path / "gone.xlsx") == "P101"
    assert refused(tmp_path / "missing.xlsx") == "P101"


@pytest.mark.parametrize(
    ("content", "code"),
    [
        (b"", "P104"),
        (b"job,client\n1,2\n", "P104"),
        (b"%PDF-1.7", "P104"),
        (b"PK\x03\x04" + b"\0" * 40, "P101"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\0" * 600, "P104"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\0" * 600 + "EncryptedPackage".encode("utf-16-le"), "P103"),
    ],
)
def test_other_kinds_of_file(tmp_path, content, code):
    (tmp_path / "book.xlsx").write_bytes(content)
    assert refused(tmp_path / "book.xlsx") == code


def test_other_kinds_of_zip_file(tmp_path):
    parts = xlsx_parts({"Sheet1": cells("")})
    assert refused(write_parts(tmp_path / "a.xlsx", {"hello.txt": "hello"})) == "P104"
    document = {
        "[Content_Types].xml": parts["[Content_Types].xml"].replace("spreadsheetml.sheet", "wordprocessingml.document")
    }
    assert refused(write_parts(tmp_path / "b.xlsx", document)) == "P104"
    binary = {**parts, "_rels/.rels": parts["_rels/.rels"].replace("workbook.xml", "workbook.bin")}
    assert refused(write_parts(tmp_path / "c.xlsx", binary)) == "P104"
    text = {"mimetype": "application/vnd.oasis.opendocument.text", "content.xml": "<a/>"}
    assert refused(write_parts(tmp_path / "d.ods", text)) == "P104"


def test_a_part_locked_with_a_password(tmp_path):
    path = saved(tmp_path, {"Sheet1": cells("")})
    data = bytearray(path.read_bytes())
    for at in range(len(data) - 4):
        if data[at : at + 4] == b"PK\x01\x02":
            data[at + 8] |= 1
    path.write_bytes(data)
    assert refused(path) == "P103"


def test_a_file_that_unpacks_to_too_much(tmp_path, monkeypatch):
    bomb = {**xlsx_parts({"Sheet1": cells("")}), "xl/worksheets/sheet1.xml": b" " * (8 * 1024 * 1024)}
    assert refused(write_parts(tmp_path / "ratio.xlsx", bomb)) == "P105"
    with monkeypatch.context() as smaller:
        smaller.setattr(archives, "MOST_BYTES", 1000)
        assert refused(saved(tmp_path, {"Sheet1": cells("")})) == "P105"
    with monkeypatch.context() as smaller:
        smaller.setattr(archives, "MOST_PARTS", 3)
        assert refused(saved(tmp_path, {"Sheet1": cells("")})) == "P105"
    with monkeypatch.context() as smaller:
        smaller.setattr(cell_grids, "MOST_CELLS", 3)
        rows = '<row r="1">' + "<c><v>1</v></c>" * 4 + "</row>"
        assert refused(saved(tmp_path, {"Sheet1": cells(rows)})) == "P105"


def test_a_million_merged_cells_are_refused_soon(tmp_path):
    rows = '<row r="1"><c r="A1"><v>1</v></c></row><row r="1048576"><c r="XFD1048576"><v>2</v></c></row>'
    merged = cells(rows) + '<mergeCells><mergeCell ref="A1:XFC1048575"/></mergeCells>'
    assert refused(saved(tmp_path, {"Sheet1": merged})) == "P105"


def test_cells_at_the_far_corner_cost_nothing(tmp_path):
    rows = '<row r="1"><c r="A1"><v>1</v></c></row><row r="1048576"><c r="XFD1048576"><v>2</v></c></row>'
    assert values_of(saved(tmp_path, {"Sheet1": cells(rows)})) == {"A1": 1, "XFD1048576": 2}


@pytest.mark.parametrize(
    "row",
    [
        '<row r="1048577"><c><v>1</v></c></row>',
        '<row r="1"><c r="XFE1"><v>1</v></c></row>',
        '<row r="1"><c r="11"><v>1</v></c></row>',
        '<row r="1"><c r="A1" t="s"><v>5</v></c></row>',
        '<row r="1"><c r="A1"><v>eleven</v></c></row>',
        '<row r="1"><c r="A1" t="d"><v>someday</v></c></row>',
        '<row r="1"><c r="A1"><v>1</v>',
        '<row r="1"><c r="A1" t="s"><v>-1</v></c></row>',
    ],
)
def test_sheets_with_senseless_cells(tmp_path, row):
    assert refused(saved(tmp_path, {"Sheet1": cells(row)})) == "P101"


def test_entities_that_grow_and_odd_encodings(tmp_path):
    parts = xlsx_parts({"Sheet1": cells("")})
    sheet = '<!DOCTYPE x [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;">]><worksheet><sheetData/></worksheet>'
    assert refused(write_parts(tmp_path / "a.xlsx", {**parts, "xl/worksheets/sheet1.xml": sheet})) == "P101"
    wide = sheet.encode("utf-16")
    assert refused(write_parts(tmp_path / "b.xlsx", {**parts, "xl/worksheets/sheet1.xml": wide})) == "P101"
    del parts["xl/worksheets/sheet1.xml"]
    assert refused(write_parts(tmp_path / "c.xlsx", parts)) == "P101"


def test_two_sheets_of_one_name(tmp_path):
    outcome = read_book(saved(tmp_path, {"Jobs": cells(""), "Tax": cells(""), "JOBS": cells("")}))
    assert [sheet.name for sheet in outcome.value.sheets] == ["Tax"]
    assert [(p.code, p.place.sheet) for p in outcome.problems] == [("P106", "Jobs"), ("P106", "JOBS")]


def test_random_damage_never_raises(tmp_path):
    """Bytes of a good book changed or cut at random (seeded): a book or one problem, never an exception."""
    book = openpyxl.Workbook()
    for row in range(1, 30):
        book.active.append([row, f"text {row}", row / 7, date(2031, 5, 14), "=A1"])
    book.save(tmp_path / "good.xlsx")
    good, dice = (tmp_path / "good.xlsx").read_bytes(), random.Random(7)
    path = tmp_path / "damaged.xlsx"
    for _ in range(150):
        data = bytearray(good)
        for _ in range(dice.choice((1, 3, 20))):
            data[dice.randrange(len(data))] = dice.randrange(256)
        path.write_bytes(data[: dice.choice((len(data), dice.randrange(len(data))))])
        outcome = read_book(path)
        assert (outcome.value is None) == bool(outcome.problems)


def test_random_damage_inside_the_parts_never_raises(tmp_path):
    """The same with the parts' own text, so that the zip file stays sound."""
    book = openpyxl.Workbook()
    for row in range(1, 12):
        book.active.append([row, f"text {row}", row / 7, date(2031, 5, 14), "=A1", True])
    book.active.merge_cells("A2:B3")
    book.save(tmp_path / "good.xlsx")
    with zipfile.ZipFile(tmp_path / "good.xlsx") as archive:
        parts = {name: archive.read(name) for name in archive.namelist()}
    dice = random.Random(11)
    for _ in range(200):
        name = dice.choice([n for n in parts if n.startswith(("xl/work", "xl/sty", "xl/shared", "_rels", "xl/_rels"))])
        data = bytearray(parts[name])
        at = dice.randrange(len(data))
        data[at : at + dice.choice((0, 1, 5))] = bytes(
            dice.choice(b'0189AZ"<>/= rstv') for _ in range(dice.choice((1, 1, 4)))
        )
        outcome = read_book(write_parts(tmp_path / "damaged.xlsx", {**parts, name: bytes(data)}))
        assert outcome.value is not None or [p.level for p in outcome.problems] == [Level.BOOK]
