"""A mosaic: a frame in the shape of letters or figures, or a plain one, filled with balloons of one size."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from quoting.domain.counts import rounded_up
from quoting.domain.drawings import Stroke
from quoting.domain.jobs import Piece
from quoting.domain.plans import Part, Plan, Position
from quoting.domain.prices import PriceBook
from quoting.domain.problems import Outcome
from quoting.forms.attachments import Carrier, add_attachments
from quoting.forms.drafts import HEADINGS, Draft
from quoting.forms.drawn_stands import USUAL_POLE_CM
from quoting.forms.fields import fields
from quoting.forms.lots import Lot, part_words, read_lot
from quoting.forms.mosaic_workings import add_mosaic_parts, add_mosaic_steps
from quoting.forms.outlines import outline_of
from quoting.forms.patterns import Pattern as ColourPattern
from quoting.forms.patterns import walk_colours
from quoting.forms.registry import Form
from quoting.forms.stands import add_hardware, named_hardware
from quoting.forms.tasks import add_handling, add_inflating
from quoting.geometry.areas import Contour, area, edge_length, laid_along, laid_within, rectangle
from quoting.geometry.letters import known_signs, letter_of, line_of

PATTERNS = ("solid", "mix", "bands")
"""Patterns a mosaic can have; bands are whole letters in turn."""

LEEWAY = 0.05
"""A width within a twentieth of what the letters take is the same width rounded by a hand."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One frame of a mosaic, its contours in cm where they stand. `sign` is "" for a plain frame.

    `share` and `edge` are its area and edge for a height of 1, which the workings start from.
    """

    sign: str
    contours: tuple[Contour, ...]
    share: float
    edge: float
    filled: int
    along: int

    @property
    def count(self) -> int:
        """All its balloons."""
        return self.filled + self.along


def plan(piece: Piece, prices: PriceBook) -> Outcome[Plan | None]:
    """Work out one mosaic: area ÷ the square that one balloon takes, and an edge row."""
    draft = Draft(piece, prices)
    if not draft.has_all("height", "colours"):
        return draft.refused()
    lot, pattern = read_lot(draft), _pattern(draft)
    if lot is None or not pattern or not _fits_height(draft, lot.fills_cm[0]):
        return draft.refused()
    figures = _figures(draft, lot.fills_cm[0])
    if figures is None or draft.is_slip(sum(figure.count for figure in figures), "height", "balloons"):
        return draft.refused()
    return _built(draft, lot, pattern, figures)


def _pattern(draft: Draft) -> str:
    """Give the pattern, "" where it can't be, which is reported at its cell."""
    count = len(draft.items("colours"))
    name = draft.text("pattern") or ("solid" if count == 1 else "mix")
    if name not in PATTERNS or (name == "bands" and not draft.is_filled("letters")):
        draft.complain("P549", "pattern", form="mosaic", pattern=name,
                       choices="solid or mix, or bands for letters in turn")
        return ""
    if name == "solid" and count > 1:
        draft.complain("P507", "colours", count=count)
        return ""
    if name != "mix":
        draft.say_unused(f"with the pattern {name}", "shares")
    return name


def _fits_height(draft: Draft, fill: float) -> bool:
    """Tell whether at least one balloon fits into the height; reports at its cell."""
    height = float(draft.decimal("height") or 0)
    if height >= fill:
        return True
    draft.complain("P539", "height", heading=HEADINGS["height"], typed=draft.long(height),
                   rule=f"its balloons alone are {draft.short(fill)}")
    return False


def _figures(draft: Draft, fill: float) -> tuple[Figure, ...] | None:
    """Give the frames side by side from x = 0; reports at the letters' or the width's cell."""
    height, text = float(draft.decimal("height") or 0), " ".join(draft.text("letters").split())
    if not text:
        if not draft.has_all("width"):
            return None
        width = float(draft.decimal("width") or 0)
        if width < fill:
            draft.complain("P539", "width", heading=HEADINGS["width"], typed=draft.long(width),
                           rule=f"its balloons alone are {draft.short(fill)}")
            return None
        return (_figure(draft, "", rectangle(width, height), height, fill),)
    unknown = [sign for sign in text if sign != " " and letter_of(sign) is None]
    if unknown:
        signs = " ".join(sign for sign in known_signs() if not sign.isalnum())
        draft.complain("P546", "letters", sign=unknown[0], signs=signs)
        return None
    line = line_of(text)
    if not _has_width(draft, text, line.width * height, height):
        return None
    return tuple(
        _figure(draft, letter.sign, tuple(
            tuple(((x + left) * height, y * height) for x, y in contour) for contour in letter.contours), height, fill)
        for letter, left in line.letters)


def _has_width(draft: Draft, text: str, width: float, height: float) -> bool:
    typed = draft.decimal("width")
    if typed is None or abs(float(typed) - width) <= LEEWAY * width:
        return True
    draft.complain("P539", "width", heading=HEADINGS["width"], typed=draft.long(typed),
                   rule=f'"{text.upper()}" {draft.long(height)} high is {draft.long(width)} wide')
    return False


def _figure(draft: Draft, sign: str, contours: tuple[Contour, ...], height: float, fill: float) -> Figure:
    """Count one frame. A letter's figures for a height of 1 are rounded as the workings show them, and counted from."""
    share, edge = area(contours) / height**2, edge_length(contours) / height
    if sign:
        share, edge = round(share, 6), round(edge, 6)
    has_edge = draft.piece.row.get("edge") is not False
    return Figure(sign=sign, contours=contours, share=share, edge=edge,
                  filled=rounded_up(share * (height / fill) ** 2),
                  along=rounded_up(edge * height / fill) if has_edge else 0)


