"""Workbooks in Office Open XML (.xlsx, .xlsm; ECMA-376, transitional and strict), read part by part.

One pass gives each cell's value, format, whether it holds a formula and whether that was
ever calculated; a library that hides the last from us would make a formula never calculated
look blank. Macros, charts and links to other files are never opened.
"""

from __future__ import annotations

import posixpath
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from xml.etree.ElementTree import Element

from openpyxl.styles.numbers import BUILTIN_FORMATS, is_date_format, is_timedelta_format
from openpyxl.utils.datetime import CALENDAR_MAC_1904, CALENDAR_WINDOWS_1900, from_excel

from quoting.domain.cells import Cell, Sheet
from quoting.domain.places import Place
from quoting.reading.archives import Archive, UnreadableError
from quoting.reading.cell_grids import CellGrid, Merge, number_of
from quoting.reading.dates import NO_DATE
from quoting.reading.texts import without_escapes
from quoting.reading.xml_parts import attribute, elements, events, local


@dataclass(frozen=True, slots=True, kw_only=True)
class _Shared:
    """What all sheets of a workbook share."""

    texts: Sequence[str]
    formats: Sequence[str]
    epoch: datetime


def read_xlsx(name: str, archive: Archive) -> tuple[Sheet, ...]:
    """The worksheets of a workbook, in the order of their tabs, hidden ones too; chart sheets are left out.

    `name` is the workbook's file name, for places. UnreadableError where the file is damaged.
    """
    book = _target(archive, "", "/officeDocument") or "xl/workbook.xml"
    if book.casefold().endswith(".bin"):
        raise UnreadableError("P104", "a binary workbook (.xlsb)")
    shared = _Shared(texts=_texts(archive, book), formats=_formats(archive, book), epoch=_epoch(archive, book))
    parts = _relations(archive, book)
    sheets = []
    for element in elements(archive.part(book), "sheet"):
        kind, part = parts.get(_relation_id(element), ("", ""))
        if kind.endswith("/worksheet"):
            place = Place(workbook=name, sheet=attribute(element, "name"))
            sheets.append(_sheet(place, archive.part(part), shared))
    return tuple(sheets)


def _relation_id(element: Element) -> str:
    return next((value for key, value in element.items() if local(key) == "id"), "")


def _relations(archive: Archive, source: str) -> dict[str, tuple[str, str]]:
    """Relations of a part: id → (type, name of the part it leads to)."""
    folder, name = posixpath.split(source)
    part = posixpath.join(folder, "_rels", f"{name}.rels")
    if not archive.has(part):
        return {}
    found = {}
    for element in elements(archive.part(part), "Relationship"):
        target = attribute(element, "Target")
        path = target.lstrip("/") if target.startswith("/") else posixpath.normpath(posixpath.join(folder, target))
        found[attribute(element, "Id")] = (attribute(element, "Type"), path)
    return found


def _target(archive: Archive, source: str, kind: str) -> str:
    """The part that a relation of a kind leads to, or ""."""
    return next((path for found, path in _relations(archive, source).values() if found.endswith(kind)), "")


def _epoch(archive: Archive, book: str) -> datetime:
    for element in elements(archive.part(book), "workbookPr"):
        if attribute(element, "date1904") in ("1", "true"):
            return CALENDAR_MAC_1904
    return CALENDAR_WINDOWS_1900


def _texts(archive: Archive, book: str) -> list[str]:
    """The texts that cells point to by number."""
    part = _target(archive, book, "/sharedStrings")
    if not part or not archive.has(part):
        return []
    texts = []
    for element in elements(archive.part(part), "si"):
        texts.append(_rich_text(element))
        element.clear()
    return texts


def _rich_text(element: Element) -> str:
    """The text of a string item: its runs put together, without the phonetic guides of East Asian text."""
    parts = []
    for child in element:
        if local(child.tag) == "t":
            parts.append(child.text or "")
        elif local(child.tag) == "r":
            parts += [run.text or "" for run in child if local(run.tag) == "t"]
    return without_escapes("".join(parts))


def _formats(archive: Archive, book: str) -> list[str]:
    """The number format of each cell style, by the style's number."""
    part = _target(archive, book, "/styles")
    if not part or not archive.has(part):
        return []
    codes: dict[int, str] = dict(BUILTIN_FORMATS)
    formats: list[str] = []
    for element in elements(archive.part(part), "numFmt", "cellXfs"):
        if local(element.tag) == "numFmt":
            codes[_whole(attribute(element, "numFmtId"))] = attribute(element, "formatCode")
        else:
            formats = [codes.get(_whole(attribute(xf, "numFmtId")), "General") for xf in element]
    return formats


