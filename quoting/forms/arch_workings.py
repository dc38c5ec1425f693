"""The workings of an arch: the length of its curve, and the rings along it."""

from __future__ import annotations

import math

from quoting.domain.measures import shown_length
from quoting.forms.drafts import Draft
from quoting.forms.formulas import nearest
from quoting.forms.stack_workings import add_ring_givens, add_run_steps, add_width
from quoting.forms.stacks import Stack
from quoting.geometry.curves import next_catenary_shape

SLICES = 400
"""Midpoints in the semi-ellipse's sum: far past what its smooth, closed curve needs."""

NEWTON_STEPS = 14
"""Enough for rises from a thousandth of the span to a hundred times it."""


def add_arch_steps(
    draft: Draft, stack: Stack, *, curve: str, span_cm: float, rise_cm: float, length_cm: float
) -> None:
    """Add span, rise, ring, length of the centre line and rings, under the keys "length", "rings", "ring width"."""
    draft.length_step("span", "Width from middle to middle of the feet", span_cm)
    fixed = {"semicircle": "{span}/2", "half hoop": "{span}/2", "full hoop": "{span}"}.get(curve, "")
    draft.length_step("rise", "Height of the centre line", rise_cm, formula=fixed)
    add_ring_givens(draft, stack.per_ring, stack.tightness)
    add_arch_run(draft, stack)
    add_width(draft, stack)
    if curve == "catenary":
        _add_catenary(draft, span_cm, rise_cm)
    draft.length_step("length", f"Length of the {curve}", length_cm, formula=LENGTHS[curve], words=_WORDS[curve])
    add_rings_along(draft, stack, length_cm)


def add_rings_along(draft: Draft, stack: Stack, length_cm: float) -> None:
    """Add the rings along the earlier step "length" under the key "rings"."""
    run = stack.runs[0]
    draft.step("rings unrounded", "Rings, not rounded",
               shown_length(length_cm, draft.unit) / shown_length(stack.pitch_cm(run), draft.unit),
               formula="{length}/{pitch}", unit="rings")
    draft.step("rings", "Rings", stack.rings, unit="rings", words="the nearest count, a tie takes more",
               formula=f"MAX(1,{nearest('{rings unrounded}')})")


def add_arch_run(draft: Draft, stack: Stack) -> None:
    """Add fill, radius and built pitch of the one run of an arch, the last under the key "pitch"."""
    run = stack.runs[0]
    add_run_steps(draft, stack, 1, run)
    if not run.has_pitch:  # an arch of a single ring is counted by its pitch all the same
        draft.length_step("pitch", "Built pitch", stack.pitch_cm(run), words="tightness × pitch of touching rings",
                          formula="{tightness}*SQRT({fill}^2-2*{radius}^2*(1-COS(PI()/{per ring})))")


def _add_catenary(draft: Draft, span_cm: float, rise_cm: float) -> None:
    wanted = 2 * rise_cm / span_cm
    u = min(2 * wanted, 2 * math.log(2 + 2 * wanted))
    draft.step("lift", "Twice the height ÷ the width", wanted, formula="2*{rise}/{span}")
    draft.step("shape 0", "Shape of the chain, first guess", u, formula="MIN(2*{lift},2*LN(2+2*{lift}))",
               words="solves (cosh u − 1) ÷ u = lift by Newton's method")
    for number in range(1, NEWTON_STEPS + 1):
        u = next_catenary_shape(u, wanted)
        was = f"{{shape {number - 1}}}"
        high = f"2*SINH({was}/2)^2"
        draft.step(f"shape {number}", f"Shape of the chain, step {number}", u,
                   formula=f"{was}-({high}/{was}-{{lift}})*{was}^2/({was}*SINH({was})-{high})")


_TURN = f"(ROW($1:${SLICES})-0.5)*PI()/{SLICES}"
LENGTHS = {
    "semicircle": "PI()*{span}/2",
    "half hoop": "PI()*{span}/2",
    "full hoop": "PI()*{span}",
    "square": "{span}+2*{rise}-2*{ring width}",
    "parabola": "{span}/2*(SQRT(1+(4*{rise}/{span})^2)+ASINH(4*{rise}/{span})/(4*{rise}/{span}))",
    "catenary": f"{{span}}*SINH({{shape {NEWTON_STEPS}}})/{{shape {NEWTON_STEPS}}}",
    "semi-ellipse": f"PI()/{SLICES}*SUMPRODUCT(SQRT(({{span}}/2*SIN({_TURN}))^2+({{rise}}*COS({_TURN}))^2))",
}
"""Length of each curve as a formula over the steps "span" and "rise" (and "ring width", "shape 14")."""

_WORDS = {
    "semicircle": "half a circle",
    "half hoop": "half a circle",
    "full hoop": "a whole circle",
    "square": "two legs and a beam, less one ring width at each corner",
    "parabola": "closed form of a parabola's arc",
    "catenary": "width × sinh u ÷ u",
    "semi-ellipse": f"sum over {SLICES} small arcs",
}
