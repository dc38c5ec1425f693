"""The workings of rings whose fills repeat, closed over whole cycles: no row per ring."""

from __future__ import annotations

from quoting.forms.drafts import Draft
from quoting.forms.formulas import kept, kept_all, nearest, total
from quoting.forms.repeats import Repeat
from quoting.forms.stack_workings import add_ring_givens
from quoting.geometry.rings import nesting_limit, ring_radius


def add_cycle_steps(draft: Draft, repeat: Repeat) -> None:
    """Add fills, radii, built pitches from ring to ring ("step N") and the height of a cycle, "cycle"."""
    add_ring_givens(draft, repeat.per_ring, repeat.tightness)
    draft.step("spread", "Square of radius ÷ fill", ring_radius(1, repeat.per_ring) ** 2,
               formula="1/(4*SIN(PI()/{per ring})^2)")
    bend = "(0.5+2*{spread}*COS(PI()/{per ring}))"
    draft.step("nesting limit", "Least ratio of two fills that nest", nesting_limit(repeat.per_ring),
               formula=f"2*{{spread}}/({bend}+SQRT({bend}^2+(1-4*{{spread}})*{{spread}}))",
               words="below it the big rings either side touch, and the pitch is half the big fill")
    numbers = range(1, len(repeat.cycle) + 1)
    for number, run in zip(numbers, repeat.cycle, strict=True):
        draft.length_step(f"fill {number}", f"Fill {number}", run.fill_cm)
        draft.length_step(f"radius {number}", f"Axis to balloon centre, fill {number}",
                          ring_radius(run.fill_cm, repeat.per_ring),
                          formula=f"{kept(f'fill {number}')}/(2*SIN(PI()/{{per ring}}))",
                          words="fill ÷ (2 sin(180° ÷ balloons per ring))")
    for number, step in zip(numbers, repeat.steps_cm, strict=True):
        following = number % len(repeat.cycle) + 1
        draft.length_step(f"step {number}", f"Built pitch from fill {number} to fill {following}", step,
                          formula=_pitch(number, following), words="tightness × pitch of touching rings")
    draft.length_step("cycle", "Length of all fills once", repeat.cycle_cm,
                      formula=kept_all([f"step {number}" for number in numbers]))


def _pitch(number: int, following: int) -> str:
    d1, d2, r1, r2 = (kept(f"{what} {n}") for what in ("fill", "radius") for n in (number, following))
    touching = f"SQRT((({d1}+{d2})/2)^2-{r1}^2-{r2}^2+2*{r1}*{r2}*COS(PI()/{{per ring}}))"
    small, big = f"MIN({d1},{d2})", f"MAX({d1},{d2})"
    return f"{{tightness}}*IF({small}<{{nesting limit}}*{big},{big}/2,{touching})"


def add_column_rings(draft: Draft, repeat: Repeat, wanted_cm: float | None) -> None:
    """Add "rings in all" (given, or nearest to the earlier step "height") and "built height"."""
    cycle = len(repeat.cycle)
    for number, start in enumerate(repeat.starts_cm, 1):
        steps = [kept(f"step {n}") for n in range(1, number)]
        label = f"Height of the first {number} rings" if number > 1 else "Height of one ring"
        ends = f"({{fill 1}}+{kept(f'fill {number}')})/2"
        draft.length_step(f"start {number}", label, start, formula=total([ends, *steps]))
    if wanted_cm is None:
        draft.step("rings in all", "Rings", repeat.rings, unit="rings")
    else:
        _add_nearest(draft, repeat, wanted_cm)
    starts = ",".join(kept(f"start {number}") for number in range(1, cycle + 1))
    last = f"CHOOSE(MOD({{rings in all}}-1,{cycle})+1,{starts})"
    draft.length_step("built height", "Built height", repeat.stack.height_cm,
                      formula=f"INT(({{rings in all}}-1)/{cycle})*{{cycle}}+{last}")


def _add_nearest(draft: Draft, repeat: Repeat, wanted_cm: float) -> None:
    cycle, misses = len(repeat.cycle), []
    for number, start in enumerate(repeat.starts_cm, 1):
        unrounded = (wanted_cm - start) / repeat.cycle_cm
        draft.step(f"cycles {number} unrounded", f"Whole lists before a last one of {number}, not rounded", unrounded,
                   formula=f"({{height}}-{kept(f'start {number}')})/{{cycle}}")
        cycles = repeat.cycles_before(number, wanted_cm)
        draft.step(f"cycles {number}", f"Whole lists before a last one of {number}", cycles,
                   formula=f"MAX(0,{nearest(kept(f'cycles {number} unrounded'))})")
        miss = abs(wanted_cm - start - cycles * repeat.cycle_cm)
        draft.length_step(f"miss {number}", f"Height missed by, a last list of {number}", miss,
                          formula=f"ABS({{height}}-{kept(f'start {number}')}-{kept(f'cycles {number}')}*{{cycle}})")
        misses.append(kept(f"miss {number}"))
    least = f"MIN({','.join(misses)})+1E-7"
    choices = [f"IF({miss}<={least},{kept(f'cycles {number}')}*{cycle}+{number},0)"
               for number, miss in enumerate(misses, 1)]
    draft.step("rings in all", "Rings", repeat.rings, formula=f"MAX({','.join(choices)})", unit="rings",
               words="the count whose height is nearest, a tie takes the taller")


def add_line_rings(draft: Draft, repeat: Repeat, length_cm: float) -> None:
    """Add "rings in all" along the earlier step "length"."""
    cycle = len(repeat.cycle)
    draft.step("rings unrounded", "Clusters, not rounded", length_cm * cycle / repeat.cycle_cm,
               formula=f"{{length}}*{cycle}/{{cycle}}", unit="clusters")
    draft.step("rings in all", "Clusters", repeat.rings, unit="clusters", words="the nearest count, a tie takes more",
               formula=f"MAX(1,{nearest('{rings unrounded}')})")


def add_ring_counts(draft: Draft, repeat: Repeat) -> None:
    """Add the rings of every fill ("rings of fill N"), the overall width and the room for a pole."""
    cycle, stack = len(repeat.cycle), repeat.stack
    widths, rooms = [], []
    for number in range(1, cycle + 1):
        count = (repeat.rings - number) // cycle + 1
        draft.step(f"rings of fill {number}", f"Rings of fill {number}", count, unit="rings",
                   formula=f"INT(({{rings in all}}-{number})/{cycle}+1)")
        twice, fill = f"2*{kept(f'radius {number}')}", kept(f"fill {number}")
        has_any = f"{kept(f'rings of fill {number}')}>0"
        widths.append(f"IF({has_any},{twice}+{fill},0)")
        rooms.append(f"IF({has_any},{twice}-{fill},1E9)")
    draft.length_step("ring width", "Overall width", stack.width_cm, formula=f"MAX({','.join(widths)})",
                      words="twice the radius and a fill")
    draft.length_step("pole room", "Room for the pole", stack.pole_room_cm, formula=f"MAX(0,MIN({','.join(rooms)}))",
                      words="twice the radius less a fill, of the smallest ring")
