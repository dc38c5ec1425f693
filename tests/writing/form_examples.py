"""The example of every form, planned with the starting rows of the blank book."""

from __future__ import annotations

import tempfile
from datetime import date
from functools import cache
from pathlib import Path

from quoting.checking.books import check_tables
from quoting.checking.layouts import book_layouts
from quoting.checking.wording import wording_rows
from quoting.domain.looks import looks_of
from quoting.forms.registry import all_forms
from quoting.reading.tables import read_tables
from quoting.reading.workbooks import read_book
from quoting.writing.blank_book import write_blank_book
from quoting.writing.starting_rows import starting_rows

RUN_DATE = date(2031, 5, 14)


@cache
def planned_examples(*, is_metric: bool = False):
    """(plans by form name, looks by item) of the forms' examples; a form that refuses every piece has no plan."""
    rows = {**starting_rows(is_metric=is_metric), "wording": wording_rows()}
    rows["shop"] = ({**rows["shop"][0], "name": "Willow Lane Balloons"},)
    rows["jobs"] = ({"job": "0001", "client": "Fernhill Library", "event_date": date(2031, 6, 20), "distance": 5},)
    rows["pieces"] = [{"job": "0001", "piece": str(number), "form": form.name, **form.example}
                      for number, form in enumerate(all_forms(), 1)]
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "examples.xlsx"
        write_blank_book(path, book_layouts(), rows, is_metric=is_metric)
        outcome = check_tables(read_tables(read_book(path).value, book_layouts()).value, RUN_DATE)
    prices = outcome.value.prices
    forms = {form.name: form for form in all_forms()}
    plans = {piece.form: forms[piece.form].plan(piece, prices).value
             for job in outcome.value.jobs for piece in job.pieces}
    return {name: plan for name, plan in plans.items() if plan is not None}, looks_of(prices)
