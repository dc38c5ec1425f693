"""Mass and room of a piece, for the van and for what it stands on."""

from __future__ import annotations

import math

from quoting.domain.measures import LITRES_PER_CUBIC_CM
from quoting.domain.plans import HireNeed, Outline, Part
from quoting.domain.prices import Balloon, PriceBook, Shape

# Grams of latex in one round by nominal inches, and in one twister by code: common practice, no source.
_ROUND_G = {5: 1.0, 9: 1.9, 11: 2.8, 12: 3.2, 16: 5.5, 24: 14.0, 36: 40.0}
_TWISTER_G = {160: 0.9, 260: 1.6, 350: 2.3, 646: 9.0}
_FOIL_G_PER_SQUARE_INCH = 0.03
"""Of the nominal size squared: two sheets of film of about 30 g per square metre; common practice, no source."""


def balloon_mass(balloon: Balloon) -> float:
    """Give the mass (g) of one balloon without its air: as the owner weighed it, else from a starting table.

    Between the sizes of the table it goes by area.
    """
    if balloon.mass_g is not None:
        return float(balloon.mass_g)
    if balloon.shape is Shape.FOIL:
        return _FOIL_G_PER_SQUARE_INCH * balloon.size**2
    if balloon.shape is Shape.TWISTER:
        nearest = min(_TWISTER_G, key=lambda size: abs(size - balloon.size))
        return _TWISTER_G[nearest]
    return _round_mass(balloon.size)


def _round_mass(size: int) -> float:
    """Between two sizes of the table the mass goes with the area, as it does from 0 and beyond the largest."""
    lower = max((known for known in _ROUND_G if known <= size), default=0)
    upper = min((known for known in _ROUND_G if known >= size), default=0)
    if lower == upper:
        return _ROUND_G[size]
    if not upper:
        return _ROUND_G[lower] * (size / lower) ** 2
    part = (size**2 - lower**2) / (upper**2 - lower**2)
    return _ROUND_G.get(lower, 0.0) * (1 - part) + _ROUND_G[upper] * part


def mass_of(parts: list[Part], hire: list[HireNeed], prices: PriceBook) -> float:
    """Give the mass (g) of all parts and hired hardware; hardware whose mass the sheet leaves out counts nothing."""
    total = 0.0
    counts = [(part.item, part.count) for part in parts] + [(need.item, need.count) for need in hire]
    for item, count in counts:
        balloon, hardware = prices.balloon(item), prices.hardware_item(item)
        if balloon is not None:
            total += count * balloon_mass(balloon)
        elif hardware is not None and hardware.mass_kg is not None:
            total += count * float(hardware.mass_kg) * 1000
    return total


def tube_volume(width_cm: float, length_cm: float) -> float:
    """Give the litres of room that a round piece of this width and length takes in the van."""
    return math.pi / 4 * width_cm**2 * length_cm * LITRES_PER_CUBIC_CM


def outline_of(
    parts: list[Part], hire: list[HireNeed], prices: PriceBook,
    *, width_cm: float, height_cm: float, depth_cm: float, rigid_cm: float, volume_l: float, net_lift_g: float = 0.0,
) -> Outline:
    """Gather an outline; air-filled pieces lift nothing."""
    return Outline(width_cm=width_cm, height_cm=height_cm, depth_cm=depth_cm, longest_rigid_cm=rigid_cm,
                   packed_volume_l=volume_l, mass_g=mass_of(parts, hire, prices), net_lift_g=net_lift_g)
