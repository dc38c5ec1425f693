"""One balloon, drawn once per diameter, look and sign, then pasted wherever it hangs."""

from __future__ import annotations

import math
from functools import lru_cache

from PIL import Image, ImageChops, ImageDraw, ImageFilter

from quoting.domain.colour_words import RGB, lightness, mixed
from quoting.domain.looks import Finish, Look, Silhouette
from quoting.writing.pictures.signs import sign_mask
from quoting.writing.pictures.surfaces import opacity, poured, shading, thinned

_FINE = 4
"""Outlines are drawn so many times larger, then shrunk: smooth edges."""
_PAD = 0.14
"""Room for shadow and knot on every side, as a share of the diameter."""
_SHADOW, _SHADOW_INK = 58, (34, 40, 46)
_SIGN_SHARE, _LEAST_SIGN, _LARGEST_SIGN = 0.23, 5, 26
_WIDEST_RIM = 2
_DARK, _LIGHT = (22, 26, 30), (255, 255, 255)
Sprite = tuple[Image.Image, Image.Image, int]
"""What to paste, its mask, and the pixels from its corner to its middle."""


@lru_cache(maxsize=1024)
def balloon_sprite(diameter: int, look: Look, sign: str, knot: int | None) -> Sprite:
    """Give one balloon of a diameter in pixels; `knot` is where its knot points, in degrees, None for hidden."""
    diameter = max(2, diameter)
    pad = max(2, math.ceil(diameter * _PAD))
    side = diameter + 2 * pad
    body, rim = _outline(diameter, pad, look.silhouette, knot)
    face = Image.new("RGB", (side, side), _SHADOW_INK)
    grey = shading(look.finish).resize((diameter, diameter), Image.Resampling.BILINEAR, reducing_gap=2.0)
    skin = Image.new("RGB", (side, side), mixed(look.rgb, (0, 0, 0), 0.2))
    skin.paste(poured(grey, look.rgb), (pad, pad))
    skin.paste(rim_ink(look.rgb), (0, 0, side, side), rim.point(thinned(0.62)))
    inked = _ink_sign(skin, look, sign, diameter)
    face.paste(skin, (0, 0), body)
    return face, _seen(look.finish, body, ImageChops.lighter(rim, inked), diameter), side // 2


def sign_ink(rgb: RGB) -> tuple[RGB, int]:
    """Give the ink a sign has on a colour, and how dense it is (0 to 255)."""
    return (_DARK, 128) if lightness(rgb) > 0.42 else (_LIGHT, 190)


def rim_ink(rgb: RGB) -> RGB:
    """Give the ink of the line round a balloon of a colour."""
    return mixed(mixed(rgb, (30, 36, 44), 0.35), (0, 0, 0), 0.42)


def _ink_sign(skin: Image.Image, look: Look, sign: str, diameter: int) -> Image.Image:
    """Ink the sign, and give where: what is clear must still show it."""
    inked = Image.new("L", skin.size, 0)
    if not sign or diameter < _LEAST_SIGN + 2:
        return inked
    side = min(max(_LEAST_SIGN, round(diameter * _SIGN_SHARE)), _LARGEST_SIGN)
    ink, density = sign_ink(look.rgb)
    mask = sign_mask(sign, side).point(thinned(density / 255))
    corner = round(skin.width / 2 - side / 2)
    skin.paste(ink, (corner, corner, corner + side, corner + side), mask)
    inked.paste(mask, (corner, corner))
    return inked


