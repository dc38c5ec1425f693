"""A release of balloons into the open air: known here only so that its refusal can be explained."""

from __future__ import annotations

from quoting.domain.jobs import Piece
from quoting.domain.plans import Plan
from quoting.domain.prices import PriceBook
from quoting.domain.problems import Outcome
from quoting.forms.drafts import Draft
from quoting.forms.fields import fields
from quoting.forms.registry import Form


def plan(piece: Piece, prices: PriceBook) -> Outcome[Plan | None]:
    """Refuse, with the reason, whatever else the row says."""
    draft = Draft(piece, prices)
    draft.complain("P540", "form")
    return draft.refused()


FORM = Form(
    name="release",
    summary="Never quoted: balloons are not let go. The row is held and says why.",
    fields=fields("count", "size", "fill", "colours", "shares"),
    plan=plan,
    example={},
    is_refused=True,
)
