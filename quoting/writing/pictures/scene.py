"""What is drawn of a piece, back to front: every balloon once, and every mark."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace

from PIL import Image

from quoting.domain.drawings import Mark, Point3, Stroke
from quoting.domain.looks import Look
from quoting.domain.plans import Plan, Position
from quoting.writing.pictures.legend import Entry, look_for
from quoting.writing.pictures.signs import sign_mask
from quoting.writing.pictures.sprites import balloon_sprite, sign_ink
from quoting.writing.pictures.strokes import depth_of, draw_line, draw_mark, stretches, tube_paint
from quoting.writing.pictures.surfaces import thinned
from quoting.writing.pictures.view import View


@dataclass(frozen=True, slots=True, kw_only=True)
class Thing:
    """One thing to draw at a depth (cm, larger is nearer); `balloons` is how many it shows for the first time."""

    depth_cm: float
    draw: Callable[[Image.Image, View], None]
    balloons: int = 0


def things_of(plan: Plan, looks: Mapping[str, Look], entries: Iterable[Entry]) -> tuple[Thing, ...]:
    """Give everything that is drawn, from the back to the front; marks before balloons of the same depth."""
    signs = {entry.look: entry.sign for entry in entries}
    things = [thing for mark in plan.drawing for thing in _mark_things(mark)]
    for position in plan.positions:
        look = look_for(position.item, position.colour, looks)
        things += _long_things(position, look, signs.get(look, "")) if position.path else [
            _round_thing(position, look, signs.get(look, ""))]
    return tuple(sorted(things, key=lambda thing: thing.depth_cm))


def balloons_drawn(plan: Plan) -> int:
    """Count the balloons that the picture of a plan really draws."""
    return sum(thing.balloons for thing in things_of(plan, {}, ()))


def _round_thing(position: Position, look: Look, sign: str) -> Thing:
    knot = None if position.knot_degrees is None else round(position.knot_degrees / 5) * 5 % 360

    def draw(canvas: Image.Image, view: View) -> None:
        x, y = view.at(position.x_cm, position.y_cm)
        face, mask, middle = balloon_sprite(round(view.length(position.diameter_cm)), look, sign, knot)
        canvas.paste(face, (round(x) - middle, round(y) - middle), mask)

    return Thing(depth_cm=position.z_cm, draw=draw, balloons=1)


def _long_things(position: Position, look: Look, sign: str) -> list[Thing]:
    """Cut a long balloon into stretches before and behind what it winds round; the frontmost carries the sign."""
    parts = sorted(stretches(position.path), key=depth_of)
    return [_stretch_thing(part, position, look, sign if part is parts[-1] else "", part is parts[0]) for part in parts]


def _stretch_thing(part: tuple[Point3, ...], position: Position, look: Look, sign: str, is_first: bool) -> Thing:
    def draw(canvas: Image.Image, view: View) -> None:
        width = view.length(position.diameter_cm)
        points = [view.at(x, y) for x, y, _ in part]
        draw_line(canvas, points, width, tube_paint(look))
        side = max(5, round(width * 0.5))
        if sign and width >= 6:
            x, y = points[len(points) // 2]
            ink, density = sign_ink(look.rgb)
            mask = sign_mask(sign, side).point(thinned(density / 255))
            canvas.paste(ink, (round(x - side / 2), round(y - side / 2)), mask)

    return Thing(depth_cm=depth_of(part), draw=draw, balloons=1 if is_first else 0)


def _mark_things(mark: Mark) -> list[Thing]:
    if isinstance(mark, Stroke):
        return [_mark_thing(replace(mark, points=part), depth_of(part)) for part in stretches(mark.points)]
    return [_mark_thing(mark, mark.z_cm)]


def _mark_thing(mark: Mark, depth_cm: float) -> Thing:
    return Thing(depth_cm=depth_cm, draw=lambda canvas, view: draw_mark(canvas, mark, view))
