"""The filler clusters of an organic garland: how many, of which sizes and colours, and where they sit."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from quoting.domain.counts import nearest_count, shared_counts
from quoting.domain.plans import Part, Position
from quoting.domain.prices import Balloon, Shape
from quoting.forms.balloon_choice import choose_balloons
from quoting.forms.drafts import Draft
from quoting.forms.formulas import kept_all, nearest
from quoting.forms.patterns import Pattern, walk_colours
from quoting.forms.share_workings import add_given_shares, add_shared, read_shares
from quoting.geometry.curves import CurvePoint

PER_CLUSTER = 3
"""Balloons of a filler cluster; common practice, no source."""

GOLDEN = (math.sqrt(5) - 1) / 2
"""Multiples of it, less their whole parts, never bunch: clusters look strewn and yet fall the same way every time."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fillers:
    """What fills a garland. `balloons` are, size after size, one per colour; lengths in cm."""

    fullness: str
    per_metre: float
    faces: int
    sizes: tuple[int, ...]
    size_shares: tuple[Fraction, ...]
    colours: tuple[str, ...]
    colour_shares: tuple[Fraction, ...]
    balloons: tuple[tuple[Balloon, ...], ...]
    clusters: int = 0

    @property
    def count(self) -> int:
        """Balloons in all clusters."""
        return self.clusters * PER_CLUSTER

    @property
    def largest_cm(self) -> float:
        """The largest fill."""
        return max(fill_cm(balloon) for row in self.balloons for balloon in row)

    def walk(self) -> tuple[Balloon, ...]:
        """Give every balloon in order: sizes spread evenly over all, colours evenly over the balloons of a size."""
        labels = tuple(str(size) for size in self.sizes)
        sizes = _spread(labels, self.size_shares, self.count)
        per_size = shared_counts(self.count, self.size_shares)
        colours = [iter(_spread(self.colours, self.colour_shares, count)) for count in per_size]
        return tuple(self.balloons[size][next(colours[size])] for size in sizes)


def _spread(labels: tuple[str, ...], shares: tuple[Fraction, ...], count: int) -> tuple[int, ...]:
    pattern = Pattern(name="mix", colours=labels, shares=shares)
    return walk_colours(pattern, 1, count)[0] if count else ()


def fill_cm(balloon: Balloon) -> float:
    """Give a filler's diameter: its usual fill, which `read_fillers` has made sure of."""
    assert balloon.usual_fill_cm is not None, "a filler has a usual fill"
    return float(balloon.usual_fill_cm)


def read_fillers(
    draft: Draft, colours: tuple[str, ...], shares: tuple[Fraction, ...], length_cm: float
) -> Fillers | None:
    """Read the fillers along a line of this length; reports at their cells. Colours left blank are the spine's."""
    own = tuple(" ".join(str(colour).split()) for colour in draft.items("filler_colours"))
    key = "filler_colours" if own else "colours"
    if own or draft.is_filled("filler_shares"):
        read = read_shares(draft, "filler_shares", len(own or colours), "colours")
    else:
        read = shares
    sizes = tuple(dict.fromkeys(size for size in draft.items("filler_sizes") if isinstance(size, int)))
    size_shares = read_shares(draft, "filler_size_shares", len(sizes), "sizes")
    balloons = [_balloons(draft, size, own or colours, key) for size in sizes]
    found = tuple(row for row in balloons if row is not None)
    if read is None or size_shares is None or len(found) < len(sizes):
        return None
    shop, fullness = draft.prices.shop, draft.text("fullness") or "medium"
    per_metre = {"light": shop.fillers_light, "medium": shop.fillers_medium, "full": shop.fillers_full}[fullness]
    faces = 1 if draft.text("faces") == "one" else 2
    clusters = faces * nearest_count(length_cm / 100 * float(per_metre))
    return Fillers(fullness=fullness, per_metre=float(per_metre), faces=faces, sizes=sizes, size_shares=size_shares,
                   colours=own or colours, colour_shares=read, balloons=found, clusters=clusters)


def _balloons(draft: Draft, size: int, colours: tuple[str, ...], key: str) -> tuple[Balloon, ...] | None:
    stocked = draft.prices.sizes(Shape.ROUND)
    if size not in stocked:
        draft.complain("P525", "filler_sizes", size=size, sizes=", ".join(f"{one} in" for one in stocked))
        return None
    found = choose_balloons(draft, Shape.ROUND, size, colours, key)
    if found is not None and any(balloon.usual_fill_cm is None for balloon in found):
        draft.complain("P562", "filler_sizes", size=size)
        return None
    return found


