"""Who needs how much of what by when: needs in order of date, what is on hand taken off, what can't come in time."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from quoting.costing.covers import Offer
from quoting.costing.prep_days import prep_days
from quoting.domain.crews import CrewRules
from quoting.domain.prices import Pack, PriceBook
from quoting.domain.quotes import JobSheet


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """Where an item comes from: what is on hand (good until a day, of a lot), and the packs that can be bought.

    Fresh ones keep `keeps_days` from the day they come (None: long enough).
    """

    item: str
    on_hand: int
    packs: tuple[Pack, ...]
    good_until: date | None = None
    keeps_days: int | None = None
    lot_on_hand: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """So many of an item that have to be there for a job on a day, and still good until another."""

    day: date
    until: date
    job: str
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Draw:
    """What one job takes of an item by the first day on which it may be prepared, `until` being the last.

    `count` = `from_hand` + `granted` (out of what is bought) + `short` (can't be there by then).
    `comes` is the day on which more could be there, None where no one has more. `is_early`:
    what is ordered on the run's date would no longer be good by then.
    """

    job: str
    day: date
    until: date
    count: int
    from_hand: int
    granted: int
    short: int
    comes: date | None
    is_early: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ItemNeed:
    """One item over all jobs: draws in order of date, and what has to be bought in time.

    `packs`, `offers` and `arrivals` belong together; `needs` are by stage, as
    `quoting.costing.covers.cheapest_cover` wants them.
    """

    source: Source
    draws: tuple[Draw, ...]
    packs: tuple[Pack, ...]
    offers: tuple[Offer, ...]
    arrivals: tuple[date, ...]
    needs: tuple[int, ...]

    @property
    def to_buy(self) -> int:
        """How many have to be bought."""
        return self.needs[-1] if self.needs else 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Market:
    """The suppliers' days to deliver, the crew's rules, and how money is counted: in units of 10 ** −`digits`."""

    run_date: date
    crew: CrewRules
    lead_days: Mapping[str, int]
    digits: int

    def arrival(self, pack: Pack) -> date:
        """Say on which day a pack ordered on the run's date is there."""
        return self.arrives_from(pack.supplier)

    def arrives_from(self, supplier: str) -> date:
        """Say on which day a supplier delivers what is ordered on the run's date."""
        return self.run_date + timedelta(days=self.lead_days.get(supplier.casefold(), 0))

    def units(self, amount: Decimal) -> int:
        """Give money in whole units; exact, for `digits` is as many as any price has."""
        return int(amount.scaleb(self.digits))

    def money(self, units: int) -> Decimal:
        """Give units as money."""
        return Decimal(units).scaleb(-self.digits)


def market_of(prices: PriceBook, run_date: date) -> Market:
    """Give the market of a price book."""
    amounts = [pack.price for balloon in prices.balloons for pack in balloon.packs]
    amounts += [hardware.cost for hardware in prices.hardware]
    for supplier in prices.suppliers:
        amounts += [supplier.minimum_order, supplier.delivery_charge, supplier.free_from or Decimal(0)]
    places = (-int(amount.as_tuple().exponent) for amount in amounts)
    return Market(
        run_date=run_date,
        crew=prices.shop.crew,
        lead_days={supplier.name.casefold(): supplier.lead_days for supplier in prices.suppliers},
        digits=max([prices.shop.currency.digits, *places]),
    )


def sources_of(prices: PriceBook, run_date: date) -> dict[str, Source]:
    """Give every item's source by its folded name.

    Packs whose price holds on the run's date; where no pack's does any more, all packs at
    their last price. Hardware that is bought comes one by one, beyond the number owned.
    """
    sources: dict[str, Source] = {}
    for thing in prices.hardware:
        if not thing.is_hire:
            pack = Pack(
                count=1, price=thing.cost, supplier=thing.supplier,
                price_from=None, price_until=None, place=thing.place,
            )
            sources[thing.item.casefold()] = Source(item=thing.item, on_hand=thing.owned or 0, packs=(pack,))
    for balloon in prices.balloons:
        current = tuple(pack for pack in balloon.packs if pack.is_current(run_date))
        sources[balloon.item.casefold()] = Source(
            item=balloon.item,
            on_hand=balloon.on_hand,
            packs=current or balloon.packs,
            good_until=balloon.good_until,
            keeps_days=balloon.keeps_days,
            lot_on_hand=balloon.lot_on_hand,
        )
    return sources


def asked_by(sheet: JobSheet, count: int, market: Market) -> Asked:
    """Say when so many of an item have to be there for a job, and until when good; never before the run's date."""
    first, last = prep_days(sheet, market.crew, market.run_date)
    return Asked(day=max(first, market.run_date), until=max(last, market.run_date), job=sheet.job, count=count)


def needs_of(sheets: Sequence[JobSheet], sources: Mapping[str, Source], market: Market) -> tuple[ItemNeed, ...]:
    """Give every item that jobs need, by name. KeyError for an item that has no source (costing lets none through)."""
    asked: dict[str, list[Asked]] = {}
    for sheet in sheets:
        for line in sheet.stock:
            if line.with_spares:
                asked.setdefault(line.item.casefold(), []).append(asked_by(sheet, line.with_spares, market))
    return tuple(
        need_of(sources[key], sorted(asked[key], key=lambda each: (each.day, each.until)), market)
        for key in sorted(asked)
    )


def need_of(source: Source, asked: Sequence[Asked], market: Market) -> ItemNeed:
    """Give one item's need; what is asked comes in order of date.

    What is on hand serves the earliest days first, as long as it is good. A pack that
    is not good until the last day on which bought ones are needed is left out.
    """
    from_hand = _from_hand(source, asked)
    lacking = [each.count - taken for each, taken in zip(asked, from_hand, strict=True)]
    packs = _good_packs(source, [each.until for each, lack in zip(asked, lacking, strict=True) if lack], market)
    days = [market.arrival(pack) for pack in packs]
    draws = []
    given = 0
    for each, taken, lack in zip(asked, from_hand, lacking, strict=True):
        is_good = all(_keeps(source, arrival, each.until) for arrival in days)
        there = _capacity(packs, days, each.day) if is_good else given
        granted = int(min(lack, max(there - given, 0)))
        given += granted
        short = lack - granted
        later = [arrival for arrival in days if arrival > each.day] if short else []
        draws.append(
            Draw(
                job=each.job, day=each.day, until=each.until, count=each.count, from_hand=taken, granted=granted,
                short=short, comes=min(later, default=None), is_early=bool(short) and not is_good,
            )
        )
    arrivals = sorted(set(days))
    offers = tuple(
        Offer(
            count=pack.count, price=market.units(pack.price), limit=pack.limit, stage=arrivals.index(day),
            supplier=pack.supplier.casefold(),
        )
        for pack, day in zip(packs, days, strict=True)
    )
    return ItemNeed(
        source=source, draws=tuple(draws), packs=packs, offers=offers, arrivals=tuple(days),
        needs=_by_stage(draws, arrivals),
    )


def _from_hand(source: Source, asked: Sequence[Asked]) -> list[int]:
    left, taken = source.on_hand, []
    for each in asked:
        is_good = source.good_until is None or each.until <= source.good_until
        number = min(left, each.count) if is_good else 0
        taken.append(number)
        left -= number
    return taken


def _good_packs(source: Source, days: Sequence[date], market: Market) -> tuple[Pack, ...]:
    """Packs that are there and good until the last of the days; where none is, until the last day any is good."""
    for last in reversed(days):
        packs = tuple(p for p in source.packs if p.limit != 0 and _keeps(source, market.arrival(p), last))
        if packs:
            return packs
    return ()


def _keeps(source: Source, arrival: date, day: date) -> bool:
    """True where a pack that comes on `arrival` is good on `day`."""
    return source.keeps_days is None or day <= arrival + timedelta(days=source.keeps_days)


def _capacity(packs: Sequence[Pack], arrivals: Sequence[date], day: date) -> float:
    """How many can be there by a day at most."""
    return sum(
        math.inf if pack.limit is None else pack.limit * pack.count
        for pack, arrival in zip(packs, arrivals, strict=True)
        if arrival <= day
    )


def _by_stage(draws: Sequence[Draw], arrivals: Sequence[date]) -> tuple[int, ...]:
    """What must be there with each delivery: all that is needed before the next one comes."""
    ends = [*arrivals[1:], date.max]
    return tuple(sum(draw.granted for draw in draws if draw.day < end) for end in ends[: len(arrivals)])
