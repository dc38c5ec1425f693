"""Marked copies: every problem in its cell and on the list; the owner's file untouched and its contents kept."""

from __future__ import annotations

import hashlib
import zipfile
from datetime import datetime
from pathlib import Path

import openpyxl
import pytest
import xlsxwriter
from odf import table, text
from odf.opendocument import OpenDocumentSpreadsheet
from openpyxl.comments import Comment
from openpyxl.worksheet.datavalidation import DataValidation

from quoting.domain.places import Place
from quoting.domain.problems import Level, Problem
from quoting.writing.marked_copy import marked_name, write_marked_copy


def problem(row, column, *, level=Level.HOLD, sheet="Pieces", code="P204", why='height is "8 ft-ish"', job="0412"):
    place = Place(workbook="book.xlsx", sheet=sheet, row=row, column=column)
    return Problem(
        code=code, level=level, place=place, why=why, fix="type one length, e.g. 8 ft", seen="8 ft-ish", job=job
    )


@pytest.fixture
def book(tmp_path) -> Path:
    """A book with what owners have: formulas, drop-downs, merged cells, formats, a comment, a sheet named Problems."""
    path = tmp_path / "book.xlsx"
    made = openpyxl.Workbook()
    pieces = made.active
    pieces.title = "Pieces"
    pieces.append(["Job", "Piece", "Height"])
    pieces.append(["0412", "A", "8 ft-ish"])
    pieces.append([None, None, "=1+1", "last"])
    pieces["C2"].comment = Comment("ask the client", "owner")
    pieces["C3"].number_format = "0.00"
    pieces.merge_cells("A5:B6")
    pieces["A5"] = "merged"
    drop = DataValidation(type="list", formula1='"a,b"')
    drop.add("B2:B9")
    pieces.add_data_validation(drop)
    made.create_sheet("problems")["A1"] = "the owner's own"
    made.create_sheet("It's odd")["A1"] = 1
    made.save(path)
    return path


def marked(book, *problems) -> openpyxl.Workbook:
    target = book.parent / "marked" / "book.xlsx"
    target.parent.mkdir(exist_ok=True)
    before = hashlib.sha256(book.read_bytes()).hexdigest()
    write_marked_copy(book, target, problems)
    assert hashlib.sha256(book.read_bytes()).hexdigest() == before
    return openpyxl.load_workbook(target)


def test_each_cell_gets_a_fill_and_says_why_and_what_to_type(book):
    made = marked(book, problem(3, 4), problem(3, 4, code="P520", why="no such item"), problem(2, 2, level=Level.NOTE))
    cell = made["Pieces"]["D3"]
    assert cell.comment.text == (
        'Height is "8 ft-ish".\nType one length, e.g. 8 ft. [P204]\nNo such item.\nType one length, e.g. 8 ft. [P520]'
    )
    assert cell.fill.fgColor.rgb == "00FFC98A"
    assert made["Pieces"]["B2"].fill.fgColor.rgb == "00FFF3CF"
    assert made["Pieces"]["A2"].fill.fill_type is None
    assert made["Pieces"].sheet_properties.tabColor.rgb == "00E07B00"


def test_an_owners_comment_keeps_its_words(book):
    assert marked(book, problem(2, 3))["Pieces"]["C2"].comment.text.startswith("ask the client\n\nHeight is")


def test_rows_sheets_and_merged_cells_are_marked_where_they_can_be(book):
    made = marked(
        book, problem(3, 0), problem(6, 2, code="P301"), problem(0, 0, sheet="It's odd"), problem(99, 0, code="P302")
    )
    pieces = made["Pieces"]
    assert "P204" in pieces["C3"].comment.text  # the first filled cell of the row
    assert "P301" in pieces["A5"].comment.text
    assert "P302" in pieces["A99"].comment.text
    assert made["It's odd"].sheet_properties.tabColor.rgb == "00E07B00"


def test_the_list_has_a_free_name_and_links_to_every_cell(book):
    made = marked(book, problem(2, 3), problem(3, 0), problem(0, 0, sheet="It's odd"), problem(4, 4, sheet="Gone"))
    assert made.sheetnames == ["Problems 2", "Pieces", "problems", "It's odd"]
    sheet = made.active
    assert sheet.title == "Problems 2"
    found = [
        (row[0].value, row[0].hyperlink.location if row[0].hyperlink else None, row[6].value)
        for row in sheet.iter_rows(min_row=4)
    ]
    assert found == [
        ("Pieces!C2", "'Pieces'!C2", "P204"),
        ("Pieces!3:3", "'Pieces'!A3", "P204"),
        ("It's odd", "'It''s odd'!A1", "P204"),
        ("Gone!D4", None, "P204"),
    ]
    assert "may be missing" in sheet["A2"].value
    assert [s.sheet_view.tabSelected for s in made.worksheets] == [True, False, False, False]


def test_formulas_formats_and_drop_downs_stay(book):
    pieces = marked(book, problem(3, 3))["Pieces"]
    assert pieces["C3"].value == "=1+1"
    assert pieces["C3"].number_format == "0.00"
    assert [str(v.sqref) for v in pieces.data_validations.dataValidation] == ["B2:B9"]
    assert "A5:B6" in {str(r) for r in pieces.merged_cells.ranges}


