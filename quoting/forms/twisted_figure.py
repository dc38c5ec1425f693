"""A twisted figure: so many twisters of each colour and so many minutes, as its maker knows them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import Decimal

from quoting.domain.drawings import Point3
from quoting.domain.jobs import Piece
from quoting.domain.plans import Part, Plan, Position
from quoting.domain.prices import Balloon, PriceBook, Shape
from quoting.domain.problems import Outcome
from quoting.forms.attachments import Carrier, add_attachments
from quoting.forms.balloon_choice import choose_balloons, colours_of
from quoting.forms.drafts import Draft
from quoting.forms.fields import fields
from quoting.forms.formulas import kept_all
from quoting.forms.outlines import outline_of
from quoting.forms.registry import Form
from quoting.forms.strands import USUAL_TWISTER
from quoting.forms.tasks import add_handling, add_inflating

DRAWN_HEIGHT_CM, DRAWN_WIDTH_CM = 60.0, 45.0
"""A figure of no given size is drawn and packed as large as this; common practice, no source."""

CHORDS = 20
"""Straight pieces that one twister is drawn with."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Twist:
    """A colour's twister and how many of it one figure takes."""

    balloon: Balloon
    count: int


def plan(piece: Piece, prices: PriceBook) -> Outcome[Plan | None]:
    """Work out one figure from its maker's own numbers; nothing is known of its shape."""
    draft = Draft(piece, prices)
    if not draft.has_all("colours", "twisters", "minutes"):
        return draft.refused()
    twists = _twists(draft)
    if twists is None or draft.is_slip(sum(twist.count for twist in twists), "twisters", "twisters"):
        return draft.refused()
    return _built(draft, twists)


def _twists(draft: Draft) -> tuple[Twist, ...] | None:
    colours = colours_of(draft)
    counts = tuple(count for count in draft.items("twisters") if isinstance(count, int))
    if len(counts) != len(colours):
        draft.complain("P548", "twisters", counts=len(counts), colours=len(colours))
        return None
    balloons = choose_balloons(draft, Shape.TWISTER, int(draft.text("twister") or USUAL_TWISTER), colours)
    if balloons is None:
        return None
    return tuple(Twist(balloon=balloon, count=count) for balloon, count in zip(balloons, counts, strict=True))


def _built(draft: Draft, twists: tuple[Twist, ...]) -> Outcome[Plan | None]:
    minutes = draft.decimal("minutes") or Decimal(0)
    wide = float(draft.decimal("width") or DRAWN_WIDTH_CM)
    tall = float(draft.decimal("height") or DRAWN_HEIGHT_CM)
    count = sum(twist.count for twist in twists)
    draft.description.append(f"Twisted figure of {count} balloon{'s' * (count > 1)}")
    names = list(dict.fromkeys(twist.balloon.colour for twist in twists))
    listed = names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
    draft.description.append(listed[:1].upper() + listed[1:])
    draft.length_step("height", "Height", tall)
    draft.length_step("width", "Width", wide)
    draft.step("minutes", "Minutes each", float(minutes), unit="minutes", words="as its maker takes")
    parts = _add_parts(draft, twists)
    words = ", ".join(f"{part.count} × {part.item}" for part in parts)
    layer = draft.add_layer(f"Twist in {minutes.normalize():f} min: {words}", parts)
    draft.positions += _positions(twists, wide, tall, layer)
    add_attachments(draft, Carrier(
        length_cm=tall, width_cm=wide, top_cm=tall, length_key="height", width_key="width", has_holder=False,
        point_at=lambda share: (0.0, tall * share, math.pi / 2)))
    add_inflating(draft)
    draft.add_task("minute of twisting", minutes, formula="{minutes}")
    add_handling(draft, bases=0)
    outline = outline_of(draft.parts, draft.hire, draft.prices, width_cm=wide, height_cm=tall, depth_cm=wide,
                         rigid_cm=max(wide, tall), volume_l=wide * wide * tall / 1000)
    return draft.finished(FORM.name, outline)


def _add_parts(draft: Draft, twists: tuple[Twist, ...]) -> tuple[Part, ...]:
    """Add one part per balloon; a balloon that two colours name is one part."""
    keys: dict[str, list[str]] = {}
    for number, twist in enumerate(twists, 1):
        key = f"twisters {number}"
        draft.step(key, f"Twisters, {twist.balloon.colour}", twist.count, unit="balloons")
        keys.setdefault(twist.balloon.item, []).append(key)
    parts = []
    for item, mine in keys.items():
        chosen = [twist for twist in twists if twist.balloon.item == item]
        balloon = chosen[0].balloon
        part = Part(item=item, count=sum(twist.count for twist in chosen), role="figure", colour=balloon.colour,
                    fill_cm=float(balloon.size_cm))
        draft.add_part(part, formula=kept_all(mine))
        parts.append(part)
    return tuple(parts)


def _positions(twists: tuple[Twist, ...], wide: float, tall: float, layer: int) -> list[Position]:
    """Draw a sign for a figure, since its true shape is its maker's: a stem and a loop for each further twister."""
    balloons = [twist.balloon for twist in reversed(twists) for _ in range(twist.count)]
    out, up = wide / 2, min(wide / 2, 0.45 * tall)
    head = tall - up
    positions = []
    for number, balloon in enumerate(balloons):
        half = float(balloon.size_cm) / 2
        if number == 0 and len(balloons) > 1:
            path: tuple[Point3, ...] = ((0.0, 0.0, -1.0), (0.0, head / 2, -1.0), (0.0, head, -1.0))
        elif number == 0:
            path = _loop(0, 1, tall - half, 0.0)
        else:
            across, along = (max(half, side - half) for side in (out, up))
            path = _loop(number, len(balloons) - 1, across, head, flat=along / across)
        x, y, z = path[len(path) // 2]
        positions.append(Position(
            x_cm=x, y_cm=y, z_cm=z, diameter_cm=float(balloon.size_cm), colour=balloon.colour, item=balloon.item,
            role="figure", layer=layer, path=path))
    return positions


def _loop(number: int, loops: int, reach: float, head: float, flat: float = 1.0) -> tuple[Point3, ...]:
    """Give one petal: out from the head, round, and back again; `flat` is its height ÷ its width. None hides a stem."""
    middle = math.pi / 2 + 2 * math.pi * (number + (0.5 if loops % 2 == 0 else 0.0)) / loops
    spread = min(math.pi / 5, math.pi / max(2, loops)) * 1.1
    points = []
    for step in range(CHORDS + 1):
        share = step / CHORDS
        away = reach * math.sin(math.pi * share)
        angle = middle + spread * math.cos(math.pi * share)
        points.append((away * math.cos(angle), head + flat * away * math.sin(angle), 0.1 * number))
    return tuple(points)


FORM = Form(
    name="twisted figure",
    summary="A figure twisted by hand: twisters of each colour and minutes, as its maker knows them.",
    fields=fields(
        "height", "width", "twister", "twisters*", "minutes*", "colours*",
        "topper", "topper_fill", "accents",
    ),
    plan=plan,
    example={"twister": "260", "colours": "pink, sage", "twisters": "5, 1", "minutes": "6"},
)
