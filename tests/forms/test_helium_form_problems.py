"""Forms of helium, of single balloons and small pieces: properties, every problem at its cell, cautions."""

from __future__ import annotations

from collections import Counter
from decimal import Decimal
from types import SimpleNamespace

import pytest
from forms_price_book import FOOT, HARDWARE, INCH, Shape, balloon, balloons, hardware, inches, piece, prices
from helium_form_cases import ARCH, BOUQUET, CASES, FOILS, LINE, PIECE, SCATTER, STRAND
from hypothesis import given, settings
from hypothesis import strategies as st

from quoting.checking.wording import standard_wording
from quoting.forms.registry import form_named
from quoting.site.cautions import cautions_for

D = Decimal


def planned(form, book=None, **typed):
    typed = {key: value for key, value in typed.items() if value is not None}
    found = form_named(form).plan(piece(form, **typed), book or prices())
    assert found.value is not None, [str(problem) for problem in found.problems]
    return found.value


# --- properties over all these forms -------------------------------------------------------------


@given(st.integers(5, 40), st.integers(3, 20), st.sampled_from(["9.5", "10.5", "14.5"]))
@settings(max_examples=30, deadline=None)
def test_wider_or_higher_is_never_fewer(width, height, fill):
    typed = {"fill": D(fill) * INCH, "colours": ("ivory",)}
    for form, keys in (("line arch", ("width", "height")), ("ceiling scatter", ("width", "length")),
                       ("floor-to-ceiling strand", ("height",))):
        sides = dict(zip(keys, (width * FOOT, height * FOOT), strict=False))
        extra = {"spacing": 20 * INCH} if form == "ceiling scatter" else {}
        base = planned(form, **typed, **sides, **extra)
        for key in keys:
            larger = planned(form, **typed, **{**sides, key: sides[key] + FOOT}, **extra)
            assert larger.balloon_count >= base.balloon_count
            assert larger.outline.net_lift_g >= base.outline.net_lift_g


@pytest.mark.parametrize("name", CASES)
def test_the_unit_of_the_shop_changes_no_count(name):
    form, typed = CASES[name]
    there, here = planned(form, prices("cm"), **typed), planned(form, prices("in"), **typed)
    assert (there.parts, there.tasks, there.hire) == (here.parts, here.tasks, here.hire)
    assert there.outline == here.outline and there.gas_litres == here.gas_litres


@pytest.mark.parametrize("name", CASES)
def test_colours_add_up_and_nothing_hangs_below_the_floor(name):
    form, typed = CASES[name]
    plan = planned(form, **typed)
    by_colour = Counter()
    for part in plan.parts:
        if part.fill_cm is not None:
            by_colour[part.colour] += part.count
    assert Counter(p.colour for p in plan.positions) == by_colour
    assert min(p.y_cm - p.diameter_cm / 2 for p in plan.positions if p.role != "accent") >= -1e-6


# --- problems, each at its cell --------------------------------------------------------------------

HEAVY = {"fill": D("4.5") * INCH, "size": None, "spacing": None}
NO_WEIGHTS = tuple(item for item in HARDWARE if item.part != "weight")
UNWEIGHED = (*HARDWARE, hardware("Rock", "weight"))
DRY = (*balloons(), balloon(Shape.FOIL, 36, "foil", "moon", 32))

