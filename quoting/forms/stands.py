"""What a piece stands on: base plate, pole, topper holder, frame. Named in the piece, or the usual one that fits."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

from quoting.domain.plans import HireNeed, Part
from quoting.domain.prices import Hardware
from quoting.forms.drafts import Draft
from quoting.forms.fields import NONE

FIELD_OF = {"base plate": "base", "pole": "pole", "frame": "frame", "net": "net"}
"""The field of the Pieces sheet that names a part of the Hardware sheet."""


def named_hardware(draft: Draft, part: str) -> Hardware | None:
    """Find the hardware a piece names for a part; None where it names none. Reports at its cell."""
    key = FIELD_OF[part]
    name = draft.text(key)
    if not name or name.casefold() == NONE:
        return None
    item = draft.prices.hardware_item(name)
    if item is None:
        draft.complain("P520", key, item=f'"{name}"', hint=", or none")
    elif item.part not in (part, "other"):
        draft.complain("P518", key, item=item.item, part=part, is_part=item.part)
    return item


def goes_without(draft: Draft, part: str) -> bool:
    """Tell whether the piece says "none" for a part."""
    return draft.text(FIELD_OF[part]).casefold() == NONE


def choose_base(draft: Draft) -> Hardware | None:
    """Give the base plate: the one named, else the usual one, else the first. Reports where there is none at all."""
    if draft.is_filled("base"):
        return named_hardware(draft, "base plate")
    found = _first(draft, "base plate", lambda _: True)
    if found is None:
        draft.complain("P519", "base", part="base plate")
    return found


def choose_pole(draft: Draft, needed_cm: float, room_cm: float) -> Hardware | None:
    """Give the pole: the one named, else the shortest usual one that fits, else the shortest that does.

    It fits when it is at least `needed_cm` long and thinner than `room_cm`. A named
    one of unknown length or diameter is taken at its owner's word.
    """
    if draft.is_filled("pole"):
        pole = named_hardware(draft, "pole")
        if pole is not None:
            _check_named_pole(draft, pole, needed_cm, room_cm)
        return pole

    def fits(pole: Hardware) -> bool:
        length, thickness = pole.length_cm, pole.diameter_cm or Decimal(0)
        return length is not None and float(length) >= needed_cm - 1e-6 and float(thickness) < room_cm

    found = _first(draft, "pole", fits)
    if found is None:
        draft.complain("P516", "pole", needed=draft.short(needed_cm), room=draft.short(room_cm))
    return found


def _check_named_pole(draft: Draft, pole: Hardware, needed_cm: float, room_cm: float) -> None:
    if pole.length_cm is not None and float(pole.length_cm) < needed_cm - 1e-6:
        draft.complain("P517", "pole", item=pole.item, is_what=f"{draft.short(pole.length_cm)} long",
                       needs=f"the piece needs {draft.short(needed_cm)}")
    check_room(draft, "pole", pole, room_cm)


def check_room(draft: Draft, key: str, item: Hardware, room_cm: float) -> None:
    """Report hardware that is too thick to pass through the smallest ring, at the cell that names it."""
    if item.diameter_cm is not None and float(item.diameter_cm) >= room_cm:
        draft.complain("P517", key, item=item.item, is_what=f"{draft.short(item.diameter_cm)} thick",
                       needs=f"the smallest ring leaves room for less than {draft.short(room_cm)}")


def _first(draft: Draft, part: str, fits: Callable[[Hardware], bool]) -> Hardware | None:
    """Give the best of the fitting: usual before others, then the shorter, then the earlier row of the sheet."""
    found = [item for item in draft.prices.hardware if item.part == part and fits(item)]
    return min(found, key=lambda item: (not item.is_usual, item.length_cm or Decimal(0)), default=None)


def usual_holder(draft: Draft) -> Hardware | None:
    """Give the usual topper holder; None where the Hardware sheet marks none as usual: toppers are then tied on."""
    holders = (item for item in draft.prices.hardware if item.part == "topper holder" and item.is_usual)
    return next(holders, None)


def add_hardware(
    draft: Draft, item: Hardware, count: int, role: str, cut_cm: float | None = None, *, formula: str = ""
) -> Part | None:
    """Add bought hardware as a part (which is given back) or hired hardware as a need of hire."""
    if item.is_hire:
        draft.add_hire(HireNeed(item=item.item, count=count, cut_cm=cut_cm), formula=formula)
        return None
    part = Part(item=item.item, count=count, role=role)
    draft.add_part(part, formula=formula)
    return part
