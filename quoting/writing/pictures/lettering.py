"""Words in pictures, in one open typeface that comes with a package, so that no machine's own fonts are asked."""

from __future__ import annotations

import io
from functools import lru_cache
from importlib import resources

from PIL import ImageFont

_PACKAGE, _FOLDER = "font_hanken_grotesk", "files"
_FILES = {False: "HankenGrotesk-Medium.otf", True: "HankenGrotesk-Bold.otf"}
"""The typeface's licence is the SIL Open Font License; it covers European Latin."""

Font = ImageFont.FreeTypeFont


@lru_cache(maxsize=32)
def lettering(size: int, *, bold: bool = False) -> Font:
    """Give the typeface at a size in pixels."""
    file = io.BytesIO((resources.files(_PACKAGE) / _FOLDER / _FILES[bold]).read_bytes())
    return ImageFont.truetype(file, size, layout_engine=ImageFont.Layout.BASIC)


def writable(text: str) -> str:
    """Give text without signs that the typeface lacks; "" where it lacks them all."""
    kept = "".join(sign if _has(sign) else " " for sign in text)
    return " ".join(word for word in kept.split(" ") if word)


@lru_cache(maxsize=1024)
def _has(sign: str) -> bool:
    font = lettering(24)
    return sign in " \u00a0" or bytes(font.getmask(sign)) != bytes(font.getmask("\uffff"))


@lru_cache(maxsize=4096)
def width(text: str, font: Font) -> int:
    """Give how many pixels wide a line is, rounded up."""
    return -int(-font.getlength(text) // 1)


def wrapped(text: str, font: Font, room: int) -> list[str]:
    """Break text into lines of at most `room` pixels, not at fixed spaces; a longer word is cut and ends in "…"."""
    lines: list[str] = []
    for word in filter(None, writable(text).split(" ")):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width(longer, font) <= room:
            lines[-1] = longer
        else:
            lines.append(shortened(word, font, room))
    return lines


def shortened(text: str, font: Font, room: int) -> str:
    """Give text cut to `room` pixels, ending in "…" where something is left out."""
    if width(text, font) <= room:
        return text
    kept = text
    while kept and width(kept.rstrip() + "…", font) > room:
        kept = kept[:-1]
    return kept.rstrip() + "…"
