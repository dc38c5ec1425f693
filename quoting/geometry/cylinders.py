"""What a cylinder of helium really gives: a gas at high pressure is no ideal one."""

from __future__ import annotations

from quoting.geometry.gas import SEA_LEVEL_KPA, STANDARD_KELVIN

SECOND_VIRIAL_CM3 = 11.6
"""Second virial coefficient of helium near 15 °C in cm³/mol: from memory of tables, within 0.2 % of them to 300 bar."""
UNIVERSAL_GAS = 8.314462618
"""J/(mol K), exact in the SI."""
LEFT_BAR = 3.0
"""Gauge pressure at which a cylinder no longer fills balloons. Common practice, no source."""


def compressibility(kpa: float, kelvin: float = STANDARD_KELVIN) -> float:
    """Volume of helium ÷ volume of an ideal gas, at an absolute pressure.

    >>> round(compressibility(20101.325), 4)
    1.0973
    """
    return 1 + SECOND_VIRIAL_CM3 * 1e-6 * kpa * 1000 / (UNIVERSAL_GAS * kelvin)


def helium_litres(water_litres: float, gauge_bar: float, *, left_bar: float = 0.0) -> float:
    """Litres at 15 °C and 101.325 kPa that a cylinder gives from a gauge pressure down to `left_bar`.

    With `left_bar` 0 all that is in it, as contents are stated.

    >>> round(helium_litres(50, 200))
    9044
    """

    def held(bar: float) -> float:
        kpa = bar * 100 + SEA_LEVEL_KPA
        return water_litres * kpa / SEA_LEVEL_KPA * compressibility(SEA_LEVEL_KPA) / compressibility(kpa)

    return held(gauge_bar) - (held(left_bar) if left_bar else 0.0)
