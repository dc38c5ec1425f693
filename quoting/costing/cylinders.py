"""Helium for the batch: what floats, what is lost in filling, and the cylinders that hold it at the least cost."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from decimal import Decimal

from quoting.costing.covers import Offer, cheapest_cover
from quoting.costing.prep_days import prep_days
from quoting.domain.counts import rounded_down, rounded_up
from quoting.domain.money import Rounding, rounded
from quoting.domain.orders import CylinderLine, GasPurchase
from quoting.domain.prices import Hardware, PriceBook
from quoting.domain.quotes import JobSheet

MOST_WITHOUT_STEPS = 200_000
"""Litres beyond which contents are counted in steps, rounded against us, so that the table stays small."""


def gas_of(sheet: JobSheet) -> float:
    """Give the litres that float in a job's pieces."""
    return sum(piece.plan.gas_litres * piece.quantity for piece in sheet.pieces)


def gas_for(sheets: Sequence[JobSheet], prices: PriceBook, run_date: date) -> GasPurchase | None:
    """Give the gas that jobs need together and what to get for it; None where nothing floats.

    Litres with the share lost in filling, rounded up; full cylinders of the shop's own come
    first. The cheapest cylinders cover the rest, what they cost with hire (the "Cost
    each" of the price sheet) counted exactly; a deposit comes back, so that it decides only
    between equally dear ways. A hired cylinder is counted once for the batch.
    """
    jobs = tuple((sheet.job, gas_of(sheet)) for sheet in sheets if gas_of(sheet) > 0)
    if not jobs:
        return None
    litres = sum(gas for _, gas in jobs)
    needed = rounded_up(litres * (1 + float(prices.shop.gas_loss)))
    kinds = [thing for thing in prices.hardware if thing.part == "cylinder" and thing.contents_l]
    on_hand = sum(_contents(kind) * (kind.owned or 0) for kind in kinds)
    missing = max(0, needed - on_hand)
    chosen = cheapest_cylinders(missing, kinds)
    unit = prices.shop.currency.unit
    return GasPurchase(
        litres=litres,
        needed=needed,
        on_hand=on_hand,
        cylinders=tuple(
            CylinderLine(
                item=kind.item, supplier=kind.supplier, is_hire=kind.is_hire, count=number, litres=_contents(kind),
                price=kind.cost, cost=rounded(kind.cost * number, unit, Rounding.HALF_UP),
                deposit=rounded(kind.damage_hold * number, unit, Rounding.HALF_UP),
            )
            for kind, number in chosen or ()
        ),
        jobs=jobs,
        needed_by=max(min(_filled_by(sheet, prices, run_date) for sheet in sheets if gas_of(sheet) > 0), run_date),
        short=missing if chosen is None else 0,
    )


def cheapest_cylinders(litres: int, kinds: Sequence[Hardware]) -> tuple[tuple[Hardware, int], ...] | None:
    """Give the cheapest cylinders that hold so much gas; of equally dear ways the least deposit, then the least gas.

    None where no kind holds anything.
    """
    kinds = [kind for kind in kinds if _contents(kind)]
    if litres <= 0:
        return ()
    if not kinds:
        return None
    step = max(1, litres // MOST_WITHOUT_STEPS)
    sizes = [max(1, _contents(kind) // step) for kind in kinds]
    digits = max(-int(amount.as_tuple().exponent) for kind in kinds for amount in (kind.cost, kind.damage_hold))
    deposits = [_units(kind.damage_hold, digits) for kind in kinds]
    # So many that no deposits together come to one unit of cost.
    scale = 1 + max(deposits) * (-(-litres // step) + max(sizes))
    cover = cheapest_cover(
        [-(-litres // step)],
        [
            Offer(count=size, price=_units(kind.cost, digits) * scale + deposit)
            for kind, size, deposit in zip(kinds, sizes, deposits, strict=True)
        ],
    )
    assert cover is not None  # kinds have no limit
    return tuple((kind, number) for kind, number in zip(kinds, cover.numbers, strict=True) if number)


def _filled_by(sheet: JobSheet, prices: PriceBook, run_date: date) -> date:
    """Helium goes in last."""
    return prep_days(sheet, prices.shop.crew, run_date)[1]


def _contents(kind: Hardware) -> int:
    return rounded_down(float(kind.contents_l or 0))


def _units(amount: Decimal, digits: int) -> int:
    return int(amount.scaleb(max(digits, 0)))
