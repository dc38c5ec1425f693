"""Where centimetres of a piece land on the picture: its extent, the scale, the middle."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from quoting.domain.drawings import Mark, Plate, Shape
from quoting.domain.plans import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """A rectangle in cm, y up."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        """From left to right."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """From bottom to top."""
        return self.top - self.bottom

    def joined(self, other: Box) -> Box:
        """Give the smallest box that holds both."""
        return Box(left=min(self.left, other.left), bottom=min(self.bottom, other.bottom),
                   right=max(self.right, other.right), top=max(self.top, other.top))


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """`scale` pixels per cm; (`x_px`, `y_px`) is where the middle of the piece's foot lands."""

    scale: float
    x_px: float
    y_px: float

    def at(self, x_cm: float, y_cm: float) -> tuple[float, float]:
        """Give the pixel of a point, not rounded."""
        return self.x_px + x_cm * self.scale, self.y_px - y_cm * self.scale

    def length(self, cm: float) -> float:
        """Give a length in pixels, not rounded."""
        return cm * self.scale


def extent_of(plan: Plan) -> Box | None:
    """Give the box round everything that is drawn of a piece itself; None where nothing is."""
    boxes = [*_balloon_boxes(plan), *(_mark_box(mark) for mark in plan.drawing)]
    if not boxes:
        return None
    whole = boxes[0]
    for box in boxes[1:]:
        whole = whole.joined(box)
    return whole


def balloons_extent(plan: Plan) -> Box | None:
    """Give the box round the balloons alone."""
    whole: Box | None = None
    for box in _balloon_boxes(plan):
        whole = box if whole is None else whole.joined(box)
    return whole


def _balloon_boxes(plan: Plan) -> Iterable[Box]:
    for position in plan.positions:
        half = position.diameter_cm / 2
        points = [(x, y) for x, y, _ in position.path] or [(position.x_cm, position.y_cm)]
        yield _box_of(points, half)


def _mark_box(mark: Mark) -> Box:
    if isinstance(mark, Plate):
        half = mark.width_cm / 2
        return Box(left=mark.x_cm - half, right=mark.x_cm + half, bottom=mark.y_cm, top=mark.y_cm + mark.height_cm)
    if isinstance(mark, Shape):
        return _box_of(mark.points, 0.0)
    return _box_of([(x, y) for x, y, _ in mark.points], mark.width_cm / 2)


def _box_of(points: Iterable[tuple[float, float]], half: float) -> Box:
    xs, ys = zip(*points, strict=True)
    return Box(left=min(xs) - half, right=max(xs) + half, bottom=min(ys) - half, top=max(ys) + half)
