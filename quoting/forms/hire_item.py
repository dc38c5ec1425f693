"""Something hired out as it is."""

from __future__ import annotations

from quoting.domain.jobs import Piece
from quoting.domain.plans import HireNeed, Plan
from quoting.domain.prices import PriceBook
from quoting.domain.problems import Outcome
from quoting.forms.drafts import Draft
from quoting.forms.fields import fields
from quoting.forms.outlines import outline_of, tube_volume
from quoting.forms.registry import Form
from quoting.forms.tasks import add_handling


def plan(piece: Piece, prices: PriceBook) -> Outcome[Plan | None]:
    """Hire out one of the item; the piece's quantity says how many."""
    draft = Draft(piece, prices)
    if not draft.has_all("item"):
        return draft.refused()
    item = prices.hardware_item(draft.text("item"))
    if item is None:
        draft.complain("P520", "item", item=f'"{draft.text("item")}"', hint="")
        return draft.refused()
    if not item.is_hire:
        draft.complain("P531", "item", item=item.item)
        return draft.refused()
    draft.add_hire(HireNeed(item=item.item, count=1))
    draft.add_layer(f"Bring {item.item}")
    draft.title = item.item
    draft.description.append(f"Hire of {item.item}" if piece.title else "On hire")
    add_handling(draft, bases=0)
    long, thick = float(item.length_cm or 0), float(item.diameter_cm or 0)
    outline = outline_of(draft.parts, draft.hire, prices, width_cm=thick, height_cm=long, depth_cm=thick,
                         rigid_cm=max(long, thick), volume_l=tube_volume(thick, long))
    return draft.finished(FORM.name, outline if long or thick else None)


FORM = Form(
    name="hire item",
    summary="Something hired out as it is.",
    fields=fields("item*"),
    plan=plan,
    example={"item": "Round backdrop frame"},
)
