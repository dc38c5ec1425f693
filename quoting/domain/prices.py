"""The price book: what the owner's price sheets say, ready to be looked up."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from enum import StrEnum

from quoting.domain.crews import CrewRules, HourRate, PricePolicy, Van
from quoting.domain.money import Currency, Rounding
from quoting.domain.places import Place


class Shape(StrEnum):
    """Kinds of balloon; the values are what an owner types."""

    ROUND = "round"
    TWISTER = "twister"
    FOIL = "foil"


class TaxRounding(StrEnum):
    """Where tax is rounded; the values are what an owner types."""

    PER_TAX = "per tax"
    PER_LINE = "per line"


class BreakagePolicy(StrEnum):
    """How spares are worked out; the values are what an owner types."""

    SERVICE_LEVEL = "service level"
    FLAT_SHARE = "flat share"


class ChargeBy(StrEnum):
    """What of an item a client is charged for; the values are what an owner types."""

    BALLOON = "balloon"
    PACK = "pack"


class TaxCategory(StrEnum):
    """What a part of a price is for, as taxes tell it apart; the values are what an owner types."""

    GOODS = "goods"
    HIRE = "hire"
    LABOUR = "labour"
    DELIVERY = "delivery"


@dataclass(frozen=True, slots=True, kw_only=True)
class Shop:
    """The Shop sheet. Shares and percents are fractions (50 % is 0.5)."""

    place: Place
    name: str
    contact: str
    address: str
    email: str
    phone: str
    website: str
    tax_number: str
    currency: Currency
    length_unit: str
    """Unit in which lengths are shown: "in" (with feet) or "cm"."""
    distance_unit: str
    """"mi" or "km"."""
    paper: str
    """"A4" or "Letter"."""
    quote_prefix: str
    prices_include_tax: bool
    tax_rounding: TaxRounding
    rounding: Rounding
    cash_rounding: Decimal
    """The amount due is rounded to a multiple of this; 0 where it is not."""
    markup: Decimal
    """Added to the cost of materials that have no listed price: 1.5 is cost × 2.5."""
    workshop_cost: Decimal
    """Money per hour, as are the next three."""
    workshop_charge: Decimal
    venue_cost: Decimal
    venue_charge: Decimal
    minimum_order: Decimal
    """Before tax adjustments; 0 where there is none."""
    floor_margin: Decimal
    breakage_policy: BreakagePolicy
    service_level: Decimal
    flat_share: Decimal
    breakage_chance: Decimal
    """Chance per balloon for items that state none."""
    breakage_outdoors: Decimal = Decimal("0.05")
    """The least chance outdoors. Common practice, no source; so the next."""
    breakage_heat: Decimal = Decimal("0.1")
    """The least chance at 28 °C or more."""
    tightness: Decimal
    """Built pitch of rings ÷ pitch of touching rings."""
    twister_fill_share: Decimal
    twister_stretch: Decimal
    fillers_light: Decimal = Decimal("2.6")
    """Filler clusters per metre of one face of a garland; so the next two. Common practice, no source."""
    fillers_medium: Decimal = Decimal(4)
    fillers_full: Decimal = Decimal(6)
    room_celsius: Decimal = Decimal(20)
    """Temperature at which helium pieces float, in degrees Celsius."""
    altitude_cm: Decimal = Decimal(0)
    """Height of the shop's places over the sea."""
    round_shape: Decimal = Decimal("1.15")
    """Volume of a round ÷ volume of a ball of its fill, where no litres are given. Common practice, no source."""
    weight_factor: Decimal = Decimal("1.5")
    """Weight that holds a helium piece ÷ its net lift. Common practice, no source."""
    gas_loss: Decimal = Decimal("0.08")
    """Gas lost in filling ÷ gas that floats. Common practice, no source."""
    ceiling_clearance_cm: Decimal = Decimal(15)
    """Free space under a ceiling without sprinklers. Common practice, no source; so all of fit and wind below."""
    wind_limit: Decimal = Decimal(5)
    """Mean wind (m/s) at which pieces outdoors are taken down."""
    draught: Decimal = Decimal(3)
    """Wind (m/s) that pieces in a draughty place must bear."""
    gust_factor: Decimal = Decimal("1.5")
    """Gusts ÷ mean wind."""
    safety_factor: Decimal = Decimal("1.5")
    """What holds a piece against the wind ÷ the least that does."""
    friction: Decimal = Decimal("0.4")
    drag: Decimal = Decimal("1.2")
    drag_flat: Decimal = Decimal("1.8")
    inflate_before: Decimal = Decimal(2)
    """Hours from filling helium balloons to set-up."""
    deposit: Decimal
    deposit_days: int
    """Days after the quote date by which the deposit is due."""
    balance_days: int
    """Days before the event by which the balance is due."""
    valid_days: int
    crew: CrewRules = field(default_factory=CrewRules)
    policy: PricePolicy = field(default_factory=PricePolicy)


