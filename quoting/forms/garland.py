"""An organic garland: a spine of clusters along a line, and filler clusters strewn over it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal

from quoting.domain.drawings import Stroke
from quoting.domain.jobs import Piece
from quoting.domain.plans import Outline, Part, Plan
from quoting.domain.prices import PriceBook
from quoting.domain.problems import Outcome
from quoting.forms.attachments import Carrier, add_attachments
from quoting.forms.balloon_choice import colours_of
from quoting.forms.columns import USUAL_PER_RING
from quoting.forms.drafts import HEADINGS, Draft
from quoting.forms.drawn_stands import draw_bar
from quoting.forms.fields import TIED_ON, fields
from quoting.forms.fillers import Fillers, add_filler_parts, filler_positions, filler_reach, read_fillers
from quoting.forms.outlines import outline_of, tube_volume
from quoting.forms.path_arches import FRAME_CHORDS, ring_shares
from quoting.forms.pattern_formulas import add_pattern_steps
from quoting.forms.patterns import Pattern
from quoting.forms.registry import Form
from quoting.forms.repeat_workings import add_cycle_steps, add_line_rings, add_ring_counts
from quoting.forms.repeats import Repeat, add_repeat_parts, is_too_much, repeat_of, work_of
from quoting.forms.ring_column import fill_or_usual
from quoting.forms.ring_parts import colour_words, ring_positions
from quoting.forms.route_workings import add_route_steps
from quoting.forms.routes import Route, read_route
from quoting.forms.share_workings import read_shares
from quoting.forms.stands import add_hardware, named_hardware
from quoting.forms.tasks import add_handling, add_inflating
from quoting.geometry.curves import CurvePoint


def plan(piece: Piece, prices: PriceBook) -> Outcome[Plan | None]:
    """Work out one garland: spine clusters at built pitch along its length, and filler clusters by its fullness."""
    draft = Draft(piece, prices)
    if not draft.has_all("route", "colours", "filler_sizes"):
        return draft.refused()
    colours = colours_of(draft)
    shares = read_shares(draft, "shares", len(colours), "colours")
    route, spine = read_route(draft), _spine(draft, colours)
    if route is None or spine is None or shares is None:
        return draft.refused()
    spine = spine.with_length(route.path.length)
    fillers = read_fillers(draft, colours, shares, route.path.length)
    if fillers is None or is_too_much(draft, spine, route.longest_key(draft)):
        return draft.refused()
    return _built(draft, route, spine, fillers, Pattern(name="mix", colours=colours, shares=shares))


def _spine(draft: Draft, colours: tuple[str, ...]) -> Repeat | None:
    """Give the spine's clusters, whose fills may change in turn; reports at the cells of fill, size and colours."""
    per_ring = draft.whole("per_ring", USUAL_PER_RING) or USUAL_PER_RING
    fills = tuple(fill for fill in draft.items("fills") if isinstance(fill, Decimal))
    if fills:
        if draft.is_filled("fill"):
            draft.complain("P513", "fill", heading=HEADINGS["fill"], other="a list of fills")
        return repeat_of(draft, fills, colours, per_ring, "fills")
    fill = fill_or_usual(draft, colours)
    return None if fill is None else repeat_of(draft, (fill,), colours, per_ring, "fill")


