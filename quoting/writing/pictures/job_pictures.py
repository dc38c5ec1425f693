"""The pictures of a job's pieces, each with the words that stand for it."""

from __future__ import annotations

import struct
from collections.abc import Mapping
from dataclasses import dataclass

from quoting.domain.looks import Look, look_in_words
from quoting.domain.quotes import JobSheet
from quoting.writing.pictures.elevation import PIXELS_PER_INCH, draw_piece, has_picture
from quoting.writing.pictures.words import ENGLISH, PictureWords, alternative_text


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A PNG file with the text that says the same in words."""

    png: bytes
    text: str

    @property
    def size_px(self) -> tuple[int, int]:
        """Width and height in its own pixels, from the head of the file."""
        width, height = struct.unpack(">II", self.png[16:24])
        return width, height

    @property
    def size_in(self) -> tuple[float, float]:
        """Width and height in inches when printed as it was drawn for."""
        width, height = self.size_px
        return width / PIXELS_PER_INCH, height / PIXELS_PER_INCH


def job_pictures(sheet: JobSheet, *, larger: bool = False, words: PictureWords = ENGLISH) -> Mapping[str, Picture]:
    """Give the picture of every piece that can be drawn, under the piece's label.

    `larger` gives those of the workshop sheet: with the numbers of the build order.
    """
    looks = job_looks(sheet)
    unit = sheet.quote.length_unit
    return {
        piece.label: Picture(
            png=draw_piece(piece.plan, looks, unit=unit, larger=larger, numbered_layers=larger, words=words),
            text=alternative_text(piece.plan, looks, title=piece.title, unit=unit, words=words),
        )
        for piece in sheet.pieces if has_picture(piece.plan)
    }


def job_looks(sheet: JobSheet) -> Mapping[str, Look]:
    """Give the look of every balloon that a job pulls from stock, under its item name."""
    return {
        line.item: look_in_words(item=line.item, shape=line.shape, finish=line.finish, colour=line.colour)
        for line in sheet.stock if line.fills_cm
    }
