"""A piece's plan while it is being worked out: typed fields in, numbered parts with their workings out."""

from __future__ import annotations

from decimal import Decimal

from quoting.domain.codes import problem
from quoting.domain.drawings import Mark
from quoting.domain.jobs import Piece
from quoting.domain.measures import fill_words, length_words, shown_length
from quoting.domain.plans import BuildStep, HireNeed, Outline, Part, Plan, Position, Task, Working
from quoting.domain.prices import PriceBook
from quoting.domain.problems import Outcome, Problem, holds

MOST_OF_A_THING = 20_000
"""More accents, twisters or balloons of one row in a single piece are taken for a slip of the pen."""


class Draft:
    """Gathers the workings, parts, tasks, hire, build steps and problems of one piece, in order.

    Used inside one form's `plan` and thrown away; `finished` gives the frozen plan.
    Lengths go in as cm; the workings show them in the shop's unit.
    """

    def __init__(self, piece: Piece, prices: PriceBook) -> None:
        self.piece, self.prices = piece, prices
        self.unit = prices.shop.length_unit
        self.problems: list[Problem] = []
        self.steps: list[Working] = []
        self.parts: list[Part] = []
        self.tasks: list[Task] = []
        self.hire: list[HireNeed] = []
        self.layers: list[BuildStep] = []
        self.positions: list[Position] = []
        self.drawing: list[Mark] = []
        self.hidden = 0
        self.title = ""
        self.chosen: dict[str, set[str]] = {}
        """Items chosen for every colour asked for, under the colour in small letters."""
        self.gas_litres = 0.0
        self.description: list[str] = []

    # --- typed fields ---------------------------------------------------------------

    def text(self, key: str) -> str:
        """Give the text of a field without spaces at its ends, "" where it is blank."""
        value = self.piece.row.get(key)
        return value.strip() if isinstance(value, str) else ""

    def whole(self, key: str, default: int | None = None) -> int | None:
        """Give the whole number of a field, or `default` where it is blank."""
        value = self.piece.row.get(key)
        return value if isinstance(value, int) and not isinstance(value, bool) else default

    def says_yes(self, key: str) -> bool:
        """Tell whether a yes-or-no field says yes; blank is no."""
        return self.piece.row.get(key) is True

    def decimal(self, key: str) -> Decimal | None:
        """Give the number, percent or length (cm) of a field, None where it is blank."""
        value = self.piece.row.get(key)
        if isinstance(value, int) and not isinstance(value, bool):
            return Decimal(value)
        return value if isinstance(value, Decimal) else None

    def items(self, key: str) -> tuple[object, ...]:
        """Give the list of a field, () where it is blank."""
        value = self.piece.row.get(key)
        return value if isinstance(value, tuple) else ()

    def is_filled(self, key: str) -> bool:
        """Tell whether the field's cell holds something."""
        return self.piece.row.get(key) is not None

    # --- problems -------------------------------------------------------------------

    def complain(self, code: str, key: str, **facts: object) -> None:
        """Report a problem at a field's cell."""
        row = self.piece.row
        self.problems.append(problem(code, row.where(key), seen=row.seen(key), job=self.piece.job, level=None, **facts))

    def has_all(self, *keys: str) -> bool:
        """Tell whether every field a form must have is filled; reports each that is not."""
        missing = [key for key in keys if not self.is_filled(key)]
        for key in missing:
            self.complain("P538", key, heading=HEADINGS.get(key, key.capitalize()))
        return not missing

    def say_unused(self, when: str, *keys: str) -> None:
        """Note every field of `keys` that is filled though nothing uses it; `when` says why ("with a solid colour")."""
        for key in keys:
            if self.is_filled(key):
                self.complain("P535", key, heading=HEADINGS.get(key, key), when=when)

    @property
    def is_held(self) -> bool:
        """True where something has been reported that holds the job."""
        return holds(self.problems)

    def is_slip(self, count: int, key: str, what: str) -> bool:
        """Tell whether a count is too large to be meant; reports it at a field's cell."""
        if count > MOST_OF_A_THING:
            self.complain("P537", key, most=MOST_OF_A_THING, what=what)
        return count > MOST_OF_A_THING

    # --- lengths in words -----------------------------------------------------------

    def long(self, cm: float | Decimal) -> str:
        """Say a built length in the shop's unit."""
        return length_words(float(cm), self.unit)

    def short(self, cm: float | Decimal) -> str:
        """Say a fill in the shop's unit."""
        return fill_words(float(cm), self.unit)

    # --- workings -------------------------------------------------------------------

    def step(
        self, key: str, label: str, value: Decimal | float | str, *, formula: str = "", unit: str = "", words: str = ""
    ) -> None:
        """Add one step of the workings; without a formula it is a given."""
        self.steps.append(Working(key=key, label=label, value=value, unit=unit, formula=formula, words=words))

    def length_step(
        self, key: str, label: str, cm: float | Decimal, *, formula: str = "", words: str = ""
    ) -> None:
        """Add a step that is a length, shown in the shop's unit."""
        self.step(key, label, shown_length(float(cm), self.unit), formula=formula, unit=self.unit, words=words)

    # --- what the piece takes -------------------------------------------------------

    def add_part(self, part: Part, *, formula: str = "", words: str = "") -> str:
        """Add a part with the step of its count; gives the step's key."""
        self.parts.append(part)
        key = f"part {len(self.parts)}"
        fill = f" at {self.short(part.fill_cm)}" if part.fill_cm is not None else ""
        self.step(key, f"{part.item}{fill} ({part.role})", part.count, formula=formula, unit="pieces", words=words)
        return key

    def add_task(self, activity: str, quantity: Decimal, *, size: int | None = None, formula: str = "") -> None:
        """Add a task with the step of its quantity; a quantity of nothing is left out."""
        if not quantity:
            return
        self.tasks.append(Task(activity=activity, quantity=quantity, size=size))
        label = activity.capitalize() + (f", up to {size} in" if size is not None else "")
        self.step(f"task {len(self.tasks)}", label, _plain(quantity), formula=formula, unit="times")

    def add_hire(self, need: HireNeed, *, formula: str = "") -> None:
        """Add a hired thing with the step of its count."""
        self.hire.append(need)
        self.step(f"hire {len(self.hire)}", f"{need.item} (hire)", need.count, formula=formula, unit="pieces")

    def add_layer(self, text: str, parts: tuple[Part, ...] = ()) -> int:
        """Add a step of the build order; gives its number."""
        number = len(self.layers) + 1
        self.layers.append(BuildStep(number=number, text=text, parts=parts))
        return number

    def finished(self, form: str, outline: Outline | None, *, is_labour_only: bool = False) -> Outcome[Plan | None]:
        """Give the plan with the notes, or None with what holds the job."""
        if self.is_held:
            return Outcome(value=None, problems=tuple(self.problems))
        self._say_unused_colours()
        problems = tuple(self.problems)
        plan = Plan(
            form=form, parts=tuple(self.parts), tasks=tuple(self.tasks), hire=tuple(self.hire), outline=outline,
            positions=tuple(self.positions), build_order=tuple(self.layers), workings=tuple(self.steps),
            description=tuple(self.description), is_labour_only=is_labour_only,
            drawing=tuple(self.drawing), hidden=self.hidden, gas_litres=self.gas_litres, title=self.title,
        )
        return Outcome(value=plan, problems=problems)

    def _say_unused_colours(self) -> None:
        """Note the colours typed that no part of the piece is in: the client must not be promised them."""
        items = {part.item for part in self.parts}
        typed = [str(colour) for colour in self.items("colours")]
        unused = [colour for colour in typed if not items & self.chosen.get(" ".join(colour.casefold().split()), set())]
        if unused:
            fix = "take it out of the list, or ask for more rings or balloons"
            if self.is_filled("build"):
                fix = "take it out of the list, or give it a row with its colour number in the Builds sheet"
            self.complain("P563", "colours", colours=" or ".join(unused), fix=fix)

    def refused(self) -> Outcome[Plan | None]:
        """Give no plan and every problem found; for leaving a form early."""
        assert self.is_held, "a form that gives no plan must say why"
        return Outcome(value=None, problems=tuple(self.problems))


