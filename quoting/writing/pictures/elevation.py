"""The picture of one piece: seen from the front, to scale, with its legend, its size and a person beside it."""

from __future__ import annotations

import io
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from PIL import Image

from quoting.domain.drawings import Mark
from quoting.domain.looks import Look
from quoting.domain.measures import length_words
from quoting.domain.plans import Outline, Part, Plan, Position
from quoting.writing.pictures.dimension_lines import draw_height, draw_width
from quoting.writing.pictures.layer_numbers import draw_numbers
from quoting.writing.pictures.layouts import Format, Layout, Words, best_layout
from quoting.writing.pictures.legend import draw_legend, entries_of, look_for
from quoting.writing.pictures.palettes import with_palette
from quoting.writing.pictures.scale_figures import Beside, draw_figure, draw_floor, figure_beside
from quoting.writing.pictures.scene import things_of
from quoting.writing.pictures.view import Box, extent_of
from quoting.writing.pictures.words import ENGLISH, PictureWords

PIXELS_PER_INCH = 203
"""Print resolution that text and lines are set for: a quote's picture is at most 8 cm wide at this."""
_PAPER = (255, 255, 255)
QUOTE_WIDTH, QUOTE_HEIGHT = 640, 400
"""The most that a quote's picture measures, in pixels."""
_WORKSHOP = Format(width=1100, height=820, text=20, legend=236)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Subject:
    """All that a picture depends on, so that equal pieces of a run are drawn once."""

    positions: tuple[Position, ...]
    drawing: tuple[Mark, ...]
    parts: tuple[Part, ...]
    outline: Outline | None
    hidden: int
    looks: tuple[tuple[str, Look], ...]
    title: str
    unit: str
    form: Format
    has_numbers: bool
    words: PictureWords


def has_picture(plan: Plan) -> bool:
    """Tell whether there is anything to draw: an own build or a service says nothing of where things hang."""
    return bool(plan.positions or plan.drawing)


def draw_piece(
    plan: Plan, looks: Mapping[str, Look], *, title: str = "", unit: str, larger: bool = False,
    height: int = QUOTE_HEIGHT, numbered_layers: bool = False, words: PictureWords = ENGLISH,
) -> bytes:
    """Draw a piece as a PNG file: at most 640 pixels wide and `height` high, or 1100 × 820 where it is to be `larger`.

    `looks` are per item (see `quoting.domain.looks.looks_of`); `unit` is the shop's, "in" or "cm". `title`
    stands over the legend. `numbered_layers` writes the numbers of the build order on the piece. Equal input
    gives equal bytes; the last few hundred pictures are kept. ValueError where `has_picture` is False.
    """
    form = _WORKSHOP if larger else _quote_format(height)
    return _drawn(_subject(plan, looks, form, title=title, unit=unit, has_numbers=numbered_layers, words=words))


def picture_size(
    plan: Plan, looks: Mapping[str, Look], *, unit: str, height: int = QUOTE_HEIGHT, words: PictureWords = ENGLISH
) -> tuple[int, int]:
    """Give the width and height in pixels that `draw_piece` would give a picture without a title, not drawing it."""
    form = _quote_format(height)
    return _arranged(_subject(plan, looks, form, title="", unit=unit, has_numbers=False, words=words)).layout.size


def _quote_format(height: int) -> Format:
    return Format(width=QUOTE_WIDTH, height=height, text=19, legend=196)


