"""How stands look in the picture: poles, base plates and frames."""

from __future__ import annotations

from quoting.domain.drawings import Plate, Point3, Stroke
from quoting.domain.prices import Hardware
from quoting.forms.drafts import Draft

USUAL_PLATE_CM, USUAL_POLE_CM = 40.0, 2.5
"""Drawn so wide where the Hardware sheet gives no diameter; common practice, no source. Nothing is counted from it."""

PLATE_HEIGHT_CM = 1.0


def draw_plate(draft: Draft, plate: Hardware, x_cm: float, layer: int) -> None:
    """Draw a base plate from the side, its upper edge on the floor line of the balloons."""
    width = float(plate.diameter_cm or plate.length_cm or USUAL_PLATE_CM)
    draft.drawing.append(Plate(
        x_cm=x_cm, y_cm=-PLATE_HEIGHT_CM, width_cm=width, height_cm=PLATE_HEIGHT_CM, role="base", layer=layer))


def draw_bar(draft: Draft, bar: Hardware, points: tuple[Point3, ...], role: str, layer: int) -> None:
    """Draw a pole or frame along a line; `role` is "pole" or "frame"."""
    width = float(bar.diameter_cm or USUAL_POLE_CM)
    draft.drawing.append(Stroke(points=points, width_cm=width, role=role, layer=layer))
