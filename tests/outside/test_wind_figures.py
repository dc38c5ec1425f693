"""Wind against figures from outside: the Beaufort scale, velocity pressures, overturning worked by hand."""

from __future__ import annotations

import pytest

from quoting.site.wind import (
    AIR_DENSITY,
    BEAUFORT,
    Hold,
    Sail,
    ballast_kg,
    beaufort,
    force_n,
    holding_speed_m_s,
    mass_against_overturning_kg,
    mass_against_sliding_kg,
    pressure_pa,
)
from quoting.site.words import KM_H, MPH

# Limits in m/s from a Dutch and UK table (delta-s.org), read as a search excerpt; names and the formula
# v = 0.836 B^1.5 of the World Meteorological Organization from memory. Pressures computed: ½ ρ v² at 1.25 and
# 1.225 kg/m³ (EN 1991-1-4:2005 4.5(1) NOTE 2; the standard atmosphere of ISO 2533 at sea level).
# force, name, lowest and highest m/s, highest km/h, highest mph, Pa at 1.25, Pa at 1.225, m/s by the formula
SCALE = [
    (0, "Calm", 0, 0.2, 0.7, 0.4, 0.0, 0.0, 0.0),
    (1, "Light air", 0.3, 1.5, 5.4, 3.4, 1.4, 1.4, 0.84),
    (2, "Light breeze", 1.6, 3.3, 11.9, 7.4, 6.8, 6.7, 2.36),
    (3, "Gentle breeze", 3.4, 5.4, 19.4, 12.1, 18.2, 17.9, 4.34),
    (4, "Moderate breeze", 5.5, 7.9, 28.4, 17.7, 39.0, 38.2, 6.69),
    (5, "Fresh breeze", 8.0, 10.7, 38.5, 23.9, 71.6, 70.1, 9.35),
    (6, "Strong breeze", 10.8, 13.8, 49.7, 30.9, 119.0, 116.6, 12.29),
    (7, "Near gale", 13.9, 17.1, 61.6, 38.3, 182.8, 179.1, 15.48),
    (8, "Gale", 17.2, 20.7, 74.5, 46.3, 267.8, 262.5, 18.92),
    (9, "Strong gale", 20.8, 24.4, 87.8, 54.6, 372.1, 364.7, 22.57),
    (10, "Storm", 24.5, 28.4, 102.2, 63.5, 504.1, 494.0, 26.44),
    (11, "Violent storm", 28.5, 32.6, 117.4, 72.9, 664.2, 650.9, 30.5),
    (12, "Hurricane", 32.7, None, 117.7, 73.1, 668.3, 654.9, 34.75),
]

# Computed from EN 1991-1-4:2005 expression 4.10 with ρ = 1.25, and from the two forms of ASCE 7-10
# (0.613 V² in Pa, from memory; 0.00256 V² in psf with V in mph, read in a sign design sheet).
# m/s, km/h, mph, Pa by EN, Pa by 0.613 V², Pa by 0.00256 V², psf by EN
PRESSURES = [
    (3, 10.8, 6.71, 5.62, 5.52, 5.52, 0.117),
    (4, 14.4, 8.95, 10.0, 9.81, 9.81, 0.209),
    (5, 18.0, 11.18, 15.62, 15.32, 15.33, 0.326),
    (6, 21.6, 13.42, 22.5, 22.07, 22.08, 0.47),
    (7, 25.2, 15.66, 30.62, 30.04, 30.05, 0.64),
    (8, 28.8, 17.9, 40.0, 39.23, 39.25, 0.835),
    (9, 32.4, 20.13, 50.62, 49.65, 49.68, 1.057),
    (10, 36.0, 22.37, 62.5, 61.3, 61.33, 1.305),
    (11, 39.6, 24.61, 75.62, 74.17, 74.21, 1.579),
    (12, 43.2, 26.84, 90.0, 88.27, 88.32, 1.88),
    (13, 46.8, 29.08, 105.62, 103.6, 103.66, 2.206),
    (14, 50.4, 31.32, 122.5, 120.15, 120.22, 2.558),
    (15, 54.0, 33.55, 140.62, 137.93, 138.0, 2.937),
    (16, 57.6, 35.79, 160.0, 156.93, 157.02, 3.342),
    (18, 64.8, 40.26, 202.5, 198.61, 198.72, 4.229),
    (20, 72.0, 44.74, 250.0, 245.2, 245.34, 5.221),
    (25, 90.0, 55.92, 390.62, 383.12, 383.34, 8.158),
    (30, 108.0, 67.11, 562.5, 551.7, 552.01, 11.748),
]

