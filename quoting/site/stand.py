"""Does a piece stand in the wind, and what holds it? SI units; for planning only."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import ceil, dist

from quoting.domain.counts import rounded_up
from quoting.domain.flags import Figure
from quoting.domain.jobs import Piece
from quoting.domain.plans import Outline, Plan, Position
from quoting.domain.prices import PriceBook, Shop
from quoting.geometry.silhouettes import Ball, silhouette
from quoting.site.lookout import Lookout, base_plates
from quoting.site.stand_workings import Standing, add_force, add_standing, add_wind
from quoting.site.wind import Hold, Sail, Wind, beaufort, force_n
from quoting.site.words import force_words, length_figure, mass_figure, speed_figure, speed_words

SLICES = 12
"""Of the silhouette, to the height of its smallest balloon."""
HAIR = 1e-9
"""Float noise of a mass in kg."""
FLAT_SHARE = 0.8
"""A piece that fills this much of its width × height, and is wider than twice its depth, is flat; our own choice."""


def check_stand(look: Lookout) -> None:
    """Flag what the wind does to pieces outdoors or in a draught.

    The wind limit is a mean wind as forecasts give it, so its gusts push; a draught is
    taken as it is. P710 and P713 are notes, P711, P712 and P715 flags only.
    """
    job, shop = look.job, look.shop
    standing = [(n, piece, plan, plan.outline) for n, (piece, plan) in enumerate(look.plans, 1)
                if plan.outline is not None and plan.outline.height_cm > 0 and plan.outline.width_cm > 0]
    if not standing or not (job.is_outdoors or job.is_draughty):
        return
    wind = Wind(mean_m_s=float(shop.wind_limit), gust_factor=float(shop.gust_factor))
    if not job.is_outdoors:
        wind = Wind(mean_m_s=float(shop.draught), gust_factor=1.0)
    add_wind(look, wind)
    if job.is_outdoors:
        _say_when_to_take_down(look, wind)
    for number, piece, plan, outline in standing:
        sail = sail_of(plan, outline, look.shop)
        add_force(look, number, piece.label, sail, wind)
        _check_piece(look, (number, piece, plan), sail, wind)


def _say_when_to_take_down(look: Lookout, wind: Wind) -> None:
    force, name = beaufort(wind.mean_m_s)
    limit, gusts = (speed_words(speed, look.shop.distance_unit) for speed in (wind.mean_m_s, wind.gust_m_s))
    figures = (speed_figure("wind limit", wind.mean_m_s, look.shop), speed_figure("gusts", wind.gust_m_s, look.shop))
    facts = {"limit": limit, "force": force, "name": name, "gusts": gusts}
    look.flag("P715", None, facts, figures=figures, is_for_client=True)
    look.tell_client("caution_wind", speed=limit, name=name)


def _check_piece(look: Lookout, planned: tuple[int, Piece, Plan], sail: Sail, wind: Wind) -> None:
    number, piece, plan = planned
    shop, plates, newton = look.shop, base_plates(plan, look.prices), force_n(sail, wind.gust_m_s)
    push = Figure(label="push of the wind", value=newton, unit="N", shown=f"{rounded_up(newton)} N")
    if not plates:
        limit, force = speed_words(wind.mean_m_s, shop.distance_unit), force_words(newton, shop.length_unit)
        look.flag("P712", piece, {"limit": limit, "force": force}, figures=(push,))
        return
    unmeasured = next((plate for plate in plates if plate.diameter_cm is None), None)
    if unmeasured is not None:
        look.complain("P713", piece, "base", {"item": unmeasured.item, "other": unmeasured.place}, figures=(push,))
        return
    base_cm = min(float(plate.diameter_cm or 0) for plate in plates)
    hold = Hold(mass_kg=_mass_kg(plan), base_m=base_cm / 100, friction=float(shop.friction),
                safety=float(shop.safety_factor))
    standing = Standing(number=number, label=piece.label, sail=sail, hold=hold, wind=wind)
    add_standing(look, standing)
    figures = (push, length_figure("base", base_cm, shop), mass_figure("own mass", hold.mass_kg, shop))
    _judge(look, piece, standing, figures)


def _judge(look: Lookout, piece: Piece, standing: Standing, figures: tuple[Figure, ...]) -> None:
    shop, holds, missing = look.shop, standing.holds_m_s, standing.ballast_kg
    figures = (*figures, speed_figure("stands to", holds, shop))
    words: dict[str, object] = {
        "limit": speed_words(standing.wind.mean_m_s, shop.distance_unit),
        "holds": speed_words(holds, shop.distance_unit),
    }
    if missing > HAIR:
        ballast = mass_figure("ballast to add", missing, shop)
        weights = _weights_words(look.prices, missing)
        look.complain("P710", piece, "base", {**words, "ballast": ballast.shown, "weights": weights},
                      figures=(*figures, ballast))
        return
    force, name = beaufort(holds)
    advice = f"take it down at {words['limit']}" if look.job.is_outdoors else "keep it out of stronger draughts"
    look.flag("P711", piece, {**words, "force": force, "name": name, "advice": advice}, figures=figures)


def _mass_kg(plan: Plan) -> float:
    """Mass of the whole piece, less what helium lifts of it."""
    outline = plan.outline
    return 0.0 if outline is None else max(0.0, outline.mass_g - max(0.0, outline.net_lift_g)) / 1000


def _weights_words(prices: PriceBook, missing_kg: float) -> str:
    """Say how many of the heaviest weight of the Hardware sheet make up for what is missing; "" where it has none."""
    weights = [(item.mass_kg, item.item) for item in prices.hardware if item.part == "weight" and item.mass_kg]
    if not weights:
        return ""
    kg, item = max(weights)
    return f", e.g. {rounded_up(missing_kg / float(kg))} × {item},"


def sail_of(plan: Plan, outline: Outline, shop: Shop) -> Sail:
    """Give what the wind pushes at: the silhouette of a piece's balloons from the front, or width × height without any.

    Gaps narrower than its widest balloon count as closed. From the front an arch or
    wall has its largest area and tips over its shallow side; a column is alike from
    all sides.
    """
    box_cm2 = outline.width_cm * outline.height_cm
    widths = [position.diameter_cm for position in plan.positions] or [1.0]
    area, middle = silhouette(_balls(plan.positions), min(widths) / SLICES, max(widths))
    if not area:
        area, middle = box_cm2, outline.height_cm / 2
    is_flat = area >= FLAT_SHARE * box_cm2 and outline.width_cm > 2 * outline.depth_cm
    drag = shop.drag_flat if is_flat else shop.drag
    return Sail(drag=float(drag), area_m2=area / 10_000, arm_m=middle / 100)


def _balls(positions: tuple[Position, ...]) -> Iterator[Ball]:
    """Every balloon as a ball; a long one as balls along its middle line, half overlapping."""
    for position in positions:
        if len(position.path) < 2:
            yield position.x_cm, position.y_cm, position.diameter_cm
            continue
        for start, end in pairwise(position.path):
            count = max(1, ceil(2 * dist(start, end) / position.diameter_cm))
            for place in range(count + 1):
                share = place / count
                yield (start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share,
                       position.diameter_cm)
