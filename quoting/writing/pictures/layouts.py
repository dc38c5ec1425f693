"""Where drawing and legend go on a picture: side by side or one below the other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from quoting.writing.pictures.legend import Block, Entry, legend_block, terse
from quoting.writing.pictures.view import Box, View

_MARGIN, _LEFT, _TOP, _RIGHT, _BELOW, _APART = 12, 48, 8, 10, 40, 22
"""Pixels: left of words; left of the drawing, over, right of and below it; between drawing and legend."""
_LEAST = 0.55
"""A legend may cost the piece this much of the size it would have without one."""
_WORTH_FEWER_WORDS = 0.8
"""The legend says less where the piece would otherwise be drawn at less than this share of the size it could have."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Format:
    """The most a picture may measure, its text size and the width of a legend at its side, all in pixels."""

    width: int
    height: int
    text: int
    legend: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """A picture's size in pixels, where its drawing and its legend go, and the size of its text."""

    size: tuple[int, int]
    view: View
    block: Block
    legend_at: tuple[int, int]
    text_px: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """What the legend says over and under its entries; `more` with {count} where not all entries have room."""

    heading: str
    foot: tuple[str, ...]
    more: str


def best_layout(form: Format, entries: Sequence[Entry], words: Words, scene: Box) -> Layout:
    """Give the layout that leaves the piece largest; one whose legend says everything is worth a little size."""
    bare = _larger(form, (), words, scene)
    assert bare is not None, "two lines of words fit every format"
    full, short = _larger(form, entries, words, scene), _shortest(form, terse(entries), words, scene, bare)
    if full is not None and full.view.scale >= _WORTH_FEWER_WORDS * short.view.scale:
        return full
    return short


def _shortest(form: Format, entries: Sequence[Entry], words: Words, scene: Box, bare: Layout) -> Layout:
    """Leave the last entries out, as few as may be, until the piece keeps most of its size."""
    for kept in range(len(entries), 0, -1):
        rest = (words.more.format(count=len(entries) - kept),) if kept < len(entries) else ()
        shorter = replace(words, foot=(*rest, *words.foot))
        layout = _larger(form, entries[:kept], shorter, scene)
        if layout is not None and layout.view.scale >= _LEAST * bare.view.scale:
            return layout
    return bare


def _larger(form: Format, entries: Sequence[Entry], words: Words, scene: Box) -> Layout | None:
    both = (_beside(form, entries, words, scene), _below(form, entries, words, scene))
    fitting = [layout for layout in both if layout.size[1] <= form.height and layout.view.scale > 0]
    return max(fitting, key=lambda layout: layout.view.scale, default=None)


def _beside(form: Format, entries: Sequence[Entry], words: Words, scene: Box) -> Layout:
    block = legend_block(entries, words.heading, words.foot, columns=1, room_px=form.legend, text_px=form.text)
    wide, high = form.width - _LEFT - _APART - form.legend - _RIGHT, form.height - _TOP - _BELOW
    scale = min(wide / scene.width, high / scene.height)
    height = max(round(scene.height * scale) + _TOP + _BELOW, block.height_px + 2 * _TOP)
    view = View(scale=scale, x_px=_LEFT - scene.left * scale, y_px=height - _BELOW + scene.bottom * scale)
    left = round(_LEFT + scene.width * scale + _APART)
    return Layout(size=(left + form.legend + _RIGHT, height), view=view, block=block, legend_at=(left, _TOP),
                  text_px=form.text)


def _below(form: Format, entries: Sequence[Entry], words: Words, scene: Box) -> Layout:
    room = form.width - _MARGIN - _RIGHT
    columns = max(1, min(len(entries), room // form.legend))
    foot = [" · ".join(words.foot)]
    block = legend_block(entries, words.heading, foot, columns=columns, room_px=room, text_px=form.text)
    wide, high = form.width - _LEFT - _RIGHT, form.height - 2 * _TOP - _BELOW - _APART // 2 - block.height_px
    scale = min(wide / scene.width, high / scene.height)
    spare = (wide - scene.width * scale) / 2
    view = View(scale=scale, x_px=_LEFT + spare - scene.left * scale, y_px=_TOP + scene.top * scale)
    top = _TOP + round(scene.height * scale) + _BELOW + _APART // 2
    return Layout(size=(form.width, top + block.height_px + _TOP), view=view, block=block, legend_at=(_MARGIN, top),
                  text_px=form.text)
