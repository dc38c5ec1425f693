"""What colour words look like."""

from __future__ import annotations

import pytest
from PIL import ImageColor

from quoting.domain.colour_words import _EVERYDAY, _STANDARD, colour_rgb, is_known_colour, lightness
from quoting.domain.looks import Finish, Silhouette, look_of
from quoting.domain.places import Place
from quoting.domain.prices import Balloon, ChargeBy, Shape


def balloon(item="Round 11", shape=Shape.ROUND, finish="matt", colour="white", drawn_as=""):
    return Balloon(item=item, shape=shape, size=11, finish=finish, colour=colour, usual_fill_cm=None, packs=(),
                   sell_each=None, breakage=None, on_hand=0, charge_by=ChargeBy.BALLOON, drawn_as=drawn_as,
                   place=Place(workbook="prices.xlsx", sheet="Balloons", row=2, column=0))


@pytest.mark.parametrize("name", sorted(_STANDARD))
def test_named_colours_are_those_of_the_standard(name):
    """CSS Color Module named colours, as the drawing library's own table has them (COMPUTED: Pillow ImageColor)."""
    number = _STANDARD[name]
    assert (number >> 16, number >> 8 & 255, number & 255) == ImageColor.getrgb(name)


def test_the_standard_table_is_whole():
    assert len(_STANDARD) == 148


@pytest.mark.parametrize(("words", "same_as"), [
    ("Light Blue", "lightblue"), ("light-blue", "lightblue"), ("DUSTY  rose", "dusty rose"), ("#8FA9BF", "#8fa9bf"),
    ("garden green", "green"), ("mint cream", "mintcream"), ("powder blue", "powderblue"),
])
def test_words_are_read_as_an_owner_types_them(words, same_as):
    assert colour_rgb(words) == colour_rgb(same_as)


def test_a_word_before_a_colour_shades_it():
    assert lightness(colour_rgb("pale sage")) > lightness(colour_rgb("sage")) > lightness(colour_rgb("dark sage"))


def test_unknown_words_give_a_grey_that_stays_the_same():
    assert colour_rgb("zzyzx") == colour_rgb("Zzyzx ")
    assert max(colour_rgb("zzyzx")) - min(colour_rgb("zzyzx")) < 24


def test_black_and_white_are_what_they_say():
    assert lightness(colour_rgb("white")) > 0.97
    assert lightness(colour_rgb("black")) < 0.15


def test_everyday_words_are_written_as_they_are_looked_up():
    assert all(name == "".join(name.casefold().split()) for name in _EVERYDAY)


@pytest.mark.parametrize(("finish", "drawn"), [
    ("matt", Finish.MATT), ("Pearl", Finish.PEARL), ("satin", Finish.PEARL), ("metallic", Finish.METALLIC),
    ("high mirror", Finish.MIRROR), ("clear", Finish.CLEAR), ("see-through", Finish.CLEAR), ("fancy", Finish.MATT),
])
def test_finishes_are_known_by_their_everyday_words(finish, drawn):
    assert look_of(balloon(finish=finish)).finish is drawn


@pytest.mark.parametrize(("item", "shape", "outline"), [
    ("Foil star gold 18", Shape.FOIL, Silhouette.STAR), ("Foil hearts red", Shape.FOIL, Silhouette.HEART),
    ("Foil moon 20", Shape.FOIL, Silhouette.MOON),
    ("Foil round 18", Shape.FOIL, Silhouette.ROUND), ("Star white 11", Shape.ROUND, Silhouette.ROUND),
])
def test_foils_have_the_outline_their_name_says(item, shape, outline):
    look = look_of(balloon(item=item, shape=shape))
    assert look.silhouette is outline
    assert (look.finish is Finish.FOIL) == (shape is Shape.FOIL)


def test_gold_shines_only_where_its_surface_does():
    assert look_of(balloon(finish="metallic", colour="gold")).rgb != look_of(balloon(finish="matt", colour="gold")).rgb


def test_a_colour_may_be_drawn_as_the_owner_says():
    """A name of a maker's own says nothing of its colour; what is typed for pictures goes before it."""
    assert look_of(balloon(colour="evening song", drawn_as="#8FA9BF")).rgb == (0x8F, 0xA9, 0xBF)
    assert look_of(balloon(colour="evening song", drawn_as="dusty blue")).rgb == colour_rgb("dusty blue")
    assert look_of(balloon(finish="metallic", colour="gold", drawn_as="lemon")).rgb == colour_rgb("lemon")
    assert look_of(balloon(colour="evening song", drawn_as="dusty blue")).colour == "evening song"


@pytest.mark.parametrize(("words", "known"), [
    ("#8FA9BF", True), ("#8fa9bf", True), ("dusty blue", True), ("pale sage", True), ("evening song", False),
    ("#8FA9B", False), ("#8FA9BG", False), ("8FA9BF", False),
])
def test_words_that_are_no_colour_are_told(words, known):
    assert is_known_colour(words) is known
