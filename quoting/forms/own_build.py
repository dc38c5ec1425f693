"""The owner's own recipe from the Builds sheet: so much per piece, length, area or ring."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from quoting.domain.codes import problem
from quoting.domain.counts import rounded_up
from quoting.domain.jobs import Piece
from quoting.domain.measures import counted, shown_length
from quoting.domain.plans import Outline, Part, Plan
from quoting.domain.prices import Balloon, BuildRow, Hardware, PriceBook, Shape
from quoting.domain.problems import Outcome
from quoting.forms.attachments import Carrier, add_attachments, fill_of
from quoting.forms.balloon_choice import choose_balloons, colours_of
from quoting.forms.drafts import Draft
from quoting.forms.fields import TIED_ON, fields
from quoting.forms.formulas import rounded_up as rounded_up_formula
from quoting.forms.outlines import outline_of, tube_volume
from quoting.forms.registry import Form
from quoting.forms.ring_parts import listed
from quoting.forms.stands import add_hardware, named_hardware
from quoting.forms.tasks import HANDLING, INFLATE, add_inflating

UNSEEN = frozenset({"base plate", "pole", "topper holder", "weight", "line"})
"""Parts that hold a piece and that no client asks after."""

FOOT_CM, METRE_CM = Decimal("30.48"), Decimal(100)


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """How many of a row's units ("per") a piece has: exact, with its formula, and the fields it needs."""

    needs: tuple[str, ...]
    unit_cm: Decimal = Decimal(1)
    formula: str = ""


MEASURES = {
    "piece": Measure(needs=()),
    "foot": Measure(needs=("length",), unit_cm=FOOT_CM),
    "metre": Measure(needs=("length",), unit_cm=METRE_CM),
    "square foot": Measure(needs=("width", "height"), unit_cm=FOOT_CM),
    "square metre": Measure(needs=("width", "height"), unit_cm=METRE_CM),
    "ring": Measure(needs=("rings",)),
}


def plan(piece: Piece, prices: PriceBook) -> Outcome[Plan | None]:
    """Work out one piece of an owner's build: every row's amount × its measure; things are rounded up row by row.

    Nothing is known of where its balloons hang, so it has no positions. Inflating is
    added for every balloon, but for activities of inflating that the build's own
    rows of work name.
    """
    draft = Draft(piece, prices)
    if not draft.has_all("build"):
        return draft.refused()
    rows = next((rows for name, rows in prices.builds.items() if name.casefold() == draft.text("build").casefold()), ())
    if not rows:
        draft.complain("P520", "build", item=f'"{draft.text("build")}"', hint="")
        return draft.refused()
    measures = _measures(draft, rows)
    if draft.is_held:
        return draft.refused()
    numbered = list(enumerate(rows, 1))
    for number, row in numbered:
        if row.what != "work":
            _add_row(draft, row, number, measures[row.per])
    for part in ("base plate", "pole", "frame"):
        item = named_hardware(draft, part)
        if item is not None:
            add_hardware(draft, item, 1, part)
    if draft.parts or draft.hire:
        words = [f"{part.count} × {part.item}" for part in draft.parts]
        words += [f"{need.count} × {need.item}" for need in draft.hire]
        draft.add_layer(f"{rows[0].build}: {', '.join(words)}", tuple(draft.parts))
    draft.title = rows[0].build
    _describe(draft)
    topper_cm = add_attachments(draft, _carrier(draft))
    work = [(number, row) for number, row in numbered if row.what == "work"]
    add_inflating(draft, leaving_out=frozenset(row.item for _, row in work) & frozenset(INFLATE.values()))
    _add_work(draft, work, measures)
    draft.hidden = sum(part.count for part in draft.parts if part.fill_cm is not None)
    return draft.finished(FORM.name, _outline(draft, topper_cm))


