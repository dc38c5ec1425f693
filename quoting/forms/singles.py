"""Single balloons along a line: how many, in which colours, and where they hang."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from quoting.domain.counts import rounded_down
from quoting.domain.measures import shown_length
from quoting.domain.plans import Part, Position
from quoting.domain.prices import Balloon, Shape
from quoting.forms.balloon_choice import choose_balloons, choose_size, colours_of
from quoting.forms.drafts import Draft
from quoting.forms.formulas import total
from quoting.forms.pattern_formulas import add_pattern_steps, count_formula
from quoting.forms.patterns import Pattern, read_pattern, walk_colours
from quoting.forms.ring_column import fill_or_usual

Point = tuple[float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Singles:
    """Equal balloons one after the other; `balloons` are one per colour of the pattern. Lengths in cm."""

    fill_cm: float
    spacing_cm: float
    balloons: tuple[Balloon, ...]
    pattern: Pattern


def read_singles(draft: Draft, form: str) -> Singles | None:
    """Read fill, spacing, colours and pattern; reports at their cells. A blank spacing puts them side by side."""
    colours = colours_of(draft)
    fill = fill_or_usual(draft, colours)
    size = None if fill is None else choose_size(draft, fill, "fill", colours)
    balloons = None if size is None else choose_balloons(draft, Shape.ROUND, size, colours)
    if draft.text("pattern") == "spiral":
        draft.complain("P549", "pattern", form=form, pattern="spiral", choices="solid, bands, blocks or mix")
        return None
    pattern = read_pattern(draft, colours, 1)
    if fill is None or balloons is None or pattern is None:
        return None
    spacing = draft.decimal("spacing") or fill
    if spacing < fill:
        draft.complain("P551", "spacing", fill=draft.short(fill), spacing=draft.short(spacing))
        return None
    return Singles(fill_cm=float(fill), spacing_cm=float(spacing), balloons=balloons, pattern=pattern)


def places_along(singles: Singles, length_cm: float) -> int:
    """Count the balloons along a line, one at each end: whole spacings, and one."""
    return rounded_down(length_cm / singles.spacing_cm) + 1


def add_spacing_steps(draft: Draft, singles: Singles) -> None:
    """Add fill and spacing."""
    draft.length_step("fill", "Fill", singles.fill_cm)
    side_by_side = not draft.is_filled("spacing")
    draft.length_step("spacing", "From balloon to balloon", singles.spacing_cm,
                      formula="{fill}" if side_by_side else "", words="side by side" if side_by_side else "")


def add_places(draft: Draft, singles: Singles, length_cm: float, *, has_both_ends: bool) -> None:
    """Add the count of balloons under the key "balloons", from the earlier step "length"."""
    draft.step("spacings", "Spacings in the length",
               shown_length(length_cm, draft.unit) / shown_length(singles.spacing_cm, draft.unit),
               formula="{length}/{spacing}")
    whole = "INT({spacings}+1E-9*MAX(1,{spacings}))"
    if has_both_ends:
        draft.step("balloons", "Balloons", places_along(singles, length_cm), unit="balloons", formula=f"{whole}+1",
                   words="whole spacings, and one more for the other end")
    else:
        draft.step("balloons", "Balloons", rounded_down(length_cm / singles.spacing_cm), unit="balloons",
                   formula=whole, words="as many as have room")


def fits_blocks(draft: Draft, pattern: Pattern, count: int) -> bool:
    """Tell whether blocks add up to the balloons, or leave some for the last; reports at the blocks' cell."""
    if pattern.name != "blocks":
        return True
    given, is_open = sum(pattern.blocks), len(pattern.blocks) < len(pattern.colours)
    if (is_open and given < count) or (not is_open and given == count):
        return True
    hint = "type fewer per block" if is_open else "leave the last number out and it takes the rest"
    words = ", ".join(map(str, pattern.blocks))
    draft.complain("P552", "blocks", blocks=words, total=given, count=count, hint=hint)
    return False


def add_single_parts(draft: Draft, singles: Singles, count: int, role: str) -> tuple[Part, ...]:
    """Add one part per item, counted along the pattern from the earlier step "balloons"."""
    pattern = singles.pattern
    draft.step("per ring", "Balloons at one place", 1, unit="balloons")
    add_pattern_steps(draft, pattern, count, 1, "balloons", thing="balloon")
    walked = Counter(colours[0] for colours in walk_colours(pattern, count, 1))
    groups: dict[str, list[int]] = {}
    for number, balloon in enumerate(singles.balloons):
        groups.setdefault(balloon.item, []).append(number)
    parts = []
    for item, numbers in groups.items():
        here = sum(walked[number] for number in numbers)
        if not here:
            continue
        if pattern.name == "mix":
            formula = total(f"{{mix {number + 1}}}" for number in numbers)
        else:
            formula = count_formula(pattern, tuple(numbers), (("balloons", "", "balloons"),), count)
        part = Part(item=item, count=here, role=role, colour=singles.balloons[numbers[0]].colour,
                    fill_cm=singles.fill_cm)
        draft.add_part(part, formula=formula, words=f"counted along the pattern {pattern.name}")
        parts.append(part)
    return tuple(parts)


def single_positions(
    singles: Singles, places: Sequence[Point], role: str, layer: int, knot_degrees: float | None = None
) -> list[Position]:
    """Give one position per balloon at its place (x, y, z in cm)."""
    walk = walk_colours(singles.pattern, len(places), 1)
    found = []
    for (x, y, z), (colour,) in zip(places, walk, strict=True):
        balloon = singles.balloons[colour]
        found.append(Position(x_cm=x, y_cm=y, z_cm=z, diameter_cm=singles.fill_cm, colour=balloon.colour,
                              item=balloon.item, role=role, layer=layer, knot_degrees=knot_degrees))
    return found


def every(draft: Draft, length_cm: float, count: int) -> str:
    """Say how far apart balloons along a line are tied: " every 12 in", "" for a single one."""
    return f" every {draft.short(length_cm / (count - 1))}" if count > 1 else ""


def part_list(draft: Draft, parts: Sequence[Part]) -> str:
    """Say parts for the build order."""
    return ", ".join(f"{part.count} × {part.item} at {draft.short(part.fill_cm or 0)}" for part in parts)


def add_line_tasks(draft: Draft, count: int) -> None:
    """Add tying every balloon on its line."""
    draft.add_task("tie on line", Decimal(count), formula="{balloons}")
