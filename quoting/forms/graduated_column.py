"""A column whose rings change from the foot to the middle and back again; the middle is rings or wound twisters."""

from __future__ import annotations

import math
from dataclasses import replace
from decimal import Decimal

from quoting.domain.jobs import Piece
from quoting.domain.measures import counted
from quoting.domain.plans import Outline, Plan
from quoting.domain.prices import Balloon, PriceBook
from quoting.domain.problems import Outcome
from quoting.forms.attachments import tall_words
from quoting.forms.columns import add_stand, choose_stand, describe_colours, finish_column, ring_fields
from quoting.forms.drafts import Draft
from quoting.forms.fields import TIED_ON, fields
from quoting.forms.formulas import kept_all
from quoting.forms.pattern_formulas import add_pattern_steps
from quoting.forms.patterns import Pattern, fitted_to, walk_colours
from quoting.forms.registry import Form
from quoting.forms.ring_layers import add_ring_layers
from quoting.forms.ring_parts import RingWork, add_ring_parts, ring_positions
from quoting.forms.stack_workings import add_count, add_rings_in_all, add_spans, add_stack_steps, add_width
from quoting.forms.stacks import Run, Stack, run_of, runs_of, stack_of
from quoting.forms.strands import add_strand_tasks, add_strands, choose_twisters, wind_strands


def plan(piece: Piece, prices: PriceBook) -> Outcome[Plan | None]:
    """Work out one graduated column. A twister middle makes the height exact; a middle of rings comes nearest to it."""
    draft = Draft(piece, prices)
    if not draft.has_all("colours", "foot_fills", "middle"):
        return draft.refused()
    asked = ring_fields(draft)
    typed = tuple(fill for fill in draft.items("foot_fills") if isinstance(fill, Decimal))
    foot = runs_of(draft, typed, asked.colours, "foot_fills")
    if draft.text("middle") == "twisters":
        draft.say_unused("with twisters in the middle", "middle_fill", "rings")
        twisters = choose_twisters(draft, asked.colours)
        if not draft.is_filled("height"):
            draft.complain("P515", "height", what="a middle of twisters")
        if foot is None or twisters is None or asked.pattern is None or draft.is_held:
            return draft.refused()
        return _with_twisters(draft, foot, twisters, asked.pattern, asked.per_ring)
    draft.say_unused("with rings in the middle", "twister", "strands", "turns")
    middle = _middle_run(draft, asked.colours, len(typed), foot)
    if foot is None or middle is None or asked.pattern is None:
        return draft.refused()
    return _with_rings(draft, foot, middle, asked.pattern, asked.per_ring)


def _mirrored(foot: tuple[Run, ...]) -> tuple[Run, ...]:
    return tuple(replace(run, mirrors=number) for number, run in reversed(list(enumerate(foot, 1))))


def _middle_run(draft: Draft, colours: tuple[str, ...], foot_rings: int, foot: tuple[Run, ...] | None) -> Run | None:
    height, rings, fill = draft.decimal("height"), draft.whole("rings"), draft.decimal("middle_fill")
    if fill is None:
        draft.complain("P523", "middle_fill", what="rings", heading="their fill", example="a length, e.g. 8 in")
    if height is None and rings is None:
        draft.complain("P512", "height")
    if height is not None and rings is not None:
        draft.complain("P513", "rings", heading="Rings", other="a height")
    if rings is not None and rings <= 2 * foot_rings:
        draft.complain("P524", "rings", rings=rings, ends=f"{counted(foot_rings, 'ring')} each")
    run = None if fill is None else run_of(draft, fill, 1, colours, "middle_fill")
    if run is None or foot is None or draft.is_held:
        return None
    if rings is None:
        return replace(run, is_free=True)
    ends = kept_all([f"rings {number}" for number in range(1, len(foot) + 1)])
    return replace(run, rings=rings - 2 * foot_rings, count_formula=f"{{rings wanted}}-2*({ends})")