def _plain(quantity: Decimal) -> Decimal | int:
    return int(quantity) if quantity == quantity.to_integral_value() else quantity


HEADINGS = {
    "shares": "Shares", "blocks": "Rings per block", "topper_fill": "Topper fill", "wrap_turns": "Wrap turns",
    "middle_fill": "Middle fill", "twister": "Twister", "strands": "Strands", "turns": "Turns", "height": "Height",
    "foot_fills": "Fills at each end", "rings": "Rings", "fill": "Fill", "fills": "Fills", "size": "Size",
    "width": "Width", "length": "Length", "leg": "Straight leg", "tip": "Height of the tip", "sag": "Sag",
    "segments": "Segments", "repeat": "Repeat fills", "filler_shares": "Shares of filler colours",
    "depth": "Depth", "count": "Count", "pitch": "Pitch", "packing": "Packing share", "faces": "Faces",
    "pattern": "Pattern", "per_ring": "Balloons per ring", "opening_width": "Opening width",
    "opening_height": "Opening height", "opening_at": "Opening from left", "outer": "Outer balloon",
    "minutes": "Minutes each", "twisters": "Twisters of each colour", "filler_sizes": "Filler sizes",
    "filler_size_shares": "Shares of filler sizes",
    "spacing": "Spacing", "ribbon_length": "Ribbon length", "top_fill": "Top fill", "accents_at": "Accents at",
    "colours": "Colours",
}
"""Headings of the fields that problems name."""
