"""The price sheets' checked rows as a price book."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from types import MappingProxyType

from quoting.checking.crew_rows import crew_rules, holidays_of, hour_rates, price_policy, vans
from quoting.checking.item_checks import rows_by_item
from quoting.checking.names import folded
from quoting.checking.pool import Pool
from quoting.checking.rate_checks import phrase_trouble
from quoting.checking.values import RowReader
from quoting.checking.wording import standard_wording
from quoting.domain.cells import Row
from quoting.domain.money import Currency, Rounding
from quoting.domain.prices import (
    ActivityRate,
    Balloon,
    BreakagePolicy,
    BuildRow,
    ChargeBy,
    DeliveryBand,
    Hardware,
    Pack,
    PriceBook,
    Shape,
    Shop,
    Supplier,
    TaxCategory,
    TaxRate,
    TaxRounding,
)

ZERO = Decimal(0)


def price_book(pool: Pool) -> PriceBook:
    """Everything the price sheets say; an item, build or activity with a wrong row is left out whole.

    The pool must have a usable Shop row and no wrong Tax row.
    """
    return PriceBook(
        shop=_shop(pool.good("shop")[0]),
        balloons=_balloons(pool),
        hardware=_hardware(pool),
        labour=_labour(pool),
        delivery=() if pool.bad("delivery") else tuple(_band(row) for row in pool.good("delivery")),
        taxes=_taxes(pool),
        wording=_wording(pool),
        builds=_builds(pool),
        suppliers=_suppliers(pool),
        hour_rates=hour_rates(pool),
        holidays=holidays_of(pool),
        vans=vans(pool),
        labour_faults=pool.faults("labour", "activity"),
    )


def _shop(row: Row) -> Shop:
    read = RowReader("shop", row)

    def number(key: str) -> Decimal:
        return read.needed(read.amount(key), key)

    def days(key: str) -> int:
        return read.needed(read.whole(key), key)

    return Shop(
        place=row.place,
        name=read.text("name"), contact=read.text("contact"), address=read.text("address"), email=read.text("email"),
        phone=read.text("phone"), website=read.text("website"), tax_number=read.text("tax_number"),
        currency=Currency(code=read.text("currency")), length_unit=read.text("length_unit"),
        distance_unit=read.text("distance_unit"), paper=read.text("paper"), quote_prefix=read.text("quote_prefix"),
        prices_include_tax=read.flag("prices_include_tax"), tax_rounding=TaxRounding(read.text("tax_rounding")),
        rounding=Rounding(read.text("rounding")), cash_rounding=number("cash_rounding"), markup=number("markup"),
        workshop_cost=number("workshop_cost"), workshop_charge=number("workshop_charge"),
        venue_cost=number("venue_cost"), venue_charge=number("venue_charge"), minimum_order=number("minimum_order"),
        floor_margin=number("floor_margin"), breakage_policy=BreakagePolicy(read.text("breakage_policy")),
        service_level=number("service_level"), flat_share=number("flat_share"),
        breakage_chance=number("breakage_chance"), breakage_outdoors=number("breakage_outdoors"),
        breakage_heat=number("breakage_heat"), tightness=number("tightness"),
        twister_fill_share=number("twister_fill_share"), twister_stretch=number("twister_stretch"),
        fillers_light=number("fillers_light"), fillers_medium=number("fillers_medium"),
        fillers_full=number("fillers_full"),
        room_celsius=number("room_celsius"), altitude_cm=number("altitude"), round_shape=number("round_shape"),
        weight_factor=number("weight_factor"), gas_loss=number("gas_loss"),
        ceiling_clearance_cm=number("ceiling_clearance"), wind_limit=number("wind_limit"), draught=number("draught"),
        gust_factor=number("gust_factor"), safety_factor=number("safety_factor"), friction=number("friction"),
        drag=number("drag"), drag_flat=number("drag_flat"), inflate_before=number("inflate_before"),
        deposit=number("deposit"), deposit_days=days("deposit_days"), balance_days=days("balance_days"),
        valid_days=days("valid_days"), crew=crew_rules(row), policy=price_policy(row),
    )


def _balloons(pool: Pool) -> tuple[Balloon, ...]:
    wrong = pool.faults("balloons")
    return tuple(_balloon(rows) for name, rows in rows_by_item(pool, "balloons").items() if name not in wrong)


def _balloon(rows: list[Row]) -> Balloon:
    """One item of all its rows, each of which may tell what the others leave blank."""
    told = {key: value for row in reversed(rows) for key, value in row.values.items()}
    first = rows[0]
    read = RowReader("balloons", Row(place=first.place, values=told, columns=first.columns))
    return Balloon(
        item=read.text("item"), shape=Shape(read.text("shape")), size=read.needed(read.whole("size"), "size"),
        finish=read.text("finish"), colour=read.text("colour"), drawn_as=read.text("drawn_as"),
        usual_fill_cm=read.amount("usual_fill"),
        packs=tuple(_pack(row) for row in rows), sell_each=read.amount("sell_each"), breakage=read.amount("breakage"),
        on_hand=read.whole("on_hand") or 0, charge_by=ChargeBy(read.text("charge_by")), place=first.place,
        litres=read.amount("litres"), mass_g=read.amount("grams"),
        hours_afloat=read.amount("hours_afloat"), lot_on_hand=read.text("lot_on_hand"),
        good_until=read.day("best_before"), keeps_days=read.whole("keeps_days"),
    )


def _pack(row: Row) -> Pack:
    read = RowReader("balloons", row)
    return Pack(
        count=read.needed(read.whole("pack"), "pack"), price=read.needed(read.amount("pack_price"), "pack_price"),
        supplier=read.text("supplier"), price_from=read.day("price_from"), price_until=read.day("price_until"),
        place=row.where("pack_price"), limit=read.whole("bags_left"), lot=read.text("lot"),
    )


def _hardware(pool: Pool) -> tuple[Hardware, ...]:
    wrong = pool.faults("hardware")
    return tuple(_thing(row) for row in pool.good("hardware") if folded(str(row.get("item"))) not in wrong)


def _thing(row: Row) -> Hardware:
    read = RowReader("hardware", row)
    return Hardware(
        item=read.text("item"), part=read.text("part"), is_usual=read.flag("usual"), is_hire=read.text("use") == "hire",
        cost=read.needed(read.amount("cost"), "cost"), charge=read.amount("charge"), owned=read.whole("owned"),
        length_cm=read.amount("length"), diameter_cm=read.amount("diameter"), mass_kg=read.amount("mass"),
        damage_hold=read.amount("damage_hold") or ZERO, price_from=read.day("price_from"),
        price_until=read.day("price_until"), place=row.place, supplier=read.text("supplier"),
        contents_l=read.amount("contents"),
        is_per_day=read.text("hire_per") == "day" and read.text("use") == "hire",
    )


def _suppliers(pool: Pool) -> tuple[Supplier, ...]:
    """Of several rows of one supplier the first."""
    first: dict[str, Row] = {}
    for row in pool.good("suppliers"):
        first.setdefault(folded(str(row.get("supplier"))), row)
    return tuple(_supplier(row) for row in first.values())


def _supplier(row: Row) -> Supplier:
    read = RowReader("suppliers", row)
    return Supplier(
        name=read.text("supplier"), minimum_order=read.amount("minimum_order") or ZERO,
        delivery_charge=read.amount("delivery_charge") or ZERO, free_from=read.amount("free_delivery_from"),
        lead_days=read.whole("lead_days") or 0, place=row.place,
    )


def _labour(pool: Pool) -> tuple[ActivityRate, ...]:
    wrong = pool.faults("labour", "activity")
    return tuple(_rate(row) for row in pool.good("labour") if folded(str(row.get("activity"))) not in wrong)


def _rate(row: Row) -> ActivityRate:
    read = RowReader("labour", row)
    return ActivityRate(
        activity=read.text("activity"), up_to_size=read.whole("up_to_size"),
        seconds=read.needed(read.amount("seconds"), "seconds"), is_at_venue=read.text("where") == "venue",
        place=row.place, hour_cost=read.amount("hour_cost"), hour_charge=read.amount("hour_charge"),
    )


def _band(row: Row) -> DeliveryBand:
    read = RowReader("delivery", row)
    return DeliveryBand(
        up_to_km=read.amount("up_to"), charge=read.needed(read.amount("charge"), "charge"),
        cost=read.needed(read.amount("cost"), "cost"), charge_per_further=read.amount("charge_per_further") or ZERO,
        cost_per_further=read.amount("cost_per_further") or ZERO, place=row.place,
    )


def _taxes(pool: Pool) -> tuple[TaxRate, ...]:
    spelled = pool.names("tax", "code")
    return tuple(_tax(row, spelled) for row in pool.good("tax"))


def _tax(row: Row, spelled: Mapping[str, str]) -> TaxRate:
    read = RowReader("tax", row)
    return TaxRate(
        code=spelled[folded(read.text("code"))], name=read.text("name"), rate=read.needed(read.amount("rate"), "rate"),
        applies_to=tuple(TaxCategory(name) for name in read.texts("applies_to")),
        on_top_of=tuple(spelled[folded(name)] for name in read.texts("on_top_of")),
        valid_from=read.day("valid_from"), valid_until=read.day("valid_until"), place=row.place,
    )


def _wording(pool: Pool) -> Mapping[str, str]:
    own: dict[str, str] = {}
    for row in pool.good("wording"):
        phrase, text = str(row.get("phrase")), str(row.get("text"))
        if not phrase_trouble(phrase, text):
            own.setdefault(phrase, text)
    return MappingProxyType({**standard_wording(), **own})


def _builds(pool: Pool) -> Mapping[str, tuple[BuildRow, ...]]:
    wrong = pool.faults("builds", "build")
    builds: dict[str, list[BuildRow]] = {}
    for row in pool.good("builds"):
        name = str(row.get("build"))
        if folded(name) not in wrong:
            builds.setdefault(pool.names("builds", "build")[folded(name)], []).append(_build_row(row))
    return MappingProxyType({name: tuple(rows) for name, rows in builds.items()})


def _build_row(row: Row) -> BuildRow:
    read = RowReader("builds", row)
    return BuildRow(
        build=read.text("build"), what=read.text("what"), item=read.text("item"), size=read.whole("size"),
        fill_cm=read.amount("fill"), colour_place=read.whole("colour_place"),
        amount=read.needed(read.amount("amount"), "amount"), per=read.text("per"), place=row.place,
    )