def _with_rings(
    draft: Draft, foot: tuple[Run, ...], middle: Run, pattern: Pattern, per_ring: int
) -> Outcome[Plan | None]:
    wanted = draft.decimal("height")
    wanted_cm = None if wanted is None else float(wanted)
    ends = stack_of(draft, foot + _mirrored(foot), per_ring, "foot_fills", None)
    if ends is not None and wanted_cm is not None and ends.height_cm > wanted_cm:
        draft.complain("P522", "height", ends=draft.long(ends.height_cm), height=draft.long(wanted_cm))
    if ends is None or draft.is_held:
        return draft.refused()
    stack = stack_of(draft, (*foot, middle, *_mirrored(foot)), per_ring, "middle_fill", wanted_cm)
    fitted = None if stack is None else fitted_to(draft, pattern, stack.rings)
    if stack is None or fitted is None:
        return draft.refused()
    if wanted is not None:
        draft.length_step("height", "Height wanted", wanted)
    else:
        draft.step("rings wanted", "Rings wanted", stack.rings, unit="rings")
    add_stack_steps(draft, stack)
    work = _ring_work(draft, stack, fitted)
    foot_rings = sum(run.rings for run in foot)
    draft.description.append(
        f"{tall_words(draft, stack.height_cm)}, {counted(stack.rings, 'ring')} of {per_ring},"
        f" {foot_rings} graduated at each end")
    describe_colours(draft, fitted, work.walk)
    add_ring_parts(draft, work)
    stand = choose_stand(draft, stack.height_cm, stack.pole_room_cm)
    add_stand(draft, stand, stack.height_cm)
    layers = add_ring_layers(draft, work)
    draft.positions += ring_positions(work, [(0.0, y, math.pi / 2) for y in stack.ring_heights_cm], layers)
    outline = finish_column(draft, stand, height_cm=stack.height_cm, width_cm=stack.width_cm, rings=stack.rings,
                            add_other_tasks=lambda: None)
    return draft.finished(FORM.name, outline)


def _ring_work(draft: Draft, stack: Stack, pattern: Pattern) -> RingWork:
    """Add the steps that count along the pattern, and walk it."""
    add_rings_in_all(draft, stack)
    spans = add_spans(draft, stack)
    add_width(draft, stack)
    add_pattern_steps(draft, pattern, stack.rings, stack.per_ring, "rings in all")
    walk = walk_colours(pattern, stack.rings, stack.per_ring)
    return RingWork(runs=stack.runs, per_ring=stack.per_ring, pattern=pattern, walk=walk, spans=spans)


def _with_twisters(
    draft: Draft, foot: tuple[Run, ...], twisters: tuple[Balloon, ...], pattern: Pattern, per_ring: int
) -> Outcome[Plan | None]:
    height_cm = float(draft.decimal("height") or 0)
    end = stack_of(draft, foot, per_ring, "foot_fills", None)
    if end is None:
        return draft.refused()
    if 2 * end.height_cm >= height_cm:
        draft.complain("P522", "height", ends=draft.long(2 * end.height_cm), height=draft.long(height_cm))
    end = replace(end, is_numbered=True)
    both = replace(end, runs=foot + _mirrored(foot))
    fitted = fitted_to(draft, pattern, both.rings)
    if fitted is None or draft.is_held:
        return draft.refused()
    return _wound(draft, end, both, twisters, fitted)


def _wound(
    draft: Draft, end: Stack, both: Stack, twisters: tuple[Balloon, ...], pattern: Pattern
) -> Outcome[Plan | None]:
    height_cm = float(draft.decimal("height") or 0)
    middle_cm = height_cm - 2 * end.height_cm
    draft.length_step("height", "Height wanted", height_cm)
    add_stack_steps(draft, end, height="End height")
    for number, run in enumerate(both.runs, 1):
        if run.mirrors:
            add_count(draft, both, number, run)
    work = _ring_work(draft, both, pattern)
    draft.length_step("middle height", "Height of the middle", middle_cm, formula="{height}-2*{end height}")
    draft.length_step("built height", "Built height", height_cm, formula="2*{end height}+{middle height}")
    stand = choose_stand(draft, height_cm, both.pole_room_cm)
    strands = wind_strands(draft, twisters, middle_cm, stand.pole_diameter_cm)
    if strands is None:
        return draft.refused()
    draft.description.append(
        f"{tall_words(draft, height_cm)}, {counted(end.rings, 'ring')} of {end.per_ring} at each end,"
        f" {counted(strands.strands, 'wound strand')} of twisters between")
    describe_colours(draft, pattern, work.walk)
    add_ring_parts(draft, work)
    add_stand(draft, stand, height_cm)
    layers = add_ring_layers(draft, work, 0, end.rings)
    add_strands(draft, strands, end.height_cm)
    layers += add_ring_layers(draft, work, end.rings)
    low = end.ring_heights_cm
    heights = low + tuple(height_cm - y for y in reversed(low))
    draft.positions += ring_positions(work, [(0.0, y, math.pi / 2) for y in heights], layers)
    outline: Outline = finish_column(
        draft, stand, height_cm=height_cm, width_cm=both.width_cm, rings=both.rings,
        add_other_tasks=lambda: add_strand_tasks(draft, strands))
    return draft.finished(FORM.name, outline)


FORM = Form(
    name="graduated column",
    summary="Rings that change from foot and top to the middle, which is rings or wound twisters.",
    fields=fields(
        "height", "rings", "foot_fills*", "middle*", "middle_fill", "twister", "strands", "turns",
        "per_ring", "pattern", "colours*", "shares", "blocks", *TIED_ON, "base", "pole",
    ),
    plan=plan,
    example={
        "height": "6 ft", "foot_fills": "10 in, 8 in, 5 in", "middle": "twisters", "turns": "3", "colours": "white",
    },
)
