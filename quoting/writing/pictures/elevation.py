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
from quoting.writing.pictures.scale_figures import draw_figure, draw_floor, figure_beside
from quoting.writing.pictures.scene import things_of
from quoting.writing.pictures.view import Box, extent_of
from quoting.writing.pictures.words import ENGLISH, PictureWords

PIXELS_PER_INCH = 203
"""Print resolution that text and lines are set for: a quote's picture is at most 8 cm wide at this."""
_PAPER = (255, 255, 255)
_QUOTE = Format(width=640, height=480, text=19, legend=196)
_WORKSHOP = Format(width=1280, height=960, text=23, legend=270)


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
    is_larger: bool
    has_numbers: bool
    words: PictureWords


def has_picture(plan: Plan) -> bool:
    """Tell whether there is anything to draw: an own build or a service says nothing of where things hang."""
    return bool(plan.positions or plan.drawing)


def draw_piece(
    plan: Plan, looks: Mapping[str, Look], *, title: str = "", unit: str, larger: bool = False,
    numbered_layers: bool = False, words: PictureWords = ENGLISH,
) -> bytes:
    """Draw a piece as a PNG file: at most 640 × 480 pixels, or 1280 × 960 where it is to be `larger`.

    `looks` are per item (see `quoting.domain.looks.looks_of`); `unit` is the shop's, "in" or "cm". `title`
    stands over the legend. `numbered_layers` writes the numbers of the build order on the piece. Equal input
    gives equal bytes; the last few hundred pictures are kept. ValueError where `has_picture` is False.
    """
    if not has_picture(plan):
        raise ValueError("nothing to draw")
    items = dict.fromkeys([*(p.item for p in plan.positions), *(p.item for p in plan.parts if p.fill_cm is not None)])
    colours = {part.item: part.colour for part in plan.parts} | {p.item: p.colour for p in plan.positions}
    return _drawn(_Subject(
        positions=plan.positions, drawing=plan.drawing, outline=plan.outline, hidden=plan.hidden,
        parts=tuple(part for part in plan.parts if part.fill_cm is not None),
        looks=tuple((item, look_for(item, colours[item], looks)) for item in items),
        title=title, unit=unit, is_larger=larger, has_numbers=numbered_layers, words=words,
    ))


@lru_cache(maxsize=256)
def _drawn(subject: _Subject) -> bytes:
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
    canvas = Image.new("RGB", layout.size, _PAPER)
    draw_floor(canvas, scene, layout.view)
    draw_figure(canvas, figure, layout.view, layout.text_px)
    _draw_things(canvas, subject, plan, layout)
    _draw_measures(canvas, layout, built, piece, subject.unit)
    draw_legend(canvas, layout.block, *layout.legend_at)
    small = with_palette(canvas, [look for _, look in subject.looks], plan.drawing)
    return png_bytes(small)


def png_bytes(picture: Image.Image) -> bytes:
    """Give a picture as a PNG file without time or other notes in it."""
    file = io.BytesIO()
    picture.save(file, "PNG", compress_level=5, dpi=(PIXELS_PER_INCH, PIXELS_PER_INCH))
    return file.getvalue()


def _built(piece: Box, outline: Outline | None) -> Box:
    """Give the box that the arrows measure: the built size as the plan states it, about the middle of what is drawn."""
    if outline is None or not outline.width_cm or not outline.height_cm:
        return piece
    middle = (piece.left + piece.right) / 2
    return Box(left=middle - outline.width_cm / 2, right=middle + outline.width_cm / 2, bottom=piece.bottom,
               top=piece.bottom + outline.height_cm)


def _laid_out(subject: _Subject, plan: Plan, scene: Box, built: Box) -> Layout:
    size = [length_words(side, subject.unit).replace(" ", "\u00a0") for side in (built.width, built.height)]
    foot = [f"{subject.words.built_size}: {' × '.join(size)}"]
    if subject.hidden:
        foot.append(subject.words.out_of_sight.format(count=subject.hidden))
    entries = entries_of(plan, dict(subject.looks), subject.unit, subject.words)
    form = _WORKSHOP if subject.is_larger else _QUOTE
    return best_layout(form, entries, Words(heading=subject.title, foot=tuple(foot)), scene)


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
