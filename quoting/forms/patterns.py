"""Colour patterns: which colour each place of each ring gets, found by walking ring after ring from the floor up.

- solid: one colour.
- spiral: one colour per place of the ring, repeated round it; the half place of turn
  between rings makes the stripe climb.
- bands: whole rings, the colours in turn.
- blocks: so many rings of each colour in turn; the last colour takes the rest where
  its number is left out, else the blocks must add up to the rings.
- mix: every colour gets its share of all places (largest remainder), and its
  balloons are spread evenly along the walk.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction

from quoting.domain.counts import shared_counts
from quoting.forms.drafts import Draft


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """A pattern for so many colours. `shares` are for a mix, `blocks` for blocks (all but the last, or all)."""

    name: str
    colours: tuple[str, ...]
    shares: tuple[Fraction, ...] = ()
    blocks: tuple[int, ...] = ()


Walk = tuple[tuple[int, ...], ...]
"""Ring by ring from the floor up, the colour number (from 0) of each place."""


def read_pattern(draft: Draft, colours: tuple[str, ...], per_ring: int) -> Pattern | None:
    """Read the pattern a piece asks for; reports at the cell that contradicts it and gives None."""
    name = draft.text("pattern") or ("solid" if len(colours) == 1 else "")
    if not name:
        draft.complain("P506", "pattern", count=len(colours))
        return None
    if name != "mix":
        draft.say_unused(f"with the pattern {name}", "shares")
    if name != "blocks":
        draft.say_unused(f"with the pattern {name}", "blocks")
    if name == "solid" and len(colours) != 1:
        draft.complain("P507", "colours", count=len(colours))
        return None
    if name == "spiral" and per_ring % len(colours):
        draft.complain("P508", "colours", count=len(colours), per_ring=per_ring)
        return None
    pattern = Pattern(name=name, colours=colours)
    if name == "mix":
        return _with_shares(draft, pattern)
    return _with_blocks(draft, pattern) if name == "blocks" else pattern


def _with_shares(draft: Draft, pattern: Pattern) -> Pattern | None:
    typed = [Fraction(share) for share in draft.items("shares") if isinstance(share, (Decimal, int))]
    count = len(pattern.colours)
    if not typed:
        return replace(pattern, shares=(Fraction(1, count),) * count)
    if len(typed) != count:
        draft.complain("P511", "shares", why=f"{len(typed)} shares are given for {count} colours")
        return None
    if abs(sum(typed, Fraction(-1))) > Fraction(1, 100):  # 33 %, 33 %, 33 % is meant as thirds
        draft.complain("P511", "shares", why=f"the shares come to {float(sum(typed)) * 100:g} %")
        return None
    return replace(pattern, shares=tuple(typed))


def _with_blocks(draft: Draft, pattern: Pattern) -> Pattern | None:
    typed = tuple(block for block in draft.items("blocks") if isinstance(block, int))
    count = len(pattern.colours)
    if len(typed) not in (count - 1, count):
        draft.complain("P510", "blocks", blocks=len(typed), colours=count)
        return None
    return replace(pattern, blocks=typed)


def fitted_to(draft: Draft, pattern: Pattern, rings: int) -> Pattern | None:
    """Give the pattern with blocks that add up to the rings; reports at the blocks' cell where they can't."""
    if pattern.name != "blocks":
        return pattern
    given = sum(pattern.blocks)
    is_open = len(pattern.blocks) < len(pattern.colours)
    if (is_open and given < rings) or (not is_open and given == rings):
        return pattern
    hint = "type fewer rings per block" if is_open else "leave the last number out and it takes the rest"
    words = ", ".join(map(str, pattern.blocks))
    draft.complain("P509", "blocks", blocks=words, total=given, rings=rings, hint=hint)
    return None


def mix_counts(pattern: Pattern, places: int) -> tuple[int, ...]:
    """How many of all places each colour of a mix gets: largest remainder, adding up."""
    return shared_counts(places, pattern.shares)


def walk_colours(pattern: Pattern, rings: int, per_ring: int) -> Walk:
    """Walk a fitted pattern over so many rings."""
    count = len(pattern.colours)
    if pattern.name == "solid":
        return ((0,) * per_ring,) * rings
    if pattern.name == "spiral":
        return (tuple(place % count for place in range(per_ring)),) * rings
    if pattern.name == "bands":
        return tuple((ring % count,) * per_ring for ring in range(rings))
    if pattern.name == "blocks":
        ends = [sum(pattern.blocks[: number + 1]) for number in range(count - 1)]
        return tuple((sum(ring >= end for end in ends),) * per_ring for ring in range(rings))
    flat = _spread_evenly(mix_counts(pattern, rings * per_ring))
    return tuple(flat[ring * per_ring : (ring + 1) * per_ring] for ring in range(rings))


def _spread_evenly(counts: tuple[int, ...]) -> tuple[int, ...]:
    """Every colour's balloons at equal distances over the whole walk; a tie goes to the earlier colour.

    Balloon q (from 0) of a colour's c balloons stands at the share (2q + 1)/(2c) of
    the walk. The same order comes out of the workings' formulas (`pattern_formulas`).
    """
    stands = [(Fraction(2 * q + 1, 2 * c), colour) for colour, c in enumerate(counts) for q in range(c)]
    return tuple(colour for _, colour in sorted(stands))
