"""Toppers, accents and wraps: what is tied on any built piece."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from decimal import Decimal

from quoting.domain.counts import rounded_up
from quoting.domain.measures import shown_length
from quoting.domain.plans import Part, Position
from quoting.domain.prices import Balloon, Hardware, Shape
from quoting.forms.drafts import Draft
from quoting.forms.drawn_accents import accent_width, draw_accent, draw_wound
from quoting.forms.formulas import rounded_up as rounded_up_formula
from quoting.forms.stands import add_hardware, usual_holder
from quoting.geometry.helix import helix_point, strand_length

Point = tuple[float, float, float]

Tied = tuple[Balloon | Hardware, str]
"""One thing that is tied on, and the place it is tied at."""

CHORDS = 24
"""Straight pieces that one wound twister is drawn with."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Carrier:
    """What things are tied to. `length_cm` runs from foot to top (along an arch), `width_cm` is overall.

    `point_at` gives the middle of the piece after a share of its length (x, y in cm,
    direction in radians), None where the form draws nothing. `length_key` and
    `width_key` name the earlier workings; `top_cm` is the height a topper sits on.
    """

    length_cm: float
    width_cm: float
    top_cm: float
    length_key: str
    width_key: str
    point_at: Callable[[float], Point] | None = None
    has_holder: bool = True
    topper_share: float = 0.5
    """Share of the length over which a topper without a holder sits."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TopperSize:
    """Width, height and depth (cm) of a piece's topper; all 0 without one."""

    width_cm: float = 0.0
    height_cm: float = 0.0
    depth_cm: float = 0.0


def topper_size(draft: Draft) -> TopperSize:
    """Give the size of the topper asked for; reports nothing, `add_attachments` does."""
    name = draft.text("topper")
    balloon, hardware = draft.prices.balloon(name), draft.prices.hardware_item(name)
    if balloon is not None:
        fill = float(draft.decimal("topper_fill") or fill_of(balloon))
        return TopperSize(width_cm=fill, height_cm=fill, depth_cm=fill if balloon.shape is Shape.ROUND else 0.0)
    if hardware is None:
        return TopperSize()
    wide, high = float(hardware.diameter_cm or 0), float(hardware.length_cm or hardware.diameter_cm or 0)
    return TopperSize(width_cm=wide, height_cm=high)


def tall_words(draft: Draft, height_cm: float) -> str:
    """Say how tall a piece is for the client: "4 ft 10 in tall", and with its topper where it has one."""
    topper = topper_size(draft).height_cm
    with_topper = f", {draft.long(height_cm + topper)} with its topper" if topper else ""
    return f"{draft.long(height_cm)} tall{with_topper}"


def add_attachments(draft: Draft, carrier: Carrier | None) -> float:
    """Add topper, accents and wrap with their tasks, layers and positions; gives the height (cm) the topper adds.

    `carrier` None: the piece has no known length and width, and takes no wrap.
    """
    added = _add_topper(draft, carrier)
    _add_accents(draft, carrier)
    _add_wrap(draft, carrier)
    return added


def item_named(draft: Draft, name: str, key: str) -> Balloon | Hardware | None:
    """Find an item in the Balloons or Hardware sheet; reports at its cell where it is in neither."""
    found = draft.prices.balloon(name) or draft.prices.hardware_item(name)
    if found is None:
        draft.complain("P520", key, item=f'"{name}"', hint="")
    return found


def fill_of(balloon: Balloon) -> float:
    """Give the diameter (cm) a balloon is inflated to where nobody says: its usual fill, else its nominal size."""
    return float(balloon.usual_fill_cm or balloon.size_cm)


