"""A line that floats between two anchors: a hanging chain turned upside down, since every foot of it lifts alike."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from quoting.forms.drafts import HEADINGS, Draft
from quoting.forms.legged_arch import differ
from quoting.geometry.chains import chain_length, chain_sag, chain_shape, first_chain_shape, next_chain_shape
from quoting.geometry.curves import CurvePoint, catenary_shape, next_catenary_shape
from quoting.geometry.paths import hanging

NEWTON_STEPS = 14
"""Enough for heights from a thousandth of the width to a hundred times it."""

FLATTEST = 1e-3
"""A line less than this longer than its width can't be told from a straight one, which pulls without bound."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LiftedLine:
    """Width between the anchors, height and length of the line (cm); u = width ÷ (2a) of its catenary."""

    width_cm: float
    height_cm: float
    length_cm: float
    shape: float
    is_by_height: bool

    @property
    def end_pull_share(self) -> float:
        """Pull along the line at each anchor ÷ lift of the whole line: (a + height) ÷ length."""
        return (self.width_cm / (2 * self.shape) + self.height_cm) / self.length_cm

    def lifted(self, by_cm: float) -> Callable[[float], CurvePoint]:
        """Give a function from a share of the length to the point there, the anchors so high over the floor."""
        path = hanging((-self.width_cm / 2, self.height_cm), self.width_cm, self.height_cm)

        def follow(share: float) -> CurvePoint:
            x, y, direction = path.follow(share)
            return x, self.height_cm - y + by_cm, -direction

        return follow


def read_lifted_line(draft: Draft, form: str) -> LiftedLine | None:
    """Read width with height or length; reports at the cell that is missing or contradicts the others."""
    width = float(draft.decimal("width") or 0)
    height, length = draft.decimal("height"), draft.decimal("length")
    if height is None and length is None:
        draft.complain("P558", "height", form=form, needs="its height, or the length of its line",
                       example="8 ft, or a length of 20 ft")
        return None
    if height is not None:
        worked_out = chain_length(width, float(height))
        if length is not None and differ(float(length), worked_out):
            draft.complain("P539", "length", heading=HEADINGS["length"], typed=draft.long(length),
                           rule=f"{draft.long(width)} wide and {draft.long(height)} high takes"
                                f" {draft.long(worked_out)}")
            return None
        return LiftedLine(width_cm=width, height_cm=float(height), length_cm=worked_out,
                          shape=catenary_shape(width, float(height)), is_by_height=True)
    typed = float(length or 0)
    if typed < width * (1 + FLATTEST):
        draft.complain("P560", "length", length=draft.long(typed), width=draft.long(width))
        return None
    return LiftedLine(width_cm=width, height_cm=chain_sag(width, typed), length_cm=typed,
                      shape=chain_shape(typed / width), is_by_height=False)


def add_lifted_steps(draft: Draft, line: LiftedLine) -> None:
    """Add width, height and length under "width", "height" and "length", and the chain's last "shape 14"."""
    draft.length_step("width", "Width from anchor to anchor", line.width_cm)
    if line.is_by_height:
        _add_length(draft, line)
    else:
        _add_height(draft, line)


def _add_length(draft: Draft, line: LiftedLine) -> None:
    wanted = 2 * line.height_cm / line.width_cm
    u = min(2 * wanted, 2 * math.log(2 + 2 * wanted))
    draft.length_step("height", "Height of the line", line.height_cm)
    draft.step("rise", "Twice the height ÷ the width", wanted, formula="2*{height}/{width}")
    draft.step("shape 0", "Shape of the chain, first guess", u, formula="MIN(2*{rise},2*LN(2+2*{rise}))",
               words="solves (cosh u − 1) ÷ u = rise by Newton's method")
    for number in range(1, NEWTON_STEPS + 1):
        u = next_catenary_shape(u, wanted)
        was = f"{{shape {number - 1}}}"
        high = f"2*SINH({was}/2)^2"
        draft.step(f"shape {number}", f"Shape of the chain, step {number}", u,
                   formula=f"{was}-({high}/{was}-{{rise}})*{was}^2/({was}*SINH({was})-{high})")
    last = f"{{shape {NEWTON_STEPS}}}"
    draft.length_step("length", "Length of the line", line.length_cm, formula=f"{{width}}*SINH({last})/{last}",
                      words="width × sinh u ÷ u")


def _add_height(draft: Draft, line: LiftedLine) -> None:
    stretch = line.length_cm / line.width_cm
    u = first_chain_shape(stretch)
    draft.length_step("length", "Length of the line", line.length_cm)
    draft.step("stretch", "Length ÷ width", stretch, formula="{length}/{width}")
    draft.step("shape 0", "Shape of the chain, first guess", u, words="solves sinh u ÷ u = stretch by Newton's method",
               formula="MIN(SQRT(6*({stretch}-1)),2*LN(1+2*{stretch}))")
    for number in range(1, NEWTON_STEPS + 1):
        u = next_chain_shape(u, stretch)
        was = f"{{shape {number - 1}}}"
        draft.step(f"shape {number}", f"Shape of the chain, step {number}", u,
                   formula=f"{was}-(SINH({was})-{{stretch}}*{was})/(COSH({was})-{{stretch}})")
    last = f"{{shape {NEWTON_STEPS}}}"
    draft.length_step("height", "Height of the line", line.height_cm, words="width × sinh²(u ÷ 2) ÷ u",
                      formula=f"{{width}}*SINH({last}/2)^2/{last}")


def add_pull_steps(draft: Draft, line: LiftedLine, net_g: float) -> float:
    """Add the pull at each anchor and the grams that hold it, under "needed"; gives the pull (g).

    Refers to the earlier step "net lift". The pull goes along the line: up and inwards.
    """
    pull, factor = net_g * line.end_pull_share, float(draft.prices.shop.weight_factor)
    draft.step("pull", "Pull at each end, along the line", pull, unit="g",
               formula=f"{{net lift}}*({{width}}/(2*{{shape {NEWTON_STEPS}}})+{{height}})/{{length}}",
               words="lift × (parameter of the chain + height) ÷ length")
    draft.step("weight factor", "Weight for lift", factor, words="Shop sheet")
    draft.step("needed", "Weight that each end needs", pull * factor, unit="g", formula="{pull}*{weight factor}")
    return pull
