"""The zip file that a workbook is, looked at before anything in it is unpacked."""

from __future__ import annotations

import io
import zipfile

MOST_PARTS = 5_000
"""More parts than any workbook of people has."""
MOST_BYTES = 128 * 1024 * 1024
"""All parts unpacked; a shop's book has one to ten megabytes."""
MOST_RATIO = 250
"""How many times larger a part may get when unpacked; sheets reach about 100 at most."""
SMALL = 4 * 1024 * 1024
"""Parts up to this size are harmless at any ratio."""


class UnreadableError(Exception):
    """Carries why a file can't be read, in words for its owner, as far as `read_book`, which makes it a problem."""

    def __init__(self, code: str, reason: str = "") -> None:
        super().__init__(code, reason)
        self.code = code
        self.reason = reason


class Archive:
    """The parts of a workbook by name. Names compare without regard to case, as office software does."""

    __slots__ = ("_names", "_zip")

    def __init__(self, data: bytes) -> None:
        """Open the bytes of a zip file; UnreadableError where it is damaged, locked, or would unpack to too much."""
        try:
            self._zip = zipfile.ZipFile(io.BytesIO(data))
        except (zipfile.BadZipFile, OSError, ValueError, NotImplementedError) as error:
            raise UnreadableError("P101", "the file is damaged or cut short") from error
        entries = self._zip.infolist()
        if len(entries) > MOST_PARTS:
            raise UnreadableError("P105", f"{len(entries)} parts inside it")
        if sum(entry.file_size for entry in entries) > MOST_BYTES:
            raise UnreadableError("P105", "its contents unpack to more than any shop's book needs")
        for entry in entries:
            _refuse_odd(entry)
        self._names = {entry.filename.casefold(): entry for entry in entries}

    def has(self, name: str) -> bool:
        """True where there is a part of this name."""
        return name.casefold() in self._names

    def part(self, name: str) -> bytes:
        """One part, unpacked; UnreadableError where it is missing or its bytes are damaged."""
        entry = self._names.get(name.casefold())
        if entry is None:
            raise UnreadableError("P101", "a part of it is missing")
        try:
            return self._zip.read(entry)
        except Exception as error:  # zipfile and zlib raise half a dozen kinds for damaged bytes
            raise UnreadableError("P101", "the file is damaged") from error


def _refuse_odd(entry: zipfile.ZipInfo) -> None:
    if entry.flag_bits & 1:
        raise UnreadableError("P103")
    if entry.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
        raise UnreadableError("P101", "it is packed in an unusual way")
    if entry.file_size > SMALL and entry.file_size > MOST_RATIO * max(1, entry.compress_size):
        raise UnreadableError("P105", "a part of it unpacks to hundreds of times its size")
