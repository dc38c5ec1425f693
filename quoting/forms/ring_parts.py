"""Rings of balloons as parts, build layers and positions, all from one walk of the colour pattern."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

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
        draft.add_part(ring_part(balloon, count, fill), formula=formula, words=words)


def ring_part(balloon: Balloon, count: int, fill_cm: float) -> Part:
    """Give so many balloons of rings as a part."""
    return Part(item=balloon.item, count=count, role="ring", colour=balloon.colour, fill_cm=fill_cm)


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


def listed(names: list[str]) -> str:
    """Say names in a row: "ivory, sage and coral"."""
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def colour_words(pattern: Pattern, walk: Walk | None = None) -> str:
    """Say the colours and their pattern for the client: "Ivory and sage in a spiral".

    With a walk, only the colours that it comes to: a short piece may have no room for all.
    """
    walked = None if walk is None else {colour for ring in walk for colour in ring}
    names = list(dict.fromkeys(
        colour for number, colour in enumerate(pattern.colours) if walked is None or number in walked))
    words = listed(names)
    return words[:1].upper() + words[1:] + (PATTERN_WORDS[pattern.name] if len(names) > 1 else "")
