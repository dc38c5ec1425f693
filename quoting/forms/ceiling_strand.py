"""A strand from floor to ceiling: single air-filled balloons one over the other on a taut line."""

from __future__ import annotations

import math
from dataclasses import replace

from quoting.domain.drawings import Stroke
from quoting.domain.jobs import Piece
from quoting.domain.plans import Plan
from quoting.domain.prices import PriceBook
from quoting.domain.problems import Outcome
from quoting.forms.attachments import Carrier, add_attachments
from quoting.forms.drafts import HEADINGS, Draft
from quoting.forms.fields import fields
from quoting.forms.outlines import outline_of, tube_volume
from quoting.forms.registry import Form
from quoting.forms.ring_parts import colour_words
from quoting.forms.singles import (
    Singles,
    add_line_tasks,
    add_places,
    add_single_parts,
    add_spacing_steps,
    fits_blocks,
    part_list,
    places_along,
    read_singles,
    single_positions,
)
from quoting.forms.tasks import add_handling, add_inflating
from quoting.forms.tethers import add_roll, add_weights, choose_roll, choose_weight

ROLE = "strand balloon"


def plan(piece: Piece, prices: PriceBook) -> Outcome[Plan | None]:
    """Work out one strand: as many balloons as have room from floor to ceiling, spread evenly."""
    draft = Draft(piece, prices)
    if not draft.has_all("height", "colours"):
        return draft.refused()
    singles, height = read_singles(draft, FORM.name), float(draft.decimal("height") or 0)
    if singles is None:
        return draft.refused()
    count = places_along(singles, height) - 1
    if count < 1:
        draft.complain("P539", "height", heading=HEADINGS["height"], typed=draft.long(height),
                       rule=f"one balloon takes {draft.long(singles.spacing_cm)} of it")
    if draft.is_held or draft.is_slip(count, "height", "balloons") or not fits_blocks(draft, singles.pattern, count):
        return draft.refused()
    return _built(draft, singles, height, count)


def _built(draft: Draft, singles: Singles, height_cm: float, count: int) -> Outcome[Plan | None]:
    draft.length_step("length", "Floor to ceiling", height_cm)
    add_spacing_steps(draft, singles)
    add_places(draft, singles, height_cm, has_both_ends=False)
    parts = add_single_parts(draft, singles, count, ROLE)
    roll, weight = choose_roll(draft, "line"), choose_weight(draft, 0.0)
    if weight is None or draft.is_held:
        return draft.refused()
    draft.description.append(f"Strand of {count} balloons from floor to ceiling, {draft.long(height_cm)}")
    draft.description.append(colour_words(singles.pattern))
    draft.step("needed", "Weight at the foot", 0, unit="g", words="one that keeps the line taut")
    add_weights(draft, weight, (0.0,), 0.0)
    draft.step("lines", "Lines", 1)
    part = None if roll is None else add_roll(draft, roll, "line", length_cm=height_cm, length_key="length",
                                              pieces_key="lines", pieces=1)
    name = "Line" if roll is None else roll.item
    layer = draft.add_layer(f"{name}, {draft.long(height_cm)}, taut between the foot and a fixing in the ceiling that"
                            " is meant to carry it", () if part is None else (part,))
    draft.drawing.append(Stroke(points=((0.0, 0.0, 0.0), (0.0, height_cm, 0.0)), width_cm=0.3, role="line",
                                layer=layer))
    pitch = height_cm / count
    layer = draft.add_layer(f"Tie on every {draft.short(pitch)}: {part_list(draft, parts)}", parts)
    places = [(0.0, (number + 0.5) * pitch, 0.0) for number in range(count)]
    draft.positions += single_positions(singles, places, ROLE, layer)
    add_attachments(draft, Carrier(
        length_cm=height_cm, width_cm=singles.fill_cm, top_cm=height_cm, length_key="length", width_key="fill",
        point_at=lambda share: (0.0, height_cm * share, math.pi / 2), has_holder=False,
        topper_share=0.96))
    add_inflating(draft)
    add_line_tasks(draft, count)
    add_handling(draft, bases=0)
    outline = outline_of(
        draft.parts, draft.hire, draft.prices, width_cm=singles.fill_cm, height_cm=height_cm,
        depth_cm=singles.fill_cm, rigid_cm=singles.fill_cm, volume_l=tube_volume(singles.fill_cm, height_cm))
    return draft.finished(FORM.name, replace(outline, is_to_ceiling=True))


FORM = Form(
    name="floor-to-ceiling strand",
    summary="Single air-filled balloons one over the other on a line from floor to ceiling.",
    fields=fields("height*", "size", "fill", "spacing", "pattern", "colours*", "shares", "blocks",
                  "accents", "accents_at", "line", "weight"),
    plan=plan,
    example={"height": "9 ft", "size": "11", "pattern": "bands", "colours": "white, pink"},
)
