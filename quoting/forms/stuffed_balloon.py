"""A stuffed balloon: one or several balloons inside another, mostly a clear one."""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import Decimal

from quoting.domain.jobs import Piece
from quoting.domain.looks import Finish, look_of
from quoting.domain.plans import Part, Plan, Position
from quoting.domain.prices import Balloon, PriceBook, Shape
from quoting.domain.problems import Outcome
from quoting.forms.attachments import Carrier, add_attachments, fill_of
from quoting.forms.drafts import HEADINGS, Draft
from quoting.forms.fields import fields
from quoting.forms.lots import GOLDEN, Lot, add_lot_parts, lot_words, part_words, read_lot
from quoting.forms.outlines import outline_of
from quoting.forms.registry import Form
from quoting.forms.tasks import add_handling, add_inflating
from quoting.geometry.packing import RANDOM_SPHERES, sphere_volume


@dataclass(frozen=True, slots=True, kw_only=True)
class Stuffed:
    """The outer balloon at its fill (cm), and how many of a lot are in it."""

    outer: Balloon
    fill_cm: float
    lot: Lot
    count: int

    @property
    def is_seen_through(self) -> bool:
        """True where what is inside can be seen."""
        return look_of(self.outer).finish is Finish.CLEAR


def plan(piece: Piece, prices: PriceBook) -> Outcome[Plan | None]:
    """Work out one stuffed balloon; what is inside must fit."""
    draft = Draft(piece, prices)
    if not draft.has_all("outer", "colours"):
        return draft.refused()
    outer, lot = _outer(draft), read_lot(draft)
    if outer is None or lot is None:
        return draft.refused()
    fill = float(draft.decimal("outer_fill") or fill_of(outer))
    stuffed = Stuffed(outer=outer, fill_cm=fill, lot=lot, count=draft.whole("count", 1) or 1)
    if not _goes_in(draft, stuffed):
        return draft.refused()
    return _built(draft, stuffed)


def _outer(draft: Draft) -> Balloon | None:
    """Find the outer balloon; reports at its cell, or at its fill's."""
    name = draft.text("outer")
    outer = draft.prices.balloon(name)
    if outer is None:
        draft.complain("P520", "outer", item=f'"{name}"', hint="")
        return None
    if outer.shape is not Shape.ROUND:
        draft.complain("P539", "outer", heading=HEADINGS["outer"], typed=outer.item,
                       rule=f"that is a {outer.shape.value}; only a round one can be stuffed")
        return None
    typed = draft.decimal("outer_fill")
    if typed is not None and typed > outer.size_cm:
        draft.complain("P502", "outer_fill", fill=draft.short(typed), size=outer.size)
        return None
    return outer


def _goes_in(draft: Draft, stuffed: Stuffed) -> bool:
    """Tell whether the balloons go in; reports at the count's cell.

    One may fill the outer one altogether; two side by side are no thicker than it; more
    take no more of its room than balls shaken down. Balloons give way, so this only
    catches what can't be.
    """
    inner, outer, count = stuffed.lot.fills_cm[0], stuffed.fill_cm, stuffed.count
    if count == 1 and inner <= outer:
        return True
    if count > 1 and 2 * inner <= outer and count * sphere_volume(inner) <= RANDOM_SPHERES * sphere_volume(outer):
        return True
    draft.complain("P547", "count" if draft.is_filled("count") else "fill", count=count, fill=draft.short(inner),
                   outer=draft.short(outer))
    return False


def _built(draft: Draft, stuffed: Stuffed) -> Outcome[Plan | None]:
    fill, lot, count = stuffed.fill_cm, stuffed.lot, stuffed.count
    inside = "a balloon" if count == 1 else f"{count} balloons"
    draft.description.append(f"{stuffed.outer.colour.capitalize()} balloon, {draft.long(fill)}, with {inside} inside")
    draft.description.append(f"Inside: {lot_words(lot)[:1].lower()}{lot_words(lot)[1:]}")
    draft.length_step("outer fill", "Fill of the outer balloon", fill)
    draft.length_step("fill", "Fill of those inside", lot.fills_cm[0])
    draft.step("outer", "Outer balloons", 1, unit="balloons")
    draft.step("inside", "Balloons inside", count, unit="balloons")
    draft.step("share", "Share of the room inside that they take", count * (lot.fills_cm[0] / fill) ** 3,
               formula="{inside}*({fill}/{outer fill})^3", words="balls; at most 64 % where there are several")
    inner = add_lot_parts(draft, lot, of="inside", count=count, role="inside")
    outer = Part(item=stuffed.outer.item, count=1, role="outer", colour=stuffed.outer.colour, fill_cm=fill)
    draft.add_part(outer, formula="{outer}")
    first = draft.add_layer(f"Push in, not yet filled: {part_words(draft, inner)}", inner)
    last = draft.add_layer(f"Fill those inside, then {stuffed.outer.item} to {draft.short(fill)}", (outer,))
    _draw(draft, stuffed, first, last)
    add_attachments(draft, Carrier(
        length_cm=fill, width_cm=fill, top_cm=fill, length_key="outer fill", width_key="outer fill",
        has_holder=False, point_at=lambda share: (0.0, fill * share, math.pi / 2)))
    add_inflating(draft)
    draft.add_task("stuff balloon", Decimal(count), formula="{inside}")
    add_handling(draft, bases=0)
    outline = outline_of(draft.parts, draft.hire, draft.prices, width_cm=fill, height_cm=fill, depth_cm=fill,
                         rigid_cm=fill, volume_l=fill**3 / 1000)
    return draft.finished(FORM.name, outline)


def _draw(draft: Draft, stuffed: Stuffed, first: int, last: int) -> None:
    """Add the positions; what is inside is hidden unless the outer balloon is clear, and drawn before it."""
    fill, inner = stuffed.fill_cm, stuffed.lot.fills_cm[0]
    outer = stuffed.outer
    draft.positions.append(Position(
        x_cm=0.0, y_cm=fill / 2, z_cm=fill / 2, diameter_cm=fill, colour=outer.colour, item=outer.item, role="outer",
        layer=last))
    if not stuffed.is_seen_through:
        draft.hidden += stuffed.count
        return
    reach = 0.0 if stuffed.count == 1 else (fill - inner) / 2 * 0.92
    for number, (balloon, diameter) in enumerate(stuffed.lot.strewn(stuffed.count)):
        height = 1 - (2 * number + 1) / stuffed.count
        turn = 2 * math.pi * GOLDEN * number
        flat = math.sqrt(1 - height**2)
        draft.positions.append(Position(
            x_cm=reach * flat * math.cos(turn), y_cm=fill / 2 + reach * height, z_cm=reach * flat * math.sin(turn) / 4,
            diameter_cm=diameter, colour=balloon.colour, item=balloon.item, role="inside", layer=first))


FORM = Form(
    name="stuffed balloon",
    summary="One or several balloons inside another, mostly a clear one.",
    fields=fields(
        "outer*", "outer_fill", "count", "size", "fill", "colours*", "shares",
        "topper", "topper_fill", "accents", "wrap", "wrap_turns",
    ),
    plan=plan,
    example={"outer": "Round 24 clear", "count": "5", "fill": "4 in", "colours": "white, pink", "shares": "60 %, 40 %"},
)
