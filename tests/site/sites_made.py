"""Jobs with plans of known outlines, looked at as the evening does. All data invented."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import costing_made as costing

from quoting.checking.wording import standard_wording
from quoting.domain.plans import HireNeed, Outline, Part
from quoting.domain.prices import Shape
from quoting.site.findings import look_at_site

PLATE = costing.hardware("Wide plate", diameter_cm=Decimal(45), mass_kg=Decimal(2))
HARDWARE = (
    PLATE,
    costing.hardware("Bare plate", mass_kg=Decimal(2)),
    costing.hardware("Sand bag", "weight", mass_kg=Decimal(10)),
    costing.hardware("Gift weight", "weight", mass_kg=Decimal("0.2")),
)
BALLOONS = (
    costing.balloon("Round 11 ivory", hours_afloat=Decimal(14)),
    costing.balloon("Round 16 sage", size=16, breakage=Decimal("0.1"), hours_afloat=Decimal(30)),
    costing.balloon("Round 24 coral", size=24),
    costing.balloon("Foil star", shape=Shape.FOIL, size=18, breakage=Decimal("0.2"), hours_afloat=Decimal(120)),
)
COLUMN = Outline(
    width_cm=61.3, height_cm=210.06, depth_cm=61.3, longest_rigid_cm=210.06, packed_volume_l=100, mass_g=2500
)


def plan(outline=COLUMN, plates=("Wide plate",), rounds=(("Round 11 ivory", 24.13, "ring"),), **changes):
    parts = [Part(item=item, count=4, role=role, fill_cm=fill) for item, fill, role in rounds]
    parts += [Part(item=item, count=1, role="base") for item in plates]
    return replace(costing.plan(), parts=tuple(parts), outline=outline, **changes)


def hired(outline=COLUMN, plate="Wide plate", count=2):
    return replace(plan(outline, ()), hire=(HireNeed(item=plate, count=count),))


def looked_at(*plans, shop=None, wording=None, **job):
    """What the site room finds: outcome of `look_at_site` for pieces A, B…"""
    pieces = [(costing.piece(chr(65 + n)), made) for n, made in enumerate(plans)]
    pieces = [
        (replace(p, row=replace(p.row, columns={**p.row.columns, "height": 20, "fill": 21})), made)
        for p, made in pieces
    ]
    book = costing.prices(shop, balloons=BALLOONS, hardware=HARDWARE, wording={**standard_wording(), **(wording or {})})
    made = costing.job([p for p, _ in pieces], **job)
    columns = {"ceiling": 10, "door_width": 11, "door_height": 12, "way_length": 13}
    made = replace(made, row=replace(made.row, columns={**made.row.columns, **columns}))
    return look_at_site(made, pieces, book)


def codes(outcome):
    """(code, piece) of every flag, in order."""
    return [(flag.code, flag.piece) for flag in outcome.value.flags]


def told(outcome):
    """(code, cell) of every problem, in order."""
    return [(p.code, f"{p.place.sheet}!{p.place.cell}") for p in outcome.problems]


def flag(outcome, code):
    return next(each for each in outcome.value.flags if each.code == code)


def figures(outcome, code):
    """Label → value of a flag's figures."""
    return {figure.label: figure.value for figure in flag(outcome, code).figures}


def steps(outcome):
    """Key → value of the workings."""
    return {step.key: step.value for section in outcome.value.workings for step in section.steps}