# Own arithmetic on statics with ρ = 1.25: moment = force × half the height, over half the base; g = 9.80665 m/s².
# Drag 1.2: cylinder in two dimensions (Aeronautical Engineer Data Book, Fig 5.13(b), read as an excerpt);
# 1.8: signboards (EN 1991-1-4 7.4.3, from memory). Friction and safety factors: assumed by the examples.
# what, m/s, Pa, drag, m², N, arm m, moment Nm, base m, friction, safety, own kg, kg to stand, not to slide, to add
EXAMPLES = [
    ("column 2.1 m", 7.9, 39.006, 1.2, 1.2877, 60.275, 1.05, 63.289, 0.45, 0.4, 1.5, 2.5, 43.02, 23.05, 40.52),
    ("column 2.1 m", 10.7, 71.556, 1.2, 1.2877, 110.573, 1.05, 116.102, 0.45, 0.4, 1.5, 2.5, 78.93, 42.28, 76.43),
    ("column 1.8 m", 8.0, 40.0, 1.2, 1.1038, 52.98, 0.9, 47.682, 0.4, 0.3, 1.2, 2.0, 29.17, 21.61, 27.17),
    ("flat wall 2.4x2.4", 5.4, 18.225, 1.8, 5.76, 188.957, 1.2, 226.748, 1.0, 0.4, 1.5, 25, 69.37, 72.26, 47.26),
    ("flat wall 2.4x2.4", 10.7, 71.556, 1.8, 5.76, 741.895, 1.2, 890.274, 1.0, 0.4, 1.5, 25, 272.35, 283.7, 258.7),
]


@pytest.mark.parametrize("row", SCALE, ids=lambda row: row[1])
def test_beaufort(row):
    force, name, lowest, highest, km_h, mph, pa, pa_iso, formula = row
    assert beaufort(lowest) == (force, name.casefold())
    assert beaufort(formula) == (force, name.casefold())
    assert formula == pytest.approx(0.836 * force**1.5, abs=0.005)
    end = lowest if highest is None else highest
    assert beaufort(end) == (force, name.casefold())
    if highest is not None:
        assert beaufort(highest + 0.1)[0] == force + 1
    assert end * KM_H == pytest.approx(km_h, abs=0.05001)
    assert end * MPH == pytest.approx(mph, abs=0.05001)
    assert pressure_pa(end) == pytest.approx(pa, abs=0.0501)
    assert pressure_pa(end, 1.225) == pytest.approx(pa_iso, abs=0.0501)


def test_the_scale_is_whole():
    assert [name for _, name in BEAUFORT] == [row[1].casefold() for row in SCALE]


@pytest.mark.parametrize("row", PRESSURES, ids=lambda row: f"{row[0]} m/s")
def test_velocity_pressure(row):
    speed, km_h, mph, pa, pa_us, pa_us_mph, psf = row
    assert AIR_DENSITY == 1.25
    assert speed * KM_H == pytest.approx(km_h, abs=0.005)
    assert speed * MPH == pytest.approx(mph, abs=0.0051)
    assert pressure_pa(speed) == pytest.approx(pa, abs=0.0051)
    assert pressure_pa(speed, 2 * 0.613) == pytest.approx(pa_us, abs=0.0051)
    # 1 psf = 47.8803 Pa; the two forms differ by 0.06 % as their source says.
    assert 0.00256 * (speed * MPH) ** 2 * 47.8803 == pytest.approx(pa_us_mph, abs=0.0051)
    assert pa_us_mph == pytest.approx(pa_us, rel=0.001)
    assert pressure_pa(speed) / 47.8803 == pytest.approx(psf, abs=0.00051)


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda row: f"{row[0]} at {row[1]}")
def test_least_ballast(example):
    _, speed, pa, drag, area, force, arm, moment, base, friction, safety, own, stand, slide, add = example
    sail = Sail(drag=drag, area_m2=area, arm_m=arm)
    hold = Hold(mass_kg=own, base_m=base, friction=friction, safety=safety)
    assert pressure_pa(speed) == pytest.approx(pa, abs=0.0006)
    assert force_n(sail, speed) == pytest.approx(force, rel=1e-4)
    assert force_n(sail, speed) * arm == pytest.approx(moment, rel=1e-4)
    assert mass_against_overturning_kg(sail, hold, speed) == pytest.approx(stand, abs=0.006)
    assert mass_against_sliding_kg(sail, hold, speed) == pytest.approx(slide, abs=0.006)
    assert ballast_kg(sail, hold, speed) == pytest.approx(add, abs=0.006)


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda row: f"{row[0]} at {row[1]}")
def test_with_the_least_ballast_it_stands_to_just_that_wind(example):
    speed, drag, area, arm = (example[place] for place in (1, 3, 4, 6))
    base, friction, safety, own = example[8:12]
    sail = Sail(drag=drag, area_m2=area, arm_m=arm)
    hold = Hold(mass_kg=own, base_m=base, friction=friction, safety=safety)
    assert holding_speed_m_s(sail, hold) < speed
    ballasted = Hold(mass_kg=own + ballast_kg(sail, hold, speed), base_m=base, friction=friction, safety=safety)
    assert holding_speed_m_s(sail, ballasted) == pytest.approx(speed, rel=1e-9)
    assert ballast_kg(sail, ballasted, speed * 0.99) == 0
