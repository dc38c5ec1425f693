"""A wall: clusters on a square or staggered grid, or an organic one packed with balloons of several sizes."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from decimal import Decimal

from quoting.domain.drawings import Stroke
from quoting.domain.jobs import Piece
from quoting.domain.plans import Part, Plan
from quoting.domain.prices import Hardware, PriceBook, Shape
from quoting.domain.problems import Outcome
from quoting.forms.attachments import Carrier, add_attachments
from quoting.forms.balloon_choice import choose_balloons, choose_size, colours_of
from quoting.forms.drafts import HEADINGS, Draft
from quoting.forms.drawn_stands import USUAL_POLE_CM
from quoting.forms.fields import fields
from quoting.forms.outlines import outline_of
from quoting.forms.patterns import Pattern, read_pattern
from quoting.forms.registry import Form
from quoting.forms.ring_column import fill_or_usual
from quoting.forms.ring_parts import colour_words
from quoting.forms.stands import add_hardware, named_hardware
from quoting.forms.tasks import add_handling, add_inflating
from quoting.forms.wall_clouds import add_cloud, read_cloud
from quoting.forms.wall_grids import GridWall, add_row_layers, side_by_side, wall_positions
from quoting.forms.wall_openings import Opening, draw_gap, gap_in, read_opening
from quoting.forms.wall_workings import MOST_ROWS, add_colour_steps, add_grid_steps, add_wall_size, merged_formula
from quoting.geometry.packing import covering_grid
from quoting.geometry.rings import ring_width

USUAL_PER_CLUSTER, MOST_PER_CLUSTER = 4, 4
"""Quads; common practice, no source. Five or six in a ring leave a hole in the middle of a flat cluster."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Built:
    """What stands in the end; lengths in cm. `clusters` are tied and put on the frame, on all faces together."""

    width_cm: float
    height_cm: float
    depth_cm: float
    clusters: int


def plan(piece: Piece, prices: PriceBook) -> Outcome[Plan | None]:
    """Work out one wall, covered by whole rows and columns, or by volume where it is organic."""
    draft = Draft(piece, prices)
    if not draft.has_all("width", "height", "colours"):
        return draft.refused()
    width, height = float(draft.decimal("width") or 0), float(draft.decimal("height") or 0)
    opening, is_sound = read_opening(draft, width, height)
    if not is_sound:
        return draft.refused()
    is_organic = (draft.text("grid") or "square") == "organic"
    built = _organic(draft, width, height, opening) if is_organic else _on_grid(draft, width, height, opening)
    if built is None:
        return draft.refused()
    _tie_on(draft, built)
    add_inflating(draft)
    for activity in ("tie cluster", "build ring"):
        draft.add_task(activity, Decimal(built.clusters), formula="{clusters}")
    add_handling(draft, bases=0)
    outline = outline_of(
        draft.parts, draft.hire, prices, width_cm=built.width_cm, height_cm=built.height_cm, depth_cm=built.depth_cm,
        rigid_cm=max(built.width_cm, built.height_cm),
        volume_l=built.width_cm * built.height_cm * built.depth_cm / 1000)
    return draft.finished(FORM.name, outline)


def _on_grid(draft: Draft, width: float, height: float, opening: Opening | None) -> Built | None:
    draft.say_unused("on a grid", "depth", "packing", "filler_sizes", "filler_size_shares")
    wall = _grid_wall(draft, width, height, opening)
    if wall is None or draft.is_slip(wall.count, "width", "balloons"):
        return None
    if wall.grid.rows > MOST_ROWS:
        draft.complain("P537", "height", most=MOST_ROWS, what="rows")
        return None
    grid = wall.grid
    add_wall_size(draft, width, height)
    add_grid_steps(draft, wall, opening, is_typed_pitch=draft.is_filled("pitch"))
    _add_parts(draft, wall)
    over = 2 * wall.overhang_cm
    built = Built(width_cm=grid.width + over, height_cm=grid.height + over, depth_cm=wall.fill_cm * wall.faces,
                  clusters=wall.face_clusters * wall.faces)
    _describe(draft, wall, built)
    layer = _add_frame(draft, built)
    layers = add_row_layers(draft, wall)
    draft.positions += wall_positions(wall, layers)
    if wall.gap is not None:
        draw_gap(draft, wall.gap.left * grid.pitch - grid.width / 2, wall.gap.columns * grid.pitch,
                 wall.gap.rows * grid.row_pitch, layer)
    return built