def _add_topper(draft: Draft, carrier: Carrier | None) -> float:
    name = draft.text("topper")
    if not name:
        draft.say_unused("without a topper", "topper_fill")
        return 0.0
    item = item_named(draft, name, "topper")
    if item is None:
        return 0.0
    if isinstance(item, Hardware):
        draft.say_unused("with a topper that is no balloon", "topper_fill")
    fill = _topper_fill(draft, item)
    part = _add_item(draft, item, 1, "topper", fill)
    holder = usual_holder(draft) if carrier is not None and carrier.has_holder else None
    held = add_hardware(draft, holder, 1, "topper holder") if holder is not None else None
    on = f" on {holder.item}" if holder is not None else ""
    layer = draft.add_layer(f"Topper: {item.item}{on}", tuple(p for p in (part, held) if p is not None))
    draft.description.append(f"Topper: {item.item}")
    if isinstance(item, Balloon) and carrier is not None and carrier.point_at is not None:
        x, _, _ = carrier.point_at(1.0 if carrier.has_holder else carrier.topper_share)
        draft.positions.append(_position(item, (x, carrier.top_cm + fill / 2, 0.0), fill, "topper", layer))
    draft.add_task("attach topper", Decimal(1))
    return fill


def _topper_fill(draft: Draft, item: Balloon | Hardware) -> float:
    if isinstance(item, Hardware):
        return float(item.length_cm or item.diameter_cm or 0)
    typed = draft.decimal("topper_fill")
    if typed is None:
        return fill_of(item)
    if typed > item.size_cm:
        draft.complain("P502", "topper_fill", fill=draft.short(typed), size=item.size)
    return float(typed)


def _add_item(draft: Draft, item: Balloon | Hardware, count: int, role: str, fill_cm: float) -> Part | None:
    if isinstance(item, Hardware):
        return add_hardware(draft, item, count, role)
    part = Part(item=item.item, count=count, role=role, colour=item.colour, fill_cm=fill_cm)
    draft.add_part(part)
    return part


def _position(item: Balloon, at: Point, diameter_cm: float, role: str, layer: int) -> Position:
    return Position(x_cm=at[0], y_cm=at[1], z_cm=at[2], diameter_cm=diameter_cm, colour=item.colour,
                    item=item.item, role=role, layer=layer)


def _add_accents(draft: Draft, carrier: Carrier | None) -> None:
    amounts = [amount for amount in draft.items("accents") if isinstance(amount, tuple) and len(amount) == 2]
    places = accent_places(draft, len(amounts))
    found = [(int(count), item_named(draft, str(name), "accents"), place)
             for (count, name), place in zip(amounts, places, strict=True)]
    chosen = [(count, item, place) for count, item, place in found if item is not None and count > 0]
    if not chosen or draft.is_slip(sum(count for count, _, _ in chosen), "accents", "accents"):
        return
    parts: list[Part] = []
    kinds: list[list[Tied]] = []
    keys: list[str] = []
    for count, item, place in chosen:
        part = _add_item(draft, item, count, "accent", fill_of(item) if isinstance(item, Balloon) else 0.0)
        parts += [part] if part is not None else []
        kinds.append([(item, place)] * count)
        keys.append(f"hire {len(draft.hire)}" if part is None else f"part {len(draft.parts)}")
    words = ", ".join(f"{count} × {item.item}" for count, item, _ in chosen)
    at = ", ".join(dict.fromkeys(place for _, _, place in chosen))
    where = f" ({at})" if draft.is_filled("accents_at") else ""
    layer = draft.add_layer(f"Accents, tied on{where}: {words}", tuple(parts))
    draft.description.append(f"Accents: {words}")
    draft.add_task("attach accent", Decimal(sum(count for count, _, _ in chosen)),
                   formula="+".join("{" + key + "}" for key in keys))
    if carrier is not None and carrier.point_at is not None:
        _place_accents(draft, carrier, taking_turns(kinds), layer)


def taking_turns(kinds: list[list[Tied]]) -> list[Tied]:
    """Put things of several kinds into one row, each kind spread evenly over it."""
    spread = [((number + 0.5) / len(things), kind, thing)
              for kind, things in enumerate(kinds) for number, thing in enumerate(things)]
    return [thing for _, _, thing in sorted(spread, key=lambda each: each[:2])]


