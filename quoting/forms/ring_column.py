"""A column of rings round a pole: one fill all the way, or a list of fills from the floor up."""

from __future__ import annotations

import math
from dataclasses import replace
from decimal import Decimal

from quoting.domain.jobs import Piece
from quoting.domain.measures import counted
from quoting.domain.plans import Plan
from quoting.domain.prices import PriceBook
from quoting.domain.problems import Outcome
from quoting.forms.attachments import tall_words
from quoting.forms.balloon_choice import usual_fill
from quoting.forms.columns import add_stand, choose_stand, describe_colours, finish_column, ring_fields
from quoting.forms.drafts import HEADINGS, Draft
from quoting.forms.fields import TIED_ON, fields
from quoting.forms.pattern_formulas import add_pattern_steps
from quoting.forms.patterns import Pattern, fitted_to, walk_colours
from quoting.forms.registry import Form
from quoting.forms.repeated_column import plan_repeated
from quoting.forms.ring_layers import add_ring_layers
from quoting.forms.ring_parts import RingWork, add_ring_parts, ring_positions
from quoting.forms.stack_workings import add_rings_in_all, add_spans, add_stack_steps, add_width
from quoting.forms.stacks import Run, Stack, run_of, runs_of, stack_of


def plan(piece: Piece, prices: PriceBook) -> Outcome[Plan | None]:
    """Work out one ring column; the count of rings is the one whose built height is nearest to the height wanted."""
    draft = Draft(piece, prices)
    if not draft.has_all("colours"):
        return draft.refused()
    asked = ring_fields(draft)
    if draft.says_yes("repeat"):
        return plan_repeated(draft, asked, FORM.name)
    runs = _listed_runs(draft, asked.colours) if draft.is_filled("fills") else _equal_run(draft, asked.colours)
    if runs is None or asked.pattern is None or draft.is_held:
        return draft.refused()
    wanted = draft.decimal("height")
    key = "fills" if draft.is_filled("fills") else "fill"
    stack = stack_of(draft, runs, asked.per_ring, key, None if wanted is None else float(wanted))
    pattern = None if stack is None else fitted_to(draft, asked.pattern, stack.rings)
    if stack is None or pattern is None:
        return draft.refused()
    return _built(draft, stack, pattern)


def _listed_runs(draft: Draft, colours: tuple[str, ...]) -> tuple[Run, ...] | None:
    typed = tuple(fill for fill in draft.items("fills") if isinstance(fill, Decimal))
    for key in ("fill", "height"):
        if draft.is_filled(key):
            draft.complain("P513", key, heading=HEADINGS[key], other="a list of fills")
    if draft.whole("rings", len(typed)) != len(typed):
        draft.complain("P513", "rings", heading="Rings", other=f"a list of {len(typed)} fills")
    return runs_of(draft, typed, colours, "fills")


def _equal_run(draft: Draft, colours: tuple[str, ...]) -> tuple[Run, ...] | None:
    height, rings = draft.decimal("height"), draft.whole("rings")
    if height is None and rings is None:
        draft.complain("P512", "height")
    if height is not None and rings is not None:
        draft.complain("P513", "rings", heading="Rings", other="a height")
    fill = fill_or_usual(draft, colours)
    run = None if fill is None else run_of(draft, fill, rings or 1, colours, "fill")
    return None if run is None else (replace(run, is_free=rings is None),)


def fill_or_usual(draft: Draft, colours: tuple[str, ...]) -> Decimal | None:
    """Give the fill typed (cm), else the usual fill of the size typed; reports where there is neither."""
    fill, size = draft.decimal("fill"), draft.whole("size")
    if fill is not None:
        return fill
    if size is None:
        draft.complain("P501", "fill")
        return None
    return usual_fill(draft, size, colours)


def _built(draft: Draft, stack: Stack, pattern: Pattern) -> Outcome[Plan | None]:
    wanted = draft.decimal("height")
    if wanted is not None:
        draft.length_step("height", "Height wanted", wanted)
    add_stack_steps(draft, stack)
    add_rings_in_all(draft, stack)
    spans = add_spans(draft, stack)
    add_width(draft, stack)
    add_pattern_steps(draft, pattern, stack.rings, stack.per_ring, "rings in all")
    walk = walk_colours(pattern, stack.rings, stack.per_ring)
    work = RingWork(runs=stack.runs, per_ring=stack.per_ring, pattern=pattern, walk=walk, spans=spans)
    draft.description.append(
        f"{tall_words(draft, stack.height_cm)}, {counted(stack.rings, 'ring')} of {stack.per_ring}")
    describe_colours(draft, pattern, walk)
    add_ring_parts(draft, work)
    stand = choose_stand(draft, stack.height_cm, stack.pole_room_cm)
    add_stand(draft, stand, stack.height_cm)
    layers = add_ring_layers(draft, work)
    places = [(0.0, height, math.pi / 2) for height in stack.ring_heights_cm]
    draft.positions += ring_positions(work, places, layers)
    outline = finish_column(draft, stand, height_cm=stack.height_cm, width_cm=stack.width_cm, rings=stack.rings,
                            add_other_tasks=lambda: None)
    return draft.finished(FORM.name, outline)


FORM = Form(
    name="ring column",
    summary="Rings of balloons round a pole: one fill all the way, or a list of fills from the floor up.",
    fields=fields(
        "height", "rings", "size", "fill", "fills", "repeat", "per_ring", "pattern", "colours*", "shares", "blocks",
        *TIED_ON, "base", "pole",
    ),
    plan=plan,
    example={"height": "6 ft", "fill": "9.5 in", "pattern": "spiral", "colours": "white, pink"},
)
