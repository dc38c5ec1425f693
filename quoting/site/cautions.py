"""Safety lines of a job: for the client in the owner's wording, for the crew in plain text."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from quoting.domain.jobs import Job, Piece
from quoting.domain.plans import Plan
from quoting.domain.prices import PriceBook, Shape
from quoting.domain.quotes import Cautions

HIGH_CM = 200.0
"""Common practice, no source: work over 2 m takes two people, as does any ladder."""
WIDE_CM = 300.0
"""Common practice, no source: so do arches over 3 m."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Site:
    """What a job has that people must be warned of."""

    has_latex: bool
    has_foil: bool
    has_lift: bool
    has_children: bool
    is_outdoors: bool
    is_installed: bool
    is_high: bool
    is_wide: bool

    @property
    def has_balloons(self) -> bool:
        """True for balloons of any kind."""
        return self.has_latex or self.has_foil


_CLIENT: tuple[tuple[str, Callable[[_Site], bool]], ...] = (
    ("caution_latex", lambda site: site.has_latex),
    ("caution_choking", lambda site: site.has_balloons),
    ("caution_foil", lambda site: site.has_foil),
    ("caution_helium", lambda site: site.has_lift),
    ("caution_outdoors", lambda site: site.is_outdoors),
    ("caution_children", lambda site: site.has_children and site.has_balloons),
    ("caution_ladder", lambda site: site.is_installed and site.is_high),
    ("caution_exits", lambda site: site.is_installed),
    ("caution_fire", lambda site: site.is_installed and not site.is_outdoors and site.has_balloons),
)
"""Keys of the Wording sheet, and when their phrase stands on the quote."""

_CREW: tuple[tuple[str, Callable[[_Site], bool]], ...] = (
    ("Local code and licensed practice come first; these lines do not replace them.", lambda _: True),
    (
        "Over 2 m high: two people, also for every move of a ladder or lift. Ladder at one out to four up, "
        "on firm ground, three points of contact.",
        lambda site: site.is_high,
    ),
    ("Over 3 m wide: two people.", lambda site: site.is_wide),
    (
        "Keep exits, escape routes, extinguishers, sprinklers, detectors and signs clear.",
        lambda site: site.is_installed,
    ),
    (
        "Fire code: nothing within 18 in (46 cm) below sprinklers or near candles, spotlights and heaters; ask the "
        "venue whether fabric and paper must be flame-retardant.",
        lambda site: site.is_installed and not site.is_outdoors,
    ),
    (
        "Ask about latex allergy before going in; have vinyl or nitrile gloves, no powdered latex ones.",
        lambda site: site.has_latex,
    ),
    (
        "Pick up every burst balloon and scrap at once: small children can choke on them.",
        lambda site: site.has_balloons,
    ),
    (
        "Small children are there: tie everything fast or above their reach, leave nothing uninflated.",
        lambda site: site.has_children and site.has_balloons,
    ),
    (
        "Foil conducts electricity: keep well away from power lines, sockets and switchgear.",
        lambda site: site.has_foil,
    ),
    (
        "Helium: never breathe it in; secure cylinders upright and air the room; tie or weigh everything down.",
        lambda site: site.has_lift,
    ),
    (
        "Outdoors: weigh down every stand before it is let go, watch wind and weather, take pieces down in good time. "
        "Look up for power lines before raising poles or arches. Nothing is ever released.",
        lambda site: site.is_outdoors,
    ),
)


def cautions_for(job: Job, plans: Sequence[tuple[Piece, Plan]], prices: PriceBook) -> Cautions:
    """Give the cautions that what a job has in it calls for, in a fixed order.

    The client's come from the wording under the keys caution_*; a phrase that the
    owner has made empty is left out. The crew's begin with local code. High is a
    built piece over 2 m, wide one over 3 m (common practice, no source).
    """
    site = _site_of(job, plans, prices)
    client = (prices.wording[key] for key, is_called_for in _CLIENT if is_called_for(site))
    return Cautions(
        client=tuple(text for text in client if text.strip()),
        crew=tuple(text for text, is_called_for in _CREW if is_called_for(site)),
    )


def _site_of(job: Job, plans: Sequence[tuple[Piece, Plan]], prices: PriceBook) -> _Site:
    items = {part.item for _, plan in plans for part in plan.parts if part.count}
    shapes = {found.shape for found in map(prices.balloon, items) if found is not None}
    outlines = [plan.outline for _, plan in plans if plan.outline is not None]
    return _Site(
        has_latex=bool(shapes & {Shape.ROUND, Shape.TWISTER}),
        has_foil=Shape.FOIL in shapes,
        has_lift=any(outline.net_lift_g > 0 for outline in outlines),
        has_children=job.has_children,
        is_outdoors=job.is_outdoors,
        is_installed=not job.is_collected,
        is_high=any(outline.height_cm > HIGH_CM for outline in outlines),
        is_wide=any(outline.width_cm > WIDE_CM for outline in outlines),
    )