def _subject(
    plan: Plan, looks: Mapping[str, Look], form: Format, *, title: str, unit: str, has_numbers: bool,
    words: PictureWords,
) -> _Subject:
    if not has_picture(plan):
        raise ValueError("nothing to draw")
    items = dict.fromkeys([*(p.item for p in plan.positions), *(p.item for p in plan.parts if p.fill_cm is not None)])
    colours = {part.item: part.colour for part in plan.parts} | {p.item: p.colour for p in plan.positions}
    return _Subject(
        positions=plan.positions, drawing=plan.drawing, outline=plan.outline, hidden=plan.hidden,
        parts=tuple(part for part in plan.parts if part.fill_cm is not None),
        looks=tuple((item, look_for(item, colours[item], looks)) for item in items),
        title=title, unit=unit, form=form, has_numbers=has_numbers, words=words,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Arranged:
    """A picture worked out and not yet drawn: the boxes are in cm, the layout in pixels."""

    plan: Plan
    piece: Box
    built: Box
    figure: Beside
    scene: Box
    layout: Layout


def _arranged(subject: _Subject) -> _Arranged:
    plan = Plan(
        form="", parts=subject.parts, tasks=(), hire=(), outline=subject.outline, positions=subject.positions,
        build_order=(), workings=(), description=(), drawing=subject.drawing, hidden=subject.hidden,
    )
    piece = extent_of(plan)
    assert piece is not None
    built = _built(piece, plan.outline)
    figure = figure_beside(piece, subject.unit)
    scene = piece.joined(built).joined(figure.box)
    layout = _laid_out(subject, plan, scene, built)
    return _Arranged(plan=plan, piece=piece, built=built, figure=figure, scene=scene, layout=layout)


@lru_cache(maxsize=256)
def _drawn(subject: _Subject) -> bytes:
    arranged = _arranged(subject)
    plan, layout = arranged.plan, arranged.layout
    canvas = Image.new("RGB", layout.size, _PAPER)
    draw_floor(canvas, arranged.scene, layout.view)
    draw_figure(canvas, arranged.figure, layout.view, layout.text_px)
    _draw_things(canvas, subject, plan, layout)
    _draw_measures(canvas, layout, arranged.built, arranged.piece, subject.unit)
    draw_legend(canvas, layout.block, *layout.legend_at)
    return png_bytes(with_palette(canvas, [look for _, look in subject.looks], plan.drawing))


def png_bytes(picture: Image.Image) -> bytes:
    """Give a picture as a PNG file without time or other notes in it."""
    file = io.BytesIO()
    picture.save(file, "PNG", compress_level=5, dpi=(PIXELS_PER_INCH, PIXELS_PER_INCH))
    return file.getvalue()


def _built(piece: Box, outline: Outline | None) -> Box:
    """Give the box that the arrows measure: the built size as the plan states it, about the middle of what is drawn.

    A height that reaches from the floor to the top is measured from the floor.
    """
    if outline is None or not outline.width_cm or not outline.height_cm:
        return piece
    middle = (piece.left + piece.right) / 2
    is_from_floor = abs(outline.height_cm - piece.top) < abs(outline.height_cm - piece.height)
    bottom = 0.0 if is_from_floor else piece.bottom
    return Box(left=middle - outline.width_cm / 2, right=middle + outline.width_cm / 2, bottom=bottom,
               top=bottom + outline.height_cm)


def _laid_out(subject: _Subject, plan: Plan, scene: Box, built: Box) -> Layout:
    size = [length_words(side, subject.unit).replace(" ", "\u00a0") for side in (built.width, built.height)]
    foot = [f"{subject.words.built_size}: {' × '.join(size)}"]
    if subject.hidden:
        foot.append(subject.words.out_of_sight.format(count=subject.hidden))
    entries = entries_of(plan, dict(subject.looks), subject.unit, subject.words)
    return best_layout(subject.form, entries, _words(subject, foot), scene)


def _words(subject: _Subject, foot: list[str]) -> Words:
    return Words(heading=subject.title, foot=tuple(foot), more=subject.words.more_colours)


def _draw_things(canvas: Image.Image, subject: _Subject, plan: Plan, layout: Layout) -> None:
    looks = dict(subject.looks)
    for thing in things_of(plan, looks, [placed.entry for row in layout.block.rows for placed in row]):
        thing.draw(canvas, layout.view)
    if subject.has_numbers:
        draw_numbers(canvas, plan, layout.view, layout.text_px)


def _draw_measures(canvas: Image.Image, layout: Layout, built: Box, piece: Box, unit: str) -> None:
    left, top = layout.view.at(built.left, built.top)
    right, bottom = layout.view.at(built.right, built.bottom)
    floor = max(bottom, layout.view.at(0.0, 0.0)[1])
    outermost = min(left, layout.view.at(piece.left, 0.0)[0])
    draw_width(canvas, (left, right), round(floor) + 11, length_words(built.width, unit), layout.text_px)
    draw_height(canvas, (top, bottom), max(26, round(outermost) - 12), length_words(built.height, unit), layout.text_px)
