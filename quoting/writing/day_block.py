"""The block of the front page that plans the crew's days: how many people, when what begins, what hours cost more."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime

from quoting.domain.crews import Loads, PlanStep, Visit
from quoting.domain.quotes import JobSheet
from quoting.writing.crew_tables import Field, write_heading, write_table
from quoting.writing.inks import QUIET
from quoting.writing.pages import CellValue, Page

_STEPS = (
    Field(heading="From", first=0, last=1, bold=True),
    Field(heading="Until", first=2, last=2),
    Field(heading="What", first=3, last=5),
    Field(heading="People", first=6, last=6, number_format="0"),
    Field(heading="Minutes", first=7, last=7, number_format="0"),
)


def write_days(page: Page, sheet: JobSheet) -> None:
    """Write the plan of every visit; nothing for a job that the client collects."""
    for number, visit in enumerate(sheet.visits):
        write_heading(page, f"{_NAMES[visit.kind]}, {_day(visit.day)}")
        loads = sheet.loads if number == 0 else None
        page.paragraph(visit_words(visit, loads), 0, len(page.widths) - 1, size=9, color=QUIET)
        write_table(page, _STEPS, [_row(visit, step) for step in visit.steps], size=9)


_NAMES = {"install": "Install", "strike": "Strike"}


def visit_words(visit: Visit, loads: Loads | None) -> str:
    """Say who goes, for how much work, in what, and which hours cost more."""
    people = "1 person" if visit.crew == 1 else f"{visit.crew} people"
    told = [f"{people}, {visit.work_hours:.1f} h of work at the venue in all"]
    if visit.needs_two:
        told.append("two at the least: ladder, lift or something over 2 m high or 3 m wide")
    if loads is not None and (loads.van or loads.count > 1):
        told.append(f"{loads.count} load{'s' * (loads.count > 1)}{f' in {loads.van}' if loads.van else ''}")
    told += [f"{each.hours:.1f} h at {each.factor * 100:f} %".replace(".0 %", " %") + f" ({each.name})"
             for each in visit.rated if each.name]  # fmt: skip
    if visit.billed_hours > visit.work_hours:
        told.append(f"counted as {visit.billed_hours:.2f} h")
    return "; ".join(told) + "."


def _row(visit: Visit, step: PlanStep) -> Sequence[CellValue]:
    return (
        _clock(step.start, visit.day),
        _clock(step.end, visit.day),
        step.what,
        visit.crew,
        step.minutes if step.minutes else None,
    )


def _clock(moment: datetime | None, day: date) -> str:
    """Say a time of day, to the minute; with its date where that is not the visit's."""
    if moment is None:
        return "not set"
    shown = f"{moment:%H:%M}"
    return shown if moment.date() == day else f"{shown} {moment.day} {moment:%b}"


def _day(day: date) -> str:
    return f"{day:%a} {day.day} {day:%B %Y}"