def _built(draft: Draft, lot: Lot, pattern: str, figures: Sequence[Figure]) -> Outcome[Plan | None]:
    fill, height = lot.fills_cm[0], float(draft.decimal("height") or 0)
    points = [point for figure in figures for contour in figure.contours for point in contour]
    over = fill if any(figure.along for figure in figures) else 0.0
    low, right = min(y for _, y in points), max(x for x, _ in points)
    wide, tall = right + over, max(y for _, y in points) - low + over
    text = " ".join(draft.text("letters").split()).upper()
    what = f'Mosaic "{text}"' if text else "Mosaic frame"
    draft.description.append(f"{what}, {draft.long(wide)} wide and {draft.long(tall)} tall")
    draft.description.append(_colour_words(lot, pattern))
    add_mosaic_steps(draft, lot, figures, height_cm=height, width_cm=None if text else right)
    parts = add_mosaic_parts(draft, lot, figures, pattern)
    layer = _add_frames(draft, figures, right / 2, over / 2 - low)
    layer = _add_filling(draft, figures, parts, layer)
    draft.positions += _positions(lot, figures, pattern, layer, (right / 2, over / 2 - low))
    add_attachments(draft, Carrier(
        length_cm=tall, width_cm=fill, top_cm=tall, length_key="height", width_key="fill", has_holder=False,
        point_at=lambda share: ((share - 0.5) * wide, 0.95 * tall, 0.0)))
    add_inflating(draft)
    draft.add_task("fit mosaic balloon", Decimal(sum(figure.count for figure in figures)), formula="{balloons}")
    add_handling(draft, bases=0)
    outline = outline_of(draft.parts, draft.hire, draft.prices, width_cm=wide, height_cm=tall, depth_cm=fill,
                         rigid_cm=_longest(figures, over), volume_l=wide * tall * fill / 1000)
    return draft.finished(FORM.name, outline)


def _longest(figures: Sequence[Figure], over: float) -> float:
    """Longest side of the largest frame: letters stand each for itself."""
    sides = []
    for figure in figures:
        for axis in (0, 1):
            ends = [point[axis] for contour in figure.contours for point in contour]
            sides.append(max(ends) - min(ends) + over)
    return max(sides)


def _colour_words(lot: Lot, pattern: str) -> str:
    names = list(dict.fromkeys(lot.colours))
    listed = names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
    return listed[:1].upper() + listed[1:] + {"mix": " mixed", "bands": ", letter by letter"}.get(pattern, "")


def _add_frames(draft: Draft, figures: Sequence[Figure], middle: float, lift: float) -> int:
    """Add the frame that is named, one per letter, and draw their outlines; gives the step's number, 0 for none."""
    frame, layer = named_hardware(draft, "frame"), 0
    if frame is not None:
        part = add_hardware(draft, frame, len(figures), "frame", formula="{frames}")
        layer = draft.add_layer(f"{len(figures)} × {frame.item}", () if part is None else (part,))
    for figure in figures:
        for contour in figure.contours:
            line = tuple((x - middle, y + lift, -1.0) for x, y in (*contour, contour[0]))
            draft.drawing.append(Stroke(points=line, width_cm=USUAL_POLE_CM / 2, role="frame", layer=layer))
    return layer


def _add_filling(draft: Draft, figures: Sequence[Figure], parts: tuple[Part, ...], frame_layer: int) -> int:
    each = ", ".join(
        f"{figure.sign or 'frame'}: {figure.filled}" + (f" + {figure.along} along the edge" if figure.along else "")
        for figure in figures)
    layer = draft.add_layer(f"Fill ({each}): {part_words(draft, parts)}", parts)
    assert layer == frame_layer + 1, "the frames come first"
    return layer


def _positions(
    lot: Lot, figures: Sequence[Figure], pattern: str, layer: int, origin: tuple[float, float]
) -> list[Position]:
    """Lay every balloon: the filling in level rows, the edge row along the outline, a little before it."""
    middle, lift = origin
    fill, count = lot.fills_cm[0], sum(figure.count for figure in figures)
    mixed = iter(walk_colours(ColourPattern(name="mix", colours=lot.colours, shares=lot.colour_shares), 1, count)[0])
    positions = []
    for number, figure in enumerate(figures):
        points = [(point, 0.0) for point in laid_within(figure.contours, figure.filled, fill)]
        points += [(point, fill / 4) for point in laid_along(figure.contours, figure.along)] if figure.along else []
        for (x, y), z in points:
            colour = next(mixed)
            if pattern != "mix":
                colour = number % len(lot.colours)
            balloon = lot.balloons[0][colour]
            positions.append(Position(
                x_cm=x - middle, y_cm=y + lift, z_cm=z, diameter_cm=fill, colour=balloon.colour, item=balloon.item,
                role="mosaic", layer=layer))
    return positions


FORM = Form(
    name="mosaic",
    summary="A frame in the shape of letters or figures, or a plain one, filled with small balloons.",
    fields=fields(
        "letters", "height*", "width", "size", "fill", "edge", "pattern", "colours*", "shares",
        "topper", "topper_fill", "accents", "frame",
    ),
    plan=plan,
    example={"letters": "50", "height": "4 ft", "fill": "4 in", "colours": "white, pink", "shares": "70 %, 30 %",
             "pattern": "mix"},
)
