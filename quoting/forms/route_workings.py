"""The workings of a garland's length: typed, or from the sag of its swags; or the sag from the length."""

from __future__ import annotations

import math

from quoting.forms.drafts import Draft
from quoting.forms.formulas import total
from quoting.forms.routes import Route
from quoting.geometry.chains import first_chain_shape, next_chain_shape
from quoting.geometry.curves import next_catenary_shape

NEWTON_STEPS = 14
"""Enough for sags from a thousandth of the width to a hundred times it."""


def add_route_steps(draft: Draft, route: Route) -> None:
    """Add what is typed of a route and its length under the key "length"."""
    if route.stands:
        draft.length_step("height", "Height up one side", route.height_cm)
        draft.length_step("width", "Width across", route.width_cm)
        draft.length_step("length", "Length", route.path.length, formula="{height}+{width}")
    elif not route.spans:
        draft.length_step("length", "Length", route.path.length)
    elif route.fixes == "length":
        _add_length_from_sag(draft, route)
    else:
        _add_sag_from_length(draft, route)


def _add_length_from_sag(draft: Draft, route: Route) -> None:
    """Add one row of steps per different span: (cosh u − 1) ÷ u = 2 × sag ÷ span by Newton's method."""
    draft.length_step("sag", "Sag", route.sags[0])
    terms = []
    for number, span in enumerate(dict.fromkeys(route.spans), 1):
        count = route.spans.count(span)
        draft.length_step(f"span {number}", f"Width of swag {number}", span)
        draft.step(f"swags {number}", f"How many swags of width {number}", count)
        wanted = 2 * route.sags[0] / span
        u = min(2 * wanted, 2 * math.log(2 + 2 * wanted))
        draft.step(f"lift {number}", "Twice the sag ÷ the width", wanted, formula=f"2*{{sag}}/{{span {number}}}")
        lift = f"{{lift {number}}}"
        draft.step(f"shape {number}.0", "Shape of the chain, first guess", u,
                   formula=f"MIN(2*{lift},2*LN(2+2*{lift}))", words="solves (cosh u − 1) ÷ u = lift by Newton's method")
        for step in range(1, NEWTON_STEPS + 1):
            u = next_catenary_shape(u, wanted)
            was = f"{{shape {number}.{step - 1}}}"
            high = f"2*SINH({was}/2)^2"
            draft.step(f"shape {number}.{step}", f"Shape of the chain, step {step}", u,
                       formula=f"{was}-({high}/{was}-{lift})*{was}^2/({was}*SINH({was})-{high})")
        last = f"{{shape {number}.{NEWTON_STEPS}}}"
        draft.length_step(f"swag {number}", f"Length of swag {number}", span * math.sinh(u) / u,
                          formula=f"{{span {number}}}*SINH({last})/{last}", words="width × sinh u ÷ u")
        terms.append(f"{{swags {number}}}*{{swag {number}}}")
    draft.length_step("length", "Length", route.path.length, formula=total(terms))


def _add_sag_from_length(draft: Draft, route: Route) -> None:
    """Add the one shape that all swags hang in: sinh u ÷ u = length ÷ width by Newton's method."""
    whole, length = sum(route.spans), route.path.length
    draft.length_step("width", "Width of all swags", whole)
    draft.length_step("length", "Length", length)
    draft.length_step("widest", "Width of the widest swag", max(route.spans))
    if not max(route.sags):
        draft.length_step("sag", "Sag of the widest swag", 0.0)
        return
    stretch = length / whole
    u = first_chain_shape(stretch)
    draft.step("stretch", "Length ÷ width", stretch, formula="{length}/{width}")
    draft.step("shape 0", "Shape of the chain, first guess", u, words="solves sinh u ÷ u = stretch by Newton's method",
               formula="MIN(SQRT(6*({stretch}-1)),2*LN(1+2*{stretch}))")
    for step in range(1, NEWTON_STEPS + 1):
        u = next_chain_shape(u, stretch)
        was = f"{{shape {step - 1}}}"
        draft.step(f"shape {step}", f"Shape of the chain, step {step}", u,
                   formula=f"{was}-(SINH({was})-{{stretch}}*{was})/(COSH({was})-{{stretch}})")
    last = f"{{shape {NEWTON_STEPS}}}"
    draft.length_step("sag", "Sag of the widest swag", max(route.sags), words="width × sinh²(u ÷ 2) ÷ u",
                      formula=f"{{widest}}*SINH({last}/2)^2/{last}")
