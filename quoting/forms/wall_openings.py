"""A doorway left free in a wall: read from its fields, and set into the wall's grid."""

from __future__ import annotations

from dataclasses import dataclass

from quoting.domain.counts import nearest_count, rounded_up
from quoting.domain.drawings import Plate
from quoting.forms.drafts import HEADINGS, Draft
from quoting.geometry.packing import Grid


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """An opening that stands on the floor; lengths in cm, `at_cm` from the wall's left end (None: in the middle)."""

    width_cm: float
    height_cm: float
    at_cm: float | None


def read_opening(draft: Draft, width_cm: float, height_cm: float) -> tuple[Opening | None, bool]:
    """Give the opening of a wall of this size, None for none, and whether it makes sense; reports at its cells."""
    for key, other in (("opening_width", "opening_height"), ("opening_height", "opening_width")):
        if draft.is_filled(key) and not draft.is_filled(other):
            draft.complain("P542", other, heading=HEADINGS[other])
            return None, False
    if not draft.is_filled("opening_width"):
        draft.say_unused("without an opening", "opening_at")
        return None, True
    at = draft.decimal("opening_at")
    opening = Opening(width_cm=float(draft.decimal("opening_width") or 0), at_cm=None if at is None else float(at),
                      height_cm=float(draft.decimal("opening_height") or 0))
    if opening.width_cm >= width_cm:
        draft.complain("P541", "opening_width", opening=draft.long(opening.width_cm), wall=draft.long(width_cm),
                       way="wide")
    elif opening.height_cm > height_cm:
        draft.complain("P541", "opening_height", opening=draft.long(opening.height_cm), wall=draft.long(height_cm),
                       way="high")
    elif at is not None and float(at) + opening.width_cm > width_cm:
        draft.complain("P539", "opening_at", heading=HEADINGS["opening_at"], typed=draft.long(at),
                       rule=f"an opening {draft.long(opening.width_cm)} wide would end outside a wall"
                            f" {draft.long(width_cm)} wide")
    else:
        return opening, True
    return None, False


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """The cells of a grid that an opening leaves out: `columns` of them after `left`, in the lowest `rows`."""

    left: int
    columns: int
    rows: int

    def shifted_columns(self, grid: Grid) -> int:
        """How many cells of an even row it leaves out; a staggered one's reach half a cell over at either end."""
        if not grid.is_staggered:
            return self.columns
        return min(grid.shifted_columns, self.left + self.columns) - max(0, self.left - 1)

    def has(self, grid: Grid, row: int, column: int) -> bool:
        """Tell whether a cell (from 1) is left out."""
        if row > self.rows:
            return False
        first = self.left + (0 if grid.is_staggered and row % 2 == 0 and self.left else 1)
        return first <= column <= self.left + self.columns


def gap_in(draft: Draft, grid: Grid, opening: Opening) -> Gap | None:
    """Set an opening to the nearest whole cells, never narrower or lower than asked; reports where none remain."""
    columns = max(1, rounded_up(opening.width_cm / grid.pitch))
    rows = min(grid.rows, rounded_up(opening.height_cm / grid.row_pitch))
    left = (grid.columns - columns) // 2 if opening.at_cm is None else nearest_count(opening.at_cm / grid.pitch)
    if columns >= grid.columns:
        draft.complain("P541", "opening_width", opening=draft.long(opening.width_cm), wall=draft.long(grid.width),
                       way="wide")
        return None
    return Gap(left=min(left, grid.columns - columns), columns=columns, rows=rows)


def draw_gap(draft: Draft, left_cm: float, width_cm: float, height_cm: float, layer: int) -> None:
    """Draw an opening from its left edge; x = 0 is the middle of the wall."""
    draft.drawing.append(Plate(x_cm=left_cm + width_cm / 2, y_cm=0.0, width_cm=width_cm, height_cm=height_cm,
                               role="opening", layer=layer))
