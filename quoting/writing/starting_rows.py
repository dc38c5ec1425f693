"""What stands in a blank book's price sheets to begin with: example prices and common practice, labelled as such."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import time
from decimal import Decimal

from quoting.writing.blank_cells import CellValue

MEASURE = "common practice, measure your own"
EXAMPLE = "example price, type your own"

StartingRow = Mapping[str, CellValue]


def starting_rows(*, is_metric: bool) -> Mapping[str, tuple[StartingRow, ...]]:
    """Rows for the blank book: sheet key → rows of column key → value, in the units of one system.

    Jobs, Pieces and Adjustments are not there: they begin empty. Wording has its own source.
    """
    return {
        "shop": (_shop(is_metric),),
        "balloons": tuple(_balloons(is_metric)),
        "hardware": tuple(_hardware(is_metric)),
        "labour": tuple(_labour()),
        "rates": _rates(),
        "delivery": _delivery(is_metric),
        "tax": _taxes(is_metric),
        "builds": _builds(is_metric),
    }


def _shop(is_metric: bool) -> StartingRow:
    return {
        "currency": "EUR" if is_metric else "USD", "layout": 1,
        "length_unit": "cm" if is_metric else "in", "distance_unit": "km" if is_metric else "mi",
        "paper": "A4" if is_metric else "Letter", "quote_prefix": "Q-", "prices_include_tax": is_metric,
        "tax_rounding": "per tax", "rounding": "half up", "cash_rounding": 0,
        "markup": Decimal("1.5"), "workshop_cost": 18, "workshop_charge": 36, "venue_cost": 20, "venue_charge": 40,
        "minimum_order": 0, "floor_margin": Decimal("0.3"), "breakage_policy": "service level",
        "service_level": Decimal("0.95"), "flat_share": Decimal("0.05"), "breakage_chance": Decimal("0.03"),
        "tightness": Decimal("0.93"), "twister_fill_share": Decimal("0.85"), "twister_stretch": Decimal("1.1"),
        "fillers_light": Decimal("2.6"), "fillers_medium": 4, "fillers_full": 6,
        "room_celsius": 20, "altitude": 0, "round_shape": Decimal("1.15"), "weight_factor": Decimal("1.5"),
        "ceiling_clearance": "15 cm" if is_metric else "6 in", "wind_limit": 5, "draught": 3,
        "gust_factor": Decimal("1.5"), "safety_factor": Decimal("1.5"), "friction": Decimal("0.4"),
        "drag": Decimal("1.2"), "drag_flat": Decimal("1.8"), "inflate_before": 2,
        "deposit": Decimal("0.5"), "deposit_days": 7, "balance_days": 7, "valid_days": 30,
        "overhead": 0, "price_step": 0, "labour_shown": "in the pieces", "delivery_shown": "own line",
        "strike_trip": "in the charge", "longest_shift": 10, "unloading_minutes": 15, "walk_in_minutes": 5,
        "setup_minutes": 0, "flight_minutes": Decimal("0.5"), "minimum_hours": 0, "hours_step": 0, "good_days": 2,
    }


# Usual fills of rounds, in inches and in whole or half centimetres: common practice, no source.
_FILLS = {
    5: ("4.5", 11), 9: ("8", 20), 11: ("9.5", 24), 12: ("10.5", 26), 16: ("14.5", 36), 24: ("21", 53), 36: ("32", 81),
}

# Hours afloat of untreated rounds, the lower end of what is told: common practice, no source.
_HOURS_AFLOAT = {9: 8, 11: 12, 12: 14, 16: 24, 24: 36, 36: 48}
_FOIL_HOURS_AFLOAT = 120

_FEW = ("white", "black", "ivory", "red", "pink", "blush")
_EVERYDAY = (*_FEW, "yellow", "orange", "lime", "sage", "blue", "navy", "lilac")
_SHADES: Mapping[str, Mapping[int, tuple[str, ...]]] = {
    "matt": {5: _EVERYDAY, 9: _FEW, 11: _EVERYDAY, 12: _FEW, 16: _FEW, 24: ("white", "ivory"), 36: ("white", "ivory")},
    "pearl": {5: ("champagne", "peach", "gold"), 11: ("champagne", "peach", "mint", "gold"), 16: ("champagne",)},
    "metallic": {5: ("gold", "silver"), 11: ("gold", "silver", "rose"), 16: ("gold",)},
    "mirror": {5: ("gold", "silver"), 11: ("gold", "silver", "rose")},
    "clear": {5: ("clear",), 11: ("clear",), 16: ("clear",), 24: ("clear",), 36: ("clear",)},
}

# Balloons in a pack and its example price, by finish and size. Invented round figures.
_PACKS: Mapping[str, Mapping[int, tuple[tuple[int, str], ...]]] = {
    "matt": {5: ((100, "7.50"),), 9: ((100, "10.50"),), 11: ((25, "4.50"), (100, "14.50")), 12: ((50, "8.50"),),
             16: ((50, "21.00"),), 24: ((10, "16.00"),), 36: ((5, "17.50"),)},
    "pearl": {5: ((100, "9.00"),), 11: ((100, "17.50"),), 16: ((50, "24.00"),)},
    "metallic": {5: ((100, "9.50"),), 11: ((25, "5.50"), (100, "18.00")), 16: ((50, "25.00"),)},
    "mirror": {5: ((50, "9.00"),), 11: ((25, "9.00"), (50, "17.00"))},
    "clear": {5: ((100, "8.50"),), 11: ((100, "16.50"),), 16: ((50, "23.00"),), 24: ((10, "17.00"),),
              36: ((5, "18.50"),)},
}


def _balloons(is_metric: bool) -> Iterator[StartingRow]:
    for finish, sizes in _SHADES.items():
        for size, colours in sizes.items():
            fill: CellValue = _FILLS[size][1] if is_metric else Decimal(_FILLS[size][0])
            for colour in colours:
                name = f"Round {size} {colour}" if finish == colour else f"Round {size} {finish} {colour}"
                told: StartingRow = {"item": name, "shape": "round", "size": size, "finish": finish, "colour": colour}
                if size in _HOURS_AFLOAT:
                    told = {**told, "hours_afloat": _HOURS_AFLOAT[size]}
                for pack, price in _PACKS[finish][size]:
                    yield {**told, "usual_fill": fill, **_pack(pack, price)}
    yield from _twisters(is_metric)
    yield from _foils(is_metric)


def _pack(count: int, price: str) -> StartingRow:
    source = f"{EXAMPLE}; fill: {MEASURE}"
    return {"pack": count, "pack_price": Decimal(price), "charge_by": "balloon", "source": source}


def _twisters(is_metric: bool) -> Iterator[StartingRow]:
    kinds = ((160, "0.9", "2.3", "8.00"), (260, "1.8", "4.5", "9.00"), (350, "2.7", "7", "11.00"))
    for size, inches, cm, price in kinds:
        for colour in ("white", "black", "gold", "pink", "blue", "sage"):
            told: StartingRow = {"item": f"Twister {size} {colour}", "shape": "twister", "size": size}
            fill = Decimal(cm if is_metric else inches)
            yield {**told, "finish": "matt", "colour": colour, "usual_fill": fill, **_pack(100, price)}


_FOIL_LITRES: Mapping[str, int] = {"star": 13, "heart": 15, "circle": 15}
"""Gas of an 18 in foil; common practice, no source."""


def _foils(is_metric: bool) -> Iterator[StartingRow]:
    fill: CellValue = 40 if is_metric else 16
    for form, price in (("star", "6.00"), ("heart", "6.00"), ("circle", "6.50")):
        for colour in ("gold", "silver", "rose"):
            told: StartingRow = {"item": f"Foil {form} {colour}", "shape": "foil", "size": 18, "finish": "mirror"}
            yield {**told, "colour": colour, "usual_fill": fill, "litres": _FOIL_LITRES[form],
                   "hours_afloat": _FOIL_HOURS_AFLOAT, **_pack(10, price)}


def _hardware(is_metric: bool) -> Iterator[StartingRow]:
    def told(item: str, part: str, use: str, cost: str, charge: str, **more: CellValue) -> StartingRow:
        return {
            "item": item, "part": part, "use": use, "cost": Decimal(cost), "charge": Decimal(charge), **more,
            "source": EXAMPLE,
        }

    def measure(feet_or_inches: str, cm: str) -> Decimal:
        return Decimal(cm if is_metric else feet_or_inches)

    def mass(pounds: str, kg: str) -> Decimal:
        return Decimal(kg if is_metric else pounds)

    yield told("Base plate steel", "base plate", "hire", "1.50", "6.00", usual=True, owned=12, damage_hold=20,
               diameter=measure("16", "40"), mass=mass("13", "6"))
    yield told("Base plate small", "base plate", "hire", "1.00", "4.00", owned=8, damage_hold=15,
               diameter=measure("10", "25"), mass=mass("6", "2.8"))
    poles = (
        ("4", 120, "0.60", "1.5", "0.7"), ("6", 180, "0.80", "2.2", "1"), ("7", 215, "0.90", "2.6", "1.2"),
        ("8", 245, "1.00", "3", "1.4"), ("10", 305, "1.30", "3.7", "1.7"),
    )
    for feet, cm, cost, pounds, kg in poles:
        name = f"Pole {cm} cm" if is_metric else f"Pole {feet} ft"
        yield told(name, "pole", "hire", cost, "3.00", usual=True, owned=12, damage_hold=10,
                   length=measure(feet, str(cm)), diameter=measure("1", "2.5"), mass=mass(pounds, kg))
    yield told("Topper holder", "topper holder", "hire", "0.30", "1.50", usual=True, owned=12, damage_hold=3)
    yield told("Arch frame 300 cm" if is_metric else "Arch frame 10 ft", "frame", "hire", "6.00", "35.00", owned=2,
               damage_hold=120, length=measure("10", "300"), mass=mass("20", "9"))
    yield told("Round backdrop frame", "frame", "hire", "6.00", "45.00", owned=2, damage_hold=120,
               length=measure("6.5", "200"), mass=mass("18", "8"))
    yield told("Drop net large", "net", "hire", "8.00", "45.00", owned=1, damage_hold=60,
               length=measure("25", "760"), mass=mass("5", "2.3"))
    yield told("Wall frame", "frame", "hire", "9.00", "60.00", owned=1, damage_hold=150,
               length=measure("8", "240"), mass=mass("33", "15"))
    yield told("Water weight", "weight", "hire", "0.50", "4.00", owned=12, damage_hold=8, mass=mass("22", "10"))
    yield told("Balloon weight", "weight", "buy", "0.60", "2.00", usual=True, mass=mass("0.35", "0.16"))
    yield told("Balloon ribbon", "ribbon", "buy", "0.10", "0.30")
    yield told("Balloon line 30 m" if is_metric else "Balloon line 100 ft", "line", "buy", "1.00", "4.00",
               length=measure("100", "3000"))
    yield told("Tassel", "tassel", "buy", "0.90", "3.00", length=measure("1", "30"))
    yield told("Ivy string", "greenery", "buy", "2.40", "7.00", length=measure("6", "180"))
    yield told("Fairy lights", "lights", "hire", "0.80", "6.00", owned=6, damage_hold=8,
               length=measure("10", "300"))
    yield told("Paper fan", "decoration", "buy", "1.20", "3.50")
    yield told("Silk leaf sprig", "decoration", "buy", "0.90", "2.75")
    yield told("Satin ribbon", "decoration", "buy", "0.80", "3.00")


def _labour() -> Iterator[StartingRow]:
    workshop = (
        ("inflate round", 5, 15), ("inflate round", 12, 22), ("inflate round", 17, 45), ("inflate round", 24, 90),
        ("inflate round", 36, 180), ("inflate foil", None, 60), ("inflate twister", None, 12),
        ("tie cluster", None, 20), ("build ring", None, 25), ("wind strand", None, 90), ("attach accent", None, 40),
        ("attach topper", None, 120), ("attach wrap", None, 180), ("set base and pole", None, 240),
        ("load piece", None, 180), ("fit mosaic balloon", None, 8), ("fill net", None, 3), ("stuff balloon", None, 40),
        ("minute of twisting", None, 60), ("inflate round with helium", 12, 25), ("inflate round with helium", 17, 50),
        ("inflate round with helium", 24, 100), ("inflate round with helium", 36, 200),
        ("inflate foil with helium", None, 45), ("tie on line", None, 12), ("tie ribbon", None, 20),
    )
    venue = (
        ("set weight", None, 60), ("unload piece", None, 180),
        ("install piece", None, 600), ("strike piece", None, 300),
    )
    for where, rates in (("workshop", workshop), ("venue", venue)):
        for activity, size, seconds in rates:
            limit: dict[str, CellValue] = {} if size is None else {"up_to_size": size}
            yield {"activity": activity, **limit, "seconds": seconds, "where": where, "source": MEASURE}


def _rates() -> tuple[StartingRow, ...]:
    agree = "common practice, agree your own"
    return (
        {"rate": "Night", "factor": Decimal("1.5"), "from": time(22), "until": time(6), "source": agree},
        {"rate": "Sunday", "factor": Decimal("1.5"), "days": "Sunday", "source": agree},
    )


def _delivery(is_metric: bool) -> tuple[StartingRow, ...]:
    near, middle, far = (20, 40, 80) if is_metric else (10, 25, 50)
    return (
        {"up_to": near, "charge": 0, "cost": 8},
        {"up_to": middle, "charge": 45, "cost": 22},
        {"up_to": far, "charge": 90, "cost": 48},
        {"charge": 90, "cost": 48, "charge_per_further": 1 if is_metric else 2,
         "cost_per_further": Decimal("0.6") if is_metric else Decimal("0.9")},
    )


def _taxes(is_metric: bool) -> tuple[StartingRow, ...]:
    everything = "goods, hire, labour, delivery"
    if is_metric:
        return ({"code": "VAT", "name": "VAT (example rate)", "rate": Decimal("0.2"), "applies_to": everything},)
    state, city = "State sales tax (example rate)", "City sales tax (example rate)"
    return (
        {"code": "STATE", "name": state, "rate": Decimal("0.06"), "applies_to": everything},
        {"code": "CITY", "name": city, "rate": Decimal("0.0125"), "applies_to": "goods, hire"},
    )


def _builds(is_metric: bool) -> tuple[StartingRow, ...]:
    length = "metre" if is_metric else "foot"
    twelve, four = (15, 5) if is_metric else (5, 2)
    return (
        {"build": "Gift corner", "what": "balloon", "size": 11, "colour_place": 1, "amount": 18, "per": "piece"},
        {"build": "Gift corner", "what": "balloon", "size": 5, "colour_place": 2, "amount": 24, "per": "piece"},
        {"build": "Gift corner", "what": "balloon", "item": "Foil star gold", "amount": 2, "per": "piece"},
        {"build": "Gift corner", "what": "hardware", "item": "Paper fan", "amount": 3, "per": "piece"},
        {"build": "Gift corner", "what": "work", "item": "attach accent", "amount": 5, "per": "piece"},
        {"build": "Rail trim", "what": "balloon", "size": 11, "colour_place": 1, "amount": twelve, "per": length},
        {"build": "Rail trim", "what": "balloon", "size": 5, "colour_place": 2, "amount": four, "per": length},
        {"build": "Rail trim", "what": "work", "item": "tie cluster", "amount": 4 if is_metric else 1, "per": length},
    )
