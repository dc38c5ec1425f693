"""Lines of any thickness, plates and shapes with smooth edges: poles, frames, twisters, ribbons, nets."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from PIL import Image, ImageDraw

from quoting.domain.colour_words import RGB, colour_rgb, mixed
from quoting.domain.drawings import Mark, Plate, Point3, Shape, Stroke
from quoting.domain.looks import Finish, Look
from quoting.writing.pictures.view import View

Pixel = tuple[float, float]

_ROLES: dict[str, RGB] = {
    "pole": (158, 165, 172), "frame": (112, 119, 126), "line": (128, 128, 128), "ribbon": (186, 160, 140),
    "base": (88, 94, 100), "weight": (116, 108, 100), "net": (150, 158, 164), "opening": (140, 146, 152),
    "greenery": (108, 138, 100), "lights": (226, 190, 96), "tassel": (200, 150, 140), "decoration": (214, 178, 150),
}
_OTHER: RGB = (176, 160, 142)
_THINNEST = 1.3
"""Pixels: anything thinner would vanish in print."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Paint:
    """Three inks of one thing: its edge, its body and the light on it (None: no light)."""

    edge: RGB
    body: RGB
    shine: RGB | None


def role_paint(role: str, colour: str) -> Paint:
    """Give the inks of a mark: of its colour's words, else of its role."""
    rgb = colour_rgb(colour) if colour else _ROLES.get(role, _OTHER)
    shine = mixed(rgb, (255, 255, 255), 0.6) if role in ("pole", "frame") else None
    return Paint(edge=mixed(rgb, (0, 0, 0), 0.42), body=rgb, shine=shine)


def tube_paint(look: Look) -> Paint:
    """Give the inks of a long balloon."""
    gloss = 0.75 if look.finish in (Finish.METALLIC, Finish.MIRROR, Finish.FOIL) else 0.45
    return Paint(edge=mixed(look.rgb, (20, 26, 34), 0.5), body=look.rgb, shine=mixed(look.rgb, (255, 255, 255), gloss))


def draw_line(canvas: Image.Image, points: Sequence[Pixel], width: float, paint: Paint) -> None:
    """Draw a line through pixels with round ends, its edge darker and its middle lit from the upper left."""
    width = max(width, _THINNEST)
    if width < 3:
        _ink(canvas, points, width, paint.edge if paint.shine else paint.body)
        return
    edge = max(1.0, width * 0.07)
    _ink(canvas, points, width, paint.edge)
    _ink(canvas, points, width - 2 * edge, paint.body)
    if paint.shine is not None and width >= 4:
        off = width * 0.16
        _ink(canvas, [(x - off, y - off) for x, y in points], width * 0.22, paint.shine)


def draw_mark(canvas: Image.Image, mark: Mark, view: View) -> None:
    """Draw one mark, a stroke as a whole."""
    paint = role_paint(mark.role, mark.colour)
    if isinstance(mark, Stroke):
        draw_line(canvas, [view.at(x, y) for x, y, _ in mark.points], view.length(mark.width_cm), paint)
    elif isinstance(mark, Plate):
        _draw_plate(canvas, mark, view, paint)
    else:
        _draw_shape(canvas, mark, view, paint)


def stretches(points: Sequence[Point3]) -> tuple[tuple[Point3, ...], ...]:
    """Cut a line where it passes from in front of its own middle depth to behind it, so that it can wind round things.

    Neighbouring stretches share a point. A line of nearly one depth stays whole.
    """
    depths = [z for _, _, z in points]
    if max(depths) - min(depths) < 0.5:
        return (tuple(points),)
    middle = (max(depths) + min(depths)) / 2
    found: list[list[Point3]] = [[points[0]]]
    for before, point in pairwise(points):
        found[-1].append(point)
        if (before[2] >= middle) != (point[2] >= middle):
            found.append([point])
    return tuple(tuple(part) for part in found if len(part) > 1)


def depth_of(points: Sequence[Point3]) -> float:
    """Give the mean depth of a stretch."""
    return sum(z for _, _, z in points) / len(points)


