"""Reading the XML parts of a workbook, piece by piece and safely."""

from __future__ import annotations

import io
from collections.abc import Iterator
from xml.etree import ElementTree
from xml.etree.ElementTree import Element

from quoting.reading.archives import UnreadableError


def local(name: str) -> str:
    """A tag or attribute name without its namespace, so that strict and usual files read alike."""
    return name.rpartition("}")[2]


def attribute(element: Element, name: str, default: str = "") -> str:
    """An attribute by its local name, whatever its namespace."""
    found = element.get(name)
    if found is not None:
        return found
    return next((value for key, value in element.items() if local(key) == name), default)


def events(data: bytes) -> Iterator[tuple[str, str, Element]]:
    """Start and end of every element of a part: ("start" or "end", local name, element).

    The caller clears what it is done with. UnreadableError where the part is no XML, or
    declares entities of its own, by which a small file can grow without bound.
    """
    if b"\0" in data:
        raise UnreadableError("P101", "a part of it is in an unusual encoding")
    if b"<!DOCTYPE" in data or b"<!ENTITY" in data:
        raise UnreadableError("P101", "a part of it declares entities, which no office software does")
    try:
        for event, element in ElementTree.iterparse(io.BytesIO(data), events=("start", "end")):
            yield event, local(element.tag), element
    except (ElementTree.ParseError, LookupError, ValueError) as error:
        raise UnreadableError("P101", "a part of it is damaged") from error


def elements(data: bytes, *names: str) -> Iterator[Element]:
    """The finished elements of some local names, in the order of the part."""
    for event, name, element in events(data):
        if event == "end" and name in names:
            yield element