PROBLEMS = [
    ("line arch", {**ARCH, **HEAVY}, {}, "fill", "P550"),
    ("line arch", {**ARCH, "spacing": 8 * INCH}, {}, "spacing", "P551"),
    ("line arch", {**ARCH, "pattern": "blocks", "blocks": (3, 4)}, {}, "blocks", "P552"),
    ("line arch", {**ARCH, "pattern": "blocks", "blocks": (30,)}, {}, "blocks", "P552"),
    ("line arch", {**ARCH, "pattern": "spiral"}, {}, "pattern", "P549"),
    ("line arch", {**ARCH, "weight": "Rock"}, {"hardware": UNWEIGHED}, "weight", "P553"),
    ("line arch", {**ARCH, "weight": "Paper fan"}, {}, "weight", "P518"),
    ("line arch", {**ARCH, "weight": "Anvil"}, {}, "weight", "P520"),
    ("line arch", ARCH, {"hardware": NO_WEIGHTS}, "weight", "P519"),
    ("line arch", {**ARCH, "line": "Anvil"}, {}, "line", "P520"),
    ("line arch", {**ARCH, "line": "Pole 8 ft"}, {}, "line", "P518"),
    ("line arch", {**ARCH, "height": None}, {}, "height", "P558"),
    ("line arch", {**ARCH, "length": 30 * FOOT}, {}, "length", "P539"),
    ("line arch", {**ARCH, "height": None, "length": 15 * FOOT}, {}, "length", "P560"),
    ("line arch", {**ARCH, "width": None}, {}, "width", "P538"),
    ("line arch", {**ARCH, "accents": ((1, "Paper fan"),), "accents_at": ("top", "foot")}, {}, "accents_at", "P557"),
    ("air line", {**LINE, "sag": None}, {}, "length", "P561"),
    ("air line", {**LINE, "spacing": 5 * INCH}, {}, "spacing", "P551"),
    ("floor-to-ceiling strand", {**STRAND, "height": 8 * INCH}, {}, "height", "P539"),
    ("floor-to-ceiling strand", {**STRAND, "height": None}, {}, "height", "P538"),
    ("helium bouquet", {**BOUQUET, "foils": ((1, "36 in foil moon"),)}, {"balloons": DRY}, "foils", "P554"),
    ("helium bouquet", {**BOUQUET, "foils": ((1, "11 in matt ivory"),)}, {}, "foils", "P555"),
    ("helium bouquet", {**BOUQUET, "foils": ((1, "Foil whale"),)}, {}, "foils", "P520"),
    ("helium bouquet", {**BOUQUET, "ribbon_length": None}, {}, "ribbon_length", "P558"),
    ("helium bouquet", {**BOUQUET, "count": None}, {}, "count", "P558"),
    ("helium bouquet", {**BOUQUET, "height": 9 * FOOT}, {}, "ribbon_length", "P539"),
    ("helium bouquet", {**BOUQUET, "ribbon_length": None, "height": 9 * INCH}, {}, "height", "P539"),
    ("helium bouquet", {**BOUQUET, "colours": None}, {}, "colours", "P538"),
    ("helium bouquet", {**BOUQUET, "count": 30000}, {}, "count", "P537"),
    ("ceiling scatter", {**SCATTER, "width": None}, {}, "width", "P558"),
    ("ceiling scatter", {**SCATTER, "count": 50, "spacing": 12 * INCH}, {}, "count", "P539"),
    ("ceiling scatter", {**SCATTER, "count": 500}, {}, "count", "P551"),
    ("ceiling scatter", {**SCATTER, "spacing": 5 * INCH}, {}, "spacing", "P551"),
    ("ceiling scatter", {**SCATTER, "ribbon": "Ribbon cut"}, {}, "ribbon_length", "P558"),
    ("ceiling scatter", {**SCATTER, "height": 3 * FOOT, "ribbon_length": 3 * FOOT}, {}, "height", "P539"),
    ("centrepiece", {**PIECE, "height": 8 * INCH}, {}, "height", "P559"),
    ("centrepiece", {**PIECE, "top_fill": None}, {}, "top_fill", "P558"),
    ("centrepiece", {**PIECE, "fills": inches(5, 4)}, {}, "fill", "P513"),
    ("centrepiece", {**PIECE, "top_fill": 99 * INCH}, {}, "top_fill", "P503"),
]


@pytest.mark.parametrize(("form", "typed", "book", "key", "code"), PROBLEMS, ids=lambda value: str(value)[:40])
def test_every_mistake_is_told_at_its_cell(form, typed, book, key, code):
    typed = {name: cell for name, cell in typed.items() if cell is not None}
    asked = piece(form, **typed)
    found = form_named(form).plan(asked, prices(**book))
    assert found.value is None
    assert (code, asked.where(key)) in [(problem.code, problem.place) for problem in found.problems]
    assert all(problem.job == "J1" for problem in found.problems)


# --- cautions act on it ------------------------------------------------------------------------------


@pytest.mark.parametrize(("form", "typed", "has_helium", "has_foil"), [
    ("line arch", ARCH, True, False), ("helium bouquet", {**BOUQUET, **FOILS}, True, True),
    ("air line", LINE, False, False)])
def test_helium_and_foil_are_warned_of(form, typed, has_helium, has_foil):
    plan, book = planned(form, **typed), prices()
    book = SimpleNamespace(balloon=book.balloon, wording=standard_wording())
    job = SimpleNamespace(is_outdoors=False, is_collected=False, has_children=False)
    made = cautions_for(job, [(None, plan)], book)
    assert (book.wording["caution_helium"] in made.client) is has_helium
    assert any(text.startswith("Helium") for text in made.crew) is has_helium
    assert (book.wording["caution_foil"] in made.client) is has_foil
    assert any("power lines" in text for text in made.crew) is has_foil
