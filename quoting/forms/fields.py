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
NONE = "none"
"""What an owner types for hardware that a piece shall go without."""

_SIZE, _RINGS, _COLOUR, _TOP, _STAND = "Size", "Rings", "Colours", "Tied on", "Hardware"


@dataclass(frozen=True, slots=True, kw_only=True)
class FormField:
    """One column a form asks for. `schema` is the same mapping for every form that shares the column."""

    key: str
    is_required: bool
    schema: Schema


def _field(  # one line per column below; every annotation has its own name
    kind: str, title: str, description: str, example: object, fix: str, group: str,
    *, width: int = 12, units: tuple[str, ...] = (), choices_from: str = "", source: str = "", **rules: object,
) -> Schema:
    cell: dict[str, object] = {"kind": kind, "fix": fix, "group": group, "width": width}
    if units:
        cell["units"] = list(units)
    if choices_from:
        cell["choices_from"] = choices_from
    if source:
        cell["source"] = source
    return {**rules, "title": title, "description": description, "examples": [example], "cell": cell}


_LONG, _SHORT = ("ft", "cm"), ("in", "cm")
_LENGTH = {"type": "number", "exclusiveMinimum": 0}
_POSITIVE = {"type": "array", "minItems": 1, "items": _LENGTH}
_NAME = {"type": "string", "minLength": 1}


