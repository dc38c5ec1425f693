"""Arrows with lengths: how wide and how tall a piece is."""

from __future__ import annotations

from PIL import Image, ImageDraw

from quoting.writing.pictures.lettering import lettering, width

_INK, _WORDS = (96, 106, 112), (40, 48, 54)
_HEAD = 7
"""Length of an arrow's head in pixels."""


def draw_width(canvas: Image.Image, ends_px: tuple[float, float], y: float, words: str, text_size: int) -> None:
    """Draw a width between two x at `y`, its words below the line."""
    draw = ImageDraw.Draw(canvas)
    ends = round(ends_px[0]), round(ends_px[1])
    draw.line((ends[0], y, ends[1], y), fill=_INK, width=1)
    for x, way in ((ends[0], 1), (ends[1], -1)):
        draw.line((x, y - 6, x, y + 6), fill=_INK)
        draw.polygon([(x, y), (x + way * _HEAD, y - 3), (x + way * _HEAD, y + 3)], fill=_INK)
    draw.text(((ends[0] + ends[1]) / 2, y + 6), words, fill=_WORDS, font=lettering(text_size), anchor="mt")


def draw_height(canvas: Image.Image, ends_px: tuple[float, float], x: float, words: str, text_size: int) -> None:
    """Draw a height between two y at `x`, its words beside the line, read from below upwards."""
    draw = ImageDraw.Draw(canvas)
    ends = round(ends_px[0]), round(ends_px[1])
    draw.line((x, ends[0], x, ends[1]), fill=_INK, width=1)
    for y, way in ((ends[0], 1), (ends[1], -1)):
        draw.line((x - 6, y, x + 6, y), fill=_INK)
        draw.polygon([(x, y), (x - 3, y + way * _HEAD), (x + 3, y + way * _HEAD)], fill=_INK)
    font = lettering(text_size)
    label = Image.new("L", (width(words, font) + 4, round(text_size * 1.3)), 0)
    ImageDraw.Draw(label).text((2, label.height / 2), words, fill=255, font=font, anchor="lm")
    turned = label.transpose(Image.Transpose.ROTATE_90)
    corner = (round(x) - 5 - turned.width, round((ends[0] + ends[1]) / 2 - turned.height / 2))
    canvas.paste(_WORDS, corner, turned)
