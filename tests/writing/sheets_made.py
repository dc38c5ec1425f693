"""Job sheets made by the real forms and the real costing from the tests' price books; invented jobs."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, time
from decimal import Decimal
from functools import cache

import costing_made as costing
import forms_price_book as forms
from quotes_made import SHOP

from quoting.checking.wording import standard_wording
from quoting.costing.jobs import cost_job
from quoting.domain.jobs import Job
from quoting.domain.places import Place
from quoting.domain.prices import Pack, PriceBook
from quoting.domain.quotes import JobSheet
from quoting.forms.registry import form_named
from quoting.site.cautions import cautions_for

ACTIVITIES = (
    "inflate round",
    "inflate foil",
    "inflate twister",
    "tie cluster",
    "build ring",
    "wind strand",
    "attach accent",
    "attach topper",
    "attach wrap",
    "set base and pole",
    "load piece",
    "unload piece",
)


def price_book(unit: str = "in", paper: str = "Letter", **shop: object) -> PriceBook:
    """Every price a job of the tests needs."""
    plain = forms.prices(unit)
    card = {
        key: getattr(SHOP, key) for key in ("name", "contact", "address", "email", "phone", "website", "tax_number")
    }
    packs = tuple(
        Pack(
            count=count,
            price=Decimal(price),
            supplier="Canal Street Wholesale",
            price_from=None,
            price_until=None,
            place=Place(workbook="prices.xlsx", sheet="Balloons", row=2),
        )
        for count, price in ((50, "6.25"), (100, "11.40"))
    )
    labour = [costing.rate(activity, 22) for activity in ACTIVITIES]
    labour += [costing.rate("install piece", 900, venue=True), costing.rate("strike piece", 420, venue=True)]
    return replace(
        plain,
        shop=replace(plain.shop, paper=paper, **{**card, **shop}),
        wording=standard_wording(),
        balloons=tuple(replace(b, packs=packs) for b in plain.balloons),
        labour=tuple(labour),
        delivery=costing.DELIVERY,
        taxes=costing.TAXES,
    )


def job(prices: PriceBook, pieces: list[dict], **changes: object) -> Job:
    """A job of pieces given as fields of the Pieces sheet, with `form`, and `label`, `quantity`, `title` if wanted."""
    made = []
    for number, given in enumerate(pieces):
        fields = dict(given)
        own = {key: fields.pop(key) for key in ("title", "price", "shop_notes", "client_notes") if key in fields}
        label = fields.pop("label", chr(65 + number))
        piece = forms.piece(fields.pop("form"), **fields)
        made.append(replace(piece, label=label, job="0412", quantity=fields.get("quantity", 1), **own))
    return costing.job(
        made,
        **{
            "event_time": time(15, 30),
            "install_time": time(9),
            "strike_date": date(2031, 6, 15),
            "contact": "Ambrose Tindall",
            "phone": "555 0163",
            "address": "22 Alder Street\nFernhill",
            **changes,
        },
    )


PARTY = [
    {
        "form": "packed arch",
        "width": Decimal("274"),
        "height": Decimal("213"),
        "curve": "semi-ellipse",
        "fill": Decimal("24.13"),
        "pattern": "spiral",
        "colours": ("ivory", "sage", "coral", "slate"),
        "title": "Entrance arch",
        "shop_notes": "Left of the doors; mind the gutter.",
    },
    {
        "form": "graduated column",
        "height": Decimal("198"),
        "foot_fills": forms.inches(10, 10, 8, 6),
        "fill": Decimal("24.13"),
        "middle": "twisters",
        "turns": Decimal(2),
        "colours": ("ivory", "sage"),
        "pattern": "bands",
        "quantity": 2,
        "topper": "24 in matt sage",
        "title": "Stage columns",
    },
    {
        "form": "ring column",
        "height": Decimal("183"),
        "fill": Decimal("24.13"),
        "pattern": "mix",
        "shares": (Decimal("0.5"), Decimal("0.3"), Decimal("0.2")),
        "colours": ("ivory", "sage", "coral"),
        "accents": ((3, "18 in foil silver"),),
        "title": "Cake corner column",
    },
]


def sheet(
    pieces: list[dict] | None = None,
    *,
    unit: str = "in",
    paper: str = "Letter",
    shop: dict | None = None,
    **changes: object,
) -> JobSheet:
    """A job sheet, priced; AssertionError where the pieces don't work out."""
    prices = price_book(unit, paper, **(shop or {}))
    asked = job(prices, PARTY if pieces is None else pieces, **changes)
    plans = []
    for piece in asked.pieces:
        outcome = form_named(piece.form).plan(piece, prices)
        assert outcome.value is not None, [str(p) for p in outcome.problems]
        plans.append((piece, outcome.value))
    costed = cost_job(asked, plans, prices, cautions_for(asked, plans, prices))
    assert costed.value is not None, [str(p) for p in costed.problems]
    return costed.value


@cache
def party() -> JobSheet:
    """The usual job sheet: an arch, two columns wound with twisters, a column in a mix of colours."""
    return sheet()
