"""Room for text: estimates are never too small by much, rounding formulas are those of the money module."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.domain.money import Rounding
from quoting.writing.rounding_formulas import formula_that_gives, rounded_formula
from quoting.writing.text_heights import in_pieces, line_count, row_height, text_width


def test_widths_are_those_of_the_typeface():
    """Sums of the typeface's published widths (from memory), times 1.02: "Fern" is 611 + 556 + 333 + 556."""
    assert text_width("Fern", 10) == pytest.approx((611 + 556 + 333 + 556) / 1000 * 10 / 0.75 * 1.02, rel=0.02)
    assert text_width("漢字", 10) > text_width("abc", 10)
    assert text_width("e\u0301", 10) == text_width("e", 10)


def test_lines_wrap_between_words_and_inside_a_word_too_long():
    assert line_count("one two three", 1000, 10) == 1
    assert line_count("one two three", text_width("one two", 10) + 8, 10) == 2
    assert line_count("a\n\nb", 1000, 10) == 3
    assert line_count("x" * 100, text_width("x" * 25, 10) + 8, 10) == 4
    assert row_height(3, 10) > 3 * 10


@given(st.text(max_size=400), st.floats(min_value=60, max_value=700))
def test_pieces_of_a_long_text_are_short_and_lose_no_word(text, width):
    pieces = in_pieces(text, width, 9, 5)
    assert "".join("".join(piece.split()) for piece in pieces) == "".join(text.split())
    assert all(line_count(piece, width, 9) <= 5 or len(piece.split()) <= 1 for piece in pieces)


def test_rounding_formulas_name_the_rule():
    cent, five = Decimal("0.01"), Decimal("0.05")
    assert rounded_formula("A1", cent, Rounding.HALF_UP) == "ROUND(A1,2)"
    assert rounded_formula("A1", Decimal(1), Rounding.HALF_UP) == "ROUND(A1,0)"
    assert rounded_formula("A1", cent, Rounding.DOWN) == "ROUND(INT((A1)/0.01+0.0000001)*0.01,2)"
    assert rounded_formula("A1", five, Rounding.HALF_UP) == "ROUND(INT((A1)/0.05+0.5+0.0000001)*0.05,2)"


def test_a_formula_is_written_only_where_it_gives_the_amount():
    cent = Decimal("0.01")
    assert formula_that_gives("A1", Fraction(5, 1000), Decimal("0.01"), cent) == "ROUND(A1,2)"
    assert formula_that_gives("A1", Fraction(5, 1000), Decimal("0.00"), cent).startswith("ROUND(-INT(")
    assert formula_that_gives("A1", Fraction(9, 1000), Decimal("0.00"), cent).startswith("ROUND(INT(")
    assert formula_that_gives("A1", Fraction(5, 1000), Decimal("0.02"), cent) == ""
    assert formula_that_gives("A1", Fraction(-5, 1000), Decimal("-0.01"), cent) == ""
