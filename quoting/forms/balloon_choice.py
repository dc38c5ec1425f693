"""Which balloon of the price book a fill, a size and a colour mean."""

from __future__ import annotations

import difflib
from decimal import Decimal

from quoting.domain.prices import Balloon, PriceBook, Shape
from quoting.forms.drafts import Draft

MOST_NAMED = 8
"""Colours a problem lists before it only counts the rest."""


def colours_of(draft: Draft) -> tuple[str, ...]:
    """Give the piece's colours as typed."""
    return tuple(" ".join(str(colour).split()) for colour in draft.items("colours"))


def choose_size(draft: Draft, fill: Decimal, key: str, colours: tuple[str, ...] = ()) -> int | None:
    """Give the nominal size of the rounds for a fill (cm): the size typed, else the least that takes it.

    The least in which all the `colours` are stocked; where there is none, the least
    that is stocked at all, in which the missing colours are then reported. Reports at
    the fill's cell `key` (or the size's) and gives None where no size takes the fill.
    """
    stocked = draft.prices.sizes(Shape.ROUND)
    size = draft.whole("size")
    if size is not None:
        if size not in stocked:
            draft.complain("P525", "size", size=size, sizes=_listed([f"{s} in" for s in stocked]))
            return None
        if fill > Decimal(size) * Decimal("2.54"):
            draft.complain("P502", key, fill=draft.short(fill), size=size)
            return None
        return size
    fitting = [s for s in stocked if fill <= Decimal(s) * Decimal("2.54")]
    if not fitting:
        largest = f"{stocked[-1]} in" if stocked else "none at all"
        draft.complain("P503", key, fill=draft.short(fill), largest=largest)
        return None
    in_colours = (size for size in fitting if _is_stocked(draft.prices, size, colours))
    return next(in_colours, fitting[0])


def _is_stocked(prices: PriceBook, size: int, colours: tuple[str, ...]) -> bool:
    return all(prices.balloons_of(shape=Shape.ROUND, size=size, colour=colour) for colour in colours)


def usual_fill(draft: Draft, size: int, colours: tuple[str, ...]) -> Decimal | None:
    """Give the usual fill (cm) of the rounds of a size in these colours; reports where there is not one."""
    if size not in draft.prices.sizes(Shape.ROUND):
        choose_size(draft, Decimal(0), "size")
        return None
    fills = {
        balloon.usual_fill_cm
        for colour in colours
        for balloon in draft.prices.balloons_of(shape=Shape.ROUND, size=size, colour=colour)
    }
    if len(fills) > 1:
        draft.complain("P521", "fill", size=size, usual="several usual fills")
        return None
    fill = next(iter(fills), None)
    if fill is None and not fills:  # the colours are the mistake, and are reported as such
        choose_balloons(draft, Shape.ROUND, size, colours)
    elif fill is None:
        draft.complain("P521", "fill", size=size, usual="no usual fill")
    return fill


def choose_balloons(
    draft: Draft, shape: Shape, size: int, colours: tuple[str, ...], key: str = "colours"
) -> tuple[Balloon, ...] | None:
    """Give the one balloon of each colour in a shape and size; reports at the colours' cell `key`.

    Twisters and foils come in fewer finishes than rounds: where a shape is not stocked
    in the finish asked for at all, but the colour is in exactly one, that is taken and noted.
    """
    chosen: list[Balloon] = []
    for colour in colours:
        found = draft.prices.balloons_of(shape=shape, size=size, colour=colour)
        exact = [b for b in found if f"{b.finish} {b.colour}".casefold() == colour.casefold()]
        found = tuple(exact) if len(exact) == 1 else found
        what = f"{shape.value} {size}" + (" in" if shape is not Shape.TWISTER else "")
        if not found:
            other = _in_other_finish(draft.prices, shape, size, colour)
            if other is not None:
                draft.complain("P564", key, colour=colour, what=what, taken=_name(other))
                found = (other,)
        if not found:
            _report_missing(draft, what, (shape, size), colour, key)
        elif len(found) > 1:
            names = _listed([_name(balloon) for balloon in found])
            draft.complain("P505", key, colour=f'"{colour}"', what=what, choices=names)
        else:
            chosen.append(found[0])
            draft.chosen.setdefault(colour.casefold(), set()).add(found[0].item)
    return tuple(chosen) if len(chosen) == len(colours) else None


def _in_other_finish(prices: PriceBook, shape: Shape, size: int, asked: str) -> Balloon | None:
    """Give the balloon of the colour that "finish colour" names elsewhere, where this shape has one finish of it."""
    named = [balloon for balloon in prices.balloons if balloon.has_colour(asked)]
    if not named or any(balloon.shape is shape for balloon in named):
        return None
    colours = {balloon.colour.casefold() for balloon in named}
    found = [b for b in prices.balloons if b.shape is shape and b.size == size and b.colour.casefold() in colours]
    return found[0] if len(found) == 1 else None


def _report_missing(draft: Draft, what: str, kind: tuple[Shape, int], colour: str, key: str) -> None:
    shape, size = kind
    stocked = _colours_in(draft.prices, shape, size)
    sizes = [b.size for b in draft.prices.balloons if b.shape is shape and b.has_colour(colour)]
    close = difflib.get_close_matches(colour.casefold(), stocked, n=3, cutoff=0.7)
    hint = "type one of the colours stocked"
    if close:
        hint = f"type {' or '.join(close)}"
    elif sizes:
        hint = f"{colour} is stocked in {_listed([str(s) for s in sorted(set(sizes))])}; or {hint}"
    draft.complain(
        "P504", key, colour=f'"{colour}"', what=what, stocked=_listed(stocked) or "nothing", hint=hint
    )


def _colours_in(prices: PriceBook, shape: Shape, size: int) -> list[str]:
    """Every name that would be found: the colour alone where it has one finish, else with its finish."""
    found = [b for b in prices.balloons if b.shape is shape and b.size == size]
    alone = [b.colour.casefold() for b in found]
    return sorted({_name(b) if alone.count(b.colour.casefold()) > 1 else b.colour.casefold() for b in found})


def _name(balloon: Balloon) -> str:
    return f"{balloon.finish} {balloon.colour}".strip().casefold()


def _listed(names: list[str]) -> str:
    if len(names) <= MOST_NAMED:
        return ", ".join(names)
    return ", ".join(names[:MOST_NAMED]) + f" and {len(names) - MOST_NAMED} more"
