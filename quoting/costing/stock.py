"""What a job takes from stock: balloons with spares, and hardware that is bought."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from quoting.costing.breakage import with_flat_share, with_spares
from quoting.costing.packs import Bought, cheapest_packs, cost_of, current_packs
from quoting.domain.codes import problem
from quoting.domain.jobs import Job, Piece
from quoting.domain.money import ZERO, exact
from quoting.domain.plans import HireNeed, Part, Plan
from quoting.domain.prices import Balloon, BreakagePolicy, ChargeBy, Hardware, Pack, PriceBook, Shape, Shop
from quoting.domain.problems import Outcome, Problem
from quoting.domain.quotes import StockLine

Planned = Sequence[tuple[Piece, Plan]]


@dataclass(frozen=True, slots=True, kw_only=True)
class StockUse:
    """One item of a job: its line, what it costs and is sold for in all, and how the pieces share it.

    `uses` are (place of the piece in the job, count for all of its quantity, places of
    its parts in the plan). `price` includes the markup where nothing is listed.
    `best_pack` gave the unit cost; `packs` are those opened where the client pays by pack.
    """

    line: StockLine
    cost: Fraction
    price: Fraction
    listed: Decimal | None
    best_pack: Pack | None
    packs: Bought
    uses: tuple[tuple[int, int, tuple[int, ...]], ...]

    @property
    def is_balloon(self) -> bool:
        """True for balloons, which alone break and have spares."""
        return self.best_pack is not None


@dataclass(slots=True)
class _Demand:
    item: str
    first: tuple[Piece, Part]
    uses: dict[int, tuple[int, list[int]]]
    fills: set[float]


def stock_of(job: Job, plans: Planned, prices: PriceBook) -> Outcome[tuple[StockUse, ...]]:
    """Give every item the job takes, balloons first, by name; with the problems that hold it.

    Needs are pooled over the job's pieces × quantity before spares are worked out:
    each of the m balloon items is held to service^(1/m), or has the flat share added.
    An item's unit cost is the least price of one in any pack that is current on the
    quote date. KeyError for an item that no price sheet has (forms let none through).
    """
    demands = _demands(plans)
    balloons = {key: prices.balloon(d.item) for key, d in demands.items()}
    kinds = sum(balloon is not None for balloon in balloons.values())
    problems: list[Problem] = []
    uses: list[StockUse] = []
    for key in sorted(demands, key=lambda key: (balloons[key] is None, key)):
        balloon, demand = balloons[key], demands[key]
        if balloon is not None:
            use = _balloon_use(job, balloon, demand, kinds, prices)
        else:
            use = _hardware_use(job, demand, prices)
        (problems if isinstance(use, Problem) else uses).append(use)  # type: ignore[arg-type]  # the two lists differ
    return Outcome(value=tuple(uses), problems=tuple(problems))


def _demands(plans: Planned) -> dict[str, _Demand]:
    demands: dict[str, _Demand] = {}
    for number, (piece, plan) in enumerate(plans):
        for place, part in enumerate(plan.parts):
            if not part.count:
                continue
            demand = demands.setdefault(part.item.casefold(), _Demand(part.item, (piece, part), {}, set()))
            count, places = demand.uses.get(number, (0, []))
            demand.uses[number] = (count + part.count * piece.quantity, [*places, place])
            if part.fill_cm is not None:
                demand.fills.add(part.fill_cm)
    return demands


def _balloon_use(job: Job, balloon: Balloon, demand: _Demand, kinds: int, prices: PriceBook) -> StockUse | Problem:
    shop = prices.shop
    packs = current_packs(balloon.packs, job.quote_date)
    if not packs:
        return complaint("P601", job, *demand.first, balloon.item)
    need = sum(count for count, _ in demand.uses.values())
    if shop.breakage_policy is BreakagePolicy.FLAT_SHARE:
        breakage = shop.flat_share
        taken = with_flat_share(need, breakage)
    else:
        breakage = breaking_chance(balloon, job, shop)
        if not (0 <= breakage < 1 and 0 <= shop.service_level < 1):
            return complaint("P602", job, *demand.first, balloon.item)
        taken = with_spares(need, breakage, shop.service_level, kinds)
    best = min(packs, key=lambda pack: (Fraction(pack.price) / pack.count, pack.count))
    unit_cost = Fraction(best.price) / best.count
    opened: Bought = ()
    cost, charged = unit_cost * taken, taken
    if balloon.charge_by is ChargeBy.PACK:
        opened = cheapest_packs(taken, packs) or ()
        cost = Fraction(cost_of(opened))
        charged = sum(pack.count * number for pack, number in opened)
    line = StockLine(
        item=balloon.item,
        shape=balloon.shape.value,
        size=balloon.size,
        finish=balloon.finish,
        colour=balloon.colour,
        drawn_as=balloon.drawn_as,
        fills_cm=tuple(sorted(demand.fills)),
        need=need,
        with_spares=taken,
        breakage=breakage,
        unit_cost=exact(unit_cost),
        charged_count=charged,
    )
    price = cost * (1 + Fraction(shop.markup)) if balloon.sell_each is None else Fraction(balloon.sell_each) * charged
    return StockUse(
        line=line, cost=cost, price=price, listed=balloon.sell_each, best_pack=best, packs=opened, uses=_uses(demand)
    )


HEAT_CELSIUS = 28
"""From here on a venue counts as hot. Common practice, no source."""


def breaking_chance(balloon: Balloon, job: Job, shop: Shop) -> Decimal:
    """Give the chance that one balloon breaks: its own or the shop's; of latex no less than place and heat make it."""
    own = shop.breakage_chance if balloon.breakage is None else balloon.breakage
    if balloon.shape is Shape.FOIL:
        return own
    if job.celsius is not None and job.celsius >= HEAT_CELSIUS:
        return max(own, shop.breakage_heat)
    return max(own, shop.breakage_outdoors) if job.is_outdoors else own


