"""A line arch: single helium balloons on a line that floats between two weights."""

from __future__ import annotations

from collections.abc import Callable

from quoting.domain.drawings import Stroke
from quoting.domain.jobs import Piece
from quoting.domain.plans import Plan
from quoting.domain.prices import Hardware, PriceBook
from quoting.domain.problems import Outcome
from quoting.forms.attachments import Carrier, add_attachments
from quoting.forms.drafts import Draft
from quoting.forms.fields import fields
from quoting.forms.lifted_lines import LiftedLine, add_lifted_steps, add_pull_steps, read_lifted_line
from quoting.forms.lifts import HELIUM, add_lift
from quoting.forms.outlines import outline_of
from quoting.forms.registry import Form
from quoting.forms.ring_parts import colour_words
from quoting.forms.singles import (
    Singles,
    add_line_tasks,
    add_places,
    add_single_parts,
    add_spacing_steps,
    every,
    fits_blocks,
    part_list,
    places_along,
    read_singles,
    single_positions,
)
from quoting.forms.tasks import add_handling, add_inflating
from quoting.forms.tethers import add_roll, add_weights, choose_roll, choose_weight, grams_words
from quoting.geometry.curves import CurvePoint

CHORDS = 48
"""Straight pieces that the line is drawn with."""


def plan(piece: Piece, prices: PriceBook) -> Outcome[Plan | None]:
    """Work out one line arch: length ÷ spacing + 1 balloons, their lift, and what holds the two ends."""
    draft = Draft(piece, prices)
    if not draft.has_all("width", "colours"):
        return draft.refused()
    line, singles = read_lifted_line(draft, FORM.name), read_singles(draft, FORM.name)
    if line is None or singles is None:
        return draft.refused()
    count = places_along(singles, line.length_cm)
    if draft.is_slip(count, "width", "balloons") or not fits_blocks(draft, singles.pattern, count):
        return draft.refused()
    return _built(draft, line, singles, count)


def _built(draft: Draft, line: LiftedLine, singles: Singles, count: int) -> Outcome[Plan | None]:
    add_lifted_steps(draft, line)
    add_spacing_steps(draft, singles)
    add_places(draft, singles, line.length_cm, has_both_ends=True)
    parts = add_single_parts(draft, singles, count, HELIUM)
    net = add_lift(draft)
    if draft.is_held:
        return draft.refused()
    pull = add_pull_steps(draft, line, net)
    roll, weight = choose_roll(draft, "line"), choose_weight(draft, pull * float(draft.prices.shop.weight_factor))
    if weight is None or draft.is_held:
        return draft.refused()
    _describe(draft, line, singles, count)
    _add_line(draft, line, roll, follow := line.lifted(singles.fill_cm / 2), pull)
    layer = draft.add_layer(f"Tie on{every(draft, line.length_cm, count)}: {part_list(draft, parts)}", parts)
    places = [(*follow(number / (count - 1) if count > 1 else 0.5)[:2], 0.0) for number in range(count)]
    draft.positions += single_positions(singles, places, HELIUM, layer)
    add_weights(draft, weight, (-line.width_cm / 2, line.width_cm / 2),
                pull * float(draft.prices.shop.weight_factor))
    top_cm = line.height_cm + singles.fill_cm
    add_attachments(draft, Carrier(
        length_cm=line.length_cm, width_cm=singles.fill_cm, top_cm=top_cm, length_key="length", width_key="fill",
        point_at=follow, has_holder=False))
    add_inflating(draft, helium=frozenset({HELIUM}))
    add_line_tasks(draft, count)
    add_handling(draft, bases=0)
    outline = outline_of(
        draft.parts, draft.hire, draft.prices, width_cm=line.width_cm + singles.fill_cm, height_cm=top_cm,
        depth_cm=singles.fill_cm, rigid_cm=singles.fill_cm, volume_l=count * singles.fill_cm**3 / 1000,
        net_lift_g=net)
    return draft.finished(FORM.name, outline)


def _describe(draft: Draft, line: LiftedLine, singles: Singles, count: int) -> None:
    draft.description.append(
        f"{count} helium balloons on a line, {draft.long(line.width_cm + singles.fill_cm)} wide,"
        f" {draft.long(line.height_cm + singles.fill_cm)} high")
    draft.description.append(colour_words(singles.pattern))


def _add_line(
    draft: Draft, line: LiftedLine, roll: Hardware | None, follow: Callable[[float], CurvePoint], pull_g: float
) -> None:
    draft.step("lines", "Lines", 1)
    part = None if roll is None else add_roll(draft, roll, "line", length_cm=line.length_cm, length_key="length",
                                              pieces_key="lines", pieces=1)
    name = "Line" if roll is None else roll.item
    layer = draft.add_layer(
        f"{name}, {draft.long(line.length_cm)} from anchor to anchor. It and each anchor are pulled by"
        f" {grams_words(draft, pull_g)}, up and inwards: keep the anchors from sliding",
        () if part is None else (part,))
    points = tuple((x, y, 0.0) for x, y, _ in (follow(number / CHORDS) for number in range(CHORDS + 1)))
    draft.drawing.append(Stroke(points=points, width_cm=0.3, role="line", layer=layer))


FORM = Form(
    name="line arch",
    summary="Single helium balloons on a line that floats between two weights.",
    fields=fields(
        "width*", "height", "length", "size", "fill", "spacing", "pattern", "colours*", "shares", "blocks",
        "accents", "accents_at", "line", "weight",
    ),
    plan=plan,
    example={"width": "16 ft", "height": "8 ft", "size": "11", "spacing": "12 in", "colours": "white"},
)
