"""Workings of wind, force and ballast as live formulas, in SI units."""

from __future__ import annotations

from dataclasses import dataclass

from quoting.site.lookout import Lookout
from quoting.site.wind import (
    AIR_DENSITY,
    BEAUFORT,
    GRAVITY,
    Hold,
    Sail,
    Wind,
    ballast_kg,
    beaufort,
    force_n,
    holding_speed_m_s,
    mass_against_overturning_kg,
    mass_against_sliding_kg,
    pressure_pa,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """One piece on base plates in the wind: its number in the job from 1, its label."""

    number: int
    label: str
    sail: Sail
    hold: Hold
    wind: Wind

    @property
    def ballast_kg(self) -> float:
        """Least mass to add for the gusts of the wind; 0 where its own is enough."""
        return ballast_kg(self.sail, self.hold, self.wind.gust_m_s)

    @property
    def holds_m_s(self) -> float:
        """Mean wind to whose gusts it stands as planned."""
        return holding_speed_m_s(self.sail, self.hold) / self.wind.gust_factor


def add_wind(look: Lookout, wind: Wind) -> None:
    """Add the wind limit, its Beaufort force, its gusts, and their pressure under "pressure"."""
    is_outdoors = look.job.is_outdoors
    label = "Wind limit, mean" if is_outdoors else "Draught"
    look.given("limit", label, wind.mean_m_s, unit="m/s", words="Shop sheet")
    look.given("gust factor", "Gusts against mean wind", wind.gust_factor,
               words="Shop sheet" if is_outdoors else "a draught is taken as it is")
    look.given("air", "Density of air", AIR_DENSITY, unit="kg/m³", words="recommended by EN 1991-1-4")
    lowest = ";".join(str(speed) for speed, _ in BEAUFORT)
    force, name = beaufort(wind.mean_m_s)
    look.step("beaufort", "Beaufort force of the limit", force, f"MATCH(ROUND({{limit}},1),{{{lowest}}},1)-1",
              words=name)
    look.step("gust", "Gusts", wind.gust_m_s, "{limit}*{gust factor}", unit="m/s")
    look.step("pressure", "Velocity pressure", pressure_pa(wind.gust_m_s), "0.5*{air}*{gust}^2", unit="Pa",
              words="½ ρ v²")


def add_force(look: Lookout, number: int, label: str, sail: Sail, wind: Wind) -> None:
    """Add the force on a piece under "force N"."""
    look.given(f"area {number}", f"Area of piece {label} facing the wind", sail.area_m2, unit="m²",
               words="silhouette of its balloons; width × height where none are drawn")
    look.given(f"drag {number}", f"Drag coefficient of piece {label}", sail.drag, words="Shop sheet")
    look.step(f"force {number}", f"Force on piece {label}", force_n(sail, wind.gust_m_s),
              f"{{pressure}}*{{drag {number}}}*{{area {number}}}", unit="N")


def add_standing(look: Lookout, standing: Standing) -> None:
    """Add what a piece on base plates needs and lacks: "ballast N" in kg, "holds N" the mean wind it bears."""
    n, label, hold, sail = standing.number, standing.label, standing.hold, standing.sail
    gust = standing.wind.gust_m_s
    look.given("safety", "Safety factor", hold.safety, words="Shop sheet")
    look.given("friction", "Friction under a base", hold.friction, words="Shop sheet")
    look.given(f"arm {n}", f"Middle of that area of piece {label} over the floor", sail.arm_m, unit="m")
    look.given(f"base {n}", f"Base of piece {label}", hold.base_m, unit="m", words="Hardware sheet")
    look.given(f"mass {n}", f"Mass of piece {label} with its stand", hold.mass_kg, unit="kg",
               words="without what has no mass in the Hardware sheet")
    look.step(f"tipping {n}", "Mass against tipping", mass_against_overturning_kg(sail, hold, gust),
              f"{{safety}}*{{force {n}}}*{{arm {n}}}/({GRAVITY}*{{base {n}}}/2)", unit="kg",
              words="moment of the wind over half the base")
    look.step(f"sliding {n}", "Mass against sliding", mass_against_sliding_kg(sail, hold, gust),
              f"{{safety}}*{{force {n}}}/({{friction}}*{GRAVITY})", unit="kg")
    look.step(f"ballast {n}", "Least ballast to add", standing.ballast_kg,
              f"MAX(0,MAX({{tipping {n}}},{{sliding {n}}})-{{mass {n}}})", unit="kg")
    weight = f"{GRAVITY}*{{mass {n}}}"
    tip, slide = f"{weight}*{{base {n}}}/2/{{arm {n}}}", f"{weight}*{{friction}}"
    look.step(f"holds {n}", f"Mean wind to which piece {label} stands as planned", standing.holds_m_s,
              f"SQRT(MIN({tip},{slide})/{{safety}}/(0.5*{{air}}*{{drag {n}}}*{{area {n}}}))/{{gust factor}}",
              unit="m/s")