def _hardware_use(job: Job, demand: _Demand, prices: PriceBook) -> StockUse | Problem:
    hardware = prices.hardware_item(demand.item)
    if hardware is None:
        raise KeyError(demand.item)
    if not is_priced(hardware, job):
        return complaint("P603", job, *demand.first, hardware.item)
    need = sum(count for count, _ in demand.uses.values())
    line = StockLine(
        item=hardware.item,
        shape=hardware.part,
        size=None,
        finish="",
        colour="",
        fills_cm=(),
        need=need,
        with_spares=need,
        breakage=ZERO,
        unit_cost=hardware.cost,
        charged_count=need,
    )
    cost = Fraction(hardware.cost) * need
    price = cost * (1 + Fraction(prices.shop.markup)) if hardware.charge is None else Fraction(hardware.charge) * need
    return StockUse(
        line=line, cost=cost, price=price, listed=hardware.charge, best_pack=None, packs=(), uses=_uses(demand)
    )


def _uses(demand: _Demand) -> tuple[tuple[int, int, tuple[int, ...]], ...]:
    return tuple((number, count, tuple(places)) for number, (count, places) in sorted(demand.uses.items()))


def is_priced(hardware: Hardware, job: Job) -> bool:
    """Tell whether hardware has a price that holds on the quote date."""
    day = job.quote_date
    has_begun = hardware.price_from is None or hardware.price_from <= day
    return has_begun and (hardware.price_until is None or day <= hardware.price_until)


def complaint(code: str, job: Job, piece: Piece, wanted: Part | HireNeed, item: str) -> Problem:
    """Report a problem with an item that a piece takes, at the cell of the piece that asked for it."""
    key = field_of(piece, wanted)
    day = job.quote_date.isoformat()
    return problem(code, piece.where(key), seen=piece.row.seen(key), job=job.code, item=item, day=day)


NAMING = ("topper", "wrap", "base", "pole", "frame", "item")
"""Fields of a piece that name one item."""


def field_of(piece: Piece, wanted: Part | HireNeed) -> str:
    """Find the field of a piece that asked for something: the one naming the item, else its colours, build or form."""
    name = wanted.item.casefold()
    for key in NAMING:
        if str(piece.row.get(key) or "").strip().casefold() == name:
            return key
    accents = piece.row.get("accents")
    if isinstance(accents, tuple) and any(str(accent).casefold() == name for _, accent in accents):
        return "accents"
    if isinstance(wanted, Part) and wanted.fill_cm is not None and piece.row.get("colours"):
        return "colours"
    return "build" if piece.row.get("build") else "form"
