"""Pieces of office-software formulas that several forms write into their workings."""

from __future__ import annotations

from collections.abc import Iterable, Sequence


def total(terms: Iterable[str]) -> str:
    """Sum terms; "0" for none."""
    return "+".join(terms) or "0"


def rounded_up(amount: str) -> str:
    """Round to the least whole number not below, but for a hair: as `quoting.domain.counts.rounded_up`."""
    return f"-INT(-({amount}-1E-9*MAX(1,ABS({amount}))))"


def nearest(amount: str) -> str:
    """Round to the nearest whole number, a tie upwards, but for a hair: as `quoting.domain.counts.nearest_count`."""
    return f"INT({amount}+0.5+1E-9*MAX(1,ABS({amount}+0.5)))"


def kept(key: str) -> str:
    """Refer to an earlier step."""
    return "{" + key + "}"


def kept_all(keys: Sequence[str]) -> str:
    """Sum earlier steps."""
    return total(kept(key) for key in keys)