def _measures(draft: Draft, rows: tuple[BuildRow, ...]) -> dict[str, Decimal]:
    """Give the piece's exact measure for every "per" of the rows, with the steps; reports fields that are missing."""
    found: dict[str, Decimal] = {}
    for per in dict.fromkeys(row.per for row in rows):
        measure = MEASURES[per]
        missing = [key for key in measure.needs if not draft.is_filled(key)]
        for key in missing:
            draft.complain("P528", key, per=per, heading=key)
        if missing:
            continue
        value, references = Decimal(1), []
        for key in measure.needs:
            amount = draft.decimal(key) or Decimal(0)
            value *= amount / measure.unit_cm
            _add_given(draft, key, amount)
            references.append(f"{{{key}}}" if key == "rings" else f"{{{key}}}/{_shown(draft, measure.unit_cm)}")
        found[per] = value
        label = {"piece": "One piece", "ring": "Rings"}.get(per, f"Measure in {per}s".replace("foots", "feet"))
        draft.step(f"per {per}", label, float(value), formula="*".join(references))
    return found


def _add_given(draft: Draft, key: str, amount: Decimal) -> None:
    if any(step.key == key for step in draft.steps):
        return
    if key == "rings":
        draft.step(key, "Rings", int(amount), unit="rings")
    else:
        draft.length_step(key, key.capitalize(), amount)


def _shown(draft: Draft, cm: Decimal) -> str:
    return f"{shown_length(float(cm), draft.unit):.10f}".rstrip("0").rstrip(".")


def _complain_row(draft: Draft, row: BuildRow, reason: str) -> None:
    draft.problems.append(problem("P530", row.place, job=draft.piece.job, row=row.place.row, reason=reason))


def _add_row(draft: Draft, row: BuildRow, number: int, measure: Decimal) -> None:
    thing = _balloon(draft, row) if row.what == "balloon" else draft.prices.hardware_item(row.item)
    if thing is None:
        if row.what != "balloon":
            _complain_row(draft, row, f'"{row.item}" is not in the Hardware sheet')
        return
    amount = f"amount {number}"
    draft.step(amount, f"{thing.item} per {row.per}", row.amount)
    exact = f"{{{amount}}}*{{per {row.per}}}"
    count, formula = rounded_up(float(row.amount * measure)), rounded_up_formula(exact)
    if not count or draft.is_slip(count, "build", f"{thing.item}"):
        return
    if isinstance(thing, Hardware):
        add_hardware(draft, thing, count, "build", formula=formula)
        return
    fill = float(row.fill_cm) if row.fill_cm is not None else fill_of(thing)
    if fill > float(thing.size_cm):
        _complain_row(draft, row, f"{draft.short(fill)} is more than {thing.item} takes")
        return
    part = Part(item=thing.item, count=count, role="build", colour=thing.colour, fill_cm=fill)
    draft.add_part(part, formula=formula, words="rounded up to whole ones")


def _balloon(draft: Draft, row: BuildRow) -> Balloon | None:
    """Find the balloon of a row: its item, or its size in the piece's colour of that number."""
    if row.item:
        found = draft.prices.balloon(row.item)
        if found is None:
            _complain_row(draft, row, f'"{row.item}" is not in the Balloons sheet')
        return found
    if row.size is None or row.colour_place is None:
        _complain_row(draft, row, "it has neither an item nor a size with a colour number")
        return None
    colours = colours_of(draft)
    if row.colour_place > len(colours):
        draft.complain("P529", "colours", number=row.colour_place, count=len(colours))
        return None
    shapes = [b.shape for b in draft.prices.balloons if b.size == row.size]
    shape = Shape.ROUND if Shape.ROUND in shapes or not shapes else shapes[0]
    chosen = choose_balloons(draft, shape, row.size, (colours[row.colour_place - 1],))
    return chosen[0] if chosen else None


