"""Damages to single cells of a good book, and what must come of each.

Written from the kinds of columns alone, not from the code that reads them: a damage
is `broken` (nobody could take it for a value of its column, so it must be reported at
that very cell), `same` (another way to write what stands there, so nothing may change)
or `typo` (one letter of a name lost: reported at that cell, or nothing changes; of the
few columns in `NAMING` see there).
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import datetime
from decimal import Decimal

from quoting.domain.cells import Book, Cell, Kind, Table
from quoting.domain.layouts import Column, SheetLayout
from quoting.domain.places import Place

BROKEN, SAME, TYPO = "broken", "same", "typo"

_A_DATE = datetime(2031, 3, 4)
_TEXT_NO_NUMBER = ("lots", "?", "n/a", "8-9", "about 8", "1.2.3", "12 4 9", "8ish", "two or three", "-", "x")
_BROKEN: dict[Kind, tuple[object, ...]] = {
    Kind.TEXT: (_A_DATE,),
    Kind.WHOLE: (*_TEXT_NO_NUMBER, Decimal("1.5"), -2, True, _A_DATE, "1.5", 10**17),
    Kind.NUMBER: (*_TEXT_NO_NUMBER, -1, True, _A_DATE, "1,200", "1.200", "a minute"),
    Kind.MONEY: (*_TEXT_NO_NUMBER, -4, True, _A_DATE, "1,200", "1.200", "free", "CAD 12", "¥12"),
    Kind.PERCENT: (*_TEXT_NO_NUMBER, Decimal("0.5"), Decimal("-0.1"), True, _A_DATE, "half", "5-10 %", "-5 %"),
    Kind.LENGTH: ("8 ft-ish", "8-9 ft", "about 8 ft", "9 lb", "tall", "8 x 3 ft", 0, -3, True, _A_DATE, "8 ft 3 cm 2"),
    Kind.DISTANCE: ("about 5 mi", "5-6 mi", "5 lb", "far", -2, True, _A_DATE, "5 hours"),
    Kind.MASS: ("heavy", "5 ft", -1, "5-6 lb", True, _A_DATE),
    Kind.DATE: ("05/06/2031", "31 February 2031", "12/5/31", "soon", "June 2031", 47000, True, "2031-13-01", "later"),
    Kind.TIME: ("25:00", "in the evening", "7ish", "14:75", True, "13 pm"),
    Kind.YES_NO: ("maybe", 7, _A_DATE, "yes and no", "0.5"),
    Kind.TEXTS: (_A_DATE, True),
    Kind.LENGTHS: ("10 in, about 8 in", "ten, nine", "10 in, 8 lb", "10 in, -8 in", _A_DATE, True, "10-8-6"),
    Kind.WHOLES: ("3, x", "3.5, 2", "3, -2", _A_DATE, "3, 0"),
    Kind.PERCENTS: ("60 %, lots", "60 %, -10 %", _A_DATE, "about half, the rest"),
    Kind.AMOUNTS: ("3 x Foil moonbeam", "0 x Paper fan", "-2 x Paper fan", "1.5 x Paper fan", _A_DATE),
}
"""Values that no column of a kind can hold. A time or date is stored by office software as a datetime."""

REFERENCES = {
    "pieces": ("job", "colours", "topper", "wrap", "base", "pole", "frame", "build", "item"),
    "builds": ("item",),
    "adjustments": ("job", "piece"),
    "tax": ("on_top_of", "applies_to"),
}
"""Columns that name something of another sheet: a name that isn't there is broken."""


MEANT = {
    ("jobs", "celsius"): -1, ("shop", "room_celsius"): -1, ("jobs", "altitude"): 0, ("shop", "altitude"): 0,
    ("shop", "ceiling_clearance"): 0,
}
"""What is broken in other columns of their kind, but may well be meant in these."""

NAMING = (
    ("balloons", "item"), ("balloons", "finish"), ("balloons", "colour"), ("hardware", "item"), ("builds", "build"),
)
"""Columns by which other cells call for something: one letter less is another name, as good as any. Nothing is then
wrong in the cell itself, and a job held for it may be told at the cell that still calls for the old name."""

