"""Balloons that have no place of their own: a lot of one or several sizes, mixed by shares of sizes and of colours."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from quoting.domain.counts import shared_counts
from quoting.domain.plans import Part
from quoting.domain.prices import Balloon, Shape
from quoting.forms.balloon_choice import choose_balloons, choose_size, colours_of, usual_fill
from quoting.forms.drafts import Draft
from quoting.forms.formulas import kept_all, total
from quoting.forms.patterns import Pattern, walk_colours
from quoting.forms.ring_column import fill_or_usual
from quoting.forms.share_workings import add_given_shares, add_shared, read_shares
from quoting.geometry.packing import sphere_volume

GOLDEN = (math.sqrt(5) - 1) / 2
"""Multiples of it, less their whole parts, never fall into a rhythm."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lot:
    """Sizes with their fills (cm) and shares by number, and colours with theirs.

    `balloons` are, size after size, one per colour.
    """

    fills_cm: tuple[float, ...]
    size_shares: tuple[Fraction, ...]
    colours: tuple[str, ...]
    colour_shares: tuple[Fraction, ...]
    balloons: tuple[tuple[Balloon, ...], ...]

    @property
    def mean_volume(self) -> float:
        """Mean volume of a balloon (cubic cm)."""
        shares = zip(self.size_shares, self.fills_cm, strict=True)
        return sum(float(share) * sphere_volume(fill) for share, fill in shares) / float(sum(self.size_shares))

    def walk(self, count: int) -> Iterator[tuple[Balloon, float]]:
        """Give so many balloons with their fills: sizes spread evenly over all, colours over those of a size."""
        labels = tuple(f"{fill}" for fill in self.fills_cm)
        per_size = shared_counts(count, self.size_shares)
        colours = [iter(_spread(self.colours, self.colour_shares, share)) for share in per_size]
        for size in _spread(labels, self.size_shares, count):
            yield self.balloons[size][next(colours[size])], self.fills_cm[size]


    def strewn(self, count: int) -> Iterator[tuple[Balloon, float]]:
        """Give the same balloons as `walk` in an order that looks strewn, the same every time."""
        walked = tuple(self.walk(count))
        return (walked[number] for number in sorted(range(count), key=lambda number: number * GOLDEN % 1))


def _spread(labels: tuple[str, ...], shares: tuple[Fraction, ...], count: int) -> tuple[int, ...]:
    return walk_colours(Pattern(name="mix", colours=labels, shares=shares), 1, count)[0] if count else ()


def read_lot(draft: Draft) -> Lot | None:
    """Read a lot of one fill, typed or the usual one of the size typed; reports at the cells."""
    colours = colours_of(draft)
    shares = read_shares(draft, "shares", len(colours), "colours")
    fill = fill_or_usual(draft, colours)
    size = None if fill is None else choose_size(draft, fill, "fill", colours)
    balloons = None if size is None else choose_balloons(draft, Shape.ROUND, size, colours)
    if fill is None or balloons is None or shares is None:
        return None
    return Lot(fills_cm=(float(fill),), size_shares=(Fraction(1),), colours=colours, colour_shares=shares,
               balloons=(balloons,))


def read_mixed_lot(draft: Draft) -> Lot | None:
    """Read a lot of the sizes listed as filler sizes, each at its usual fill; reports at the cells."""
    colours = colours_of(draft)
    sizes = tuple(dict.fromkeys(size for size in draft.items("filler_sizes") if isinstance(size, int)))
    stocked = draft.prices.sizes(Shape.ROUND)
    for size in sizes:
        if size not in stocked:
            draft.complain("P525", "filler_sizes", size=size, sizes=", ".join(f"{one} in" for one in stocked))
            return None
    size_shares = read_shares(draft, "filler_size_shares", len(sizes), "sizes")
    shares = read_shares(draft, "shares", len(colours), "colours")
    balloons = [choose_balloons(draft, Shape.ROUND, size, colours) for size in sizes]
    fills = [usual_fill(draft, size, colours) for size in sizes if not draft.is_held]
    rows, known = [row for row in balloons if row is not None], [float(fill) for fill in fills if fill is not None]
    if size_shares is None or shares is None or len(rows) < len(sizes) or len(known) < len(sizes):
        return None
    return Lot(fills_cm=tuple(known), size_shares=size_shares, colours=colours, colour_shares=shares,
               balloons=tuple(rows))


