"""The counts of a colour pattern as office-software formulas, closed where the walk in `patterns` steps."""

from __future__ import annotations

from quoting.domain.counts import shared_counts
from quoting.forms.drafts import Draft
from quoting.forms.formulas import kept, kept_all, total
from quoting.forms.patterns import Pattern, mix_counts

Span = tuple[str, str, str]
"""Keys of a run of rings: of its count, of the ring number before it ("" for none), of its last ring number."""


def add_pattern_steps(
    draft: Draft, pattern: Pattern, rings: int, per_ring: int, rings_key: str, *, thing: str = "ring"
) -> None:
    """Add the steps that the counts of a pattern refer to: ends of blocks, or places of each colour of a mix.

    `thing` is what the blocks are made of, in the singular.
    """
    if pattern.name == "blocks":
        _add_block_ends(draft, pattern, rings, rings_key, thing)
    if pattern.name == "mix":
        _add_mix_steps(draft, pattern, rings * per_ring, rings_key)


def _add_block_ends(draft: Draft, pattern: Pattern, rings: int, rings_key: str, thing: str) -> None:
    end = 0
    for number, colour in enumerate(pattern.colours, 1):
        if number > len(pattern.blocks):
            draft.step(f"block end {number}", f"Last {thing} of block {number}, {colour}", rings,
                       formula=kept(rings_key), unit=f"{thing}s", words="the last block takes the rest")
            continue
        block = pattern.blocks[number - 1]
        end += block
        draft.step(f"block {number}", f"{thing.capitalize()}s of block {number}, {colour}", block, unit=f"{thing}s")
        before = f"+{kept(f'block end {number - 1}')}" if number > 1 else ""
        draft.step(f"block end {number}", f"Last {thing} of block {number}, {colour}", end,
                   formula=kept(f"block {number}") + before, unit=f"{thing}s")


def _add_mix_steps(draft: Draft, pattern: Pattern, places: int, rings_key: str) -> None:
    numbers = range(1, len(pattern.colours) + 1)
    whole = sum(pattern.shares)
    draft.step("places", "Places in all", places, formula=f"{kept(rings_key)}*{{per ring}}", unit="balloons")
    for number, share in zip(numbers, pattern.shares, strict=True):
        draft.step(f"share {number}", f"Share of {pattern.colours[number - 1]}", float(share))
    draft.step("shares", "All shares", float(whole), formula=kept_all([f"share {n}" for n in numbers]))
    floors = [int(places * share / whole) for share in pattern.shares]
    for number, floor in zip(numbers, floors, strict=True):
        exact = f"{{places}}*{kept(f'share {number}')}/{{shares}}"
        rest = round(float(places * pattern.shares[number - 1] / whole - floor), 9)
        draft.step(f"floor {number}", "Whole part", floor, formula=f"INT({exact}+1E-9)", unit="balloons")
        draft.step(f"rest {number}", "Rest", rest, formula=f"ROUND({exact}-{kept(f'floor {number}')},9)")
    draft.step("left over", "Places left over", places - sum(floors),
               formula=f"{{places}}-({kept_all([f'floor {n}' for n in numbers])})", unit="balloons")
    counts = mix_counts(pattern, places)
    assert counts == shared_counts(places, pattern.shares)
    for number, count in zip(numbers, counts, strict=True):
        mine = kept(f"rest {number}")
        ahead = total([f"({kept(f'rest {n}')}{'>=' if n < number else '>'}{mine})" for n in numbers if n != number])
        draft.step(f"mix {number}", f"Places of {pattern.colours[number - 1]}", count,
                   formula=f"{kept(f'floor {number}')}+IF({ahead}<{{left over}},1,0)", unit="balloons",
                   words="the largest rests take the places left over; equal rests: the earlier colour")


def count_formula(pattern: Pattern, colours: tuple[int, ...], spans: tuple[Span, ...], places: int) -> str:
    """Count by a formula how many balloons of these colour numbers (from 0) stand in these runs of rings.

    `places` is the number of places in all rings, which sets how far a mix's formula looks.
    """
    if pattern.name == "solid":
        return f"{{per ring}}*({kept_all([count for count, _, _ in spans])})"
    if pattern.name == "spiral":
        share = f"{len(colours)}/{len(pattern.colours)}"
        return f"{{per ring}}*{share}*({kept_all([count for count, _, _ in spans])})"
    terms = [_within(pattern, colour, span, places) for span in spans for colour in colours]
    return total(terms) if pattern.name == "mix" else f"{{per ring}}*({total(terms)})"


def _within(pattern: Pattern, colour: int, span: Span, places: int) -> str:
    _, before, last = span
    first, number = (kept(before) if before else "0"), colour + 1
    if pattern.name == "bands":
        up_to_last = f"INT(({kept(last)}-{number})/{len(pattern.colours)}+1)"
        return up_to_last if not before else f"({up_to_last}-INT(({first}-{number})/{len(pattern.colours)}+1))"
    if pattern.name == "blocks":
        start = kept(f"block end {colour}") if colour else "0"
        return f"MAX(0,MIN({kept(last)},{kept(f'block end {number}')})-MAX({first},{start}))"
    return _mixed_within(pattern, number, first, kept(last), rows=max(2000, 2 * places))


def _mixed_within(pattern: Pattern, number: int, first: str, last: str, *, rows: int) -> str:
    """Count the balloons of a mixed colour whose rank in the whole walk falls into a run of rings.

    Row q of ROW() stands for the colour's balloon q (from 1); its rank is q plus the
    other colours' balloons before it, as in `patterns`: an earlier colour goes first in a tie.
    """
    row, mine = f"ROW($1:${rows})", kept(f"mix {number}")
    rank = rank_in_mix(pattern, number, row)
    within = f"({row}<={mine})*({rank}>{first}*{{per ring}})*({rank}<={last}*{{per ring}})"
    return f"IF({mine}=0,0,SUMPRODUCT({within}))"


def rank_in_mix(pattern: Pattern, number: int, row: str) -> str:
    """Give the rank, in the whole walk of a mix, of balloon `row` (from 1) of colour `number` (from 1)."""
    mine = kept(f"mix {number}")
    ranks = [row]
    for other in range(1, len(pattern.colours) + 1):
        theirs = kept(f"mix {other}")
        if other < number:
            ranks.append(f"INT(({theirs}*(2*{row}-1)+{mine})/(2*{mine}))")
        elif other > number:
            ranks.append(f"-INT(({mine}-{theirs}*(2*{row}-1))/(2*{mine}))")
    return "+".join(ranks).replace("+-", "-")