def _whole(text: str, default: int = 0) -> int:
    return int(text) if text.isdecimal() and len(text) < 10 else default


def _sheet(place: Place, data: bytes, shared: _Shared) -> Sheet:
    grid = CellGrid(place)
    row = 0
    rows: Element | None = None
    for event, name, element in events(data):
        if event == "start":
            rows = element if name == "sheetData" else rows
        elif name == "row" and rows is not None:
            row = _whole(attribute(element, "r"), row + 1)
            _add_row(grid, row, element, shared)
            rows.clear()
        elif name == "mergeCell":
            grid.merge(_merge(attribute(element, "ref")))
    return grid.sheet()


def _add_row(grid: CellGrid, row: int, element: Element, shared: _Shared) -> None:
    column = 0
    for child in element:
        if local(child.tag) != "c":
            continue
        address = attribute(child, "r")
        cell_row, column = _address(address) if address else (row, column + 1)
        grid.add(_cell(grid.place(cell_row, column), child, shared))


def _address(text: str) -> tuple[int, int]:
    """Row and column of "G7"; UnreadableError where it is no address."""
    letters = text.rstrip("0123456789").replace("$", "").upper()
    row = _whole(text[len(text.rstrip("0123456789")) :])
    if not row or not (letters.isascii() and letters.isalpha() and len(letters) <= 3):
        raise UnreadableError("P101", "a cell in it has no proper address")
    column = 0
    for letter in letters:
        column = column * 26 + ord(letter) - 64
    return row, column


def _merge(ref: str) -> Merge:
    first, _, last = ref.partition(":")
    first_row, first_column = _address(first)
    last_row, last_column = _address(last or first)
    return Merge(first_row=first_row, first_column=first_column, last_row=last_row, last_column=last_column)


def _cell(place: Place, element: Element, shared: _Shared) -> Cell:
    children = {local(child.tag): child for child in element}
    kind = attribute(element, "t", "n")
    style = _whole(attribute(element, "s"))
    number_format = shared.formats[style] if style < len(shared.formats) else "General"
    has_formula = "f" in children
    stored = children["v"].text if "v" in children else None
    if not stored and kind != "inlineStr":
        # A formula that came to an empty text is marked as text ("str"); one that was never calculated is not.
        never = has_formula and not (kind == "str" and "v" in children)
        return Cell(place=place, number_format=number_format, has_formula=has_formula, is_uncalculated=never)
    value = _rich_text(children["is"]) if "is" in children else _stored_value(kind, stored or "", number_format, shared)
    is_error = kind == "e" or value is _WILD_DATE
    return Cell(
        place=place, value=NO_DATE if value is _WILD_DATE else value, number_format=number_format,
        has_formula=has_formula, is_error=is_error,
    )


_WILD_DATE = object()


def _stored_value(kind: str, stored: str, number_format: str, shared: _Shared) -> object:
    """The value a cell's stored text stands for, by the cell's type (ECMA-376 part 1, 18.18.11)."""
    if kind == "s":
        index = _whole(stored.strip(), -1)
        if not 0 <= index < len(shared.texts):
            raise UnreadableError("P101", "a cell in it points to a text that is not there")
        return shared.texts[index] or None
    if kind == "b":
        return stored.strip() in ("1", "true")
    if kind in ("str", "inlineStr", "e"):
        return without_escapes(stored)
    if kind == "d":
        return datetime.fromisoformat(stored.strip().removesuffix("Z"))
    return _number_or_date(stored, number_format, shared.epoch)


def _number_or_date(stored: str, number_format: str, epoch: datetime) -> object:
    try:
        number = number_of(stored)
    except ValueError as error:
        raise UnreadableError("P101", "a cell in it says it is a number and is none") from error
    if not is_date_format(number_format):
        return number
    try:
        found = from_excel(float(number), epoch, timedelta=is_timedelta_format(number_format))
    except (ValueError, OverflowError):
        return _WILD_DATE
    if isinstance(found, timedelta):
        return clock_time(found)
    wild = number < 0 or not isinstance(found, (date, datetime, time))
    return _WILD_DATE if wild else found


def clock_time(length: timedelta) -> time | str:
    """A length of time as the time of day it stands for, or as text where it is a day or more.

    Office software stores a time of day as the share of a day gone by.
    """
    if timedelta(0) <= length < timedelta(days=1):
        return (datetime.min + length).time()
    hours, seconds = divmod(round(length.total_seconds()), 3600)
    return f"{hours}:{seconds // 60:02}:{seconds % 60:02}"
