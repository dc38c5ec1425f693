"""The pictures of a job's pieces, each with the words that stand for it."""

from __future__ import annotations

import struct
from collections.abc import Mapping
from dataclasses import dataclass

from quoting.domain.looks import Look, look_in_words
from quoting.domain.plans import Plan
from quoting.domain.quotes import JobSheet
from quoting.writing.pictures.elevation import PIXELS_PER_INCH, draw_piece, has_picture, picture_size
from quoting.writing.pictures.words import ENGLISH, PictureWords, alternative_text


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A PNG file with the text that says the same in words, and its size in pixels; b"" keeps room for one."""

    png: bytes
    text: str
    width_px: int
    height_px: int

    @property
    def size_in(self) -> tuple[float, float]:
        """Width and height in inches when printed as it was drawn for."""
        return self.width_px / PIXELS_PER_INCH, self.height_px / PIXELS_PER_INCH


@dataclass(frozen=True, slots=True, kw_only=True)
class JobPictures:
    """What the pictures of a job are drawn from, piece by piece under its label: (title, plan).

    It holds nothing that a client may not see: counts and sizes, but no price, cost or stock.
    """

    pieces: Mapping[str, tuple[str, Plan]]
    looks: Mapping[str, Look]
    unit: str
    words: PictureWords = ENGLISH

    def for_quote(self, height_px: int) -> Mapping[str, Picture]:
        """Draw the pictures of the quote, at most so high; 203 pixels are an inch."""
        return {label: self._picture(label, height_px) for label in self.pieces}

    def for_workshop(self) -> Mapping[str, Picture]:
        """Draw the larger pictures of the workshop sheet, with the numbers of the build order."""
        return {label: self._picture(label, None) for label in self.pieces}

    def room(self, height_px: int) -> Mapping[str, Picture]:
        """Keep room for the pictures of the quote, without drawing them."""
        return {label: self._room(plan, height_px) for label, (_, plan) in self.pieces.items()}

    def _room(self, plan: Plan, height_px: int) -> Picture:
        width, height = picture_size(plan, self.looks, unit=self.unit, height=height_px, words=self.words)
        return Picture(png=b"", text="", width_px=width, height_px=height)

    def _picture(self, label: str, height_px: int | None) -> Picture:
        title, plan = self.pieces[label]
        png = (draw_piece(plan, self.looks, unit=self.unit, larger=True, numbered_layers=True, words=self.words)
               if height_px is None
               else draw_piece(plan, self.looks, unit=self.unit, height=height_px, words=self.words))
        width, height = struct.unpack(">II", png[16:24])  # where the PNG format keeps them
        text = alternative_text(plan, self.looks, title=title, unit=self.unit, words=self.words)
        return Picture(png=png, text=text, width_px=width, height_px=height)


def job_pictures(sheet: JobSheet, words: PictureWords = ENGLISH) -> JobPictures:
    """Give the pictures of every piece of a job that can be drawn."""
    drawn = {piece.label: (piece.title, piece.plan) for piece in sheet.pieces if has_picture(piece.plan)}
    return JobPictures(pieces=drawn, looks=job_looks(sheet), unit=sheet.quote.length_unit, words=words)


def job_looks(sheet: JobSheet) -> Mapping[str, Look]:
    """Give the look of every balloon that a job pulls from stock, under its item name."""
    return {
        line.item: look_in_words(
            item=line.item, shape=line.shape, finish=line.finish, colour=line.colour, drawn_as=line.drawn_as)
        for line in sheet.stock if line.fills_cm
    }
