"""The whole of one job: from its pieces' plans to the sheet that all papers are written from."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction

from quoting.costing.costed_jobs import CostedJob, cost_amounts, direct_cost
from quoting.costing.day_plans import day_plans, late_seconds
from quoting.costing.labour import hours_of
from quoting.costing.options import Choice, choice_workings, in_total, other_choices
from quoting.costing.stock import Planned
from quoting.costing.workings import workings_of
from quoting.domain.codes import problem
from quoting.domain.jobs import Job, Piece
from quoting.domain.money import ZERO, Rounding, exact, rounded
from quoting.domain.plans import Plan, Section
from quoting.domain.prices import PriceBook
from quoting.domain.problems import Outcome, Problem, holds
from quoting.domain.quotes import (
    Cautions,
    Hours,
    JobSheet,
    LineKind,
    PricedPiece,
    Quote,
    QuoteLine,
    QuoteOption,
    ShopCard,
    quote_number,
)


def cost_job(job: Job, plans: Planned, prices: PriceBook, cautions: Cautions) -> Outcome[JobSheet | None]:
    """Cost and price one job from its pieces and their plans; None where something holds it.

    Prices go half up to the currency's smallest unit, once for one piece; taxes by the
    shop's rule. With prices before tax, all amounts of the price sheets and the markup
    are before tax; with prices including tax they all include it, so that nothing is
    added and the tax is found in them; the margin is on the price less its tax. An
    exempt client is charged no tax: where prices include tax, the tax of its category
    is taken out of every price first (fixed amounts of adjustments stay as typed).

    Problems: P601 to P608 hold the job, P609 notes a margin below the shop's floor.
    """
    outcome, choices = cost_amounts(job, in_total(plans), prices), other_choices(job, plans, prices)
    costed, problems = outcome.value, tuple(dict.fromkeys((*outcome.problems, *choices.problems)))
    if costed is None or holds(problems):
        return Outcome(value=None, problems=problems)
    cost = _cost(costed)
    margin = _margin(costed, cost)
    sheet = JobSheet(
        quote=_quote(costed, cautions, choices.value),
        job=job.code,
        install_date=job.install_date,
        install_time=job.install_time,
        strike_date=job.strike_date,
        strike_time=job.strike_time,
        is_outdoors=job.is_outdoors,
        distance_km=job.distance_km,
        pieces=_priced_pieces(costed),
        stock=tuple(use.line for use in costed.stock),
        hire=costed.hire,
        hours=_all_hours(costed),
        cost=cost,
        margin=exact(margin),
        workings=(*workings_of(costed), *_choice_workings(choices.value)),
        cautions=cautions.crew,
        shop_notes=job.shop_notes,
        visits=day_plans(costed),
        loads=costed.trip.loads if costed.trip else None,
        late_hours=exact(late_seconds(costed) / 3600),
    )
    return Outcome(value=sheet, problems=(*problems, *_margin_note(job, margin, prices)))


def _choice_workings(choices: Sequence[Choice]) -> tuple[Section, ...]:
    numbered = enumerate(choices, 1)
    return tuple(s for number, (piece, _, made) in numbered for s in choice_workings(number, piece, made))


def _quote(costed: CostedJob, cautions: Cautions, choices: Sequence[Choice]) -> Quote:
    job, shop = costed.job, costed.prices.shop
    return Quote(
        number=quote_number(shop.quote_prefix, job.code),
        revision=job.revision,
        shop=ShopCard(
            name=shop.name,
            contact=shop.contact,
            address=shop.address,
            email=shop.email,
            phone=shop.phone,
            website=shop.website,
            tax_number=shop.tax_number,
        ),
        client=job.client,
        contact=job.contact,
        email=job.email,
        phone=job.phone,
        event=job.event,
        venue=job.venue,
        address=job.address,
        event_date=job.event_date,
        event_time=job.event_time,
        quote_date=job.quote_date,
        currency=shop.currency,
        length_unit=shop.length_unit,
        paper=shop.paper,
        tax_rounding=shop.tax_rounding,
        rounding=shop.rounding,
        cash_unit=shop.cash_rounding,
        lines=_lines(costed),
        adjustments=costed.order_adjustments,
        totals=costed.totals,
        terms=costed.terms,
        exempt_reason=job.exempt_reason,
        notes=job.client_notes,
        cautions=cautions.client,
        is_collected=job.is_collected,
        has_hire=bool(costed.hire),
        wording=costed.prices.wording,
        options=tuple(_option(*choice) for choice in choices),
    )


def _option(piece: Piece, instead_of: str, costed: CostedJob) -> QuoteOption:
    at = next(number for number, (each, _) in enumerate(costed.plans) if each is piece)
    price, plan = costed.pieces[at], costed.plans[at][1]
    return QuoteOption(
        group=piece.option_group,
        label=piece.label,
        instead_of=instead_of,
        title=title_of(piece, plan),
        details=(*plan.description, *filter(None, [piece.client_notes])),
        quantity=piece.quantity,
        unit_price=price.unit,
        amount=price.amount,
        total=costed.totals.total,
    )


def _lines(costed: CostedJob) -> tuple[QuoteLine, ...]:
    lines: list[QuoteLine] = []
    for (piece, plan), price, adjustments in zip(costed.plans, costed.pieces, costed.adjustments, strict=True):
        lines.append(
            QuoteLine(
                label=piece.label,
                kind=LineKind.PIECE,
                title=title_of(piece, plan),
                details=(*plan.description, *filter(None, [piece.client_notes])),
                quantity=piece.quantity,
                unit_price=price.unit,
                amount=price.amount,
            )
        )
        lines += [
            _single_line(
                LineKind.DISCOUNT if line.adjustment.is_discount else LineKind.CHARGE, line.adjustment.name, line.amount
            )
            for line in adjustments
        ]
    for kind, key, amount in (
        (LineKind.LABOUR, "labour_line", costed.labour),
        (LineKind.DELIVERY, "delivery_line", costed.delivery),
    ):
        if amount is not None:
            lines.append(_single_line(kind, costed.prices.wording[key], amount))
    return tuple(lines)


def _single_line(kind: LineKind, title: str, amount: Decimal) -> QuoteLine:
    return QuoteLine(label="", kind=kind, title=title, details=(), quantity=1, unit_price=amount, amount=amount)


def title_of(piece: Piece, plan: Plan) -> str:
    """Give what a piece is called: as typed, else as its plan says (a build's or an item's name), else its form."""
    return piece.title or plan.title or piece.form[:1].upper() + piece.form[1:]


def _priced_pieces(costed: CostedJob) -> tuple[PricedPiece, ...]:
    return tuple(
        PricedPiece(
            label=piece.label,
            title=title_of(piece, plan),
            form=piece.form,
            quantity=piece.quantity,
            plan=plan,
            hours=work.hours(piece.quantity),
            cost=price.cost,
            amount=price.amount,
            amounts=price.amounts,
            shop_notes=piece.shop_notes,
        )
        for (piece, plan), work, price in zip(costed.plans, costed.works, costed.pieces, strict=True)
    )


def _all_hours(costed: CostedJob) -> Hours:
    pairs = [(work, piece.quantity) for (piece, _), work in zip(costed.plans, costed.works, strict=True)]
    return Hours(
        workshop=hours_of(sum((work.workshop * quantity for work, quantity in pairs), ZERO)),
        venue=hours_of(sum((work.venue * quantity for work, quantity in pairs), ZERO)),
    )


def _cost(costed: CostedJob) -> Decimal:
    """Sum what the shop pays, each amount rounded as printed: pieces, delivery, further hours, overhead."""
    return direct_cost(costed.pieces, costed.trip, costed.attendance, costed.rules.unit) + costed.overhead


def _margin(costed: CostedJob, cost: Decimal) -> Fraction:
    totals = costed.totals
    price = totals.subtotal - totals.discount + totals.charges - (totals.tax if totals.prices_include_tax else ZERO)
    return Fraction(price - cost) / Fraction(price) if price else Fraction(0)


def _margin_note(job: Job, margin: Fraction, prices: PriceBook) -> tuple[Problem, ...]:
    floor = prices.shop.floor_margin
    if margin >= floor:
        return ()
    tenth = Decimal("0.1")
    shown, wanted = rounded(margin * 100, tenth, Rounding.DOWN), rounded(floor * 100, tenth, Rounding.HALF_UP)
    where = job.where("job")
    return (problem("P609", where, seen=job.row.seen("job"), job=job.code, margin=shown, floor=wanted),)
