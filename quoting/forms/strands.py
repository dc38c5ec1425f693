"""Twisters wound in a helix round a pole, between the two ends of a column."""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import Decimal

from quoting.domain.counts import rounded_up
from quoting.domain.measures import counted, shown_length
from quoting.domain.plans import Part, Position
from quoting.domain.prices import Balloon, Shape
from quoting.forms.attachments import add_usable_steps, shares_of, usable_twister_length
from quoting.forms.balloon_choice import choose_balloons
from quoting.forms.drafts import Draft
from quoting.forms.formulas import rounded_up as rounded_up_formula
from quoting.geometry.helix import helix_point, strand_length

USUAL_TWISTER, USUAL_STRANDS = "260", 4
"""Two pairs of the usual twister; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Strands:
    """Strands that wind the same way, colour after colour. Lengths in cm; `per_strand` twisters each."""

    twisters: tuple[Balloon, ...]
    strands: int
    turns: float
    height_cm: float
    radius_cm: float
    length_cm: float
    per_strand: int


def choose_twisters(draft: Draft, colours: tuple[str, ...]) -> tuple[Balloon, ...] | None:
    """Give the twister of each colour that a strand gets; reports at the colours' cell, or where turns are missing."""
    if not draft.is_filled("turns"):
        draft.complain("P523", "turns", what="twisters", heading="the number of turns", example="a number, e.g. 3")
    strands = draft.whole("strands", USUAL_STRANDS) or USUAL_STRANDS
    size = int(draft.text("twister") or USUAL_TWISTER)
    return choose_balloons(draft, Shape.TWISTER, size, colours[:strands])


def wind_strands(draft: Draft, twisters: tuple[Balloon, ...], height_cm: float, pole_cm: float) -> Strands | None:
    """Work out the strands over a height round a pole of this diameter, with their workings.

    None where they take more twisters than can be meant, which is reported. Refers to the earlier step "middle height".
    """
    turns = float(draft.decimal("turns") or 0)
    strands = draft.whole("strands", USUAL_STRANDS) or USUAL_STRANDS
    tube = float(twisters[0].size_cm)
    radius = (pole_cm + tube) / 2
    length, usable = strand_length(height_cm, radius, turns), usable_twister_length(draft, twisters[0])
    per_strand = rounded_up(length / usable)
    if draft.is_slip(strands * per_strand, "height", "twisters"):
        return None
    draft.length_step("pole diameter", "Diameter of the pole", pole_cm)
    draft.length_step("tube", "Diameter of the twister", tube, words="its nominal diameter")
    draft.length_step("helix radius", "Axis to the middle of the twister", radius, formula="({pole diameter}+{tube})/2")
    draft.step("turns", "Turns of each strand", turns, unit="turns")
    draft.length_step("strand length", "Length of a strand", length, words="a helix round the pole",
                      formula="SQRT({middle height}^2+(2*PI()*{helix radius}*{turns})^2)")
    add_usable_steps(draft, twisters[0], "twister")
    draft.step("twisters unrounded", "Twisters per strand, not rounded",
               shown_length(length, draft.unit) / shown_length(usable, draft.unit),
               formula="{strand length}/{twister usable length}")
    draft.step("twisters per strand", "Twisters per strand", per_strand, unit="twisters", words="whole ones",
               formula=rounded_up_formula("{twisters unrounded}"))
    draft.step("strands", "Strands", strands, unit="strands")
    return Strands(twisters=twisters, strands=strands, turns=turns, height_cm=height_cm, radius_cm=radius,
                   length_cm=length, per_strand=per_strand)


def add_strands(draft: Draft, work: Strands, foot_cm: float) -> None:
    """Add parts, build step and positions of strands that start `foot_cm` over the floor."""
    count = len(work.twisters)
    numbers: dict[str, list[int]] = {}
    for number, twister in enumerate(work.twisters, 1):
        numbers.setdefault(twister.item, []).append(number)
    parts = []
    for item, places in numbers.items():
        twister = work.twisters[places[0] - 1]
        strands = sum(strand % count + 1 in places for strand in range(work.strands))
        terms = "+".join(f"INT(({{strands}}-{place})/{count}+1)" for place in places)
        part = Part(item=item, count=strands * work.per_strand, role="strand", colour=twister.colour,
                    fill_cm=float(twister.size_cm))
        draft.add_part(part, formula=f"{{twisters per strand}}*({terms})", words="strands take the colours in turn")
        parts.append(part)
    around = f"{work.turns:g} turn{'s' * (work.turns != 1)}"
    layer = draft.add_layer(
        f"Wind {counted(work.strands, 'strand')}, {around}, each {draft.long(work.length_cm)} long:"
        f" {', '.join(f'{part.count} × {part.item}' for part in parts)}", tuple(parts))
    for strand in range(work.strands):
        twister = work.twisters[strand % count]
        start = 2 * math.pi * strand / work.strands
        for number in range(work.per_strand):
            points = [helix_point(work.height_cm, work.radius_cm, work.turns, share, start)
                      for share in shares_of(number, work.per_strand)]
            path = tuple((x, foot_cm + y, z) for x, y, z in points)
            x, y, z = path[len(path) // 2]
            draft.positions.append(Position(
                x_cm=x, y_cm=y, z_cm=z, diameter_cm=float(twister.size_cm), colour=twister.colour,
                item=twister.item, role="strand", layer=layer, path=path))


def add_strand_tasks(draft: Draft, work: Strands) -> None:
    """Add winding every strand."""
    draft.add_task("wind strand", Decimal(work.strands), formula="{strands}")
