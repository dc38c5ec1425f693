"""Builds the sample workbooks from the scenarios beside this file; the same bytes every time.

    python tests/samples/make_samples.py            writes sample_workbooks/
"""

from __future__ import annotations

import re
import sys
import tomllib
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

SCENARIOS = Path(__file__).parent
ROOT = SCENARIOS.parent.parent
NAMES = ("dollars", "euros", "faulty")
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
    """Every sheet's rows: key → what is typed. The Shop sheet is one row."""
    sheets: Rows = {key: [_typed(row) for row in rows] for key, rows in told["sheets"].items()}
    ranges = [_typed(row) for each in told["ranges"] for row in _range_rows(each)]
    return {"shop": [_typed({**told["shop"], "layout": 1})], **sheets, "balloons": [*ranges, *sheets["balloons"]]}


def _range_rows(told: Mapping) -> Iterator[CellRow]:
    """A size and finish in several colours: a row for each colour and pack."""
    shared = {key: told[key] for key in ("usual_fill", "supplier", "sell_each", "breakage", "charge_by") if key in told}
    for colour in told["colours"]:
        item = f"{told['shape']} {told['size']} {told['finish']} {colour}".capitalize()
        for count, price in told["packs"]:
            row = {"item": item, **{key: told[key] for key in ("shape", "size", "finish")}, "colour": colour, **shared}
            if colour in told.get("on_hand", {}):
                row["on_hand"] = told["on_hand"][colour]
            yield {**row, "pack": count, "pack_price": price}


def _typed(row: Mapping) -> CellRow:
    """A row as office software takes it in: a single percent turns into a number shown as one."""
    return {key: _percent(value) if isinstance(value, str) else value for key, value in row.items()}


def _percent(text: str) -> object:
    found = re.fullmatch(r"(\d+(?:\.\d+)?) ?%", text)
    return {"percent": round(float(found[1]) / 100, 10)} if found else text


def books_of(name: str) -> list[tuple[str, Rows]]:
    """The workbooks of a scenario: file name → rows of its sheets."""
    told = scenario(name)
    rows = rows_of(told)
    if "jobs_book" not in told:
        return [(told["book"], rows)]
    prices = {key: value for key, value in rows.items() if key not in JOB_SHEETS}
    return [(told["book"], prices), (told["jobs_book"], {key: rows[key] for key in JOB_SHEETS})]
