"""The checked rows of Jobs, Pieces and Adjustments as jobs."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Container, Mapping, Sequence
from datetime import date

from quoting.checking.crew_rows import access_of
from quoting.checking.job_checks import WE_DELIVER
from quoting.checking.names import folded, natural_order
from quoting.checking.pool import Pool
from quoting.checking.rows import job_of
from quoting.checking.values import RowReader
from quoting.domain.cells import Row
from quoting.domain.jobs import Adjustment, Job, Piece


def jobs_from(pool: Pool, held: Container[str]) -> tuple[Job, ...]:
    """The jobs of the good rows, but for the folded codes `held`, in the order of their codes.

    Each has its pieces in the order of their labels, and what adjusts its price.
    """
    pieces, adjustments = _by_job(pool, "pieces"), _by_job(pool, "adjustments")
    jobs = [
        _job(row, pieces[folded(job_of(row))], (*adjustments[""], *adjustments[folded(job_of(row))]), pool.run_date)
        for row in pool.good("jobs") if folded(job_of(row)) not in held
    ]
    return tuple(sorted(jobs, key=lambda job: natural_order(job.code)))


def pieces_of(pool: Pool, codes: Container[str]) -> tuple[Piece, ...]:
    """The good pieces of the jobs of some folded codes, in the order of the sheet."""
    return tuple(_piece(row) for row in pool.good("pieces") if folded(job_of(row)) in codes)


def _by_job(pool: Pool, sheet_key: str) -> Mapping[str, list[Row]]:
    """The good rows of a sheet by the folded code of their job ("" for none)."""
    rows: dict[str, list[Row]] = defaultdict(list)
    for row in pool.good(sheet_key):
        rows[folded(job_of(row))].append(row)
    return rows


def _job(row: Row, own_pieces: Sequence[Row], adjustments: Sequence[Row], run_date: date) -> Job:
    read = RowReader("jobs", row)
    event = read.needed(read.day("event_date"), "event_date")
    pieces = sorted((_piece(one) for one in own_pieces), key=lambda piece: natural_order(piece.label))
    labels = {folded(piece.label): piece.label for piece in pieces}
    return Job(
        code=job_of(row), client=read.text("client"), contact=read.text("contact"), email=read.text("email"),
        phone=read.text("phone"), event=read.text("event"), venue=read.text("venue"), address=read.text("address"),
        event_date=event, event_time=read.hour("event_time"),
        install_date=read.day("install_date") or event, install_time=read.hour("install_time"),
        strike_date=_strike_date(read, event), strike_time=read.hour("strike_time"),
        is_outdoors=read.text("setting") == "outdoors", is_collected=read.text("handover") != WE_DELIVER,
        distance_km=read.amount("distance"), quote_date=read.day("quote_date") or run_date,
        revision=read.needed(read.whole("revision"), "revision"), exempt_reason=read.text("exempt_reason"),
        deposit=read.amount("deposit"), client_notes=read.text("client_notes"), shop_notes=read.text("shop_notes"),
        pieces=tuple(pieces), row=row, event_end=read.hour("event_end"), is_draughty=read.text("setting") == "draughty",
        ceiling_cm=read.amount("ceiling"), has_sprinklers=_known(row, "sprinklers"),
        door_width_cm=read.amount("door_width"), door_height_cm=read.amount("door_height"),
        way_length_cm=read.amount("way_length"), celsius=read.amount("celsius"), altitude_cm=read.amount("altitude"),
        has_children=read.flag("children"), access=access_of(row),
        adjustments=tuple(_adjustment(one, labels) for one in sorted(adjustments, key=lambda one: one.place)),
    )


def _known(row: Row, key: str) -> bool | None:
    """A yes or no that may be unknown."""
    value = row.get(key)
    return value if isinstance(value, bool) else None


def _strike_date(read: RowReader, event: date) -> date | None:
    """A strike time without a date is on the day of the event."""
    return read.day("strike_date") or (event if read.hour("strike_time") else None)


def _piece(row: Row) -> Piece:
    read = RowReader("pieces", row)
    return Piece(
        job=job_of(row), label=read.text("piece"), form=read.text("form"), title=read.text("title"),
        quantity=read.needed(read.whole("quantity"), "quantity"), price=read.amount("price"),
        client_notes=read.text("client_notes"), shop_notes=read.text("shop_notes"), row=row,
        option_group=read.text("option_group"), is_recommended=read.flag("recommended"), is_add_on=read.flag("add_on"),
    )


def _adjustment(row: Row, labels: Mapping[str, str]) -> Adjustment:
    """One adjustment, its piece spelled as the job's `labels` spell it (folded → as typed)."""
    read = RowReader("adjustments", row)
    return Adjustment(
        name=read.text("name"), is_discount=read.text("kind") == "discount", job=job_of(row),
        piece=labels.get(folded(read.text("piece")), ""), percent=read.amount("percent"), amount=read.amount("amount"),
        notice_days=read.whole("notice_days"), season_from=read.day("season_from"),
        season_until=read.day("season_until"), place=row.place,
    )
