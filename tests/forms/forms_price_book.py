"""A price book and pieces made by hand for the tests of forms (invented items)."""

from __future__ import annotations

from decimal import Decimal

from quoting.domain.cells import Row, Value
from quoting.domain.jobs import Piece
from quoting.domain.money import Currency, Rounding
from quoting.domain.places import Place
from quoting.domain.prices import (
    Balloon,
    BreakagePolicy,
    BuildRow,
    ChargeBy,
    Hardware,
    PriceBook,
    Shape,
    Shop,
    TaxRounding,
)
from quoting.forms.fields import pieces_fields

INCH = Decimal("2.54")
FOOT = 12 * INCH
ZERO = Decimal(0)


def inches(*amounts):
    return tuple(Decimal(str(amount)) * INCH for amount in amounts)


def at(row, column=0, sheet="Hardware"):
    return Place(workbook="prices.xlsx", sheet=sheet, row=row, column=column)


def shop(unit="in", **changed):
    values = {
        "place": at(0, sheet="Shop"), "name": "Harbour Lane Balloons", "contact": "", "address": "", "email": "",
        "phone": "", "website": "", "tax_number": "", "currency": Currency(code="USD"), "length_unit": unit,
        "distance_unit": "mi", "paper": "A4", "quote_prefix": "Q-", "prices_include_tax": False,
        "tax_rounding": TaxRounding.PER_TAX, "rounding": Rounding.HALF_UP, "cash_rounding": ZERO,
        "markup": Decimal("1.5"), "workshop_cost": Decimal(18), "workshop_charge": Decimal(40),
        "venue_cost": Decimal(22), "venue_charge": Decimal(55), "minimum_order": ZERO, "floor_margin": Decimal("0.3"),
        "breakage_policy": BreakagePolicy.SERVICE_LEVEL, "service_level": Decimal("0.95"),
        "flat_share": Decimal("0.05"), "breakage_chance": Decimal("0.03"), "tightness": Decimal("0.93"),
        "twister_fill_share": Decimal("0.85"), "twister_stretch": Decimal("1.10"), "deposit": Decimal("0.5"),
        "deposit_days": 7, "balance_days": 7, "valid_days": 30,
    }
    return Shop(**{**values, **changed})


def balloon(shape, size, finish, colour, usual_in, litres=None, mass_g=None):
    return Balloon(
        item=f"{size} in {finish} {colour}" if shape is not Shape.TWISTER else f"Twister {size} {colour}",
        shape=shape, size=size, finish=finish, colour=colour,
        usual_fill_cm=None if usual_in is None else Decimal(str(usual_in)) * INCH, packs=(), sell_each=None,
        breakage=None, on_hand=0, charge_by=ChargeBy.BALLOON, place=at(2, sheet="Balloons"),
        litres=None if litres is None else Decimal(str(litres)),
        mass_g=None if mass_g is None else Decimal(str(mass_g)),
    )


USUAL = {5: 4.5, 9: 8, 11: 9.5, 12: 10.5, 16: 14.5, 24: 21, 36: 32}
COLOURS = ("ivory", "sage", "coral", "slate")


def balloons():
    rounds = [balloon(Shape.ROUND, size, "matt", colour, fill) for size, fill in USUAL.items() for colour in COLOURS]
    finishes = ("metallic", "pearl")
    golds = [balloon(Shape.ROUND, size, finish, "gold", USUAL[size]) for size in (5, 11) for finish in finishes]
    twisters = [balloon(Shape.TWISTER, 260, "matt", colour, None) for colour in ("ivory", "sage", "coral")]
    foils = [balloon(Shape.FOIL, 18, "foil", "silver", 17, litres=14),
             balloon(Shape.FOIL, 18, "foil", "star", 16, litres=12)]
    clear = [balloon(Shape.ROUND, 24, "clear", "clear", 21)]
    return (*rounds, *golds, *twisters, *foils, *clear)


