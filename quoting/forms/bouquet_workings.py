"""The ribbons of a bouquet: lengths tier by tier, and their sum as a live formula."""

from __future__ import annotations

from quoting.forms.drafts import Draft
from quoting.forms.formulas import kept_all

PER_TIER = 3
"""Balloons side by side at one height; common practice, no source."""

TIER_SHARE = 0.8
"""A tier hangs lower by this share of a fill, so that its balloons lie in the gaps; common practice, no source."""


def tier_step(count: int, longest_cm: float, fill_cm: float) -> float:
    """How much shorter (cm) the ribbons of each tier are; the shortest keeps half the longest's length."""
    return min(TIER_SHARE * fill_cm, longest_cm / 2 / max(1, (count - 1) // PER_TIER))


def ribbon_lengths(count: int, longest_cm: float, fill_cm: float) -> tuple[float, ...]:
    """Length (cm) of each ribbon, the longest first."""
    step = tier_step(count, longest_cm, fill_cm)
    return tuple(longest_cm - step * (number // PER_TIER) for number in range(count))


def add_ribbon_steps(
    draft: Draft, *, count: int, parts: int, longest_cm: float, top_cm: float, tier_fill_cm: float
) -> None:
    """Add the balloons in all under "floating", the built height and the sum of ribbons under "ribbon in all".

    The first `parts` parts are what floats.
    """
    draft.step("floating", "Balloons in all", count, unit="balloons",
               formula=kept_all([f"part {number}" for number in range(1, parts + 1)]))
    draft.length_step("top balloon", "Largest balloon of the top tier", top_cm)
    if draft.is_filled("height"):
        draft.length_step("height", "Height wanted", longest_cm + top_cm)
        draft.length_step("longest", "Longest ribbon", longest_cm, formula="{height}-{top balloon}")
    else:
        draft.length_step("longest", "Longest ribbon", longest_cm)
    draft.length_step("built height", "Built height", longest_cm + top_cm, formula="{longest}+{top balloon}")
    draft.length_step("tier fill", "Fill that sets the tiers apart", tier_fill_cm)
    lower = (count - 1) // PER_TIER
    draft.step("lower tiers", "Tiers below the top one", lower, formula=f"INT(({{floating}}-1)/{PER_TIER})",
               words=f"tiers of {PER_TIER}")
    draft.length_step("tier step", "Each tier's ribbons are shorter by", tier_step(count, longest_cm, tier_fill_cm),
                      formula=f"MIN({TIER_SHARE}*{{tier fill}},{{longest}}/2/MAX(1,{{lower tiers}}))")
    steps = sum(number // PER_TIER for number in range(count))
    draft.step("steps in all", "Such steps in all ribbons", steps,
               formula=f"{PER_TIER}*{{lower tiers}}*({{lower tiers}}-1)/2"
                       f"+{{lower tiers}}*({{floating}}-{PER_TIER}*{{lower tiers}})")
    draft.length_step("ribbon in all", "Ribbon in all", sum(ribbon_lengths(count, longest_cm, tier_fill_cm)),
                      formula="{floating}*{longest}-{tier step}*{steps in all}")
