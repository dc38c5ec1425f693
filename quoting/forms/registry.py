"""Finds the forms: every module of this package that has a `FORM`."""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache

from quoting.domain.jobs import Piece
from quoting.domain.plans import Plan
from quoting.domain.prices import PriceBook
from quoting.domain.problems import Outcome
from quoting.forms.fields import FormField

PlanPiece = Callable[[Piece, PriceBook], Outcome[Plan | None]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """A form a piece can take.

    `summary` is one line for the owner. `fields` are the columns it asks for, in
    order. `plan` turns a checked piece into a plan for one such piece, or gives None
    and the problems at their cells. `example` is a row an owner could type (key →
    cell text) for the starting rows and items of a blank book. `is_refused` marks a
    form that is known so that its refusal can be explained; it never gives a plan.
    """

    name: str
    summary: str
    fields: tuple[FormField, ...]
    plan: PlanPiece
    example: Mapping[str, str]
    is_refused: bool = False


@cache
def all_forms() -> tuple[Form, ...]:
    """Every form, sorted by name. ValueError where two modules give one name."""
    package = importlib.import_module("quoting.forms")
    found: dict[str, Form] = {}
    for module in pkgutil.iter_modules(package.__path__):
        form = getattr(importlib.import_module(f"{package.__name__}.{module.name}"), "FORM", None)
        if form is None:
            continue
        if form.name in found:
            raise ValueError(f"two modules of the forms package give a form named {form.name!r}")
        found[form.name] = form
    return tuple(found[name] for name in sorted(found))


def form_named(name: str) -> Form:
    """Find the form of a name; KeyError where there is none (the Pieces schema lets no other name through)."""
    for form in all_forms():
        if form.name == name:
            return form
    raise KeyError(name)
