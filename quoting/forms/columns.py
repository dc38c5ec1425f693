"""What every column shares once its rings are known: stand, build order, things tied on, work, outline."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from quoting.domain.plans import Outline, Part
from quoting.domain.prices import Hardware
from quoting.forms.attachments import Carrier, add_attachments, topper_size
from quoting.forms.balloon_choice import colours_of
from quoting.forms.drafts import Draft
from quoting.forms.drawn_stands import draw_bar, draw_plate
from quoting.forms.outlines import outline_of, tube_volume
from quoting.forms.patterns import Pattern, Walk, read_pattern
from quoting.forms.ring_parts import colour_words
from quoting.forms.stands import add_hardware, choose_base, choose_pole
from quoting.forms.tasks import add_handling, add_inflating, add_ring_tasks

USUAL_PER_RING = 4
"""Quads; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RingFields:
    """What every form of rings asks for."""

    colours: tuple[str, ...]
    per_ring: int
    pattern: Pattern | None
    """None where a problem has been reported."""


def ring_fields(draft: Draft) -> RingFields:
    """Read colours, balloons per ring and pattern; reports at their cells."""
    colours = colours_of(draft)
    per_ring = draft.whole("per_ring", USUAL_PER_RING) or USUAL_PER_RING
    return RingFields(colours=colours, per_ring=per_ring, pattern=read_pattern(draft, colours, per_ring))


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand:
    """The stand of a column, as chosen; None for what it goes without."""

    base: Hardware | None
    pole: Hardware | None

    @property
    def pole_diameter_cm(self) -> float:
        """0 without a pole, or where its sheet does not say."""
        return float(self.pole.diameter_cm or 0) if self.pole is not None else 0.0


def choose_stand(draft: Draft, height_cm: float, room_cm: float) -> Stand:
    """Choose base plate and pole for a column of this height; reports at their cells."""
    return Stand(base=choose_base(draft), pole=choose_pole(draft, height_cm, room_cm))


def add_stand(draft: Draft, stand: Stand, height_cm: float) -> None:
    """Add the stand's parts or hire, and its step of the build order, which is the first."""
    parts: list[Part | None] = []
    if stand.base is not None:
        parts.append(add_hardware(draft, stand.base, 1, "base"))
    if stand.pole is not None:
        parts.append(add_hardware(draft, stand.pole, 1, "pole", cut_cm=height_cm))
    names = [item.item for item in (stand.pole, stand.base) if item is not None]
    if names:
        text = f"Stand: {' on '.join(names)}"
        if stand.pole is not None:
            text += f", pole cut or set to {draft.short(height_cm)}"
        layer = draft.add_layer(text, tuple(part for part in parts if part is not None))
        if stand.base is not None:
            draw_plate(draft, stand.base, 0.0, layer)
        if stand.pole is not None:
            draw_bar(draft, stand.pole, ((0.0, 0.0, 0.0), (0.0, height_cm, 0.0)), "pole", layer)


def finish_column(
    draft: Draft, stand: Stand, *, height_cm: float, width_cm: float, rings: int, add_other_tasks: Callable[[], None],
) -> Outline:
    """Add what is tied on and all the work to a column whose rings stand; gives its outline.

    Refers to the earlier steps "built height", "ring width" and "rings in all".
    """
    carrier = Carrier(
        length_cm=height_cm, width_cm=width_cm, top_cm=height_cm, length_key="built height", width_key="ring width",
        point_at=lambda share: (0.0, height_cm * share, math.pi / 2),
    )
    topper_cm, topper = add_attachments(draft, carrier), topper_size(draft)
    add_inflating(draft)
    add_ring_tasks(draft, rings, "rings in all")
    add_other_tasks()
    add_handling(draft, bases=1 if stand.base is not None or stand.pole is not None else 0)
    return outline_of(
        draft.parts, draft.hire, draft.prices, width_cm=max(width_cm, topper.width_cm),
        height_cm=height_cm + topper_cm, depth_cm=max(width_cm, topper.depth_cm),
        rigid_cm=height_cm, volume_l=tube_volume(width_cm, height_cm),
    )


def describe_colours(draft: Draft, pattern: Pattern, walk: Walk) -> None:
    """Add the line of the colours that are walked over, for the client."""
    draft.description.append(colour_words(pattern, walk))
