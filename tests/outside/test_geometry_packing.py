"""Grids, packings and volumes against figures from outside the project; letters against their typeface as painted."""

from __future__ import annotations

import io
import math
from importlib import resources

import numpy as np
import pytest
from fontTools.pens.areaPen import AreaPen
from fontTools.ttLib import TTFont
from PIL import Image, ImageDraw, ImageFont
from scipy.integrate import quad

from quoting.geometry.letters import known_signs, letter_of
from quoting.geometry.packing import (
    CENTRED_SPHERES,
    CUBIC_SPHERES,
    DENSEST_SPHERES,
    HEXAGON_DISCS,
    RANDOM_SPHERES,
    SQUARE_DISCS,
    fitting_grid,
    sphere_volume,
    tube_volume,
)

# Discs of a diameter that fit into a width and height (m): square grid, staggered grid;
# own arithmetic on whole rows and columns, computed outside this project's code.
FITTING = [
    (3, 2.4, 0.2794, 10, 8, 80, 9, 90), (2.4, 2, 0.127, 18, 15, 270, 18, 324), (6, 2.4, 0.2794, 21, 8, 168, 9, 185),
]


@pytest.mark.parametrize("row", FITTING, ids=str)
def test_discs_that_fit(row):
    width, height, disc, columns, rows, count, staggered_rows, staggered = row
    square = fitting_grid(width, height, disc, is_staggered=False)
    assert (square.columns, square.rows, square.count) == (columns, rows, count)
    hexagonal = fitting_grid(width, height, disc, is_staggered=True)
    assert (hexagonal.rows, hexagonal.count) == (staggered_rows, staggered)


def test_packing_shares():
    """Closed forms of textbooks, six figures each; random close packing (0.64 ± 0.02): Berryman 1983, abstract read."""
    assert pytest.approx(0.785398, abs=5e-7) == SQUARE_DISCS
    assert pytest.approx(0.9069, abs=5e-6) == HEXAGON_DISCS
    assert pytest.approx(0.523599, abs=5e-7) == CUBIC_SPHERES
    assert pytest.approx(0.680175, abs=5e-7) == CENTRED_SPHERES
    assert pytest.approx(0.74048, abs=5e-6) == DENSEST_SPHERES
    assert abs(RANDOM_SPHERES - 0.64) <= 0.02


# Inflated diameter in inches, volume in litres; plain sphere, computed outside this project's code.
SPHERES = [(3, 0.2317), (5, 1.0725), (8, 4.3931), (9.5, 7.3565), (11, 11.4203), (16, 35.1447), (24, 118.6133),
           (36, 400.32)]
# Twister code, diameter and length in inches, litres of a tube with two half spheres; computed likewise.
TUBES = [(160, 1, 60, 0.7679), (260, 2, 60, 3.0546), (350, 3, 50, 5.6758), (360, 3, 60, 6.8342)]


@pytest.mark.parametrize(("inches", "litres"), SPHERES)
def test_volumes_of_rounds(inches, litres):
    assert sphere_volume(inches * 2.54) / 1000 == pytest.approx(litres, abs=6e-5)


@pytest.mark.parametrize(("code", "wide", "long", "litres"), TUBES)
def test_volumes_of_twisters(code, wide, long, litres):
    assert tube_volume(wide * 2.54, long * 2.54) / 1000 == pytest.approx(litres, abs=6e-5)


def test_volumes_against_numerical_integration():
    """scipy.integrate.quad over the discs that a ball and a tube are cut into."""
    ball, _ = quad(lambda x: math.pi * (0.25 - x * x), -0.5, 0.5)
    assert sphere_volume(1) == pytest.approx(ball, rel=1e-10)
    end, _ = quad(lambda x: math.pi * (1 - (1 - x) ** 2), 0, 1)
    assert tube_volume(2, 9) == pytest.approx(2 * end + math.pi * 7, rel=1e-10)


def typeface():
    return (resources.files("font_hanken_grotesk") / "files" / "HankenGrotesk-Bold.otf").read_bytes()


def test_letters_have_the_area_of_the_typeface():
    """fontTools' own area of every outline, exact for its curves; ours are chords, rounded to a thousandth."""
    font = TTFont(io.BytesIO(typeface()))
    glyphs, names, cap = font.getGlyphSet(), font.getBestCmap(), font["OS/2"].sCapHeight
    for sign in known_signs():
        pen = AreaPen(glyphs)
        glyphs[names[ord(sign)]].draw(pen)
        assert letter_of(sign).area == pytest.approx(abs(pen.value) / cap**2, rel=6e-3), sign
        assert letter_of(sign).room == pytest.approx(glyphs[names[ord(sign)]].width / cap, abs=6e-4)


@pytest.mark.parametrize("sign", ["5", "0", "W", "&", "B", "i"])
def test_letters_look_like_the_typeface(sign):
    """Painted by another library (FreeType), and our outline painted over it: they differ along the edges only."""
    cap = 1413 / 2048  # height of a capital in ems, from the typeface's own table
    font = ImageFont.truetype(io.BytesIO(typeface()), round(400 / cap), layout_engine=ImageFont.Layout.BASIC)
    theirs, ours = Image.new("L", (900, 640)), Image.new("L", (900, 640))
    ImageDraw.Draw(theirs).text((60, 520), sign.upper(), font=font, fill=255, anchor="ls")
    letter, size = letter_of(sign), round(400 / cap) * cap
    for contour in letter.contours:  # even-odd: a hole is painted out again
        one = Image.new("L", ours.size)
        ImageDraw.Draw(one).polygon([(60 + x * size, 520 - y * size) for x, y in contour], fill=255)
        ours = Image.fromarray(np.asarray(ours) ^ np.asarray(one))
    differing = (np.asarray(theirs) > 127) != (np.asarray(ours) > 127)
    inked = (np.asarray(theirs) > 127).sum()
    assert inked > 10_000
    assert differing.sum() < letter.edge * size * 1.5, (differing.sum(), inked)
    assert differing.sum() < 0.06 * inked
