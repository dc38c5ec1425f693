"""Workings of stock: what is needed of each item, with spares, and what is charged for."""

from __future__ import annotations

from fractions import Fraction

from quoting.costing.costed_jobs import CostedJob
from quoting.costing.steps import MONEY, Steps, piece_key, plus, ref
from quoting.costing.stock import StockUse
from quoting.domain.money import exact
from quoting.domain.plans import Section
from quoting.domain.prices import BreakagePolicy

SPARE_ROWS = 200
"""Spares that a formula looks through at least; more where the job needs more."""


def stock_workings(costed: CostedJob) -> Section:
    """Give the section "stock": item N of `costed.stock` has the steps "need N", "with spares N" and "charged N".

    "quantity N" is how many of piece N there are, "use N.M" what piece N takes of item M.
    """
    steps = Steps("stock", "Stock", costed.prices.shop.currency.code)
    for number, (piece, _) in enumerate(costed.plans, 1):
        steps.given(f"quantity {number}", f"How many of piece {piece.label}", piece.quantity, unit="pieces")
    balloons = [number for number, use in enumerate(costed.stock, 1) if use.is_balloon]
    by_share = costed.prices.shop.breakage_policy is BreakagePolicy.FLAT_SHARE
    if balloons and by_share:
        steps.given("share", "Spares as a flat share", costed.prices.shop.flat_share)
    elif balloons:
        steps.given("service", "Wanted certainty that all is enough", costed.prices.shop.service_level)
    _add_givens(costed, steps)
    for number, use in enumerate(costed.stock, 1):
        _add_need(costed, steps, number, use)
    if balloons and not by_share:
        _add_level(costed, steps, balloons)
    for number, use in enumerate(costed.stock, 1):
        if use.is_balloon:
            _add_spares(steps, number, use, is_flat=by_share)
            _add_charged(steps, number, use)
    return steps.section()


def _add_givens(costed: CostedJob, steps: Steps) -> None:
    is_flat = costed.prices.shop.breakage_policy is BreakagePolicy.FLAT_SHARE
    for number, use in enumerate(costed.stock, 1):
        item = use.line.item
        if use.best_pack is None:
            steps.given(f"unit cost {number}", f"{item}: cost of one", use.line.unit_cost, unit=MONEY)
            continue
        if not is_flat:
            steps.given(f"chance {number}", f"{item}: chance that one breaks", use.line.breakage)
        steps.given(
            f"pack size {number}", f"{item}: balloons in the pack with the least price each", use.best_pack.count
        )
        steps.given(f"pack price {number}", f"{item}: price of that pack", use.best_pack.price, unit=MONEY)
        for place, (pack, count) in enumerate(use.packs, 1):
            steps.given(
                f"opened {number}.{place}",
                f"{item}: packs of {pack.count} to open",
                count,
                unit="packs",
                words="cheapest packs that cover the need",
            )
            steps.given(f"opened size {number}.{place}", f"{item}: balloons in such a pack", pack.count)
            steps.given(f"opened price {number}.{place}", f"{item}: price of such a pack", pack.price, unit=MONEY)


def _add_need(costed: CostedJob, steps: Steps, number: int, use: StockUse) -> None:
    item, uses = use.line.item, []
    for place, count, parts in use.uses:
        label = costed.plans[place][0].label
        section = piece_key(label, place + 1)
        counted = plus(ref(f"part {part + 1}", section) for part in parts)
        uses.append(
            steps.step(
                f"use {place + 1}.{number}",
                f"{item} in piece {label}",
                count,
                f"({counted})*{ref(f'quantity {place + 1}')}",
                unit="pieces",
            )
        )
    steps.step(f"need {number}", f"{item}: needed", use.line.need, plus(uses), unit="pieces")


def _add_level(costed: CostedJob, steps: Steps, balloons: list[int]) -> None:
    kinds = steps.step(
        "kinds", "Kinds of balloon in the job", len(balloons), plus(f"({ref(f'need {n}')}>0)" for n in balloons)
    )
    steps.step(
        "level",
        "Certainty for each kind",
        float(costed.prices.shop.service_level) ** (1 / len(balloons)),
        f"{ref('service')}^(1/{kinds})",
        words="kinds don't stand in for each other",
    )


def _add_spares(steps: Steps, number: int, use: StockUse, *, is_flat: bool) -> None:
    need, item = ref(f"need {number}"), use.line.item
    if is_flat:
        formula = f"-INT(1E-9-{need}*(1+{ref('share')}))"
        words = "needed × (1 + share), rounded up"
    else:
        rows = max(SPARE_ROWS, 2 * (use.line.with_spares - use.line.need))
        short = f"BINOMDIST(ROW($1:${rows})-1,{need}+ROW($1:${rows})-1,{ref(f'chance {number}')},1)<{ref('level')}"
        formula = f"IF({need}=0,0,{need}+SUMPRODUCT(--({short})))"
        words = "fewest of which enough stay whole with that certainty"
    label = f"{item}: with spares"
    steps.step(f"with spares {number}", label, use.line.with_spares, formula, unit="pieces", words=words)


def _add_charged(steps: Steps, number: int, use: StockUse) -> None:
    item = use.line.item
    best = use.best_pack
    assert best is not None  # a balloon always has one
    steps.step(
        f"unit cost {number}",
        f"{item}: cost of one",
        exact(Fraction(best.price) / best.count),
        f"{ref(f'pack price {number}')}/{ref(f'pack size {number}')}",
        unit=MONEY,
    )
    places = range(1, len(use.packs) + 1)
    counted = plus(f"{ref(f'opened {number}.{p}')}*{ref(f'opened size {number}.{p}')}" for p in places)
    formula = counted if use.packs else ref(f"with spares {number}")
    words = "whole packs" if use.packs else "with spares"
    steps.step(f"charged {number}", f"{item}: charged for", use.line.charged_count, formula, unit="pieces", words=words)
