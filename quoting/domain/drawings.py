"""Simple marks for what a picture shows besides balloons: poles, plates, frames, lines, ribbons, nets, figures.

Coordinates are those of `Position`: cm, x to the right, y up from the floor, z towards
the viewer, measured from the middle of the foot. Nothing here is counted: balloons
are drawn from `Plan.positions` alone, so that what is drawn and what is counted can't
drift apart.
"""

from __future__ import annotations

from dataclasses import dataclass

Point3 = tuple[float, float, float]
"""x, y, z in cm."""

Point2 = tuple[float, float]
"""x, y in cm."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """Something long and thin along a line of at least two points: a pole, frame, line, ribbon, tassel.

    `width_cm` is its thickness (what is too thin to be seen is drawn a hair wide).
    `role` is "pole", "frame", "line", "ribbon", "wrap"… and gives the look where
    `colour` (words, as in the price sheets) is "". `layer` is the number of its
    build step, 0 for none.
    """

    points: tuple[Point3, ...]
    width_cm: float
    role: str
    colour: str = ""
    layer: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Plate:
    """An upright rectangle: a base plate seen from the side, a weight, a collar, a panel, an opening.

    `x_cm` is its middle, `y_cm` its lower edge. `role` "opening" is drawn as an outline
    only, any other ("base", "weight", "topper", "other"…) as a solid thing.
    """

    x_cm: float
    y_cm: float
    width_cm: float
    height_cm: float
    role: str
    z_cm: float = 0.0
    colour: str = ""
    layer: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """A closed outline of at least three points: a net, a sign, a paper fan, a twisted figure.

    `role` "net" is drawn see-through and hatched, any other as a solid thing.
    """

    points: tuple[Point2, ...]
    role: str
    z_cm: float = 0.0
    colour: str = ""
    layer: int = 0


Mark = Stroke | Plate | Shape
"""What `Plan.drawing` holds."""
