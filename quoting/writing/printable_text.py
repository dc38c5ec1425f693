"""Text as workbooks can hold it."""

from __future__ import annotations

import re

_LONGEST_TEXT = 32_767
_UNPRINTABLE = re.compile("[\\x00-\\x08\\x0b-\\x1f\\ud800-\\udfff\\ufffe\\uffff]")


def printable(text: str) -> str:
    """Give text as a cell can hold it: no signs that its file format has no place for, at most 32,767 characters."""
    lines = text.replace("\r\n", "\n").replace("\r", "\n")
    return lines if lines.isprintable() and len(lines) <= _LONGEST_TEXT else _UNPRINTABLE.sub("", lines)[:_LONGEST_TEXT]