def _built(draft: Draft, route: Route, spine: Repeat, fillers: Fillers, pattern: Pattern) -> Outcome[Plan | None]:
    length_cm, stack = route.path.length, spine.stack
    add_route_steps(draft, route)
    add_cycle_steps(draft, spine)
    add_line_rings(draft, spine, length_cm)
    add_ring_counts(draft, spine)
    add_pattern_steps(draft, pattern, spine.rings, spine.per_ring, "rings in all")
    work = work_of(spine, pattern)
    _describe(draft, route, fillers, pattern)
    spine_parts = add_repeat_parts(draft, spine, work, role="spine")
    filler_parts = add_filler_parts(draft, fillers)
    reach_cm = max(stack.width_cm / 2, filler_reach(fillers, stack.width_cm / 2) if fillers.clusters else 0.0)
    follow = route.lifted(0.0 if route.stands else reach_cm)
    has_frame = _add_line(draft, follow)
    layer = _add_layer(draft, f"Spine: {spine.rings} clusters of {spine.per_ring}", spine_parts)
    places = [follow(share) for share in ring_shares(spine.rings, spine.cycle[0].fill_cm, length_cm)]
    rings = ring_positions(work, places, (layer,) * spine.rings)
    draft.positions += [replace(position, role="spine") for position in rings]
    if fillers.clusters:
        sides = "one face" if fillers.faces == 1 else "both faces"
        layer = _add_layer(draft, f"Fillers on {sides}: {fillers.clusters} clusters of 3", filler_parts)
        draft.positions += [
            replace(position, y_cm=max(position.y_cm, position.diameter_cm / 2))
            for position in filler_positions(fillers, follow, length_cm, stack.width_cm / 2, layer)]
    top_cm = max(position.y_cm + position.diameter_cm / 2 for position in draft.positions)
    add_attachments(draft, Carrier(
        length_cm=length_cm, width_cm=stack.width_cm, top_cm=top_cm, length_key="length", width_key="ring width",
        point_at=follow, has_holder=False))
    add_inflating(draft)
    for activity in ("tie cluster", "build ring"):
        draft.add_task(activity, Decimal(spine.rings + fillers.clusters), formula="{rings in all}+{filler clusters}")
    add_handling(draft, bases=0)
    return draft.finished(FORM.name, _outline(draft, length_cm, has_frame=has_frame))


def _describe(draft: Draft, route: Route, fillers: Fillers, pattern: Pattern) -> None:
    sides = "seen from one side" if fillers.faces == 1 else "finished on both sides"
    draft.description.append(f"Organic garland, {route.words}")
    draft.description.append(f"{fillers.fullness.capitalize()} fullness, {sides}")
    words = colour_words(pattern)
    if fillers.colours != pattern.colours:
        other = colour_words(replace(pattern, colours=fillers.colours))
        words = f"{words}, filled with {other[:1].lower()}{other[1:]}"
    draft.description.append(words)


def _add_layer(draft: Draft, what: str, parts: tuple[Part, ...]) -> int:
    things = ", ".join(f"{part.count} × {part.item} at {draft.short(part.fill_cm or 0)}" for part in parts)
    return draft.add_layer(f"{what}: {things}", parts)


def _add_line(draft: Draft, follow: Callable[[float], CurvePoint]) -> bool:
    """Add the frame that is named, or draw the line that the garland is tied to; tells whether there is a frame."""
    frame = named_hardware(draft, "frame")
    points = tuple((x, y, 0.0) for x, y, _ in (follow(number / FRAME_CHORDS) for number in range(FRAME_CHORDS + 1)))
    if frame is None:
        draft.drawing.append(Stroke(points=points, width_cm=0.3, role="line"))
        return False
    part = add_hardware(draft, frame, 1, "frame")
    layer = draft.add_layer(f"Frame: {frame.item}", (part,) if part is not None else ())
    draw_bar(draft, frame, points, "frame", layer)
    return True


def _outline(draft: Draft, length_cm: float, *, has_frame: bool) -> Outline:
    """Give the outline of what hangs there. Without a frame it bends, and is rigid only across."""
    balls = [(p.x_cm, p.y_cm, p.z_cm, p.diameter_cm / 2) for p in draft.positions]
    width, height, depth = (
        max(ball[axis] + ball[3] for ball in balls) - min(ball[axis] - ball[3] for ball in balls) for axis in range(3))
    return outline_of(
        draft.parts, draft.hire, draft.prices, width_cm=width, height_cm=height, depth_cm=depth,
        rigid_cm=max(width, height) if has_frame else depth, volume_l=tube_volume(depth, length_cm))


FORM = Form(
    name="garland",
    summary="An organic garland: a spine of clusters, filled with clusters of other sizes.",
    fields=fields(
        "route*", "length", "width", "height", "sag", "segments", "faces", "size", "fill", "fills", "per_ring",
        "fullness", "filler_sizes*", "filler_size_shares", "filler_colours", "filler_shares", "colours*", "shares",
        *TIED_ON, "frame",
    ),
    plan=plan,
    example={"route": "swag", "width": "10 ft", "sag": "2 ft", "size": "11", "filler_sizes": "5, 11, 16",
             "filler_size_shares": "60 %, 30 %, 10 %", "colours": "white, pink", "faces": "one"},
)
