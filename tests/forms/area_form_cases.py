"""Pieces of the forms that fill an area or a room (walls, drops, mosaics, stuffed balloons) and of twisted figures."""

from __future__ import annotations

from decimal import Decimal

from forms_price_book import FOOT, INCH

D = Decimal
TWO, THREE = ("ivory", "sage"), ("ivory", "sage", "coral")
SHARES = (D("0.55"), D("0.3"), D("0.15"))
TIED = {"topper": "18 in foil silver", "accents": ((3, "Paper fan"), (2, "18 in foil silver"))}
WALL = {"width": 8 * FOOT, "height": 7 * FOOT, "fill": D("9.5") * INCH}
DOOR = {"opening_width": 3 * FOOT, "opening_height": 5 * FOOT}
STAGGERED = {**WALL, "grid": "staggered", "fill": D(4) * INCH, "width": 9 * FOOT}
CLOUD = {"width": 8 * FOOT, "height": 7 * FOOT, "depth": 18 * INCH, "grid": "organic"}
SIZES = {"filler_sizes": (5, 11, 16), "filler_size_shares": (D("0.5"), D("0.4"), D("0.1"))}
DROP = {"fill": D(8) * INCH, "colours": THREE, "shares": SHARES}
MOSAIC = {"height": 4 * FOOT, "fill": D(4) * INCH}
STUFFED = {"outer": "24 in clear clear", "count": 5, "fill": D(4) * INCH, "colours": TWO,
           "shares": (D("0.6"), D("0.4"))}

CASES = {
    "wall solid": ("wall", {**WALL, "colours": ("ivory",), "faces": "one", "frame": "Wall frame", **TIED}),
    "wall spiral": ("wall", {**WALL, "colours": TWO, "pattern": "spiral", "frame": "Wall frame"}),
    "wall bands": ("wall", {**WALL, "colours": THREE, "pattern": "bands", "per_ring": 3, **DOOR}),
    "wall blocks": ("wall", {**WALL, "colours": THREE, "pattern": "blocks", "blocks": (2, 1), "per_ring": 2, **DOOR}),
    "wall full blocks": ("wall", {**WALL, "colours": TWO, "pattern": "blocks", "blocks": (3, 2)}),
    "wall mix": ("wall", {**WALL, "colours": THREE, "pattern": "mix", "shares": SHARES, **DOOR, "opening_at": FOOT}),
    "wall pitch": ("wall", {**WALL, "colours": ("sage",), "pitch": D(17) * INCH}),
    "wall same twice": ("wall", {**WALL, "colours": ("ivory", "sage", "ivory"), "pattern": "bands"}),
    "staggered solid": ("wall", {**STAGGERED, "colours": ("ivory",)}),
    "staggered bands": ("wall", {**STAGGERED, "colours": THREE, "pattern": "bands", **DOOR, "faces": "one"}),
    "staggered blocks": ("wall", {**STAGGERED, "colours": TWO, "pattern": "blocks", "blocks": (5,), **DOOR}),
    "staggered edge": ("wall", {**STAGGERED, "colours": TWO, "pattern": "bands", **DOOR, "opening_at": D(0)}),
    "staggered mix": ("wall", {**STAGGERED, "colours": THREE, "pattern": "mix", **DOOR, "opening_at": 6 * FOOT}),
    "organic sizes": ("wall", {**CLOUD, **SIZES, "colours": THREE, "shares": SHARES, **DOOR, **TIED}),
    "organic one size": ("wall", {**CLOUD, "size": 11, "colours": TWO, "frame": "Wall frame"}),
    "organic packed": ("wall", {**CLOUD, **SIZES, "colours": ("sage",), "packing": D("0.6"), **DOOR,
                                "opening_at": FOOT}),
    "drop counted": ("drop", {**DROP, "count": 200, "net": "Drop net"}),
    "drop from net": ("drop", {**DROP, "length": 20 * FOOT, "width": 4 * FOOT, "depth": 3 * FOOT, "height": 14 * FOOT}),
    "drop long": ("drop", {**DROP, "count": 300, "length": 20 * FOOT, "packing": D("0.6")}),
    "drop wide": ("drop", {**DROP, "count": 300, "width": 3 * FOOT}),
    "drop deep": ("drop", {**DROP, "count": 300, "depth": 3 * FOOT}),
    "drop no length": ("drop", {**DROP, "count": 300, "width": 4 * FOOT, "depth": 2 * FOOT}),
    "drop no width": ("drop", {**DROP, "count": 300, "length": 9 * FOOT, "depth": 2 * FOOT}),
    "drop no depth": ("drop", {**DROP, "count": 300, "length": 9 * FOOT, "width": 4 * FOOT, "colours": ("coral",),
                               "shares": None}),
    "drop of few": ("drop", {**DROP, "count": 3}),
    "drop of few, long": ("drop", {**DROP, "count": 9, "length": 20 * FOOT, "width": 4 * FOOT}),
    "drop roomy": ("drop", {**DROP, "count": 300, "length": 20 * FOOT, "width": 4 * FOOT, "depth": 3 * FOOT}),
    "mosaic 50": ("mosaic", {**MOSAIC, "letters": "50", "colours": TWO, "shares": (D("0.7"), D("0.3")),
                             "frame": "Backdrop ring", **TIED}),
    "mosaic words": ("mosaic", {**MOSAIC, "letters": "A & b", "colours": TWO, "pattern": "bands"}),
    "mosaic no edge": ("mosaic", {**MOSAIC, "letters": "WW", "colours": ("coral",), "edge": False}),
    "mosaic plain": ("mosaic", {**MOSAIC, "width": 6 * FOOT, "colours": THREE, "pattern": "mix", "shares": SHARES}),
    "stuffed": ("stuffed balloon", {**STUFFED, **TIED, "wrap": "Twister 260 sage", "wrap_turns": D(2)}),
    "stuffed one": ("stuffed balloon", {"outer": "24 in matt ivory", "size": 24, "colours": ("sage",)}),
    "figure": ("twisted figure", {"colours": THREE, "twisters": (5, 2, 1), "minutes": D("6.5"), **TIED}),
    "figure same twice": ("twisted figure", {"colours": ("ivory", "sage", "ivory"), "twisters": (1, 2, 3),
                                             "minutes": D(4), "height": 2 * FOOT, "width": FOOT}),
}

