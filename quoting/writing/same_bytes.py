"""Packed workbooks without the moment they were packed at, so that equal content gives equal bytes."""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Callable, Mapping

_EPOCH = (1980, 1, 1, 0, 0, 0)
"""The earliest time a zip can hold."""
_MODIFIED = re.compile(rb"(<dcterms:modified[^>]*>)[^<]*(</dcterms:modified>)")


def with_fixed_times(packed: bytes, changes: Mapping[str, Callable[[str], str]] | None = None) -> bytes:
    """Give a packed workbook (.xlsx, .xlsm) again with fixed times, in its members and in its properties.

    `changes` are for members by name: each gets the text of its member and gives another.
    """
    changes = changes or {}
    fixed = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(packed)) as old, zipfile.ZipFile(fixed, "w", zipfile.ZIP_DEFLATED) as new:
        for name in dict.fromkeys(old.namelist()):
            content = old.read(name)
            if name == "docProps/core.xml":
                content = _MODIFIED.sub(rb"\g<1>1980-01-01T00:00:00Z\g<2>", content)
            if name in changes:
                content = changes[name](content.decode("utf-8")).encode("utf-8")
            member = zipfile.ZipInfo(name, _EPOCH)
            member.compress_type = zipfile.ZIP_DEFLATED
            member.external_attr = 0o600 << 16
            new.writestr(member, content)
    return fixed.getvalue()
