"""Rings as steps of the build order: equal ones together, and those that follow each other in turn."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from quoting.domain.measures import counted
from quoting.domain.plans import Part
from quoting.forms.drafts import Draft
from quoting.forms.ring_parts import RingWork, ring_part

LONGEST_CYCLE = 8
"""Rings that are told in one step as following each other in turn; more are told one by one."""


@dataclass(frozen=True, slots=True)
class _Ring:
    """What a ring is made of: its fill (cm), and how many there are of every item and of every colour, as typed."""

    fill_cm: float
    items: tuple[tuple[str, int], ...]
    colours: tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Stretch:
    """Rings of one step: from number `first` (from 0) on, the `cycle` again and again; () for rings in no order."""

    first: int
    rings: tuple[_Ring, ...]
    cycle: tuple[_Ring, ...]


def add_ring_layers(draft: Draft, work: RingWork, first: int = 0, last: int | None = None) -> tuple[int, ...]:
    """Add the build steps of rings `first` to `last` (from 0, last not included).

    Equal neighbours make one step; so do rings that take turns, and all rings of a mix
    that repeats nothing: their order matters to nobody. Gives the number of each ring's step.
    """
    rings = [_ring(work, number) for number in range(len(work.walk))][first:last]
    layers: list[int] = []
    for stretch in _stretches(rings, first, is_mix=work.pattern.name == "mix"):
        text = f"{_numbers(stretch)}{_words(draft, stretch)}"
        layers += [draft.add_layer(text, _parts(draft, stretch))] * len(stretch.rings)
    return tuple(layers)


def _ring(work: RingWork, number: int) -> _Ring:
    run, colours = work.runs[work.run_numbers[number]], sorted(work.walk[number])
    items = Counter(run.balloons[colour].item for colour in colours)
    names = Counter(work.pattern.colours[colour] for colour in colours)
    return _Ring(run.fill_cm, tuple(items.items()), tuple(names.items()))


def _stretches(rings: Sequence[_Ring], first: int, *, is_mix: bool) -> Iterator[_Stretch]:
    start = 0
    while start < len(rings):
        length, cycle = _longest_turn(rings[start:])
        if is_mix:
            same_fill = next(len(tuple(group)) for _, group in groupby(rings[start:], key=lambda ring: ring.fill_cm))
            if length < same_fill:
                length, cycle = same_fill, 0
        members = tuple(rings[start : start + length])
        yield _Stretch(first=first + start, rings=members, cycle=members[:cycle])
        start += length


def _longest_turn(rings: Sequence[_Ring]) -> tuple[int, int]:
    """Give how many rings from the first on repeat a cycle at least once, and the length of the shortest such cycle."""
    best = (1, 1)
    for cycle in range(1, min(LONGEST_CYCLE, len(rings) // 2) + 1):
        length = cycle
        while length < len(rings) and rings[length] == rings[length - cycle]:
            length += 1
        if length >= 2 * cycle and length > best[0]:
            best = (length, cycle)
    return best


def _numbers(stretch: _Stretch) -> str:
    first, last = stretch.first + 1, stretch.first + len(stretch.rings)
    return f"Ring {first}" if first == last else f"Rings {first}–{last}"


def _words(draft: Draft, stretch: _Stretch) -> str:
    """Say what goes in: "Rings 1–32" goes on ", in turn: ivory, sage; 4 each at 9.5 in"."""
    first = stretch.rings[0]
    if len(stretch.cycle) == 1:
        what = ", ".join(f"{count} × {item}" for item, count in first.items)
        return f"{', each' if len(stretch.rings) > 1 else ''}: {what} at {draft.short(first.fill_cm)}"
    per_ring = sum(count for _, count in first.colours)
    if not stretch.cycle:
        kinds = [f"{counted(count, 'ring')} of {_colours(ring)}" for ring, count in _kinds(stretch)]
        evenly = ", spread evenly" if len(kinds) > 1 else ""
        return f", mixed, {per_ring} each at {draft.short(first.fill_cm)}: {', '.join(kinds)}{evenly}"
    if len({ring.fill_cm for ring in stretch.cycle}) > 1:
        return ", in turn: " + ", ".join(f"{_colours(ring)} at {draft.short(ring.fill_cm)}" for ring in stretch.cycle)
    is_plain = all(len(ring.colours) == 1 for ring in stretch.cycle)
    names = [ring.colours[0][0] if is_plain else _colours(ring) for ring in stretch.cycle]
    return f", in turn: {', '.join(names)}; {per_ring} each at {draft.short(first.fill_cm)}"


def _kinds(stretch: _Stretch) -> list[tuple[_Ring, int]]:
    return sorted(Counter(stretch.rings).items(), key=lambda kind: -kind[1])


def _colours(ring: _Ring) -> str:
    return " + ".join(f"{count} {colour}" for colour, count in ring.colours)


def _parts(draft: Draft, stretch: _Stretch) -> tuple[Part, ...]:
    counts: Counter[tuple[str, float]] = Counter()
    for ring in stretch.rings:
        counts.update({(item, ring.fill_cm): count for item, count in ring.items})
    found = []
    for (item, fill), count in counts.items():
        balloon = draft.prices.balloon(item)
        assert balloon is not None, "rings are made of balloons of the price book"
        found.append(ring_part(balloon, count, fill))
    return tuple(found)
