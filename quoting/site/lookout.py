"""What is found of one job while its site is looked at: flags, problems, lines for the client, workings."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from quoting.domain.codes import problem
from quoting.domain.flags import Figure, Flag
from quoting.domain.jobs import Job, Piece
from quoting.domain.plans import Plan, Section, Working
from quoting.domain.prices import Hardware, PriceBook
from quoting.domain.problems import Problem

SECTION = "site"
"""Key of the section of the workings."""

Planned = Sequence[tuple[Piece, Plan]]
"""A job's pieces, each with its plan."""


Facts = Mapping[str, object]
"""What fills in the words of a code: name → fact."""


class Lookout:
    """Gathers what is found of one job, in order. Used inside `look_at_site` and thrown away."""

    def __init__(self, job: Job, plans: Planned, prices: PriceBook) -> None:
        self.job, self.plans, self.prices, self.shop = job, plans, prices, prices.shop
        self.flags: list[Flag] = []
        self.problems: list[Problem] = []
        self.client: list[str] = []
        self._steps: dict[str, Working] = {}

    def flag(
        self, code: str, piece: Piece | None = None, facts: Facts | None = None, *, figures: tuple[Figure, ...] = (),
        is_for_client: bool = False,
    ) -> None:
        """Flag what the crew should know. `facts` fill in the code's words; {piece} is the piece's label."""
        told = problem(code, self.job.where("job"), job=self.job.code, **_facts(piece, facts))
        self._keep(told, piece, figures, is_for_client)

    def complain(
        self, code: str, piece: Piece, key: str, facts: Facts, *, figures: tuple[Figure, ...] = (),
        is_for_client: bool = False,
    ) -> None:
        """Flag what the owner has to do something about, and report it at the cell of a field of the piece."""
        told = problem(
            code, piece.where(key), seen=piece.row.seen(key), job=self.job.code, **_facts(piece, facts))
        self.problems.append(told)
        self._keep(told, piece, figures, is_for_client)

    def tell_client(self, phrase: str, **facts: str) -> None:
        """Add a line in the owner's wording; none where the owner has made the phrase empty."""
        text = self.prices.wording[phrase]
        if text.strip():
            self.client.append(text.format(**facts))

    def given(self, key: str, label: str, value: float, *, unit: str = "", words: str = "") -> None:
        """Add an input to the workings, once; a second one of the key is left out."""
        self._steps.setdefault(key, Working(key=key, label=label, value=value, unit=unit, words=words))

    def step(self, key: str, label: str, value: float, formula: str, *, unit: str = "", words: str = "") -> None:
        """Add a step that a formula works out from earlier ones, once."""
        made = Working(key=key, label=label, value=value, unit=unit, formula=formula, words=words)
        self._steps.setdefault(key, made)

    @property
    def workings(self) -> tuple[Section, ...]:
        """The section of the workings; none where nothing was worked out."""
        if not self._steps:
            return ()
        title = "Fit, stand and last: for planning, a competent person and the local code decide"
        return (Section(key=SECTION, title=title, steps=tuple(self._steps.values())),)

    def _keep(
        self, told: Problem, piece: Piece | None, figures: tuple[Figure, ...], is_for_client: bool
    ) -> None:
        self.flags.append(Flag(
            code=told.code, what=told.why, to_do=told.fix, piece="" if piece is None else piece.label,
            figures=figures, is_for_client=is_for_client,
        ))


def _facts(piece: Piece | None, facts: Facts | None) -> dict[str, Any]:
    return {"piece": "" if piece is None else piece.label, **(facts or {})}


def base_plates(plan: Plan, prices: PriceBook) -> tuple[Hardware, ...]:
    """Give the base plates that a piece stands on, bought or hired, each as often as it is there."""
    counts = [(part.item, part.count) for part in plan.parts] + [(need.item, need.count) for need in plan.hire]
    found = [(prices.hardware_item(item), count) for item, count in counts]
    return tuple(
        item for item, count in found if item is not None and item.part == "base plate" for _ in range(count)
    )
