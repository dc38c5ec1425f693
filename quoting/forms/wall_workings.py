"""The workings of a wall on a grid: rows, columns, clusters, the opening, and the count of every colour."""

from __future__ import annotations

from quoting.domain.counts import shared_counts
from quoting.forms.drafts import Draft
from quoting.forms.formulas import kept, nearest, rounded_up, total
from quoting.forms.share_workings import add_given_shares, add_shared
from quoting.forms.wall_grids import GridWall
from quoting.forms.wall_openings import Gap, Opening

MOST_ROWS = 2000
"""The formulas of a pattern look at so many rows."""


def add_wall_size(draft: Draft, width_cm: float, height_cm: float) -> None:
    """Add the givens "width" and "height"."""
    draft.length_step("width", "Width wanted", width_cm)
    draft.length_step("height", "Height wanted", height_cm)


def add_grid_steps(draft: Draft, wall: GridWall, opening: Opening | None, *, is_typed_pitch: bool) -> None:
    """Add the steps up to "clusters" and "balloons", after `add_wall_size`."""
    grid = wall.grid
    draft.length_step("fill", "Fill", wall.fill_cm)
    draft.step("per ring", "Balloons per cluster", wall.per_cluster, unit="balloons")
    draft.step("faces", "Faces", wall.faces)
    draft.length_step("pitch", "Pitch of the clusters", grid.pitch, words="" if is_typed_pitch else "side by side",
                      formula="" if is_typed_pitch else "{fill}*SQRT({per ring})")
    draft.step("columns", "Columns", grid.columns, formula=f"MAX(1,{rounded_up('{width}/{pitch}')})",
               words="whole ones that cover the width")
    shifted = ""
    if grid.is_staggered:
        draft.length_step("row pitch", "Pitch of the rows", grid.row_pitch, formula="{pitch}*SQRT(3)/2")
        draft.step("shifted columns", "Columns of every second row", grid.shifted_columns,
                   formula=f"MAX(1,{rounded_up('({width}/{pitch}-0.5)')})", words="half a pitch further to the right")
        rows, shifted = f"{rounded_up('(({height}/{pitch}-1)*2/SQRT(3))')}+1", "shifted columns"
    else:
        rows = rounded_up("{height}/{pitch}")
    draft.step("rows", "Rows", grid.rows, formula=f"MAX(1,{rows})", words="whole ones that cover the height")
    taken = "" if wall.gap is None or opening is None else _add_gap(draft, wall, wall.gap, opening)
    whole = _cells("rows", "columns", shifted)
    draft.step("clusters", "Clusters", wall.face_clusters * wall.faces, formula=f"{{faces}}*({whole}{taken})")
    draft.step("balloons", "Balloons", wall.count, formula="{clusters}*{per ring}", unit="balloons")


def _add_gap(draft: Draft, wall: GridWall, gap: Gap, opening: Opening) -> str:
    """Add the steps of an opening; gives what to take off the cells."""
    is_staggered = wall.grid.is_staggered
    draft.length_step("opening width", "Width of the opening", opening.width_cm)
    draft.length_step("opening height", "Height of the opening", opening.height_cm)
    draft.step("opening columns", "Columns left out", gap.columns, words="whole ones that free the opening",
               formula=f"MAX(1,{rounded_up('{opening width}/{pitch}')})")
    row_pitch = "{row pitch}" if is_staggered else "{pitch}"
    draft.step("opening rows", "Rows they are left out of", gap.rows,
               formula=f"MIN({{rows}},{rounded_up('{opening height}/' + row_pitch)})")
    room = "{columns}-{opening columns}"
    if opening.at_cm is None:
        draft.step("opening left", "Columns to its left", gap.left, formula=f"INT(({room})/2)", words="in the middle")
    else:
        draft.length_step("opening at", "From the left end to the opening", opening.at_cm)
        draft.step("opening left", "Columns to its left", gap.left, words="the nearest whole column",
                   formula=f"MIN({room},{nearest('{opening at}/{pitch}')})")
    shifted = ""
    if is_staggered:
        shifted = "opening shifted"
        draft.step(shifted, "Left out of every second row", gap.shifted_columns(wall.grid),
                   formula="MIN({shifted columns},{opening left}+{opening columns})-MAX(0,{opening left}-1)")
    return f"-({_cells('opening rows', 'opening columns', shifted)})"


def _cells(rows: str, columns: str, shifted: str) -> str:
    if not shifted:
        return f"{kept(rows)}*{kept(columns)}"
    return f"{kept(columns)}*INT(({kept(rows)}+1)/2)+{kept(shifted)}*INT({kept(rows)}/2)"


def add_colour_steps(draft: Draft, wall: GridWall) -> tuple[str, ...]:
    """Add what the pattern needs, and give the formula of each colour's count (by its number in the pattern)."""
    pattern, numbers = wall.pattern, range(len(wall.pattern.colours))
    if pattern.name == "solid":
        return ("{balloons}",)
    if pattern.name == "spiral":
        return tuple(f"{{balloons}}/{len(pattern.colours)}" for _ in numbers)
    if pattern.name == "mix":
        add_given_shares(draft, "colour", pattern.colours, pattern.shares)
        counts = add_shared(draft, name="colour", of="balloons", shares_of="colour", labels=pattern.colours,
                            shares=pattern.shares, whole=wall.count)
        assert counts == shared_counts(wall.count, pattern.shares)
        return tuple(kept(f"colour {number + 1}") for number in numbers)
    if pattern.name == "blocks":
        _add_block_ends(draft, wall)
    return tuple(f"{{faces}}*{{per ring}}*({_in_rows(wall, number)})" for number in numbers)


def _add_block_ends(draft: Draft, wall: GridWall) -> None:
    pattern = wall.pattern
    for number, colour in enumerate(pattern.colours, 1):
        label, key = f"Last row of block {number}, {colour}", f"block end {number}"
        if number > len(pattern.blocks):
            draft.step(key, label, wall.grid.rows, formula="{rows}", words="the last block takes the rest")
            continue
        draft.step(f"block {number}", f"Rows of block {number}, {colour}", pattern.blocks[number - 1])
        ends = [f"{{block {number}}}", *([kept(f"block end {number - 1}")] if number > 1 else [])]
        draft.step(key, label, sum(pattern.blocks[:number]), formula=total(ends))


def _in_rows(wall: GridWall, number: int) -> str:
    """Count the clusters of one face in the rows of a colour: all cells less those of the opening."""
    row = f"ROW($1:${MOST_ROWS})"
    if wall.pattern.name == "bands":
        is_its = f"(MOD({row}-1,{len(wall.pattern.colours)})={number})"
    else:
        start = kept(f"block end {number}") if number else "0"
        is_its = f"({row}>{start})*({row}<={kept(f'block end {number + 1}')})"

    def summed(rows: str, columns: str, shifted: str) -> str:
        cells = kept(columns)
        if wall.grid.is_staggered:
            cells = f"({kept(shifted)}+({kept(columns)}-{kept(shifted)})*MOD({row},2))"
        return f"SUMPRODUCT(({row}<={kept(rows)})*{is_its}*{cells})"

    taken = "" if wall.gap is None else "-" + summed("opening rows", "opening columns", "opening shifted")
    return summed("rows", "columns", "shifted columns") + taken


def merged_formula(formulas: tuple[str, ...], numbers: list[int]) -> str:
    """Give the formula of several colours of one balloon together."""
    return total(formulas[number] for number in numbers)
