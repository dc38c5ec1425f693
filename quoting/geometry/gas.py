"""Air, helium and what it lifts. Pressures in kPa, temperatures in °C, densities in g per litre (= kg/m³).

Pressure over the sea follows the barometric law of ISO 2533 (the same as the US
Standard Atmosphere 1976 below 11 km); densities are those of ideal gases, within
0.1 % of the real ones at the pressures of rooms. What lies above the air's own
pressure inside a balloon (a few per cent of it) and moist air are left out.
"""

from __future__ import annotations

import math

SEA_LEVEL_KPA = 101.325
STANDARD_KELVIN = 288.15
LAPSE_K_PER_M = 0.0065
EARTH_RADIUS_M = 6356766.0
"""Nominal radius of ISO 2533, for heights under changing gravity."""
BAROMETRIC_POWER = 5.255876
"""g M ÷ (R × lapse rate) with the constants of ISO 2533."""
GAS_CONSTANT = 8.31432
"""J/(mol K), as ISO 2533 has it; today's value is 0.002 % larger."""
MOLAR_AIR_G, MOLAR_HELIUM_G = 28.96442, 4.002602
"""Dry air of ISO 2533; standard atomic weight of helium."""
ZERO_CELSIUS_KELVIN = 273.15


def air_pressure(altitude_m: float) -> float:
    """Standard pressure (kPa) at a height over the sea, up to 11 km.

    >>> round(air_pressure(1500), 3)
    84.56
    """
    height = EARTH_RADIUS_M * altitude_m / (EARTH_RADIUS_M + altitude_m)
    return SEA_LEVEL_KPA * math.pow(1 - LAPSE_K_PER_M * height / STANDARD_KELVIN, BAROMETRIC_POWER)


def standard_celsius(altitude_m: float) -> float:
    """Temperature of the standard atmosphere at a height over the sea, up to 11 km."""
    height = EARTH_RADIUS_M * altitude_m / (EARTH_RADIUS_M + altitude_m)
    return STANDARD_KELVIN - LAPSE_K_PER_M * height - ZERO_CELSIUS_KELVIN


def gas_density(molar_g: float, celsius: float, pressure_kpa: float) -> float:
    """Density of an ideal gas of this molar mass (g/mol).

    >>> round(gas_density(MOLAR_AIR_G, 15, 101.325), 3)
    1.225
    """
    return pressure_kpa * molar_g / (GAS_CONSTANT * (celsius + ZERO_CELSIUS_KELVIN))


def gross_lift(celsius: float, pressure_kpa: float) -> float:
    """What a litre of helium lifts (g), before anything that holds it."""
    return gas_density(MOLAR_AIR_G - MOLAR_HELIUM_G, celsius, pressure_kpa)


def round_litres(fill_cm: float, shape: float = 1.0) -> float:
    """Litres in a round of this fill: a ball's times its shape."""
    return math.pi / 6 * fill_cm**3 * shape / 1000


def tube_litres(diameter_cm: float, length_cm: float) -> float:
    """Litres in a twister of this length over all, its two ends rounded."""
    return math.pi / 4 * diameter_cm**2 * (length_cm - diameter_cm / 3) / 1000
