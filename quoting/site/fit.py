"""Does a piece go in, and under the ceiling? Lengths in cm."""

from __future__ import annotations

from decimal import Decimal
from math import hypot, inf

from quoting.domain.jobs import Piece
from quoting.domain.measures import length_words
from quoting.domain.places import Place
from quoting.domain.plans import Outline, Plan
from quoting.site.cautions import HIGH_CM
from quoting.site.lookout import Lookout, base_plates
from quoting.site.words import length_figure

SPRINKLERS_CM = 45.72
"""18 in below the deflector; NFPA 13, as stated by several universities' and insurers' safety pages."""
UNSPRINKLERED_CM = 60.96
"""24 in below the ceiling where there are no sprinklers; North American fire code, by a university's guide."""
HAIR = 1e-6
"""Float noise of a length."""
STIFF_SHARE = 0.5
"""A piece whose longest stiff part is at least this share of its height is stood up as one; our own choice."""


def check_fit(look: Lookout) -> None:
    """Flag pieces that don't fit under the ceiling, through the door or round the corners, as far as these are known.

    P701 holds the job, P702, P703 and P705 to P707 are notes, P704 and P708 flags only.
    """
    for number, (piece, plan) in enumerate(look.plans, 1):
        if plan.outline is not None and plan.outline.height_cm > 0:
            _check_ceiling(look, number, piece, plan, plan.outline)
            _check_door(look, piece, plan.outline)
            _check_way(look, piece, plan.outline)
    _ask_for_ceiling(look)


def _check_ceiling(look: Lookout, number: int, piece: Piece, plan: Plan, outline: Outline) -> None:
    if look.job.ceiling_cm is None:
        return
    ceiling, height = float(look.job.ceiling_cm), outline.height_cm
    left = ceiling - height
    look.given("ceiling", "Ceiling", ceiling, unit="cm", words="Jobs sheet")
    look.given(f"height {number}", f"Built height of piece {piece.label}", height, unit="cm")
    look.step(f"left {number}", f"Left above piece {piece.label}", left, f"{{ceiling}}-{{height {number}}}", unit="cm")
    other = look.job.where("ceiling")
    figures = tuple(
        length_figure(label, cm, look.shop) for label, cm in (("ceiling", ceiling), ("height", height))
    )
    if left < -HAIR:
        told = {"height": _long(look, height), "ceiling": _long(look, ceiling), "other": other}
        look.complain("P701", piece, "height", told, figures=figures)
        return
    figures = (*figures, length_figure("left above", left, look.shop))
    wanted, free = float(look.shop.ceiling_clearance_cm), {"left": _long(look, left)}
    if look.job.has_sprinklers and left < SPRINKLERS_CM - HAIR:
        look.complain("P703", piece, "height", {**free, "other": other}, figures=figures, is_for_client=True)
        look.tell_client("caution_sprinklers", piece=piece.title or piece.form)
    elif left < wanted - HAIR and not outline.is_to_ceiling:
        told = {**free, "other": other, "wanted": _long(look, wanted)}
        look.complain("P702", piece, "height", told, figures=figures)
    elif look.job.has_sprinklers is False and left < UNSPRINKLERED_CM - HAIR:
        look.flag("P704", piece, free, figures=figures)
    _check_standing_up(look, number, piece, plan, outline)


def _check_standing_up(look: Lookout, number: int, piece: Piece, plan: Plan, outline: Outline) -> None:
    """A column built lying down turns on the edge of its foot: the diagonal of height and foot must go under."""
    plates = base_plates(plan, look.prices)
    if len(plates) != 1 or outline.longest_rigid_cm < STIFF_SHARE * outline.height_cm:
        return
    foot, ceiling = max(float(plates[0].diameter_cm or 0), outline.depth_cm), float(look.job.ceiling_cm or 0)
    diagonal = hypot(outline.height_cm, foot)
    look.given(f"foot {number}", f"Foot of piece {piece.label}", foot, unit="cm",
               words="base plate or balloons, the wider of the two")
    look.step(f"diagonal {number}", f"Height of piece {piece.label} on its edge", diagonal,
              f"SQRT({{height {number}}}^2+{{foot {number}}}^2)", unit="cm")
    if diagonal > ceiling + HAIR:
        facts = {"diagonal": _long(look, diagonal), "ceiling": _long(look, ceiling)}
        look.complain("P705", piece, "height", {**facts, "other": look.job.where("ceiling")},
                      figures=(length_figure("on its edge", diagonal, look.shop),))


def _check_door(look: Lookout, piece: Piece, outline: Outline) -> None:
    """Carried lengthways, the two smaller measures must go through, either way round."""
    job = look.job
    width, height = job.door_width_cm, job.door_height_cm
    if width is None and height is None:
        return
    across, along, _ = sorted((outline.width_cm, outline.height_cm, outline.depth_cm))
    narrow, wide = sorted((_or_endless(width), _or_endless(height)))
    if across <= narrow + HAIR and along <= wide + HAIR:
        return
    figures = (length_figure("across", across, look.shop), length_figure("the other way", along, look.shop))
    facts = {"across": f"{_long(look, across)} by {_long(look, along)}", "door": _door_words(look)}
    look.complain("P706", piece, "piece", {**facts, "other": _door_place(look)}, figures=figures)


def _or_endless(cm: Decimal | None) -> float:
    return inf if cm is None else float(cm)


def _door_words(look: Lookout) -> str:
    pairs = ((look.job.door_width_cm, "wide"), (look.job.door_height_cm, "high"))
    return " and ".join(f"{_long(look, float(cm))} {way}" for cm, way in pairs if cm is not None)


def _door_place(look: Lookout) -> Place:
    return look.job.where("door_height" if look.job.door_width_cm is None else "door_width")


def _check_way(look: Lookout, piece: Piece, outline: Outline) -> None:
    way = look.job.way_length_cm
    if way is None or outline.longest_rigid_cm <= float(way) + HAIR:
        return
    figures = (length_figure("stiff part", outline.longest_rigid_cm, look.shop),)
    facts = {"rigid": _long(look, outline.longest_rigid_cm), "way": _long(look, float(way))}
    look.complain("P707", piece, "piece", {**facts, "other": look.job.where("way_length")}, figures=figures)


def _ask_for_ceiling(look: Lookout) -> None:
    """Indoors, for pieces over 2 m that we set up, when nobody has said how high the ceiling is."""
    job = look.job
    outlines = [plan.outline for _, plan in look.plans if plan.outline is not None]
    tallest = max((outline.height_cm for outline in outlines), default=0.0)
    if job.ceiling_cm is not None or job.is_outdoors or job.is_collected or tallest <= HIGH_CM:
        return
    free = float(look.shop.ceiling_clearance_cm)
    needed = max(outline.height_cm + (0.0 if outline.is_to_ceiling else free) for outline in outlines)
    figure = length_figure("ceiling needed", needed, look.shop)
    look.flag("P708", None, {"height": figure.shown}, figures=(figure,), is_for_client=True)
    look.tell_client("caution_ceiling", height=figure.shown)


def _long(look: Lookout, cm: float) -> str:
    return length_words(cm, look.shop.length_unit)
