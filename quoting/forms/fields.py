"""The columns of the Pieces sheet that forms ask for: one definition each, shared by all forms.

A fragment is a JSON Schema (draft 2020-12) of one property: `title` is the heading,
`description` the note on it, `examples` what to type; our own annotation "cell"
says how the cell's text is understood ("kind", a `quoting.domain.cells.Kind`),
what to type when it is wrong ("fix"), which units a bare number may have
("units": imperial book, metric book), the "group" of columns and their "width".
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

Schema = Mapping[str, object]

CURVES = ("semicircle", "semi-ellipse", "catenary", "parabola", "square", "full hoop", "half hoop")
PATTERNS = ("solid", "spiral", "bands", "blocks", "mix")
MIDDLES = ("rings", "twisters")
ROUTES = ("straight", "swag", "draped", "up and across")
FULLNESSES = ("light", "medium", "full")
FACES = ("one", "both")
ACCENT_PLACES = ("along", "foot", "middle", "top")
GRIDS = ("square", "staggered", "organic")
NONE = "none"
"""What an owner types for hardware that a piece shall go without."""

INCHES = ("in", "inch", "inches", '"')
"""What may stand behind a nominal size."""

_SIZE, _RINGS, _FILLERS, _COLOUR, _TOP, _STAND = "Size", "Rings", "Fillers", "Colours", "Tied on", "Hardware"


@dataclass(frozen=True, slots=True, kw_only=True)
class FormField:
    """One column a form asks for. `schema` is the same mapping for every form that shares the column."""

    key: str
    is_required: bool
    schema: Schema


def _field(
    title: str, description: str, *, kind: str, example: str, fix: str, group: str, rules: Schema, **cell: object
) -> Schema:
    """One fragment. `rules` are its JSON Schema keywords, `cell` further annotations (width, units…)."""
    notes = {"kind": kind, "fix": fix, "group": group, "width": 12, **cell}
    return {**rules, "title": title, "description": description, "examples": [example], "cell": notes}


_LONG, _SHORT = ["ft", "cm"], ["in", "cm"]
_LENGTH = {"type": "number", "exclusiveMinimum": 0}
_POSITIVE = {"type": "array", "minItems": 1, "items": _LENGTH}
_NAME = {"type": "string", "minLength": 1}
_SHARES = {"type": "array", "minItems": 1, "items": {"type": "number", "exclusiveMinimum": 0}}


def pieces_fields() -> Mapping[str, Schema]:
    """Every column that some form asks for: key → schema fragment, in the order of the sheet."""
    return {
        "height": _field(
            "Height",
            "Height of the balloon work, floor to top; of an arch, to the middle of its topmost balloons. The quote"
            " states what it comes to over all.",
            kind="length", example="7 ft", group=_SIZE,
            fix="type one length, e.g. 7 ft or 2.1 m",
            rules=_LENGTH, units=_LONG,
        ),
        "width": _field(
            "Width",
            "Width of the piece; of an arch the span, from middle to middle of its feet.",
            kind="length", example="10 ft", group=_SIZE,
            fix="type one length, e.g. 10 ft or 3 m",
            rules=_LENGTH, units=_LONG,
        ),
        "length": _field(
            "Length",
            "Length of the piece, measured along it.",
            kind="length", example="6 ft", group=_SIZE,
            fix="type one length, e.g. 6 ft or 1.8 m",
            rules=_LENGTH, units=_LONG,
        ),
        "size": _field(
            "Size",
            "Nominal size of the balloons in inches. Left blank: the smallest stocked that takes the fill.",
            kind="whole number", example="11", group=_SIZE,
            fix="type the size printed on the pack, e.g. 11",
            suffixes=INCHES, rules={"type": "integer", "minimum": 1, "maximum": 999}, width=8,
        ),
        "fill": _field(
            "Fill",
            "Diameter each balloon is inflated to. Left blank: the usual fill of its size.",
            kind="length", example="9.5 in", group=_SIZE,
            fix="type one length, e.g. 9.5 in or 24 cm",
            rules=_LENGTH, width=9, units=_SHORT,
        ),
        "fills": _field(
            "Fills",
            "One fill per ring, from the floor up.",
            kind="list of lengths", example="10 in, 10 in, 9 in, 8 in", group=_SIZE,
            fix="type lengths with commas between, e.g. 10 in, 9 in, 8 in",
            rules=_POSITIVE, width=22, units=_SHORT,
        ),
        "foot_fills": _field(
            "Fills at each end",
            "Fills of the rings at the foot, from the floor up; the top gets the same, mirrored.",
            kind="list of lengths", example="10 in, 8 in, 5 in", group=_SIZE,
            fix="type lengths with commas between, e.g. 10 in, 8 in, 5 in",
            rules=_POSITIVE, width=20, units=_SHORT,
        ),
        "middle": _field(
            "Middle",
            "What stands between the two ends: rings, or twisters wound round the pole.",
            kind="text", example="twisters", group=_SIZE,
            fix="choose rings or twisters",
            rules={"type": "string", "enum": list(MIDDLES)}, width=10,
        ),
        "middle_fill": _field(
            "Middle fill",
            "Fill of the rings between the two ends.",
            kind="length", example="8 in", group=_SIZE,
            fix="type one length, e.g. 8 in or 20 cm",
            rules=_LENGTH, width=9, units=_SHORT,
        ),
        "twister": _field(
            "Twister",
            "Size code of the twisters in the middle.",
            kind="text", example="260", group=_SIZE,
            fix="choose 160, 260, 350 or 646",
            rules={"type": "string", "enum": ["160", "260", "350", "646"], "default": "260"}, width=9,
        ),
        "strands": _field(
            "Strands",
            "How many twister strands wind round the pole; four is usual.",
            kind="whole number", example="4", group=_SIZE,
            fix="type a whole number from 1 to 12",
            rules={"type": "integer", "minimum": 1, "maximum": 12, "default": 4}, width=9, source="common practice",
        ),
        "turns": _field(
            "Turns",
            "How many times each strand winds round the pole.",
            kind="number", example="3", group=_SIZE,
            fix="type a number, e.g. 3 or 2.5",
            rules={"type": "number", "minimum": 0, "maximum": 100}, width=8,
        ),
        "curve": _field(
            "Curve",
            "Shape of the arch. A semicircle and a half hoop are half as high as wide, a full hoop as high.",
            kind="text", example="semi-ellipse", group=_SIZE,
            fix="choose one of the list",
            rules={"type": "string", "enum": list(CURVES)}, width=13,
        ),
        "leg": _field(
            "Straight leg",
            "How far a leg of the arch goes straight up before its curve begins.",
            kind="length", example="4 ft", group=_SIZE,
            fix="type one length, e.g. 4 ft or 1.2 m",
            rules=_LENGTH, units=_LONG,
        ),
        "tip": _field(
            "Height of the tip",
            "Where a demi-arch ends, over the floor. Left blank: at its highest point.",
            kind="length", example="5 ft", group=_SIZE,
            fix="type one length, e.g. 5 ft or 1.5 m",
            rules=_LENGTH, units=_LONG,
        ),
        "route": _field(
            "Route",
            "How a garland goes: straight, swag (hangs between two points), draped (hangs from point to point),"
            " or up and across (up one side, then along the top).",
            kind="text", example="swag", group=_SIZE,
            fix="choose one of the list",
            rules={"type": "string", "enum": list(ROUTES)}, width=13,
        ),
        "sag": _field(
            "Sag",
            "How far the garland hangs below its points; from it comes the length, or from the length the sag.",
            kind="length", example="2 ft", group=_SIZE,
            fix="type one length, e.g. 2 ft or 60 cm",
            rules=_LENGTH, units=_LONG,
        ),
        "segments": _field(
            "Segments",
            "For a draped garland: the distance from each point it hangs from to the next.",
            kind="list of lengths", example="4 ft, 4 ft, 3 ft", group=_SIZE,
            fix="type lengths with commas between, e.g. 4 ft, 4 ft, 3 ft",
            rules={**_POSITIVE, "maxItems": 40}, width=16, units=_LONG,
        ),
        "faces": _field(
            "Faces",
            "From how many sides guests see it: both, or one against a wall. Left blank: both.",
            kind="text", example="one", group=_SIZE,
            fix="choose one or both",
            rules={"type": "string", "enum": list(FACES), "default": "both"}, width=8,
        ),
        "spacing": _field(
            "Spacing",
            "From middle to middle of single balloons on a line or under a ceiling. Left blank: on a line side by side,"
            " under a ceiling one per square foot.",
            kind="length", example="12 in", group=_SIZE,
            fix="type one length, e.g. 12 in or 30 cm",
            rules=_LENGTH, width=9, units=_SHORT,
        ),
        "top_fill": _field(
            "Top fill",
            "Fill of the cluster at the top of a centrepiece. Left blank: without a cluster, with a topper.",
            kind="length", example="5 in", group=_SIZE,
            fix="type one length, e.g. 5 in or 12 cm",
            rules=_LENGTH, width=9, units=_SHORT,
        ),
        "depth": _field(
            "Depth",
            "Front to back of an organic wall; top to bottom of the net of a drop.",
            kind="length", example="18 in", group=_SIZE,
            fix="type one length, e.g. 18 in or 45 cm",
            rules=_LENGTH, units=_LONG,
        ),
        "count": _field(
            "Count",
            "How many balloons, where you count them: in a drop, inside a stuffed balloon, rounds of a bouquet, under a"
            " ceiling.",
            kind="whole number", example="200", group=_SIZE,
            fix="type a whole number, e.g. 200",
            rules={"type": "integer", "minimum": 1, "maximum": 20000}, width=8,
        ),
        "grid": _field(
            "Grid",
            "How the clusters of a wall stand: in a square grid, in a staggered one (rows half a place apart), or"
            " organic (mixed sizes, packed into its depth). Left blank: square.",
            kind="text", example="staggered", group=_SIZE,
            fix="choose square, staggered or organic",
            rules={"type": "string", "enum": list(GRIDS), "default": "square"}, width=11,
        ),
        "pitch": _field(
            "Pitch",
            "From middle to middle of neighbouring clusters of a wall, as your frame has it."
            " Left blank: clusters side by side.",
            kind="length", example="19 in", group=_SIZE,
            fix="type one length, e.g. 19 in or 48 cm",
            rules=_LENGTH, width=9, units=_SHORT,
        ),
        "packing": _field(
            "Packing share",
            "How much of an organic wall or of a drop's net is balloon, the rest being gaps."
            " Left blank: 64 %, as equal balls lie when shaken down.",
            kind="percent", example="64 %", group=_SIZE,
            fix="type one percent, e.g. 64 %",
            rules={"type": "number", "exclusiveMinimum": 0, "maximum": 0.8, "default": 0.64}, width=9,
        ),
        "opening_width": _field(
            "Opening width",
            "Width of a doorway left free in a wall. It stands on the floor.",
            kind="length", example="3 ft", group=_SIZE,
            fix="type one length, e.g. 3 ft or 90 cm",
            rules=_LENGTH, units=_LONG,
        ),
        "opening_height": _field(
            "Opening height",
            "Height of a doorway left free in a wall.",
            kind="length", example="6'6\"", group=_SIZE,
            fix="type one length, e.g. 6'6\" or 2 m",
            rules=_LENGTH, units=_LONG,
        ),
        "opening_at": _field(
            "Opening from left",
            "From the left end of the wall to the opening, to the nearest whole cluster. Left blank: in the middle.",
            kind="length", example="4 ft", group=_SIZE,
            fix="type one length, e.g. 4 ft or 1.2 m, or 0",
            rules={"type": "number", "minimum": 0}, units=_LONG,
        ),
        "letters": _field(
            "Letters",
            "What a mosaic shows: capitals, figures and & ! ? + - # . '; the height is that of a capital."
            " Left blank: a plain frame, width by height.",
            kind="text", example="50", group=_SIZE,
            fix="type capitals and figures, e.g. 50; format the cell as text",
            rules={"type": "string", "minLength": 1, "maxLength": 40}, width=10,
        ),
        "edge": _field(
            "Edge row",
            "Whether a row of balloons runs along the edges of a mosaic. Left blank: yes.",
            kind="yes or no", example="no", group=_SIZE,
            fix="choose yes or no",
            rules={"type": "boolean", "default": True}, width=8,
        ),
        "outer": _field(
            "Outer balloon",
            "The balloon of the Balloons sheet that others are stuffed into, mostly a clear one.",
            kind="text", example="Round 24 clear", group=_SIZE,
            fix="type an item as the Balloons sheet names it",
            rules=_NAME, width=18, choices_from="balloons.item",
        ),
        "outer_fill": _field(
            "Outer fill",
            "Diameter of the outer balloon. Left blank: its usual fill.",
            kind="length", example="21 in", group=_SIZE,
            fix="type one length, e.g. 21 in or 53 cm",
            rules=_LENGTH, width=9, units=_SHORT,
        ),
        "twisters": _field(
            "Twisters of each colour",
            "How many twisters of each colour a twisted figure takes, in the order of the colours.",
            kind="list of whole numbers", example="3, 1", group=_SIZE,
            fix="type whole numbers with commas between, e.g. 3, 1",
            rules={"type": "array", "minItems": 1, "items": {"type": "integer", "minimum": 1}},
        ),
        "minutes": _field(
            "Minutes each",
            "How long you take to twist one such figure.",
            kind="number", example="6", group=_SIZE,
            fix="type a number of minutes, e.g. 6 or 2.5",
            rules={"type": "number", "minimum": 0, "maximum": 1440}, width=9,
        ),
        "per_ring": _field(
            "Balloons per ring",
            "How many balloons a ring has, or a cluster of a wall (2 to 4); four is usual.",
            kind="whole number", example="4", group=_RINGS,
            fix="type a whole number from 2 to 6",
            rules={"type": "integer", "minimum": 2, "maximum": 6, "default": 4}, width=9, source="common practice",
        ),
        "rings": _field(
            "Rings",
            "How many rings, where you count rings and not height.",
            kind="whole number", example="9", group=_RINGS,
            fix="type a whole number, e.g. 9",
            rules={"type": "integer", "minimum": 1, "maximum": 2000}, width=8,
        ),
        "repeat": _field(
            "Repeat fills",
            "Yes: the list of fills starts again and again, until the height or the number of rings is reached.",
            kind="yes or no", example="yes", group=_RINGS,
            fix="choose yes or no",
            rules={"type": "boolean", "default": False}, width=8,
        ),
        "fullness": _field(
            "Fullness",
            "How thickly the spine of a garland is filled; the Shop sheet says how many filler clusters each means."
            " Left blank: medium.",
            kind="text", example="medium", group=_FILLERS,
            fix="choose light, medium or full",
            rules={"type": "string", "enum": list(FULLNESSES), "default": "medium"}, width=10,
        ),
        "filler_sizes": _field(
            "Filler sizes",
            "Nominal sizes of the filler balloons in inches, each at its usual fill.",
            kind="list of whole numbers", example="5, 11, 16", group=_FILLERS,
            fix="type the sizes printed on the packs with commas between, e.g. 5, 11, 16",
            suffixes=INCHES,
            rules={"type": "array", "minItems": 1, "items": {"type": "integer", "minimum": 1, "maximum": 999}},
        ),
        "filler_size_shares": _field(
            "Shares of filler sizes",
            "The share of each filler size, in the order of the sizes. Left blank: equal shares.",
            kind="list of percents", example="60 %, 30 %, 10 %", group=_FILLERS,
            fix="type one percent per size with commas between, e.g. 60 %, 30 %, 10 %",
            rules=_SHARES, width=16,
        ),
        "filler_colours": _field(
            "Filler colours",
            "Colours of the fillers, as the Balloons sheet names them. Left blank: the colours of the spine.",
            kind="list of texts", example="ivory, sage", group=_FILLERS,
            fix="type colours with commas between, e.g. ivory, pearl gold",
            rules={"type": "array", "minItems": 1, "items": _NAME}, width=24,
        ),
        "filler_shares": _field(
            "Shares of filler colours",
            "The share of each filler colour, in the order of the colours. Left blank: as the spine, or equal shares.",
            kind="list of percents", example="50 %, 50 %", group=_FILLERS,
            fix="type one percent per colour with commas between, e.g. 60 %, 40 %",
            rules=_SHARES, width=16,
        ),
        "pattern": _field(
            "Pattern",
            "How colours go round: solid, spiral, bands (whole rings in turn), blocks, or mix (by shares).",
            kind="text", example="spiral", group=_COLOUR,
            fix="choose one of the list",
            rules={"type": "string", "enum": list(PATTERNS)}, width=10,
        ),
        "colours": _field(
            "Colours",
            "Colours in the order of the pattern, as the Balloons sheet names them.",
            kind="list of texts", example="ivory, sage", group=_COLOUR,
            fix="type colours with commas between, e.g. ivory, pearl gold",
            rules={"type": "array", "minItems": 1, "items": _NAME}, width=24,
        ),
        "shares": _field(
            "Shares",
            "For a mix: the share of each colour, in the order of the colours. Left blank: equal shares.",
            kind="list of percents", example="60 %, 40 %", group=_COLOUR,
            fix="type one percent per colour with commas between, e.g. 60 %, 40 %",
            rules=_SHARES,
        ),
        "blocks": _field(
            "Rings per block",
            "For blocks: how many rings each colour gets, from the floor up. Leave the last out and it takes the rest.",
            kind="list of whole numbers", example="3, 4, 3", group=_COLOUR,
            fix="type whole numbers with commas between, e.g. 3, 4, 3",
            rules={"type": "array", "minItems": 1, "items": {"type": "integer", "minimum": 1}},
        ),
        "topper": _field(
            "Topper",
            "One item from the Balloons or Hardware sheet that sits on top.",
            kind="text", example="Foil star gold", group=_TOP,
            fix="type an item as its sheet names it",
            changes_price=True, rules=_NAME, width=18, choices_from="balloons.item",
        ),
        "topper_fill": _field(
            "Topper fill",
            "Diameter of the topper. Left blank: its usual fill.",
            kind="length", example="21 in", group=_TOP,
            fix="type one length, e.g. 21 in or 53 cm",
            rules=_LENGTH, width=9, units=_SHORT,
        ),
        "accents": _field(
            "Accents",
            "Things tied on, with their count, from the Balloons or Hardware sheet.",
            kind="list of amounts", example="3 x Foil star gold, 2 x Paper fan", group=_TOP,
            fix="type amounts with commas between, e.g. 3 x Foil star gold",
            changes_price=True, rules={"type": "array", "minItems": 1}, width=28,
        ),
        "accents_at": _field(
            "Accents at",
            "Where accents are tied on: along, foot, middle or top; one place for all, or one for each in their order."
            " Left blank: along.",
            kind="list of texts", example="top, along", group=_TOP,
            fix="type along, foot, middle or top, with commas between",
            rules={"type": "array", "minItems": 1, "items": {"type": "string", "enum": list(ACCENT_PLACES)}}, width=14,
        ),
        "foils": _field(
            "Helium foils",
            "Foils that float in a bouquet, with their count, from the Balloons sheet.",
            kind="list of amounts", example="2 x Foil star gold", group=_TOP,
            fix="type amounts with commas between, e.g. 2 x Foil star gold",
            changes_price=True, rules={"type": "array", "minItems": 1}, width=22,
        ),
        "ribbon": _field(
            "Ribbon",
            "What each balloon hangs or floats on, from the Hardware sheet; one with a length is a roll. Left blank or"
            " none: without.",
            kind="text", example="Balloon ribbon", group=_TOP,
            fix="type an item as the Hardware sheet names it, or none",
            changes_price=True, rules=_NAME, width=16, choices_from="hardware.item",
        ),
        "ribbon_length": _field(
            "Ribbon length",
            "Length of each ribbon; in a bouquet of the longest.",
            kind="length", example="6 ft", group=_TOP,
            fix="type one length, e.g. 6 ft or 1.8 m",
            rules=_LENGTH, units=_LONG,
        ),
        "wrap": _field(
            "Wrap",
            "A twister or a bought ribbon wound round the piece from top to foot.",
            kind="text", example="Twister 260 gold", group=_TOP,
            fix="type an item as its sheet names it",
            changes_price=True, rules=_NAME, width=18, choices_from="balloons.item",
        ),
        "wrap_turns": _field(
            "Wrap turns",
            "How many times the wrap goes round.",
            kind="number", example="3", group=_TOP,
            fix="type a number, e.g. 3",
            rules={"type": "number", "minimum": 0, "maximum": 100}, width=8,
        ),
        "base": _field(
            "Base",
            "Base plate from the Hardware sheet. Left blank: the usual one; none: without.",
            kind="text", example="Base plate steel", group=_STAND,
            fix="type an item as the Hardware sheet names it, or none",
            changes_price=True, rules=_NAME, width=18, choices_from="hardware.item",
        ),
        "pole": _field(
            "Pole",
            "Pole from the Hardware sheet. Left blank: the shortest usual one that is long enough; none: without.",
            kind="text", example="Pole 7 ft", group=_STAND,
            fix="type an item as the Hardware sheet names it, or none",
            changes_price=True, rules=_NAME, width=18, choices_from="hardware.item",
        ),
        "frame": _field(
            "Frame",
            "Frame from the Hardware sheet. Left blank or none: without.",
            kind="text", example="Arch frame 10 ft", group=_STAND,
            fix="type an item as the Hardware sheet names it, or none",
            changes_price=True, rules=_NAME, width=18, choices_from="hardware.item",
        ),
        "net": _field(
            "Net",
            "Net of a drop from the Hardware sheet. Left blank or none: without, the client has one.",
            kind="text", example="Drop net large", group=_STAND,
            fix="type an item as the Hardware sheet names it, or none",
            changes_price=True, rules=_NAME, width=16, choices_from="hardware.item",
        ),
        "line": _field(
            "Line",
            "Line that single balloons are tied on, from the Hardware sheet; one with a length is a roll. Left blank or"
            " none: not charged.",
            kind="text", example="Balloon line 100 ft", group=_STAND,
            fix="type an item as the Hardware sheet names it, or none",
            changes_price=True, rules=_NAME, width=16, choices_from="hardware.item",
        ),
        "weight": _field(
            "Weight",
            "Weight from the Hardware sheet that holds the piece down. Left blank: the usual one; none: without.",
            kind="text", example="Balloon weight", group=_STAND,
            fix="type an item as the Hardware sheet names it, or none",
            changes_price=True, rules=_NAME, width=16, choices_from="hardware.item",
        ),
        "build": _field(
            "Build",
            "Your own recipe, as the Builds sheet names it.",
            kind="text", example="Gift corner", group=_STAND,
            fix="type a build as the Builds sheet names it",
            rules=_NAME, width=16, choices_from="builds.build",
        ),
        "item": _field(
            "Item",
            "The thing hired, as the Hardware sheet names it.",
            kind="text", example="Round backdrop frame", group=_STAND,
            fix="type an item as the Hardware sheet names it",
            rules=_NAME, width=18, choices_from="hardware.item",
        ),
    }


PRICE: Schema = {
    "type": "number", "minimum": 0, "title": "Fixed price each",
    "description": "Price of one such piece, instead of working it out.", "examples": ["120.00"],
    "cell": {"kind": "money", "fix": "type an amount, e.g. 120.00", "group": "Piece", "width": 12},
}
"""The Pieces sheet's own column, which a service must have."""


def fields(*keys: str) -> tuple[FormField, ...]:
    """Give the named columns in the order given; a key ending in "*" is required, as in "colours*".

    KeyError for a key that is no column of the Pieces sheet.
    """
    known = {**pieces_fields(), "price": PRICE}
    bare = [(key.removesuffix("*"), key.endswith("*")) for key in keys]
    return tuple(FormField(key=key, is_required=required, schema=known[key]) for key, required in bare)


TIED_ON = ("topper", "topper_fill", "accents", "accents_at", "wrap", "wrap_turns")
"""Columns that every built form takes."""
