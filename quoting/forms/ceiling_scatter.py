"""A ceiling scatter: helium balloons that float loose under a ceiling, with or without ribbons."""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import Decimal

from quoting.domain.counts import nearest_count
from quoting.domain.drawings import Stroke
from quoting.domain.jobs import Piece
from quoting.domain.measures import shown_length
from quoting.domain.plans import Plan, Position
from quoting.domain.prices import PriceBook
from quoting.domain.problems import Outcome
from quoting.forms.attachments import Carrier, add_attachments
from quoting.forms.drafts import HEADINGS, Draft
from quoting.forms.fields import fields
from quoting.forms.formulas import nearest
from quoting.forms.lifts import HELIUM, add_lift
from quoting.forms.lots import Lot, add_lot_parts, lot_words, part_words, read_lot
from quoting.forms.outlines import outline_of
from quoting.forms.registry import Form
from quoting.forms.tasks import add_handling, add_inflating
from quoting.forms.tethers import add_roll, choose_roll

USUAL_SPACING_CM = 30.48
"""One balloon per square foot; common practice, no source."""

CEILING_CM = 270.0
"""Drawn under so high a ceiling where no height is given; nothing is counted from it."""

STRAY = 0.8
"""How far off its row a balloon is drawn, in spacings."""
ROW_SHIFT = (5**0.5 - 1) / 2
"""Spacings that each row is drawn further aside: by the golden section no ribbons hang in line, seen from the front."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ceiling:
    """Width and length that are covered, and the spacing (cm). `is_counted`: the count was typed."""

    width_cm: float
    length_cm: float
    spacing_cm: float
    count: int
    is_counted: bool


def plan(piece: Piece, prices: PriceBook) -> Outcome[Plan | None]:
    """Work out one scatter: by the area and the spacing, or by the count."""
    draft = Draft(piece, prices)
    if not draft.has_all("colours"):
        return draft.refused()
    lot = read_lot(draft)
    ceiling = None if lot is None else _ceiling(draft, lot)
    if lot is None or ceiling is None or draft.is_slip(ceiling.count, "width", "balloons"):
        return draft.refused()
    ribbon = draft.decimal("ribbon_length")
    if draft.is_filled("ribbon") and draft.text("ribbon").casefold() != "none" and ribbon is None:
        draft.complain("P558", "ribbon_length", form=f"{FORM.name} with ribbons", needs="their length", example="3 ft")
    height = draft.decimal("height")
    if height is not None and float(height) < lot.fills_cm[0] + float(ribbon or 0):
        draft.complain("P539", "height", heading=HEADINGS["height"], typed=draft.long(height),
                       rule=f"balloon and ribbon are {draft.long(lot.fills_cm[0] + float(ribbon or 0))}")
    return draft.refused() if draft.is_held else _built(draft, lot, ceiling)


def _ceiling(draft: Draft, lot: Lot) -> Ceiling | None:
    width, length, count = draft.decimal("width"), draft.decimal("length"), draft.whole("count")
    spacing = float(draft.decimal("spacing") or USUAL_SPACING_CM)
    if width is None or length is None:
        if count is None:
            draft.complain("P558", "count" if width is None and length is None else "width" if width is None
                           else "length", form=FORM.name, needs="a count, or a width and a length", example="100")
            return None
        side = float(width or length or 0)
        other = count * spacing**2 / side if side else spacing * math.sqrt(count)
        across, along = (other, side) if width is None and side else (side or other, other)
        return Ceiling(width_cm=across, length_cm=along, spacing_cm=spacing, count=count, is_counted=True)
    by_area = nearest_count(float(width * length) / spacing**2)
    if count is not None and draft.is_filled("spacing") and count != by_area:
        draft.complain("P539", "count", heading=HEADINGS["count"], typed=count,
                       rule=f"{draft.long(width)} × {draft.long(length)} with a spacing of {draft.short(spacing)}"
                            f" takes {by_area}")
        return None
    if count is None and by_area < 1:
        draft.complain("P539", "width", heading=HEADINGS["width"], typed=draft.long(width),
                       rule=f"with a spacing of {draft.short(spacing)} no balloon goes there")
        return None
    apart = spacing if count is None else math.sqrt(float(width * length) / count)
    if apart < lot.fills_cm[0] * (1 - 1e-9):
        draft.complain("P551", "count" if count is not None else "spacing" if draft.is_filled("spacing") else "fill",
                       fill=draft.short(lot.fills_cm[0]), spacing=draft.short(apart))
        return None
    return Ceiling(width_cm=float(width), length_cm=float(length), spacing_cm=apart, count=count or by_area,
                   is_counted=count is not None)


def _built(draft: Draft, lot: Lot, ceiling: Ceiling) -> Outcome[Plan | None]:
    _add_count(draft, ceiling)
    draft.length_step("fill", "Fill", lot.fills_cm[0])
    parts = add_lot_parts(draft, lot, of="balloons", count=ceiling.count, role=HELIUM)
    net = add_lift(draft)
    roll = choose_roll(draft, "ribbon")
    if draft.is_held:
        return draft.refused()
    draft.description.append(f"{ceiling.count} helium balloons under the ceiling")
    draft.description.append(lot_words(lot))
    layer = draft.add_layer(f"Fill with helium: {part_words(draft, parts)}", parts)
    draft.positions += _positions(draft, lot, ceiling, layer)
    hanging = float(draft.decimal("ribbon_length") or 0)
    if hanging:
        _add_ribbons(draft, ceiling.count, hanging, roll is not None)
    draft.add_layer("Let them rise inside the room; keep them from lamps, fans, sprinklers and detectors")
    top = _ceiling_height(draft)
    add_attachments(draft, Carrier(
        length_cm=ceiling.width_cm, width_cm=lot.fills_cm[0], top_cm=top, length_key="fill", width_key="fill",
        point_at=lambda share: ((share - 0.5) * ceiling.width_cm, top - lot.fills_cm[0] / 2, 0.0), has_holder=False))
    add_inflating(draft, helium=frozenset({HELIUM}))
    if hanging:
        draft.add_task("tie ribbon", Decimal(ceiling.count), formula="{balloons}")
    add_handling(draft, bases=0)
    fill = lot.fills_cm[0]
    outline = outline_of(
        draft.parts, draft.hire, draft.prices, width_cm=max(fill, ceiling.width_cm), height_cm=fill + hanging,
        depth_cm=max(fill, ceiling.length_cm), rigid_cm=fill, volume_l=ceiling.count * fill**3 / 1000, net_lift_g=net)
    return draft.finished(FORM.name, outline)


def _add_count(draft: Draft, ceiling: Ceiling) -> None:
    if ceiling.is_counted:
        draft.step("balloons", "Balloons", ceiling.count, unit="balloons")
        return
    draft.length_step("width", "Width", ceiling.width_cm)
    draft.length_step("length", "Length", ceiling.length_cm)
    draft.length_step("spacing", "From balloon to balloon", ceiling.spacing_cm)
    width, length, spacing = (
        shown_length(cm, draft.unit) for cm in (ceiling.width_cm, ceiling.length_cm, ceiling.spacing_cm))
    draft.step("places", "Area ÷ square of the spacing", width * length / spacing**2,
               formula="{width}*{length}/{spacing}^2")
    draft.step("balloons", "Balloons", ceiling.count, unit="balloons", formula=nearest("{places}"),
               words="the nearest count, a tie takes more")


def _add_ribbons(draft: Draft, count: int, hanging_cm: float, is_charged: bool) -> None:
    roll = choose_roll(draft, "ribbon") if is_charged else None
    draft.length_step("ribbon length", "Length of a ribbon", hanging_cm)
    draft.length_step("ribbon in all", "Ribbon in all", count * hanging_cm, formula="{balloons}*{ribbon length}")
    part = None if roll is None else add_roll(
        draft, roll, "ribbon", length_cm=count * hanging_cm, length_key="ribbon in all", pieces_key="balloons",
        pieces=count)
    name = "Ribbons" if roll is None else roll.item
    layer = draft.add_layer(f"{name}: {count}, each {draft.long(hanging_cm)}", () if part is None else (part,))
    for p in draft.positions:
        low = p.y_cm - p.diameter_cm / 2
        draft.drawing.append(Stroke(points=((p.x_cm, low, p.z_cm), (p.x_cm, low - hanging_cm, p.z_cm)), width_cm=0.2,
                                    role="ribbon", layer=layer))


def _ceiling_height(draft: Draft) -> float:
    least = float(draft.decimal("ribbon_length") or 0) + 60
    return float(draft.decimal("height") or max(CEILING_CM, least))


def _positions(draft: Draft, lot: Lot, ceiling: Ceiling, layer: int) -> list[Position]:
    """Rows from front to back, each shifted aside, each balloon a little off its row, always by the same."""
    rows = max(1, round(ceiling.length_cm / ceiling.spacing_cm))
    rows = min(rows, ceiling.count)
    fill, top = lot.fills_cm[0], _ceiling_height(draft)
    found = []
    walk = list(lot.walk(ceiling.count))
    for row in range(rows):
        here = range(row * ceiling.count // rows, (row + 1) * ceiling.count // rows)
        aside = _off(row, ROW_SHIFT)
        for place, number in enumerate(here):
            balloon = walk[number][0]
            off = _off(number, 0.5698402910)
            room_x, room_z = max(0.0, ceiling.width_cm - fill), max(0.0, ceiling.length_cm - fill)
            found.append(Position(
                x_cm=((place + 0.5 + aside) / len(here) - 0.5) * room_x, y_cm=top - fill / 2,
                z_cm=(0.5 - (row + 0.5 + STRAY * off) / rows) * room_z,
                diameter_cm=fill, colour=balloon.colour, item=balloon.item, role=HELIUM, layer=layer,
                knot_degrees=270.0))
    return found


def _off(number: int, step: float) -> float:
    """Give a share from −0.5 to 0.5 that looks strewn, the same for the same number."""
    return (0.5 + number * step) % 1 - 0.5


FORM = Form(
    name="ceiling scatter",
    summary="Helium balloons that float loose under a ceiling, by area or by count.",
    fields=fields("width", "length", "count", "spacing", "height", "size", "fill", "colours*", "shares", "ribbon",
                  "ribbon_length", "accents", "accents_at"),
    plan=plan,
    example={"width": "10 ft", "length": "12 ft", "size": "11", "colours": "white, pink", "ribbon": "Balloon ribbon",
             "ribbon_length": "3 ft"},
)
