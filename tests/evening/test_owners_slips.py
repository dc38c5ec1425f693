"""What owners stumble over, with the euros sample: a copy left beside the book, one wrong row that concerns many."""

from __future__ import annotations

from shutil import copy

import openpyxl
from scenes import RUN_DATE, SAMPLES, told

from quoting.batch import work_out
from quoting.domain.problems import Level

HEADING_ROW = 4


def folder_of(tmp_path, **edits):
    """The books of the sample with cells changed: "Sheet" → [(heading, row, value)]."""
    for source in sorted((SAMPLES / "euros").glob("*.xlsx")):
        book = openpyxl.load_workbook(source)
        for sheet, changes in edits.items():
            for heading, row, value in changes if sheet in book.sheetnames else ():
                book[sheet].cell(row, _column(book[sheet], heading)).value = value
        book.save(tmp_path / source.name)
    return tmp_path


def _column(sheet, heading):
    return next(c.column for c in sheet[HEADING_ROW] if str(c.value).split(" (")[0] == heading)


def lines_of(folder, *options):
    code, out, err = told(["check", folder, "--date", RUN_DATE.isoformat(), *options])
    assert err == ""
    return code, out.splitlines()


def test_a_backup_in_the_folder_is_one_line(tmp_path):
    folder = folder_of(tmp_path)
    copy(folder / "jobs summer.xlsx", folder / "jobs summer (copy).xlsx")
    code, lines = lines_of(folder)
    assert code == 2
    said = [line for line in lines if line.endswith("]")]
    assert len(said) == 1 and "look like two copies of one book" in said[0]
    assert "jobs summer.xlsx" in said[0] and "jobs summer (copy).xlsx" in said[0]
    code, _, err = told(["quote", folder, "--date", RUN_DATE.isoformat(), "--into", tmp_path / "evening"])
    assert (code, err) == (2, "")


def test_a_wrong_delivery_row_is_two_lines_on_the_screen_and_marks_every_job(tmp_path):
    folder = folder_of(tmp_path, Delivery=[("Charge", 5, "free")])
    _, lines = lines_of(folder)
    (line,) = [line for line in lines if "[P425]" in line]
    report = work_out([folder], RUN_DATE)
    marked = [p for p in report.problems if p.code == "P425"]
    assert len(marked) > 2
    assert line.endswith(f"(holds {len(marked)} jobs)  [P425]")


def test_mistakes_of_the_pieces_of_a_held_job_are_told_in_the_same_round(tmp_path):
    folder = folder_of(tmp_path, Jobs=[("Client", 5, None)], Pieces=[("Colours", 5, "pumpkin")])
    report = work_out([folder], RUN_DATE)
    stops = [p for p in report.problems if p.level is not Level.NOTE]
    assert [p.code for p in stops] == ["P301", "P504"]
    assert stops[0].job == stops[1].job != ""
    assert sum(result.sheet is None for result in report.results) == 1


def test_example_prices_in_use_are_one_note(tmp_path):
    sheet = openpyxl.load_workbook(SAMPLES / "euros" / "price sheets.xlsx")["Balloons"]
    rows = [row for row in range(HEADING_ROW + 1, sheet.max_row + 1) if sheet.cell(row, 1).value]
    example = [("Where the figure comes from", row, "example price, type your own") for row in rows]
    before = work_out([SAMPLES / "euros"], RUN_DATE).problems
    report = work_out([folder_of(tmp_path, Balloons=example)], RUN_DATE)
    (note,) = [p for p in report.problems if p not in before]
    assert (note.code, note.level, note.place.sheet) == ("P488", Level.NOTE, "Balloons")


def test_an_unknown_form_lists_them_all(tmp_path):
    _, lines = lines_of(folder_of(tmp_path, Pieces=[("Form", 5, "thingamajig")]))
    (line,) = [line for line in lines if "[P302]" in line]
    assert "ring column" in line and "hire item" in line and "wall" in line
