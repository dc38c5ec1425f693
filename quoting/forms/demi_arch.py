"""A demi-arch: one leg up and a part of a curve over, ending in the air."""

from __future__ import annotations

import math
from dataclasses import dataclass

from quoting.domain.jobs import Piece
from quoting.domain.plans import Plan
from quoting.domain.prices import PriceBook
from quoting.domain.problems import Outcome
from quoting.forms.arch_workings import add_arch_run, add_rings_along
from quoting.forms.columns import ring_fields
from quoting.forms.drafts import HEADINGS, Draft
from quoting.forms.fields import TIED_ON, fields
from quoting.forms.path_arches import PathArch, finish_arch, packed, ring_stack
from quoting.forms.registry import Form
from quoting.forms.stack_workings import add_ring_givens, add_width
from quoting.forms.stacks import Stack
from quoting.geometry.paths import ARC_SLICES, Path, ellipse_part, ellipse_part_length, joined, straight


@dataclass(frozen=True, slots=True, kw_only=True)
class Reach:
    """Measures of the centre line in cm: foot to tip across, to the top, the straight leg, to the tip."""

    width_cm: float
    height_cm: float
    leg_cm: float
    tip_cm: float

    @property
    def rise_cm(self) -> float:
        """Height of the curve, which is half of the ellipse's upright axis."""
        return self.height_cm - self.leg_cm

    @property
    def angle(self) -> float:
        """How far the ellipse is followed, in radians of its parameter: π/2 to its top, π to the leg's end."""
        return math.pi - math.asin(min(1.0, (self.tip_cm - self.leg_cm) / self.rise_cm))

    @property
    def half_width_cm(self) -> float:
        """Half of the ellipse's level axis: such that the tip stands `width_cm` from the foot."""
        return self.width_cm / (1 - math.cos(self.angle))

    @property
    def crown_cm(self) -> float:
        """Length of the centre line up to its highest point."""
        return self.leg_cm + ellipse_part_length(self.half_width_cm, self.rise_cm, math.pi / 2)

    def path(self) -> Path:
        """Give the centre line from the foot at x = 0."""
        return joined((
            straight((0.0, 0.0), (0.0, self.leg_cm)),
            ellipse_part((0.0, self.leg_cm), self.half_width_cm, self.rise_cm, self.angle),
        ))


def plan(piece: Piece, prices: PriceBook) -> Outcome[Plan | None]:
    """Work out one demi-arch: rings = leg and part of an ellipse ÷ built pitch, nearest."""
    draft = Draft(piece, prices)
    if not draft.has_all("colours", "width", "height"):
        return draft.refused()
    asked = ring_fields(draft)
    reach, stack = _reach(draft), ring_stack(draft, asked)
    if reach is None or stack is None or asked.pattern is None:
        return draft.refused()
    if reach.half_width_cm <= stack.width_cm / 2:
        draft.complain("P527", "width", ring=draft.short(stack.width_cm))
        return draft.refused()
    path = reach.path()
    rings = packed(draft, stack, path.length, "width")
    if rings is None:
        return draft.refused()
    _add_steps(draft, reach, rings, path.length)
    arch = PathArch(name="Demi-arch", path=path, stack=rings, feet=(0.0,), width_cm=reach.width_cm,
                    height_cm=reach.height_cm, crown=reach.crown_cm / path.length)
    return finish_arch(draft, arch, asked.pattern, FORM.name)


def _reach(draft: Draft) -> Reach | None:
    """Read the measures; reports at the cells that contradict each other."""
    height, leg = draft.decimal("height") or 0, draft.decimal("leg") or 0
    tip = draft.decimal("tip") or height
    if leg >= height:
        draft.complain("P539", "leg", heading=HEADINGS["leg"], typed=draft.long(leg),
                       rule=f"the whole arch is {draft.long(height)} high, which leaves no curve")
    elif not leg <= tip <= height:
        draft.complain("P539", "tip", heading=HEADINGS["tip"], typed=draft.long(tip),
                       rule=f"the curve runs between {draft.long(leg)} and {draft.long(height)} over the floor")
    if draft.is_held:
        return None
    return Reach(width_cm=float(draft.decimal("width") or 0), height_cm=float(height), leg_cm=float(leg),
                 tip_cm=float(tip))


def _add_steps(draft: Draft, reach: Reach, stack: Stack, length_cm: float) -> None:
    draft.length_step("width", "Width from the foot to the tip", reach.width_cm)
    draft.length_step("height", "Height of the centre line", reach.height_cm)
    draft.length_step("leg", "Straight leg", reach.leg_cm)
    draft.length_step("tip", "Height of the tip", reach.tip_cm,
                      formula="" if draft.is_filled("tip") else "{height}", words="blank: at the highest point")
    draft.length_step("rise", "Height of the curve", reach.rise_cm, formula="{height}-{leg}")
    draft.step("angle", "How far round the ellipse goes", reach.angle, unit="radians",
               formula="PI()-ASIN(MIN(1,({tip}-{leg})/{rise}))", words="a quarter is 1.5708")
    draft.length_step("half width", "Half the width of the whole ellipse", reach.half_width_cm,
                      formula="{width}/(1-COS({angle}))")
    add_ring_givens(draft, stack.per_ring, stack.tightness)
    add_arch_run(draft, stack)
    add_width(draft, stack)
    draft.length_step("length", "Length of leg and curve", length_cm, formula=f"{{leg}}+{_CURVE}",
                      words=f"the leg, and Simpson's rule over {ARC_SLICES} small arcs of the ellipse")
    add_rings_along(draft, stack, length_cm)


_ROW = f"(ROW($1:${ARC_SLICES + 1})-1)"
_TURN = f"{_ROW}*{{angle}}/{ARC_SLICES}"
_WEIGHT = f"(2+2*MOD({_ROW},2)-({_ROW}=0)-({_ROW}={ARC_SLICES}))"
_CURVE = (f"{{angle}}/{3 * ARC_SLICES}*SUMPRODUCT({_WEIGHT}"
          f"*SQRT(({{half width}}*SIN({_TURN}))^2+({{rise}}*COS({_TURN}))^2))")


FORM = Form(
    name="demi-arch",
    summary="One leg up and a part of a curve over, ending in the air.",
    fields=fields(
        "width*", "height*", "leg", "tip", "size", "fill", "per_ring", "pattern", "colours*", "shares", "blocks",
        *TIED_ON, "base", "frame",
    ),
    plan=plan,
    example={"width": "5 ft", "height": "7 ft", "leg": "3 ft", "tip": "6 ft", "fill": "9.5 in", "pattern": "spiral",
             "colours": "white, pink"},
)
