"""The workings of a mosaic: area and edge of every frame, and the count of every colour."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

from quoting.domain.plans import Part
from quoting.forms.drafts import Draft
from quoting.forms.formulas import kept, kept_all, rounded_up, total
from quoting.forms.lots import Lot, add_lot_parts


class CountedFigure(Protocol):
    """What the workings say of one frame."""

    @property
    def sign(self) -> str:
        """The letter, "" for a plain frame."""

    @property
    def share(self) -> float:
        """Area ÷ height²."""

    @property
    def edge(self) -> float:
        """Length of all edges ÷ height."""

    @property
    def filled(self) -> int:
        """Balloons of the filling."""

    @property
    def along(self) -> int:
        """Balloons of the edge row."""

    @property
    def count(self) -> int:
        """Both together."""


def add_mosaic_steps(
    draft: Draft, lot: Lot, figures: Sequence[CountedFigure], *, height_cm: float, width_cm: float | None
) -> None:
    """Add the steps up to "balloons"; each frame's own count stands under "frame N". `width_cm`: of a plain frame."""
    draft.length_step("height", "Height" if width_cm is not None else "Height of a capital", height_cm)
    if width_cm is not None:
        draft.length_step("width", "Width", width_cm)
    draft.length_step("fill", "Fill", lot.fills_cm[0])
    for number, figure in enumerate(figures, 1):
        _add_figure(draft, figure, number, is_plain=width_cm is not None)
    draft.step("frames", "Frames", len(figures), unit="pieces")
    draft.step("balloons", "Balloons", sum(figure.count for figure in figures), unit="balloons",
               formula=kept_all([f"frame {number}" for number in range(1, len(figures) + 1)]))


def _add_figure(draft: Draft, figure: CountedFigure, number: int, *, is_plain: bool) -> None:
    name = f'"{figure.sign}"' if figure.sign else "the frame"
    source = "" if is_plain else "measured from the outline of the letter"
    area, edge = f"area {number}", f"edge {number}"
    draft.step(area, f"Area of {name} ÷ height²", figure.share, words=source,
               formula="{width}/{height}" if is_plain else "")
    draft.step(f"filled {number}", f"Balloons in {name}", figure.filled, words="whole squares of one fill",
               formula=rounded_up(f"({kept(area)}*({{height}}/{{fill}})^2)"))
    if figure.along:
        draft.step(edge, f"Edges of {name} ÷ height", figure.edge, words=source,
                   formula="2*({width}+{height})/{height}" if is_plain else "")
        draft.step(f"along {number}", f"Balloons along the edges of {name}", figure.along,
                   formula=rounded_up(f"({kept(edge)}*{{height}}/{{fill}})"))
    keys = [f"filled {number}", *([f"along {number}"] if figure.along else [])]
    draft.step(f"frame {number}", f"Balloons of {name}", figure.count, formula=kept_all(keys))


def add_mosaic_parts(draft: Draft, lot: Lot, figures: Sequence[CountedFigure], pattern: str) -> tuple[Part, ...]:
    """Add one part per balloon: a mix by shares of all, bands by whole letters in turn."""
    if pattern != "bands":
        count = sum(figure.count for figure in figures)
        return add_lot_parts(draft, lot, of="balloons", count=count, role="mosaic")
    frames: dict[str, list[int]] = {}
    for number in range(len(figures)):
        frames.setdefault(lot.balloons[0][number % len(lot.colours)].item, []).append(number)
    colour_of = {balloon.item: balloon.colour for balloon in lot.balloons[0]}
    parts = tuple(
        Part(item=item, count=sum(figures[number].count for number in numbers), role="mosaic", colour=colour_of[item],
             fill_cm=lot.fills_cm[0])
        for item, numbers in frames.items())
    for part in parts:
        draft.add_part(part, words="whole letters in turn",
                       formula=total(kept(f"frame {number + 1}") for number in frames[part.item]))
    return parts
