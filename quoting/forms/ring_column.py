"""Rings of balloons round a pole: one fill all the way, or a list of fills from the floor up."""

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
    name="ring column",
    summary="Rings of balloons round a pole: one fill all the way, or a list of fills from the floor up.",
    fields=fields("height", "rings", "size", "fill", "fills", "per_ring", "pattern", "colours*", "shares", "blocks", *TIED_ON, "base", "pole"),
    plan=plan,
    example={"height": "6 ft", "fill": "9.5 in", "pattern": "spiral", "colours": "white, pink"},
)
