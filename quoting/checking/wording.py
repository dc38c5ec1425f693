"""The standard phrases of the client's paper, which the Wording sheet may change."""

from __future__ import annotations

import json
import string
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from types import MappingProxyType


@cache
def _phrases() -> Mapping[str, Mapping[str, str]]:
    text = files("quoting.checking").joinpath("data/wording.json").read_text("utf-8")
    phrases: dict[str, dict[str, str]] = json.loads(text)
    return phrases


@cache
def standard_wording() -> Mapping[str, str]:
    """Every phrase the client sees: key → standard text, in the order of the Wording sheet."""
    return MappingProxyType({key: phrase["text"] for key, phrase in _phrases().items()})


def wording_rows() -> tuple[Mapping[str, str], ...]:
    """The starting rows of the Wording sheet: column key → text. Phrases that are empty to begin with have none."""
    return tuple(
        {"phrase": key, "text": phrase["text"], "where_used": phrase["where"]}
        for key, phrase in _phrases().items()
        if phrase["text"]
    )


def placeholders(text: str) -> frozenset[str] | None:
    """Names in braces that a phrase asks to be filled in; None where its braces don't pair up.

    A name with an index, attribute or format ("{name.x}", "{name:>9}") counts as unpaired.
    """
    names = set()
    try:
        for _, name, layout, conversion in string.Formatter().parse(text):
            if name is None:
                continue
            if not name.isidentifier() or layout or conversion:
                return None
            names.add(name)
    except ValueError:
        return None
    return frozenset(names)
