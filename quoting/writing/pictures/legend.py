"""What the signs and colours of a picture stand for: one entry per colour and finish, with fills and counts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from PIL import Image, ImageDraw

from quoting.domain.colour_words import colour_rgb
from quoting.domain.looks import Finish, Look
from quoting.domain.measures import fill_words
from quoting.domain.plans import Part, Plan
from quoting.writing.pictures.lettering import lettering, wrapped, writable
from quoting.writing.pictures.signs import sign_names
from quoting.writing.pictures.sprites import balloon_sprite
from quoting.writing.pictures.words import PictureWords

_WORDS, _QUIET = (31, 42, 44), (88, 98, 102)
_MOST_FILLS = 3
"""A colour in more fills than this is said to go from the smallest to the largest."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One colour and finish of a piece. `amounts` says how many at which fill: "18 × 9.5 in"."""

    look: Look
    sign: str
    name: str
    amounts: str
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """An entry with its lines broken, those of its name first."""

    entry: Entry
    names: tuple[str, ...]
    amounts: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A legend ready to be drawn: the lines over its entries, the entries row by row, the lines under them."""

    heading: tuple[str, ...]
    rows: tuple[tuple[Placed, ...], ...]
    foot: tuple[str, ...]
    column_px: int
    text_px: int

    @property
    def line_px(self) -> int:
        """Height of a line."""
        return round(self.text_px * 1.22)

    @property
    def gap_px(self) -> int:
        """Room below the heading and below every row of entries."""
        return round(self.text_px * 0.45)

    @property
    def height_px(self) -> int:
        """Height of it all."""
        lines = (len(self.heading) + len(self.foot)) * self.line_px + (self.gap_px if self.heading else 0)
        return lines + sum(self.row_px(row) for row in self.rows) + 4

    def row_px(self, row: tuple[Placed, ...]) -> int:
        """Height of a row of entries with the room below it."""
        lines = max(len(placed.names) + len(placed.amounts) for placed in row)
        return max(lines * self.line_px, round(self.text_px * 1.6)) + self.gap_px


def look_for(item: str, colour: str, looks: Mapping[str, Look]) -> Look:
    """Give the look of an item; one that nobody handed in is drawn matt in its colour's words."""
    known = looks.get(item)
    return known or Look(rgb=colour_rgb(colour), finish=Finish.MATT, colour=colour, surface="")


def entries_of(plan: Plan, looks: Mapping[str, Look], unit: str, words: PictureWords) -> tuple[Entry, ...]:
    """Give one entry per look of the balloons counted, in the order they are first needed."""
    long_items = frozenset(position.item for position in plan.positions if position.path)
    groups: dict[Look, list[Part]] = {}
    for part in plan.parts:
        if part.fill_cm is not None:
            groups.setdefault(look_for(part.item, part.colour, looks), []).append(part)
    signs = sign_names(len(groups)) if groups else ()
    return tuple(
        Entry(look=look, sign=sign, name=_name(look), amounts=_amounts(parts, unit, long_items, words),
              count=sum(part.count for part in parts))
        for (look, parts), sign in zip(groups.items(), signs, strict=True)
    )


def terse(entries: Sequence[Entry]) -> tuple[Entry, ...]:
    """Give the same entries with nothing but how many, and the name."""
    return tuple(replace(entry, name=f"{entry.count} {entry.name}", amounts="") for entry in entries)


def legend_block(
    entries: Sequence[Entry], heading: str, foot: Sequence[str], *, columns: int, room_px: int, text_px: int
) -> Block:
    """Set a legend in columns that together are `room_px` wide."""
    font, bold = lettering(text_px), lettering(text_px, bold=True)
    column = room_px // columns
    room = column - _indent(text_px) - 8
    placed = [
        Placed(entry=entry, names=tuple(wrapped(entry.name, bold, room)[:2]),
               amounts=tuple(wrapped(entry.amounts, font, room)))
        for entry in entries
    ]
    return Block(
        heading=tuple(wrapped(heading, bold, room_px)[:2]),
        rows=tuple(tuple(placed[first : first + columns]) for first in range(0, len(placed), columns)),
        foot=tuple(line for words in foot for line in wrapped(words, font, room_px)),
        column_px=column, text_px=text_px,
    )


def draw_legend(canvas: Image.Image, block: Block, left: int, top: int) -> None:
    """Draw a legend with its upper left corner there."""
    draw = ImageDraw.Draw(canvas)
    font, bold = lettering(block.text_px), lettering(block.text_px, bold=True)
    y = top
    for line in block.heading:
        draw.text((left, y), line, fill=_WORDS, font=bold, anchor="la")
        y += block.line_px
    y += block.gap_px if block.heading else 0
    for row in block.rows:
        for column, placed in enumerate(row):
            _draw_entry(canvas, block, placed, left + column * block.column_px, y)
        y += block.row_px(row)
    for line in block.foot:
        draw.text((left, y), line, fill=_QUIET, font=font, anchor="la")
        y += block.line_px


def _draw_entry(canvas: Image.Image, block: Block, placed: Placed, left: int, top: int) -> None:
    size = round(block.text_px * 1.5)
    face, mask, middle = balloon_sprite(size, placed.entry.look, placed.entry.sign, None)
    centre = top + round(block.line_px * (0.95 if placed.amounts else 0.5))
    canvas.paste(face, (left + size // 2 + 2 - middle, centre - middle), mask)
    draw, x = ImageDraw.Draw(canvas), left + _indent(block.text_px)
    font, bold = lettering(block.text_px), lettering(block.text_px, bold=True)
    lines = [(line, bold, _WORDS) for line in placed.names] + [(line, font, _QUIET) for line in placed.amounts]
    for words, face_of, ink in lines:
        draw.text((x, top), words, fill=ink, font=face_of, anchor="la")
        top += block.line_px


def _indent(text_px: int) -> int:
    return round(text_px * 1.5) + 12


def _name(look: Look) -> str:
    words = [word for word in (look.colour, look.surface) if writable(word)]
    return ", ".join(dict.fromkeys(words)) or "–"


def _amounts(parts: Sequence[Part], unit: str, long_items: frozenset[str], words: PictureWords) -> str:
    """Say counts fill by fill, the largest fill first; long balloons have no fill worth naming."""
    long_ones = sum(part.count for part in parts if part.item in long_items)
    counts: dict[float, int] = {}
    for part in sorted(parts, key=lambda p: -(p.fill_cm or 0.0)):
        if part.item not in long_items and part.fill_cm is not None:
            counts[part.fill_cm] = counts.get(part.fill_cm, 0) + part.count
    said = [f"{count} × {fill_words(fill, unit)}" for fill, count in counts.items()]
    if len(said) > _MOST_FILLS:
        least = fill_words(min(counts), unit).removesuffix(f" {unit}")
        said = [f"{sum(counts.values())} × {least}–{fill_words(max(counts), unit)}"]
    if long_ones:
        said.append(f"{long_ones} {words.twister if long_ones == 1 else words.twisters}")
    return ", ".join(amount.replace(" ", "\u00a0") for amount in said)
