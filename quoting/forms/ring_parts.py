"""Rings of balloons as parts, build layers and positions, all from one walk of the colour pattern."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from quoting.domain.plans import Part, Position
from quoting.domain.prices import Balloon
from quoting.forms.drafts import Draft
from quoting.forms.pattern_formulas import Span, count_formula
from quoting.forms.patterns import Pattern, Walk
from quoting.forms.stacks import Run
from quoting.geometry.curves import CurvePoint
from quoting.geometry.rings import ring_radius


@dataclass(frozen=True, slots=True, kw_only=True)
class RingWork:
    """The rings of a piece, in order: their runs, the pattern walked over them, and the keys of the runs' steps."""

    runs: tuple[Run, ...]
    per_ring: int
    pattern: Pattern
    walk: Walk
    spans: tuple[Span, ...]

    @property
    def run_numbers(self) -> tuple[int, ...]:
        """Number of the run (from 0) of every ring."""
        return tuple(number for number, run in enumerate(self.runs) for _ in range(run.rings))


def add_ring_parts(draft: Draft, work: RingWork) -> None:
    """Add one part per balloon and fill, in the order they are first needed, counted by walking."""
    walked: Counter[tuple[int, int]] = Counter()
    for run_number, ring in zip(work.run_numbers, work.walk, strict=True):
        walked.update((run_number, colour) for colour in ring)
    groups: dict[tuple[str, float], list[tuple[int, int]]] = {}
    for number, run in enumerate(work.runs):
        for colour, balloon in enumerate(run.balloons):
            groups.setdefault((balloon.item, run.fill_cm), []).append((number, colour))
    for (_, fill), pairs in groups.items():
        count = sum(walked[pair] for pair in pairs)
        if not count:
            continue
        colours = tuple(sorted({colour for _, colour in pairs}))
        spans = tuple(work.spans[number] for number in sorted({number for number, _ in pairs}))
        balloon = work.runs[pairs[0][0]].balloons[pairs[0][1]]
        formula = count_formula(work.pattern, colours, spans, len(work.walk) * work.per_ring)
        words = f"counted along the pattern {work.pattern.name}"
        draft.add_part(_part(balloon, count, fill), formula=formula, words=words)


def _part(balloon: Balloon, count: int, fill_cm: float) -> Part:
    return Part(item=balloon.item, count=count, role="ring", colour=balloon.colour, fill_cm=fill_cm)


def add_ring_layers(draft: Draft, work: RingWork, first: int = 0, last: int | None = None) -> tuple[int, ...]:
    """Add the build steps of rings `first` to `last` (from 0, last not included), equal neighbours in one step.

    Gives the number of the step of each of these rings.
    """
    numbers = work.run_numbers
    rings = range(first, len(numbers) if last is None else last)
    layers: list[int] = []
    for (run_number, _), group in groupby(rings, key=lambda ring: (numbers[ring], tuple(sorted(work.walk[ring])))):
        members = tuple(group)
        run = work.runs[run_number]
        balloons = Counter(run.balloons[colour].item for colour in sorted(work.walk[members[0]]))
        by_item = {balloon.item: balloon for balloon in run.balloons}
        what = ", ".join(f"{count} × {item}" for item, count in balloons.items())
        name = f"Ring {members[0] + 1}" if len(members) == 1 else f"Rings {members[0] + 1}–{members[-1] + 1}, each"
        parts = tuple(_part(by_item[item], count * len(members), run.fill_cm) for item, count in balloons.items())
        layers += [draft.add_layer(f"{name}: {what} at {draft.short(run.fill_cm)}", parts)] * len(members)
    return tuple(layers)


def ring_positions(
    work: RingWork, places: Sequence[CurvePoint], layers: Sequence[int]
) -> tuple[Position, ...]:
    """Give one position per balloon: rings stand across the direction of their axis, each turned by half a place.

    `places` are the middle (x, y in cm) and the axis' direction of every ring.
    """
    positions = []
    for ring, (run_number, colours) in enumerate(zip(work.run_numbers, work.walk, strict=True)):
        run = work.runs[run_number]
        x, y, direction = places[ring]
        radius = ring_radius(run.fill_cm, work.per_ring)
        for place, colour in enumerate(colours):
            angle = (2 * place + ring) * math.pi / work.per_ring
            across = radius * math.cos(angle)
            positions.append(Position(
                x_cm=x + across * math.sin(direction), y_cm=y - across * math.cos(direction),
                z_cm=radius * math.sin(angle), diameter_cm=run.fill_cm, colour=run.balloons[colour].colour,
                item=run.balloons[colour].item, role="ring", layer=layers[ring],
            ))
    return tuple(positions)


PATTERN_WORDS = {
    "solid": "", "spiral": " in a spiral", "bands": " in bands", "blocks": " in blocks", "mix": " mixed",
}


def colour_words(pattern: Pattern) -> str:
    """Say the colours and their pattern for the client: "Ivory and sage in a spiral"."""
    names = list(dict.fromkeys(pattern.colours))
    listed = names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
    return listed[:1].upper() + listed[1:] + PATTERN_WORDS[pattern.name]
