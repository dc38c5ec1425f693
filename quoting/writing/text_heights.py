"""How much room text takes when printed: office software does not fit rows to wrapped text by itself everywhere."""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Iterator
from functools import lru_cache

# Widths of the typeface's signs in thousandths of its size (from memory of its published metrics).
_WIDTHS = {
    **dict.fromkeys("ijl'", 222),
    **dict.fromkeys("ft.,:;/\\!I[]|· ", 278),
    **dict.fromkeys('r()-`{}"*°', 345),
    **dict.fromkeys("csvxyzJk", 500),
    **dict.fromkeys("abdeghnopqu0123456789#$?L_€£–", 556),
    **dict.fromkeys("+<=>~×−TZF", 611),
    **dict.fromkeys("ABEKPSVXY&", 667),
    **dict.fromkeys("CDHNRUw", 722),
    **dict.fromkeys("GOQ", 778),
    **dict.fromkeys("mM", 833),
    **dict.fromkeys("%W@—", 1000),
}
_USUAL_WIDTH, _FULL_WIDTH = 600, 1050
_BOLD = 1.08
_SAFETY = 1.02
"""Screens and printers set the same text a little differently; a line too high is better than a line cut."""
_WIDEST_SIGN = _FULL_WIDTH / 1000 / 0.75 * _BOLD * _SAFETY
"""Pixels per point of size that no sign is wider than."""
_CELL_PADDING = 7
_LINE = 1.2
_ROW_PADDING = 3.0


def text_width(text: str, size: float, *, bold: bool = False) -> float:
    """Give the width in pixels (96 to the inch) of one line of text at a size in points."""
    ems = sum(_WIDTHS[char] if char in _WIDTHS else _width(char) for char in text) / 1000
    return ems * size / 0.75 * (_BOLD if bold else 1.0) * _SAFETY


@lru_cache(maxsize=2048)
def _width(char: str) -> int:
    if unicodedata.combining(char) or unicodedata.category(char) in {"Mn", "Cf"}:
        return 0
    if unicodedata.east_asian_width(char) in "WF" or ord(char) > 0xFFFF:
        return _FULL_WIDTH
    plain = unicodedata.normalize("NFD", char)[0]
    return _WIDTHS.get(plain, _USUAL_WIDTH)


@lru_cache(maxsize=4096)
def line_count(text: str, width: float, size: float, *, bold: bool = False) -> int:
    """Give how many lines text takes in a cell `width` pixels wide, its own line ends included."""
    room = max(width - _CELL_PADDING, 10.0)
    return sum(_wrapped(paragraph, room, size, bold) for paragraph in text.split("\n"))


def _wrapped(paragraph: str, room: float, size: float, bold: bool) -> int:
    # Most texts are short: they are told from the rest by their length alone, or by one sum.
    if len(paragraph) * size * _WIDEST_SIGN <= room or text_width(paragraph, size, bold=bold) <= room:
        return 1
    space = text_width(" ", size, bold=bold)
    lines, used = 1, 0.0
    for word in paragraph.split(" "):
        width = text_width(word, size, bold=bold)
        if used and used + space + width > room:
            lines, used = lines + 1, 0.0
        if width > room:  # a word longer than the line is broken inside
            lines += math.ceil(width / room) - 1
            width %= room
        used += width + (space if used else 0.0)
    return lines


def with_line_ends(text: str, width: float, size: float, *, bold: bool = False) -> str:
    """Give text with an end of line wherever it is counted to wrap in a cell `width` pixels wide.

    Office softwares differ in how wide they set a column: text that one of them wraps
    and another does not would leave a gap below it in the other.
    """
    room = max(width - _CELL_PADDING, 10.0)
    lines: list[str] = []
    for paragraph in text.split("\n"):
        line = ""
        for number, word in enumerate(paragraph.split(" ")):
            longer = f"{line} {word}" if number else word
            if line and text_width(longer, size, bold=bold) > room:
                lines.append(line)
                line = word
            else:
                line = longer
        lines.append(line)
    return "\n".join(lines)


def in_pieces(text: str, width: float, size: float, most_lines: int, *, bold: bool = False) -> list[str]:
    """Cut text between words (a huge word inside) into pieces of at most so many lines each."""
    pieces: list[str] = []
    for word in _words(text, width, size, bold):
        if pieces and line_count(pieces[-1] + word, width, size, bold=bold) <= most_lines:
            pieces[-1] += word
        else:
            pieces.append(word)
    return [piece.strip(" \n") for piece in pieces]


def _words(text: str, width: float, size: float, bold: bool) -> Iterator[str]:
    """Give words with the space before them; one of several lines in parts of a line each."""
    letters = max(1, int(width / text_width("W", size, bold=bold)))
    for word in re.findall(r"\s*\S+|\s+$", text):
        if len(word) <= 4 * letters:
            yield word
        else:
            yield from (word[start : start + letters] for start in range(0, len(word), letters))


def row_height(lines: int, size: float, *, padding: float = _ROW_PADDING) -> float:
    """Give the height in points of a row of so many lines at a size in points."""
    return math.ceil((lines * size * _LINE + padding) * 4) / 4
