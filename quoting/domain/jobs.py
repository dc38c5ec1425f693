"""Jobs, their pieces, and the adjustments to their price, as checked."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, time
from decimal import Decimal

from quoting.domain.cells import Row
from quoting.domain.crews import Access
from quoting.domain.places import Place


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One line item: the form it takes and the fields that its form asks for.

    The fields stay in `row`, each with its place, under the keys of the Pieces sheet;
    the piece's form has checked that the ones it needs are there and of the right kind.
    `price` is a fixed price for one piece (None: worked out).
    """

    job: str
    label: str
    form: str
    title: str
    quantity: int
    price: Decimal | None
    client_notes: str
    shop_notes: str
    row: Row
    option_group: str = ""
    """Pieces of one group are alternatives: the recommended one is in the total."""
    is_recommended: bool = False
    is_add_on: bool = False
    """Priced on the quote, but not in the total."""

    def where(self, key: str) -> Place:
        """The place of a field's cell, filled or blank."""
        return self.row.where(key)


@dataclass(frozen=True, slots=True, kw_only=True)
class Adjustment:
    """A discount or surcharge: a percent (a fraction) or an amount, never both.

    `job` and `piece` are "" where it goes for every job, for the whole order.
    `notice_days`: only for jobs quoted fewer days than this before the event.
    `season_from` and `season_until`: only for events between them, both included.
    """

    name: str
    is_discount: bool
    job: str
    piece: str
    percent: Decimal | None
    amount: Decimal | None
    notice_days: int | None
    season_from: date | None
    season_until: date | None
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """One enquiry to be quoted, with its pieces in the order of their labels.

    `exempt_reason` is "" where tax applies. `deposit` overrides the shop's share
    (None: the shop's). `distance_km` None: the distance was not given.
    """

    code: str
    client: str
    contact: str
    email: str
    phone: str
    event: str
    venue: str
    address: str
    event_date: date
    event_time: time | None
    install_date: date
    install_time: time | None
    strike_date: date | None
    strike_time: time | None
    is_outdoors: bool
    is_collected: bool
    distance_km: Decimal | None
    quote_date: date
    revision: int
    exempt_reason: str
    deposit: Decimal | None
    client_notes: str
    shop_notes: str
    pieces: tuple[Piece, ...]
    adjustments: tuple[Adjustment, ...]
    row: Row
    event_end: time | None = None
    """On the day after the event's where it is before the event's time."""
    is_draughty: bool = False
    """Indoors, in the wind of doors or fans."""
    ceiling_cm: Decimal | None = None
    """Floor to the lowest thing above, sprinkler heads included; None: not known. So the next five."""
    has_sprinklers: bool | None = None
    door_width_cm: Decimal | None = None
    door_height_cm: Decimal | None = None
    way_length_cm: Decimal | None = None
    """Longest stiff thing that lift and corners let through; None: any."""
    celsius: Decimal | None = None
    """Temperature at the venue; None: as in the shop. So the altitude over the sea."""
    altitude_cm: Decimal | None = None
    has_children: bool = False
    """Small children are among the guests."""
    access: Access = field(default_factory=Access)

    def where(self, key: str) -> Place:
        """The place of a field's cell, filled or blank."""
        return self.row.where(key)