CHANGES = {
    "wall bands": {"width": 12 * FOOT, "height": 9 * FOOT, "per_ring": 2},
    "wall blocks": {"width": 11 * FOOT, "height": 9 * FOOT, "blocks": (1, 3), "faces": "one"},
    "wall mix": {"width": 12 * FOOT, "shares": (D("0.34"), D("0.33"), D("0.33")), "opening_at": 3 * FOOT},
    "wall pitch": {"pitch": D(19) * INCH, "width": 12 * FOOT},
    "staggered bands": {"width": 8 * FOOT, "height": 8 * FOOT, "opening_width": 4 * FOOT},
    "staggered blocks": {"blocks": (3,), "height": 8 * FOOT, "opening_height": 6 * FOOT},
    "staggered edge": {"opening_at": 2 * FOOT, "opening_height": 4 * FOOT},
    "organic sizes": {"width": 9 * FOOT, "depth": 2 * FOOT, "opening_width": 4 * FOOT},
    "organic packed": {"packing": D("0.5"), "filler_size_shares": (D("0.2"), D("0.4"), D("0.4"))},
    "drop counted": {"count": 331, "fill": D("7.5") * INCH},
    "drop from net": {"length": 25 * FOOT, "packing": D("0.55")},
    "mosaic 50": {"height": 5 * FOOT, "fill": D("4.5") * INCH},
    "mosaic words": {"height": 6 * FOOT},
    "mosaic plain": {"width": 8 * FOOT, "height": 3 * FOOT},
    "stuffed": {"count": 7, "shares": (D("0.2"), D("0.8"))},
    "figure": {"twisters": (4, 4, 4), "minutes": D(11)},
}
