"""How a stock item looks when it is drawn: colour, surface and silhouette, from the words of its price row."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from quoting.domain.colour_words import RGB, colour_rgb
from quoting.domain.prices import Balloon, PriceBook, Shape


class Finish(StrEnum):
    """Surfaces that pictures tell apart."""

    MATT = "matt"
    PEARL = "pearl"
    METALLIC = "metallic"
    MIRROR = "mirror"
    CLEAR = "clear"
    FOIL = "foil"


class Silhouette(StrEnum):
    """Outlines that pictures tell apart; the values are words looked for in an item's name."""

    ROUND = "round"
    STAR = "star"
    HEART = "heart"
    MOON = "moon"


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """How one item is drawn. `colour` and `surface` are the price row's own words, for the legend."""

    rgb: RGB
    finish: Finish
    colour: str
    surface: str
    silhouette: Silhouette = Silhouette.ROUND


_FINISH_WORDS = {
    "pearl": Finish.PEARL, "satin": Finish.PEARL, "silk": Finish.PEARL, "shimmer": Finish.PEARL,
    "metallic": Finish.METALLIC, "metal": Finish.METALLIC, "mirror": Finish.MIRROR, "polished": Finish.MIRROR,
    "shiny": Finish.MIRROR, "clear": Finish.CLEAR, "transparent": Finish.CLEAR, "see through": Finish.CLEAR,
    "foil": Finish.FOIL,
}
"""Everyday words for finishes; any other word is drawn matt."""

_METALS = {
    "gold": (201, 158, 66), "silver": (176, 181, 187), "copper": (184, 110, 70), "bronze": (140, 104, 58),
    "rose gold": (211, 146, 134),
}
"""Colours that look like the metal itself where the surface shines."""


def look_of(balloon: Balloon) -> Look:
    """Give how a balloon is drawn, from its shape, finish, colour and (for foils) its name."""
    return look_in_words(item=balloon.item, shape=balloon.shape, finish=balloon.finish, colour=balloon.colour,
                         drawn_as=balloon.drawn_as)


def looks_of(prices: PriceBook) -> Mapping[str, Look]:
    """Give the look of every balloon of a price book, under its item name."""
    return {balloon.item: look_of(balloon) for balloon in prices.balloons}


def look_in_words(*, item: str, shape: str, finish: str, colour: str, drawn_as: str = "") -> Look:
    """Give how a balloon is drawn from the words of its row; `shape` is as an owner types it ("foil").

    `drawn_as` are colour words or "#RRGGBB" that go before those of `colour`.
    """
    words = " ".join(finish.casefold().replace("-", " ").split())
    surface = next((found for word, found in _FINISH_WORDS.items() if word in words), Finish.MATT)
    is_foil = shape == Shape.FOIL.value
    if is_foil:
        surface = Finish.FOIL
    name = " ".join(colour.casefold().split())
    is_shining = surface in (Finish.METALLIC, Finish.MIRROR, Finish.FOIL)
    rgb = _METALS[name] if is_shining and name in _METALS else colour_rgb(colour)
    if drawn_as:
        rgb = colour_rgb(drawn_as)
    silhouette = _silhouette(item) if is_foil else Silhouette.ROUND
    return Look(rgb=rgb, finish=surface, colour=colour, surface=finish, silhouette=silhouette)


def _silhouette(item: str) -> Silhouette:
    words = item.casefold().split()
    named = (shape for shape in Silhouette if any(word.startswith(shape.value) for word in words))
    return next(named, Silhouette.ROUND)
