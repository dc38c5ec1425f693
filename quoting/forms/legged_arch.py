"""An arch that goes straight up on two legs and then round in a curve."""

from __future__ import annotations

from dataclasses import dataclass

from quoting.domain.jobs import Piece
from quoting.domain.plans import Plan
from quoting.domain.prices import PriceBook
from quoting.domain.problems import Outcome
from quoting.forms.arch_workings import LENGTHS, add_arch_run, add_rings_along
from quoting.forms.columns import ring_fields
from quoting.forms.drafts import HEADINGS, Draft
from quoting.forms.fields import TIED_ON, fields
from quoting.forms.path_arches import PathArch, finish_arch, packed, ring_stack
from quoting.forms.registry import Form
from quoting.forms.stack_workings import add_ring_givens, add_width
from quoting.forms.stacks import Stack
from quoting.geometry.paths import Path, arch_on, joined, straight

ROUND_CURVES = ("semicircle", "semi-ellipse")
"""Curves that leave a straight leg without a bend."""

LEEWAY = 0.005
"""Two lengths within half a percent, or half a centimetre, are the same one rounded by a hand."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Legs:
    """Measures of the centre line in cm; `fixes` is the field that the curve fixes ("" for none)."""

    curve: str
    span_cm: float
    leg_cm: float
    rise_cm: float
    fixes: str

    @property
    def height_cm(self) -> float:
        """Height of the centre line over the floor."""
        return self.leg_cm + self.rise_cm

    def path(self) -> Path:
        """Give the centre line from the left foot, its middle over x = 0."""
        left, right = -self.span_cm / 2, self.span_cm / 2
        return joined((
            straight((left, 0.0), (left, self.leg_cm)),
            arch_on((left, self.leg_cm), self.curve, self.span_cm, self.rise_cm),
            straight((right, self.leg_cm), (right, 0.0)),
        ))


def plan(piece: Piece, prices: PriceBook) -> Outcome[Plan | None]:
    """Work out one arch on legs: rings = two legs and the curve ÷ built pitch, nearest."""
    draft = Draft(piece, prices)
    if not draft.has_all("colours", "width", "curve"):
        return draft.refused()
    asked = ring_fields(draft)
    legs, stack = _legs(draft), ring_stack(draft, asked)
    if legs is None or stack is None or asked.pattern is None:
        return draft.refused()
    if legs.span_cm <= stack.width_cm:
        draft.complain("P527", "width", ring=draft.short(stack.width_cm))
        return draft.refused()
    path = legs.path()
    rings = packed(draft, stack, path.length, "width")
    if rings is None:
        return draft.refused()
    _add_steps(draft, legs, rings, path.length)
    feet = (-legs.span_cm / 2, legs.span_cm / 2)
    arch = PathArch(name="Arch on legs", path=path, stack=rings, feet=feet, width_cm=legs.span_cm,
                    height_cm=legs.height_cm)
    return finish_arch(draft, arch, asked.pattern, FORM.name)


def _legs(draft: Draft) -> Legs | None:
    """Read the measures; reports at the cells that are missing or contradict each other."""
    curve, span = draft.text("curve"), float(draft.decimal("width") or 0)
    height, leg = draft.decimal("height"), draft.decimal("leg")
    if curve not in ROUND_CURVES:
        draft.complain("P539", "curve", heading="Curve", typed=curve,
                       rule="on straight legs it is a semicircle or a semi-ellipse")
        return None
    if curve == "semi-ellipse":
        return _elliptic(draft, span) if draft.has_all("height", "leg") else None
    rise = span / 2
    if height is None and leg is None:
        draft.complain("P515", "height", what="an arch on legs")
        return None
    if leg is None:
        if float(height or 0) <= rise:
            draft.complain("P539", "height", heading="Height", typed=draft.long(height or 0),
                           rule=f"a semicircle {draft.long(span)} wide is {draft.long(rise)} high without its legs")
            return None
        return Legs(curve=curve, span_cm=span, leg_cm=float(height or 0) - rise, rise_cm=rise, fixes="leg")
    if height is not None and differ(float(height), float(leg) + rise):
        draft.complain("P539", "height", heading="Height", typed=draft.long(height),
                       rule=f"legs of {draft.long(leg)} and half the width come to {draft.long(float(leg) + rise)}")
        return None
    return Legs(curve=curve, span_cm=span, leg_cm=float(leg), rise_cm=rise, fixes="height")


def differ(typed_cm: float, worked_out_cm: float) -> bool:
    """Tell whether a typed length is another than the one that the rest comes to."""
    return abs(typed_cm - worked_out_cm) > max(0.5, LEEWAY * worked_out_cm)


def _elliptic(draft: Draft, span: float) -> Legs | None:
    height, leg = draft.decimal("height") or 0, draft.decimal("leg") or 0
    if leg >= height:
        draft.complain("P539", "leg", heading=HEADINGS["leg"], typed=draft.long(leg),
                       rule=f"the whole arch is {draft.long(height)} high, which leaves no curve")
        return None
    return Legs(curve="semi-ellipse", span_cm=span, leg_cm=float(leg), rise_cm=float(height - leg), fixes="")


def _add_steps(draft: Draft, legs: Legs, stack: Stack, length_cm: float) -> None:
    draft.length_step("span", "Width from middle to middle of the feet", legs.span_cm)
    if legs.fixes:
        draft.length_step("rise", "Height of the curve", legs.rise_cm, formula="{span}/2", words="half a circle")
    if legs.fixes != "height":
        draft.length_step("height", "Height of the centre line", legs.height_cm)
    draft.length_step("leg", "Straight leg", legs.leg_cm, formula="{height}-{rise}" if legs.fixes == "leg" else "")
    if legs.fixes == "height":
        draft.length_step("height", "Height of the centre line", legs.height_cm, formula="{leg}+{rise}")
    if not legs.fixes:
        draft.length_step("rise", "Height of the curve", legs.rise_cm, formula="{height}-{leg}")
    add_ring_givens(draft, stack.per_ring, stack.tightness)
    add_arch_run(draft, stack)
    add_width(draft, stack)
    draft.length_step("length", "Length of legs and curve", length_cm, formula=f"2*{{leg}}+{LENGTHS[legs.curve]}",
                      words=f"two legs and a {legs.curve}")
    add_rings_along(draft, stack, length_cm)


FORM = Form(
    name="arch on legs",
    summary="An arch that goes straight up on two legs and then round in a semicircle or a semi-ellipse.",
    fields=fields(
        "width*", "height", "leg", "curve*", "size", "fill", "per_ring", "pattern", "colours*", "shares", "blocks",
        *TIED_ON, "base", "frame",
    ),
    plan=plan,
    example={"width": "8 ft", "leg": "4 ft", "curve": "semicircle", "fill": "9.5 in", "pattern": "spiral",
             "colours": "white, pink"},
)
