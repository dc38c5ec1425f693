"""A drop: a net under the ceiling that lets its balloons fall when its cord is pulled."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from itertools import islice

from quoting.domain.counts import rounded_down
from quoting.domain.drawings import Shape, Stroke
from quoting.domain.jobs import Piece
from quoting.domain.plans import Part, Plan, Position
from quoting.domain.prices import PriceBook
from quoting.domain.problems import Outcome
from quoting.forms.drafts import HEADINGS, Draft
from quoting.forms.drop_workings import LONG_NET, add_drop_steps
from quoting.forms.fields import fields
from quoting.forms.lots import Lot, add_lot_parts, lot_words, part_words, read_lot
from quoting.forms.outlines import outline_of
from quoting.forms.registry import Form
from quoting.forms.stands import add_hardware, named_hardware
from quoting.forms.tasks import add_handling, add_inflating
from quoting.geometry.packing import RANDOM_SPHERES, spheres_in

SIDES = ("length", "width", "depth")

CEILING_CM = 300.0
"""Drawn hanging so high where no height is given; nothing is counted from it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Net:
    """A net and what is in it; sides in cm, in the order of `SIDES`. `typed` are the sides that were given."""

    sides_cm: tuple[float, float, float]
    typed: frozenset[str]
    count: int
    is_counted: bool
    """True where the count comes from the net, False where it was typed."""
    packing: float

    @property
    def volume(self) -> float:
        """Cubic cm."""
        length, width, depth = self.sides_cm
        return length * width * depth


def plan(piece: Piece, prices: PriceBook) -> Outcome[Plan | None]:
    """Work out one drop: the balloons a net holds, or the net that holds a number of balloons."""
    draft = Draft(piece, prices)
    if not draft.has_all("colours"):
        return draft.refused()
    lot = read_lot(draft)
    net = None if lot is None else _net(draft, lot)
    if lot is None or net is None or not _hangs(draft, net) or draft.is_slip(net.count, "length", "balloons"):
        return draft.refused()
    return _built(draft, lot, net)


def _net(draft: Draft, lot: Lot) -> Net | None:
    """Give the net; reports where too little is given, or where it does not hold the count."""
    count, ball = draft.whole("count"), lot.mean_volume
    packing = float(draft.decimal("packing") or RANDOM_SPHERES)
    given = {key: float(draft.decimal(key) or 0) for key in SIDES if draft.is_filled(key)}
    thin = next((key for key, side in given.items() if side < lot.fills_cm[0]), None)
    if thin is not None:
        draft.complain("P539", thin, heading=HEADINGS[thin], typed=draft.long(given[thin]),
                       rule=f"its balloons alone are {draft.short(lot.fills_cm[0])}")
        return None
    if count is None and len(given) < len(SIDES):
        draft.complain("P544", next(key for key in SIDES if key not in given))
        return None
    sides = _sides(given, (count or 0) * ball / packing, lot.fills_cm[0])
    net = Net(sides_cm=sides, typed=frozenset(given), count=count or 0, is_counted=count is None, packing=packing)
    holds = rounded_down(spheres_in(net.volume, ball, packing))
    if count is None:
        if not holds:
            words = " × ".join(draft.long(side) for side in sides)
            draft.complain("P545", "fill", net=words, holds=0, fill=draft.short(lot.fills_cm[0]), count="one")
            return None
        return Net(sides_cm=sides, typed=net.typed, count=holds, is_counted=True, packing=packing)
    if len(given) == len(SIDES) and count > holds:
        draft.complain("P545", "count", net=" × ".join(draft.long(side) for side in sides), holds=holds,
                       fill=draft.short(lot.fills_cm[0]), count=count)
        return None
    return net


def _sides(given: dict[str, float], volume: float, fill: float) -> tuple[float, float, float]:
    """Fill in the sides that are not given, so that the net has this volume: as deep as wide, else long.

    None of them is less than a balloon's `fill`.
    """
    length, width, depth = (given.get(key, 0.0) for key in SIDES)
    if not given:
        width = depth = max(fill, (volume / LONG_NET) ** (1 / 3))
    elif not width and not depth:
        width = depth = max(fill, (volume / length) ** 0.5)
    elif length:
        width = width or max(fill, volume / length / depth)
        depth = depth or max(fill, volume / length / width)
    else:
        width, depth = width or depth, depth or width
    return length or max(fill, volume / width / depth), width, depth


def _hangs(draft: Draft, net: Net) -> bool:
    """Tell whether the net fits under the height given; reports at the height's cell where it does not."""
    height, depth = draft.decimal("height"), net.sides_cm[2]
    if height is not None and float(height) < depth:
        draft.complain("P539", "height", heading=HEADINGS["height"], typed=draft.long(height),
                       rule=f"the net alone is {draft.long(depth)} deep")
        return False
    return True


