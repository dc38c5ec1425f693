"""Your own recipe from the Builds sheet: so much per piece, length, area or ring."""

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
    name="own build",
    summary="Your own recipe from the Builds sheet: so much per piece, length, area or ring.",
    fields=fields("build*", "height", "width", "length", "rings", "colours", *TIED_ON, "base", "pole", "frame"),
    plan=plan,
    example={"build": "Gift corner", "length": "6 ft", "colours": "white, pink"},
)
