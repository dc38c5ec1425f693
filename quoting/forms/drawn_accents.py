"""How things that are tied on look in the picture, and how wide they are. Nothing is counted from it."""

from __future__ import annotations

import math

from quoting.domain.drawings import Point2, Point3, Shape, Stroke
from quoting.domain.prices import Hardware
from quoting.forms.drafts import Draft

HANGING = {"ribbon": 60.0, "line": 60.0, "lights": 60.0}
"""Parts that hang down as a line, with the length (cm) they are drawn with where the sheet gives none."""

LONGEST_HANGING_CM = 90.0
"""A roll or a string of lights is not drawn at its whole length."""

USUAL_WIDTH_CM, LONGEST_SPRAY_CM, USUAL_TASSEL_CM = 22.0, 60.0, 30.0
FAN_PLEATS, FRINGE = 18, 5
LEAF_CM, BULB_CM, BULBS_APART_CM = 9.0, 3.0, 11.0


def accent_width(item: Hardware) -> float:
    """Give how wide (cm) a thing that is tied on is drawn."""
    if item.part in HANGING or item.part == "tassel":
        return 8.0
    longest = LONGEST_SPRAY_CM if item.part == "greenery" else LONGEST_HANGING_CM
    return min(longest, float(item.diameter_cm or item.length_cm or USUAL_WIDTH_CM))


def draw_accent(draft: Draft, item: Hardware, at: Point3, layer: int) -> None:
    """Draw a thing that is no balloon: hanging, as a leafy spray, or as a fan, by its part in the Hardware sheet."""
    x, y, z = at
    if item.part in HANGING:
        length = min(LONGEST_HANGING_CM, float(item.length_cm or HANGING[item.part]), max(y, 5.0))
        _hang(draft, item.part, at, length, layer)
        return
    if item.part == "tassel":
        outline = _tassel(x, y, min(float(item.length_cm or USUAL_TASSEL_CM), max(y, 5.0)))
    elif item.part == "greenery":
        outline = _spray(x, y, accent_width(item))
    else:
        outline = tuple(_pleat(x, y, accent_width(item) / 2, step) for step in range(2 * FAN_PLEATS))
    draft.drawing.append(Shape(points=outline, role=item.part, z_cm=z, layer=layer))


def draw_wound(draft: Draft, points: tuple[Point3, ...], layer: int) -> None:
    """Draw a bought ribbon along the line it is wound on, its half in front over every balloon it goes round."""
    deepest = max(abs(z) for _, _, z in points)
    flat = tuple((x, y, math.copysign(deepest, z)) for x, y, z in points)
    draft.drawing.append(Stroke(points=flat, width_cm=2.0, role="ribbon", layer=layer))


def _hang(draft: Draft, part: str, at: Point3, length: float, layer: int) -> None:
    x, y, z = at
    swing = [0.0, 2.0, -2.0, 1.5, 0.0]
    points = tuple((x + off, y - length * step / 4, z) for step, off in enumerate(swing))
    draft.drawing.append(Stroke(points=points, width_cm=1.2, role=part, layer=layer))
    if part != "lights":
        return
    bulbs = max(1, int(length / BULBS_APART_CM))
    for bulb in range(bulbs):
        down = length * (bulb + 0.5) / bulbs
        side = BULB_CM if bulb % 2 else -BULB_CM
        corners = tuple((x + side / 2 + BULB_CM / 2 * math.cos(math.pi * n / 3),
                         y - down + BULB_CM / 2 * math.sin(math.pi * n / 3)) for n in range(6))
        draft.drawing.append(Shape(points=corners, role=part, z_cm=z + 0.1, layer=layer))


def _tassel(x: float, y: float, length: float) -> tuple[Point2, ...]:
    """Give the outline of a tassel: a head on its loop, a waist, and a fringe that widens to the floor."""
    half, head = 0.16 * length, 0.22 * length
    side = ((0.06 * length, 0.0), (0.14 * length, 0.35 * head), (0.14 * length, 0.7 * head), (0.07 * length, head))
    ends = [(half * (1 - 2 * n / (2 * FRINGE)), length if n % 2 == 0 else 0.86 * length) for n in range(2 * FRINGE + 1)]
    left = [(-across, down) for across, down in reversed(side)]
    return tuple((x + across, y - down) for across, down in (*side, *ends, *left))


def _spray(x: float, y: float, width: float) -> tuple[Point2, ...]:
    """Give the outline of a spray of leaves on a stem that lies across, a leaf up and a leaf down in turn."""
    leaves = max(3, round(width / LEAF_CM))
    pitch = width / leaves
    starts = [-width / 2 + leaf * pitch for leaf in range(leaves)]
    upper = [point for start in starts for point in _leaf(start, pitch, 1.0)]
    lower = [point for start in reversed(starts) for point in reversed(_leaf(start, pitch, -1.0))]
    bend = 0.1 * width
    return tuple((x + along, y + up + bend * math.sin(math.pi * along / width)) for along, up in (*upper, *lower))


def _leaf(along: float, pitch: float, side: float) -> list[Point2]:
    """Give one leaf that leans along its stem: from the stem out to its tip and back."""
    corners = ((0.0, 0.08), (0.12, 0.62), (0.55, 1.0), (1.15, 1.22), (1.12, 0.75), (0.7, 0.25), (0.62, 0.08))
    return [(along + pitch * share, side * pitch * out) for share, out in corners]


def _pleat(x: float, y: float, radius: float, step: int) -> Point2:
    """Give a point of a pleated fan, tips and folds in turn, so that it is not taken for a balloon."""
    reach = radius if step % 2 == 0 else 0.84 * radius
    angle = math.pi * step / FAN_PLEATS
    return x + reach * math.cos(angle), y + reach * math.sin(angle)
