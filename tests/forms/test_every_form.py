"""What holds for every form a shop sells, shown on each form's own example: a new form is tested as soon as it exists.

The examples are planned from real workbooks with the starting rows of the blank book:
one in feet and inches, one in which every measure of them is typed in metric units.
"""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace
from datetime import date
from decimal import Decimal
from functools import cache

import pytest

from quoting.batch import price_job
from quoting.checking.books import check_tables
from quoting.checking.layouts import book_layouts, layout_of
from quoting.checking.wording import wording_rows
from quoting.domain.cells import Kind
from quoting.domain.looks import looks_of
from quoting.forms.registry import all_forms, form_named
from quoting.reading.tables import read_tables
from quoting.reading.workbooks import read_book
from quoting.writing.blank_book import write_blank_book
from quoting.writing.pictures.elevation import draw_piece, has_picture
from quoting.writing.pictures.scene import balloons_drawn
from quoting.writing.starting_rows import starting_rows

RUN_DATE = date(2031, 5, 14)
FORMS = [form.name for form in all_forms() if not form.is_refused]
WITHOUT_SIZE = {"hire item", "service"}
GROWING = ("height", "width", "length", "sag", "leg", "depth", "count", "rings", "twisters")
"""Columns whose larger value makes a larger piece. A higher tip makes a half arch shorter, a wider spacing sparser."""

# Exact by definition: foot and inch, pound (international yard and pound agreement, 1959), mile.
METRIC = {"ft": ("cm", Decimal("30.48")), "in": ("cm", Decimal("2.54")), "lb": ("kg", Decimal("0.45359237")),
          "mi": ("km", Decimal("1.609344"))}
LENGTH = re.compile(r"(\d+(?:\.\d+)?) (ft|in)\b")


def variants(form) -> dict[str, dict[str, str]]:
    """The form's example and changes of it: what is typed, under a name for the change."""
    typed, keys = dict(form.example), {field.key for field in form.fields}
    found = {"example": typed}
    for key in GROWING:
        if key in typed:
            found[f"larger {key}"] = {**typed, key: grown(typed[key])}
    if "colours" in keys and "colours" in typed:
        found["many colours"] = {**typed, **coloured("white, pink", "bands", keys)}
        found["one colour"] = {**typed, **coloured("white", "solid", keys)}
        if form.name == "own build":  # its rows ask for a second colour
            found["one colour"] = {**typed, "colours": "white, white"}
        if form.name == "twisted figure":
            found["many colours"] |= {"twisters": "5, 1"}
            found["one colour"] |= {"twisters": "6"}
    if "faces" in keys:
        found |= {f"{faces} faces": {**typed, "faces": faces} for faces in ("one", "both")}
    return found


def coloured(colours, pattern, keys):
    return {"colours": colours, "shares": "", **({"pattern": pattern} if "pattern" in keys else {})}


def grown(text: str) -> str:
    """A quarter more of a length; one more of the first count."""
    if LENGTH.fullmatch(text):
        number, unit = LENGTH.fullmatch(text).groups()
        return f"{Decimal(number) * 5 / 4:f} {unit}"
    first, *rest = text.split(", ")
    return ", ".join([str(int(first) + 1), *rest])


def in_metric(key: str, row) -> dict:
    """One row of a sheet with every measure in metric units, exactly."""
    return {name: metric_value(layout_of(key).column(name), value) for name, value in row.items()}


def metric_value(column, value):
    if column.kind in (Kind.LENGTH, Kind.LENGTHS, Kind.MASS, Kind.DISTANCE) and not isinstance(value, str):
        _, factor = METRIC[column.units[0]] if column.units else ("", Decimal(1))
        return Decimal(value) * factor
    if column.kind in (Kind.LENGTH, Kind.LENGTHS):
        return LENGTH.sub(lambda m: f"{Decimal(m[1]) * METRIC[m[2]][1]:f} cm", value).replace(", ", "; ")
    return value


