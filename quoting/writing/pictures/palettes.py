"""The at most 256 colours of one picture, known beforehand from what is in it: small files, quickly made."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache

from PIL import Image

from quoting.domain.colour_words import RGB, mixed
from quoting.domain.drawings import Mark
from quoting.domain.looks import Finish, Look
from quoting.writing.pictures.scale_figures import FIGURE_INKS
from quoting.writing.pictures.sprites import rim_ink, sign_ink
from quoting.writing.pictures.strokes import role_paint
from quoting.writing.pictures.surfaces import poured

_WHITE, _INK = (255, 255, 255), (22, 28, 32)
_GREYS, _NEARLY_WHITE = 24, 245
_MOST_SHADES = 56
_THROUGH = 8
"""Shades of every colour as seen through a clear balloon."""


def with_palette(canvas: Image.Image, looks: Sequence[Look], marks: Iterable[Mark]) -> Image.Image:
    """Give a picture in colours chosen for its balloons and marks; white paper stays white."""
    colours = [_WHITE, *FIGURE_INKS, *(mixed(_INK, _WHITE, step / _GREYS) for step in range(_GREYS))]
    for role, colour in dict.fromkeys((mark.role, mark.colour) for mark in marks):
        paint = role_paint(role, colour)
        colours += [shade for shade in (paint.edge, paint.body, paint.shine) if shade is not None]
    distinct = list(dict.fromkeys(looks))
    shades = max(3, min(_MOST_SHADES, (256 - len(colours)) // max(1, len(distinct)) - 3))
    clear = next((look for look in distinct if look.finish is Finish.CLEAR), None)
    if clear is not None:
        shades = max(3, shades - _THROUGH)
        for other in distinct:
            seen = _shades(other, _THROUGH)[:_THROUGH]
            colours += [mixed(shade, mixed(clear.rgb, _INK, 0.25), 0.3) for shade in seen]
    for look in distinct:
        colours += _shades(look, shades)
    # Paper would be drawn in a shade that is nearly white: the nearest colour is not sought to the last bit.
    kept = [_WHITE, *(colour for colour in dict.fromkeys(colours) if min(colour) <= _NEARLY_WHITE)]
    palette = Image.new("P", (1, 1))
    palette.putpalette([value for colour in kept[:256] for value in colour])
    return canvas.quantize(palette=palette, dither=Image.Dither.NONE)


@lru_cache(maxsize=256)
def _shades(look: Look, count: int) -> tuple[RGB, ...]:
    """Give `count` shades of a balloon from dark to light, and those of its sign and rim."""
    ramp = Image.new("L", (count, 1))
    ramp.putdata([round(44 + (255 - 44) * step / (count - 1)) for step in range(count)])
    row = poured(ramp, look.rgb)
    found: list[RGB] = []
    for step in range(count):
        pixel = row.getpixel((step, 0))
        assert isinstance(pixel, tuple)
        found.append((int(pixel[0]), int(pixel[1]), int(pixel[2])))
    ink, density = sign_ink(look.rgb)
    signed = mixed(look.rgb, ink, density / 255)
    return (*found, signed, mixed(look.rgb, signed, 0.5), mixed(look.rgb, rim_ink(look.rgb), 0.62))
