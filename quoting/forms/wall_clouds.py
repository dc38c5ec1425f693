"""An organic wall: balloons of several sizes packed into its width, height and depth."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from itertools import islice

from quoting.domain.counts import rounded_up
from quoting.domain.plans import Position
from quoting.forms.drafts import Draft
from quoting.forms.formulas import rounded_up as rounded_up_formula
from quoting.forms.lots import Lot, add_lot_parts, add_mean_volume, lot_words, part_words, read_lot, read_mixed_lot
from quoting.forms.wall_openings import Opening
from quoting.geometry.areas import Contour, laid_within, rectangle
from quoting.geometry.packing import RANDOM_SPHERES, spheres_in

PER_CLUSTER = 4
"""Balloons tied together before they go on the frame; common practice, no source."""

FRONT_SHARE = 1.5
"""Area of the balloons that are drawn ÷ area of the face, overlaps and all; nothing is counted from it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cloud:
    """An organic wall; lengths in cm. `opening` is free from front to back."""

    lot: Lot
    width_cm: float
    height_cm: float
    depth_cm: float
    packing: float
    opening: Opening | None
    count: int = 0

    @property
    def clusters(self) -> int:
        """Clusters to tie."""
        return rounded_up(self.count / PER_CLUSTER)

    @property
    def opening_left_cm(self) -> float:
        """From the wall's left end to the opening."""
        if self.opening is None or self.opening.at_cm is not None:
            return 0.0 if self.opening is None else self.opening.at_cm or 0.0
        return (self.width_cm - self.opening.width_cm) / 2

    @property
    def face_area(self) -> float:
        """Square cm of the front, less the opening."""
        free = 0.0 if self.opening is None else self.opening.width_cm * self.opening.height_cm
        return self.width_cm * self.height_cm - free

    @property
    def seen(self) -> int:
        """How many balloons are drawn: those that cover its face; the rest are behind them."""
        mean = sum(float(share) * fill**2 for share, fill in zip(self.lot.size_shares, self.lot.fills_cm, strict=True))
        mean *= math.pi / 4 / float(sum(self.lot.size_shares))
        return min(self.count, max(1, round(FRONT_SHARE * self.face_area / mean)))


def read_cloud(draft: Draft, width_cm: float, height_cm: float, opening: Opening | None) -> Cloud | None:
    """Read an organic wall; reports at the cells."""
    if not draft.has_all("depth"):
        return None
    if draft.is_filled("filler_sizes"):
        for key in ("size", "fill"):
            if draft.is_filled(key):
                draft.complain("P513", key, heading=key.capitalize(), other="a list of filler sizes")
        lot = None if draft.is_held else read_mixed_lot(draft)
    else:
        draft.say_unused("without filler sizes", "filler_size_shares")
        lot = read_lot(draft)
    if lot is None:
        return None
    depth = float(draft.decimal("depth") or 0)
    if max(lot.fills_cm) > min(depth, width_cm, height_cm):
        draft.complain("P539", "depth", heading="Depth", typed=draft.long(depth),
                       rule=f"its largest balloons are {draft.short(max(lot.fills_cm))} thick"
                            f" and the wall {draft.long(width_cm)} by {draft.long(height_cm)}")
        return None
    cloud = Cloud(lot=lot, width_cm=width_cm, height_cm=height_cm, depth_cm=depth, opening=opening,
                  packing=float(draft.decimal("packing") or RANDOM_SPHERES))
    exact = spheres_in(cloud.face_area * depth, lot.mean_volume, cloud.packing)
    return replace(cloud, count=max(1, rounded_up(exact)))


def add_cloud(draft: Draft, cloud: Cloud, add_frame: Callable[[], int]) -> int:
    """Add workings, parts, build steps and positions, after the sizes; gives the number of the frame's step."""
    _add_steps(draft, cloud)
    parts = add_lot_parts(draft, cloud.lot, of="balloons", count=cloud.count, role="wall")
    draft.description.append(lot_words(cloud.lot))
    frame_layer = add_frame()
    layer = draft.add_layer(f"Tie on from the floor up, small ones last: {part_words(draft, parts)}", parts)
    drawn = _positions(cloud, layer)
    draft.positions += drawn
    draft.hidden += cloud.count - len(drawn)
    return frame_layer


def _add_steps(draft: Draft, cloud: Cloud) -> None:
    unit_cm, opening = 2.54 if draft.unit == "in" else 1.0, cloud.opening
    draft.length_step("depth", "Depth", cloud.depth_cm)
    free = ""
    if opening is not None:
        draft.length_step("opening width", "Width of the opening", opening.width_cm)
        draft.length_step("opening height", "Height of the opening", opening.height_cm)
        free = "-{opening width}*{opening height}"
    draft.step("area", "Area of the face", cloud.face_area / unit_cm**2, formula=f"{{width}}*{{height}}{free}",
               unit=f"{draft.unit}²")
    draft.step("packing", "Packing share", cloud.packing, words="how much of the room is balloon")
    add_mean_volume(draft, cloud.lot)
    draft.step("balloons", "Balloons", cloud.count, unit="balloons", words="whole ones that fill the room",
               formula=f"MAX(1,{rounded_up_formula('({packing}*{area}*{depth}/{balloon volume})')})")
    draft.step("clusters", "Clusters to tie", cloud.clusters,
               formula=rounded_up_formula(f"({{balloons}}/{PER_CLUSTER})"), words=f"of {PER_CLUSTER}")


def _positions(cloud: Cloud, layer: int) -> list[Position]:
    """Strew the foremost balloons over the face, each a little off an even pattern, always by the same."""
    seen, lot = cloud.seen, cloud.lot
    pitch = (cloud.face_area / seen) ** 0.5
    points = laid_within(_face(cloud), seen, pitch)
    balloons = islice(lot.strewn(cloud.count), seen)
    positions = []
    for number, ((x, y), (balloon, fill)) in enumerate(zip(points, balloons, strict=True)):
        off_x, off_y, off_z = (_off(number, step) for step in (0.7548776662, 0.5698402910, 0.3247179572))
        low, high = fill / 2, cloud.height_cm - fill / 2
        reach = (cloud.width_cm - fill) / 2
        positions.append(Position(
            x_cm=min(reach, max(-reach, x - cloud.width_cm / 2 + 0.4 * pitch * off_x)),
            y_cm=min(high, max(low, y + 0.4 * pitch * off_y)),
            z_cm=cloud.depth_cm / 2 - fill / 2 + 0.4 * fill * (off_z - 0.5), diameter_cm=fill, colour=balloon.colour,
            item=balloon.item, role="wall", layer=layer))
    return positions


def _face(cloud: Cloud) -> tuple[Contour, ...]:
    """Outline of the face, notched where the opening stands."""
    opening, width, height = cloud.opening, cloud.width_cm, cloud.height_cm
    if opening is None:
        return rectangle(width, height)
    left = cloud.opening_left_cm
    right, top = left + opening.width_cm, opening.height_cm
    return (((0.0, 0.0), (left, 0.0), (left, top), (right, top), (right, 0.0), (width, 0.0), (width, height),
             (0.0, height)),)


def _off(number: int, step: float) -> float:
    """Give a share from −0.5 to 0.5 that looks strewn, the same for the same number."""
    return (0.5 + number * step) % 1 - 0.5
