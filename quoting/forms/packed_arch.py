"""An arch of rings packed along a curve between two feet, or round a hoop."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from quoting.domain.jobs import Piece
from quoting.domain.measures import counted
from quoting.domain.plans import Part, Plan
from quoting.domain.prices import Hardware, PriceBook
from quoting.domain.problems import Outcome
from quoting.forms.arch_workings import add_arch_steps
from quoting.forms.attachments import Carrier, add_attachments, tall_words
from quoting.forms.columns import describe_colours, ring_fields
from quoting.forms.drafts import Draft
from quoting.forms.drawn_stands import draw_bar, draw_plate
from quoting.forms.fields import TIED_ON, fields
from quoting.forms.outlines import outline_of, tube_volume
from quoting.forms.pattern_formulas import add_pattern_steps
from quoting.forms.patterns import Pattern, fitted_to, walk_colours
from quoting.forms.registry import Form
from quoting.forms.ring_column import fill_or_usual
from quoting.forms.ring_layers import add_ring_layers
from quoting.forms.ring_parts import RingWork, add_ring_parts, ring_positions
from quoting.forms.stacks import MOST_RINGS, Stack, run_of, stack_of
from quoting.forms.stands import add_hardware, check_room, choose_base, named_hardware
from quoting.forms.tasks import add_handling, add_inflating, add_ring_tasks
from quoting.geometry.curves import CurvePoint, curve_follower, curve_length, fixed_rise
from quoting.geometry.rings import rings_along

LEEWAY = 0.005
"""A height within half a percent of what the span fixes, or half a centimetre, is the same height rounded by a hand."""

FRAME_CHORDS = 60
"""Straight pieces that a frame's curve is drawn with."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Arch:
    """An arch's centre line and its rings (a stack of one run); lengths in cm."""

    curve: str
    span_cm: float
    rise_cm: float
    length_cm: float
    stack: Stack

    @property
    def is_closed(self) -> bool:
        """True for a hoop, which has no feet."""
        return self.curve == "full hoop"

    @property
    def foot_count(self) -> int:
        """How many base plates it stands on."""
        return 1 if self.is_closed else 2

    @property
    def lift_cm(self) -> float:
        """Height of the centre line's lowest point over the floor: a hoop rests on its lowest ring."""
        return self.stack.width_cm / 2 if self.is_closed else 0.0

    @property
    def top_cm(self) -> float:
        """Height of the topmost balloons over the floor."""
        return self.lift_cm + self.rise_cm + self.stack.width_cm / 2

    def follower(self) -> Callable[[float], CurvePoint]:
        """Give a function from a share (0 to 1) of the centre line to the point there, over the floor."""
        follow, lift = curve_follower(self.curve, self.span_cm, self.rise_cm, self.stack.width_cm), self.lift_cm

        def follow_over_floor(share: float) -> CurvePoint:
            x, y, direction = follow(share)
            return x, y + lift, direction

        return follow_over_floor


def plan(piece: Piece, prices: PriceBook) -> Outcome[Plan | None]:
    """Work out one packed arch: rings = length of the centre line ÷ built pitch, nearest."""
    draft = Draft(piece, prices)
    if not draft.has_all("colours", "width", "curve"):
        return draft.refused()
    asked = ring_fields(draft)
    rise = _rise(draft)
    fill = fill_or_usual(draft, asked.colours)
    run = None if fill is None else run_of(draft, fill, 1, asked.colours, "fill")
    if run is None or rise is None or asked.pattern is None:
        return draft.refused()
    stack = stack_of(draft, (run,), asked.per_ring, "fill", None)
    arch = None if stack is None else _arch(draft, stack, rise)
    pattern = None if arch is None else fitted_to(draft, asked.pattern, arch.stack.rings)
    if arch is None or pattern is None:
        return draft.refused()
    return _built(draft, arch, pattern)


def _rise(draft: Draft) -> float | None:
    """Give the rise of the centre line: fixed by the span, or typed; reports at the height's cell."""
    curve, span, height = draft.text("curve"), float(draft.decimal("width") or 0), draft.decimal("height")
    fixed = fixed_rise(curve, span)
    if fixed is None:
        if height is None:
            draft.complain("P515", "height", what=f"a {curve}")
        return None if height is None else float(height)
    if height is not None and abs(float(height) - fixed) > max(0.5, LEEWAY * fixed):
        draft.complain("P526", "height", curve=curve, width=draft.long(span), fixed=draft.long(fixed),
                       height=draft.long(height))
        return None
    return fixed


