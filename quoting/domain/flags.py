"""What the site room finds of a job: flags with their figures, each said in words of the code table."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One number behind a flag.

    `value` is in `unit`, one of "cm", "kg", "N", "m/s" or "h"; not rounded. `shown` is
    the same in the shop's unit, rounded for reading ("13 ft 2 in").
    """

    label: str
    value: float
    unit: str
    shown: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Flag:
    """Whether something fits, stands or lasts, for the workshop sheet.

    `code` stands in `quoting.domain.codes.CODES`; `what` says what was found, `to_do`
    what to do about it. `piece` is the label of the piece, "" for the whole job.
    `is_for_client` flags have a line of the client's wording on the quote as well.
    """

    code: str
    what: str
    to_do: str
    piece: str = ""
    figures: tuple[Figure, ...] = ()
    is_for_client: bool = False
