"""Cells typed as text mean what the cases say; real numbers, dates and boxes are told apart."""

from __future__ import annotations

import tomllib
from datetime import date, datetime, time
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quoting.domain.cells import Cell, Kind
from quoting.domain.layouts import Column
from quoting.domain.places import Place
from quoting.reading.values import read_value

CASES = tomllib.loads((Path(__file__).parent.parent / "cases" / "reading" / "values.toml").read_text("utf-8"))
PLACE = Place(workbook="book.xlsx", sheet="Pieces", row=7, column=3)
TEXT_CASES = [(kind, case) for kind, cases in CASES.items() for case in cases]


def column(kind: Kind, **more) -> Column:
    return Column(key="field", heading="Field", kind=kind, note="", fix="type it again", **more)


def read(kind: Kind, value: object, unit: str = "", number_format: str = "General", **flags):
    cell = Cell(place=PLACE, value=value, number_format=number_format, **flags)
    return read_value(cell, column(kind), unit)


def value_of(kind: Kind, value: object, unit: str = "", number_format: str = "General"):
    outcome = read(kind, value, unit, number_format)
    assert outcome.problems == ()
    return outcome.value.value


def code_of(kind: Kind, value: object, unit: str = "", number_format: str = "General", **flags) -> str:
    outcome = read(kind, value, unit, number_format, **flags)
    assert outcome.value is None
    (found,) = outcome.problems
    assert found.place == PLACE
    return found.code


def as_case(value: object) -> object:
    """A typed value as the cases write it."""
    if isinstance(value, tuple):
        return [as_case(one) for one in value]
    if isinstance(value, Decimal):
        return Decimal(value)
    return value.isoformat() if isinstance(value, (date, time)) else value


def expected(told: object, kind: Kind) -> object:
    if isinstance(told, list):
        return [expected(one, kind) for one in told]
    is_decimal = isinstance(told, str) and kind in (
        Kind.LENGTH,
        Kind.DISTANCE,
        Kind.MASS,
        Kind.NUMBER,
        Kind.MONEY,
        Kind.PERCENT,
        Kind.LENGTHS,
        Kind.PERCENTS,
    )
    return Decimal(told) if is_decimal else told


@pytest.mark.parametrize(
    ("kind", "case"), TEXT_CASES, ids=lambda part: part if isinstance(part, str) else part["typed"]
)
def test_typed_text(kind, case):
    kind = Kind(kind)
    outcome = read(kind, case["typed"], case.get("unit", ""), "@")
    if "code" in case:
        assert [p.code for p in outcome.problems] == [case["code"]]
        assert outcome.value is None
        assert outcome.problems[0].place == PLACE
        assert outcome.problems[0].seen == " ".join(case["typed"].split())
        return
    assert outcome.problems == ()
    got, wanted = as_case(outcome.value.value), expected(case["is"], kind)
    assert got == wanted
    assert type(got) is type(wanted)
    assert outcome.value.currency == case.get("currency", "")
    assert outcome.value.place == PLACE


def test_every_kind_has_cases():
    assert {Kind(kind) for kind in CASES} == set(Kind)


@pytest.mark.parametrize("kind", list(Kind))
def test_blank_is_no_value_and_no_problem(kind):
    for blank in (None, "", "   ", "\u00a0\n", "\u0000", "\u200b"):
        outcome = read(kind, blank)
        assert (outcome.value, outcome.problems) == (None, ())


@pytest.mark.parametrize("kind", list(Kind))
def test_errors_and_formulas_never_calculated_have_problems_of_their_own(kind):
    assert code_of(kind, "#REF!", is_error=True, has_formula=True) == "P201"
    assert code_of(kind, None, is_uncalculated=True, has_formula=True) == "P202"
    assert read(kind, None, has_formula=True).problems == ()  # a formula that came to an empty text


@pytest.mark.parametrize("kind", [k for k in Kind if k is not Kind.YES_NO])
def test_a_ticked_box_is_only_a_yes_or_no(kind):
    assert code_of(kind, True) == "P217"


def test_real_values_of_yes_or_no():
    assert value_of(Kind.YES_NO, True) is True
    assert value_of(Kind.YES_NO, False) is False
    assert value_of(Kind.YES_NO, 1) is True
    assert code_of(Kind.YES_NO, 7) == "P221"


@pytest.mark.parametrize("kind", list(Kind))
def test_a_real_date(kind):
    day = datetime(2031, 3, 4)
    if kind is Kind.DATE:
        assert value_of(kind, day) == date(2031, 3, 4)
        assert not isinstance(value_of(kind, day), datetime)
        assert value_of(kind, date(2031, 3, 4)) == date(2031, 3, 4)
        return
    wanted = {Kind.TIME: "P219", Kind.YES_NO: "P216"}.get(kind, "P216")
    wanted = "P203" if kind in (Kind.TEXT, Kind.TEXTS, Kind.AMOUNTS) else wanted
    assert code_of(kind, day) == wanted
    assert read(kind, day).problems[0].seen == "2031-03-04"


