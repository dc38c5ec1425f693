"""Numbers of the build order, written on what each step adds."""

from __future__ import annotations

from PIL import Image, ImageDraw

from quoting.domain.drawings import Mark, Plate, Shape
from quoting.domain.plans import Plan, Position
from quoting.writing.pictures.lettering import lettering
from quoting.writing.pictures.view import View

_INK, _EDGE, _PAPER = (24, 32, 36), (60, 70, 76), (255, 255, 255)
_LEAST_TEXT = 15
"""Pixels: what is smaller can't be read in print."""
_MARK_ROOM_CM = 1000.0
"""On marks a number is as large as anywhere."""


def draw_numbers(canvas: Image.Image, plan: Plan, view: View, text_px: int) -> None:
    """Write the number of each build step on what it adds, over everything else."""
    draw = ImageDraw.Draw(canvas)
    for layer, (x_cm, y_cm, room_cm) in sorted(number_places(plan).items()):
        x, y = view.at(x_cm, y_cm)
        size = max(_LEAST_TEXT, min(text_px, round(view.length(room_cm) * 0.4)))
        font, high = lettering(size, bold=True), size * 0.7
        wide = max(high, font.getlength(str(layer)) / 2 + size * 0.32)
        box = (round(x - wide), round(y - high), round(x + wide), round(y + high))
        draw.rounded_rectangle(box, radius=round(high), fill=_PAPER, outline=_EDGE)
        draw.text((x, y), str(layer), fill=_INK, font=font, anchor="mm")


def number_places(plan: Plan) -> dict[int, tuple[float, float, float]]:
    """Give where (x, y in cm) each build step that is seen has its number, and how much room (cm) there is.

    On its frontmost balloon that is nearest to the middle of its front; on a mark
    where the step adds no balloon.
    """
    layers: dict[int, list[Position]] = {}
    for position in plan.positions:
        layers.setdefault(position.layer, []).append(position)
    places = {layer: _front(found) for layer, found in layers.items()}
    for mark in plan.drawing:
        if mark.layer:
            places.setdefault(mark.layer, (*_on_mark(mark), _MARK_ROOM_CM))
    return places


def _front(found: list[Position]) -> tuple[float, float, float]:
    nearest = max(position.z_cm for position in found)
    front = [p for p in found if p.z_cm > nearest - p.diameter_cm * 0.3]
    x = sum(p.x_cm for p in front) / len(front)
    y = sum(p.y_cm for p in front) / len(front)
    best = min(front, key=lambda p: ((p.x_cm - x) ** 2 + (p.y_cm - y) ** 2, p.y_cm, p.x_cm))
    return best.x_cm, best.y_cm, best.diameter_cm


def _on_mark(mark: Mark) -> tuple[float, float]:
    """Give a point beside the middle of a plate, where nothing stands on it, and on any other mark itself."""
    if isinstance(mark, Plate):
        return mark.x_cm + mark.width_cm * 0.38, mark.y_cm + mark.height_cm / 2
    if isinstance(mark, Shape):
        xs, ys = zip(*mark.points, strict=True)
        return sum(xs) / len(xs), sum(ys) / len(ys)
    x, y, _ = mark.points[0]
    return x, y
