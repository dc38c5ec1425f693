"""What floating and hanging balloons are held by: weights, ribbons and lines from the Hardware sheet."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from quoting.domain.counts import rounded_up
from quoting.domain.drawings import Plate
from quoting.domain.measures import shown_length
from quoting.domain.plans import Part
from quoting.domain.prices import Hardware
from quoting.forms.drafts import Draft
from quoting.forms.fields import NONE
from quoting.forms.formulas import kept
from quoting.forms.formulas import rounded_up as rounded_up_formula
from quoting.forms.stands import add_hardware

GRAMS_PER_OUNCE = 28.349523125

WEIGHT_WIDTH_CM, WEIGHT_HEIGHT_CM = 10.0, 8.0
"""Drawn so where the Hardware sheet gives no measures; nothing is counted from it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Weight:
    """A weight and how many of it hold one place; `item` None: the piece goes without."""

    item: Hardware | None
    each: int


def grams_words(draft: Draft, grams: float) -> str:
    """Say a pull or weight for the crew: ounces, or grams."""
    return f"{grams / GRAMS_PER_OUNCE:.1f} oz" if draft.unit == "in" else f"{grams:.0f} g"


def choose_weight(draft: Draft, needed_g: float) -> Weight | None:
    """Choose the weight: the one named, else the usual one that takes the fewest, then the lightest.

    Reports at the weight's cell where there is none, or one that can't be told to hold, and gives None.
    """
    name = draft.text("weight")
    if name.casefold() == NONE:
        return Weight(item=None, each=0)
    if name:
        item = draft.prices.hardware_item(name)
        if item is None:
            draft.complain("P520", "weight", item=f'"{name}"', hint=", or none")
        elif item.part not in ("weight", "base plate", "other"):
            draft.complain("P518", "weight", item=item.item, part="weight", is_part=item.part)
        elif item.mass_kg is None:
            draft.complain("P553", "weight", item=item.item)
        return None if item is None or draft.is_held else Weight(item=item, each=_each(item, needed_g))
    known = [item for item in draft.prices.hardware if item.part == "weight" and item.mass_kg is not None]
    if not known:
        draft.complain("P519", "weight", part="weight whose mass is known")
        return None
    best = min(known, key=lambda item: (not item.is_usual, _each(item, needed_g), item.mass_kg))
    return Weight(item=best, each=_each(best, needed_g))


def _each(item: Hardware, needed_g: float) -> int:
    return max(1, rounded_up(needed_g / (1000 * float(item.mass_kg or 1))))


def add_weights(draft: Draft, weight: Weight, places: tuple[float, ...], needed_g: float) -> None:
    """Add the weights at their places (x in cm) with part, build step, task and marks.

    Refers to the earlier step "needed", the grams that each place needs (`needed_g`).
    """
    item = weight.item
    if item is None:
        ends = "Each end" if len(places) > 1 else "The foot"
        heavy = f" of at least {grams_words(draft, needed_g)}" if needed_g else ""
        draft.add_layer(f"{ends} is held by something at the venue{heavy}, or tied to what can't move")
        return
    draft.step("weight mass", f"Mass of {item.item}", float(item.mass_kg or 0) * 1000, unit="g", words="Hardware sheet")
    draft.step("weights each", "Weights at one place", weight.each, unit="pieces", words="whole ones",
               formula=f"MAX(1,{rounded_up_formula('{needed}/{weight mass}')})")
    draft.step("anchors", "Places that are held", len(places))
    count = weight.each * len(places)
    part = add_hardware(draft, item, count, "weight", formula="{weights each}*{anchors}")
    words = f"{weight.each} × {item.item}" + (" at each end" if len(places) > 1 else "")
    layer = draft.add_layer(f"Weight: {words}", () if part is None else (part,))
    width = float(item.diameter_cm or item.length_cm or WEIGHT_WIDTH_CM)
    for x in places:
        draft.drawing.append(Plate(x_cm=x, y_cm=0.0, width_cm=width, height_cm=min(WEIGHT_HEIGHT_CM, width),
                                   role="weight", layer=layer))
    draft.add_task("set weight", Decimal(count), formula="{weights each}*{anchors}")


def choose_roll(draft: Draft, key: str) -> Hardware | None:
    """Give the ribbon or line that a piece names, None for none; reports at its cell."""
    name = draft.text(key)
    if not name or name.casefold() == NONE:
        return None
    item = draft.prices.hardware_item(name)
    if item is None:
        draft.complain("P520", key, item=f'"{name}"', hint=", or none")
    elif item.part not in (key, "decoration", "other"):
        draft.complain("P518", key, item=item.item, part=key, is_part=item.part)
    return item


def add_roll(draft: Draft, item: Hardware, role: str, *, length_cm: float, length_key: str, pieces_key: str,
             pieces: int) -> Part | None:
    """Add a ribbon or line: rolls that cover the earlier step `length_key`, or one per piece where it has no length."""
    if item.length_cm is None:
        return add_hardware(draft, item, pieces, role, formula=kept(pieces_key))
    roll = float(item.length_cm)
    draft.length_step(f"{role} roll", f"Length of {item.item}", roll, words="Hardware sheet")
    draft.step(f"{role} rolls unrounded", "Rolls, not rounded",
               shown_length(length_cm, draft.unit) / shown_length(roll, draft.unit),
               formula=f"{kept(length_key)}/{kept(f'{role} roll')}")
    return add_hardware(draft, item, max(1, rounded_up(length_cm / roll)), role,
                        formula=f"MAX(1,{rounded_up_formula(kept(f'{role} rolls unrounded'))})")