def pieces_fields() -> Mapping[str, Schema]:
    """Every column that some form asks for: key → schema fragment, in the order of the sheet."""
    return {
        "height": _field(
            "length", "Height", "Height of the balloon work, floor to top. The quote states what whole rings come to.",
            "7 ft", "type one length, e.g. 7 ft or 2.1 m", _SIZE, units=_LONG, **_LENGTH),
        "width": _field(
            "length", "Width", "Width of the piece; of an arch the span, from middle to middle of its feet.",
            "10 ft", "type one length, e.g. 10 ft or 3 m", _SIZE, units=_LONG, **_LENGTH),
        "length": _field(
            "length", "Length", "Length of the piece, measured along it.",
            "6 ft", "type one length, e.g. 6 ft or 1.8 m", _SIZE, units=_LONG, **_LENGTH),
        "size": _field(
            "whole number", "Size", "Nominal size of the balloons in inches. Left blank: the smallest stocked that takes the fill.",
            "11", "type the size printed on the pack, e.g. 11", _SIZE, width=8, type="integer", minimum=1, maximum=999),
        "fill": _field(
            "length", "Fill", "Diameter each balloon is inflated to. Left blank: the usual fill of its size.",
            "9.5 in", "type one length, e.g. 9.5 in or 24 cm", _SIZE, width=9, units=_SHORT, **_LENGTH),
        "fills": _field(
            "list of lengths", "Fills", "One fill per ring, from the floor up.",
            "10 in, 10 in, 9 in, 8 in", "type lengths with commas between, e.g. 10 in, 9 in, 8 in", _SIZE,
            width=22, units=_SHORT, **_POSITIVE),
        "foot_fills": _field(
            "list of lengths", "Fills at each end",
            "Fills of the rings at the foot, from the floor up; the top gets the same, mirrored.",
            "10 in, 8 in, 5 in", "type lengths with commas between, e.g. 10 in, 8 in, 5 in", _SIZE,
            width=20, units=_SHORT, **_POSITIVE),
        "middle": _field(
            "text", "Middle", "What stands between the two ends: rings, or twisters wound round the pole.",
            "twisters", "choose rings or twisters", _SIZE, width=10, type="string", enum=list(MIDDLES)),
        "middle_fill": _field(
            "length", "Middle fill", "Fill of the rings between the two ends.",
            "8 in", "type one length, e.g. 8 in or 20 cm", _SIZE, width=9, units=_SHORT, **_LENGTH),
        "twister": _field(
            "text", "Twister", "Size code of the twisters in the middle.",
            "260", "choose 160, 260, 350 or 646", _SIZE, width=9, type="string",
            enum=["160", "260", "350", "646"], default="260"),
        "strands": _field(
            "whole number", "Strands", "How many twister strands wind round the pole; four is usual.",
            "4", "type a whole number from 1 to 12", _SIZE, width=9, type="integer", minimum=1, maximum=12,
            default=4, source="common practice"),
        "turns": _field(
            "number", "Turns", "How many times each strand winds round the pole.",
            "3", "type a number, e.g. 3 or 2.5", _SIZE, width=8, type="number", minimum=0, maximum=100),
        "curve": _field(
            "text", "Curve", "Shape of the arch. A semicircle and a half hoop are half as high as wide, a full hoop as high.",
            "semi-ellipse", "choose one of the list", _SIZE, width=13, type="string", enum=list(CURVES)),
        "per_ring": _field(
            "whole number", "Balloons per ring", "How many balloons a ring has; four is usual.",
            "4", "type a whole number from 2 to 6", _RINGS, width=9, type="integer", minimum=2, maximum=6,
            default=4, source="common practice"),
        "rings": _field(
            "whole number", "Rings", "How many rings, where you count rings and not height.",
            "9", "type a whole number, e.g. 9", _RINGS, width=8, type="integer", minimum=1, maximum=2000),
        "pattern": _field(
            "text", "Pattern", "How colours go round: solid, spiral, bands (whole rings in turn), blocks, or mix (by shares).",
            "spiral", "choose one of the list", _COLOUR, width=10, type="string", enum=list(PATTERNS)),
        "colours": _field(
            "list of texts", "Colours", "Colours in the order of the pattern, as the Balloons sheet names them.",
            "ivory, sage", "type colours with commas between, e.g. ivory, pearl gold", _COLOUR, width=24,
            type="array", minItems=1, items=_NAME),
        "shares": _field(
            "list of percents", "Shares", "For a mix: the share of each colour, in the order of the colours.",
            "60 %, 40 %", "type one percent per colour with commas between, e.g. 60 %, 40 %", _COLOUR,
            type="array", minItems=1, items={"type": "number", "exclusiveMinimum": 0}),
        "blocks": _field(
            "list of whole numbers", "Rings per block",
            "For blocks: how many rings each colour gets, from the floor up. Leave the last one out and it gets the rest.",
            "3, 4, 3", "type whole numbers with commas between, e.g. 3, 4, 3", _COLOUR,
            type="array", minItems=1, items={"type": "integer", "minimum": 1}),
        "topper": _field(
            "text", "Topper", "One item from the Balloons or Hardware sheet that sits on top.",
            "Foil star gold", "type an item as its sheet names it", _TOP, width=18, choices_from="balloons.item", **_NAME),
        "topper_fill": _field(
            "length", "Topper fill", "Diameter of the topper. Left blank: its usual fill.",
            "21 in", "type one length, e.g. 21 in or 53 cm", _TOP, width=9, units=_SHORT, **_LENGTH),
        "accents": _field(
            "list of amounts", "Accents", "Things tied on, with their count, from the Balloons or Hardware sheet.",
            "3 x Foil star gold, 2 x Paper fan", "type amounts with commas between, e.g. 3 x Foil star gold", _TOP,
            width=28, type="array", minItems=1),
        "wrap": _field(
            "text", "Wrap", "A twister or a bought ribbon wound round the piece from top to foot.",
            "Twister 260 gold", "type an item as its sheet names it", _TOP, width=18, choices_from="balloons.item", **_NAME),
        "wrap_turns": _field(
            "number", "Wrap turns", "How many times the wrap goes round.",
            "3", "type a number, e.g. 3", _TOP, width=8, type="number", minimum=0, maximum=100),
        "base": _field(
            "text", "Base", "Base plate from the Hardware sheet. Left blank: the usual one; none: without.",
            "Base plate steel", "type an item as the Hardware sheet names it, or none", _STAND, width=18,
            choices_from="hardware.item", **_NAME),
        "pole": _field(
            "text", "Pole", "Pole from the Hardware sheet. Left blank: the shortest usual one that is long enough; none: without.",
            "Pole 7 ft", "type an item as the Hardware sheet names it, or none", _STAND, width=18,
            choices_from="hardware.item", **_NAME),
        "frame": _field(
            "text", "Frame", "Frame from the Hardware sheet. Left blank or none: without.",
            "Arch frame 10 ft", "type an item as the Hardware sheet names it, or none", _STAND, width=18,
            choices_from="hardware.item", **_NAME),
        "build": _field(
            "text", "Build", "Your own recipe, as the Builds sheet names it.",
            "Gift corner", "type a build as the Builds sheet names it", _STAND, width=16, choices_from="builds.build", **_NAME),
        "item": _field(
            "text", "Item", "The thing hired, as the Hardware sheet names it.",
            "Round backdrop frame", "type an item as the Hardware sheet names it", _STAND, width=18,
            choices_from="hardware.item", **_NAME),
    }


PRICE: Schema = {
    "type": "number", "minimum": 0, "title": "Fixed price each",
    "description": "Price of one such piece, instead of working it out.", "examples": ["120.00"],
    "cell": {"kind": "money", "fix": "type an amount, e.g. 120.00", "group": "Piece", "width": 12},
}
"""The Pieces sheet's own column, which a service must have."""


def fields(*keys: str) -> tuple[FormField, ...]:
    """The named columns in the order given; a key ending in "*" is required, as in "colours*".

    KeyError for a key that is no column of the Pieces sheet.
    """
    known = {**pieces_fields(), "price": PRICE}
    bare = [(key.removesuffix("*"), key.endswith("*")) for key in keys]
    return tuple(FormField(key=key, is_required=required, schema=known[key]) for key, required in bare)


TIED_ON = ("topper", "topper_fill", "accents", "wrap", "wrap_turns")
"""Columns that every built form takes."""