def hardware(item, part, *, usual=False, hire=False, length=None, diameter=None, mass=None):
    return Hardware(
        item=item, part=part, is_usual=usual, is_hire=hire, cost=Decimal(4), charge=None, owned=None,
        length_cm=None if length is None else Decimal(str(length)) * INCH,
        diameter_cm=None if diameter is None else Decimal(str(diameter)) * INCH,
        mass_kg=None if mass is None else Decimal(str(mass)), damage_hold=ZERO, price_from=None, price_until=None,
        place=at(2),
    )


HARDWARE = (
    hardware("Base plate steel", "base plate", usual=True, hire=True, mass=5),
    hardware("Base plate small", "base plate", mass=2),
    hardware("Pole 5 ft", "pole", usual=True, length=60, diameter=1, mass=0.4),
    hardware("Pole 8 ft", "pole", usual=True, length=96, diameter=1, mass=0.6),
    hardware("Pole 12 ft", "pole", length=144, diameter=1.5, mass=1.2),
    hardware("Fat pole 8 ft", "pole", length=96, diameter=6),
    hardware("Topper cup", "topper holder", usual=True),
    hardware("Arch frame 10 ft", "frame", hire=True, diameter=1, mass=9),
    hardware("Backdrop ring", "frame", hire=True, length=78, diameter=78, mass=7),
    hardware("Wall frame", "frame", hire=True, length=96, mass=15),
    hardware("Drop net", "net", hire=True, length=300, mass=2),
    hardware("Paper fan", "decoration"),
    hardware("Ribbon 25 yd", "decoration", length=900),
    hardware("Ribbon cut", "ribbon"),
    hardware("Line 100 ft", "line", length=1200),
    hardware("Line piece", "line"),
    hardware("Balloon weight", "weight", usual=True, mass=0.16),
    hardware("Water weight", "weight", hire=True, mass=10),
    hardware("Tassel", "tassel", length=12),
)


def build_row(number, what, *, item="", size=None, fill=None, place=None, amount="1", per="piece"):
    return BuildRow(
        build="Gift corner", what=what, item=item, size=size,
        fill_cm=None if fill is None else Decimal(str(fill)) * INCH, colour_place=place, amount=Decimal(amount),
        per=per, place=at(number, sheet="Builds"),
    )


BUILD = (
    build_row(2, "balloon", size=11, place=1, amount="6", per="foot"),
    build_row(3, "balloon", size=5, fill=4, place=2, amount="2.5", per="foot"),
    build_row(4, "balloon", item="24 in matt sage", amount="2"),
    build_row(5, "balloon", size=260, place=1, amount="0.5", per="square foot"),
    build_row(6, "hardware", item="Paper fan", amount="1", per="metre"),
    build_row(7, "hardware", item="Arch frame 10 ft", amount="1"),
    build_row(8, "work", item="tie cluster", amount="1.5", per="foot"),
    build_row(9, "work", item="inflate twister", amount="3"),
)


def prices(unit="in", *, hardware=HARDWARE, balloons=None, builds=None, **changed):
    return PriceBook(
        shop=shop(unit, **changed), balloons=globals()["balloons"]() if balloons is None else balloons,
        hardware=hardware, labour=(), delivery=(), taxes=(), wording={},
        builds={"Gift corner": BUILD} if builds is None else builds,
    )


COLUMN_OF = {
    key: number
    for number, key in enumerate(("job", "piece", "form", "quantity", "title", "price", *pieces_fields()), 1)
}


def piece(form, price=None, **fields):
    """A piece in row 7 of the Pieces sheet; fields are typed values, lengths in cm (Decimal)."""
    place = Place(workbook="jobs.xlsx", sheet="Pieces", row=7)
    values = {key: Value(value=value, place=place.at(COLUMN_OF[key]), seen=str(value)) for key, value in fields.items()}
    row = Row(place=place, values=values, columns=COLUMN_OF)
    return Piece(
        job="J1", label="A", form=form, title="", quantity=1, price=price, client_notes="", shop_notes="", row=row)
