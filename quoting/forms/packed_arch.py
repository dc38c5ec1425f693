"""Rings packed along a curve between two feet, or round a hoop."""

from __future__ import annotations

from quoting.domain.jobs import Piece
from quoting.domain.plans import Plan
from quoting.domain.prices import PriceBook
from quoting.domain.problems import Outcome
from quoting.forms.fields import TIED_ON, fields
from quoting.forms.registry import Form


def plan(piece: Piece, prices: PriceBook) -> Outcome[Plan | None]:
    """Not built yet."""
    raise NotImplementedError


FORM = Form(
    name="packed arch",
    summary="Rings packed along a curve between two feet, or round a hoop.",
    fields=fields("width*", "height", "curve*", "size", "fill", "per_ring", "pattern", "colours*", "shares", "blocks", *TIED_ON, "base", "frame"),
    plan=plan,
    example={"width": "10 ft", "height": "8 ft", "curve": "semi-ellipse", "fill": "9.5 in", "pattern": "spiral", "colours": "white, pink"},
)