def _grid_wall(draft: Draft, width: float, height: float, opening: Opening | None) -> GridWall | None:
    per_cluster = draft.whole("per_ring", USUAL_PER_CLUSTER) or USUAL_PER_CLUSTER
    colours = colours_of(draft)
    if per_cluster > MOST_PER_CLUSTER:
        draft.complain("P539", "per_ring", heading=HEADINGS["per_ring"], typed=per_cluster,
                       rule=f"a wall is built of clusters of 2 to {MOST_PER_CLUSTER}")
        return None
    fill = fill_or_usual(draft, colours)
    size = None if fill is None else choose_size(draft, fill, "fill", colours)
    balloons = None if size is None else choose_balloons(draft, Shape.ROUND, size, colours)
    pattern = read_pattern(draft, colours, per_cluster)
    if fill is None or balloons is None or pattern is None:
        return None
    pitch = _pitch(draft, float(fill), per_cluster)
    if pitch is None:
        return None
    grid = covering_grid(width, height, pitch, is_staggered=draft.text("grid") == "staggered")
    if draft.is_slip(grid.columns * grid.rows, "width", "clusters"):
        return None
    gap = None if opening is None else gap_in(draft, grid, opening)
    fitted = _fitted(draft, pattern, grid.rows)
    if fitted is None or (opening is not None and gap is None):
        return None
    return GridWall(grid=grid, gap=gap, per_cluster=per_cluster, fill_cm=float(fill), pattern=fitted,
                    balloons=balloons, faces=1 if draft.text("faces") == "one" else 2)


def _pitch(draft: Draft, fill: float, per_cluster: int) -> float | None:
    """Give the pitch typed, or that of clusters side by side; reports one that leaves gaps or no room at all."""
    typed = draft.decimal("pitch")
    if typed is None:
        return side_by_side(fill, per_cluster)
    pitch, widest = float(typed), ring_width(fill, per_cluster)
    if pitch > widest or pitch < fill:
        far = f"is only {draft.short(widest)} wide" if pitch > widest else f"has balloons of {draft.short(fill)}"
        draft.complain("P539", "pitch", heading=HEADINGS["pitch"], typed=draft.short(pitch),
                       rule=f"a cluster of {per_cluster} {far}")
        return None
    return pitch


def _fitted(draft: Draft, pattern: Pattern, rows: int) -> Pattern | None:
    """Give the pattern where its blocks add up to the rows; reports at the blocks' cell where they can't."""
    given = sum(pattern.blocks)
    is_open = len(pattern.blocks) < len(pattern.colours)
    if pattern.name != "blocks" or (is_open and given < rows) or (not is_open and given == rows):
        return pattern
    hint = "type fewer rows per block" if is_open else "leave the last number out and it takes the rest"
    draft.complain("P543", "blocks", blocks=", ".join(map(str, pattern.blocks)), total=given, rows=rows, hint=hint)
    return None


def _add_parts(draft: Draft, wall: GridWall) -> None:
    formulas = add_colour_steps(draft, wall)
    walked = Counter(colour for *_, colour in wall.walk())
    numbers: dict[str, list[int]] = {}
    for number, balloon in enumerate(wall.balloons):
        numbers.setdefault(balloon.item, []).append(number)
    for item, mine in numbers.items():
        count = sum(walked[number] for number in mine)
        if count:
            part = Part(item=item, count=count, role="wall", colour=wall.balloons[mine[0]].colour, fill_cm=wall.fill_cm)
            draft.add_part(part, formula=merged_formula(formulas, mine),
                           words=f"counted along the pattern {wall.pattern.name}")