@cache
def checked(*, is_metric: bool, tmp):
    """Prices, the one job whose pieces are all variants, and its pieces by form and variant."""
    rows = {**starting_rows(is_metric=False), "wording": wording_rows()}
    rows["shop"] = ({**rows["shop"][0], "name": "Willow Lane Balloons"},)
    rows["jobs"] = ({"job": "1", "client": "Fernhill Library", "event_date": date(2031, 6, 20), "distance": 5},)
    wanted = {(name, variant): typed for name in FORMS for variant, typed in variants(form_named(name)).items()}
    rows["pieces"] = [{"job": "1", "piece": str(number), "form": form, **filled(typed)}
                      for number, ((form, _), typed) in enumerate(wanted.items(), 1)]
    if is_metric:
        rows = {key: tuple(in_metric(key, row) for row in each) for key, each in rows.items()}
        rows["shop"] = ({**rows["shop"][0], "length_unit": "cm", "distance_unit": "km"},)
    path = tmp / f"metric {is_metric}.xlsx"
    write_blank_book(path, book_layouts(), rows, is_metric=is_metric)
    outcome = check_tables(read_tables(read_book(path).value, book_layouts()).value, RUN_DATE)
    assert not [str(problem) for problem in outcome.problems if problem.level != "note"]
    (job,) = outcome.value.jobs
    by_number = {piece.label: piece for piece in job.pieces}
    return outcome.value.prices, job, {key: by_number[str(number)] for number, key in enumerate(wanted, 1)}


def filled(typed):
    return {key: value for key, value in typed.items() if value}


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    return tmp_path_factory.mktemp("every form")


def planned(folder, form, name, *, is_metric=False):
    prices, _, pieces = checked(is_metric=is_metric, tmp=folder)
    outcome = form_named(form).plan(pieces[form, name], prices)
    assert outcome.value is not None, [str(problem) for problem in outcome.problems]
    return outcome.value


@pytest.mark.parametrize("form", FORMS)
def test_every_form_keeps_what_every_form_must(form, folder):
    """Larger is never fewer, twice is twice, colours add up, one face is no more than two, units change no count."""
    names = variants(form_named(form))
    plans = {name: planned(folder, form, name) for name in names}
    example = plans["example"]
    larger = [name for name in names if name.startswith("larger")]
    assert larger or form in WITHOUT_SIZE
    for name in larger:
        assert plans[name].balloon_count >= example.balloon_count, name
    assert any(plans[name].balloon_count > example.balloon_count or plans[name].outline != example.outline
               for name in larger) or not larger
    if "one faces" in plans:
        assert plans["one faces"].balloon_count <= plans["both faces"].balloon_count
    if "one colour" in plans:
        assert plans["one colour"].balloon_count == plans["many colours"].balloon_count > 0
        assert len(colours_of(plans["many colours"])) > len(colours_of(plans["one colour"]))
    for name, plan in plans.items():
        assert_colours_add_up(plan)
        metric = planned(folder, form, name, is_metric=True)
        assert (metric.parts, metric.tasks, metric.hire) == (plan.parts, plan.tasks, plan.hire), name
        assert metric.hidden == plan.hidden, name
    assert_twice_is_twice(folder, form)
    assert_picture(folder, example)


def colours_of(plan):
    return {part.colour for part in plan.parts if part.fill_cm is not None}


def assert_colours_add_up(plan):
    """The parts of each item come to its positions and what is hidden of it; nothing is drawn that is not counted."""
    inflated = [part for part in plan.parts if part.fill_cm is not None]
    counted = Counter()
    for part in inflated:
        counted[part.item, part.colour] += part.count
    assert sum(counted.values()) == plan.balloon_count
    drawn = Counter((position.item, position.colour) for position in plan.positions)
    if has_picture(plan):
        assert all(drawn[key] <= counted[key] for key in drawn)
        assert sum((counted - drawn).values()) == plan.hidden


def assert_twice_is_twice(folder, form):
    prices, job, pieces = checked(is_metric=False, tmp=folder)
    one, two = (price_job(replace(job, pieces=(replace(pieces[form, "example"], quantity=n),)), prices).value
                for n in (1, 2))
    assert {line.item: 2 * line.need for line in one.stock} == {line.item: line.need for line in two.stock}
    assert {line.item: 2 * line.count for line in one.hire} == {line.item: line.count for line in two.hire}
    assert two.pieces[0].plan == one.pieces[0].plan


def assert_picture(folder, plan):
    if not has_picture(plan):
        assert plan.form in {*WITHOUT_SIZE, "own build"}
        return
    assert balloons_drawn(plan) + plan.hidden == plan.balloon_count > 0
    looks = looks_of(checked(is_metric=False, tmp=folder)[0])
    for more in ({}, {"larger": True, "numbered_layers": True}):
        assert len(draw_piece(plan, looks, unit="in", **more)) < 120_000
