"""The evening's summary for the owner: jobs, what is held and where to mend it, what to buy, days, money, problems."""

from __future__ import annotations

from pathlib import Path

from quoting.domain.reports import BatchReport
from quoting.writing.inks import Inks, open_workbook
from quoting.writing.listings import write_listing
from quoting.writing.summary_lists import buying_list, days_list, held_list, jobs_list, payments_list, problems_list


def write_summary(path: Path, report: BatchReport) -> None:
    """Write the summary of an evening; links lead to the files beside it. Equal reports give equal bytes.

    Sheets "Jobs", "Held", "Buying", "Days", "Money" and "Problems", each sorted,
    filtered, with headings in view and repeated in print. OSError where `path` can't
    be written.
    """
    title = f"Evening of {report.run_date.isoformat()}"
    author = report.sheets[0].quote.shop.name if report.sheets else ""
    with open_workbook(path, title=title, author=author, made=report.run_date) as workbook:
        inks = Inks(workbook)
        for listing in (jobs_list, held_list, buying_list, days_list, payments_list, problems_list):
            write_listing(workbook, inks, listing(report))
