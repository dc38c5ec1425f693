"""The days on which a job may be prepared: one rule for the diary of work and for what has to be there by then."""

from __future__ import annotations

from datetime import date, timedelta

from quoting.domain.crews import CrewRules
from quoting.domain.quotes import JobSheet


def prep_days(sheet: JobSheet, rules: CrewRules, run_date: date) -> tuple[date, date]:
    """Give the first and the last day that a job's prep may fall on, both included.

    As late as the day before the install, or the install's own day where air-filled
    latex keeps no day; as early as it keeps, but not before the run's date. Work goes
    on earlier days only where the shop says how many hours it has on a day. Where
    nothing is left of these days, it is the day of the install.
    """
    last = sheet.install_date - timedelta(days=1 if rules.good_days else 0)
    if last < run_date:
        return sheet.install_date, sheet.install_date
    if rules.hours_per_day is None:
        return last, last
    return max(sheet.install_date - timedelta(days=rules.good_days), run_date), last