@dataclass(frozen=True, slots=True, kw_only=True)
class Pack:
    """A pack that can be bought: `count` balloons for `price`, between two dates (None: open).

    `limit` is how many such packs there are (None: no end), `lot` their colour lot ("" where
    it isn't known).
    """

    count: int
    price: Decimal
    supplier: str
    price_from: date | None
    price_until: date | None
    place: Place
    limit: int | None = None
    lot: str = ""

    def is_current(self, day: date) -> bool:
        """True where the price holds on `day`, both ends included."""
        return (self.price_from is None or self.price_from <= day) and (
            self.price_until is None or day <= self.price_until
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Balloon:
    """A stock item: one shape, size, finish and colour, with every pack it comes in.

    `size` is the nominal size in inches for rounds and foils, the code (160, 260,
    350, 646) for twisters. `usual_fill_cm` is the diameter it is inflated to unless
    a piece says otherwise. `sell_each` is the listed price, None where cost × markup
    is charged. `breakage` is the chance that one breaks, None for the shop's own.
    `litres` is the gas it takes at its usual fill and `mass_g` what it weighs empty,
    None where the owner has not measured them. Those on hand are of the colour lot
    `lot_on_hand` and good until `good_until` ("" and None where it isn't known); a fresh
    pack keeps `keeps_days` (None: long enough).
    """

    item: str
    shape: Shape
    size: int
    finish: str
    colour: str
    usual_fill_cm: Decimal | None
    packs: tuple[Pack, ...]
    sell_each: Decimal | None
    breakage: Decimal | None
    on_hand: int
    charge_by: ChargeBy
    place: Place
    litres: Decimal | None = None
    mass_g: Decimal | None = None
    lot_on_hand: str = ""
    good_until: date | None = None
    keeps_days: int | None = None
    drawn_as: str = ""
    """Colour words or "#RRGGBB" for pictures; "" where `colour` says it."""
    hours_afloat: Decimal | None = None
    """Hours that one floats, filled with helium; None where the owner has not measured them."""

    @property
    def size_cm(self) -> Decimal:
        """Nominal diameter (of a twister: of the tube; its code's first figure is inches)."""
        inches = self.size // 100 if self.shape is Shape.TWISTER else self.size
        return Decimal(inches) * Decimal("2.54")

    @property
    def twister_length_cm(self) -> Decimal:
        """Nominal length of a twister: the last two figures of its code in inches."""
        return Decimal(self.size % 100) * Decimal("2.54")

    def has_colour(self, wanted: str) -> bool:
        """True where `wanted` is the colour ("gold") or the finish and colour ("metallic gold"), any case."""
        asked = " ".join(wanted.casefold().split())
        colour, finish = self.colour.casefold(), self.finish.casefold()
        return asked in (colour, f"{finish} {colour}", f"{colour} {finish}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Hardware:
    """Something bought or hired that is no balloon.

    `part` tells what it can serve as ("base plate", "pole", "topper holder",
    "frame", "weight", "decoration", "other"); `is_usual` marks the one a form takes
    where a piece names none. `is_hire` items come back; `charge` is then per event.
    `cost` and `charge` are per `unit` ("each" or a length); `charge` None means cost
    × markup. `owned` counts what the shop has to hire out. Of a cylinder `contents_l`
    is the gas a full one gives, and `damage_hold` the deposit the shop itself pays.
    """

    item: str
    part: str
    is_usual: bool
    is_hire: bool
    cost: Decimal
    charge: Decimal | None
    owned: int | None
    length_cm: Decimal | None
    diameter_cm: Decimal | None
    mass_kg: Decimal | None
    damage_hold: Decimal
    price_from: date | None
    price_until: date | None
    place: Place
    supplier: str = ""
    contents_l: Decimal | None = None
    is_per_day: bool = False
    """Hired at `cost` and `charge` for each day it is away."""
    days: int = 1
    """How many days `cost` and `charge` are for, once they are worked out for one job."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Supplier:
    """What a supplier asks of one order: goods of `minimum_order` at least, `delivery_charge` below `free_from`.

    `free_from` None: delivery is never free. `lead_days` pass from the order to the goods.
    """

    name: str
    minimum_order: Decimal
    delivery_charge: Decimal
    free_from: Decimal | None
    lead_days: int
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class ActivityRate:
    """Seconds one unit of an activity takes, for balloons up to `up_to_size` nominal inches (None: any)."""

    activity: str
    up_to_size: int | None
    seconds: Decimal
    is_at_venue: bool
    place: Place
    hour_cost: Decimal | None = None
    """Money per hour of those who do this; None: the shop's hour of the place. So for the charge."""
    hour_charge: Decimal | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class DeliveryBand:
    """Delivery up to a distance. The last band may go on per further unit of distance.

    `up_to_km` None: no limit. `per_further` is money per further mile or kilometre
    (the shop's unit) beyond the band before it, each way counted once.
    """

    up_to_km: Decimal | None
    charge: Decimal
    cost: Decimal
    charge_per_further: Decimal
    cost_per_further: Decimal
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class TaxRate:
    """One tax: its rate (a fraction) on its categories between two dates, on top of the taxes it names."""

    code: str
    name: str
    rate: Decimal
    applies_to: tuple[TaxCategory, ...]
    on_top_of: tuple[str, ...]
    valid_from: date | None
    valid_until: date | None
    place: Place

    def is_current(self, day: date) -> bool:
        """True where the rate holds on `day`, both ends included."""
        return (self.valid_from is None or self.valid_from <= day) and (
            self.valid_until is None or day <= self.valid_until
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildRow:
    """One line of an owner's own build: so much of something per piece, length, area or ring.

    `what` is "balloon", "hardware" or "work". A balloon is an `item`, or a `size`
    with the piece's colour number `colour_place` (from 1). Work names an activity in
    `item`. `per` is "piece", "foot", "metre", "square foot", "square metre" or "ring".
    """

    build: str
    what: str
    item: str
    size: int | None
    fill_cm: Decimal | None
    colour_place: int | None
    amount: Decimal
    per: str
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceBook:
    """Everything the price sheets of a run say, gathered from all its books."""

    shop: Shop
    balloons: tuple[Balloon, ...]
    hardware: tuple[Hardware, ...]
    labour: tuple[ActivityRate, ...]
    delivery: tuple[DeliveryBand, ...]
    taxes: tuple[TaxRate, ...]
    wording: Mapping[str, str]
    builds: Mapping[str, tuple[BuildRow, ...]]
    hour_rates: tuple[HourRate, ...] = ()
    holidays: Mapping[date, str] = field(default_factory=dict)
    """Public holidays around the jobs' dates: day → name."""
    vans: tuple[Van, ...] = ()
    suppliers: tuple[Supplier, ...] = ()
    labour_faults: Mapping[str, Place] = field(default_factory=dict)
    """Activities left out because a row of theirs is wrong: name in lower case → that row."""

    def balloon(self, item: str) -> Balloon | None:
        """The balloon of an item name (any case), or None."""
        wanted = item.casefold()
        return next((b for b in self.balloons if b.item.casefold() == wanted), None)

    def hardware_item(self, item: str) -> Hardware | None:
        """The hardware of an item name (any case), or None."""
        wanted = item.casefold()
        return next((h for h in self.hardware if h.item.casefold() == wanted), None)

    def balloons_of(self, *, shape: Shape, size: int, colour: str) -> tuple[Balloon, ...]:
        """Balloons of a shape, nominal size and colour: none, one, or several finishes."""
        return tuple(b for b in self.balloons if b.shape is shape and b.size == size and b.has_colour(colour))

    def sizes(self, shape: Shape) -> tuple[int, ...]:
        """Nominal sizes stocked of a shape, ascending."""
        return tuple(sorted({b.size for b in self.balloons if b.shape is shape}))