def _seen(finish: Finish, body: Image.Image, drawn: Image.Image, diameter: int) -> Image.Image:
    """Give the mask of body and shadow together; `drawn` is what even a clear balloon hides behind it."""
    pad = (body.width - diameter) // 2
    lower = ImageChops.offset(body, 0, max(1, min(diameter // 24, 4)))
    shadow = lower.filter(ImageFilter.GaussianBlur(max(1.0, min(diameter * 0.035, 4.0))))
    shadow = shadow.point(thinned(_SHADOW / 255))
    glass = opacity(finish)
    if glass is None:
        return ImageChops.lighter(body, shadow)
    inside = Image.new("L", body.size, 200)
    inside.paste(glass.resize((diameter, diameter), Image.Resampling.BILINEAR), (pad, pad))
    return ImageChops.lighter(ImageChops.multiply(body, inside), drawn)


def _outline(diameter: int, pad: int, silhouette: Silhouette, knot: int | None) -> tuple[Image.Image, Image.Image]:
    """Give the masks of the body and of its rim."""
    large, edge = (diameter + 2 * pad) * _FINE, pad * _FINE
    body, rim = Image.new("L", (large, large), 0), Image.new("L", (large, large), 0)
    width = max(_FINE, min(round(diameter * _FINE * 0.022), _WIDEST_RIM * _FINE))
    box = (edge, edge, large - edge - 1, large - edge - 1)
    fill, line = ImageDraw.Draw(body), ImageDraw.Draw(rim)
    if silhouette is Silhouette.ROUND:
        if knot is not None:
            points = _knot(large / 2, diameter * _FINE / 2, knot)
            fill.polygon(points, fill=255)
            line.line([*points, points[0]], fill=255, width=width)
        fill.ellipse(box, fill=255)
        line.ellipse(box, outline=255, width=width)
    else:
        shape = {Silhouette.STAR: _star, Silhouette.HEART: _heart, Silhouette.MOON: _moon}[silhouette]()
        reach = large - 2 * edge
        points = [(edge + x * reach, edge + y * reach) for x, y in shape]
        fill.polygon(points, fill=255)
        line.line([*points, *points[:2]], fill=255, width=width * 2, joint="curve")
    return body.reduce(_FINE), rim.reduce(_FINE)


def _knot(middle: float, radius: float, degrees: int) -> list[tuple[float, float]]:
    turn = math.radians(degrees)
    ends = ((0.97, 0.10), (1.12, 0.02), (1.22, 0.10), (1.22, -0.10), (1.12, -0.02), (0.97, -0.10))
    return [(middle + radius * (along * math.cos(turn) - across * math.sin(turn)),
             middle - radius * (along * math.sin(turn) + across * math.cos(turn))) for along, across in ends]


def _star() -> list[tuple[float, float]]:
    """Five blunt points: a filled foil is never sharp."""
    points = []
    for step in range(60):
        angle = 2 * math.pi * step / 60 - math.pi / 2
        wave = (1 + math.cos(5 * (angle + math.pi / 2))) / 2
        reach = 0.5 * (0.56 + 0.44 * wave**1.3)
        points.append((0.5 + reach * math.cos(angle), 0.5 + reach * math.sin(angle)))
    return points


def _heart() -> list[tuple[float, float]]:
    points = []
    for step in range(60):
        turn = 2 * math.pi * step / 60
        x = 16 * math.sin(turn) ** 3
        y = 13 * math.cos(turn) - 5 * math.cos(2 * turn) - 2 * math.cos(3 * turn) - math.cos(4 * turn)
        points.append((0.5 + x / 34, 0.46 - y / 34))
    return points


def _moon() -> list[tuple[float, float]]:
    """Give a fat crescent, open to the right."""
    outer = [(0.5 + 0.5 * math.cos(turn), 0.5 + 0.5 * math.sin(turn)) for turn in _turns(0.24, 1.76, 40)]
    inner = [(0.72 + 0.36 * math.cos(turn), 0.5 + 0.36 * math.sin(turn)) for turn in _turns(1.66, 0.34, 30)]
    return outer + inner


def _turns(first: float, last: float, steps: int) -> list[float]:
    """Give angles in radians from one multiple of π to another, evenly."""
    return [math.pi * (first + (last - first) * step / (steps - 1)) for step in range(steps)]
