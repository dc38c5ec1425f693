"""Pictures where owner and client see them: beside their lines, on the build pages, in the sample books."""

from __future__ import annotations

import hashlib
import re
import zipfile
from datetime import date
from functools import cache
from pathlib import Path

import pytest
from form_examples import planned_examples
from openpyxl import load_workbook
from sheets_made import party, sheet

from quoting.batch import work_out
from quoting.writing.pictures.elevation import draw_piece, has_picture
from quoting.writing.pictures.job_pictures import job_pictures
from quoting.writing.pictures.scene import balloons_drawn
from quoting.writing.pictures.view import extent_of
from quoting.writing.quote_workbook import write_quote
from quoting.writing.workshop_workbook import write_workshop

SAMPLES = Path(__file__).parent.parent.parent / "sample_workbooks"
COLUMN = {"form": "ring column", "rings": 5, "colours": ("ivory",), "size": 11}


@cache
def sample_pieces():
    return tuple((made, piece) for name in ("dollars", "euros", "forms")
                 for made in work_out([SAMPLES / name], date(2031, 5, 14)).sheets for piece in made.pieces)


def pictured_quote(tmp_path, job_sheet):
    path = tmp_path / "quote.xlsx"
    write_quote(path, job_sheet.quote, job_pictures(job_sheet))
    return path


def drawings(path):
    """(row from 0, column from 0, text) of every picture of a workbook's first sheet, in the order of rows."""
    with zipfile.ZipFile(path) as packed:
        xml = packed.read("xl/drawings/drawing1.xml").decode("utf-8")
    anchors = re.findall(r"<xdr:from>(.*?)</xdr:from>.*?<xdr:cNvPr[^>]*?descr=\"([^\"]*)\"", xml, re.S)
    found = []
    for start, text in anchors:
        column, row = (int(re.search(f"<xdr:{key}>(\\d+)</xdr:{key}>", start).group(1)) for key in ("col", "row"))
        found.append((row, column, text))
    return sorted(found)


def test_every_balloon_of_the_sample_books_is_drawn_or_said_to_be_hidden():
    wrong = [(made.job, piece.label, balloons_drawn(piece.plan), piece.plan.hidden, piece.plan.balloon_count)
             for made, piece in sample_pieces()
             if balloons_drawn(piece.plan) + piece.plan.hidden != piece.plan.balloon_count]
    assert not wrong


@pytest.mark.parametrize("is_metric", [False, True])
def test_every_balloon_of_every_forms_example_is_drawn_or_said_to_be_hidden(is_metric):
    plans, looks = planned_examples(is_metric=is_metric)
    assert len(plans) >= 18
    counts = {name: (balloons_drawn(plan) + plan.hidden, plan.balloon_count) for name, plan in plans.items()}
    assert {name: both for name, both in counts.items() if both[0] != both[1]} == {}
    undrawn = {name for name, plan in plans.items() if not has_picture(plan)}
    assert undrawn == {"hire item", "own build", "service"}
    for name in plans.keys() - undrawn:
        for size in ({"larger": False}, {"larger": True, "numbered_layers": True}):
            assert len(draw_piece(plans[name], looks, unit="in", **size)) < 120_000, name


def test_the_built_size_is_about_what_is_drawn():
    """Height and width of the outline against the extent of the picture: within the width of a balloon."""
    plans, _ = planned_examples()
    for name, plan in plans.items():
        drawn, said = extent_of(plan), plan.outline
        if drawn is not None and said is not None:
            slack = max(position.diameter_cm for position in plan.positions)
            assert abs(drawn.width - said.width_cm) <= slack, name
            assert min(abs(drawn.height - said.height_cm), abs(drawn.top - said.height_cm)) <= slack, name


def test_every_picture_of_the_sample_books_is_small_in_bytes():
    sheets = {id(made): made for made, _ in sample_pieces()}.values()
    both = [drawn for made in map(job_pictures, sheets) for drawn in (made.for_quote(400), made.for_workshop())]
    pictures = [picture for drawn in both for picture in drawn.values()]
    assert len(pictures) > 130
    assert max(len(picture.png) for picture in pictures) < 120_000


def test_a_picture_stands_in_the_row_below_its_line(tmp_path):
    made = party()
    path = pictured_quote(tmp_path, made)
    cells = load_workbook(path).active
    titles = {cells.cell(row, 2).value: row for row in range(1, cells.max_row + 1)}
    shown = drawings(path)
    assert [(row, text.split(",")[0]) for row, _, text in shown] == [
        (titles[piece.title], f"Drawing to scale of a {piece.title}") for piece in made.pieces]
    for row, column, _ in shown:
        assert column >= 1
        high = cells.row_dimensions[row + 1].height
        assert high > 70  # points: the least height of a picture is 200 of 203 pixels to the inch


def test_pictures_stay_within_their_rows_and_the_printed_columns(tmp_path):
    images = load_workbook(pictured_quote(tmp_path, party())).active._images
    assert len(images) == 3
    for image in images:
        start, end = image.anchor._from, image.anchor.to
        assert end.row == start.row
        assert end.col <= 4


def test_the_picture_of_a_small_job_leaves_it_on_one_page(tmp_path):
    made = sheet([COLUMN])
    without = tmp_path / "plain.xlsx"
    write_quote(without, made.quote)
    assert load_workbook(without).active.sheet_properties.pageSetUpPr.fitToPage
    assert load_workbook(pictured_quote(tmp_path, made)).active.sheet_properties.pageSetUpPr.fitToPage


def test_the_words_of_a_picture_say_what_is_in_it(tmp_path):
    (_, _, text), = drawings(pictured_quote(tmp_path, sheet([COLUMN])))
    assert "20 balloons: 20 matt ivory" in text
    assert "tall" in text


def test_the_picture_in_the_file_is_the_one_that_was_drawn(tmp_path):
    made = sheet([COLUMN])
    with zipfile.ZipFile(pictured_quote(tmp_path, made)) as packed:
        held = {hashlib.sha256(packed.read(name)).digest() for name in packed.namelist() if name.endswith(".png")}
    possible = [hashlib.sha256(picture.png).digest() for height in (400, 330, 270, 230, 200)
                for picture in job_pictures(made).for_quote(height).values()]
    assert len(held) == 1
    assert held <= set(possible)


@pytest.mark.parametrize("write", [
    lambda path, made: write_quote(path, made.quote, job_pictures(made)),
    lambda path, made: write_workshop(path, made, job_pictures(made)),
])
def test_pictured_papers_have_the_same_bytes_twice(tmp_path, write):
    for name in ("one.xlsx", "two.xlsx"):
        write(tmp_path / name, party())
    assert (tmp_path / "one.xlsx").read_bytes() == (tmp_path / "two.xlsx").read_bytes()


def test_build_pages_have_the_larger_picture(tmp_path):
    made = party()
    path = tmp_path / "workshop.xlsx"
    write_workshop(path, made, job_pictures(made))
    book = load_workbook(path)
    for piece in made.pieces:
        images = book[f"Build {piece.label}"]._images
        assert len(images) == int(has_picture(piece.plan))
        assert all(max(image.width, image.height) > 640 for image in images)


def test_a_piece_without_a_picture_has_its_details_as_before(tmp_path):
    made = sheet([{"form": "hire item", "item": "Arch frame 10 ft"}])
    plain, pictured = tmp_path / "plain.xlsx", pictured_quote(tmp_path, made)
    write_quote(plain, made.quote)
    assert plain.read_bytes() == pictured.read_bytes()
