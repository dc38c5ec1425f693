"""An air line: single air-filled balloons on a line or frame, straight, hanging, or up and across."""

from __future__ import annotations

from collections.abc import Callable

from quoting.domain.drawings import Stroke
from quoting.domain.jobs import Piece
from quoting.domain.plans import Outline, Plan
from quoting.domain.prices import PriceBook
from quoting.domain.problems import Outcome
from quoting.forms.attachments import Carrier, add_attachments
from quoting.forms.drafts import Draft
from quoting.forms.drawn_stands import draw_bar
from quoting.forms.fields import fields
from quoting.forms.outlines import outline_of
from quoting.forms.registry import Form
from quoting.forms.ring_parts import colour_words
from quoting.forms.route_workings import add_route_steps
from quoting.forms.routes import Route, read_route
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
from quoting.forms.stands import add_hardware, named_hardware
from quoting.forms.tasks import add_handling, add_inflating
from quoting.forms.tethers import add_roll, choose_roll
from quoting.geometry.curves import CurvePoint

CHORDS = 60
"""Straight pieces that the line is drawn with."""

ROLE = "line balloon"


def plan(piece: Piece, prices: PriceBook) -> Outcome[Plan | None]:
    """Work out one air line: length ÷ spacing + 1 balloons."""
    draft = Draft(piece, prices)
    if not draft.has_all("route", "colours"):
        return draft.refused()
    route, singles = read_route(draft), read_singles(draft, FORM.name)
    if route is None or singles is None:
        return draft.refused()
    count = places_along(singles, route.path.length)
    if draft.is_slip(count, route.longest_key(draft), "balloons") or not fits_blocks(draft, singles.pattern, count):
        return draft.refused()
    return _built(draft, route, singles, count)


def _built(draft: Draft, route: Route, singles: Singles, count: int) -> Outcome[Plan | None]:
    length_cm, reach = route.path.length, singles.fill_cm / 2
    add_route_steps(draft, route)
    add_spacing_steps(draft, singles)
    add_places(draft, singles, length_cm, has_both_ends=True)
    draft.description.append(f"{count} balloons on a line, {route.words}")
    draft.description.append(colour_words(singles.pattern))
    parts = add_single_parts(draft, singles, count, ROLE)
    follow = route.lifted(0.0 if route.stands else reach)
    has_frame = _add_carriers(draft, follow, length_cm)
    layer = draft.add_layer(f"Tie on{every(draft, length_cm, count)}: {part_list(draft, parts)}", parts)
    shares = [number / (count - 1) if count > 1 else 0.5 for number in range(count)]
    places = [(x, max(y, reach), 0.0) for x, y, _ in map(follow, shares)]
    draft.positions += single_positions(singles, places, ROLE, layer)
    add_attachments(draft, Carrier(
        length_cm=length_cm, width_cm=singles.fill_cm, top_cm=max(y for _, y, _ in places) + reach,
        length_key="length", width_key="fill", point_at=follow, has_holder=False,
        topper_share=max(shares, key=lambda share: follow(share)[1])))
    add_inflating(draft)
    add_line_tasks(draft, count)
    add_handling(draft, bases=0)
    return draft.finished(FORM.name, _outline(draft, singles, count, has_frame=has_frame))


def _add_carriers(draft: Draft, follow: Callable[[float], CurvePoint], length_cm: float) -> bool:
    """Add line and frame with their build steps and marks; tells whether there is a frame."""
    points = tuple((x, y, 0.0) for x, y, _ in (follow(number / CHORDS) for number in range(CHORDS + 1)))
    frame, roll = named_hardware(draft, "frame"), choose_roll(draft, "line")
    if frame is not None:
        part = add_hardware(draft, frame, 1, "frame")
        layer = draft.add_layer(f"Frame: {frame.item}", () if part is None else (part,))
        draw_bar(draft, frame, points, "frame", layer)
    if roll is not None:
        draft.step("lines", "Lines", 1)
        part = add_roll(draft, roll, "line", length_cm=length_cm, length_key="length", pieces_key="lines", pieces=1)
        layer = draft.add_layer(f"{roll.item}, {draft.long(length_cm)}", () if part is None else (part,))
        draft.drawing.append(Stroke(points=points, width_cm=0.3, role="line", layer=layer))
    elif frame is None:
        draft.drawing.append(Stroke(points=points, width_cm=0.3, role="line"))
    return frame is not None


def _outline(draft: Draft, singles: Singles, count: int, *, has_frame: bool) -> Outline:
    balls = [(p.x_cm, p.y_cm) for p in draft.positions if p.role == ROLE]
    width, height = (max(b[axis] for b in balls) - min(b[axis] for b in balls) + singles.fill_cm for axis in (0, 1))
    return outline_of(
        draft.parts, draft.hire, draft.prices, width_cm=width, height_cm=height, depth_cm=singles.fill_cm,
        rigid_cm=max(width, height) if has_frame else singles.fill_cm, volume_l=count * singles.fill_cm**3 / 1000)


FORM = Form(
    name="air line",
    summary="Single air-filled balloons on a line or frame.",
    fields=fields(
        "route*", "length", "width", "height", "sag", "segments", "size", "fill", "spacing", "pattern", "colours*",
        "shares", "blocks", "accents", "accents_at", "frame", "line",
    ),
    plan=plan,
    example={"route": "swag", "width": "12 ft", "sag": "2 ft", "size": "11", "spacing": "12 in",
             "pattern": "bands", "colours": "white, pink"},
)