def _add_work(draft: Draft, rows: list[tuple[int, BuildRow]], measures: dict[str, Decimal]) -> None:
    for number, row in rows:
        if not row.item:
            _complain_row(draft, row, "it names no activity")
            continue
        amount = f"amount {number}"
        draft.step(amount, f"{row.item.capitalize()} per {row.per}", row.amount)
        quantity, formula = row.amount * measures[row.per], f"{{{amount}}}*{{per {row.per}}}"
        draft.add_task(row.item, quantity, size=row.size, formula=formula)
    named = {row.item for _, row in rows}
    for activity in HANDLING:
        if activity not in named:
            draft.add_task(activity, Decimal(1))


def _describe(draft: Draft) -> None:
    sizes = [(key, draft.decimal(key)) for key in ("width", "height", "length")]
    words = [f"{draft.long(cm)} {name}" for (key, cm) in sizes if cm is not None
             for name in [{"width": "wide", "height": "tall", "length": "long"}[key]]]
    if words:
        draft.description.append(", ".join(words))
    plain, named = _plain_balloons(draft), _named_things(draft)
    if plain:
        count = counted(sum(part.count for part, _ in plain), "balloon")
        draft.description.append(f"{count} in {listed(list(dict.fromkeys(colour for _, colour in plain)))}")
    if named:
        draft.description.append(f"{'With ' if plain else ''}{', '.join(named)}")


def _plain_balloons(draft: Draft) -> list[tuple[Part, str]]:
    """Give rounds and twisters with the words of their colours: as the piece's row has them, else as the shelf has."""
    found = []
    for part in draft.parts:
        balloon = draft.prices.balloon(part.item)
        if balloon is not None and balloon.shape is not Shape.FOIL:
            typed = [colour for colour in colours_of(draft) if part.item in draft.chosen.get(colour.casefold(), ())]
            found.append((part, typed[0] if typed else balloon.colour))
    return found


def _named_things(draft: Draft) -> list[str]:
    """Say what a client would count by name: foils and hardware, but not what the piece merely stands or hangs on."""
    things = []
    for item, count in [*((p.item, p.count) for p in draft.parts), *((need.item, need.count) for need in draft.hire)]:
        balloon, hardware = draft.prices.balloon(item), draft.prices.hardware_item(item)
        is_foil = balloon is not None and balloon.shape is Shape.FOIL
        if is_foil or (hardware is not None and hardware.part not in UNSEEN):
            things.append(f"{count} × {item}")
    return things


def _carrier(draft: Draft) -> Carrier | None:
    long_key = "height" if draft.is_filled("height") else "length"
    long, wide = draft.decimal(long_key), draft.decimal("width")
    if long is None or wide is None:
        return None
    if draft.is_filled("wrap"):
        _add_given(draft, long_key, long)
        _add_given(draft, "width", wide)
    height = float(draft.decimal("height") or 0)
    return Carrier(length_cm=float(long), width_cm=float(wide), top_cm=height, length_key=long_key, width_key="width",
                   has_holder=False)


def _outline(draft: Draft, topper_cm: float) -> Outline | None:
    width, height, length = (float(draft.decimal(key) or 0) for key in ("width", "height", "length"))
    longest = max(width, height, length)
    if not longest:
        return None
    wide = width or (length if height else 0.0)
    thick = min(side for side in (width, height, length) if side)
    return outline_of(draft.parts, draft.hire, draft.prices, width_cm=wide or length, height_cm=height + topper_cm,
                      depth_cm=thick, rigid_cm=longest, volume_l=_room_litres(draft) or tube_volume(thick, longest))


def _room_litres(draft: Draft) -> float:
    """Give the room of the balloons in the van, each a cube of its fill."""
    return sum(part.count * part.fill_cm**3 for part in draft.parts if part.fill_cm is not None) / 1000


FORM = Form(
    name="own build",
    summary="Your own recipe from the Builds sheet: so much per piece, length, area or ring.",
    fields=fields("build*", "height", "width", "length", "rings", "colours", *TIED_ON, "base", "pole", "frame"),
    plan=plan,
    example={"build": "Gift corner", "length": "6 ft", "colours": "white, pink"},
)