OWN_NAMES = ("labour", "activity")
"""A list that owners may add to."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Damage:
    """One cell changed. `cell` None: blanked."""

    what: str
    sheet_key: str
    key: str
    place: Place
    was: object
    cell: Cell | None

    def __str__(self) -> str:
        now = "blank" if self.cell is None else "uncalculated" if self.cell.is_uncalculated else repr(self.cell.value)
        shown_as = self.cell.number_format if self.cell else ""
        return f"{self.what} {self.place} ({self.key}): {self.was!r} → {now} {shown_as}"


def damaged(book: Book, damage: Damage) -> Book:
    """The same book with one cell changed."""
    row, column = damage.place.row, damage.place.column
    sheets = []
    for sheet in book.sheets:
        if sheet.name == damage.place.sheet:
            cells = {k: c for k, c in sheet.rows[row].items() if k != column}
            if damage.cell is not None:
                cells[column] = damage.cell
            sheet = replace(sheet, rows={**sheet.rows, row: dict(sorted(cells.items()))})  # noqa: PLW2901
        sheets.append(sheet)
    return replace(book, sheets=tuple(sheets))


def filled_cells(tables: Iterable[Table], layouts: Iterable[SheetLayout]) -> list[tuple[str, Column, Place, object]]:
    """Every filled cell of the known columns: sheet key, column, place, typed value."""
    by_key = {layout.key: layout for layout in layouts}
    return [
        (table.sheet_key, by_key[table.sheet_key].column(key), value.place, value.value)
        for table in tables
        for row in table.rows
        for key, value in row.values.items()
    ]


def choose(
    book: Book, cells: list[tuple[str, Column, Place, object]], count: int, seed: int, currency: str
) -> list[Damage]:
    """`count` damages, spread evenly over sheets and columns, then over rows and kinds of damage."""
    dice = random.Random(seed)
    columns: dict[tuple[str, str], list[tuple[str, Column, Place, object]]] = {}
    for entry in cells:
        columns.setdefault((entry[0], entry[1].key), []).append(entry)
    chosen: list[Damage] = []
    names = sorted(columns)
    while len(chosen) < count:
        # Pieces and jobs are typed anew every evening, price sheets once a season.
        sheet_key, key = dice.choice(names)
        entry = dice.choice(columns[sheet_key, key])
        options = list(possible(book, *entry, currency=currency))
        damage = dice.choice(options)
        if damage not in chosen:
            chosen.append(damage)
    return chosen


def possible(
    book: Book, sheet_key: str, column: Column, place: Place, value: object, *, currency: str
) -> Iterator[Damage]:
    """Every damage this file knows for one filled cell."""
    cell = next(s for s in book.sheets if s.name == place.sheet).rows[place.row][place.column]

    def damage(what: str, changed: Cell | None) -> Damage:
        return Damage(what=what, sheet_key=sheet_key, key=column.key, place=place, was=cell.value, cell=changed)

    yield damage(BROKEN, Cell(place=place, value="#REF!", is_error=True, has_formula=True))
    yield damage(BROKEN, Cell(place=place, has_formula=True, is_uncalculated=True))
    if column.required:
        yield damage(BROKEN, None)
    for broken in _broken_values(sheet_key, column):
        yield damage(BROKEN, Cell(place=place, value=broken, number_format=_format_of(broken)))
    yield damage(SAME, replace(cell, has_formula=True))
    for text in _same_texts(column, value, currency):
        yield damage(SAME, Cell(place=place, value=text, number_format="@"))
    if column.kind is Kind.TEXT and isinstance(cell.value, str) and len(cell.value) > 4:
        for cut in (len(cell.value) // 2, len(cell.value) - 2):
            yield damage(TYPO, replace(cell, value=cell.value[:cut] + cell.value[cut + 1 :]))


def _broken_values(sheet_key: str, column: Column) -> Iterator[object]:
    meant = MEANT.get((sheet_key, column.key))
    yield from (value for value in _BROKEN[column.kind] if meant is None or value is True or value != meant)
    is_reference = column.key in REFERENCES.get(sheet_key, ())
    if column.kind is Kind.TEXT and (column.choices or is_reference) and (sheet_key, column.key) != OWN_NAMES:
        yield "Moonbeam"
    if column.kind is Kind.TEXTS and is_reference:
        yield "moonbeam"


def _format_of(value: object) -> str:
    if isinstance(value, datetime):
        return "yyyy-mm-dd"
    return "0%" if value == Decimal("-0.1") else "General"


def _same_texts(column: Column, value: object, currency: str) -> list[str]:
    """Other ways to type a value: units named, spaces, other words for a date."""
    if column.kind is Kind.TEXT and (column.choices or column.choices_from):
        return [f"  {value}\u00a0", str(value).upper()]
    if column.kind is Kind.MONEY:
        return [f"{currency} {value}", f"{value:.2f}" if value == round(value, 2) else f"{value}"]
    written = _WRITTEN.get(column.kind)
    return written(value) if written else []


_WRITTEN: dict[Kind, Callable[..., list[str]]] = {
    Kind.TEXT: lambda text: [f"  {text}\u00a0"],
    Kind.WHOLE: lambda number: [f" {number} "],
    Kind.PERCENT: lambda share: [f"{share * 100:f} %", f"{share * 100:f}%"],
    Kind.LENGTH: lambda cm: [f"{cm:f} cm", f"{cm / 100:f} m", f"{cm * 10:f} mm"],
    Kind.DISTANCE: lambda km: [f"{km:f} km"],
    Kind.MASS: lambda kg: [f"{kg:f} kg"],
    Kind.DATE: lambda day: [day.isoformat(), f"{day.day} {day:%B %Y}", f"{day:%b} {day.day}, {day.year}"],
    Kind.TIME: lambda hour: [f"{hour:%H:%M}", f"{hour:%I:%M %p}".lower()],
    Kind.YES_NO: lambda answer: ["Yes" if answer else "NO"],
    Kind.TEXTS: lambda names: [" ; ".join(names), "\n".join(names)],
    Kind.LENGTHS: lambda lengths: ["; ".join(f"{cm:f} cm" for cm in lengths)],
    Kind.WHOLES: lambda numbers: [";".join(str(number) for number in numbers)],
    Kind.PERCENTS: lambda shares: [" ; ".join(f"{share * 100:f}%" for share in shares)],
    Kind.AMOUNTS: lambda amounts: ["; ".join(f"{count} x {name}" for count, name in amounts)],
}
"""Typed value → the same in other words, exactly."""
