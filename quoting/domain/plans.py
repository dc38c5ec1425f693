"""What a form gives back for one piece: parts, tasks, hire, outline, picture, workings.

Costing, site and papers read plans only; none of them knows a form by name.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from quoting.domain.drawings import Mark, Point3


@dataclass(frozen=True, slots=True, kw_only=True)
class Working:
    """One step of the workings, shown as a live formula in the workshop workbook.

    `formula` is an office-software formula without "=" in which `{key}` stands for an
    earlier step of the same section and `{section!key}` for a step of an earlier
    section; "" for a given input. `value` is what the formula comes to, and what we
    used. `words` says the rule in plain words.
    """

    key: str
    label: str
    value: Decimal | float | int | str
    unit: str = ""
    formula: str = ""
    words: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """A titled run of workings; `key` is unique within a job ("piece A", "stock", "price")."""

    key: str
    title: str
    steps: tuple[Working, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """So many of a stock item or of bought hardware in one piece.

    `fill_cm` is the diameter to inflate to (None: not inflated or not sized). `role`
    says where it goes ("ring", "topper", "accent", "wrap", "strand"…).
    """

    item: str
    count: int
    role: str
    colour: str = ""
    fill_cm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """So much of an activity (a name in the Labour sheet) in one piece; `size` is nominal inches for its size class."""

    activity: str
    quantity: Decimal
    size: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class HireNeed:
    """So many of a hired hardware item in one piece; `cut_cm` is a pole's length to cut or set."""

    item: str
    count: int
    cut_cm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """Built size of one piece. Lengths in cm, volume in litres, mass in grams, net lift in grams-force.

    `is_to_ceiling`: it reaches from floor to ceiling on purpose, so that nothing is to be left above it.
    """

    width_cm: float
    height_cm: float
    depth_cm: float
    longest_rigid_cm: float
    packed_volume_l: float
    mass_g: float
    net_lift_g: float = 0.0
    is_to_ceiling: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Position:
    """One thing as it hangs in the built piece, to be drawn: centre in cm.

    x to the right, y up from the floor, z towards the viewer, measured from the
    middle of the foot. `layer` is the number of the build step it belongs to. `path`
    is the middle line of a long balloon (a twister as it lies, two points or more),
    () for one that is as wide as high. `knot_degrees` is where its knot points where
    it can be seen (0 to the right, 90 up, 270 hanging down), None where it can't.
    """

    x_cm: float
    y_cm: float
    z_cm: float
    diameter_cm: float
    colour: str
    item: str
    role: str
    layer: int
    path: tuple[Point3, ...] = ()
    knot_degrees: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildStep:
    """One layer or step of the build, in order; `parts` are what goes into it."""

    number: int
    text: str
    parts: tuple[Part, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """One piece worked out; counts are for a single piece, whatever the quantity asked for.

    Of the workings, the step keyed "part N" is the count of `parts[N-1]`, "task N"
    the quantity of `tasks[N-1]` and "hire N" the count of `hire[N-1]`, so that later
    sections can refer to them. `description` are lines for the client ("7 ft 1 in
    tall, 9 rings of 4"). `drawing` are the marks of the picture that are no balloons.
    `hidden` is how many balloons have no position because nobody sees them (inside a
    wall, inside another balloon): positions + hidden = balloons counted.
    """

    form: str
    parts: tuple[Part, ...]
    tasks: tuple[Task, ...]
    hire: tuple[HireNeed, ...]
    outline: Outline | None
    positions: tuple[Position, ...]
    build_order: tuple[BuildStep, ...]
    workings: tuple[Working, ...]
    description: tuple[str, ...]
    is_labour_only: bool = False
    drawing: tuple[Mark, ...] = ()
    hidden: int = 0
    title: str = ""
    """What the piece is called where its row gives no title; "" for its form's name."""
    gas_litres: float = 0.0
    """Helium in one piece as it floats, without what is lost in filling."""

    @property
    def balloon_count(self) -> int:
        """Positions that are drawn are counted as balloons elsewhere; this is the count of inflated parts."""
        return sum(part.count for part in self.parts if part.fill_cm is not None)