def accent_places(draft: Draft, accents: int) -> tuple[str, ...]:
    """Give the place of each accent of the list: one typed for all, or one for each; reports where they don't match."""
    typed = tuple(str(place) for place in draft.items("accents_at"))
    if not accents:
        draft.say_unused("without accents", "accents_at")
        return ()
    if len(typed) > 1 and len(typed) != accents:
        draft.complain("P557", "accents_at", places=len(typed), accents=accents)
        return ("along",) * accents
    return typed if len(typed) == accents else (typed or ("along",)) * accents


def _place_accents(draft: Draft, carrier: Carrier, tied: list[Tied], layer: int) -> None:
    """Draw what is tied on: along the piece at even distances, or side by side at its foot, middle or top."""
    # Along, balloons and other things are spread each by themselves, so that hung ribbons don't push foils aside.
    for place in dict.fromkeys(place for _, place in tied):
        here = [item for item, its in tied if its == place]
        balloons = [item for item in here if isinstance(item, Balloon)]
        others = [item for item in here if isinstance(item, Hardware)]
        for balloon, (x, y) in zip(balloons, _spots(carrier, place, [fill_of(one) for one in balloons]), strict=True):
            fill = fill_of(balloon)
            draft.positions.append(_position(balloon, (x, y, (carrier.width_cm + fill) / 2), fill, "accent", layer))
        for other, (x, y) in zip(others, _spots(carrier, place, [accent_width(one) for one in others]), strict=True):
            draw_accent(draft, other, (x, y, carrier.width_cm / 2 + 1), layer)


