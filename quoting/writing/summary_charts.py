"""Charts of the summary: native ones, drawn from the cells of its lists."""

from __future__ import annotations

from xlsxwriter import Workbook

from quoting.domain.orders import Purchase
from quoting.domain.reports import BatchReport
from quoting.writing.inks import ACCENT, HAIRLINE, INK, QUIET, TYPEFACE, Inks
from quoting.writing.listings import FIRST_ROW
from quoting.writing.phrases import page_foot
from quoting.writing.summary_buying import orders_list, shares_list, tied_up_list

MOST_BARS = 12
_SECOND = "#C98A4B"


def write_charts(workbook: Workbook, inks: Inks, report: BatchReport) -> None:
    """Write the sheet "Charts": spend by supplier, cost by job, money tied up; nothing where nothing is bought."""
    purchase = report.purchase or Purchase()
    if not purchase.orders and not purchase.levels:
        return
    sheet = workbook.add_worksheet("Charts")
    sheet.hide_gridlines(2)
    sheet.write_string(0, 0, "At a glance", inks(size=16, bold=True, color=ACCENT))
    sheet.set_row(0, 26)
    row = 2
    for name, title, words, columns, count in _charts(report):
        if count:
            chart = _bars(workbook, name, title, columns, min(count, MOST_BARS))
            sheet.insert_chart(row, 0, chart, {"description": words, "object_position": 2})
            row += 20
    sheet.set_portrait()
    sheet.set_paper(1 if report.sheets and report.sheets[0].quote.paper == "Letter" else 9)
    sheet.set_footer(page_foot("At a glance"), {"margin": 0.35})
    sheet.print_area(0, 0, row, 11)
    sheet.fit_to_pages(1, 1)


_Columns = tuple[tuple[str, int, str], ...]
"""Series: name, column of its values in the list, colour."""


def _charts(report: BatchReport) -> tuple[tuple[str, str, str, _Columns, int], ...]:
    """Name of the list, title, what it shows for those who can't see it, series, number of rows."""
    pairs = (("Goods", 2, ACCENT), ("Delivery", 3, _SECOND))
    value = (("Value", 3, ACCENT),)
    told = (
        (orders_list(report), "What each supplier gets", "Bars: goods and delivery of each order", pairs),
        (shares_list(report), "What is bought, by job", "Bars: goods and delivery of each job", pairs),
        (tied_up_list(report), "Money tied up in what is left", "Bars: value of what is left, dearest first", value),
    )
    return tuple((listing.name, title, words, columns, len(listing.rows)) for listing, title, words, columns in told)


def _bars(workbook: Workbook, name: str, title: str, columns: _Columns, count: int) -> object:
    chart = workbook.add_chart({"type": "bar", "subtype": "stacked"})
    last = FIRST_ROW + count - 1
    for label, column, colour in columns:
        chart.add_series(
            {
                "name": label,
                "categories": [name, FIRST_ROW, 0, last, 0],
                "values": [name, FIRST_ROW, column, last, column],
                "fill": {"color": colour},
                "gap": 45,
            }
        )
    font = {"name": TYPEFACE, "size": 9, "color": INK}
    chart.set_title({"name": title, "name_font": {**font, "size": 12, "bold": True, "color": ACCENT}, "overlay": False})
    # Bars run from the bottom up, so that the first row of the list stands at the top.
    chart.set_y_axis({"reverse": True, "num_font": font, "line": {"color": HAIRLINE}, "major_tick_mark": "none"})
    lines = {"visible": True, "line": {"color": HAIRLINE}}
    chart.set_x_axis({"num_font": {**font, "color": QUIET}, "line": {"none": True}, "major_gridlines": lines})
    chart.set_legend({"position": "bottom", "font": font} if len(columns) > 1 else {"none": True})
    chart.set_size({"width": 760, "height": 380})
    chart.set_chartarea({"border": {"none": True}})
    return chart
