"""How things that are tied on look in the picture, and how wide they are. Nothing is counted from it."""

from __future__ import annotations

import math

from quoting.domain.drawings import Point3, Shape, Stroke
from quoting.domain.prices import Hardware
from quoting.forms.drafts import Draft

HANGING = {"ribbon": 60.0, "tassel": 30.0, "line": 60.0, "lights": 60.0}
"""Parts that hang down, with the length (cm) they are drawn with where the sheet gives none."""

LONGEST_HANGING_CM = 90.0
"""A roll or a string of lights is not drawn at its whole length."""

USUAL_WIDTH_CM = 22.0
FAN_PLEATS, LEAVES = 18, 12


def accent_width(item: Hardware) -> float:
    """Give how wide (cm) a thing that is tied on is drawn."""
    if item.part in HANGING:
        return 8.0
    return min(LONGEST_HANGING_CM, float(item.diameter_cm or item.length_cm or USUAL_WIDTH_CM))


def draw_accent(draft: Draft, item: Hardware, at: Point3, layer: int) -> None:
    """Draw a thing that is no balloon: hanging, as a leafy sprig, or as a fan, by its part in the Hardware sheet."""
    x, y, z = at
    if item.part in HANGING:
        length = min(LONGEST_HANGING_CM, float(item.length_cm or HANGING[item.part]), max(y, 5.0))
        swing = [0.0, 2.0, -2.0, 1.5, 0.0]
        points = tuple((x + off, y - length * step / 4, z) for step, off in enumerate(swing))
        width = 4.0 if item.part == "tassel" else 1.2
        draft.drawing.append(Stroke(points=points, width_cm=width, role=item.part, layer=layer))
        return
    radius = accent_width(item) / 2
    if item.part == "greenery":
        outline = tuple(_leaf(x, y, radius, step) for step in range(2 * LEAVES))
    else:
        outline = tuple(_pleat(x, y, radius, step) for step in range(2 * FAN_PLEATS))
    draft.drawing.append(Shape(points=outline, role=item.part, z_cm=z, layer=layer))


def _leaf(x: float, y: float, radius: float, step: int) -> tuple[float, float]:
    """Give a point of a sprig: tips and gaps in turn, flatter than wide."""
    reach = radius if step % 2 == 0 else 0.45 * radius
    angle = math.pi * step / LEAVES
    return x + reach * math.cos(angle), y + 0.6 * reach * math.sin(angle)


def _pleat(x: float, y: float, radius: float, step: int) -> tuple[float, float]:
    """Give a point of a pleated fan, tips and folds in turn, so that it is not taken for a balloon."""
    reach = radius if step % 2 == 0 else 0.84 * radius
    angle = math.pi * step / FAN_PLEATS
    return x + reach * math.cos(angle), y + reach * math.sin(angle)