def _spots(carrier: Carrier, place: str, widths: list[float]) -> list[tuple[float, float]]:
    """Give x and y (cm) of things of these widths at a place of the piece."""
    assert carrier.point_at is not None
    shares = {"foot": 0.04, "middle": 0.5, "top": 0.96 if carrier.has_holder else carrier.topper_share}
    spots = []
    has_two_feet = place == "foot" and carrier.point_at(1.0)[1] <= carrier.point_at(0.0)[1] + 1.0
    for number in range(len(widths)):
        share = shares.get(place, (number + 0.5) / len(widths))
        if has_two_feet and number % 2:
            share = 1.0 - share
        x, y, _ = carrier.point_at(share)
        step, count = (number // 2, (len(widths) + 1 - number % 2) // 2) if has_two_feet else (number, len(widths))
        aside = 0.0 if place == "along" else (step - (count - 1) / 2) * 0.8 * max(widths)
        spots.append((x + aside, y))
    return spots


def _add_wrap(draft: Draft, carrier: Carrier | None) -> None:
    name = draft.text("wrap")
    if not name:
        draft.say_unused("without a wrap", "wrap_turns")
        return
    item, turns = item_named(draft, name, "wrap"), draft.decimal("wrap_turns")
    if turns is None:
        draft.complain("P533", "wrap_turns")
    if item is None or turns is None:
        return
    usable_cm = _usable_length(draft, item)
    if not usable_cm:
        draft.complain("P534", "wrap", item=item.item)
        return
    if carrier is None:
        missing = [word for word in ("height", "width") if not draft.is_filled(word)]
        draft.complain("P536", missing[0] if missing else "wrap", heading=" and ".join(missing) or "the measures")
        return
    _wind(draft, carrier, item, float(turns), usable_cm)


def _usable_length(draft: Draft, item: Balloon | Hardware) -> float:
    """Length (cm) that one piece of a wrap covers; 0 for what can't be wound."""
    if isinstance(item, Balloon):
        return usable_twister_length(draft, item) if item.shape is Shape.TWISTER else 0.0
    return 0.0 if item.is_hire else float(item.length_cm or 0)


def usable_twister_length(draft: Draft, twister: Balloon) -> float:
    """Give the length (cm) an inflated twister covers: nominal × fill share × stretch (Shop sheet)."""
    shop = draft.prices.shop
    return float(twister.twister_length_cm * shop.twister_fill_share * shop.twister_stretch)


def add_usable_steps(draft: Draft, twister: Balloon, name: str) -> None:
    """Add the workings of a twister's usable length, the last under the key "`name` usable length"."""
    shop = draft.prices.shop
    draft.length_step(f"{name} nominal length", f"Nominal length of {twister.item}", twister.twister_length_cm)
    draft.step(f"{name} fill share", "Share filled", float(shop.twister_fill_share), words="Shop sheet")
    draft.step(f"{name} stretch", "Stretch", float(shop.twister_stretch), words="Shop sheet")
    draft.length_step(f"{name} usable length", "Length one twister covers", usable_twister_length(draft, twister),
                      formula=f"{{{name} nominal length}}*{{{name} fill share}}*{{{name} stretch}}")


def _wind(draft: Draft, carrier: Carrier, item: Balloon | Hardware, turns: float, usable_cm: float) -> None:
    tube_cm = float(item.size_cm) if isinstance(item, Balloon) else 0.0
    radius = (carrier.width_cm + tube_cm) / 2
    length = strand_length(carrier.length_cm, radius, turns)
    count = rounded_up(length / usable_cm)
    if draft.is_slip(count, "wrap_turns", "pieces of a wrap"):
        return
    draft.step("wrap turns", "Turns of the wrap", turns, unit="turns")
    draft.length_step("wrap tube", "Thickness of the wrap", tube_cm)
    draft.length_step("wrap radius", "Axis to the middle of the wrap", radius,
                      formula=f"({{{carrier.width_key}}}+{{wrap tube}})/2")
    draft.length_step("wrap length", "Length of the wrap", length, words="a helix round the piece",
                      formula=f"SQRT({{{carrier.length_key}}}^2+(2*PI()*{{wrap radius}}*{{wrap turns}})^2)")
    if isinstance(item, Balloon):
        add_usable_steps(draft, item, "wrap")
    else:
        draft.length_step("wrap usable length", "Length of one piece", usable_cm)
    draft.step("wraps unrounded", "Pieces of the wrap, not rounded",
               shown_length(length, draft.unit) / shown_length(usable_cm, draft.unit),
               formula="{wrap length}/{wrap usable length}")
    fill = tube_cm if isinstance(item, Balloon) else None
    colour = item.colour if isinstance(item, Balloon) else ""
    part = Part(item=item.item, count=count, role="wrap", colour=colour, fill_cm=fill)
    draft.add_part(part, formula=rounded_up_formula("{wraps unrounded}"), words="whole ones")
    around = f"{turns:g} turn{'s' * (turns != 1)}"
    layer = draft.add_layer(f"Wrap from top to foot, {around}: {count} × {item.item}", (part,))
    draft.description.append(f"Wrap: {item.item}")
    draft.add_task("attach wrap", Decimal(1))
    if isinstance(item, Balloon) and carrier.point_at is not None:
        for number in range(count):
            path = tuple(_wound_point(carrier, radius, turns, share) for share in shares_of(number, count))
            place = _position(item, path[len(path) // 2], tube_cm, "wrap", layer)
            draft.positions.append(replace(place, path=path))
    elif carrier.point_at is not None:
        chords = max(CHORDS, round(CHORDS * turns))
        draw_wound(draft, tuple(_wound_point(carrier, radius, turns, n / chords) for n in range(chords + 1)), layer)


def shares_of(number: int, count: int) -> tuple[float, ...]:
    """Give the shares (0 to 1) of a wound line at which one of its `count` equal pieces is drawn."""
    return tuple((number + chord / CHORDS) / count for chord in range(CHORDS + 1))


def _wound_point(carrier: Carrier, radius: float, turns: float, share: float) -> Point:
    assert carrier.point_at is not None
    x, y, direction = carrier.point_at(share)
    across, _, depth = helix_point(0.0, radius, turns, share)
    return x + across * math.sin(direction), y - across * math.cos(direction), depth