def _arch(draft: Draft, stack: Stack, rise_cm: float) -> Arch | None:
    curve, span_cm = draft.text("curve"), float(draft.decimal("width") or 0)
    width = stack.width_cm
    if span_cm <= width or (curve == "square" and rise_cm <= width / 2):
        draft.complain("P527", "width", ring=draft.short(width))
        return None
    length = curve_length(curve, span_cm, rise_cm, width)
    rings = rings_along(length, stack.pitch_cm(stack.runs[0]))
    if rings > MOST_RINGS:
        draft.complain("P537", "width", most=MOST_RINGS, what="rings")
        return None
    packed = replace(stack, runs=(replace(stack.runs[0], rings=rings),))
    return Arch(curve=curve, span_cm=span_cm, rise_cm=rise_cm, length_cm=length, stack=packed)


def _built(draft: Draft, arch: Arch, pattern: Pattern) -> Outcome[Plan | None]:
    stack = arch.stack
    add_arch_steps(draft, stack, curve=arch.curve, span_cm=arch.span_cm, rise_cm=arch.rise_cm, length_cm=arch.length_cm)
    add_pattern_steps(draft, pattern, stack.rings, stack.per_ring, "rings")
    walk = walk_colours(pattern, stack.rings, stack.per_ring)
    spans = (("rings", "", "rings"),)
    work = RingWork(runs=stack.runs, per_ring=stack.per_ring, pattern=pattern, walk=walk, spans=spans)
    wide, tall = arch.span_cm + stack.width_cm, arch.top_cm
    name = arch.curve.capitalize() + ("" if "hoop" in arch.curve else " arch")
    between = "from middle to middle of its balloons" if arch.is_closed else "between the middles of its feet"
    draft.description.append(
        f"{name}, {draft.long(arch.span_cm)} {between}, {draft.long(wide)} over all and {tall_words(draft, tall)},"
        f" {counted(stack.rings, 'ring')} of {stack.per_ring}")
    describe_colours(draft, pattern, walk)
    add_ring_parts(draft, work)
    follow = arch.follower()
    has_stand = _add_stand(draft, arch, follow)
    layers = add_ring_layers(draft, work)
    draft.positions += ring_positions(work, [follow(share) for share in _ring_shares(arch)], layers)
    carrier = Carrier(
        length_cm=arch.length_cm, width_cm=stack.width_cm, top_cm=tall, length_key="length", width_key="ring width",
        point_at=follow, has_holder=False,
    )
    topper_cm = add_attachments(draft, carrier)
    add_inflating(draft)
    add_ring_tasks(draft, stack.rings, "rings")
    add_handling(draft, bases=1 if has_stand else 0)
    outline = outline_of(
        draft.parts, draft.hire, draft.prices, width_cm=wide, height_cm=tall + topper_cm, depth_cm=stack.width_cm,
        rigid_cm=max(wide, tall), volume_l=tube_volume(stack.width_cm, arch.length_cm),
    )
    return draft.finished(FORM.name, outline)


def _ring_shares(arch: Arch) -> tuple[float, ...]:
    """Give the share of the curve at which every ring's middle stands: evenly, feet resting on the floor."""
    rings, half_fill = arch.stack.rings, arch.stack.runs[0].fill_cm / 2 / arch.length_cm
    if arch.is_closed:
        return tuple(ring / rings for ring in range(rings))
    if rings == 1:
        return (0.5,)
    return tuple(half_fill + ring * (1 - 2 * half_fill) / (rings - 1) for ring in range(rings))


def _add_stand(draft: Draft, arch: Arch, follow: Callable[[float], CurvePoint]) -> bool:
    """Add base plates and frame with their build step; tells whether there are any."""
    base, frame = choose_base(draft), named_hardware(draft, "frame")
    if frame is not None:
        check_room(draft, "frame", frame, arch.stack.pole_room_cm)
    chosen: list[tuple[Hardware, int, str]] = []
    if base is not None:
        chosen.append((base, arch.foot_count, "base"))
    if frame is not None:
        chosen.append((frame, 1, "frame"))
    parts: list[Part | None] = [add_hardware(draft, item, count, role) for item, count, role in chosen]
    if chosen:
        words = ", ".join(f"{count} × {item.item}" for item, count, _ in chosen)
        layer = draft.add_layer(f"Stand: {words}", tuple(part for part in parts if part is not None))
        if base is not None:
            for x in (0.0,) if arch.is_closed else (-arch.span_cm / 2, arch.span_cm / 2):
                draw_plate(draft, base, x, layer)
        if frame is not None:
            line = tuple(follow(number / FRAME_CHORDS) for number in range(FRAME_CHORDS + 1))
            draw_bar(draft, frame, tuple((x, y, 0.0) for x, y, _ in line), "frame", layer)
    return bool(chosen)


FORM = Form(
    name="packed arch",
    summary="Rings packed along a curve between two feet, or round a hoop.",
    fields=fields(
        "width*", "height", "curve*", "size", "fill", "per_ring", "pattern", "colours*", "shares", "blocks",
        *TIED_ON, "base", "frame",
    ),
    plan=plan,
    example={
        "width": "10 ft", "height": "8 ft", "curve": "semi-ellipse", "fill": "9.5 in", "pattern": "spiral",
        "colours": "white, pink",
    },
)

