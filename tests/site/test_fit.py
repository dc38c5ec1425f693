"""Pieces under ceilings and sprinklers, through doors and round corners."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from sites_made import COLUMN, codes, figures, flag, looked_at, plan, steps, told

from quoting.domain.problems import Level

D = Decimal

HEIGHT = 210.06
DIAGONAL = 218.821  # sqrt(210.06² + 61.3²), by hand


@pytest.mark.parametrize(
    ("ceiling", "sprinklers", "expected"),
    [
        ("210.05", None, ["P701"]),
        ("210.06", None, ["P702", "P705"]),
        ("218.8", None, ["P702", "P705"]),
        ("218.9", None, ["P702"]),
        ("225.05", None, ["P702"]),  # 15 cm are left free unless the Shop sheet says otherwise
        ("225.06", None, []),
        # 18 in (45.72 cm) below the deflector: NFPA 13, as commonly stated (universities' and insurers' pages)
        ("255.77", True, ["P703"]),
        ("255.78", True, []),
        ("225.05", True, ["P703"]),
        # 24 in (60.96 cm) where there are no sprinklers: North American fire code, by a university's guide
        ("271.01", False, ["P704"]),
        ("271.02", False, []),
        ("271.01", None, []),
        ("225.05", False, ["P702"]),
    ],
)
def test_under_the_ceiling(ceiling, sprinklers, expected):
    found = looked_at(plan(), ceiling_cm=D(ceiling), has_sprinklers=sprinklers)
    assert codes(found) == [(code, "A") for code in expected]
    assert told(found) == [(code, "Pieces!T67") for code in expected if code != "P704"]
    assert steps(found)["left 1"] == pytest.approx(float(ceiling) - HEIGHT)


@pytest.mark.parametrize(
    ("ceiling", "sprinklers", "expected"),
    [("210.05", None, ["P701"]), ("210.06", None, []), ("225.05", None, []), ("210.06", True, ["P703"])],
)
def test_what_reaches_the_ceiling_on_purpose_leaves_nothing_free(ceiling, sprinklers, expected):
    """Too long a piece is still held, and sprinkler heads want their 18 in whatever is under them."""
    strand = replace(COLUMN, is_to_ceiling=True, longest_rigid_cm=28)
    found = looked_at(plan(strand, ()), ceiling_cm=D(ceiling), has_sprinklers=sprinklers)
    assert [code for code, _ in codes(found)] == expected


def test_the_ceiling_asked_for_has_no_clearance_over_what_is_to_reach_it():
    for to_ceiling, needed in ((True, 210.06), (False, 225.06)):
        found = looked_at(plan(replace(COLUMN, is_to_ceiling=to_ceiling)))
        assert figures(found, "P708")["ceiling needed"] == pytest.approx(needed)


def test_only_what_is_taller_than_the_ceiling_holds_the_job_and_names_both_cells():
    found = looked_at(plan(), ceiling_cm=D(200), has_sprinklers=True)
    (problem,) = found.problems
    assert (problem.code, problem.level) == ("P701", Level.HOLD)
    assert "Jobs!J2" in problem.why
    assert problem.job == "0412"
    for ceiling in (211, 220, 230):
        assert all(p.level is Level.NOTE for p in looked_at(plan(), ceiling_cm=D(ceiling)).problems)


def test_the_owners_own_clearance():
    assert codes(looked_at(plan(), ceiling_cm=D(230), shop={"ceiling_clearance_cm": D(30)})) == [("P702", "A")]
    assert codes(looked_at(plan(), ceiling_cm=D(219), shop={"ceiling_clearance_cm": D(0)})) == []


def test_a_column_is_stood_up_on_the_diagonal_of_height_and_foot():
    found = looked_at(plan(), ceiling_cm=D(215))
    assert steps(found)["diagonal 1"] == pytest.approx(DIAGONAL, abs=0.001)
    assert figures(found, "P705")["on its edge"] == pytest.approx(DIAGONAL, abs=0.001)
    thin = replace(COLUMN, depth_cm=20)  # then the plate of 45 cm is the wider
    assert steps(looked_at(plan(thin), ceiling_cm=D(215)))["foot 1"] == 45


@pytest.mark.parametrize(
    "made",
    [
        plan(plates=()),
        plan(plates=("Wide plate", "Wide plate")),
        plan(replace(COLUMN, longest_rigid_cm=90)),
    ],
    ids=["no foot", "two feet", "no stiff pole"],
)
def test_what_is_not_stood_up_as_one_needs_no_diagonal(made):
    assert "P705" not in [code for code, _ in codes(looked_at(made, ceiling_cm=D(211)))]


@pytest.mark.parametrize(
    ("width", "height", "fits"),
    [
        (None, None, True),
        ("61.4", "61.4", True),
        ("61.2", "200", False),
        ("200", "61.2", False),
        ("61.4", None, True),
        (None, "61.2", False),
        (None, "61.4", True),  # the width is not known, so it is taken to be wide enough
    ],
)
def test_through_the_door_lengthways(width, height, fits):
    job = {"door_width_cm": width and D(width), "door_height_cm": height and D(height)}
    found = looked_at(plan(), ceiling_cm=D(400), **job)
    assert codes(found) == ([] if fits else [("P706", "A")])
    assert told(found) == ([] if fits else [("P706", "Pieces!B67")])


def test_a_wall_goes_through_a_door_either_way_round_or_not_at_all():
    wall = replace(COLUMN, width_cm=240, height_cm=230, depth_cm=30, longest_rigid_cm=100)
    for width, height in ((91, 203), (203, 91)):
        found = looked_at(plan(wall, ()), ceiling_cm=D(400), door_width_cm=D(width), door_height_cm=D(height))
        assert codes(found) == [("P706", "A")]
    found = looked_at(plan(wall, ()), ceiling_cm=D(400), door_width_cm=D(91), door_height_cm=D(231))
    assert codes(found) == []


def test_stiff_parts_round_the_corners():
    assert codes(looked_at(plan(), ceiling_cm=D(400), way_length_cm=D("210.06"))) == []
    found = looked_at(plan(), ceiling_cm=D(400), way_length_cm=D(210))
    assert told(found) == [("P707", "Pieces!B67")]
    assert "Jobs!M2" in found.problems[0].why


@pytest.mark.parametrize(
    ("job", "is_asked"),
    [({}, True), ({"ceiling_cm": D(400)}, False), ({"is_outdoors": True}, False), ({"is_collected": True}, False)],
)
def test_the_client_is_asked_for_a_ceiling_that_nobody_has_told(job, is_asked):
    found = looked_at(plan(), **job)
    assert (("P708", "") in codes(found)) is is_asked
    lines = [line for line in found.value.cautions.client if "planned for a ceiling at least 7 ft 5 in high" in line]
    assert len(lines) == is_asked  # 210.06 + 15 cm are 88.6 in
    assert "P708" not in [p.code for p in found.problems]


def test_low_pieces_ask_for_no_ceiling():
    assert codes(looked_at(plan(replace(COLUMN, height_cm=200.0, longest_rigid_cm=200.0)))) == []


def test_a_client_reads_of_sprinklers_in_the_owners_words():
    wording = {"caution_sprinklers": "Under your sprinklers: {piece}"}
    found = looked_at(plan(), ceiling_cm=D(240), has_sprinklers=True, wording=wording)
    assert "Under your sprinklers: ring column" in found.value.cautions.client
    assert flag(found, "P703").is_for_client
    silent = looked_at(plan(), ceiling_cm=D(240), has_sprinklers=True, wording={"caution_sprinklers": " "})
    assert codes(silent) == codes(found)
    assert len(silent.value.cautions.client) == len(found.value.cautions.client) - 1


def test_pieces_without_a_size_are_passed_over():
    assert codes(looked_at(plan(None), plan(replace(COLUMN, height_cm=0)), ceiling_cm=D(1))) == []