def _built(draft: Draft, lot: Lot, net: Net) -> Outcome[Plan | None]:
    length, width, depth = net.sides_cm
    size = f"{draft.long(length)} × {draft.long(width)} × {draft.long(depth)}"
    draft.description.append(f"{net.count} balloons to drop from a net {size}")
    draft.description.append(lot_words(lot))
    add_drop_steps(draft, lot, sides_cm=net.sides_cm, typed=net.typed, count=net.count, is_counted=net.is_counted,
                   packing=net.packing)
    parts = add_lot_parts(draft, lot, of="balloons", count=net.count, role="drop")
    layer = _add_net(draft, net, size)
    layer = _add_filling(draft, parts, layer)
    drawn = _positions(draft, lot, net, layer)
    draft.positions += drawn
    draft.hidden = net.count - len(drawn)
    add_inflating(draft)
    draft.add_task("fill net", Decimal(net.count), formula="{balloons}")
    add_handling(draft, bases=0)
    outline = outline_of(draft.parts, draft.hire, draft.prices, width_cm=length, height_cm=depth, depth_cm=width,
                         rigid_cm=0.0, volume_l=net.volume / 1000)
    return draft.finished(FORM.name, outline)


def _top_cm(draft: Draft, net: Net) -> float:
    return float(draft.decimal("height") or max(CEILING_CM, net.sides_cm[2] + 200))


def _add_net(draft: Draft, net: Net, size: str) -> int:
    item = named_hardware(draft, "net")
    part = None if item is None else add_hardware(draft, item, 1, "net")
    name = "Net" if item is None else item.item
    layer = draft.add_layer(f"{name}, laced to {size}", () if part is None else (part,))
    length, width, depth = net.sides_cm
    top = _top_cm(draft, net)
    bottom, half = top - depth, length / 2
    draft.drawing.append(Shape(
        points=((-half, top), (-half * 0.98, bottom + depth * 0.12), (-half * 0.92, bottom), (half * 0.92, bottom),
                (half * 0.98, bottom + depth * 0.12), (half, top)),
        role="net", z_cm=width / 2 + 1, layer=layer))
    draft.drawing.append(Stroke(points=((-half, top, 0.0), (half, top, 0.0)), width_cm=2.0, role="line", layer=layer))
    return layer


def _add_filling(draft: Draft, parts: tuple[Part, ...], net_layer: int) -> int:
    layer = draft.add_layer(f"Fill the net: {part_words(draft, parts)}", parts)
    assert layer == net_layer + 1, "the net comes first"
    draft.add_layer("Close the net, hang it from fixings meant for it, lead the cord to where it will be pulled")
    return layer


def _positions(draft: Draft, lot: Lot, net: Net, layer: int) -> list[Position]:
    """Draw the balloons that can be seen from the front; the others lie behind them.

    They stand on a grid of the room that one takes in the net, each a little off its place, always by the same.
    """
    length, width, depth = net.sides_cm
    room = (net.volume / net.count) ** (1 / 3)
    columns, rows = max(1, round(length / room)), max(1, round(depth / room))
    layers = max(1, round(width / room))
    seen = min(net.count, max(columns * rows, -(-net.count // layers)))
    columns = max(columns, -(-seen // rows))
    bottom = _top_cm(draft, net) - depth
    positions = []
    for number, (balloon, fill) in enumerate(islice(lot.strewn(net.count), seen)):
        row, column = divmod(number, columns)
        off_x, off_y = _off(number, 0.7548776662), _off(number, 0.5698402910)
        x = -length / 2 + (column + 0.5 + 0.35 * off_x) * length / columns
        y = bottom + (row + 0.5 + 0.35 * off_y) * depth / rows
        half, top = fill / 2, bottom + depth
        positions.append(Position(
            x_cm=min(max(x, -length / 2 + half), length / 2 - half) if length > fill else 0.0,
            y_cm=min(max(y, bottom + half), top - half) if depth > fill else (bottom + top) / 2,
            z_cm=width / 2 - half + _off(number, 0.3247179572) * half / 2, diameter_cm=fill, colour=balloon.colour,
            item=balloon.item, role="drop", layer=layer))
    return positions


def _off(number: int, step: float) -> float:
    """Give a share from −0.5 to 0.5 that looks strewn, the same for the same number."""
    return (0.5 + number * step) % 1 - 0.5


FORM = Form(
    name="drop",
    summary="Balloons that fall from a net: how many a net holds, or the net for a number of them.",
    fields=fields(
        "count", "length", "width", "depth", "height", "size", "fill", "packing", "colours*", "shares", "net",
    ),
    plan=plan,
    example={"count": "200", "fill": "8 in", "colours": "white, pink", "shares": "60 %, 40 %", "net": "Drop net large"},
)