def _describe(draft: Draft, wall: GridWall, built: Built) -> None:
    grid = wall.grid
    sides = "finished on both sides" if wall.faces == 2 else "seen from one side"
    size = f"{draft.long(built.width_cm)} wide and {draft.long(built.height_cm)} tall"
    draft.description.append(f"Balloon wall, {size}, {sides}")
    if wall.gap is not None:
        free = f"{draft.long(wall.gap.columns * grid.pitch)} × {draft.long(wall.gap.rows * grid.row_pitch)}"
        draft.description.append(f"With an opening of {free}")
    draft.description.append(colour_words(wall.pattern))


def _organic(draft: Draft, width: float, height: float, opening: Opening | None) -> Built | None:
    draft.say_unused("with an organic wall", "faces", "per_ring", "pitch", "pattern", "blocks")
    cloud = read_cloud(draft, width, height, opening)
    if cloud is None or draft.is_slip(cloud.count, "width", "balloons"):
        return None
    add_wall_size(draft, width, height)
    built = Built(width_cm=width, height_cm=height, depth_cm=cloud.depth_cm, clusters=cloud.clusters)
    size = f"{draft.long(width)} wide, {draft.long(height)} tall and {draft.long(built.depth_cm)} deep"
    draft.description.append(f"Organic balloon wall, {size}")
    if opening is not None:
        free = f"{draft.long(opening.width_cm)} × {draft.long(opening.height_cm)}"
        draft.description.append(f"With an opening of {free}")
    layer = add_cloud(draft, cloud, lambda: _add_frame(draft, built))
    if opening is not None:
        draw_gap(draft, cloud.opening_left_cm - width / 2, opening.width_cm, opening.height_cm, layer)
    return built


def _add_frame(draft: Draft, built: Built) -> int:
    """Add the frame that is named, with its build step, and draw it; gives the step's number, 0 for none."""
    frame: Hardware | None = named_hardware(draft, "frame")
    if frame is None:
        return 0
    part = add_hardware(draft, frame, 1, "frame")
    layer = draft.add_layer(f"Frame: {frame.item}", () if part is None else (part,))
    half, top = built.width_cm / 2, built.height_cm
    corners = ((-half, 0.0, 0.0), (-half, top, 0.0), (half, top, 0.0), (half, 0.0, 0.0))
    draft.drawing.append(Stroke(points=corners, width_cm=USUAL_POLE_CM, role="frame", layer=layer))
    return layer


def _tie_on(draft: Draft, built: Built) -> None:
    """Add topper and accents; accents go along the upper edge, where no opening is."""
    add_attachments(draft, Carrier(
        length_cm=built.height_cm, width_cm=built.depth_cm, top_cm=built.height_cm, length_key="height",
        width_key="width", has_holder=False,
        point_at=lambda share: ((share - 0.5) * built.width_cm, 0.9 * built.height_cm, 0.0)))


FORM = Form(
    name="wall",
    summary="A wall of clusters on a grid, or an organic one, with an opening where you need one.",
    fields=fields(
        "width*", "height*", "grid", "size", "fill", "per_ring", "pitch", "faces", "depth", "packing",
        "opening_width", "opening_height", "opening_at", "filler_sizes", "filler_size_shares",
        "pattern", "colours*", "shares", "blocks", "topper", "topper_fill", "accents", "frame",
    ),
    plan=plan,
    example={
        "width": "8 ft", "height": "7 ft", "grid": "square", "fill": "9.5 in", "pattern": "mix",
        "colours": "white, pink", "shares": "70 %, 30 %", "faces": "one", "frame": "Wall frame",
    },
)
