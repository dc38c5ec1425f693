"""Rings that grow smaller from foot and top to the middle, which is rings or wound twisters."""

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
    name="graduated column",
    summary="Rings that grow smaller from foot and top to the middle, which is rings or wound twisters.",
    fields=fields("height", "rings", "foot_fills*", "middle*", "middle_fill", "twister", "strands", "turns", "per_ring", "pattern", "colours*", "shares", "blocks", *TIED_ON, "base", "pole"),
    plan=plan,
    example={"height": "6 ft", "foot_fills": "10 in, 8 in, 5 in", "middle": "twisters", "turns": "3", "colours": "white"},
)
