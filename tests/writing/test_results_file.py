"""results.json: its schema, its keys, its figures."""

from __future__ import annotations

import json
from dataclasses import replace
from decimal import Decimal

import pytest
from evenings_made import report
from jsonschema import Draft202012Validator
from jsonschema.exceptions import ValidationError

from quoting.writing.results_file import results_data, results_schema, write_results


def check(data) -> None:
    Draft202012Validator(results_schema(), format_checker=Draft202012Validator.FORMAT_CHECKER).validate(data)


def test_the_schema_is_one_and_describes_every_key():
    schema = results_schema()
    Draft202012Validator.check_schema(schema)
    data = results_data(report())
    check(data)
    unknown = []

    def walk(value, part, path):
        part = schema["$defs"][part["$ref"].rpartition("/")[2]] if "$ref" in part else part
        branches = [part, *(b for b in part.get("anyOf", ()) if b.get("type") == "object")]
        if isinstance(value, dict) and not any("additionalProperties" in b for b in branches):
            known = {key: sub for branch in branches for key, sub in branch.get("properties", {}).items()}
            unknown.extend(f"{path}.{key}" for key in value if key not in known)
            for key, inner in value.items():
                walk(inner, known.get(key, {}), f"{path}.{key}")
        if isinstance(value, list):
            for inner in value:
                walk(inner, part.get("items", {}), path)

    walk(data, schema, "")
    assert unknown == []


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (("jobs", 0, "total"), 12.5),
        (("jobs", 0, "status"), "done"),
        (("jobs", 3, "number"), "Q-1"),
        (("jobs", 0, "number"), None),
        (("run", "date"), "14 May 2031"),
        (("problems", 0, "code"), "X"),
        (("buying", 0, "packs", 0, "packs"), 0),
        (("layout",), 2),
    ],
)
def test_the_schema_refuses_what_is_wrong(path, value):
    data = results_data(report())
    inner = data
    for key in path[:-1]:
        inner = inner[key]
    inner[path[-1]] = value
    with pytest.raises(ValidationError):
        check(data)


def test_keys_of_the_design_are_there_in_its_order():
    data = results_data(report())
    assert list(data) == ["layout", "run", "jobs", "buying", "days", "problems", "purchase"]
    fixed = [
        "job",
        "number",
        "revision",
        "status",
        "client",
        "event_date",
        "subtotal",
        "discount",
        "tax",
        "total",
        "deposit",
        "cost",
        "margin",
        "pieces",
        "flags",
        "files",
    ]
    for job in data["jobs"]:
        assert [key for key in job if key in fixed] == fixed
    assert list(data["jobs"][0]["pieces"][0]) == ["piece", "form", "quantity", "count", "balloons", "hours", "built"]


def test_figures_are_those_of_the_job_sheets():
    told = report()
    data = results_data(told)
    for job, sheet in zip(data["jobs"], told.sheets, strict=False):
        assert Decimal(job["total"]) == sheet.quote.totals.total
        assert [Decimal(tax["amount"]) for tax in job["tax"]] == [line.amount for line in sheet.quote.totals.taxes]
        for line in sheet.stock:
            uses = [b for piece in job["pieces"] for b in piece["balloons"] if b["item"] == line.item]
            if uses:  # hardware is in the stock too
                assert sum(use["need"] for use in uses) == line.need
                assert sum(use["with_spares"] for use in uses) == line.with_spares
                assert all(use["with_spares"] >= use["need"] for use in uses)
        for piece, made in zip(job["pieces"], sheet.pieces, strict=True):
            assert (
                piece["count"] == sum(b["need"] for b in piece["balloons"]) == made.plan.balloon_count * made.quantity
            )
    arch = data["jobs"][0]["pieces"][0]
    assert (arch["form"], arch["count"], arch["built"]["width"]) == (
        "packed arch",
        116,
        pytest.approx(332.26, abs=0.01),
    )
    assert data["jobs"][1]["flags"] == [{"code": "P535", "why": "turns is not used with a solid colour"}]
    days = {day["date"]: day for day in data["days"]}
    assert days["2031-06-14"]["jobs"] == ["0412", "0413", "0414"]
    assert (days["2031-06-14"]["available"], days["2031-06-14"]["overbooked"]) == (1, True)
    assert sum(day["venue"] for day in data["days"]) == pytest.approx(float(sum(s.hours.venue for s in told.sheets)))
    assert [visit["kind"] for visit in data["jobs"][0]["visits"]] == [v.kind for v in told.sheets[0].visits]


def test_a_held_job_has_no_figures_and_no_files():
    held = results_data(report())["jobs"][3]
    assert (held["status"], held["total"], held["pieces"], held["files"]) == ("held", None, [], {})


def test_places_are_given_as_office_software_shows_them():
    problems = results_data(report())["problems"]
    assert [(p["workbook"], p["sheet"], p["cell"]) for p in problems] == [
        ("broken.xlsx", "", ""),
        ("jobs.xlsx", "Jobs", "2:2"),
        ("jobs.xlsx", "Pieces", "G7"),
        ("jobs.xlsx", "Pieces", "I7"),
    ]


def test_the_file_is_the_data_and_the_same_twice(tmp_path):
    data = results_data(report())
    for name in "ab":
        write_results(tmp_path / name, data)
    written = (tmp_path / "a").read_bytes()
    assert written == (tmp_path / "b").read_bytes()
    assert written.endswith(b"}\n") and b"\r" not in written
    assert json.loads(written) == data


def test_what_is_bought_stands_there_with_its_decimals_and_adds_up():
    data = results_data(report())
    assert data["buying"][0]["needed_by"] == "2031-06-13" and data["buying"][0]["jobs"] == ["0412", "0413"]
    bought = data["purchase"]
    assert [order["supplier"] for order in bought["orders"]] == ["Canal Street Wholesale", "Mill: Lane/Supplies"]
    assert bought["orders"][0]["lines"][1]["measure"] == "litres"
    assert sum(Decimal(order["total"]) for order in bought["orders"]) == Decimal(bought["total"])
    assert sum(Decimal(s["goods"]) + Decimal(s["delivery"]) for s in bought["job_costs"]) == Decimal(bought["total"])
    assert bought["helium"]["cylinders"][0]["deposit"] == "150.00"
    assert bought["clashes"][0]["jobs"] == [{"job": "0412", "count": 1}, {"job": "0414", "count": 2}]
    assert bought["shortages"][0]["comes"] == "2031-06-02"
    check(data)


def test_an_evening_that_buys_nothing_has_the_key_all_the_same():
    data = results_data(replace(report(), purchase=None, buying=()))
    assert data["purchase"]["orders"] == [] and data["purchase"]["helium"] is None
    check(data)
