"""Work at a fixed price."""

from __future__ import annotations

from quoting.domain.jobs import Piece
from quoting.domain.plans import Plan
from quoting.domain.prices import PriceBook
from quoting.domain.problems import Outcome
from quoting.forms.drafts import Draft
from quoting.forms.fields import fields
from quoting.forms.registry import Form


def plan(piece: Piece, prices: PriceBook) -> Outcome[Plan | None]:
    """Take the piece as work alone: no part, no task, no hire; its price is the fixed one."""
    draft = Draft(piece, prices)
    if piece.price is None:
        draft.complain("P532", "price")
        return draft.refused()
    draft.add_layer(piece.title or "Service at a fixed price")
    return draft.finished(FORM.name, None, is_labour_only=True)


FORM = Form(
    name="service",
    summary="Work at a fixed price.",
    fields=fields("price*"),
    plan=plan,
    example={"title": "Stay through the event", "price": "120.00"},
)
