"""The sample workbooks are what their scenarios say."""

from __future__ import annotations

import openpyxl
import pytest
from samples.make_samples import COMMAND, books_of, write_samples
from scenes import NAMES, SAMPLES

from quoting.forms.registry import all_forms


def test_samples_are_not_stale(tmp_path):
    write_samples(tmp_path)
    made = {str(p.relative_to(tmp_path)): p.read_bytes() for p in tmp_path.rglob("*.xlsx")}
    kept = {str(p.relative_to(SAMPLES)): p.read_bytes() for p in SAMPLES.rglob("*.xlsx")}
    assert sorted(made) == sorted(kept), f"run {COMMAND}"
    stale = [name for name in made if made[name] != kept[name]]
    assert not stale, f"run {COMMAND}"


@pytest.mark.parametrize(("name", "jobs", "pieces"), [
    ("dollars", 12, 40), ("euros", 6, 18), ("forms", 10, 25), ("faulty", 4, 25)])
def test_samples_are_as_big_as_promised(name, jobs, pieces):
    rows = {key: rows for _, book in books_of(name) for key, rows in book.items()}
    assert len(rows["jobs"]) >= jobs
    assert len(rows["pieces"]) >= pieces


@pytest.mark.parametrize("name", NAMES)
def test_every_typed_value_stands_in_the_book(name):
    """Read back with openpyxl: as many job and piece rows as the scenario has, each with its key in place."""
    for file, rows in books_of(name):
        book = openpyxl.load_workbook(SAMPLES / name / file)
        for key in ("jobs", "pieces"):
            if key not in rows:
                continue
            cells = {str(cell.value) for row in book[key.capitalize()].iter_rows() for cell in row}
            for row in rows[key]:
                for typed in row.values():
                    if isinstance(typed, (str, int)):
                        assert str(typed) in cells, (file, key, typed)


def test_the_dollar_and_euro_pieces_use_every_form_and_pattern():
    pieces = [row for name in ("dollars", "euros") for _, book in books_of(name) for row in book.get("pieces", [])]
    assert {row["form"] for row in pieces} <= {form.name for form in all_forms()}
    assert {row["form"] for row in pieces} >= {
        "ring column", "graduated column", "packed arch", "own build", "hire item", "service",
    }
    assert {row["pattern"] for row in pieces if "pattern" in row} == {"solid", "spiral", "bands", "blocks", "mix"}
    assert {row["curve"] for row in pieces if "curve" in row} == {
        "semicircle", "semi-ellipse", "catenary", "parabola", "square", "full hoop", "half hoop",
    }


def test_the_sample_of_forms_shows_every_form():
    """Each that gives a plan, at least once; columns of 3, 5 and 6 per ring, repeated fills, every grid and route."""
    pieces = [row for _, book in books_of("forms") for row in book["pieces"]]
    assert {row["form"] for row in pieces} == {form.name for form in all_forms() if not form.is_refused}
    assert {row["per_ring"] for row in pieces if row["form"] == "ring column" and "per_ring" in row} == {3, 5, 6}
    assert {row["grid"] for row in pieces if "grid" in row} == {"square", "staggered", "organic"}
    assert {row["route"] for row in pieces if row["form"] == "garland"} == {"swag", "draped", "up and across"}
    assert any(row.get("repeat") == "yes" for row in pieces)
    parts = {row["item"]: row["part"] for _, book in books_of("forms") for row in book["hardware"]}
    tied = [accent.split(" x ")[-1] for row in pieces for accent in str(row.get("accents", "")).split(", ") if accent]
    assert {parts.get(name, "balloon") for name in tied} >= {"tassel", "greenery", "lights", "decoration", "balloon"}
    assert {place for row in pieces for place in str(row.get("accents_at", "")).split(", ")} >= {
        "along", "foot", "middle", "top",
    }
