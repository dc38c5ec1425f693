"""Wind on a standing piece, in SI units: pressure, force, what holds it, and the Beaufort scale.

For planning only: a competent person and the local code decide.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from math import sqrt

GRAVITY = 9.80665
"""Standard acceleration of free fall, m/s²."""

AIR_DENSITY = 1.25
"""kg/m³; recommended by EN 1991-1-4:2005, 4.5(1) NOTE 2. Warm or thin air pushes less, so it is on the safe side."""

BEAUFORT = (
    (0.0, "calm"),
    (0.3, "light air"),
    (1.6, "light breeze"),
    (3.4, "gentle breeze"),
    (5.5, "moderate breeze"),
    (8.0, "fresh breeze"),
    (10.8, "strong breeze"),
    (13.9, "near gale"),
    (17.2, "gale"),
    (20.8, "strong gale"),
    (24.5, "storm"),
    (28.5, "violent storm"),
    (32.7, "hurricane"),
)
"""Lowest mean wind (m/s, to a tenth) of each force from 0 to 12, and its name."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wind:
    """A mean wind as forecasts give it (m/s), and how many times it its gusts are."""

    mean_m_s: float
    gust_factor: float

    @property
    def gust_m_s(self) -> float:
        """The wind that pushes."""
        return self.mean_m_s * self.gust_factor


@dataclass(frozen=True, slots=True, kw_only=True)
class Hold:
    """What holds a standing piece: mass (kg), full width of its base (m), friction under it, the safety factor."""

    mass_kg: float
    base_m: float
    friction: float
    safety: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Sail:
    """What the wind pushes at: drag coefficient, area (m²) and height of its middle over the floor (m)."""

    drag: float
    area_m2: float
    arm_m: float


def pressure_pa(speed_m_s: float, density: float = AIR_DENSITY) -> float:
    """Velocity pressure q = ½ ρ v² in pascal (EN 1991-1-4:2005, expression 4.10).

    >>> pressure_pa(8)
    40.0
    """
    return 0.5 * density * speed_m_s * speed_m_s


def force_n(sail: Sail, speed_m_s: float) -> float:
    """Force on a piece in newton: q × drag coefficient × area."""
    return pressure_pa(speed_m_s) * sail.drag * sail.area_m2


def mass_against_overturning_kg(sail: Sail, hold: Hold, speed_m_s: float) -> float:
    """Give the whole mass that keeps a piece from tipping over the edge of its base, with the safety factor."""
    moment = force_n(sail, speed_m_s) * sail.arm_m
    return hold.safety * moment / (GRAVITY * hold.base_m / 2)


def mass_against_sliding_kg(sail: Sail, hold: Hold, speed_m_s: float) -> float:
    """Give the whole mass that keeps a piece from sliding, with the safety factor."""
    return hold.safety * force_n(sail, speed_m_s) / (hold.friction * GRAVITY)


def ballast_kg(sail: Sail, hold: Hold, speed_m_s: float) -> float:
    """Give the least mass to add so that a piece neither tips nor slides; 0 where its own is enough."""
    needed = max(mass_against_overturning_kg(sail, hold, speed_m_s), mass_against_sliding_kg(sail, hold, speed_m_s))
    return max(0.0, needed - hold.mass_kg)


def holding_speed_m_s(sail: Sail, hold: Hold) -> float:
    """Give the wind up to which a piece stands as it is, safety factor included."""
    weight = GRAVITY * max(hold.mass_kg, 0.0)
    force = min(weight * hold.base_m / 2 / sail.arm_m, weight * hold.friction) / hold.safety
    return sqrt(force / (0.5 * AIR_DENSITY * sail.drag * sail.area_m2))


def beaufort(speed_m_s: float) -> tuple[int, str]:
    """Give the Beaufort force of a mean wind, and its name; the speed is taken to the nearest tenth, as the scale is.

    >>> beaufort(5.0), beaufort(8.0)
    ((3, 'gentle breeze'), (5, 'fresh breeze'))
    """
    force = bisect_right([lowest for lowest, _ in BEAUFORT], round(speed_m_s, 1)) - 1
    return force, BEAUFORT[force][1]
