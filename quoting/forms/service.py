"""Work at a fixed price."""

from __future__ import annotations

from quoting.domain.jobs import Piece
from quoting.domain.plans import Plan
from quoting.domain.prices import PriceBook
from quoting.domain.problems import Outcome
from quoting.forms.fields import fields
from quoting.forms.registry import Form


def plan(piece: Piece, prices: PriceBook) -> Outcome[Plan | None]:
    """Not built yet."""
    raise NotImplementedError


FORM = Form(
    name="service",
    summary="Work at a fixed price.",
    fields=fields("price*"),
    plan=plan,
    example={"title": "Stay through the event", "price": "120.00"},
)
