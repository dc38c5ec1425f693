"""One workbook file read into cells; a bad file is a problem, never an exception."""

from __future__ import annotations

import hashlib
import stat
from collections.abc import Callable
from pathlib import Path

from quoting.domain.cells import Book, Sheet
from quoting.domain.codes import problem
from quoting.domain.places import Place
from quoting.domain.problems import Outcome, Problem
from quoting.reading.archives import Archive, UnreadableError
from quoting.reading.ods_books import read_ods
from quoting.reading.texts import folded
from quoting.reading.xlsx_books import read_xlsx

MOST_FILE_BYTES = 64 * 1024 * 1024
_OLE = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"


def read_book(path: Path) -> Outcome[Book | None]:
    """The cells of a workbook (.xlsx, .xlsm, .ods), judged by its content, not by its ending.

    Formulas give the values that the file carries; macros, charts and links are never
    opened. The value is None, with a P1 problem at the workbook, where the file is no
    regular file, no workbook, locked, damaged, or unpacks to too much. Of two sheets whose
    names can't be told apart neither is read, and each is named.
    """
    place = Place(workbook=path.name)
    try:
        data = _bytes(path)
        sheets = _reader(data)(path.name, Archive(data))
    except UnreadableError as error:
        return Outcome(value=None, problems=(problem(error.code, place, reason=error.reason),))
    except OSError as error:
        reason = error.strerror or "it can't be opened"
        return Outcome(value=None, problems=(problem("P101", place, reason=reason.lower()),))
    except Exception as error:  # noqa: BLE001  whatever a file nobody thought of makes our reader do, the evening goes on
        return Outcome(value=None, problems=(problem("P101", place, reason=f"damaged: {type(error).__name__}"),))
    kept, problems = _told_apart(sheets, path.name)
    return Outcome(value=Book(name=path.name, digest=hashlib.sha256(data).hexdigest(), sheets=kept), problems=problems)


def _bytes(path: Path) -> bytes:
    """The file's bytes. A pipe or device is refused before it is opened: reading one may never end."""
    about = path.lstat()
    if stat.S_ISLNK(about.st_mode):
        about = path.stat()
    if not stat.S_ISREG(about.st_mode):
        raise UnreadableError("P102")
    if about.st_size > MOST_FILE_BYTES:
        raise UnreadableError("P105", f"{about.st_size // 1024 // 1024} MB")
    return path.read_bytes()


def _reader(data: bytes) -> Callable[[str, Archive], tuple[Sheet, ...]]:
    """What reads a file of these bytes; UnreadableError where it is no workbook we know."""
    if not data:
        raise UnreadableError("P104", "an empty file")
    if data.startswith(_OLE):
        if "EncryptedPackage".encode("utf-16-le") in data:
            raise UnreadableError("P103")
        raise UnreadableError("P104", "a workbook of the old kind (.xls)")
    if not data.startswith((b"PK\x03\x04", b"PK\x05\x06")):
        raise UnreadableError("P104", "no workbook")
    archive = Archive(data)
    if archive.has("content.xml"):
        if archive.has("mimetype") and b"spreadsheet" not in archive.part("mimetype"):
            raise UnreadableError("P104", "a document of another kind")
        return read_ods
    if archive.has("[Content_Types].xml") and b"sheet" in archive.part("[Content_Types].xml"):
        return read_xlsx
    raise UnreadableError("P104", "no workbook")


def _told_apart(sheets: tuple[Sheet, ...], workbook: str) -> tuple[tuple[Sheet, ...], tuple[Problem, ...]]:
    names = [folded(sheet.name).casefold() for sheet in sheets]
    problems = tuple(
        problem("P106", Place(workbook=workbook, sheet=sheet.name), seen=sheet.name)
        for sheet, name in zip(sheets, names, strict=True)
        if names.count(name) > 1
    )
    return tuple(sheet for sheet, name in zip(sheets, names, strict=True) if names.count(name) == 1), problems
