"""Every flag of the site is shown by a sample job, on every paper where it belongs."""

from __future__ import annotations

import json

import openpyxl
from scenes import jobs_of, report_of

from quoting.domain.codes import CODES

SITE_CODES = {code for code in CODES if code.startswith("P7")}


def flags():
    return [(job, flag) for job, sheet in jobs_of("dollars").items() for flag in sheet.flags]


def test_every_flag_is_shown_by_a_sample_job():
    shown = {flag.code for _, flag in flags()}
    held = {p.code for p in report_of("faulty").problems if p.level == "hold"}
    assert SITE_CODES - shown == {"P701"}
    assert "P701" in held


def test_notes_are_flags_too_and_flags_hold_nothing():
    notes = {(p.job, p.code, p.why) for p in report_of("dollars").problems if p.code in SITE_CODES}
    assert notes
    assert notes <= {(job, flag.code, flag.what) for job, flag in flags()}
    assert not {p.code for p in report_of("dollars").problems if p.code in SITE_CODES and p.level != "note"}


def test_the_front_page_says_every_flag_with_its_figures(evenings):
    papers = {path.name: path for path in (evenings["dollars"] / "workshop").iterdir()}
    for job, setting in (("431-wind", "outdoors"), ("433-hall", "indoors, draughty"), ("434-float", "indoors")):
        (path,) = [path for name, path in papers.items() if job in name]
        book = openpyxl.load_workbook(path, data_only=True)
        text = "\n".join(str(c.value) for row in book["Workshop"].iter_rows() for c in row if c.value is not None)
        assert "a competent person and the local code decide" in text
        assert setting in text.split("\n")
        for flag in jobs_of("dollars")[job].flags:
            assert flag.what[1:] in text
            assert flag.to_do[1:] in text
            for figure in flag.figures:
                assert f"{figure.label}: {figure.shown}" in text
        steps = {row[0].value for row in book["Workings"].iter_rows()}
        assert "Fit, stand and last: for planning, a competent person and the local code decide" in steps


def test_results_carry_the_figures_in_one_unit_each(evenings):
    jobs = json.loads((evenings["dollars"] / "results.json").read_text("utf-8"))["jobs"]
    told = {(job["job"], flag["code"], flag.get("piece")): flag for job in jobs for flag in job["flags"]}
    for job, flag in flags():
        found = told[job, flag.code, flag.piece or None]
        units = {figure["label"]: figure["unit"] for figure in found["figures"]}
        assert units == {figure.label: figure.unit for figure in flag.figures}
    for job in jobs:
        said = [(flag["code"], flag["why"]) for flag in job["flags"]]
        assert len(said) == len(set(said)), job["job"]


def test_clients_read_what_they_must_act_on(evenings):
    cautions = {job: "\n".join(sheet.quote.cautions) for job, sheet in jobs_of("dollars").items()}
    for job, words in (
        ("431-wind", "when the wind reaches 5.0 m/s (11 mph), called gentle breeze"),
        ("431-wind", "small children away"),
        ("432-foyer", "nearer than 18 in (46 cm) to the sprinklers"),
        ("434-float", "Table bouquet: the balloons float for about 14 h"),
        ("401", "We have planned for a ceiling at least 8 ft 11 in high"),
    ):
        assert words in cautions[job], job