def _draw_plate(canvas: Image.Image, mark: Plate, view: View, paint: Paint) -> None:
    left, bottom = view.at(mark.x_cm - mark.width_cm / 2, mark.y_cm)
    right, top = view.at(mark.x_cm + mark.width_cm / 2, mark.y_cm + mark.height_cm)
    draw = ImageDraw.Draw(canvas)
    if mark.role == "opening":
        _dash(draw, [(left, top), (right, top), (right, bottom), (left, bottom), (left, top)], paint.edge)
        return
    top = min(top, bottom - 3)  # a plate of a few millimetres would vanish in print
    box = (round(left), round(top), round(right), round(bottom))
    draw.rounded_rectangle(box, radius=2, fill=paint.body, outline=paint.edge)


def _draw_shape(canvas: Image.Image, mark: Shape, view: View, paint: Paint) -> None:
    points = [view.at(x, y) for x, y in mark.points]
    closed = [*points, points[0]]
    if mark.role != "net":
        _fill(canvas, points, paint.body, 255)
        _ink(canvas, closed, 1.6, paint.edge)
        return
    _fill(canvas, points, paint.body, 46)
    _hatch(canvas, points, mixed(paint.body, (255, 255, 255), 0.2))
    _ink(canvas, closed, 1.8, paint.edge)


def _hatch(canvas: Image.Image, points: Sequence[Pixel], ink: RGB) -> None:
    left, top, right, bottom = _bounds(points, 1)
    inside = Image.new("L", (right - left, bottom - top), 0)
    ImageDraw.Draw(inside).polygon([(x - left, y - top) for x, y in points], fill=120)
    lines = Image.new("L", inside.size, 0)
    draw, (width, height) = ImageDraw.Draw(lines), inside.size
    for offset in range(-height, width, 14):
        draw.line((offset, 0, offset + height, height), fill=255)
        draw.line((offset + height, 0, offset, height), fill=255)
    canvas.paste(ink, (left, top), Image.composite(inside, Image.new("L", inside.size, 0), lines))


def _dash(draw: ImageDraw.ImageDraw, points: Sequence[Pixel], ink: RGB) -> None:
    for (x1, y1), (x2, y2) in pairwise(points):
        count = max(1, round(math.hypot(x2 - x1, y2 - y1) / 10))
        for step in range(count):
            start, end = step / count, (step + 0.6) / count
            draw.line((x1 + (x2 - x1) * start, y1 + (y2 - y1) * start,
                       x1 + (x2 - x1) * end, y1 + (y2 - y1) * end), fill=ink, width=2)


def _bounds(points: Sequence[Pixel], margin: float) -> tuple[int, int, int, int]:
    xs, ys = zip(*points, strict=True)
    return (math.floor(min(xs) - margin), math.floor(min(ys) - margin),
            math.ceil(max(xs) + margin), math.ceil(max(ys) + margin))


def _ink(canvas: Image.Image, points: Sequence[Pixel], width: float, ink: RGB) -> None:
    left, top, right, bottom = _bounds(points, width / 2 + 2)
    fine = 4 if (right - left) * (bottom - top) < 40_000 else 2
    mask = Image.new("L", ((right - left) * fine, (bottom - top) * fine), 0)
    draw = ImageDraw.Draw(mask)
    moved = [((x - left) * fine, (y - top) * fine) for x, y in points]
    draw.line(moved, fill=255, width=max(1, round(width * fine)), joint="curve")
    half = width * fine / 2
    for x, y in (moved[0], moved[-1]):
        draw.ellipse((x - half, y - half, x + half - 1, y + half - 1), fill=255)
    canvas.paste(ink, (left, top), mask.reduce(fine))


def _fill(canvas: Image.Image, points: Sequence[Pixel], ink: RGB, density: int) -> None:
    left, top, right, bottom = _bounds(points, 1)
    mask = Image.new("L", ((right - left) * 2, (bottom - top) * 2), 0)
    ImageDraw.Draw(mask).polygon([((x - left) * 2, (y - top) * 2) for x, y in points], fill=density)
    canvas.paste(ink, (left, top), mask.reduce(2))
