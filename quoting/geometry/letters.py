"""Capitals, figures and a few signs as flat shapes, from an open typeface's outlines."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from quoting.geometry.areas import Contour, area, edge_length
from quoting.geometry.letter_outlines import OUTLINES

THIN_SPACE = 0.28
"""Room of a blank between two words, in heights of a capital; as typefaces have it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Letter:
    """One sign. Lengths are in heights of a capital, `area` in its square; `room` is what it takes in a line.

    y runs up from the line it stands on; round signs reach a little below it and over the capital's height.
    """

    sign: str
    room: float
    contours: tuple[Contour, ...]
    area: float
    edge: float

    @property
    def left(self) -> float:
        """Leftmost point."""
        return min(x for contour in self.contours for x, _ in contour)

    @property
    def right(self) -> float:
        """Rightmost point."""
        return max(x for contour in self.contours for x, _ in contour)


@lru_cache(maxsize=len(OUTLINES))
def letter_of(sign: str) -> Letter | None:
    """Give the shape of a sign; a small letter is given as its capital; None for a sign there is no outline of."""
    found = OUTLINES.get(sign.upper())
    if found is None:
        return None
    room, text = found
    contours = tuple(_contour(part) for part in text.split(" | "))
    return Letter(sign=sign.upper(), room=room / 1000, contours=contours, area=area(contours),
                  edge=edge_length(contours))


def known_signs() -> str:
    """Give every sign there is an outline of."""
    return "".join(OUTLINES)


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """Letters side by side: each with the x it begins at, and the width from the first's left to the last's right."""

    letters: tuple[tuple[Letter, float], ...]
    width: float


def line_of(text: str) -> Line:
    """Set known signs and blanks side by side, the leftmost point at x = 0. ValueError for any other sign, or none."""
    placed: list[tuple[Letter, float]] = []
    x = 0.0
    for sign in text:
        letter = None if sign == " " else letter_of(sign)
        if letter is not None:
            placed.append((letter, x))
        elif sign != " ":
            raise ValueError(sign)
        x += THIN_SPACE if letter is None else letter.room
    if not placed:
        raise ValueError("no sign at all")
    start = placed[0][1] + placed[0][0].left
    last, last_x = placed[-1]
    return Line(letters=tuple((letter, x - start) for letter, x in placed), width=last_x + last.right - start)


def _contour(text: str) -> Contour:
    numbers = [int(word) / 1000 for word in text.split()]
    return tuple(zip(numbers[::2], numbers[1::2], strict=True))
