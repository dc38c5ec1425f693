"""A column whose list of fills starts again and again up to a height or a number of rings."""

from __future__ import annotations

import math
from dataclasses import replace
from decimal import Decimal

from quoting.domain.measures import counted
from quoting.domain.plans import Plan
from quoting.domain.problems import Outcome
from quoting.forms.attachments import tall_words
from quoting.forms.columns import RingFields, add_stand, choose_stand, describe_colours, finish_column
from quoting.forms.drafts import HEADINGS, Draft
from quoting.forms.pattern_formulas import add_pattern_steps
from quoting.forms.patterns import Pattern, fitted_to
from quoting.forms.repeat_workings import add_column_rings, add_cycle_steps, add_ring_counts
from quoting.forms.repeats import Repeat, add_repeat_parts, is_too_much, repeat_of, work_of
from quoting.forms.ring_layers import add_ring_layers
from quoting.forms.ring_parts import ring_positions


def plan_repeated(draft: Draft, asked: RingFields, form: str) -> Outcome[Plan | None]:
    """Work out a ring column whose fills repeat; `form` is the name its plan carries."""
    repeat = _repeat(draft, asked)
    if repeat is None or asked.pattern is None or draft.is_held:
        return draft.refused()
    pattern = fitted_to(draft, asked.pattern, repeat.rings)
    return draft.refused() if pattern is None else _built(draft, repeat, pattern, form)


def _repeat(draft: Draft, asked: RingFields) -> Repeat | None:
    """Give the rings, typed or as the height takes; reports at the cells that don't say or contradict."""
    fills = tuple(fill for fill in draft.items("fills") if isinstance(fill, Decimal))
    height, rings = draft.decimal("height"), draft.whole("rings")
    if not fills:
        draft.complain("P538", "fills", heading=HEADINGS["fills"])
    if draft.is_filled("fill"):
        draft.complain("P513", "fill", heading=HEADINGS["fill"], other="a list of fills")
    if height is None and rings is None:
        draft.complain("P512", "height")
    if height is not None and rings is not None:
        draft.complain("P513", "rings", heading="Rings", other="a height")
    repeat = repeat_of(draft, fills, asked.colours, asked.per_ring, "fills") if fills else None
    if repeat is None or draft.is_held:
        return None
    repeat = repeat.with_height(float(height)) if height is not None else replace(repeat, rings=rings or 1)
    return None if is_too_much(draft, repeat, "height" if height is not None else "rings") else repeat


def _built(draft: Draft, repeat: Repeat, pattern: Pattern, form: str) -> Outcome[Plan | None]:
    wanted = draft.decimal("height")
    if wanted is not None:
        draft.length_step("height", "Height wanted", wanted)
    add_cycle_steps(draft, repeat)
    add_column_rings(draft, repeat, None if wanted is None else float(wanted))
    add_ring_counts(draft, repeat)
    add_pattern_steps(draft, pattern, repeat.rings, repeat.per_ring, "rings in all")
    stack, work = repeat.stack, work_of(repeat, pattern)
    fills = " and ".join(dict.fromkeys(draft.short(run.fill_cm) for run in repeat.cycle))
    draft.description.append(
        f"{tall_words(draft, stack.height_cm)}, {counted(stack.rings, 'ring')} of {stack.per_ring}, {fills} in turn")
    describe_colours(draft, pattern, work.walk)
    add_repeat_parts(draft, repeat, work)
    stand = choose_stand(draft, stack.height_cm, stack.pole_room_cm)
    add_stand(draft, stand, stack.height_cm)
    layers = add_ring_layers(draft, work)
    places = [(0.0, height, math.pi / 2) for height in stack.ring_heights_cm]
    draft.positions += ring_positions(work, places, layers)
    outline = finish_column(draft, stand, height_cm=stack.height_cm, width_cm=stack.width_cm, rings=stack.rings,
                            add_other_tasks=lambda: None)
    return draft.finished(form, outline)
