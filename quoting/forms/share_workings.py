"""Things split by shares with the largest-remainder method: the shares as typed, the counts, and their workings."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction

from quoting.domain.counts import shared_counts
from quoting.forms.drafts import Draft
from quoting.forms.formulas import kept, kept_all, total


def read_shares(draft: Draft, key: str, count: int, what: str) -> tuple[Fraction, ...] | None:
    """Give one share per thing (`what`: "colours", "sizes"), equal ones where none is typed; reports at the cell."""
    typed = [Fraction(share) for share in draft.items(key) if isinstance(share, (Decimal, int))]
    if not typed:
        return (Fraction(1, count),) * count
    if len(typed) != count:
        draft.complain("P511", key, why=f"{len(typed)} shares are given for {count} {what}")
        return None
    if abs(sum(typed, Fraction(-1))) > Fraction(1, 100):  # 33 %, 33 %, 33 % is meant as thirds
        draft.complain("P511", key, why=f"the shares come to {float(sum(typed)) * 100:g} %")
        return None
    return tuple(typed)


def add_given_shares(draft: Draft, name: str, labels: Sequence[str], shares: Sequence[Fraction]) -> None:
    """Add the shares as givens "`name` share N" and their sum "`name` shares"."""
    keys = [f"{name} share {number}" for number in range(1, len(labels) + 1)]
    for key, label, share in zip(keys, labels, shares, strict=True):
        draft.step(key, f"Share of {label}", float(share))
    draft.step(f"{name} shares", "All shares", float(sum(shares)), formula=kept_all(keys))


def add_shared(
    draft: Draft, *, name: str, of: str, shares_of: str, labels: Sequence[str], shares: Sequence[Fraction], whole: int
) -> tuple[int, ...]:
    """Add the steps that split the earlier step `of` (worth `whole`) by the given shares of the name `shares_of`.

    The counts stand under "`name` N", from 1; they add up to `whole` and are given back.
    """
    numbers = range(1, len(labels) + 1)
    counts, exact = shared_counts(whole, shares), [whole * share / sum(shares) for share in shares]
    for number, part in zip(numbers, exact, strict=True):
        part_of = f"{kept(of)}*{kept(f'{shares_of} share {number}')}/{kept(f'{shares_of} shares')}"
        draft.step(f"{name} floor {number}", f"Whole part of {labels[number - 1]}", int(part),
                   formula=f"INT({part_of}+1E-9)")
        draft.step(f"{name} rest {number}", f"Rest of {labels[number - 1]}", round(float(part - int(part)), 9),
                   formula=f"ROUND({part_of}-{kept(f'{name} floor {number}')},9)")
    floors = kept_all([f"{name} floor {number}" for number in numbers])
    draft.step(f"{name} left over", "Left over", whole - sum(int(part) for part in exact),
               formula=f"{kept(of)}-({floors})")
    for number, count in zip(numbers, counts, strict=True):
        mine = kept(f"{name} rest {number}")
        ahead = total([f"({kept(f'{name} rest {n}')}{'>=' if n < number else '>'}{mine})"
                       for n in numbers if n != number])
        draft.step(f"{name} {number}", labels[number - 1][:1].upper() + labels[number - 1][1:], count,
                   formula=f"{kept(f'{name} floor {number}')}+IF({ahead}<{kept(f'{name} left over')},1,0)",
                   words="the largest rests take what is left over; equal rests: the earlier")
    return counts
