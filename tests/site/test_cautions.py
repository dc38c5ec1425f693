"""What people are warned of, by what a job has in it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from types import SimpleNamespace

import pytest

from quoting.checking.wording import standard_wording
from quoting.domain.places import Place
from quoting.domain.plans import Outline, Part
from quoting.domain.prices import Shape
from quoting.site.cautions import cautions_for

WORDING = {
    key: f"Our own words on {key}"
    for key in (
        "caution_latex",
        "caution_choking",
        "caution_foil",
        "caution_helium",
        "caution_outdoors",
        "caution_children",
        "caution_ladder",
        "caution_exits",
        "caution_fire",
    )
}
SHAPES = {"round": Shape.ROUND, "star": Shape.FOIL, "twister": Shape.TWISTER}
OUTLINE = Outline(width_cm=60, height_cm=180, depth_cm=60, longest_rigid_cm=180, packed_volume_l=10, mass_g=900)


class Prices:
    """A price book as far as cautions look into it."""

    def __init__(self, wording):
        self.wording = wording

    def balloon(self, item):
        return SimpleNamespace(shape=SHAPES[item]) if item in SHAPES else None


def cautions(items, *, outline=OUTLINE, wording=WORDING, outdoors=False, collected=False, children=False):
    job = SimpleNamespace(
        is_outdoors=outdoors, is_collected=collected, has_children=children, event_date=date(2031, 6, 14),
        place=Place(workbook="b"),
    )
    plan = SimpleNamespace(
        parts=tuple(Part(item=item, count=count, role="ring") for item, count in items), outline=outline
    )
    return cautions_for(job, [(None, plan)], Prices(wording))


def keys(made):
    return [text.removeprefix("Our own words on caution_") for text in made.client]


@pytest.mark.parametrize(
    ("items", "changes", "expected"),
    [
        ([("round", 4)], {}, ["latex", "choking", "exits", "fire"]),
        ([("round", 4)], {"children": True}, ["latex", "choking", "children", "exits", "fire"]),
        ([("base plate", 4)], {"children": True}, ["exits"]),
        (
            [("round", 4)],
            {"outline": replace(OUTLINE, height_cm=201.0)},
            ["latex", "choking", "ladder", "exits", "fire"],
        ),
        ([("twister", 4)], {"collected": True}, ["latex", "choking"]),
        ([("star", 1)], {"collected": True}, ["choking", "foil"]),
        ([("star", 1), ("round", 2)], {"outdoors": True}, ["latex", "choking", "foil", "outdoors", "exits"]),
        ([("round", 0), ("base plate", 1)], {}, ["exits"]),
        (
            [("round", 1)],
            {"collected": True, "outline": replace(OUTLINE, net_lift_g=12.0)},
            ["latex", "choking", "helium"],
        ),
        ([], {"collected": True, "outline": None}, []),
    ],
)
def test_the_client_is_told_what_the_job_calls_for_in_the_owners_words(items, changes, expected):
    assert keys(cautions(items, **changes)) == expected


def test_a_phrase_that_the_owner_made_empty_is_left_out():
    assert keys(cautions([("round", 1)], wording={**WORDING, "caution_latex": " "})) == ["choking", "exits", "fire"]


def test_local_code_and_licensed_practice_come_first():
    for items in ([], [("round", 4)], [("star", 1)]):
        assert cautions(items, collected=True).crew[0].startswith("Local code and licensed practice come first")


@pytest.mark.parametrize(
    ("outline", "high", "wide"),
    [
        (OUTLINE, False, False),
        (replace(OUTLINE, height_cm=200.0), False, False),
        (replace(OUTLINE, height_cm=200.1), True, False),
        (replace(OUTLINE, width_cm=300.1), False, True),
        (replace(OUTLINE, height_cm=260.0, width_cm=400.0), True, True),
    ],
)
def test_two_people_over_2_m_and_over_3_m_wide(outline, high, wide):
    """Common practice, no source."""
    crew = cautions([("round", 4)], outline=outline).crew
    assert any("Over 2 m high: two people" in line for line in crew) is high
    assert any("Over 3 m wide: two people" in line for line in crew) is wide


def test_the_crew_is_told_of_power_lines_wind_and_releases_outdoors_only():
    outdoors, indoors = cautions([("round", 4)], outdoors=True).crew, cautions([("round", 4)]).crew
    for word in ("power lines", "wind", "released"):
        assert any(word in line for line in outdoors)
        assert not any(word in line for line in indoors)


def test_the_crew_is_told_of_fire_rules_indoors_and_of_small_children():
    told = cautions([("round", 4)], children=True).crew
    assert any("18 in (46 cm) below sprinklers" in line for line in told)
    assert any("Small children are there" in line for line in told)
    outdoors = cautions([("round", 4)], outdoors=True).crew
    assert not any("sprinklers or" in line or "Small children are there" in line for line in outdoors)


def test_every_phrase_is_a_standard_one():
    """The keys are those of the standard wording, so that an owner can change each."""
    assert set(WORDING) <= set(standard_wording())
