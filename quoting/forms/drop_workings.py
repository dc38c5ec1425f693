"""The workings of a drop: what a net holds, or the net that holds what is wanted."""

from __future__ import annotations

from collections.abc import Collection

from quoting.forms.drafts import Draft
from quoting.forms.lots import Lot, add_mean_volume

LABELS = {"length": "Length of the net", "width": "Width of the net", "depth": "Depth of the net"}

LONG_NET = 4
"""A net of no given measure is taken so many times as long as wide and deep; common practice, no source."""


def add_drop_steps(
    draft: Draft, lot: Lot, *, sides_cm: tuple[float, float, float], typed: Collection[str], count: int,
    is_counted: bool, packing: float,
) -> None:
    """Add the steps up to "balloons": from the three sides, or from the typed count to the sides."""
    add_mean_volume(draft, lot)
    draft.step("packing", "Packing share", packing, words="how much of the net is balloon")
    sides = dict(zip(LABELS, sides_cm, strict=True))
    if not is_counted:
        draft.step("balloons", "Balloons wanted", count, unit="balloons")
        draft.step("room", "Room they need", count * lot.mean_volume / packing / _unit_cm(draft) ** 3,
                   formula="{balloons}*{balloon volume}/{packing}", unit=f"{draft.unit}³")
    formulas = _missing_sides(frozenset(typed))
    for key in [key for key in LABELS if key in typed] + [key for key in formulas if key not in typed]:
        draft.length_step(key, LABELS[key], sides[key], formula=formulas.get(key, ""))
    length, width, depth = sides_cm
    draft.step("net volume", "Volume of the net", length * width * depth / _unit_cm(draft) ** 3,
               formula="{length}*{width}*{depth}", unit=f"{draft.unit}³")
    exact = "{packing}*{net volume}/{balloon volume}"
    holds = f"INT({exact}+1E-9*MAX(1,ABS({exact})))"
    if is_counted:
        draft.step("balloons", "Balloons the net holds", count, formula=holds, unit="balloons",
                   words="packing share × volume of the net ÷ volume of a balloon, whole ones")


def _missing_sides(typed: frozenset[str]) -> dict[str, str]:
    """Formula of each side that is not typed, in the order in which they follow from each other; none below a fill."""
    long = {"length": "MAX({fill},{room}/({width}*{depth}))"}
    if not typed:
        return {"width": f"MAX({{fill}},({{room}}/{LONG_NET})^(1/3))", "depth": "{width}", **long}
    if typed == {"length"}:
        return {"width": "MAX({fill},({room}/{length})^0.5)", "depth": "{width}"}
    if typed == {"width"}:
        return {"depth": "{width}", **long}
    if typed == {"depth"}:
        return {"width": "{depth}", **long}
    of_two = {"length": "{width}*{depth}", "width": "{length}*{depth}", "depth": "{length}*{width}"}
    return {key: f"MAX({{fill}},{{room}}/({others}))" for key, others in of_two.items() if key not in typed}


def _unit_cm(draft: Draft) -> float:
    return 2.54 if draft.unit == "in" else 1.0
