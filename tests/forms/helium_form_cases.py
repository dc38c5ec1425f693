"""Pieces of the forms of helium and of single balloons, and small pieces, as typed."""

from __future__ import annotations

from decimal import Decimal

from forms_price_book import FOOT, INCH, inches

D = Decimal
TWO, THREE = ("ivory", "sage"), ("ivory", "sage", "coral")
MIX = {"pattern": "mix", "shares": (D("0.55"), D("0.3"), D("0.15")), "colours": THREE}
TIED = {"accents": ((3, "Paper fan"), (2, "18 in foil silver"), (2, "Tassel")), "accents_at": ("along", "top", "foot")}
ARCH = {"width": 16 * FOOT, "height": 8 * FOOT, "size": 11, "spacing": 12 * INCH, "colours": TWO, "pattern": "bands"}
LINE = {"route": "swag", "width": 12 * FOOT, "sag": 2 * FOOT, "size": 11, "spacing": 12 * INCH, "colours": TWO,
        "pattern": "bands"}
STRAND = {"height": 9 * FOOT, "fill": D("9.5") * INCH, "colours": THREE, "pattern": "bands"}
BOUQUET = {"count": 7, "size": 11, "colours": TWO, "shares": (D("0.6"), D("0.4")), "ribbon": "Ribbon cut",
           "ribbon_length": 5 * FOOT}
FOILS = {"foils": ((2, "18 in foil silver"), (1, "18 in foil star"))}
SCATTER = {"width": 10 * FOOT, "length": 12 * FOOT, "size": 11, "colours": TWO}
PIECE = {"height": 28 * INCH, "fill": D("4.5") * INCH, "top_fill": D(4) * INCH, "colours": TWO, "pattern": "bands"}

CASES = {
    "line arch": ("line arch", {**ARCH, **TIED, "line": "Line 100 ft"}),
    "line arch by length": ("line arch", {**ARCH, "height": None, "length": 24 * FOOT, **MIX}),
    "line arch blocks": ("line arch", {**ARCH, "spacing": None, "colours": THREE, "pattern": "blocks",
                                       "blocks": (9, 8), "weight": "none"}),
    "line arch whole blocks": ("line arch", {**ARCH, "pattern": "blocks", "blocks": (20, 4), "line": "Line piece",
                                             "weight": "Water weight"}),
    "air line swag": ("air line", {**LINE, **TIED, "line": "Line 100 ft"}),
    "air line frame": ("air line", {**LINE, "route": "up and across", "sag": None, "height": 7 * FOOT, **MIX,
                                    "frame": "Arch frame 10 ft"}),
    "air line straight": ("air line", {**LINE, "route": "straight", "width": None, "sag": None, "length": 11 * FOOT,
                                       "colours": ("ivory",), "pattern": None, "spacing": None}),
    "strand": ("floor-to-ceiling strand", {**STRAND, **TIED, "line": "Line 100 ft"}),
    "strand mix": ("floor-to-ceiling strand", {**STRAND, **MIX, "spacing": 10 * INCH, "weight": "none"}),
    "bouquet": ("helium bouquet", {**BOUQUET, **TIED}),
    "bouquet foils": ("helium bouquet", {**BOUQUET, **FOILS, "ribbon": "Ribbon 25 yd"}),
    "bouquet of foils": ("helium bouquet", {**FOILS, "height": 6 * FOOT, "weight": "Water weight"}),
    "bouquet high": ("helium bouquet", {**BOUQUET, "ribbon_length": None, "height": 7 * FOOT, "weight": "none",
                                        "ribbon": "none"}),
    "bouquet tall": ("helium bouquet", {**BOUQUET, "count": 31, "ribbon_length": 4 * FOOT}),
    "scatter": ("ceiling scatter", {**SCATTER, "ribbon": "Ribbon 25 yd", "ribbon_length": 3 * FOOT,
                                    "accents": TIED["accents"]}),
    "scatter counted": ("ceiling scatter", {**SCATTER, "width": None, "length": None, "count": 60,
                                            "shares": (D("0.7"), D("0.3")), "ribbon": "Ribbon cut",
                                            "ribbon_length": 2 * FOOT}),
    "scatter wide": ("ceiling scatter", {**SCATTER, "spacing": 20 * INCH, "height": 9 * FOOT}),
    "centrepiece": ("centrepiece", {**PIECE, "topper": "18 in foil silver", "accents": ((2, "Paper fan"),),
                                    "accents_at": ("middle",)}),
    "centrepiece topper": ("centrepiece", {**PIECE, "top_fill": None, "topper": "24 in matt ivory", "pole": "none"}),
    "centrepiece rings": ("centrepiece", {**PIECE, "fill": None, "fills": inches(8, "4.5"), **MIX, "per_ring": 3,
                                          "pole": "none"}),
}

CHANGES = {
    "line arch": {"width": 18 * FOOT, "height": 9 * FOOT},
    "line arch by length": {"length": 29 * FOOT, "shares": (D("0.2"), D("0.2"), D("0.6"))},
    "line arch blocks": {"height": 9 * FOOT, "blocks": (7, 12)},
    "air line swag": {"sag": 3 * FOOT, "spacing": 14 * INCH},
    "air line frame": {"height": 9 * FOOT},
    "strand": {"height": 14 * FOOT},
    "bouquet": {"count": 11, "ribbon_length": 7 * FOOT},
    "bouquet foils": {"count": 13, "shares": (D("0.2"), D("0.8"))},
    "bouquet high": {"count": 9, "height": 8 * FOOT},
    "scatter": {"width": 14 * FOOT, "length": 9 * FOOT},
    "scatter counted": {"count": 77},
    "centrepiece": {"per_ring": 5},
}