def test_a_real_time():
    assert value_of(Kind.TIME, time(14, 30)) == time(14, 30)
    assert code_of(Kind.NUMBER, time(14, 30)) == "P216"
    assert code_of(Kind.TEXT, time(14, 30)) == "P203"
    assert code_of(Kind.DATE, time(14, 30)) == "P216"


@pytest.mark.parametrize(("kind", "code"), [(Kind.DATE, "P215"), (Kind.TIME, "P219")])
def test_a_bare_number_is_no_date_and_no_time(kind, code):
    assert code_of(kind, 47000) == code
    assert code_of(kind, Decimal("0.5")) == code


def test_text_from_a_number_is_what_the_owner_sees():
    assert value_of(Kind.TEXT, 412) == "412"
    assert value_of(Kind.TEXT, Decimal("412.0")) == "412"
    assert value_of(Kind.TEXT, Decimal("8.5")) == "8.5"
    assert value_of(Kind.TEXT, 412, number_format="0000") == "0412"
    assert value_of(Kind.TEXTS, 260) == ("260",)
    assert read(Kind.LENGTH, Decimal("8.50")).problems[0].seen == "8.5"


def test_percent_from_a_number():
    assert value_of(Kind.PERCENT, Decimal("0.12"), number_format="0%") == Decimal("0.12")
    assert value_of(Kind.PERCENT, Decimal("0.005"), number_format="0.0%") == Decimal("0.005")
    assert value_of(Kind.PERCENT, 12) == Decimal("0.12")
    assert value_of(Kind.PERCENT, Decimal("8.875")) == Decimal("0.08875")
    assert value_of(Kind.PERCENTS, 1, number_format="0%") == (Decimal(1),)
    assert code_of(Kind.PERCENT, Decimal("0.5")) == "P209"
    assert read(Kind.PERCENT, Decimal("0.5"), "", "0%").value.seen == "50%"


@pytest.mark.parametrize("kind", [Kind.WHOLE, Kind.NUMBER, Kind.MONEY, Kind.LENGTH, Kind.LENGTHS, Kind.WHOLES])
def test_a_percent_is_no_amount(kind):
    assert code_of(kind, Decimal("0.5"), "cm", "0%") == "P220"


@pytest.mark.parametrize("kind", [Kind.WHOLE, Kind.NUMBER, Kind.MONEY, Kind.TEXT, Kind.PERCENT, Kind.LENGTH])
@pytest.mark.parametrize("value", [Decimal("NaN"), Decimal("Infinity"), 2**53, -(2**53), Decimal("1e300")])
def test_numbers_too_large_to_be_kept_exactly(kind, value):
    assert code_of(kind, value, "cm") == "P218"


def test_whole_numbers_are_whole():
    assert value_of(Kind.WHOLE, Decimal("10.0")) == 10
    assert isinstance(value_of(Kind.WHOLE, Decimal("10.0")), int)
    assert code_of(Kind.WHOLE, Decimal("1.5")) == "P208"
    assert value_of(Kind.WHOLES, 4) == (4,)
    assert code_of(Kind.AMOUNTS, 4) == "P223"


def test_units_shown_by_a_number_format_go_before_the_heading():
    assert value_of(Kind.LENGTH, Decimal("2.4"), "cm", '0.0" m"') == Decimal(240)
    assert value_of(Kind.LENGTH, 8, "", "0\\'") == Decimal("243.84")
    assert value_of(Kind.LENGTH, 8, "ft", "0.00") == Decimal("243.84")
    assert value_of(Kind.LENGTHS, 10, "in") == (Decimal("25.4"),)
    assert value_of(Kind.LENGTH, 0) == 0
    assert code_of(Kind.LENGTH, 8) == "P205"


@pytest.mark.parametrize(
    ("number_format", "currency", "seen"),
    [
        ("General", "", "40"),
        ('"£"#,##0.00', "GBP", "£40"),
        ("[$€-407] #,##0.00", "EUR", "€ 40"),
        ("#,##0.00 [$CAD]", "CAD", "40 CAD"),
        ('_-"$"* #,##0.00_-;-"$"* #,##0.00_-', "USD", "$40"),
        ("0.00", "", "40"),
    ],
)
def test_currency_of_a_number_format(number_format, currency, seen):
    value = read(Kind.MONEY, 40, "", number_format).value
    assert (value.value, value.currency, value.seen) == (Decimal(40), currency, seen)


