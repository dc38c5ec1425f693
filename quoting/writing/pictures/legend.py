"""What the signs and colours of a picture stand for: one entry per colour and finish, with fills and counts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from PIL import Image, ImageDraw

from quoting.domain.colour_words import colour_rgb
from quoting.domain.looks import Finish, Look
from quoting.domain.measures import fill_words
from quoting.domain.plans import Part, Plan
from quoting.writing.pictures.lettering import lettering, shortened, wrapped, writable
from quoting.writing.pictures.signs import sign_names
from quoting.writing.pictures.sprites import balloon_sprite
from quoting.writing.pictures.words import PictureWords

_WORDS, _QUIET = (31, 42, 44), (88, 98, 102)


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One colour and finish of a piece. `amounts` says how many at which fill: "18 × 9.5 in"."""

    look: Look
    sign: str
    name: str
    amounts: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A legend ready to be drawn: its entries with their lines, the lines over and under them, and its size."""

    heading: tuple[str, ...]
    entries: tuple[tuple[Entry, tuple[str, ...], tuple[str, ...]], ...]
    foot: tuple[str, ...]
    columns: int
    column_px: int
    text_px: int

    @property
    def line_px(self) -> int:
        """Height of a line."""
        return round(self.text_px * 1.22)

    @property
    def entry_px(self) -> int:
        """Height of the highest entry, with room below it."""
        most = max((len(names) + len(amounts) for _, names, amounts in self.entries), default=0)
        return max(most, 1) * self.line_px + round(self.text_px * 0.5)

    @property
    def height_px(self) -> int:
        """Height of it all."""
        rows = -(-len(self.entries) // self.columns)
        lines = (len(self.heading) + len(self.foot)) * self.line_px
        return lines + self.heading_gap_px + rows * self.entry_px + 4

    @property
    def heading_gap_px(self) -> int:
        """Room below the heading."""
        return round(self.text_px * 0.4) if self.heading else 0


def look_for(part_item: str, colour: str, looks: Mapping[str, Look]) -> Look:
    """Give the look of an item; one that nobody handed in is drawn matt in its colour's words."""
    known = looks.get(part_item)
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
        Entry(look=look, sign=sign, name=_name(look), amounts=_amounts(parts, unit, long_items, words))
        for (look, parts), sign in zip(groups.items(), signs, strict=True)
    )


def legend_block(
    entries: Sequence[Entry], heading: str, foot: Sequence[str], *, columns: int, room_px: int, text_px: int
) -> Block:
    """Set a legend in columns that together are `room_px` wide."""
    font, bold = lettering(text_px), lettering(text_px, bold=True)
    column = room_px // columns
    room = column - _indent(text_px) - 8
    placed = tuple(
        (entry, tuple(wrapped(entry.name, bold, room)[:2]), tuple(wrapped(entry.amounts, font, room)[:3]))
        for entry in entries
    )
    return Block(
        heading=tuple(wrapped(heading, bold, room_px)[:2]), entries=placed,
        foot=tuple(line for words in foot for line in wrapped(words, font, room_px)),
        columns=columns, column_px=column, text_px=text_px,
    )


def draw_legend(canvas: Image.Image, block: Block, left: int, top: int) -> None:
    """Draw a legend with its upper left corner there."""
    draw = ImageDraw.Draw(canvas)
    font, bold = lettering(block.text_px), lettering(block.text_px, bold=True)
    y = top
    for line in block.heading:
        draw.text((left, y), line, fill=_WORDS, font=bold, anchor="la")
        y += block.line_px
    y += block.heading_gap_px
    for number, (entry, names, amounts) in enumerate(block.entries):
        column, row = number % block.columns, number // block.columns
        corner = left + column * block.column_px, y + row * block.entry_px
        _draw_entry(canvas, block, entry, (names, amounts), corner)
    y += -(-len(block.entries) // block.columns) * block.entry_px
    for line in block.foot:
        draw.text((left, y), shortened(line, font, canvas.width - left), fill=_QUIET, font=font, anchor="la")
        y += block.line_px


def _draw_entry(
    canvas: Image.Image, block: Block, entry: Entry, lines: tuple[tuple[str, ...], tuple[str, ...]],
    corner: tuple[int, int],
) -> None:
    left, top = corner
    size = round(block.text_px * 1.5)
    face, mask, middle = balloon_sprite(size, entry.look, entry.sign, None)
    centre = top + round(block.line_px * (0.95 if lines[1] else 0.55))
    canvas.paste(face, (left + size // 2 + 2 - middle, centre - middle), mask)
    draw, x = ImageDraw.Draw(canvas), left + _indent(block.text_px)
    for words, font, ink in (
        *((line, lettering(block.text_px, bold=True), _WORDS) for line in lines[0]),
        *((line, lettering(block.text_px), _QUIET) for line in lines[1]),
    ):
        draw.text((x, top), words, fill=ink, font=font, anchor="la")
        top += block.line_px


def _indent(text_px: int) -> int:
    return round(text_px * 1.5) + 12


def _name(look: Look) -> str:
    words = [word for word in (look.colour, look.surface) if writable(word)]
    return ", ".join(words) or "–"


def _amounts(parts: Sequence[Part], unit: str, long_items: frozenset[str], words: PictureWords) -> str:
    """Say counts fill by fill, the largest fill first; long balloons have no fill worth naming."""
    counted: dict[str, int] = {}
    for part in sorted(parts, key=lambda p: -(p.fill_cm or 0.0)):
        said = words.twisters if part.item in long_items else f"× {fill_words(part.fill_cm or 0.0, unit)}"
        counted[said] = counted.get(said, 0) + part.count
    return ", ".join(f"{count} {said}".replace(" ", "\u00a0") for said, count in counted.items())