def add_filler_parts(draft: Draft, fillers: Fillers) -> tuple[Part, ...]:
    """Add the workings of all fillers, from the earlier step "length", and one part per balloon."""
    _add_cluster_steps(draft, fillers)
    if not fillers.count:
        return ()
    sizes = [f"fillers of {size} in" for size in fillers.sizes]
    add_given_shares(draft, "filler size", sizes, fillers.size_shares)
    per_size = add_shared(draft, name="filler size", of="fillers", shares_of="filler size", labels=sizes,
                          shares=fillers.size_shares, whole=fillers.count)
    add_given_shares(draft, "filler", fillers.colours, fillers.colour_shares)
    keys: dict[str, list[str]] = {}
    for number, (size, count) in enumerate(zip(fillers.sizes, per_size, strict=True), 1):
        labels = [f"{size} in fillers {colour}" for colour in fillers.colours]
        add_shared(draft, name=f"filler {size} in", of=f"filler size {number}", shares_of="filler", labels=labels,
                   shares=fillers.colour_shares, whole=count)
        for place, balloon in enumerate(fillers.balloons[number - 1], 1):
            keys.setdefault(balloon.item, []).append(f"filler {size} in {place}")
    walked = Counter(balloon.item for balloon in fillers.walk())
    parts = []
    for balloon in {b.item: b for row in fillers.balloons for b in row}.values():
        if walked[balloon.item]:
            part = Part(item=balloon.item, count=walked[balloon.item], role="filler", colour=balloon.colour,
                        fill_cm=fill_cm(balloon))
            draft.add_part(part, formula=kept_all(keys[balloon.item]), words="sizes and colours by their shares")
            parts.append(part)
    return tuple(parts)


def _add_cluster_steps(draft: Draft, fillers: Fillers) -> None:
    draft.step("fillers per metre", f"Filler clusters per metre of one face, {fillers.fullness}", fillers.per_metre,
               words="Shop sheet", unit="clusters")
    draft.step("faces", "Faces", fillers.faces)
    per_unit = "0.0254" if draft.unit == "in" else "0.01"
    draft.step("filler clusters", "Filler clusters", fillers.clusters, unit="clusters",
               formula=f"{{faces}}*{nearest(f'({{length}}*{per_unit}*{{fillers per metre}})')}",
               words="the nearest count on each face, a tie takes more")
    draft.step("per filler", "Balloons per filler cluster", PER_CLUSTER, unit="balloons")
    draft.step("fillers", "Fillers", fillers.count, formula="{filler clusters}*{per filler}", unit="balloons")


def filler_reach(fillers: Fillers, spine_cm: float) -> float:
    """How far from the middle line the outermost filler reaches on a spine whose balloons reach `spine_cm`."""
    return _seat(spine_cm, fillers.largest_cm) + fillers.largest_cm / 2


def _seat(spine_cm: float, diameter_cm: float) -> float:
    """Distance of a filler's centre from the middle line: it sits in the hollows of the spine, small ones deeper."""
    return 0.75 * spine_cm + 0.2 * diameter_cm


def filler_positions(
    fillers: Fillers, follow: Callable[[float], CurvePoint], length_cm: float, spine_cm: float, layer: int
) -> tuple[Position, ...]:
    """Give one position per filler: clusters strewn along and round the line, their balloons round a middle.

    With one face all clusters sit on the half towards the viewer.
    """
    walk = fillers.walk()
    positions = []
    for cluster in range(fillers.clusters):
        members = walk[cluster * PER_CLUSTER : (cluster + 1) * PER_CLUSTER]
        along = (cluster + 0.5) / fillers.clusters
        turn = (0.5 + cluster * GOLDEN) % 1
        around = math.pi * (0.1 + 0.8 * turn) if fillers.faces == 1 else 2 * math.pi * turn
        spread = sum(fill_cm(balloon) for balloon in members) / PER_CLUSTER / math.sqrt(3)
        for number, balloon in enumerate(members):
            angle = 2 * math.pi * (number / PER_CLUSTER + cluster * GOLDEN)
            diameter = fill_cm(balloon)
            seat = _seat(spine_cm, diameter)
            share = min(1.0, max(0.0, along + spread * math.cos(angle) / length_cm))
            positions.append(_placed(balloon, follow(share), seat, around + spread * math.sin(angle) / seat, layer))
    return tuple(positions)


def _placed(balloon: Balloon, at: CurvePoint, seat_cm: float, around: float, layer: int) -> Position:
    x, y, direction = at
    across = seat_cm * math.cos(around)
    return Position(
        x_cm=x + across * math.sin(direction), y_cm=y - across * math.cos(direction), z_cm=seat_cm * math.sin(around),
        diameter_cm=fill_cm(balloon), colour=balloon.colour, item=balloon.item, role="filler", layer=layer)
