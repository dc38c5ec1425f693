"""What must hold for any piece and place."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from hypothesis import given, settings
from hypothesis import strategies as st
from sites_made import COLUMN, codes, looked_at, plan, steps

from quoting.site.last import growth
from quoting.site.wind import Hold, Sail, ballast_kg, holding_speed_m_s

SOME = settings(max_examples=60, deadline=None)
sizes = st.floats(0.1, 4)
sails = st.builds(Sail, drag=st.floats(0.5, 2), area_m2=sizes, arm_m=sizes)
holds = st.builds(
    Hold, mass_kg=st.floats(0.1, 200), base_m=sizes, friction=st.floats(0.1, 0.9), safety=st.floats(1, 3)
)
speeds = st.floats(0.1, 25)


@SOME
@given(sails, holds, speeds, st.floats(1, 2))
def test_more_wind_or_sail_never_needs_less_and_more_base_or_mass_never_more(sail, hold, speed, more):
    least = ballast_kg(sail, hold, speed)
    assert ballast_kg(sail, hold, speed * more) >= least
    assert ballast_kg(replace(sail, area_m2=sail.area_m2 * more), hold, speed) >= least
    assert ballast_kg(replace(sail, arm_m=sail.arm_m * more), hold, speed) >= least
    assert ballast_kg(sail, replace(hold, base_m=hold.base_m * more), speed) <= least
    assert ballast_kg(sail, replace(hold, mass_kg=hold.mass_kg * more), speed) <= least


@SOME
@given(sails, holds, speeds)
def test_ballast_is_lacking_just_where_the_wind_is_more_than_it_bears(sail, hold, speed):
    bears = holding_speed_m_s(sail, hold)
    assert (ballast_kg(sail, hold, speed) > 1e-6) <= (speed > bears * (1 - 1e-9))
    assert (speed > bears * (1 + 1e-6)) <= (ballast_kg(sail, hold, speed) > 0)


@SOME
@given(st.integers(50, 400), st.integers(0, 200), st.sampled_from([None, True, False]))
def test_a_higher_ceiling_never_adds_a_trouble_of_height(ceiling, more, sprinklers):
    def troubles(height):
        found = looked_at(plan(), ceiling_cm=Decimal(height), has_sprinklers=sprinklers)
        return {"P701": 3, "P702": 2, "P703": 2, "P704": 1}, [code for code, _ in codes(found) if code < "P705"]

    grades, low = troubles(ceiling)
    _, high = troubles(ceiling + more)
    assert max((grades[c] for c in high), default=0) <= max((grades[c] for c in low), default=0)


@SOME
@given(st.floats(-20, 40), st.floats(-20, 40), st.floats(0, 3000), st.floats(0, 3000))
def test_there_and_back_changes_nothing(here, there, low, high):
    assert abs(growth(here, there, low, high) * growth(there, here, high, low) - 1) < 1e-12
    if abs(there - here) > 1e-6:
        assert (growth(here, there, low, low) > 1) == (there > here)


@SOME
@given(st.floats(0.5, 20), st.integers(1, 3))
def test_twice_gives_the_same_and_each_piece_stands_for_itself(mass, count):
    piece = plan(replace(COLUMN, mass_g=mass * 1000))
    once, again = (looked_at(*[piece] * count, is_outdoors=True) for _ in range(2))
    assert once == again
    alone = steps(looked_at(piece, is_outdoors=True))
    for number in range(1, count + 1):
        assert steps(once)[f"ballast {number}"] == alone["ballast 1"]
