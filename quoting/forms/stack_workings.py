"""The workings of a column of rings: every fill, radius, pitch, count of rings and the built height."""

from __future__ import annotations

from quoting.forms.drafts import Draft
from quoting.forms.formulas import kept, kept_all, nearest, total
from quoting.forms.pattern_formulas import Span
from quoting.forms.stacks import Run, Stack
from quoting.geometry.rings import nesting_limit, ring_radius


def add_stack_steps(draft: Draft, stack: Stack, *, height: str = "Built height") -> None:
    """Add the steps of a stack, its height last under the label `height` in small letters.

    A free run is counted from the earlier step "height".
    """
    add_ring_givens(draft, stack.per_ring, stack.tightness)
    if len(stack.runs) > 1:
        _add_limit(draft, stack)
    for number, run in enumerate(stack.runs, 1):
        add_run_steps(draft, stack, number, run)
    for number in range(1, len(stack.runs)):
        _add_step_between(draft, stack, number)
    for number, run in sorted(enumerate(stack.runs, 1), key=lambda numbered: numbered[1].is_free):
        add_count(draft, stack, number, run)  # a free run last: its count refers to the others
    draft.length_step(height.lower(), height, stack.height_cm, formula=_height(stack, counts_free_as_one=False),
                      words="half the first fill, every built pitch, half the last fill")


def add_ring_givens(draft: Draft, per_ring: int, tightness: float) -> None:
    """Add what all rings of a piece share."""
    draft.step("per ring", "Balloons per ring", per_ring, unit="balloons")
    draft.step("tightness", "Tightness", tightness, words="built pitch ÷ pitch of touching rings (Shop sheet)")


def key_of(stack: Stack, what: str, number: int) -> str:
    """Give the key of a run's step: numbered where there is more than one run."""
    return f"{what} {number}" if stack.is_numbered or len(stack.runs) > 1 else what


def _add_limit(draft: Draft, stack: Stack) -> None:
    spread = ring_radius(1, stack.per_ring) ** 2
    draft.step("spread", "Square of radius ÷ fill", spread, formula="1/(4*SIN(PI()/{per ring})^2)")
    bend = "(0.5+2*{spread}*COS(PI()/{per ring}))"
    draft.step("nesting limit", "Least ratio of two fills that nest", nesting_limit(stack.per_ring),
               formula=f"2*{{spread}}/({bend}+SQRT({bend}^2+(1-4*{{spread}})*{{spread}}))",
               words="below it the big rings either side touch, and the pitch is half the big fill")


def add_run_steps(draft: Draft, stack: Stack, number: int, run: Run) -> None:
    """Add fill, radius and built pitch of one run."""
    fill, radius, pitch = (key_of(stack, what, number) for what in ("fill", "radius", "pitch"))
    place = f", run {number} from the floor" if len(stack.runs) > 1 else ""
    mirrored = {"formula": kept(key_of(stack, "fill", run.mirrors)), "words": "as at the foot"} if run.mirrors else {}
    draft.length_step(fill, f"Fill{place}", run.fill_cm, **mirrored)
    draft.length_step(radius, f"Axis to balloon centre{place}", ring_radius(run.fill_cm, stack.per_ring),
                      formula=f"{kept(fill)}/(2*SIN(PI()/{{per ring}}))",
                      words="fill ÷ (2 sin(180° ÷ balloons per ring))")
    if run.has_pitch:
        touching = f"SQRT({kept(fill)}^2-2*{kept(radius)}^2*(1-COS(PI()/{{per ring}})))"
        draft.length_step(pitch, f"Built pitch{place}", stack.pitch_cm(run), formula=f"{{tightness}}*{touching}",
                          words="tightness × pitch of touching rings")


def _add_step_between(draft: Draft, stack: Stack, number: int) -> None:
    d1, d2, r1, r2 = (kept(key_of(stack, what, n)) for what in ("fill", "radius") for n in (number, number + 1))
    touching = f"SQRT((({d1}+{d2})/2)^2-{r1}^2-{r2}^2+2*{r1}*{r2}*COS(PI()/{{per ring}}))"
    small, big = f"MIN({d1},{d2})", f"MAX({d1},{d2})"
    draft.length_step(f"step {number}", f"Built pitch between runs {number} and {number + 1}", stack.step_cm(number),
                      formula=f"{{tightness}}*IF({small}<{{nesting limit}}*{big},{big}/2,{touching})")


