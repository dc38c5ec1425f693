"""Plans made by hand for the tests of pictures: pieces whose positions are known without any form."""

from __future__ import annotations

import math
from collections import Counter

from quoting.domain.drawings import Plate, Shape, Stroke
from quoting.domain.looks import Finish, Look, Silhouette
from quoting.domain.plans import Outline, Part, Plan, Position

LOOKS = {
    "Ivory": Look(rgb=(247, 240, 220), finish=Finish.MATT, colour="ivory", surface="matt"),
    "Sage": Look(rgb=(167, 181, 152), finish=Finish.MATT, colour="sage", surface="matt"),
    "Blush": Look(rgb=(241, 203, 195), finish=Finish.PEARL, colour="blush", surface="pearl"),
    "Burgundy": Look(rgb=(117, 31, 53), finish=Finish.METALLIC, colour="burgundy", surface="metallic"),
    "Gold": Look(rgb=(201, 158, 66), finish=Finish.MIRROR, colour="gold", surface="mirror"),
    "Clear": Look(rgb=(233, 241, 244), finish=Finish.CLEAR, colour="clear", surface="clear"),
    "Star": Look(rgb=(176, 181, 187), finish=Finish.FOIL, colour="silver", surface="foil", silhouette=Silhouette.STAR),
    "Heart": Look(rgb=(200, 60, 90), finish=Finish.FOIL, colour="red", surface="foil", silhouette=Silhouette.HEART),
    "Moon": Look(rgb=(201, 158, 66), finish=Finish.FOIL, colour="gold", surface="foil", silhouette=Silhouette.MOON),
}


def ball(item, x, y, z=0.0, diameter=25.0, *, layer=1, knot=None, role="ring"):
    return Position(x_cm=x, y_cm=y, z_cm=z, diameter_cm=diameter, colour=LOOKS[item].colour, item=item, role=role,
                    layer=layer, knot_degrees=knot)


def plan_of(positions, *, form="hand made", drawing=(), hidden=0, outline=None, more=()):
    counts = Counter((p.item, p.diameter_cm, p.role) for p in positions)
    parts = tuple(Part(item=item, count=count, role=role, colour=LOOKS[item].colour, fill_cm=fill)
                  for (item, fill, role), count in counts.items())
    return Plan(form=form, parts=(*parts, *more), tasks=(), hire=(), outline=outline, positions=tuple(positions),
                build_order=(), workings=(), description=(), drawing=tuple(drawing), hidden=hidden)


def outline(width, height, depth=30.0):
    return Outline(width_cm=width, height_cm=height, depth_cm=depth, longest_rigid_cm=max(width, height),
                   packed_volume_l=1.0, mass_g=1.0)


def finishes():
    """One balloon of each finish, side by side."""
    return plan_of([ball(item, 40.0 * number, 60.0, diameter=36.0) for number, item in enumerate(LOOKS)])


def garland():
    """A swag of clusters in three sizes, with a mirror accent here and there."""
    positions = []
    items = ("Ivory", "Blush", "Sage", "Burgundy", "Gold")
    for number in range(150):
        share = (number + 0.5) / 150
        turn = number * 2.399963  # the golden angle: even, and looks like chance
        x = (share - 0.5) * 300
        spread = 12 + 9 * math.sin(number * 1.7)
        size = (28.0, 24.0, 13.0, 12.0, 20.0)[number % 5]
        item = items[(number * 7) % 5] if size < 20 else items[(number * 3) % 4]
        positions.append(ball(item, x + spread * math.cos(turn), 190 + 0.0016 * x * x + spread * math.sin(turn),
                              spread * math.sin(turn * 0.7), size, layer=number // 30 + 1))
    return plan_of(positions, form="garland", hidden=12,
                   more=(Part(item="Ivory", count=12, role="filler", colour="ivory", fill_cm=12.0),))


def wall():
    """Some nine hundred balloons on a frame, with an opening."""
    positions = []
    for row in range(24):
        for column in range(38):
            x, y = (column - 18.5) * 10.5 + (row % 2) * 5.2, 8 + row * 10.0
            if abs(x) < 45 and y < 205:
                continue
            item = ("Ivory", "Blush", "Ivory", "Sage")[(row * 5 + column * 3) % 4]
            positions.append(ball(item, x, y, (row * column) % 3, 12.7, layer=row // 6 + 1))
    frame = [Stroke(points=((-200.0, 0.0, -10.0), (-200.0, 244.0, -10.0), (200.0, 244.0, -10.0), (200.0, 0.0, -10.0)),
                    width_cm=4.0, role="frame")]
    opening = Plate(x_cm=0.0, y_cm=0.0, width_cm=90.0, height_cm=205.0, role="opening", z_cm=10.0)
    return plan_of(positions, form="wall", drawing=(*frame, opening), outline=outline(405, 245))


def bouquet():
    """Helium balloons over a weight, each on its ribbon."""
    places = [("Ivory", 0, 190, 0), ("Sage", -26, 172, 5), ("Blush", 26, 174, 4), ("Heart", -8, 150, 14),
              ("Star", 20, 148, 16), ("Gold", -30, 140, 8), ("Burgundy", 4, 215, -8)]
    positions = [ball(item, x, y, z, 45.0 if item in ("Star", "Heart") else 28.0, knot=270, role="helium")
                 for item, x, y, z in places]
    ribbons = [Stroke(points=((x, y - 16, z - 1.0), (x * 0.4, y * 0.5, 0.0), (0.0, 10.0, 0.0)), width_cm=0.5,
                      role="ribbon") for _, x, y, z in places]
    weight = Plate(x_cm=0.0, y_cm=0.0, width_cm=12.0, height_cm=10.0, role="weight")
    return plan_of(positions, form="helium bouquet", drawing=(*ribbons, weight), outline=outline(96, 229))


def drop():
    """A net of balloons under a ceiling."""
    positions = [ball(("Ivory", "Burgundy", "Gold")[n % 3], (n % 20 - 9.5) * 14, 262 + (n // 20) * 12.0 + (n % 3) * 2,
                      (n * 7 % 5) * 6.0, 22.0) for n in range(80)]
    net = Shape(points=((-155.0, 310.0), (-150.0, 262.0), (-90.0, 244.0), (90.0, 244.0), (150.0, 262.0),
                        (155.0, 310.0)), role="net", z_cm=60.0)
    return plan_of(positions, form="drop", drawing=(net,), hidden=120,
                   more=(Part(item="Ivory", count=120, role="drop", colour="ivory", fill_cm=22.0),))


def stuffed():
    """Small balloons in a clear one, on a low stand: seen beside a rule."""
    inside = [ball(item, x, 46 + y, -1.0, 11.0) for item, x, y in
              [("Gold", 0, -14), ("Burgundy", -11, -9), ("Blush", 11, -8), ("Sage", -4, 2), ("Gold", 8, 4)]]
    clear = ball("Clear", 0.0, 46.0, 0.0, 45.0, role="outer")
    stem = Stroke(points=((0.0, 2.0, -5.0), (0.0, 25.0, -5.0)), width_cm=2.0, role="pole")
    foot = Plate(x_cm=0.0, y_cm=0.0, width_cm=18.0, height_cm=2.0, role="base")
    return plan_of([*inside, clear], form="stuffed balloon", drawing=(stem, foot))


HAND_MADE = {
    "finishes": finishes, "garland": garland, "wall": wall, "bouquet": bouquet, "drop": drop, "stuffed": stuffed,
}
