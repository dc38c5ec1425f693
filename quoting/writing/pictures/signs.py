"""A small sign on every balloon of a colour, so that colours are told apart without seeing colour."""

from __future__ import annotations

import math
from functools import lru_cache

from PIL import Image, ImageDraw

from quoting.writing.pictures.lettering import lettering

_FINE = 4
"""Signs are drawn so many times larger, then shrunk: smooth edges."""

_POLYGONS = {
    "triangle": ((0.5, 0.06), (0.98, 0.90), (0.02, 0.90)),
    "diamond": ((0.5, 0.0), (0.94, 0.5), (0.5, 1.0), (0.06, 0.5)),
    "square": ((0.12, 0.12), (0.88, 0.12), (0.88, 0.88), (0.12, 0.88)),
    "bar": ((0.0, 0.36), (1.0, 0.36), (1.0, 0.64), (0.0, 0.64)),
    "post": ((0.36, 0.0), (0.64, 0.0), (0.64, 1.0), (0.36, 1.0)),
}
_LINES = {
    "cross": (((0.1, 0.1), (0.9, 0.9)), ((0.1, 0.9), (0.9, 0.1))),
    "plus": (((0.5, 0.0), (0.5, 1.0)), ((0.0, 0.5), (1.0, 0.5))),
    "chevron": (((0.05, 0.75), (0.5, 0.25)), ((0.5, 0.25), (0.95, 0.75))),
}
SIGNS = ("dot", "bar", "triangle", "ring", "cross", "square", "plus", "post", "diamond", "chevron")
"""In the order colours get them; further colours get letters."""


def sign_names(count: int) -> tuple[str, ...]:
    """Give a sign per colour; a single colour needs none and gets "".

    >>> sign_names(2)
    ('dot', 'bar')
    """
    if count == 1:
        return ("",)
    letters = [_letters(number) for number in range(max(0, count - len(SIGNS)))]
    return (*SIGNS[:count], *letters)


def _letters(number: int) -> str:
    """Give "A" for 0 to "Z" for 25, then "AA"."""
    return ("" if number < 26 else _letters(number // 26 - 1)) + chr(65 + number % 26)


@lru_cache(maxsize=256)
def sign_mask(name: str, side: int) -> Image.Image:
    """Give a sign as a mask ("L", `side` pixels square, 255 where it is inked)."""
    large = side * _FINE
    mask = Image.new("L", (large, large), 0)
    draw = ImageDraw.Draw(mask)
    if name == "dot":
        draw.ellipse((large * 0.1, large * 0.1, large * 0.9, large * 0.9), fill=255)
    elif name == "ring":
        draw.ellipse((0, 0, large - 1, large - 1), outline=255, width=max(_FINE, round(large * 0.2)))
    elif name in _POLYGONS:
        draw.polygon([(x * large, y * large) for x, y in _POLYGONS[name]], fill=255)
    elif name in _LINES:
        for start, end in _LINES[name]:
            ends = [(x * large, y * large) for x, y in (start, end)]
            draw.line(ends, fill=255, width=max(_FINE, round(large * 0.24)))
    else:
        font = lettering(math.ceil(large * 1.2 / max(1, len(name))), bold=True)
        draw.text((large / 2, large / 2), name, fill=255, font=font, anchor="mm")
    return mask.reduce(_FINE)
