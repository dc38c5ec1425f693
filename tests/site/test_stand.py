"""Pieces in the wind: what is found for whole pieces. The physics is checked in tests/outside/test_wind_figures.py."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from math import pi, sqrt

import pytest
from sites_made import COLUMN, codes, figures, flag, hired, looked_at, plan, steps, told

from quoting.domain.plans import Position
from quoting.geometry.silhouettes import silhouette
from quoting.site.stand import sail_of

D = Decimal

STILL = {"gust_factor": D(1), "wind_limit": D("7.9")}
"""As in the worked example: the wind named is the wind that pushes."""


def position(x, y, diameter=30.0, **changes):
    made = Position(x_cm=x, y_cm=y, z_cm=0, diameter_cm=diameter, colour="ivory", item="Round 11 ivory", role="ring",
                    layer=1)
    return replace(made, **changes)


def standing(found):
    return [code for code, _ in codes(found) if code.startswith("P71")]


def test_the_worked_column_lacks_the_ballast_of_the_worked_example():
    """2.1 m × 0.613 m, drag 1.2, base 0.45 m, friction 0.4, factor 1.5, 2.5 kg at 7.9 m/s: 40.52 kg.

    Own arithmetic on EN 1991-1-4 expression 4.10 and statics.
    """
    found = looked_at(plan(), is_outdoors=True, shop=STILL)
    assert standing(found) == ["P715", "P710"]
    assert told(found) == [("P710", "Pieces!H67")]
    told_figures = figures(found, "P710")
    assert told_figures["ballast to add"] == pytest.approx(40.52, abs=0.03)
    assert told_figures["push of the wind"] == pytest.approx(60.28, abs=0.03)
    assert (told_figures["base"], told_figures["own mass"]) == (45, 2.5)
    assert steps(found)["ballast 1"] == told_figures["ballast to add"]
    # 40.5 kg are 90 lb, up; bags of 10 kg, not the gift weights
    assert "it lacks 90 lb" in flag(found, "P710").what
    assert "5 × Sand bag" in flag(found, "P710").to_do


def test_a_heavy_column_stands_and_says_to_what_wind():
    found = looked_at(plan(replace(COLUMN, mass_g=43_100)), is_outdoors=True, shop=STILL)
    assert standing(found) == ["P715", "P711"]
    assert not found.problems
    assert figures(found, "P711")["stands to"] == pytest.approx(7.9 * sqrt(43.1 / 43.02), rel=1e-3)
    assert "Beaufort 4 (moderate breeze)" in flag(found, "P711").what
    assert "a competent person and the local code decide" in flag(found, "P711").to_do


def test_gusts_push_harder_by_the_square():
    calm = figures(looked_at(plan(), is_outdoors=True, shop={"gust_factor": D(1)}), "P710")
    gusty = figures(looked_at(plan(), is_outdoors=True, shop={"gust_factor": D("1.5")}), "P710")
    assert gusty["push of the wind"] == pytest.approx(2.25 * calm["push of the wind"])
    assert gusty["stands to"] == pytest.approx(calm["stands to"] / 1.5)


def test_a_draught_is_taken_as_it_is_and_tells_the_client_nothing():
    found = looked_at(plan(), is_draughty=True, ceiling_cm=D(500), shop={"draught": D(3)})
    assert standing(found) == ["P710"]
    assert figures(found, "P710")["push of the wind"] == pytest.approx(5.625 * 1.2 * 1.2877, rel=1e-3)
    assert not any("wind" in line for line in found.value.cautions.client)


def test_indoors_nothing_is_said_of_wind():
    assert standing(looked_at(plan(), ceiling_cm=D(500))) == []


def test_the_client_reads_when_pieces_are_taken_down():
    found = looked_at(plan(), is_outdoors=True, shop={"wind_limit": D(8)}, wording={"caution_wind": "{speed}/{name}"})
    assert "8.0 m/s (18 mph)/fresh breeze" in found.value.cautions.client
    assert flag(found, "P715").is_for_client
    assert "gusts are then about 12.0 m/s (27 mph)" in flag(found, "P715").what


def test_without_a_plate_it_must_be_tied():
    found = looked_at(plan(plates=()), is_outdoors=True, shop=STILL)
    assert standing(found) == ["P715", "P712"]
    assert "61 N, as much as 14 lb weigh" in flag(found, "P712").what
    assert not found.problems


def test_a_plate_without_a_diameter_is_asked_for():
    found = looked_at(plan(plates=("Bare plate",)), is_outdoors=True)
    assert told(found) == [("P713", "Pieces!H67")]
    assert "Bare plate has no diameter" in found.problems[0].why


def test_hired_plates_count_as_bought_ones_do():
    assert figures(looked_at(hired(), is_outdoors=True), "P710") == figures(looked_at(plan(), is_outdoors=True), "P710")


def test_helium_takes_weight_off_the_base():
    plain, lifted = (
        figures(looked_at(plan(replace(COLUMN, net_lift_g=lift)), is_outdoors=True), "P710") for lift in (0, 500)
    )
    assert lifted["own mass"] == pytest.approx(plain["own mass"] - 0.5)
    assert lifted["ballast to add"] == pytest.approx(plain["ballast to add"] + 0.5)


# --- what the wind pushes at --------------------------------------------------------


def test_silhouettes_by_hand():
    assert silhouette([], 1) == (0, 0)
    area, middle = silhouette([(0, 50, 30), (100, 150, 30)], 0.05)
    assert area == pytest.approx(2 * pi * 15**2, rel=1e-3)
    assert middle == pytest.approx(100, rel=1e-3)
    twice, _ = silhouette([(0, 50, 30), (0, 50, 30)], 0.05)
    assert twice == pytest.approx(pi * 15**2, rel=1e-3)
    # Two balls 15 apart: some of what is between them counts where gaps to 20 are closed.
    open_, _ = silhouette([(0, 50, 30), (45, 50, 30)], 0.05)
    closed, _ = silhouette([(0, 50, 30), (45, 50, 30)], 0.05, 20)
    assert open_ == pytest.approx(2 * pi * 15**2, rel=1e-3)
    assert closed > open_
    lens, _ = silhouette([(0, 50, 30), (15, 50, 30)], 0.05)
    # union of two circles of radius 15 with middles 15 apart: 2πr² − (2r² acos(1/2) − (d/2)√(4r² − d²))
    overlap = 2 * 225 * pi / 3 - 7.5 * sqrt(900 - 225)
    assert lens == pytest.approx(2 * pi * 225 - overlap, rel=1e-3)


def test_the_legs_of_an_arch_let_the_wind_through_and_a_wall_is_flat():
    shop = {"drag": D("1.2"), "drag_flat": D("1.8")}
    box = replace(COLUMN, width_cm=300, height_cm=240, depth_cm=30)
    legs = tuple(position(x, y) for x in (-135, 135) for y in range(15, 240, 10))
    wall = tuple(position(x, y) for x in range(-135, 136, 30) for y in range(15, 240, 15))
    arch_found, wall_found = (
        looked_at(plan(box, (), positions=places), is_outdoors=True, shop=shop) for places in (legs, wall)
    )
    assert steps(arch_found)["drag 1"] == 1.2
    assert steps(arch_found)["area 1"] < 0.25 * 7.2
    assert steps(wall_found)["drag 1"] == 1.8
    assert steps(wall_found)["area 1"] == pytest.approx(7.2, rel=0.08)


def test_a_long_balloon_counts_along_its_line():
    path = ((-50.0, 100.0, 0.0), (50.0, 100.0, 0.0))
    tube = plan(positions=(position(0, 100, 5.0, path=path),))
    sail = sail_of(tube, COLUMN, looked_shop())
    assert sail.area_m2 * 10_000 == pytest.approx(5 * 100 + pi * 2.5**2, rel=0.1)
    assert sail.arm_m == pytest.approx(1.0, rel=0.01)


def looked_shop():
    from costing_made import SHOP

    return SHOP
