"""Names of the files of an evening: safe on every system, and none of them twice."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from quoting.domain.orders import SupplierOrder
from quoting.domain.quotes import JobResult, Quote

LONGEST_NAME = 120
"""Bytes of UTF-8 in a name, its ending included: far below every file system's limit, folders included."""

# Device names that Windows keeps for itself, with any ending (from memory of its published list).
_KEPT = frozenset({"con", "prn", "aux", "nul", *(f"{d}{n}" for d in ("com", "lpt") for n in "123456789¹²³")})
_UNSAFE = re.compile(r'[<>:"/\\|?*]')


@dataclass(frozen=True, slots=True, kw_only=True)
class JobFiles:
    """Where one job's papers stand inside the evening's folder, with "/" between folder and name."""

    quote: str
    workshop: str


def safe_name(wanted: str, ending: str = "") -> str:
    """Give a file name as near to `wanted` as every common file system takes it.

    Separators and reserved signs become "-", control and direction characters go,
    spaces shrink to one, dots and spaces at the ends go, a reserved device name gets
    "_" in front, and what is longer than `LONGEST_NAME` bytes is cut between characters.
    The rest of Unicode stays, composed (NFC). "file" where nothing is left.

    >>> safe_name("../etc: Fernhill/Library ", ".xlsx")
    '-etc- Fernhill-Library.xlsx'
    """
    text = unicodedata.normalize("NFC", wanted)
    text = _UNSAFE.sub("-", "".join(" " if c.isspace() else c for c in text))
    text = "".join(c for c in text if _is_kept(c))
    text = _cut(" ".join(text.split()), LONGEST_NAME - len(ending.encode())).strip(" .")
    if text.partition(".")[0].strip().casefold() in _KEPT:
        text = f"_{text}"
    return (text or "file") + ending


def _is_kept(char: str) -> bool:
    # The joiner is a format character too, but without it a joined emoji falls apart.
    return char == "\u200d" or unicodedata.category(char) not in {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"}


def _cut(text: str, most: int) -> str:
    return text.encode()[:most].decode("utf-8", "ignore")


def unique_name(name: str, ending: str, taken: set[str]) -> str:
    """Give `safe_name` with " (2)" and so on where `taken` has it already, and add it there.

    Names that differ only in case count as the same, as they do on two common systems.
    """
    number, tail = 1, ""
    while True:
        room = LONGEST_NAME - len((tail + ending).encode())
        found = safe_name(_cut(safe_name(name), room)) + tail + ending
        key = unicodedata.normalize("NFKC", found).casefold()
        if key not in taken:
            taken.add(key)
            return found
        number += 1
        tail = f" ({number})"


def numbered(quote: Quote) -> str:
    """Give the quote's number with its revision: "Q-0412-r2"."""
    return f"{quote.number}-r{quote.revision}"


def job_files(results: Sequence[JobResult]) -> Mapping[str, JobFiles]:
    """Give the names of each quoted job's papers by job code; held jobs have none."""
    quotes: set[str] = set()
    workshops: set[str] = set()
    files: dict[str, JobFiles] = {}
    for result in results:
        if result.sheet is None:
            continue
        quote = result.sheet.quote
        files[result.job] = JobFiles(
            quote="quotes/" + unique_name(f"{numbered(quote)} {quote.client}", ".xlsx", quotes),
            workshop="workshop/" + unique_name(f"{numbered(quote)} workshop", ".xlsx", workshops),
        )
    return files


def order_files(orders: Sequence[SupplierOrder]) -> Mapping[str, str]:
    """Give where each supplier's order stands inside the evening's folder, by the supplier as the order has it."""
    taken: set[str] = set()
    return {
        order.supplier: "orders/" + unique_name(order.supplier or "no supplier named", ".xlsx", taken)
        for order in orders
    }
