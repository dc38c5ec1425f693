"""Mass and room of a piece, and lengths in words."""

from __future__ import annotations

import math
from decimal import Decimal

import pytest
from forms_price_book import FOOT, INCH, Shape, balloon, piece, prices

from quoting.domain.measures import fill_words, length_words, shown_length
from quoting.forms.outlines import balloon_mass
from quoting.forms.registry import form_named


def test_a_column_weighs_its_balloons_and_hardware():
    typed = {"height": 7 * FOOT, "fill": Decimal("9.5") * INCH, "colours": ("ivory",)}
    outline = form_named("ring column").plan(piece("ring column", **typed), prices()).value.outline
    # 44 rounds of 2.8 g (starting table, common practice, no source), a 0.6 kg pole, a 5 kg plate
    assert outline.mass_g == pytest.approx(44 * 2.8 + 600 + 5000)
    assert outline.net_lift_g == 0
    assert outline.longest_rigid_cm == outline.height_cm
    assert outline.packed_volume_l == pytest.approx(math.pi / 4 * outline.width_cm**2 * outline.height_cm / 1000)


def test_an_arch_takes_the_room_of_its_curve():
    typed = {"width": 10 * FOOT, "curve": "semicircle", "size": 11, "colours": ("ivory",)}
    outline = form_named("packed arch").plan(piece("packed arch", **typed), prices()).value.outline
    assert outline.packed_volume_l == pytest.approx(
        math.pi / 4 * outline.depth_cm**2 * math.pi * float(5 * FOOT) / 1000)
    assert outline.longest_rigid_cm == outline.width_cm == pytest.approx(float(10 * FOOT) + outline.depth_cm)


def test_masses_grow_with_the_size_and_fill_the_gaps_of_the_table():
    sizes = (5, 7, 9, 10, 11, 12, 14, 16, 36, 40)
    masses = [balloon_mass(balloon(Shape.ROUND, size, "matt", "ivory", None)) for size in sizes]
    assert masses == sorted(masses) and masses[0] == 1.0
    assert balloon_mass(balloon(Shape.ROUND, 4, "matt", "ivory", None)) == pytest.approx(0.64)
    assert balloon_mass(balloon(Shape.FOIL, 18, "foil", "silver", None)) == pytest.approx(9.72)
    assert balloon_mass(balloon(Shape.TWISTER, 260, "matt", "ivory", None)) == pytest.approx(1.6)


@pytest.mark.parametrize(("cm", "imperial", "metric"), [
    (215.9, "7 ft 1 in", "2.16 m"), (213.36, "7 ft", "2.13 m"), (86.36, "2 ft 10 in", "86 cm"), (2.54, "1 in", "3 cm"),
    (0.4, "0 in", "0 cm"), (30.48 - 1.27, "1 ft", "29 cm"), (99.6, "3 ft 3 in", "1.00 m"),
])
def test_lengths_in_words(cm, imperial, metric):
    assert (length_words(cm, "in"), length_words(cm, "cm")) == (imperial, metric)


def test_fills_in_words():
    assert [fill_words(cm, "in") for cm in (24.13, 25.4, 8.0)] == ["9.5 in", "10 in", "3.15 in"]
    assert [fill_words(cm, "cm") for cm in (24.13, 30, 100)] == ["24.13 cm", "30 cm", "100 cm"]
    assert shown_length(float(Decimal("9.5") * INCH), "in") == 9.5
