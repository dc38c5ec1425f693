"""One picture of many pictures, with their titles: to look at all forms at once and judge them."""

from __future__ import annotations

import io
from collections.abc import Sequence

from PIL import Image, ImageDraw

from quoting.writing.pictures.lettering import lettering, shortened, writable

_COLUMNS, _WIDTH, _HEIGHT, _TITLE, _EDGE = 3, 640, 400, 34, 16
_PAPER, _INK, _LINE = (255, 255, 255), (31, 42, 44), (214, 219, 218)


def contact_sheet(pieces: Sequence[tuple[str, bytes]]) -> bytes:
    """Lay pictures (title, PNG file) out in rows of three, in their order; gives a PNG file.

    Pictures larger than a cell are shrunk to it. ValueError where there is none.
    """
    if not pieces:
        raise ValueError("no picture to lay out")
    rows = -(-len(pieces) // _COLUMNS)
    cell = _WIDTH + 2 * _EDGE, _HEIGHT + _TITLE + 2 * _EDGE
    sheet = Image.new("RGB", (min(len(pieces), _COLUMNS) * cell[0], rows * cell[1]), _PAPER)
    draw, font = ImageDraw.Draw(sheet), lettering(24, bold=True)
    for number, (title, png) in enumerate(pieces):
        left, top = number % _COLUMNS * cell[0], number // _COLUMNS * cell[1]
        draw.rectangle((left, top, left + cell[0] - 1, top + cell[1] - 1), outline=_LINE)
        draw.text((left + _EDGE, top + _EDGE), shortened(writable(title), font, _WIDTH), fill=_INK, font=font)
        picture = Image.open(io.BytesIO(png)).convert("RGB")
        picture.thumbnail((_WIDTH, _HEIGHT), Image.Resampling.LANCZOS)
        sheet.paste(picture, (left + _EDGE + (_WIDTH - picture.width) // 2, top + _EDGE + _TITLE))
    file = io.BytesIO()
    sheet.save(file, "PNG", compress_level=6)
    return file.getvalue()
