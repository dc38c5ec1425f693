"""OpenDocument workbooks: cells as odfpy and office software write them."""

from __future__ import annotations

from datetime import date, datetime, time
from decimal import Decimal
from pathlib import Path

import odf.office
import office
import pytest
from odf.opendocument import OpenDocumentSpreadsheet
from odf.table import CoveredTableCell, Table, TableCell, TableRow
from odf.text import LineBreak, P, S
from workbook_parts import write_parts

from quoting.checking.layouts import book_layouts
from quoting.domain.cells import Cell
from quoting.reading.tables import read_tables
from quoting.reading.workbooks import read_book

ROOT = Path(__file__).parent.parent.parent


def cell(text: str = "", *, kind: str = "string", **more) -> TableCell:
    made = TableCell(valuetype=kind, **more)
    if text:
        made.addElement(P(text=text))
    return made


def saved(tmp_path: Path, rows: list[TableRow], name: str = "Jobs") -> dict[str, Cell]:
    document = OpenDocumentSpreadsheet()
    table = Table(name=name)
    for row in rows:
        table.addElement(row)
    document.spreadsheet.addElement(table)
    document.save(tmp_path / "book.ods")
    outcome = read_book(tmp_path / "book.ods")
    assert outcome.problems == ()
    (sheet,) = outcome.value.sheets
    assert sheet.name == name
    return {c.place.cell: c for cells in sheet.rows.values() for c in cells.values()}


def row_of(*cells: object, **more) -> TableRow:
    row = TableRow(**more)
    for one in cells:
        row.addElement(one)
    return row


def test_every_kind_of_cell(tmp_path):
    found = saved(
        tmp_path,
        [
            row_of(
                cell("Fernhill"),
                cell("8.5", kind="float", value="8.5"),
                cell("12 %", kind="percentage", value="0.12"),
                cell("£40", kind="currency", value="40", currency="GBP"),
                cell("TRUE", kind="boolean", booleanvalue="true"),
                cell("14/05/31", kind="date", datevalue="2031-05-14"),
                cell("x", kind="date", datevalue="2031-05-14T18:30:00"),
                cell("14:30", kind="time", timevalue="PT14H30M00S"),
                cell("412", kind="float", value="412"),
            )
        ],
    )
    assert [found[f"{letter}1"].value for letter in "ABCDEFGHI"] == [
        "Fernhill",
        Decimal("8.5"),
        Decimal("0.12"),
        40,
        True,
        date(2031, 5, 14),
        datetime(2031, 5, 14, 18, 30),
        time(14, 30),
        412,
    ]
    assert found["C1"].number_format == "0%"
    assert "GBP" in found["D1"].number_format


def test_repeated_cells_and_rows_keep_their_physical_numbers(tmp_path):
    gap = TableCell(numbercolumnsrepeated=3)
    found = saved(
        tmp_path,
        [
            row_of(cell("a"), gap, cell("b", numbercolumnsrepeated=2)),
            row_of(TableCell(), numberrowsrepeated=5),
            row_of(cell("c"), numberrowsrepeated=2),
            row_of(TableCell(numbercolumnsrepeated=16384), numberrowsrepeated=1048568),
        ],
    )
    assert {a: c.value for a, c in found.items()} == {"A1": "a", "E1": "b", "F1": "b", "A7": "c", "A8": "c"}


def test_merged_cells_notes_lines_and_spaces(tmp_path):
    noted = TableCell(valuetype="string", numbercolumnsspanned=2, numberrowsspanned=2)
    note = odf.office.Annotation()
    note.addElement(P(text="call them back"))
    noted.addElement(note)
    line = P(text="3 Willow")
    line.addElement(S(c=2))
    line.addText("Lane")
    line.addElement(LineBreak())
    line.addText("Fernhill")
    noted.addElement(line)
    hidden = CoveredTableCell(valuetype="string")
    hidden.addElement(P(text="hidden below"))
    found = saved(tmp_path, [row_of(noted, hidden), row_of(CoveredTableCell(numbercolumnsrepeated=2))])
    assert {c.value for c in found.values()} == {"3 Willow  Lane\nFernhill"}
    # The sheet is filled in its first row and column only, so the merge reaches no further.
    assert sorted(found) == ["A1"]


def test_formulas(tmp_path):
    found = saved(
        tmp_path,
        [
            row_of(
                cell("8", kind="float", value="8", formula="of:=2*4"),
                cell(formula='of:=""'),
                TableCell(formula="of:=2*4"),
                cell("#REF!", formula="of:=#REF!"),
                cell("Err:502", formula="of:=A("),
                cell("#1 fan"),
            )
        ],
    )
    assert sorted(found) == ["A1", "C1", "D1", "E1", "F1"]
    assert [found[a].is_uncalculated for a in sorted(found)] == [False, True, False, False, False]
    assert [found[a].is_error for a in sorted(found)] == [False, False, True, True, False]
    assert found["A1"].has_formula


def test_locked_and_damaged_files(tmp_path):
    mimetype = "application/vnd.oasis.opendocument.spreadsheet"
    manifest = (
        '<manifest:manifest xmlns:manifest="urn:oasis:names:tc:opendocument:xmlns:manifest:1.0">'
        "<manifest:file-entry><manifest:encryption-data/></manifest:file-entry></manifest:manifest>"
    )
    parts = {"mimetype": mimetype, "content.xml": "gibberish", "META-INF/manifest.xml": manifest}
    (locked,) = read_book(write_parts(tmp_path / "locked.ods", parts)).problems
    (damaged,) = read_book(
        write_parts(tmp_path / "damaged.ods", {"mimetype": mimetype, "content.xml": "<a><b></a>"})
    ).problems
    assert (locked.code, damaged.code) == ("P103", "P101")
    endless = (
        '<t:table xmlns:t="x" t:name="Jobs"><t:table-row t:number-rows-repeated="1048576">'
        '<t:table-cell t:value-type="float" t:value="1" t:number-columns-repeated="16384"/></t:table-row></t:table>'
    )
    (endless_one,) = read_book(
        write_parts(tmp_path / "endless.ods", {"mimetype": mimetype, "content.xml": endless})
    ).problems
    assert endless_one.code == "P105"


@pytest.mark.office
def test_office_software_saves_the_sample_books_as_ods_with_the_same_tables(tmp_path):
    """Independent check: what LibreOffice makes of the .xlsx samples reads the same."""
    # The faulty sample has a formula never calculated, which office software calculates on the way.
    books = [book for book in sorted((ROOT / "sample_workbooks").glob("*/*.xlsx")) if book.parent.name != "faulty"]
    assert len(books) >= 3
    for book, other in zip(books, office.convert(books, "ods", tmp_path), strict=True):
        ours, theirs = (read_tables(read_book(path).value, book_layouts()) for path in (book, other))
        assert len(ours.value) == len(theirs.value) > 1
        for table, same in zip(ours.value, theirs.value, strict=True):
            for row, twin in zip(table.rows, same.rows, strict=True):
                assert row.place.row == twin.place.row
                assert {k: v.value for k, v in row.values.items()} == {k: v.value for k, v in twin.values.items()}