def add_rings_in_all(draft: Draft, stack: Stack) -> None:
    """Add the count of all rings under the key "rings in all"."""
    draft.step("rings in all", "Rings in all", stack.rings, unit="rings",
               formula=kept_all([key_of(stack, "rings", n) for n in range(1, len(stack.runs) + 1)]))


def add_count(draft: Draft, stack: Stack, number: int, run: Run) -> None:
    """Add the count of rings of one run: typed, mirrored, or worked out from the wanted height."""
    key = key_of(stack, "rings", number)
    label = f"Rings of run {number}" if len(stack.runs) > 1 else "Rings"
    if not run.is_free:
        formula = kept(f"rings {run.mirrors}") if run.mirrors else run.count_formula
        draft.step(key, label, run.rings, unit="rings", formula=formula)
        return
    one, wanted = stack.with_free_rings(1).height_cm, _step_value(draft, "height")
    draft.length_step("height with one", "Height with one such ring", one,
                      formula=_height(stack, counts_free_as_one=True))
    pitch = key_of(stack, "pitch", number)
    unrounded = (wanted - _step_value(draft, "height with one")) / _step_value(draft, pitch) + 1
    draft.step("rings unrounded", f"{label}, not rounded", unrounded,
               formula=f"({{height}}-{{height with one}})/{kept(pitch)}+1", unit="rings")
    draft.step(key, label, run.rings, formula=f"MAX(1,{nearest('{rings unrounded}')})", unit="rings",
               words="the nearest count, a tie takes the taller")


def _step_value(draft: Draft, key: str) -> float:
    return next(float(step.value) for step in draft.steps if step.key == key)


def _height(stack: Stack, *, counts_free_as_one: bool) -> str:
    last = len(stack.runs)
    terms = [f"{kept(key_of(stack, 'fill', 1))}/2", f"{kept(key_of(stack, 'fill', last))}/2"]
    terms += [kept(f"step {number}") for number in range(1, last)]
    for number, run in enumerate(stack.runs, 1):
        if run.has_pitch and not (run.is_free and counts_free_as_one):
            terms.append(f"({kept(key_of(stack, 'rings', number))}-1)*{kept(key_of(stack, 'pitch', number))}")
    return total(terms)


def add_spans(draft: Draft, stack: Stack) -> tuple[Span, ...]:
    """Add the number of the last ring of every run; gives the keys that pattern formulas refer to, run by run."""
    if len(stack.runs) == 1:
        return (("rings", "", "rings"),)
    end = 0
    spans: list[Span] = []
    for number, run in enumerate(stack.runs, 1):
        end += run.rings
        before = f"last ring {number - 1}" if number > 1 else ""
        draft.step(f"last ring {number}", f"Number of the last ring of run {number}", end, unit="rings",
                   formula=kept(f"rings {number}") + (f"+{kept(before)}" if before else ""))
        spans.append((f"rings {number}", before, f"last ring {number}"))
    return tuple(spans)


def add_width(draft: Draft, stack: Stack) -> None:
    """Add the overall width of the widest ring, and the room the smallest leaves for a pole."""
    numbers = [number for number, run in enumerate(stack.runs, 1) if not run.mirrors]
    sizes = [(kept(key_of(stack, "radius", n)), kept(key_of(stack, "fill", n))) for n in numbers]
    widths, rooms = ([f"2*{radius}{sign}{fill}" for radius, fill in sizes] for sign in "+-")
    draft.length_step("ring width", "Overall width", stack.width_cm, formula=f"MAX({','.join(widths)})",
                      words="twice the radius and a fill")
    draft.length_step("pole room", "Room for the pole", stack.pole_room_cm, formula=f"MAX(0,MIN({','.join(rooms)}))",
                      words="twice the radius less a fill, of the smallest ring")
