"""Names as owners type them: when two are the same, which come close, how they sort."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from difflib import get_close_matches


def folded(name: str) -> str:
    """A name without regard to case and runs of white space, for comparing."""
    return " ".join(name.casefold().split())


def code_among(typed: str, codes: Mapping[str, str]) -> str:
    """The job code that a typed one stands for, as it is written, or ""; `codes` are folded → as written.

    A number cell has lost the zeros before its figures: 412 stands for "0412" where no other code does.
    """
    if folded(typed) in codes:
        return codes[folded(typed)]
    if not folded(typed).isdecimal():
        return ""
    same = [code for one, code in codes.items() if one.isdecimal() and int(one) == int(typed)]
    return same[0] if len(same) == 1 else ""


def natural_order(name: str) -> tuple[tuple[int, int, str], ...]:
    """Sort key by which "A2" comes before "A10": figures count as numbers, case does not matter."""
    parts = re.findall(r"\d+|\D+", folded(name))
    return (*((0, int(p), p) if p.isdecimal() else (1, 0, p) for p in parts), (2, 0, name))


def nearest_names(name: str, known: Iterable[str], most: int = 3) -> tuple[str, ...]:
    """Known names that come close to `name`, nearest first, as they are written; at most `most`."""
    spelled = {folded(one): one for one in known}
    return tuple(spelled[one] for one in get_close_matches(folded(name), list(spelled), n=most, cutoff=0.7))


def asked(names: Iterable[str]) -> str:
    """The question "did you mean x or y?" with a space after it; "" for no names."""
    listed = " or ".join(names)
    return f"did you mean {listed}? " if listed else ""


def is_slip(typed: str, meant: str) -> bool:
    """True where two codes differ by one slip: a sign left out, added, changed, two swapped, leading zeros lost."""
    one, other = folded(typed), folded(meant)
    if one.lstrip("0") == other.lstrip("0"):
        return True
    if abs(len(one) - len(other)) > 1:
        return False
    start = 0
    while start < min(len(one), len(other)) and one[start] == other[start]:
        start += 1
    left, right = one[start:], other[start:]
    swapped = left[:2] == right[:2][::-1] and left[2:] == right[2:]
    return swapped or left[1:] == right[1:] or left[1:] == right or left == right[1:]
