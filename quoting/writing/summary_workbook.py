"""The evening's summary for the owner: jobs, what is held and where to mend it, what to buy, days, money, problems."""

from __future__ import annotations

from pathlib import Path

from quoting.domain.reports import BatchReport
from quoting.writing.inks import Inks, open_workbook
from quoting.writing.listings import write_listing
from quoting.writing.summary_buying import (
    buying_list,
    clashes_list,
    helium_list,
    orders_list,
    shares_list,
    stock_list,
    tied_up_list,
)
from quoting.writing.summary_charts import write_charts
from quoting.writing.summary_days import days_list, write_days_chart
from quoting.writing.summary_lists import held_list, jobs_list, payments_list, problems_list


def write_summary(path: Path, report: BatchReport) -> None:
    """Write the summary of an evening; links lead to the files beside it. Equal reports give equal bytes.

    Sheets "Jobs", "Held", "Buying", "Orders", "Cost by job", "Stock after", "Money tied
    up", "Clashes", "Helium" (where something floats), "Days", "Money" and "Problems", each
    sorted, filtered, with headings in view and repeated in print; "Charts" of what is
    bought, "Days chart" of the hours. OSError where `path` can't be written.
    """
    floats = report.purchase is not None and report.purchase.gas is not None
    buying = (buying_list, orders_list, shares_list, stock_list, tied_up_list, clashes_list)
    title = f"Evening of {report.run_date.isoformat()}"
    author = report.sheets[0].quote.shop.name if report.sheets else ""
    with open_workbook(path, title=title, author=author, made=report.run_date) as workbook:
        inks = Inks(workbook)
        for listing in (jobs_list, held_list, *buying, *(helium_list,) * floats):
            write_listing(workbook, inks, listing(report))
        write_charts(workbook, inks, report)
        write_listing(workbook, inks, days_list(report))
        write_days_chart(workbook, inks, report)
        for listing in (payments_list, problems_list):
            write_listing(workbook, inks, listing(report))
