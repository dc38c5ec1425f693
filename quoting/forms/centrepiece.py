"""A table centrepiece: a collar of rings at the foot, a bare stem, and a cluster or a topper at its top."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from decimal import Decimal

from quoting.domain.jobs import Piece
from quoting.domain.plans import Plan
from quoting.domain.prices import PriceBook
from quoting.domain.problems import Outcome
from quoting.forms.attachments import tall_words
from quoting.forms.columns import add_stand, choose_stand, describe_colours, finish_column, ring_fields
from quoting.forms.drafts import HEADINGS, Draft
from quoting.forms.fields import TIED_ON, fields
from quoting.forms.pattern_formulas import add_pattern_steps
from quoting.forms.patterns import Pattern, fitted_to, walk_colours
from quoting.forms.registry import Form
from quoting.forms.ring_column import fill_or_usual
from quoting.forms.ring_layers import add_ring_layers
from quoting.forms.ring_parts import RingWork, add_ring_parts, ring_positions
from quoting.forms.stack_workings import (
    add_count,
    add_rings_in_all,
    add_run_steps,
    add_spans,
    add_stack_steps,
    add_width,
)
from quoting.forms.stacks import Run, Stack, run_of, runs_of, stack_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Centrepiece:
    """The collar's rings, those with the cluster at the top as last run, and the height (cm)."""

    collar: Stack
    whole: Stack
    height_cm: float

    @property
    def has_cluster(self) -> bool:
        """True where a cluster sits at the top of the stem, not only a topper."""
        return len(self.whole.runs) > len(self.collar.runs)

    @property
    def cluster_fill_cm(self) -> float:
        """Fill of the cluster at the top, 0 without one."""
        return self.whole.runs[-1].fill_cm if self.has_cluster else 0.0


def plan(piece: Piece, prices: PriceBook) -> Outcome[Plan | None]:
    """Work out one centrepiece. Its height is exact: the stem is cut to it."""
    draft = Draft(piece, prices)
    if not draft.has_all("height", "colours"):
        return draft.refused()
    asked = ring_fields(draft)
    top_fill = draft.decimal("top_fill")
    if top_fill is None and not draft.is_filled("topper"):
        draft.complain("P558", "top_fill", form=FORM.name, needs="a top: the fill of a cluster, or a topper",
                       example="5 in")
    runs = _collar_runs(draft, asked.colours)
    collar = None if runs is None else stack_of(draft, runs, asked.per_ring, "fills", None)
    top = None if top_fill is None else run_of(draft, top_fill, 1, asked.colours, "top_fill")
    if collar is None or asked.pattern is None or draft.is_held:
        return draft.refused()
    collar = replace(collar, is_numbered=top is not None)
    whole = collar if top is None else replace(collar, runs=(*collar.runs, top))
    made = Centrepiece(collar=collar, whole=whole, height_cm=float(draft.decimal("height") or 0))
    ends = collar.height_cm + made.cluster_fill_cm
    if ends > made.height_cm:
        draft.complain("P559", "height", ends=draft.long(ends), height=draft.long(made.height_cm))
    pattern = fitted_to(draft, asked.pattern, whole.rings)
    return draft.refused() if pattern is None or draft.is_held else _built(draft, made, pattern)


def _collar_runs(draft: Draft, colours: tuple[str, ...]) -> tuple[Run, ...] | None:
    """Give the collar's rings: a list of fills from the table up, or one ring of one fill."""
    typed = tuple(fill for fill in draft.items("fills") if isinstance(fill, Decimal))
    if typed:
        if draft.is_filled("fill"):
            draft.complain("P513", "fill", heading=HEADINGS["fill"], other="a list of fills")
        return runs_of(draft, typed, colours, "fills")
    fill = fill_or_usual(draft, colours)
    run = None if fill is None else run_of(draft, fill, 1, colours, "fill")
    return None if run is None else (run,)


def _built(draft: Draft, made: Centrepiece, pattern: Pattern) -> Outcome[Plan | None]:
    height_cm, whole = made.height_cm, made.whole
    work = _add_steps(draft, made, pattern)
    cluster = f", a cluster of {whole.per_ring} at its top" if made.has_cluster else ""
    draft.description.append(
        f"{tall_words(draft, height_cm)}, a collar of {made.collar.rings * whole.per_ring}{cluster}")
    describe_colours(draft, pattern, work.walk)
    add_ring_parts(draft, work)
    stand = choose_stand(draft, height_cm - made.cluster_fill_cm / 2, whole.pole_room_cm)
    add_stand(draft, stand, height_cm - made.cluster_fill_cm / 2)
    layers = add_ring_layers(draft, work)
    heights = made.collar.ring_heights_cm
    if made.has_cluster:
        heights = (*heights, height_cm - made.cluster_fill_cm / 2)
    draft.positions += ring_positions(work, [(0.0, y, math.pi / 2) for y in heights], layers)
    outline = finish_column(draft, stand, height_cm=height_cm, width_cm=whole.width_cm, rings=whole.rings,
                            add_other_tasks=lambda: None)
    return draft.finished(FORM.name, outline)


def _add_steps(draft: Draft, made: Centrepiece, pattern: Pattern) -> RingWork:
    whole = made.whole
    draft.length_step("height", "Height wanted", made.height_cm)
    add_stack_steps(draft, made.collar, height="Collar height")
    ends = "{collar height}"
    if made.has_cluster:
        number = len(whole.runs)
        add_run_steps(draft, whole, number, whole.runs[-1])
        add_count(draft, whole, number, whole.runs[-1])
        ends += f"+{{fill {number}}}"
    draft.length_step("stem", "Bare stem", made.height_cm - made.collar.height_cm - made.cluster_fill_cm,
                      formula=f"{{height}}-({ends})")
    draft.length_step("built height", "Built height", made.height_cm, formula=f"{ends}+{{stem}}")
    add_rings_in_all(draft, whole)
    spans = add_spans(draft, whole)
    add_width(draft, whole)
    add_pattern_steps(draft, pattern, whole.rings, whole.per_ring, "rings in all")
    walk = walk_colours(pattern, whole.rings, whole.per_ring)
    return RingWork(runs=whole.runs, per_ring=whole.per_ring, pattern=pattern, walk=walk, spans=spans)


FORM = Form(
    name="centrepiece",
    summary="A collar of balloons, a stem, and a cluster or a topper at its top, for a table.",
    fields=fields("height*", "size", "fill", "fills", "top_fill", "per_ring", "pattern", "colours*", "shares", "blocks",
                  *TIED_ON, "base", "pole"),
    plan=plan,
    example={"height": "24 in", "fill": "4.5 in", "top_fill": "4.5 in", "per_ring": "4", "pattern": "bands",
             "colours": "white, pink", "base": "Base plate small"},
)
