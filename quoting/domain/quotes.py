"""What a job comes to: the quote a client may see, and the sheet only the shop sees.

The two are separate types on purpose: the client's file is written from a `Quote`
alone, so that no cost, margin or stock can leak into it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, time
from decimal import Decimal
from enum import StrEnum

from quoting.domain.crews import Loads, Visit
from quoting.domain.flags import Flag
from quoting.domain.money import Currency, Rounding
from quoting.domain.places import Place
from quoting.domain.plans import Plan, Section
from quoting.domain.prices import TaxCategory, TaxRounding


class Status(StrEnum):
    """What became of a job in a run; the values stand in results.json."""

    QUOTED = "quoted"
    NOTES = "quoted with notes"
    HELD = "held"


class LineKind(StrEnum):
    """What a line of a quote is."""

    PIECE = "piece"
    LABOUR = "labour"
    DELIVERY = "delivery"
    CHARGE = "charge"
    DISCOUNT = "discount"


def quote_number(prefix: str, code: str) -> str:
    """Put the shop's prefix before a job's code, unless the code has all of it already.

    A prefix that ends in a letter always goes before: the same letters may begin a name.

    >>> quote_number("Q-", "0412"), quote_number("Q-", "Q-0412"), quote_number("Q", "Queen-1")
    ('Q-0412', 'Q-0412', 'QQueen-1')
    """
    has_it = bool(prefix) and not prefix[-1].isalpha() and code.casefold().startswith(prefix.casefold())
    return code if has_it else f"{prefix}{code}"


@dataclass(frozen=True, slots=True, kw_only=True)
class QuoteLine:
    """One printed line. `amount` = `unit_price` × `quantity` to the cent; discounts are negative."""

    label: str
    kind: LineKind
    title: str
    details: tuple[str, ...]
    quantity: int
    unit_price: Decimal
    amount: Decimal


@dataclass(frozen=True, slots=True, kw_only=True)
class QuoteOption:
    """A choice that is priced, but not in the total: another piece of an option group, or an add-on.

    `instead_of` is the label of the piece it would take the place of, "" for an add-on.
    `total` is the quote's total with this choice alone.
    """

    group: str
    label: str
    instead_of: str
    title: str
    details: tuple[str, ...]
    quantity: int
    unit_price: Decimal
    amount: Decimal
    total: Decimal


@dataclass(frozen=True, slots=True, kw_only=True)
class TaxLine:
    """One tax as printed: `taxable` is the amount it is worked out on."""

    code: str
    name: str
    rate: Decimal
    taxable: Decimal
    amount: Decimal


@dataclass(frozen=True, slots=True, kw_only=True)
class Totals:
    """The foot of a quote. Every amount is printed, and they add up.

    Prices before tax: `total` = `subtotal` − `discount` + `charges` + Σ tax. Prices
    including tax: `total` = `subtotal` − `discount` + `charges`, and the taxes are
    contained in it. `payable` = `total` − `prepaid` + `cash_rounding`. `discount` and
    `charges` are what concerns the whole order, both not negative; line discounts are
    lines. Our own quotes have nothing prepaid.
    """

    prices_include_tax: bool
    subtotal: Decimal
    discount: Decimal
    charges: Decimal
    taxes: tuple[TaxLine, ...]
    tax: Decimal
    total: Decimal
    cash_rounding: Decimal
    payable: Decimal
    prepaid: Decimal = Decimal(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Cautions:
    """Safety lines of a job: `client` in the owner's wording for the quote, `crew` for the workshop sheet."""

    client: tuple[str, ...] = ()
    crew: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Terms:
    """Dates and amounts a client has to keep."""

    valid_until: date
    deposit_share: Decimal
    deposit: Decimal
    deposit_due: date
    balance: Decimal
    balance_due: date
    damage_hold: Decimal
    """Refundable, on hired items, not taxed; 0 where there is none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderAdjustment:
    """A discount or surcharge on the whole order, as printed; `amount` is not negative."""

    name: str
    is_discount: bool
    percent: Decimal | None
    amount: Decimal


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopCard:
    """What the client's paper says of the shop."""

    name: str
    contact: str
    address: str
    email: str
    phone: str
    website: str
    tax_number: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Quote:
    """All that a client may see of a job; nothing else may be put in the client's file."""

    number: str
    revision: int
    shop: ShopCard
    client: str
    contact: str
    email: str
    phone: str
    event: str
    venue: str
    address: str
    event_date: date
    event_time: time | None
    quote_date: date
    currency: Currency
    length_unit: str
    paper: str
    tax_rounding: TaxRounding
    rounding: Rounding
    cash_unit: Decimal
    """The amount due is rounded to a multiple of this; 0 where it is not."""
    lines: tuple[QuoteLine, ...]
    adjustments: tuple[OrderAdjustment, ...]
    totals: Totals
    terms: Terms
    exempt_reason: str
    notes: str
    cautions: tuple[str, ...]
    wording: Mapping[str, str]
    is_collected: bool = False
    """True where the client fetches everything: nothing is set up or taken down for them."""
    has_hire: bool = True
    """True where something of it comes back."""
    options: tuple[QuoteOption, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class StockLine:
    """What one job pulls of one item: `need` good ones, `with_spares` to take along, and what they cost.

    Bought hardware has its part ("base plate") as `shape`, no size, finish, colour or spares.
    `unit_cost` is for one.
    """

    item: str
    shape: str
    size: int | None
    finish: str
    colour: str
    fills_cm: tuple[float, ...]
    need: int
    with_spares: int
    breakage: Decimal
    unit_cost: Decimal
    charged_count: int
    """How many the client is charged for: with spares, or whole packs where the item is charged by pack."""
    drawn_as: str = ""
    """Colour words or "#RRGGBB" for pictures; "" where `colour` says it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HireLine:
    """What one job takes of one hired item; `charge` and `cost` are for all of them together."""

    item: str
    count: int
    charge: Decimal
    cost: Decimal
    owned: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Hours:
    """Hours of work, exact: seconds ÷ 3600, not rounded."""

    workshop: Decimal
    venue: Decimal


@dataclass(frozen=True, slots=True, kw_only=True)
class PricedPiece:
    """One piece with its plan, hours and money, for all of its quantity."""

    label: str
    title: str
    form: str
    quantity: int
    plan: Plan
    hours: Hours
    cost: Decimal
    amount: Decimal
    amounts: Mapping[TaxCategory, Decimal]
    """`amount` told apart by what it is for; adds up to it."""
    shop_notes: str


@dataclass(frozen=True, slots=True, kw_only=True)
class JobSheet:
    """All that the shop knows of a quoted job: the workshop sheet and the summary are written from it."""

    quote: Quote
    job: str
    install_date: date
    install_time: time | None
    strike_date: date | None
    strike_time: time | None
    is_outdoors: bool
    distance_km: Decimal | None
    pieces: tuple[PricedPiece, ...]
    stock: tuple[StockLine, ...]
    hire: tuple[HireLine, ...]
    hours: Hours
    cost: Decimal
    """Materials, hire, labour and delivery as they cost the shop."""
    margin: Decimal
    """(price before tax − cost) ÷ price before tax; 0 where the price is 0."""
    workings: tuple[Section, ...]
    cautions: tuple[str, ...]
    """For the crew; the quote has those that concern the client."""
    shop_notes: str
    flags: tuple[Flag, ...] = ()
    """Whether it fits, stands and lasts, in the order of the front page."""
    is_draughty: bool = False
    visits: tuple[Visit, ...] = ()
    loads: Loads | None = None
    """How it goes on the road; None where the client collects."""
    late_hours: Decimal = Decimal(0)
    """Those of the hours in the workshop that belong to the install date: loading, filling with helium."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BuyLine:
    """What the batch needs of one item and the cheapest whole packs that cover it.

    `packs` are (count in a pack, how many, price of one, supplier). `on_hand` is what
    is good on the first day it is needed. `short` of the need can't be had in time, and
    is not bought. `jobs` are the codes of those that need it.
    """

    item: str
    need: int
    on_hand: int
    packs: tuple[tuple[int, int, Decimal, str], ...]
    cost: Decimal
    needed_by: date | None = None
    """The first preparation day for which something has to be bought; None where nothing has."""
    jobs: tuple[str, ...] = ()
    short: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class JobResult:
    """What became of one job: its sheet where it was quoted, None where it was held."""

    job: str
    client: str
    event_date: date | None
    status: Status
    place: Place
    sheet: JobSheet | None
