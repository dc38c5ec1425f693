"""Rings whose fills repeat, as in "10 in, 8 in, 10 in, 8 in…": the cycle, how many rings, and their parts."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from itertools import pairwise

from quoting.domain.counts import nearest_count
from quoting.domain.plans import Part
from quoting.forms.drafts import Draft
from quoting.forms.formulas import kept, total
from quoting.forms.pattern_formulas import rank_in_mix
from quoting.forms.patterns import Pattern, walk_colours
from quoting.forms.ring_parts import RingWork
from quoting.forms.stacks import MOST_RINGS, Run, Stack, run_of
from quoting.geometry.rings import ring_pitch

TIE_CM = 1e-7
"""Two heights that miss the wanted one by as much are a tie, but for float noise."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Repeat:
    """A cycle of rings (runs of one ring each) that starts again and again; lengths in cm."""

    cycle: tuple[Run, ...]
    per_ring: int
    tightness: float
    rings: int = 1

    @property
    def steps_cm(self) -> tuple[float, ...]:
        """Built pitch from each ring of the cycle to the next, the last to the first."""
        fills = [run.fill_cm for run in self.cycle]
        return tuple(self.tightness * (ring_pitch(a, b, self.per_ring) or 0.0)
                     for a, b in pairwise([*fills, fills[0]]))

    @property
    def cycle_cm(self) -> float:
        """Height that a whole cycle adds."""
        return sum(self.steps_cm)

    @property
    def starts_cm(self) -> tuple[float, ...]:
        """Built height of the first ring alone, of the first two… of the first cycle."""
        fills = [run.fill_cm for run in self.cycle]
        return tuple(fills[0] / 2 + sum(self.steps_cm[:ring]) + fill / 2 for ring, fill in enumerate(fills))

    @property
    def stack(self) -> Stack:
        """The same rings one by one."""
        runs = tuple(self.cycle[ring % len(self.cycle)] for ring in range(self.rings))
        return Stack(runs=runs, per_ring=self.per_ring, tightness=self.tightness)

    def cycles_before(self, ring: int, wanted_cm: float) -> int:
        """How many whole cycles before a last one of `ring` rings come nearest to a height."""
        return max(0, nearest_count((wanted_cm - self.starts_cm[ring - 1]) / self.cycle_cm))

    def with_height(self, wanted_cm: float) -> Repeat:
        """Give so many rings that the built height is nearest to the wanted; a tie takes the taller."""
        counts = []
        for ring, start in enumerate(self.starts_cm, 1):
            cycles = self.cycles_before(ring, wanted_cm)
            counts.append((abs(wanted_cm - start - cycles * self.cycle_cm), cycles * len(self.cycle) + ring))
        least = min(miss for miss, _ in counts)
        return replace(self, rings=max(rings for miss, rings in counts if miss <= least + TIE_CM))

    def with_length(self, length_cm: float) -> Repeat:
        """Give so many rings that their built pitches come nearest to a line's length, at least 1; a tie takes more."""
        return replace(self, rings=max(1, nearest_count(length_cm / (self.cycle_cm / len(self.cycle)))))


def repeat_of(
    draft: Draft, fills: Sequence[Decimal], colours: tuple[str, ...], per_ring: int, key: str
) -> Repeat | None:
    """Make a cycle from fills (cm); reports at the fills' cell `key`, or at the size's or colours'."""
    runs = [run_of(draft, fill, 1, colours, key) for fill in fills]
    cycle = tuple(run for run in runs if run is not None)
    if len(cycle) < len(runs):
        return None
    for lower, upper in pairwise([*cycle, cycle[0]]):
        if ring_pitch(lower.fill_cm, upper.fill_cm, per_ring) is None:
            draft.complain("P514", key, first=draft.short(lower.fill_cm), second=draft.short(upper.fill_cm))
            return None
    return Repeat(cycle=cycle, per_ring=per_ring, tightness=float(draft.prices.shop.tightness))


def is_too_much(draft: Draft, repeat: Repeat, key: str) -> bool:
    """Report more rings than a piece can have at the cell that asks for them."""
    if repeat.rings > MOST_RINGS:
        draft.complain("P537", key, most=MOST_RINGS, what="rings")
    return repeat.rings > MOST_RINGS


def work_of(repeat: Repeat, pattern: Pattern) -> RingWork:
    """Walk a fitted pattern over the rings. There are no runs to count by, so there are no spans."""
    walk = walk_colours(pattern, repeat.rings, repeat.per_ring)
    return RingWork(runs=repeat.stack.runs, per_ring=repeat.per_ring, pattern=pattern, walk=walk, spans=())


def add_repeat_parts(draft: Draft, repeat: Repeat, work: RingWork, role: str = "ring") -> tuple[Part, ...]:
    """Add one part per balloon and fill, counted by walking; refers to "rings in all" and "rings of fill N"."""
    walked: Counter[tuple[int, int]] = Counter()
    for ring, places in enumerate(work.walk):
        walked.update((ring % len(repeat.cycle), colour) for colour in places)
    groups: dict[tuple[str, float], list[tuple[int, int]]] = {}
    for place, run in enumerate(repeat.cycle):
        for colour, balloon in enumerate(run.balloons):
            groups.setdefault((balloon.item, run.fill_cm), []).append((place, colour))
    parts = []
    for (_, fill_cm), pairs in groups.items():
        count = sum(walked[pair] for pair in pairs)
        if not count:
            continue
        balloon = repeat.cycle[pairs[0][0]].balloons[pairs[0][1]]
        part = Part(item=balloon.item, count=count, role=role, colour=balloon.colour, fill_cm=fill_cm)
        formula = total(_count_formula(work.pattern, len(repeat.cycle), place, colour, repeat.rings * repeat.per_ring)
                        for place, colour in pairs)
        draft.add_part(part, formula=formula, words=f"counted along the pattern {work.pattern.name}")
        parts.append(part)
    return tuple(parts)


def _count_formula(pattern: Pattern, cycle: int, place: int, colour: int, places: int) -> str:
    """Count the balloons of a colour (from 0) in the rings at a place (from 0) of the cycle."""
    colours, mine = len(pattern.colours), kept(f"rings of fill {place + 1}")
    if pattern.name in ("solid", "spiral"):
        return f"{{per ring}}*{mine}/{colours}"
    rows = f"ROW($1:${max(2000, 2 * places)})"
    if pattern.name == "mix":
        number = colour + 1
        ring = f"INT(({rank_in_mix(pattern, number, rows)}-1)/{{per ring}})"
        count = kept(f"mix {number}")
        if cycle == 1:
            return count
        return f"IF({count}=0,0,SUMPRODUCT(({rows}<={count})*(MOD({ring},{cycle})={place})))"
    here = f"({rows}<={{rings in all}})*(MOD({rows}-1,{cycle})={place})"
    if pattern.name == "bands":
        return f"{{per ring}}*SUMPRODUCT({here}*(MOD({rows}-1,{colours})={colour}))"
    start = kept(f"block end {colour}") if colour else "0"
    return f"{{per ring}}*SUMPRODUCT({here}*({rows}>{start})*({rows}<={kept(f'block end {colour + 1}')}))"
