"""What a batch buys and hires: an order per supplier, what is left after it, what can't be had."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from quoting.domain.quotes import BuyLine


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderLine:
    """So many packs of one kind; `cost` is for all of them, `needed_by` the first day they have to be there.

    `count` is what a pack holds: single ones, or what `measure` says ("litres" of a cylinder).
    """

    item: str
    count: int
    packs: int
    price: Decimal
    cost: Decimal
    lot: str
    needed_by: date
    jobs: tuple[str, ...]
    """Codes of the jobs they are for; never a client's name."""
    measure: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class SupplierOrder:
    """One order to one supplier ("" where the packs name none), ready to be sent.

    `goods` + `charge` = `total`. `minimum` is what the supplier asks for at least; the
    goods are below it only where all the packs it has left don't come to it.
    """

    supplier: str
    lines: tuple[OrderLine, ...]
    goods: Decimal
    charge: Decimal
    total: Decimal
    minimum: Decimal
    arrives: date


@dataclass(frozen=True, slots=True, kw_only=True)
class StockLevel:
    """One item once the batch is bought and used: `on_hand` + `bought` − `used` − `expired` = `left`.

    `value` is what the ones left are worth at `unit_cost`, the least price of one.
    """

    item: str
    on_hand: int
    bought: int
    used: int
    expired: int
    left: int
    unit_cost: Decimal
    value: Decimal


@dataclass(frozen=True, slots=True, kw_only=True)
class Shortage:
    """So many of an item that a job needs by a day and can't have by then.

    `comes` is the first day on which more could be there, None where no one has any left.
    `is_early`: ordered on the run's date they would be past their day by then.
    """

    item: str
    job: str
    count: int
    needed_by: date
    comes: date | None
    is_early: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Clash:
    """A hired item of which jobs want more than there is, on every day from `first` to `last`."""

    item: str
    first: date
    last: date
    owned: int
    wanted: int
    jobs: tuple[tuple[str, int], ...]
    """Codes of the jobs, each with how many it wants."""

    @property
    def short(self) -> int:
        """How many are lacking."""
        return self.wanted - self.owned


@dataclass(frozen=True, slots=True, kw_only=True)
class CostShare:
    """A job's share of what is bought: of the packs, by what it uses of them, and of delivery charges."""

    job: str
    goods: Decimal
    charges: Decimal

    @property
    def total(self) -> Decimal:
        """Both together."""
        return self.goods + self.charges


@dataclass(frozen=True, slots=True, kw_only=True)
class CylinderLine:
    """So many cylinders of one kind to get, for `cost`; `deposit` comes back with the empty cylinders."""

    item: str
    supplier: str
    is_hire: bool
    count: int
    litres: int
    price: Decimal
    cost: Decimal
    deposit: Decimal


@dataclass(frozen=True, slots=True, kw_only=True)
class GasPurchase:
    """Helium for the batch. `litres` float in the pieces; `needed` has the share lost in filling on top.

    `on_hand` is what full cylinders of the shop's own hold. `short` is what no cylinder of
    the price sheets could be named for.
    """

    litres: float
    needed: int
    on_hand: int
    cylinders: tuple[CylinderLine, ...]
    jobs: tuple[tuple[str, float], ...]
    needed_by: date
    short: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """What buying for all jobs at once comes to, against one after the other with the left-overs kept (at least)."""

    together: Decimal
    together_left: int
    one_by_one: Decimal
    one_by_one_left: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Purchase:
    """Everything a batch buys and hires.

    `orders` and `shares` (by supplier, by job) each add up to `total`; `lines` by item
    and the cylinders of `gas` to the same without delivery. No way of buying packs costs
    less than `gap` below what they do; cylinders are the cheapest by themselves.
    """

    lines: tuple[BuyLine, ...] = ()
    orders: tuple[SupplierOrder, ...] = ()
    levels: tuple[StockLevel, ...] = ()
    shortages: tuple[Shortage, ...] = ()
    clashes: tuple[Clash, ...] = ()
    shares: tuple[CostShare, ...] = ()
    gas: GasPurchase | None = None
    comparison: Comparison | None = None
    total: Decimal = Decimal(0)
    gap: Decimal = Decimal(0)