def add_mean_volume(draft: Draft, lot: Lot) -> None:
    """Add the fills (keys "fill", or "fill N" of several) and the mean volume of a balloon ("balloon volume")."""
    unit_cm = 2.54 if draft.unit == "in" else 1.0
    value = lot.mean_volume / unit_cm**3
    if len(lot.fills_cm) == 1:
        draft.length_step("fill", "Fill", lot.fills_cm[0])
        draft.step("balloon volume", "Volume of a balloon", value, formula="PI()/6*{fill}^3", unit=f"{draft.unit}³",
                   words="as a ball")
        return
    numbers = range(1, len(lot.fills_cm) + 1)
    add_given_shares(draft, "size", [f"{draft.short(fill)} balloons" for fill in lot.fills_cm], lot.size_shares)
    for number, fill in zip(numbers, lot.fills_cm, strict=True):
        draft.length_step(f"fill {number}", f"Fill of size {number}", fill, words="its usual fill")
    mixed = total(f"{{size share {number}}}*{{fill {number}}}^3" for number in numbers)
    draft.step("balloon volume", "Mean volume of a balloon", value, formula=f"PI()/6*({mixed})/{{size shares}}",
               unit=f"{draft.unit}³", words="as balls, mixed by number")


def add_lot_parts(draft: Draft, lot: Lot, *, of: str, count: int, role: str) -> tuple[Part, ...]:
    """Add one part per balloon, split from the earlier step `of` (worth `count`); sizes from `add_mean_volume`."""
    fills = [f"{draft.short(fill)} balloons" for fill in lot.fills_cm]
    is_mixed = len(fills) > 1
    sizes: tuple[int, ...] = (count,)
    if is_mixed:
        sizes = add_shared(draft, name="size", of=of, shares_of="size", labels=fills, shares=lot.size_shares,
                           whole=count)
    if len(lot.colours) > 1:
        add_given_shares(draft, "colour", lot.colours, lot.colour_shares)
    keys: dict[tuple[str, float], list[str]] = {}
    counts: dict[tuple[str, float], int] = {}
    for number, (row, size) in enumerate(zip(lot.balloons, sizes, strict=True), 1):
        source = f"size {number}" if is_mixed else of
        names = [source]
        shared: tuple[int, ...] = (size,)
        if len(lot.colours) > 1:
            labels = [f"{fills[number - 1]}, {colour}" for colour in lot.colours]
            shared = add_shared(draft, name=f"colour of {number}:", of=source, shares_of="colour", labels=labels,
                                shares=lot.colour_shares, whole=size)
            names = [f"colour of {number}: {place}" for place in range(1, len(lot.colours) + 1)]
        for balloon, name, here in zip(row, names, shared, strict=True):
            group = (balloon.item, lot.fills_cm[number - 1])
            keys.setdefault(group, []).append(name)
            counts[group] = counts.get(group, 0) + here
    colour_of = {balloon.item: balloon.colour for row in lot.balloons for balloon in row}
    parts = tuple(Part(item=item, count=counts[item, fill], role=role, colour=colour_of[item], fill_cm=fill)
                  for item, fill in keys if counts[item, fill])
    for part in parts:
        draft.add_part(part, formula=kept_all(keys[part.item, part.fill_cm or 0.0]), words="split by the shares")
    return parts


def part_words(draft: Draft, parts: tuple[Part, ...]) -> str:
    """Say parts for the build order: "60 × Round 11 ivory at 9.5 in, …"."""
    return ", ".join(f"{part.count} × {part.item} at {draft.short(part.fill_cm or 0)}" for part in parts)


def lot_words(lot: Lot) -> str:
    """Say the colours for the client: "Ivory and sage mixed"."""
    names = list(dict.fromkeys(lot.colours))
    listed = names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]} mixed"
    return listed[:1].upper() + listed[1:]
