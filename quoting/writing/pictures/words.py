"""The words in a picture, and the picture in words for those who can't see it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from quoting.domain.looks import Look
from quoting.domain.measures import length_words
from quoting.domain.plans import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureWords:
    """Every word that a picture or its text says itself; the rest are the owner's own names.

    Those with braces are filled in: `out_of_sight` and `more_colours` with {count},
    `drawing` with {form}, `size` with {width} and {height}, `balloons` with {count} and {colours}.
    """

    built_size: str = "Built size"
    twister: str = "twister"
    twisters: str = "twisters"
    more_colours: str = "and {count} more colours"
    out_of_sight: str = "{count} more out of sight"
    drawing: str = "Drawing to scale of a {form}, seen from the front"
    size: str = "{width} wide and {height} tall"
    balloons: str = "{count} balloons: {colours}"


ENGLISH = PictureWords()

_LONGEST = 800
"""Office software cuts longer texts of pictures."""


def alternative_text(
    plan: Plan, looks: Mapping[str, Look], *, title: str = "", unit: str, words: PictureWords = ENGLISH
) -> str:
    """Describe the picture of a piece in one line of at most 800 signs: what, how large, how many of which colour."""
    said = [words.drawing.format(form=title or plan.form)]
    if plan.outline is not None and plan.outline.width_cm and plan.outline.height_cm:
        said.append(words.size.format(width=length_words(plan.outline.width_cm, unit),
                                      height=length_words(plan.outline.height_cm, unit)))
    counts: dict[str, int] = {}
    for part in plan.parts:
        if part.fill_cm is not None:
            look = looks.get(part.item)
            name = " ".join(word for word in ((look.surface, look.colour) if look else (part.colour,)) if word)
            counts[name or part.item] = counts.get(name or part.item, 0) + part.count
    if counts:
        colours = ", ".join(f"{count} {name}" for name, count in counts.items())
        said.append(words.balloons.format(count=sum(counts.values()), colours=colours))
    if plan.hidden:
        said.append(words.out_of_sight.format(count=plan.hidden))
    text = "; ".join([*said, *plan.description])
    return text if len(text) <= _LONGEST else text[: _LONGEST - 1].rstrip() + "…"
