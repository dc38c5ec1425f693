"""Pieces of the forms that follow a line (arches on legs, demi-arches, garlands) and of repeated fills, as typed."""

from __future__ import annotations

from decimal import Decimal

from forms_price_book import FOOT, INCH, inches

D = Decimal
TWO, THREE = ("ivory", "sage"), ("ivory", "sage", "coral")
TIED = {"topper": "18 in foil silver", "accents": ((3, "Paper fan"), (2, "18 in foil silver")),
        "wrap": "Twister 260 sage", "wrap_turns": D("2.5")}
MIX = {"pattern": "mix", "shares": (D("0.55"), D("0.3"), D("0.15")), "colours": THREE}
TURNS = {"height": 7 * FOOT, "fills": inches(10, 8), "repeat": True}
COUNTED = {"fills": inches(10, 8, 9), "repeat": True, "colours": TWO, "pattern": "bands"}
LEGS = {"width": 8 * FOOT, "leg": 4 * FOOT, "curve": "semicircle", "fill": D("9.5") * INCH, "colours": TWO,
        "pattern": "spiral"}
DEMI = {"width": 5 * FOOT, "height": 7 * FOOT, "leg": 3 * FOOT, "tip": 6 * FOOT, "fill": D("9.5") * INCH,
        "colours": TWO, "pattern": "bands"}
FILLED = {"size": 11, "filler_sizes": (5, 11, 16), "filler_size_shares": (D("0.6"), D("0.3"), D("0.1")),
          "colours": THREE}
STRAIGHT = {"route": "straight", "length": 10 * FOOT, **FILLED}
SWAG = {"route": "swag", "width": 10 * FOOT, "sag": 2 * FOOT, **FILLED}
DRAPED = {"route": "draped", "segments": (4 * FOOT, 4 * FOOT, 3 * FOOT), "sag": 1 * FOOT, **FILLED}
ACROSS = {"route": "up and across", "width": 5 * FOOT, "height": 7 * FOOT, **FILLED}

CASES = {
    "turns bands": ("ring column", {**TURNS, "colours": THREE, "pattern": "bands", **TIED}),
    "turns solid": ("ring column", {**TURNS, "colours": ("sage",)}),
    "turns spiral": ("ring column", {**TURNS, "fills": inches(10, 10, 8), "colours": THREE, "pattern": "spiral",
                                     "per_ring": 6}),
    "turns blocks": ("ring column", {**TURNS, "colours": THREE, "pattern": "blocks", "blocks": (3, 4)}),
    "turns mix": ("ring column", {**TURNS, "fills": inches(10, 8, 5, 8), **MIX, "per_ring": 5}),
    "turns counted": ("ring column", {**COUNTED, "rings": 7}),
    "turns short": ("ring column", {**COUNTED, "rings": 2}),
    "turns deep": ("ring column", {**TURNS, "fills": inches(10, 4), "colours": ("ivory",), "per_ring": 5}),
    "legs leg": ("arch on legs", {**LEGS, **TIED, "frame": "Arch frame 10 ft"}),
    "legs height": ("arch on legs", {**LEGS, "leg": None, "height": 8 * FOOT}),
    "legs both": ("arch on legs", {**LEGS, "height": 8 * FOOT, **MIX}),
    "legs ellipse": ("arch on legs", {**LEGS, "curve": "semi-ellipse", "height": 6 * FOOT, "pattern": "bands"}),
    "demi": ("demi-arch", {**DEMI, **TIED}),
    "demi to the top": ("demi-arch", {**DEMI, "tip": None, "leg": None}),
    "demi down": ("demi-arch", {**DEMI, "tip": 3 * FOOT, **MIX}),
    "garland straight": ("garland", {**STRAIGHT, "length": 15 * FOOT, "faces": "one", "fullness": "light"}),
    "garland one size": (
        "garland", {**STRAIGHT, "filler_sizes": (5,), "filler_size_shares": None, "colours": ("ivory",)}),
    "garland swag": ("garland", {**SWAG, **TIED, "frame": "Arch frame 10 ft"}),
    "garland swag length": ("garland", {**SWAG, "sag": None, "length": 12 * FOOT, "shares": MIX["shares"]}),
    "garland taut": ("garland", {**SWAG, "sag": None, "length": 10 * FOOT}),
    "garland draped": ("garland", {**DRAPED, "fullness": "full", "filler_colours": ("slate", "ivory"),
                                   "filler_shares": (D("0.7"), D("0.3"))}),
    "garland draped length": ("garland", {**DRAPED, "sag": None, "length": 13 * FOOT}),
    "garland across": ("garland", {**ACROSS, "size": None, "fills": inches(10, 8), "per_ring": 3}),
}

CHANGES = {
    "turns bands": {"height": 9 * FOOT},
    "turns spiral": {"height": 5 * FOOT, "fills": inches(11, 11, 7.5)},
    "turns blocks": {"height": 9 * FOOT, "blocks": (5, 2)},
    "turns mix": {"height": 8 * FOOT, "shares": (D("0.4"), D("0.35"), D("0.25"))},
    "turns counted": {"rings": 11},
    "legs leg": {"width": 9 * FOOT, "leg": 5 * FOOT},
    "legs height": {"height": 9 * FOOT},
    "legs ellipse": {"leg": 2 * FOOT, "width": 9 * FOOT},
    "demi": {"width": 6 * FOOT, "height": 9 * FOOT, "tip": 5 * FOOT},
    "demi to the top": {"height": 8 * FOOT},
    "garland straight": {"length": 23 * FOOT},
    "garland swag": {"sag": 5 * FOOT},
    "garland swag length": {"length": 30 * FOOT, "shares": (D("0.2"), D("0.2"), D("0.6"))},
    "garland draped": {"sag": 3 * FOOT, "filler_shares": (D("0.45"), D("0.55"))},
    "garland draped length": {"length": 21 * FOOT},
    "garland across": {"height": 9 * FOOT, "fills": inches(11, 7.5)},
}