def test_choices_keep_to_one_line():
    cell = Cell(place=PLACE, value="ring\ncolumn")
    assert read_value(cell, column(Kind.TEXT, choices=("ring column",)), "").value.value == "ring column"


@settings(deadline=None)
@given(st.integers(0, 400), st.sampled_from([0, 1, 2, 4, 8]), st.integers(0, 15))
def test_feet_and_inches_come_back(feet, bottom, top):
    """Any number of feet and inches in eighths, typed in five ways, is one length."""
    inches, rest = divmod(top, bottom) if bottom else (top % 12, 0)
    shown = f"{inches} {rest}/{bottom}" if rest else f"{inches}"
    wanted = (Decimal(feet * 12 + inches) + (Decimal(rest) / bottom if bottom else 0)) * Decimal("2.54")
    if inches >= 12 or (0 < wanted < 10 and bottom > 2):
        return  # 1.905 cm has two meanings; it is among the cases
    ways = (f"{feet}'{shown}\"", f"{feet} ft {shown} in", f"{feet}’ {shown}”", f"{feet} feet {shown} inches")
    assert {value_of(Kind.LENGTH, way) for way in ways} == {wanted}
    assert value_of(Kind.LENGTH, f"{wanted.normalize():f} cm", "ft") == wanted


@settings(deadline=None)
@given(st.decimals(0, 9999, places=2))
def test_metric_lengths_come_back(centimetres):
    for text in (f"{centimetres:f} cm", f"{centimetres:f}cm".replace(".", ","), f"{centimetres * 10:f} mm"):
        assert value_of(Kind.LENGTH, text) == centimetres
    assert value_of(Kind.LENGTH, f"{(centimetres / 100):f} m") == centimetres


@settings(deadline=None)
@given(st.floats(allow_nan=False, allow_infinity=False, min_value=-(2**50), max_value=2**50))
def test_a_real_number_is_exactly_its_own_text(number):
    exact = Decimal(repr(number))
    assert value_of(Kind.NUMBER, exact) == exact
    assert value_of(Kind.MONEY, exact) == exact


@settings(deadline=None)
@given(st.decimals(0, 10**9, places=2))
def test_money_in_any_notation_is_one_amount(amount):
    english = f"{amount:,.2f}"
    german = english.translate(str.maketrans(",.", ".,"))
    for text in (english, german, german.replace(".", " "), english.replace(",", "'"), f"{amount:.2f}"):
        assert value_of(Kind.MONEY, text) == amount


@settings(deadline=None)
@given(st.dates(date(1900, 1, 1), date(2199, 12, 31)))
def test_dates_are_read_or_named_as_ambiguous_but_never_wrong(day):
    for text in (day.isoformat(), f"{day.day} {day:%B} {day.year}", f"{day:%b} {day.day}, {day.year}"):
        assert value_of(Kind.DATE, text) == day
    in_figures = read(Kind.DATE, f"{day:%d/%m}/{day.year}")
    if day.day <= 12 and day.day != day.month:
        assert [p.code for p in in_figures.problems] == ["P206"]
    else:
        assert in_figures.value.value == day


@settings(max_examples=300, deadline=None)
@given(
    st.sampled_from(list(Kind)),
    st.one_of(st.text(), st.text("0123456789.,;'\"/-+ %£$xmftincpa\n½", max_size=20)),
    st.sampled_from(["", "ft", "in", "cm", "mi", "km", "lb", "kg", "USD"]),
)
def test_no_text_raises_and_each_is_a_value_a_blank_or_one_problem(kind, text, unit):
    units = {Kind.LENGTH: ("ft", "in", "cm"), Kind.LENGTHS: ("ft", "in", "cm"), Kind.DISTANCE: ("mi", "km")}
    allowed = {**units, Kind.MASS: ("lb", "kg"), Kind.MONEY: ("USD",)}.get(kind, ())
    outcome = read(kind, text, unit if unit in allowed else "")
    assert len(outcome.problems) <= 1
    assert not (outcome.value and outcome.problems)
    for found in outcome.problems:
        assert found.place == PLACE
        assert found.why
        assert found.fix


@settings(deadline=None)
@given(st.sampled_from(list(Kind)), st.integers(-(10**20), 10**20) | st.decimals(), st.text(max_size=12))
def test_no_number_raises_whatever_its_format(kind, number, number_format):
    outcome = read(kind, number, "", number_format)
    assert len(outcome.problems) + (outcome.value is not None) == 1


@pytest.mark.parametrize("kind", list(Kind))
def test_monstrous_texts_are_quick(kind):
    for text in ("9" * 30000, "1," * 15000, "1 " * 15000, "(" * 30000, "May " * 8000, "'" * 30000, "-" * 30000):
        read(kind, text)
