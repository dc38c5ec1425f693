"""What a piece is seen beside: the floor, and a person's outline or a rule."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from PIL import Image, ImageDraw

from quoting.domain.measures import CM_PER_INCH
from quoting.writing.pictures.lettering import lettering
from quoting.writing.pictures.view import Box, View

PERSON_CM = 170.0
_PERSON_WIDTH, _RULE_WIDTH, _GAP = 49.0, 5.0, 0.06
_SMALL_PIECE = 100.0
"""Pieces lower than this are seen beside a rule: a person would leave no room for them."""
_BODY, _EDGE, _FLOOR, _INK = (236, 239, 240), (176, 183, 187), (190, 196, 199), (70, 78, 84)
FIGURE_INKS = (_BODY, _EDGE, _FLOOR)
"""Kept to the last bit when a picture's colours are chosen."""

# Half a standing person from the neck down, seen from the front: (from the middle, up) in cm; judged by eye.
_HALF = (
    (4, 150), (4.5, 146), (9, 143.5), (17, 140.5), (20.5, 136), (21.8, 126), (22.6, 112), (24, 98), (24.4, 86),
    (22.8, 79), (20.6, 80), (20.2, 89), (18.6, 101), (17.2, 113), (16.4, 124), (15.2, 113), (14.2, 104), (16.2, 92),
    (16.8, 84), (15.6, 65), (13.6, 48), (13.2, 40), (11.6, 25), (9.6, 10), (10.4, 4), (12.8, 1.4), (12, 0), (4.4, 0),
    (4, 6), (3.8, 25), (2.8, 45), (1.8, 65), (0.7, 80),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """What stands to the right of a piece: its left edge and size in cm; the words of a rule, "" for a person."""

    left_cm: float
    width_cm: float
    height_cm: float
    words: str

    @property
    def box(self) -> Box:
        """The room it takes."""
        return Box(left=self.left_cm, right=self.left_cm + self.width_cm, bottom=0.0, top=self.height_cm)


def figure_beside(piece: Box, unit: str) -> Beside:
    """Choose a person for anything about a metre high or more, a rule for smaller pieces."""
    left = piece.right + max(4.0, _GAP * max(piece.width, piece.top))
    if piece.top >= _SMALL_PIECE:
        return Beside(left_cm=left, width_cm=_PERSON_WIDTH, height_cm=PERSON_CM, words="")
    number = next((n for n in (4, 12, 20, 36) if n * CM_PER_INCH >= piece.top * 0.5), 36)
    metric = {4: 10, 12: 30, 20: 50, 36: 100}[number]
    height = number * CM_PER_INCH if unit == "in" else float(metric)
    return Beside(left_cm=left, width_cm=max(_RULE_WIDTH, piece.top * 0.16), height_cm=height,
                  words=f"{number} in" if unit == "in" else f"{metric} cm")


def draw_figure(canvas: Image.Image, figure: Beside, view: View, text_size: int) -> None:
    """Draw it where it stands."""
    if figure.words:
        _draw_rule(canvas, figure, view, text_size)
    else:
        _draw_person(canvas, figure, view)


def draw_floor(canvas: Image.Image, box: Box, view: View) -> None:
    """Draw the floor under piece and figure."""
    left, y = view.at(box.left, 0.0)
    right, _ = view.at(box.right, 0.0)
    ImageDraw.Draw(canvas).line((round(left) - 8, round(y) + 1, round(right) + 8, round(y) + 1), fill=_FLOOR, width=2)


def _draw_person(canvas: Image.Image, figure: Beside, view: View) -> None:
    fine = 3
    left, top = view.at(figure.left_cm - 1, PERSON_CM + 1)
    right, bottom = view.at(figure.box.right + 1, -1)
    size = (round(right - left) * fine, round(bottom - top) * fine)
    per_cm, middle = view.scale * fine, (figure.width_cm / 2 + 1) * view.scale * fine

    def pixel(x: float, y: float) -> tuple[float, float]:
        return middle + x * per_cm, (PERSON_CM + 1 - y) * per_cm

    half = _rounded(_rounded(_HALF))
    points = [pixel(x, y) for x, y in half] + [pixel(-x, y) for x, y in reversed(half)]
    head = (*pixel(-8, PERSON_CM), *pixel(8, PERSON_CM - 23))
    shape = Image.new("L", size, 0)
    draw = ImageDraw.Draw(shape)
    draw.line([*points, points[0]], fill=255, width=2 * fine + 2, joint="curve")
    draw.ellipse([head[0] - fine, head[1] - fine, head[2] + fine, head[3] + fine], fill=255)
    inner = Image.new("L", size, 0)
    draw = ImageDraw.Draw(inner)
    draw.polygon(points, fill=255)
    draw.ellipse(head, fill=255)
    canvas.paste(_EDGE, (round(left), round(top)), shape.reduce(fine))
    canvas.paste(_BODY, (round(left), round(top)), inner.reduce(fine))


def _rounded(points: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """Cut every corner of an open line at a quarter of its sides (Chaikin), ends kept."""
    cut = [points[0]]
    for (x1, y1), (x2, y2) in pairwise(points):
        cut += [(0.75 * x1 + 0.25 * x2, 0.75 * y1 + 0.25 * y2), (0.25 * x1 + 0.75 * x2, 0.25 * y1 + 0.75 * y2)]
    return [*cut, points[-1]]


def _draw_rule(canvas: Image.Image, figure: Beside, view: View, text_size: int) -> None:
    x, bottom = (round(value) for value in view.at(figure.left_cm, 0.0))
    top = round(view.at(0.0, figure.height_cm)[1])
    draw = ImageDraw.Draw(canvas)
    wide = max(7, round(view.length(figure.width_cm) * 0.3))
    draw.rectangle((x, top, x + wide, bottom), fill=_BODY, outline=_EDGE)
    marks = 10 if figure.words.endswith("cm") else int(figure.words.split()[0])
    for mark in range(marks + 1):
        y = round(bottom + (top - bottom) * mark / marks)
        draw.line((x, y, x + (wide if mark in (0, marks) else wide // 2), y), fill=_EDGE)
    font = lettering(text_size)
    start = min(float(x), canvas.width - 2 - font.getlength(figure.words))  # to the right, clear of the piece
    draw.text((start, top - 4), figure.words, fill=_INK, font=font, anchor="lb")
