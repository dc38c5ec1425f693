"""What a text reader says where a text has no meaning, or two."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from quoting.domain.codes import problem
from quoting.domain.places import Place
from quoting.domain.problems import Problem


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """A problem before it knows its place: its code, and what its words name besides heading, seen and fix."""

    code: str
    facts: Mapping[str, object] = field(default_factory=dict)


def two_meanings(first: str, second: str, better: str) -> Trouble:
    """A text that can be read as `first` or as `second`; `better` is a way to type it that can't."""
    return Trouble(code="P206", facts={"first": first, "second": second, "better": better})


def trouble_at(trouble: Trouble, place: Place, seen: str) -> Problem:
    """The problem that a trouble is at a place. KeyError where it lacks a fact that its words name (our mistake)."""
    facts: dict[str, object] = dict(trouble.facts)
    return problem(trouble.code, place, seen=seen, job="", level=None, **facts)
