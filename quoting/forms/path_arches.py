"""What arches of rings along any line share: rings, stand, things tied on, work and outline."""

from __future__ import annotations

from dataclasses import dataclass, replace

from quoting.domain.measures import counted
from quoting.domain.plans import Part, Plan
from quoting.domain.prices import Hardware
from quoting.domain.problems import Outcome
from quoting.forms.attachments import Carrier, add_attachments, tall_words
from quoting.forms.columns import RingFields, describe_colours
from quoting.forms.drafts import Draft
from quoting.forms.drawn_stands import draw_bar, draw_plate
from quoting.forms.outlines import outline_of, tube_volume
from quoting.forms.pattern_formulas import add_pattern_steps
from quoting.forms.patterns import Pattern, fitted_to, walk_colours
from quoting.forms.ring_column import fill_or_usual
from quoting.forms.ring_layers import add_ring_layers
from quoting.forms.ring_parts import RingWork, add_ring_parts, ring_positions
from quoting.forms.stacks import MOST_RINGS, Stack, run_of, stack_of
from quoting.forms.stands import add_hardware, check_room, choose_base, named_hardware
from quoting.forms.tasks import add_handling, add_inflating, add_ring_tasks
from quoting.geometry.paths import Path
from quoting.geometry.rings import rings_along

FRAME_CHORDS = 60
"""Straight pieces that a frame's line is drawn with."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PathArch:
    """An arch's centre line and its rings (a stack of one run); lengths in cm.

    `name` begins the client's description ("Arch on legs"). `feet` are the x of its
    base plates; `width_cm` and `height_cm` are those of the centre line.
    """

    name: str
    path: Path
    stack: Stack
    feet: tuple[float, ...]
    width_cm: float
    height_cm: float
    crown: float = 0.5
    """Share of the line at its highest point."""


def ring_stack(draft: Draft, asked: RingFields) -> Stack | None:
    """Give a stack of a single ring of the fill asked for; reports at the cells of fill, size and colours."""
    fill = fill_or_usual(draft, asked.colours)
    run = None if fill is None else run_of(draft, fill, 1, asked.colours, "fill")
    return None if run is None else stack_of(draft, (run,), asked.per_ring, "fill", None)


def packed(draft: Draft, stack: Stack, length_cm: float, key: str) -> Stack | None:
    """Give the stack with the rings nearest to a line's length; reports too many at the cell `key`."""
    rings = rings_along(length_cm, stack.pitch_cm(stack.runs[0]))
    if rings > MOST_RINGS:
        draft.complain("P537", key, most=MOST_RINGS, what="rings")
        return None
    return replace(stack, runs=(replace(stack.runs[0], rings=rings),))


def finish_arch(draft: Draft, arch: PathArch, asked_pattern: Pattern, form: str) -> Outcome[Plan | None]:
    """Add everything to an arch whose workings have "length", "rings" and "ring width"; gives its plan."""
    stack = arch.stack
    pattern = fitted_to(draft, asked_pattern, stack.rings)
    if pattern is None:
        return draft.refused()
    add_pattern_steps(draft, pattern, stack.rings, stack.per_ring, "rings")
    walk = walk_colours(pattern, stack.rings, stack.per_ring)
    spans = (("rings", "", "rings"),)
    work = RingWork(runs=stack.runs, per_ring=stack.per_ring, pattern=pattern, walk=walk, spans=spans)
    wide, tall = arch.width_cm + stack.width_cm, arch.height_cm + stack.width_cm / 2
    between = "between the middles of its feet" if len(arch.feet) > 1 else "from the middle of its foot to its tip"
    draft.description.append(
        f"{arch.name}, {draft.long(arch.width_cm)} {between}, {draft.long(wide)} over all and"
        f" {tall_words(draft, tall)}, {counted(stack.rings, 'ring')} of {stack.per_ring}")
    describe_colours(draft, pattern, walk)
    add_ring_parts(draft, work)
    has_stand = _add_stand(draft, arch)
    layers = add_ring_layers(draft, work)
    shares = ring_shares(stack.rings, stack.runs[0].fill_cm, arch.path.length)
    draft.positions += ring_positions(work, [arch.path.follow(share) for share in shares], layers)
    topper_cm = add_attachments(draft, Carrier(
        length_cm=arch.path.length, width_cm=stack.width_cm, top_cm=tall, length_key="length",
        width_key="ring width", point_at=arch.path.follow, has_holder=False, topper_share=arch.crown))
    add_inflating(draft)
    add_ring_tasks(draft, stack.rings, "rings")
    add_handling(draft, bases=1 if has_stand else 0)
    outline = outline_of(
        draft.parts, draft.hire, draft.prices, width_cm=wide, height_cm=tall + topper_cm, depth_cm=stack.width_cm,
        rigid_cm=max(wide, tall), volume_l=tube_volume(stack.width_cm, arch.path.length),
    )
    return draft.finished(form, outline)


def ring_shares(rings: int, fill_cm: float, length_cm: float) -> tuple[float, ...]:
    """Give the share of a line at which every ring's middle stands: evenly, half a fill from either end."""
    half_fill = min(0.5, fill_cm / 2 / length_cm)
    if rings == 1:
        return (0.5,)
    return tuple(half_fill + ring * (1 - 2 * half_fill) / (rings - 1) for ring in range(rings))


def _add_stand(draft: Draft, arch: PathArch) -> bool:
    """Add base plates and frame with their build step; tells whether there are any."""
    base, frame = choose_base(draft), named_hardware(draft, "frame")
    if frame is not None:
        check_room(draft, "frame", frame, arch.stack.pole_room_cm)
    chosen: list[tuple[Hardware, int, str]] = []
    if base is not None:
        chosen.append((base, len(arch.feet), "base"))
    if frame is not None:
        chosen.append((frame, 1, "frame"))
    parts: list[Part | None] = [add_hardware(draft, item, count, role) for item, count, role in chosen]
    if chosen:
        words = ", ".join(f"{count} × {item.item}" for item, count, _ in chosen)
        layer = draft.add_layer(f"Stand: {words}", tuple(part for part in parts if part is not None))
        if base is not None:
            for x in arch.feet:
                draw_plate(draft, base, x, layer)
        if frame is not None:
            line = tuple(arch.path.follow(number / FRAME_CHORDS) for number in range(FRAME_CHORDS + 1))
            draw_bar(draft, frame, tuple((x, y, 0.0) for x, y, _ in line), "frame", layer)
    return bool(chosen)
