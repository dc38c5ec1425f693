"""Helium: the gas in a piece, what it lifts, and the weight that holds it, with their workings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from quoting.domain.measures import CM_PER_INCH
from quoting.domain.prices import Balloon, Shape
from quoting.forms.drafts import Draft
from quoting.forms.formulas import kept, total
from quoting.forms.outlines import balloon_mass
from quoting.geometry.gas import (
    BAROMETRIC_POWER,
    EARTH_RADIUS_M,
    GAS_CONSTANT,
    LAPSE_K_PER_M,
    MOLAR_AIR_G,
    MOLAR_HELIUM_G,
    SEA_LEVEL_KPA,
    STANDARD_KELVIN,
    ZERO_CELSIUS_KELVIN,
    air_pressure,
    gas_density,
    round_litres,
)

HELIUM = "helium"
"""Role of balloons that are filled with it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Floater:
    """Balloons of one item filled with helium; `part_key` is the step of their count."""

    balloon: Balloon
    fill_cm: float
    count: int
    part_key: str


def floaters_of(draft: Draft) -> tuple[Floater, ...]:
    """Give the parts that are filled with helium."""
    found = []
    for number, part in enumerate(draft.parts, 1):
        balloon = draft.prices.balloon(part.item)
        if part.role == HELIUM and balloon is not None and part.fill_cm is not None:
            found.append(Floater(balloon=balloon, fill_cm=part.fill_cm, count=part.count, part_key=f"part {number}"))
    return tuple(found)


def add_lift(draft: Draft) -> float:
    """Add the workings of gas and lift of the helium parts; gives the net lift (g) under the key "net lift".

    Litres of rounds are all the sheet's or all worked out from the fill, never mixed. Ribbons, lines and
    what is tied on are left out, on the safe side for the weight. Reports balloons that don't float at
    the cell of the fill, or of the foils.
    """
    floaters = floaters_of(draft)
    by_sheet = _goes_by_sheet(draft, floaters)
    air, helium = _add_densities(draft)
    litres, grams = [], []
    for number, floater in enumerate(floaters, 1):
        volume = _add_litres(draft, number, floater, is_measured=by_sheet or floater.balloon.shape is Shape.FOIL)
        mass = balloon_mass(floater.balloon)
        draft.step(f"mass {number}", f"Mass of an empty {floater.balloon.item}", mass, unit="g",
                   words="Balloons sheet, else common practice")
        litres.append(volume)
        grams.append(mass)
        if (air - helium) * volume <= mass:
            draft.complain("P550", "foils" if floater.balloon.shape is Shape.FOIL else "fill",
                           item=floater.balloon.item, fill=draft.short(floater.fill_cm), mass=f"{mass:.1f}",
                           lift=f"{(air - helium) * volume:.1f}")
    counts = [floater.count for floater in floaters]
    gas = sum(count * volume for count, volume in zip(counts, litres, strict=True))
    mass = sum(count * gram for count, gram in zip(counts, grams, strict=True))
    numbered = list(enumerate((kept(floater.part_key) for floater in floaters), 1))
    draft.step("gas", "Helium in the balloons", gas, unit="litres", words="without what is lost in filling",
               formula=total(f"{part}*{{litres {n}}}" for n, part in numbered))
    draft.step("balloon mass", "Mass of the balloons", mass, unit="g",
               formula=total(f"{part}*{{mass {n}}}" for n, part in numbered))
    net = (air - helium) * gas - mass
    draft.step("net lift", "Net lift", net, unit="g", formula="({air density}-{helium density})*{gas}-{balloon mass}",
               words="lift of the gas less the balloons; ribbons and lines left out")
    draft.gas_litres = gas
    return net


def _goes_by_sheet(draft: Draft, floaters: Sequence[Floater]) -> bool:
    """Tell whether the rounds go by the sheet's litres; notes where only some of them have any."""
    rounds = [floater.balloon for floater in floaters if floater.balloon.shape is Shape.ROUND]
    without = list(dict.fromkeys(balloon.item for balloon in rounds if balloon.litres is None))
    if without and any(balloon.litres is not None for balloon in rounds):
        draft.complain("P556", "colours", items=", ".join(without))
    return not without


def _add_densities(draft: Draft) -> tuple[float, float]:
    shop = draft.prices.shop
    altitude, celsius = float(shop.altitude_cm) / 100, float(shop.room_celsius)
    pressure = air_pressure(altitude)
    air, helium = (gas_density(molar, celsius, pressure) for molar in (MOLAR_AIR_G, MOLAR_HELIUM_G))
    radius = f"{EARTH_RADIUS_M:.0f}"
    draft.step("altitude", "Altitude", altitude, unit="m", words="Shop sheet")
    draft.step("temperature", "Room temperature", celsius, unit="°C", words="Shop sheet")
    draft.step("pressure", "Pressure of the air", pressure, unit="kPa", words="ISO 2533",
               formula=f"{SEA_LEVEL_KPA}*(1-{LAPSE_K_PER_M}*{radius}*{{altitude}}/({radius}+{{altitude}})"
                       f"/{STANDARD_KELVIN})^{BAROMETRIC_POWER}")
    kelvin = f"({{temperature}}+{ZERO_CELSIUS_KELVIN})"
    for name, molar, value in (("air", MOLAR_AIR_G, air), ("helium", MOLAR_HELIUM_G, helium)):
        draft.step(f"{name} density", f"Density of {name}", value, unit="g per litre", words="ideal gas",
                   formula=f"{{pressure}}*{molar}/({GAS_CONSTANT}*{kelvin})")
    return air, helium


def _add_litres(draft: Draft, number: int, floater: Floater, *, is_measured: bool) -> float:
    """Add the litres in one balloon: the sheet's, by the cube of its fill, or a ball's by the shape of rounds."""
    balloon, key = floater.balloon, f"litres {number}"
    draft.length_step(f"helium fill {number}", f"Fill of {balloon.item}", floater.fill_cm)
    if is_measured:
        litres, usual = float(balloon.litres or 0), float(balloon.usual_fill_cm or balloon.size_cm)
        draft.step(f"sheet litres {number}", f"Litres of {balloon.item}", litres, unit="litres", words="Balloons sheet")
        draft.length_step(f"usual fill {number}", f"Usual fill of {balloon.item}", usual, words="Balloons sheet")
        value = litres * (floater.fill_cm / usual) ** 3
        draft.step(key, f"Litres in one {balloon.item}", value, unit="litres", words="goes with the cube of the fill",
                   formula=f"{{sheet litres {number}}}*({{helium fill {number}}}/{{usual fill {number}}})^3")
        return value
    shape = float(draft.prices.shop.round_shape)
    cube = CM_PER_INCH**3 / 1000 if draft.unit == "in" else 0.001
    draft.step(f"round shape {number}", "Shape of rounds", shape, words="volume ÷ volume of a ball (Shop sheet)")
    value = round_litres(floater.fill_cm, shape)
    draft.step(key, f"Litres in one {balloon.item}", value, unit="litres",
               formula=f"PI()/6*{{helium fill {number}}}^3*{{round shape {number}}}*{cube:.9g}")
    return value