def test_formulas_keep_the_values_they_carry(tmp_path):
    """So that a copy shows its figures in a previewer, and could be read as a book itself."""
    path, target = tmp_path / "book.xlsx", tmp_path / "m.xlsx"
    carried = {"A1": 2.5, "A2": "a <b> & c", "A3": True, "A4": "#N/A", "A5": 1e-7, "A6": -3}
    with xlsxwriter.Workbook(str(path)) as made:
        sheet = made.add_worksheet("Pieces")
        for address, value in carried.items():
            sheet.write_formula(address, '=IF(1,"<x>",Pieces!$Z$9)', None, value)
        sheet.write_formula("A7", "=TODAY()", made.add_format({"num_format": "d mmm yyyy"}), 48_000)
        sheet.write_array_formula("B1:B2", "{=A1:A2}", None, 2.5)
        sheet.write_string("B3", "=text")
    write_marked_copy(path, target, [problem(1, 1), problem(4, 1)])
    formulas, values = (
        openpyxl.load_workbook(target)["Pieces"],
        openpyxl.load_workbook(target, data_only=True)["Pieces"],
    )
    assert {address: values[address].value for address in carried} == carried
    assert values["A7"].value == datetime(2031, 6, 1)
    assert values["B1"].value == 2.5
    assert formulas["A2"].value == '=IF(1,"<x>",Pieces!$Z$9)'
    assert (formulas["B3"].value, formulas["B3"].data_type) == ("=text", "s")


def test_a_formula_never_calculated_stays_without_a_value(book, tmp_path):
    target = tmp_path / "never calculated.xlsx"
    write_marked_copy(book, target, [problem(3, 3, code="P202", why="Height was never worked out")])
    cell = openpyxl.load_workbook(target)["Pieces"]["C3"]
    assert (cell.value, cell.data_type) == ("=1+1", "s")


@pytest.mark.parametrize(
    "hostile", ["=1+1", "@SUM(1)", "+4", "a\x00b\x0bc \ud800 \ufffe", "x" * 40_000, "http://a.example"]
)
def test_hostile_words_stay_text_and_the_file_opens(book, hostile):
    place = Place(workbook="book.xlsx", sheet="Pieces", row=2, column=1)
    made = marked(
        book, Problem(code="P204", level=Level.HOLD, place=place, why=hostile, fix=hostile, seen=hostile, job=hostile)
    )
    cells = [cell for cell in made.active[4]]
    assert all(cell.data_type in {"s", "inlineStr"} for cell in cells)
    assert cells[3].value[:1] == hostile[:1]


def test_the_same_problems_give_the_same_bytes(book, tmp_path):
    for name in "ab":
        write_marked_copy(book, tmp_path / name, [problem(2, 3), problem(3, 1)])
    assert (tmp_path / "a").read_bytes() == (tmp_path / "b").read_bytes()


def test_macros_stay_in_an_xlsm(tmp_path):
    path, macros = tmp_path / "book.xlsm", tmp_path / "vbaProject.bin"
    macros.write_bytes(b"not really a macro, but kept as it is")
    with xlsxwriter.Workbook(str(path)) as made:
        made.add_vba_project(str(macros))
        sheet = made.add_worksheet("Pieces")
        sheet.write("C2", "8 ft-ish")
        sheet.write_comment("A1", "the owner's")
    write_marked_copy(path, tmp_path / "marked.xlsm", [problem(2, 3)])
    with zipfile.ZipFile(tmp_path / "marked.xlsm") as parts:
        assert parts.read("xl/vbaProject.bin") == macros.read_bytes()
        assert b"macroEnabled" in parts.read("[Content_Types].xml")
        assert len(parts.namelist()) == len(set(parts.namelist()))
    sheet = openpyxl.load_workbook(tmp_path / "marked.xlsm", keep_vba=True)["Pieces"]
    assert (sheet["A1"].comment.text, "P204" in sheet["C2"].comment.text) == ("the owner's", True)


def test_an_ods_book_becomes_an_xlsx_of_its_values(tmp_path):
    path = tmp_path / "book.ods"
    made = OpenDocumentSpreadsheet()
    sheet = table.Table(name="Pieces")
    for line in (["Job", None, "Height"], [], [412, None, "=8"]):
        row = table.TableRow(**({"numberrowsrepeated": 3} if not line else {}))
        for value in line:
            kind = (
                {}
                if value is None
                else {"valuetype": "float", "value": value}
                if isinstance(value, int)
                else {"valuetype": "string"}
            )
            cell = table.TableCell(**kind)
            if isinstance(value, str):
                cell.addElement(text.P(text=value))
            row.addElement(cell)
        row.addElement(table.TableCell(numbercolumnsrepeated=16000))
        sheet.addElement(row)
    sheet.addElement(table.TableRow(numberrowsrepeated=1_000_000))
    made.spreadsheet.addElement(sheet)
    made.save(str(path))
    assert marked_name(path) == "book.ods.xlsx"
    write_marked_copy(path, tmp_path / "m.xlsx", [problem(5, 3)])
    found = openpyxl.load_workbook(tmp_path / "m.xlsx")["Pieces"]
    assert [found[a].value for a in ("A1", "B1", "C1", "A5", "C5")] == ["Job", None, "Height", 412, "=8"]
    assert found["C5"].data_type == "s"
    assert "P204" in found["C5"].comment.text


def test_a_book_that_cannot_be_opened_still_gives_the_list(tmp_path):
    path = tmp_path / "book.xlsx"
    path.write_bytes(b"no workbook")
    write_marked_copy(path, tmp_path / "m.xlsx", [problem(2, 3)])
    made = openpyxl.load_workbook(tmp_path / "m.xlsx")
    assert made.sheetnames == ["Problems"]
    assert "could not be opened" in made.active["A2"].value
    assert made.active["G4"].value == "P204"
