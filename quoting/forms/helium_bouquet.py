"""A helium bouquet: rounds and foils on ribbons, in tiers, held by a weight."""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import Decimal

from quoting.domain.drawings import Stroke
from quoting.domain.jobs import Piece
from quoting.domain.plans import Part, Plan, Position
from quoting.domain.prices import Balloon, PriceBook, Shape
from quoting.domain.problems import Outcome
from quoting.forms.attachments import Carrier, add_attachments, fill_of
from quoting.forms.bouquet_workings import PER_TIER, add_ribbon_steps, ribbon_lengths
from quoting.forms.drafts import HEADINGS, Draft
from quoting.forms.fields import fields
from quoting.forms.legged_arch import differ
from quoting.forms.lifts import HELIUM, add_lift
from quoting.forms.lots import Lot, add_lot_parts, lot_words, read_lot
from quoting.forms.outlines import outline_of
from quoting.forms.registry import Form
from quoting.forms.tasks import add_handling, add_inflating
from quoting.forms.tethers import add_roll, add_weights, choose_roll, choose_weight

Floating = tuple[Balloon, float]
"""A balloon with its fill in cm."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bouquet:
    """What floats, from the top down, and the longest ribbon (cm)."""

    foils: tuple[tuple[int, Balloon], ...]
    lot: Lot | None
    rounds: int
    longest_cm: float

    @property
    def floating(self) -> tuple[Floating, ...]:
        """Every balloon, foils first."""
        foils = [(foil, fill_of(foil)) for count, foil in self.foils for _ in range(count)]
        return (*foils, *(self.lot.walk(self.rounds) if self.lot is not None else ()))

    @property
    def top_cm(self) -> float:
        """Diameter of the largest balloon of the top tier."""
        return max(fill for _, fill in self.floating[:PER_TIER])

    @property
    def tier_fill_cm(self) -> float:
        """Diameter that the tiers are set apart by."""
        return self.lot.fills_cm[0] if self.lot is not None else max(fill for _, fill in self.floating)


def plan(piece: Piece, prices: PriceBook) -> Outcome[Plan | None]:
    """Work out one bouquet: its balloons, ribbons, lift, and the weight that holds it."""
    draft = Draft(piece, prices)
    foils, rounds = _read_foils(draft), draft.whole("count", 0) or 0
    if not rounds and not draft.is_filled("foils"):
        draft.complain("P558", "count", form=FORM.name, needs="a count of rounds, or foils", example="7")
    if rounds:
        draft.has_all("colours")
    else:
        draft.say_unused("without a count of rounds", "colours", "shares", "size", "fill")
    lot = read_lot(draft) if rounds and draft.is_filled("colours") else None
    total = rounds + sum(count for count, _ in foils)
    if draft.is_held or draft.is_slip(total, "count" if rounds else "foils", "balloons"):
        return draft.refused()
    bouquet = _with_ribbons(draft, foils, lot, rounds)
    return draft.refused() if bouquet is None else _built(draft, bouquet)


def _read_foils(draft: Draft) -> tuple[tuple[int, Balloon], ...]:
    found = []
    for amount in draft.items("foils"):
        if not isinstance(amount, tuple) or len(amount) != 2:
            continue
        count, name = int(amount[0]), str(amount[1])
        balloon = draft.prices.balloon(name)
        if balloon is None:
            draft.complain("P520", "foils", item=f'"{name}"', hint="")
        elif balloon.shape is not Shape.FOIL:
            draft.complain("P555", "foils", item=balloon.item)
        elif balloon.litres is None:
            draft.complain("P554", "foils", item=balloon.item)
        elif count > 0:
            found.append((count, balloon))
    return tuple(found)


def _with_ribbons(
    draft: Draft, foils: tuple[tuple[int, Balloon], ...], lot: Lot | None, rounds: int
) -> Bouquet | None:
    """Give the bouquet with its longest ribbon, typed or left over by the height; reports where neither is given."""
    height, ribbon = draft.decimal("height"), draft.decimal("ribbon_length")
    if height is None and ribbon is None:
        draft.complain("P558", "ribbon_length", form=FORM.name, needs="the length of its longest ribbon, or its height",
                       example="5 ft")
        return None
    bouquet = Bouquet(foils=foils, lot=lot, rounds=rounds, longest_cm=float(ribbon or 0))
    if height is None:
        return bouquet
    left = float(height) - bouquet.top_cm
    if ribbon is not None and differ(float(ribbon), left):
        draft.complain("P539", "ribbon_length", heading=HEADINGS["ribbon_length"], typed=draft.long(ribbon),
                       rule=f"a height of {draft.long(height)} leaves {draft.long(max(0.0, left))}")
        return None
    if left <= 0:
        draft.complain("P539", "height", heading=HEADINGS["height"], typed=draft.long(height),
                       rule=f"the top balloon alone is {draft.long(bouquet.top_cm)}")
        return None
    return Bouquet(foils=foils, lot=lot, rounds=rounds, longest_cm=left)


def _built(draft: Draft, bouquet: Bouquet) -> Outcome[Plan | None]:
    parts = _add_balloons(draft, bouquet)
    floating = bouquet.floating
    lengths = ribbon_lengths(len(floating), bouquet.longest_cm, bouquet.tier_fill_cm)
    add_ribbon_steps(draft, count=len(floating), parts=len(parts), longest_cm=bouquet.longest_cm,
                     top_cm=bouquet.top_cm, tier_fill_cm=bouquet.tier_fill_cm)
    net = add_lift(draft)
    factor = float(draft.prices.shop.weight_factor)
    draft.step("weight factor", "Weight for lift", factor, words="Shop sheet")
    draft.step("needed", "Weight that it needs", net * factor, unit="g", formula="{net lift}*{weight factor}")
    ribbon, weight = choose_roll(draft, "ribbon"), choose_weight(draft, net * factor)
    if weight is None or draft.is_held:
        return draft.refused()
    _describe(draft, bouquet, len(floating))
    words = ", ".join(f"{part.count} × {part.item} at {draft.short(part.fill_cm or 0)}" for part in parts)
    layer = draft.add_layer(f"Fill with helium: {words}", parts)
    ribbon_part = None if ribbon is None else add_roll(
        draft, ribbon, "ribbon", length_cm=sum(lengths), length_key="ribbon in all", pieces_key="floating",
        pieces=len(floating))
    tiers = f"the longest {draft.long(lengths[0])}, each tier of {PER_TIER} shorter, the last {draft.long(lengths[-1])}"
    tied = draft.add_layer(
        f"{'Ribbons' if ribbon is None else ribbon.item}: {len(floating)},"
        f" {tiers if len(lengths) > PER_TIER else f'each {draft.long(lengths[0])}'}",
        () if ribbon_part is None else (ribbon_part,))
    draft.positions += _positions(bouquet, lengths, layer)
    for position in draft.positions:
        foot = (0.0, 2.0, 0.0)
        knot = (position.x_cm, position.y_cm - position.diameter_cm / 2, position.z_cm)
        draft.drawing.append(Stroke(points=(foot, knot), width_cm=0.5, role="ribbon", layer=tied))
    add_weights(draft, weight, (0.0,), net * factor)
    return _finished(draft, bouquet, net)


def _finished(draft: Draft, bouquet: Bouquet, net_g: float) -> Outcome[Plan | None]:
    balls = [(p.x_cm, p.y_cm, p.z_cm, p.diameter_cm / 2) for p in draft.positions]
    width, depth = (
        max(ball[axis] + ball[3] for ball in balls) - min(ball[axis] - ball[3] for ball in balls) for axis in (0, 2))
    height_cm = bouquet.longest_cm + bouquet.top_cm
    add_attachments(draft, Carrier(
        length_cm=height_cm, width_cm=width, top_cm=height_cm, length_key="built height", width_key="tier fill",
        point_at=lambda share: (0.0, height_cm * share, math.pi / 2), has_holder=False,
        topper_share=0.9))
    add_inflating(draft, helium=frozenset({HELIUM}))
    draft.add_task("tie ribbon", Decimal(len(bouquet.floating)), formula="{floating}")
    add_handling(draft, bases=0)
    outline = outline_of(
        draft.parts, draft.hire, draft.prices, width_cm=width, height_cm=height_cm, depth_cm=depth,
        rigid_cm=bouquet.tier_fill_cm, volume_l=sum(fill**3 for _, fill in bouquet.floating) / 1000, net_lift_g=net_g)
    return draft.finished(FORM.name, outline)


def _add_balloons(draft: Draft, bouquet: Bouquet) -> tuple[Part, ...]:
    parts = []
    for count, foil in bouquet.foils:
        part = Part(item=foil.item, count=count, role=HELIUM, colour=foil.colour, fill_cm=fill_of(foil))
        draft.add_part(part)
        parts.append(part)
    if bouquet.lot is None:
        return tuple(parts)
    draft.step("balloons", "Rounds", bouquet.rounds, unit="balloons")
    return (*parts, *add_lot_parts(draft, bouquet.lot, of="balloons", count=bouquet.rounds, role=HELIUM))


def _describe(draft: Draft, bouquet: Bouquet, count: int) -> None:
    height = draft.long(bouquet.longest_cm + bouquet.top_cm)
    draft.description.append(f"Helium bouquet of {count} balloons, {height} high")
    if bouquet.lot is not None:
        draft.description.append(lot_words(bouquet.lot))
    if bouquet.foils:
        draft.description.append("Foils: " + ", ".join(f"{count} × {foil.item}" for count, foil in bouquet.foils))


def _positions(bouquet: Bouquet, lengths: tuple[float, ...], layer: int) -> list[Position]:
    """Tiers of three, each turned by a sixth of a circle, its balloons side by side; of two both show."""
    floating, found = bouquet.floating, []
    for start in range(0, len(floating), PER_TIER):
        tier = floating[start : start + PER_TIER]
        across = max(fill for _, fill in tier)
        radius = across / (2 * math.sin(math.pi / len(tier))) if len(tier) > 1 else 0.0
        for place, (balloon, fill) in enumerate(tier):
            turned = 0.0 if len(tier) == 2 else math.pi / 2 + (start // PER_TIER) * math.pi / PER_TIER
            angle = turned + 2 * place * math.pi / len(tier)
            found.append(Position(
                x_cm=radius * math.cos(angle), y_cm=lengths[start + place] + fill / 2, z_cm=radius * math.sin(angle),
                diameter_cm=fill, colour=balloon.colour, item=balloon.item, role=HELIUM, layer=layer,
                knot_degrees=270.0))
    return found


FORM = Form(
    name="helium bouquet",
    summary="Helium rounds and foils on ribbons, held by a weight.",
    fields=fields("count", "size", "fill", "colours", "shares", "foils", "height", "ribbon", "ribbon_length", "accents",
                  "accents_at", "weight"),
    plan=plan,
    example={"count": "5", "size": "11", "colours": "white, pink", "foils": "1 x Foil star gold",
             "ribbon": "Balloon ribbon", "ribbon_length": "5 ft"},
)
