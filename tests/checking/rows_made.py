"""Tables made by hand, as reading would give them: typed text in plain Python values, one column per key."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, time
from decimal import Decimal

from quoting.checking.layouts import book_layouts, layout_of
from quoting.domain.cells import Kind, Row, Table, Value
from quoting.domain.places import Place

RUN_DATE = date(2031, 5, 14)
FIRST_ROW = 5
"""The sheet row of a table's first row of values."""

DECIMALS = (Kind.NUMBER, Kind.MONEY, Kind.PERCENT, Kind.LENGTH, Kind.DISTANCE, Kind.MASS)


def typed(value: object, kind: Kind) -> object:
    """A value of a case file with the type that reading gives for the kind."""
    if kind in DECIMALS and isinstance(value, (int, float, str)) and not isinstance(value, bool):
        return Decimal(str(value))
    if kind in (Kind.LENGTHS, Kind.PERCENTS) and isinstance(value, list):
        return tuple(Decimal(str(one)) for one in value)
    if isinstance(value, list):
        return tuple(tuple(one) if isinstance(one, list) else one for one in value)
    if kind is Kind.DATE and isinstance(value, str):
        return date.fromisoformat(value)
    if kind is Kind.TIME and isinstance(value, str):
        return time.fromisoformat(value)
    return value


def table(
    sheet_key: str,
    rows: Sequence[Mapping[str, object]],
    *,
    workbook: str = "book.xlsx",
    misread: Mapping[int, str] | None = None,
) -> Table:
    """A table whose columns stand in the layout's order from column A; `misread` names one key per row index."""
    layout = layout_of(sheet_key)
    sheet = Place(workbook=workbook, sheet=layout.name)
    columns = {column.key: number for number, column in enumerate(layout.columns, 1)}
    made = []
    for index, values in enumerate(rows):
        place = Place(workbook=workbook, sheet=layout.name, row=FIRST_ROW + index)
        cells = {}
        for key, value in values.items():
            where = place.at(columns[key])
            if layout.is_settings:
                where = Place(workbook=workbook, sheet=layout.name, row=3 + columns[key], column=2)
            cells[key] = Value(value=typed(value, layout.column(key).kind), place=where, seen=str(value))
        wrong = frozenset({misread[index]}) if misread and index in misread else frozenset()
        kept = {key: value for key, value in cells.items() if key not in wrong}
        if layout.is_settings:
            made.append(Row(place=sheet, values=kept, columns={}, misread=wrong))
        else:
            made.append(Row(place=place, values=kept, columns=columns, misread=wrong))
    return Table(sheet_key=sheet_key, place=sheet, rows=tuple(made))


def cell(sheet_key: str, key: str, index: int = 0) -> str:
    """The address of a cell of a table made by `table`, with its sheet: "Pieces!C5"."""
    layout = layout_of(sheet_key)
    number = next(n for n, column in enumerate(layout.columns, 1) if column.key == key)
    place = Place(workbook="", sheet=layout.name, row=FIRST_ROW + index, column=number)
    if layout.is_settings:
        place = Place(workbook="", sheet=layout.name, row=3 + number, column=2)
    return f"{place.sheet}!{place.cell}"


def good_book() -> dict[str, list[dict[str, object]]]:
    """A small book without a fault: sheet key → rows, free to be spoiled by a test."""
    return {
        "shop": [{
            "name": "Willow Lane Balloons", "currency": "USD", "layout": 1, "length_unit": "in",
            "distance_unit": "mi", "prices_include_tax": False, "markup": 1.5, "workshop_cost": 18,
            "workshop_charge": 36, "venue_cost": 20,
            "venue_charge": 40,
        }],
        "balloons": [
            _balloon("Round 11 matt white", "white", 100, 14.5),
            _balloon("Round 11 matt white", "white", 25, 4.5),
            {**_balloon("Round 11 pearl gold", "gold", 100, 18), "finish": "pearl"},
            {**_balloon("Foil star gold", "gold", 10, 12), "shape": "foil", "size": 18, "usual_fill": 40},
            {**_balloon("Twister 260 white", "white", 100, 9), "shape": "twister", "size": 260, "usual_fill": 5},
        ],
        "hardware": [
            {"item": "Base plate steel", "part": "base plate", "use": "hire", "usual": True, "cost": 2, "charge": 6},
            {"item": "Pole 7 ft", "part": "pole", "use": "hire", "usual": True, "cost": 1, "length": 213,
             "diameter": 2.5},
            {"item": "Paper fan", "part": "decoration", "use": "buy", "cost": 1.2},
        ],
        "labour": [
            {"activity": name, "seconds": 20, "where": "workshop"}
            for name in layout_of("labour").column("activity").choices
        ],
        "delivery": [
            {"up_to": 16, "charge": 0, "cost": 8},
            {"up_to": 48, "charge": 45, "cost": 22},
            {"charge": 45, "cost": 22, "charge_per_further": 2, "cost_per_further": 0.9},
        ],
        "tax": [
            {"code": "STATE", "name": "State sales tax", "rate": 0.06, "applies_to": ["goods", "hire"]},
            {"code": "CITY", "name": "City tax", "rate": 0.01, "applies_to": ["goods"], "on_top_of": ["STATE"]},
        ],
        "wording": [{"phrase": "quote_title", "text": "Your quote"}],
        "builds": [
            {"build": "Gift corner", "what": "balloon", "size": 11, "colour_place": 1, "amount": 12, "per": "piece"},
            {"build": "Gift corner", "what": "hardware", "item": "Paper fan", "amount": 2, "per": "piece"},
        ],
        "jobs": [
            _job("0412", "Fernhill Library"),
            _job("0413", "Alder Street School"),
        ],
        "pieces": [
            {"job": "0412", "piece": "A", "form": "ring column", "height": 180, "fill": 24,
             "colours": ["white", "gold"], "pattern": "spiral"},
            {"job": "0412", "piece": "B", "form": "own build", "build": "Gift corner", "colours": ["white"]},
            {"job": "0413", "piece": "A", "form": "hire item", "item": "Pole 7 ft", "quantity": 2},
        ],
        "adjustments": [{"name": "Returning client", "kind": "discount", "job": "0412", "percent": 0.1}],
    }


def _balloon(item: str, colour: str, pack: int, price: float) -> dict[str, object]:
    return {
        "item": item, "shape": "round", "size": 11, "finish": "matt", "colour": colour, "usual_fill": 24.13,
        "pack": pack, "pack_price": price,
    }


def _job(code: str, client: str) -> dict[str, object]:
    return {"job": code, "client": client, "event_date": "2031-06-20", "distance": 20}


def tables(book: Mapping[str, Sequence[Mapping[str, object]]], **options: object) -> tuple[Table, ...]:
    """Every sheet of a book as tables, in the order of the tabs."""
    return tuple(table(layout.key, book[layout.key], **options) for layout in book_layouts() if layout.key in book)
