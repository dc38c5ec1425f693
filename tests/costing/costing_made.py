"""Price books, pieces with plans, and jobs, made by hand for the tests of costing. All data invented."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

from quoting.domain.cells import Row, Value
from quoting.domain.jobs import Adjustment, Job, Piece
from quoting.domain.money import Currency, Rounding
from quoting.domain.places import Place
from quoting.domain.plans import HireNeed, Part, Plan, Task, Working
from quoting.domain.prices import (
    ActivityRate,
    Balloon,
    BreakagePolicy,
    ChargeBy,
    DeliveryBand,
    Hardware,
    Pack,
    PriceBook,
    Shape,
    Shop,
    TaxCategory,
    TaxRate,
    TaxRounding,
)

D = Decimal

JOBS, PIECES, PRICES = (Place(workbook="jobs.xlsx", sheet=name, row=2) for name in ("Jobs", "Pieces", "Balloons"))
G, H, L, T = TaxCategory.GOODS, TaxCategory.HIRE, TaxCategory.LABOUR, TaxCategory.DELIVERY
EVERYTHING = (G, H, L, T)

SHOP = Shop(
    place=PRICES,
    name="Willowmere Balloons",
    contact="",
    address="",
    email="",
    phone="",
    website="",
    tax_number="",
    currency=Currency(code="USD"),
    length_unit="in",
    distance_unit="mi",
    paper="Letter",
    quote_prefix="Q-",
    prices_include_tax=False,
    tax_rounding=TaxRounding.PER_TAX,
    rounding=Rounding.HALF_UP,
    cash_rounding=D(0),
    markup=D("1.5"),
    workshop_cost=D(18),
    workshop_charge=D(36),
    venue_cost=D(20),
    venue_charge=D(48),
    minimum_order=D(0),
    floor_margin=D("0.3"),
    breakage_policy=BreakagePolicy.SERVICE_LEVEL,
    service_level=D("0.95"),
    flat_share=D("0.05"),
    breakage_chance=D("0.03"),
    tightness=D("0.93"),
    twister_fill_share=D("0.85"),
    twister_stretch=D("1.1"),
    deposit=D("0.5"),
    deposit_days=7,
    balance_days=7,
    valid_days=30,
)


def pack(count, price, start=None, end=None):
    return Pack(count=count, price=D(price), supplier="wholesale", price_from=start, price_until=end, place=PRICES)


USUAL_PACKS = (pack(50, "6.00"), pack(100, "11.00"))


def balloon(item, packs=USUAL_PACKS, **changes):
    plain = Balloon(
        item=item,
        shape=Shape.ROUND,
        size=11,
        finish="matt",
        colour=item.split()[-1],
        usual_fill_cm=D("24.13"),
        packs=tuple(packs),
        sell_each=None,
        breakage=None,
        on_hand=0,
        charge_by=ChargeBy.BALLOON,
        place=PRICES,
    )
    return replace(plain, **changes)


def hardware(item, part="base plate", **changes):
    plain = Hardware(
        item=item,
        part=part,
        is_usual=True,
        is_hire=False,
        cost=D("4.00"),
        charge=None,
        owned=None,
        length_cm=None,
        diameter_cm=None,
        mass_kg=None,
        damage_hold=D(0),
        price_from=None,
        price_until=None,
        place=PRICES,
    )
    return replace(plain, **changes)


def rate(activity, seconds, up_to=None, venue=False):
    return ActivityRate(activity=activity, up_to_size=up_to, seconds=D(seconds), is_at_venue=venue, place=PRICES)


def band(up_to_mi, charge, cost, further=0, *, cost_further=0):
    km = None if up_to_mi is None else D(up_to_mi) * D("1.609344")
    return DeliveryBand(
        up_to_km=km,
        charge=D(charge),
        cost=D(cost),
        charge_per_further=D(further),
        cost_per_further=D(cost_further),
        place=PRICES,
    )


def tax(code, percent, applies_to=EVERYTHING, on_top_of=(), *, start=None, end=None):
    return TaxRate(
        code=code,
        name=f"{code} tax",
        rate=D(percent) / 100,
        applies_to=applies_to,
        on_top_of=on_top_of,
        valid_from=start,
        valid_until=end,
        place=PRICES,
    )


BALLOONS = (
    balloon("Round 11 ivory"),
    balloon("Round 11 gold", sell_each=D("0.45"), breakage=D("0.05")),
    balloon("Round 5 coral", (pack(12, "2.00"), pack(25, "4.00"), pack(50, "8.50")), size=5, charge_by=ChargeBy.PACK),
    balloon("Foil star silver", (pack(1, "1.35"), pack(10, "11.90")), shape=Shape.FOIL, size=18, breakage=D("0.01")),
)
HARDWARE = (
    hardware("Base plate", charge=D("9.50")),
    hardware("Steel pole", "pole", cost=D("3.35")),
    hardware("Arch frame", "frame", is_hire=True, cost=D("6.00"), charge=D("45.00"), owned=2, damage_hold=D(120)),
    hardware("Plinth", "decoration", is_hire=True, cost=D("2.45"), owned=4, damage_hold=D("37.50")),
)
LABOUR = (
    rate("inflate round", 15, 5),
    rate("inflate round", 22, 12),
    rate("inflate round", 45, 17),
    rate("inflate foil", 60),
    rate("tie cluster", 20),
    rate("build ring", 35),
    rate("install piece", 900, venue=True),
    rate("strike piece", "412.5", venue=True),
    rate("load piece", 120),
)
DELIVERY = (band(10, 0, 6), band(30, 25, 15), band(None, 25, 15, "1.75", cost_further="0.55"))
TAXES = (tax("ST", "6.25"), tax("CT", "1.5", (G, H)))
WORDING = {"delivery_line": "Delivery and collection", "minimum_order_line": "Small order charge"}


def prices(shop=None, **changes):
    made = PriceBook(
        shop=replace(SHOP, **(shop or {})),
        balloons=BALLOONS,
        hardware=HARDWARE,
        labour=LABOUR,
        delivery=DELIVERY,
        taxes=TAXES,
        wording=WORDING,
        builds={},
    )
    return replace(made, **changes)


def row(place, columns, **values):
    names = {key: number for number, key in enumerate(columns, 1)}
    return Row(
        place=place,
        columns=names,
        values={k: Value(value=v, place=place.at(names[k]), seen=str(v)) for k, v in values.items()},
    )


PIECE_COLUMNS = (
    "job",
    "piece",
    "form",
    "quantity",
    "colours",
    "topper",
    "accents",
    "base",
    "pole",
    "frame",
    "item",
    "build",
)
JOB_COLUMNS = ("job", "client", "distance", "event_date")


def piece(label="A", quantity=1, price=None, **fields):
    place = Place(workbook="jobs.xlsx", sheet="Pieces", row=2 + len(fields) + (ord(label[0]) if label else 0))
    cells = {"job": "0412", "piece": label, "form": "ring column", "colours": ("ivory",), **fields}
    return Piece(
        job="0412",
        label=label,
        form="ring column",
        title=fields.pop("title", ""),
        quantity=quantity,
        price=None if price is None else D(price),
        client_notes="",
        shop_notes="",
        row=row(place, PIECE_COLUMNS, **cells),
    )


def plan(parts=(), tasks=(), hire=(), **changes):
    """A plan whose workings are givens: part, task and hire counts as they stand."""
    parts = tuple(Part(item=i, count=c, role="ring", fill_cm=24.13 if "Round" in i else None) for i, c in parts)
    tasks = tuple(Task(activity=t[0], quantity=D(t[1]), size=t[2] if len(t) > 2 else None) for t in tasks)
    hire = tuple(HireNeed(item=i, count=c) for i, c in hire)
    steps = [
        Working(key=f"{kind} {n}", label=f"{kind} {n}", value=value)
        for kind, values in (
            ("part", [p.count for p in parts]),
            ("task", [t.quantity for t in tasks]),
            ("hire", [h.count for h in hire]),
        )
        for n, value in enumerate(values, 1)
    ]
    made = Plan(
        form="ring column",
        parts=parts,
        tasks=tasks,
        hire=hire,
        outline=None,
        positions=(),
        build_order=(),
        workings=tuple(steps),
        description=("9 rings of 4",),
    )
    return replace(made, **changes)


def adjustment(name="Thank you", *, percent=None, amount=None, is_discount=True, piece="", **changes):
    made = Adjustment(
        name=name,
        is_discount=is_discount,
        job="",
        piece=piece,
        percent=None if percent is None else D(percent),
        amount=None if amount is None else D(amount),
        notice_days=None,
        season_from=None,
        season_until=None,
        place=Place(workbook="jobs.xlsx", sheet="Adjustments", row=5),
    )
    return replace(made, **changes)


def job(pieces=(), adjustments=(), **changes):
    made = Job(
        code="0412",
        client="Fernhill Library",
        contact="",
        email="",
        phone="",
        event="Summer fair",
        venue="Main hall",
        address="",
        event_date=date(2031, 6, 14),
        event_time=None,
        install_date=date(2031, 6, 14),
        install_time=None,
        strike_date=None,
        strike_time=None,
        is_outdoors=False,
        is_collected=False,
        distance_km=D("12") * D("1.609344"),
        quote_date=date(2031, 5, 14),
        revision=1,
        exempt_reason="",
        deposit=None,
        client_notes="",
        shop_notes="",
        pieces=tuple(pieces),
        adjustments=tuple(adjustments),
        row=row(JOBS, JOB_COLUMNS, job="0412", client="Fernhill Library"),
    )
    return replace(made, **changes)


def column(ivory=28, gold=8, **extra):
    """A plan of a small column: two colours, a base plate, work in the workshop and at the venue."""
    return plan(
        [("Round 11 ivory", ivory), ("Round 11 gold", gold), ("Base plate", 1), ("Steel pole", 1)],
        [
            ("inflate round", ivory + gold, 11),
            ("tie cluster", 9),
            ("build ring", 9),
            ("install piece", 1),
            ("strike piece", 1),
        ],
        **extra,
    )


def arch():
    """A plan of an arch on a hired frame, with a topper and small fillers sold by the pack."""
    return plan(
        [("Round 11 gold", 60), ("Round 11 ivory", 55), ("Round 5 coral", 37), ("Foil star silver", 1)],
        [
            ("inflate round", 115, 11),
            ("inflate round", 37, 5),
            ("inflate foil", 1),
            ("build ring", 29),
            ("install piece", 1),
        ],
        [("Arch frame", 1), ("Plinth", 2)],
    )


def usual():
    """Pieces and plans of an ordinary job."""
    hired = plan(hire=[("Plinth", 1)], tasks=[("load piece", 1)])
    service = plan(tasks=[("install piece", 2)], is_labour_only=True)
    return [
        (piece("A", 2), column()),
        (piece("B"), arch()),
        (piece("C", 3), hired),
        (piece("D", price="120.00"), service),
    ]


def decimal_places(amount: Decimal) -> int:
    return -int(amount.as_tuple().exponent)
