"""Builds the sample workbooks from the scenarios beside this file; the same bytes every time.

    python tests/samples/make_samples.py            writes sample_workbooks/
"""

from __future__ import annotations

import re
import sys
import tomllib
from collections.abc import Iterator, Mapping
from decimal import Decimal
from pathlib import Path

if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).parent.parent.parent))

from quoting.checking.layouts import book_layouts
from quoting.writing.blank_book import write_blank_book
from quoting.writing.blank_cells import TypedFormula
from quoting.writing.starting_rows import starting_rows

SCENARIOS = Path(__file__).parent
ROOT = SCENARIOS.parent.parent
NAMES = ("dollars", "euros", "forms", "faulty")
JOB_SHEETS = ("jobs", "pieces", "adjustments")
COMMAND = "python tests/samples/make_samples.py"

CellRow = dict[str, object]
Rows = dict[str, list[CellRow]]


def scenario(name: str) -> dict:
    """One scenario as its file has it, the price sheets of another one put below it."""
    told = tomllib.loads((SCENARIOS / f"{name}.toml").read_text("utf-8"))
    shared = told.get("price_sheets_of")
    if not shared:
        return told
    prices = tomllib.loads((SCENARIOS / shared).read_text("utf-8"))
    own = told["sheets"]
    sheets = {
        key: [*(prices["sheets"][key] if key not in JOB_SHEETS else ()), *own.get(key, ())] for key in prices["sheets"]
    }
    return {**prices, **told, "sheets": sheets}


def rows_of(told: Mapping) -> Rows:
    """Every sheet's rows: key → what is typed. The Shop sheet is one row.

    Activities that the scenario does not speak of keep the blank book's rates, as they would with an owner.
    """
    sheets: Rows = {key: [_typed(row) for row in rows] for key, rows in told["sheets"].items()}
    ranges = [_typed(row) for each in told["ranges"] for row in _range_rows(each)]
    measured = {row["activity"] for row in sheets["labour"]}
    starting = starting_rows(is_metric=told["metric"])["labour"]
    return {
        "shop": [_typed({**told["shop"], "layout": 1})],
        **sheets,
        "balloons": [*ranges, *sheets["balloons"]],
        "labour": [*sheets["labour"], *(dict(row) for row in starting if row["activity"] not in measured)],
    }


def _range_rows(told: Mapping) -> Iterator[CellRow]:
    """A size and finish in several colours: a row for each colour and pack."""
    of_all = ("usual_fill", "supplier", "sell_each", "breakage", "charge_by", "hours_afloat")
    shared = {key: told[key] for key in of_all if key in told}
    for colour in told["colours"]:
        item = f"{told['shape']} {told['size']} {told['finish']} {colour}".capitalize()
        for count, price in told["packs"]:
            row = {"item": item, **{key: told[key] for key in ("shape", "size", "finish")}, "colour": colour, **shared}
            if colour in told.get("on_hand", {}):
                row["on_hand"] = told["on_hand"][colour]
            yield {**row, "pack": count, "pack_price": price}


def _typed(row: Mapping) -> CellRow:
    return {key: _as_typed(value) for key, value in row.items()}


def _as_typed(value: object) -> object:
    """A single percent turns into a number shown as one; a table of the scenario is a formula."""
    if isinstance(value, Mapping):
        return TypedFormula(**value)
    found = re.fullmatch(r"(\d+(?:\.\d+)?) ?%", value) if isinstance(value, str) else None
    return Decimal(found[1]) / 100 if found else value


def books_of(name: str) -> list[tuple[str, Rows]]:
    """The workbooks of a scenario: file name → rows of its sheets."""
    told = scenario(name)
    rows = rows_of(told)
    if "jobs_book" not in told:
        return [(told["book"], rows)]
    prices = {key: value for key, value in rows.items() if key not in JOB_SHEETS}
    return [(told["book"], prices), (told["jobs_book"], {key: rows[key] for key in JOB_SHEETS})]


def write_samples(into: Path) -> list[Path]:
    """Write every sample workbook below a folder: dollars/…, euros/…, forms/…, faulty/…"""
    written = []
    for name in NAMES:
        (into / name).mkdir(parents=True, exist_ok=True)
        for file, rows in books_of(name):
            layouts = [layout for layout in book_layouts() if layout.key in rows]
            path = into / name / file
            write_blank_book(path, layouts, rows, is_metric=scenario(name)["metric"], title=path.stem)
            written.append(path)
    return written


if __name__ == "__main__":
    for path in write_samples(ROOT / "sample_workbooks"):
        sys.stdout.write(f"{path.relative_to(ROOT)}\n")
