"""How light falls on a balloon of each finish: maps of grey that any colour is then poured into.

In a map 128 is the colour itself, below it the colour in shade, above it the colour in light.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from PIL import Image, ImageChops, ImageDraw, ImageFilter

from quoting.domain.colour_words import RGB, mixed
from quoting.domain.looks import Finish

_LIT = 205
"""Value of a map where a colour is at its brightest; from there on it pales to white."""
SIDE = 256
"""Pixels of a map's side; balloons are drawn smaller than this but for the largest toppers."""

Curve = tuple[tuple[float, int], ...]
"""(distance from the light, 0 near to 1 far; value of the map there), straight lines between."""

Spot = tuple[float, float, float, float, float, int]
"""Middle x, middle y, half width, half height, blur (all as shares of the side), strength."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Surface:
    """One finish: where the light stands (shares of the side), how far it reaches, its fall-off and its spots."""

    light: tuple[float, float]
    reach: float
    curve: Curve
    spots: tuple[Spot, ...] = ()
    opacity: Curve = ((0.0, 255), (1.0, 255))
    """By distance from the middle of the balloon, not from the light."""


_SURFACES = {
    Finish.MATT: Surface(
        light=(0.36, 0.30), reach=0.86, curve=((0, 168), (0.3, 150), (0.6, 126), (0.85, 96), (1, 78)),
        spots=((0.35, 0.28, 0.13, 0.10, 0.07, 90),),
    ),
    Finish.PEARL: Surface(
        light=(0.40, 0.34), reach=0.80, curve=((0, 216), (0.3, 192), (0.55, 146), (0.8, 110), (0.92, 120), (1, 148)),
        spots=((0.66, 0.74, 0.16, 0.09, 0.06, 60),),
    ),
    Finish.METALLIC: Surface(
        light=(0.36, 0.30), reach=0.88, curve=((0, 226), (0.2, 186), (0.42, 132), (0.66, 84), (0.84, 62), (1, 120)),
        spots=((0.34, 0.25, 0.11, 0.06, 0.02, 235), (0.70, 0.78, 0.10, 0.05, 0.03, 110)),
    ),
    Finish.MIRROR: Surface(
        light=(0.5, -0.8), reach=1.85,
        curve=((0.43, 120), (0.52, 205), (0.64, 246), (0.685, 150), (0.70, 40), (0.76, 62), (0.86, 150), (0.94, 205),
               (1, 110)),
        spots=((0.34, 0.22, 0.12, 0.04, 0.008, 255),),
    ),
    Finish.CLEAR: Surface(
        light=(0.36, 0.30), reach=0.9, curve=((0, 170), (0.4, 110), (0.8, 84), (1, 66)),
        spots=((0.33, 0.24, 0.11, 0.06, 0.015, 255), (0.68, 0.78, 0.09, 0.04, 0.02, 190)),
        opacity=((0, 52), (0.6, 78), (0.85, 140), (0.96, 200), (1, 225)),
    ),
    Finish.FOIL: Surface(
        light=(-0.35, -0.35), reach=1.85,
        curve=((0.2, 160), (0.33, 232), (0.42, 140), (0.52, 84), (0.60, 215), (0.66, 150), (0.8, 84), (1, 60)),
        spots=((0.36, 0.30, 0.08, 0.04, 0.012, 235),),
    ),
}


@lru_cache(maxsize=len(Finish))
def shading(finish: Finish) -> Image.Image:
    """Give the map of a finish ("L", `SIDE` square)."""
    surface = _SURFACES[finish]
    base = _distance(surface.light, surface.reach).point(_table(surface.curve))
    for spot in surface.spots:
        base = ImageChops.screen(base, _spot(spot))
    return base


@lru_cache(maxsize=len(Finish))
def opacity(finish: Finish) -> Image.Image | None:
    """Give how much of what is behind a balloon shows ("L", `SIDE` square, 255 nothing); None where nothing does."""
    surface = _SURFACES[finish]
    if surface.opacity[0][1] == 255:
        return None
    seen = _distance((0.5, 0.5), 0.5).point(_table(surface.opacity))
    for spot in surface.spots:
        seen = ImageChops.lighter(seen, _spot(spot))
    return seen


def poured(grey: Image.Image, rgb: RGB) -> Image.Image:
    """Give a map in a colour ("RGB")."""
    return Image.merge("RGB", [grey.point(table) for table in _tables(rgb)])


@lru_cache(maxsize=256)
def _tables(rgb: RGB) -> tuple[list[int], ...]:
    """Give what each value of a map becomes in red, green and blue."""
    dark = mixed(mixed(rgb, (38, 46, 60), 0.30), (0, 0, 0), 0.48)
    # Light brightens a colour before it pales it: mixed with white alone, dark colours look chalky.
    gain = min(1.4, 255 / max(1, *rgb))
    lights = mixed((round(rgb[0] * gain), round(rgb[1] * gain), round(rgb[2] * gain)), (255, 255, 255), 0.14)
    tables = []
    for shade, own, lit in zip(dark, rgb, lights, strict=True):
        low = [round(shade + (own - shade) * value / 128) for value in range(128)]
        high = [round(own + (lit - own) * (value - 128) / (_LIT - 128)) for value in range(128, _LIT)]
        glare = [round(lit + (255 - lit) * (value - _LIT) / (255 - _LIT)) for value in range(_LIT, 256)]
        tables.append(low + high + glare)
    return tuple(tables)


@lru_cache(maxsize=64)
def thinned(share: float) -> list[int]:
    """Give the table for `Image.point` that makes a mask a share (0 to 1) as dense."""
    return [round(value * share) for value in range(256)]


def _distance(middle: tuple[float, float], reach: float) -> Image.Image:
    """Give distances from `middle`: 0 there, 255 from `reach` (a share of the side) on."""
    far = Image.new("L", (SIDE, SIDE), 255)
    rings = Image.radial_gradient("L").resize((round(2 * reach * SIDE),) * 2, Image.Resampling.BILINEAR)
    far.paste(rings, (round((middle[0] - reach) * SIDE), round((middle[1] - reach) * SIDE)))
    return far


def _table(curve: Sequence[tuple[float, int]]) -> list[int]:
    points = [(0.0, curve[0][1]), *curve, (1.0, curve[-1][1])]
    return [_between(points, value / 255) for value in range(256)]


def _between(points: Sequence[tuple[float, int]], at: float) -> int:
    for (left, low), (right, high) in pairwise(points):
        if at <= right and right > left:
            return round(low + (high - low) * (at - left) / (right - left))
    return points[-1][1]


def _spot(spot: Spot) -> Image.Image:
    x, y, half_width, half_height, blur, strength = spot
    flat = Image.new("L", (SIDE, SIDE), 0)
    box = (x - half_width, y - half_height, x + half_width, y + half_height)
    ImageDraw.Draw(flat).ellipse([SIDE * side for side in box], fill=strength)
    return flat.rotate(24, Image.Resampling.BILINEAR, center=(SIDE * x, SIDE * y)).filter(
        ImageFilter.GaussianBlur(SIDE * blur))
