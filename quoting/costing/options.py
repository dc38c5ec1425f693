"""Choices on one quote: which pieces are in the total, and what it comes to with another choice or an add-on."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from quoting.costing.costed_jobs import CostedJob, cost_amounts
from quoting.costing.stock import Planned
from quoting.costing.workings import workings_of
from quoting.domain.jobs import Job, Piece
from quoting.domain.plans import Plan, Section
from quoting.domain.prices import PriceBook
from quoting.domain.problems import Outcome, Problem

_Pair = tuple[Piece, Plan]

Choice = tuple[Piece, str, CostedJob]
"""A piece that is not in the total, the label of the one it would take the place of, and the job with it."""


def in_total(plans: Planned) -> tuple[_Pair, ...]:
    """Give the pieces in the total: no add-ons, and of each option group the recommended one, else the first."""
    chosen = _chosen(plans)
    return tuple(
        pair for pair in plans if not pair[0].is_add_on and chosen.get(_group(pair[0]), pair[0]) is pair[0]
    )


def other_choices(job: Job, plans: Planned, prices: PriceBook) -> Outcome[tuple[Choice, ...]]:
    """Cost the whole job once with each other choice.

    An alternative takes the place of its group's recommended piece, an add-on is added.
    So spares, packs, crew, discounts and the minimum order are right for that choice. A
    choice that can't be costed holds the job, as it must not be offered.
    """
    chosen, base = _chosen(plans), in_total(plans)
    made: list[Choice] = []
    problems: list[Problem] = []
    for pair in plans:
        piece = pair[0]
        if any(piece is each for each, _ in base):
            continue
        instead = None if piece.is_add_on else chosen[_group(piece)]
        wanted = [each for each in plans if each is pair or (each in base and each[0] is not instead)]
        outcome = cost_amounts(job, wanted, prices)
        problems += outcome.problems
        if outcome.value is not None:
            made.append((piece, instead.label if instead else "", outcome.value))
    return Outcome(value=tuple(made), problems=tuple(dict.fromkeys(problems)))


def choice_workings(number: int, piece: Piece, costed: CostedJob) -> tuple[Section, ...]:
    """Give the workings of the whole job with a choice, under keys of their own."""
    named = f"choice {number}"
    return tuple(
        replace(
            section,
            key=f"{named}, {section.key}",
            title=f"With {piece.label}: {section.title}",
            steps=tuple(replace(step, formula=_renamed(step.formula, named)) for step in section.steps),
        )
        for section in workings_of(costed)
    )


def _renamed(formula: str, named: str) -> str:
    return re.sub(r"\{([^{}!]+)!", lambda found: "{" + f"{named}, {found[1]}!", formula)


def _group(piece: Piece) -> str:
    return " ".join(piece.option_group.casefold().split())


def _chosen(plans: Planned) -> dict[str, Piece]:
    """Give the piece of each option group that is in the total."""
    groups: dict[str, list[Piece]] = {}
    for piece, _ in plans:
        if piece.option_group and not piece.is_add_on:
            groups.setdefault(_group(piece), []).append(piece)
    return {name: _recommended(pieces) for name, pieces in groups.items()}


def _recommended(pieces: Sequence[Piece]) -> Piece:
    return next((piece for piece in pieces if piece.is_recommended), pieces[0])
