"""Choices on one quote: alternatives priced each, the recommended set totalled, add-ons beside it. Own arithmetic."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import office
import openpyxl
import pytest
from costing_made import adjustment, arch, column, piece, plan, prices
from crews_made import outline, rules, worked
from jobs_made import outcome, sheet
from workings_book import write_workings_book

D = Decimal


def optional(label, group="", *, recommended=False, add_on=False, **changes):
    return replace(piece(label, **changes), option_group=group, is_recommended=recommended, is_add_on=add_on)


def entrance():
    """A column; an arch or two columns at the entrance, the columns recommended; a plinth and a visit to add."""
    return [
        (piece("A"), column()),
        (optional("B", "Entrance"), arch()),
        (optional("C", "entrance ", recommended=True, quantity=2), column(20, 12)),
        (optional("D", add_on=True), plan(hire=[("Plinth", 1)])),
        (optional("E", add_on=True, price="75.00"), plan(is_labour_only=True)),
    ]


def test_the_recommended_set_is_in_the_total_and_each_choice_is_priced_as_in_a_quote_of_its_own():
    made = sheet(entrance())
    a, b, c, d, e = entrance()
    assert [line.label for line in made.quote.lines if line.label] == ["A", "C"]
    assert made.quote.totals == sheet([a, c]).quote.totals
    assert [(o.label, o.instead_of) for o in made.quote.options] == [("B", "C"), ("D", ""), ("E", "")]
    for option, alone in zip(made.quote.options, ([a, b], [a, c, d], [a, c, e]), strict=True):
        with_it = sheet([(replace(p, is_add_on=False), of) for p, of in alone])
        line = next(line for line in with_it.quote.lines if line.label == option.label)
        assert (option.unit_price, option.amount) == (line.unit_price, line.amount)
        assert option.total == with_it.quote.totals.total
    assert [p.label for p in made.pieces] == ["A", "C"]
    assert made.stock == sheet([a, c]).stock
    assert made.cost == sheet([a, c]).cost


def test_where_none_is_recommended_the_first_is_in_the_total():
    pieces = [(replace(p, is_recommended=False), made) for p, made in entrance()]
    assert [line.label for line in sheet(pieces).quote.lines if line.label] == ["A", "B"]


def test_the_discount_of_an_alternative_is_in_its_total():
    off = [adjustment("Arch day", amount="20", piece="B")]
    plain, made = sheet(entrance()), sheet(entrance(), off)
    assert made.quote.totals == plain.quote.totals
    assert made.quote.options[0].amount == plain.quote.options[0].amount
    assert plain.quote.options[0].total - made.quote.options[0].total > 20


def test_a_choice_that_cannot_be_done_holds_the_job():
    tall = [(piece("A"), worked(1)), (optional("B", add_on=True), worked(1, outline=outline(60, 300)))]
    made = outcome(tall, book=prices({"crew": rules(crew_limit=1)}))
    assert ([p.code for p in made.problems], made.value) == (["P656"], None)


@pytest.mark.office
def test_the_workings_of_every_choice_recalculate(tmp_path):
    made = sheet(entrance(), [adjustment(percent="0.05")])
    assert len({section.key for section in made.workings}) == len(made.workings)
    cells = write_workings_book(tmp_path / "book.xlsx", {"job": made.workings})
    (fresh,) = office.convert([tmp_path / "book.xlsx"], "xlsx", tmp_path / "fresh")
    book = openpyxl.load_workbook(fresh, data_only=True)
    values = {place: book[place[0]][cell].value for place, cell in cells.items()}
    for section in made.workings:
        for step in section.steps:
            assert values["job", section.key, step.key] == pytest.approx(float(step.value), abs=1e-6), step
    totals = [values["job", f"choice {number}, totals", "total"] for number in (1, 2, 3)]
    assert totals == [pytest.approx(float(option.total), abs=1e-9) for option in made.quote.options]
