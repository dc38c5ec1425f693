"""Days of the summary: hours and people per date over all jobs, against what the shop has, with a chart."""

from __future__ import annotations

from decimal import Decimal

from xlsxwriter import Workbook

from quoting.domain.crews import DayJob, WorkDay
from quoting.domain.reports import BatchReport
from quoting.writing.inks import ACCENT, HAIRLINE, INK, QUIET, TYPEFACE, Inks
from quoting.writing.listings import FIRST_ROW, Heading, Listing
from quoting.writing.number_formats import WEEKDAY, WHOLE
from quoting.writing.phrases import page_foot

_HOURS = "0.0"
OVER = "overbooked"


def days_list(report: BatchReport) -> Listing:
    """Give every date that has work: hours by place, what the shop has, people at once, the jobs."""
    return Listing(
        name="Days",
        title="Days",
        words="Hours of one pair of hands. Prep stands on the days before the install that latex keeps, helium and "
        "loading on the day itself; what is done after midnight on the next date.",
        empty="No job is quoted.",
        paper=report.sheets[0].quote.paper if report.sheets else "A4",
        warned=frozenset({OVER}),
        headings=(
            Heading(text="Day", width=112, number_format=WEEKDAY, bold=True),
            Heading(text="Workshop", width=64, number_format=_HOURS, is_summed=True),
            Heading(text="Venue", width=58, number_format=_HOURS, is_summed=True),
            Heading(text="Road, unloading", width=68, number_format=_HOURS, is_summed=True),
            Heading(text="All hours", width=62, number_format=_HOURS, is_summed=True, bold=True),
            Heading(text="Hours you have", width=66, number_format=_HOURS),
            Heading(text="People out at once", width=68, number_format=WHOLE),
            Heading(text="", width=78),
            Heading(text="Jobs", width=330),
        ),
        rows=[
            (
                day.day,
                _sum(day, "workshop"),
                _sum(day, "venue"),
                _sum(day, "travel"),
                day.hours,
                day.available,
                day.crew or None,
                OVER if day.is_overbooked else "",
                "\n".join(_job(job) for job in day.jobs),
            )
            for day in report.days
        ],
    )


def _sum(day: WorkDay, part: str) -> Decimal:
    return sum((getattr(job, part) for job in day.jobs), Decimal(0))


def _job(job: DayJob) -> str:
    parts = (("workshop", job.workshop), ("venue", job.venue), ("road", job.travel))
    told = ", ".join(f"{name} {hours:.1f} h" for name, hours in parts if hours)
    people = f", {job.crew} {'person' if job.crew == 1 else 'people'}" if job.crew else ""
    return f"{job.job} {job.client}: {told}{people}"


def write_days_chart(workbook: Workbook, inks: Inks, report: BatchReport) -> None:
    """Write the sheet "Days chart": hours of every date by place, with the line of what the shop has."""
    if not report.days:
        return
    sheet = workbook.add_worksheet("Days chart")
    sheet.hide_gridlines(2)
    sheet.write_string(0, 0, "Hours by day", inks(size=16, bold=True, color=ACCENT))
    sheet.set_row(0, 26)
    font = {"name": TYPEFACE, "size": 9, "color": INK}
    last = FIRST_ROW + len(report.days) - 1
    chart = workbook.add_chart({"type": "column", "subtype": "stacked"})
    for name, column, colour in (("Workshop", 1, ACCENT), ("Venue", 2, "#C98A4B"), ("Road, unloading", 3, QUIET)):
        chart.add_series(
            {
                "name": name, "categories": ["Days", FIRST_ROW, 0, last, 0],
                "values": ["Days", FIRST_ROW, column, last, column], "fill": {"color": colour}, "gap": 45,
            }
        )
    if report.days[0].available is not None:
        line = workbook.add_chart({"type": "line"})
        line.add_series(
            {
                "name": "Hours you have", "categories": ["Days", FIRST_ROW, 0, last, 0],
                "values": ["Days", FIRST_ROW, 5, last, 5], "line": {"color": INK, "width": 1.5, "dash_type": "dash"},
            }
        )
        chart.combine(line)
    lines = {"visible": True, "line": {"color": HAIRLINE}}
    turned = {"num_font": {**font, "rotation": -45}, "num_format": "ddd d mmm", "text_axis": True}
    chart.set_x_axis({**turned, "line": {"color": HAIRLINE}, "major_tick_mark": "none"})
    chart.set_y_axis({"num_font": font, "major_gridlines": lines, "line": {"none": True}, "num_format": "0",
                      "name": "Hours", "name_font": font, "min": 0})  # fmt: skip
    chart.set_legend({"position": "bottom", "font": font})
    chart.set_size({"width": 980, "height": 420})
    chart.set_chartarea({"border": {"none": True}})
    told = "Columns: hours in the workshop, at venues and on the road for each date; line: the hours the shop has"
    sheet.insert_chart(2, 0, chart, {"description": told, "object_position": 2})
    sheet.set_landscape()
    sheet.set_paper(1 if report.sheets and report.sheets[0].quote.paper == "Letter" else 9)
    sheet.set_footer(page_foot("Hours by day"), {"margin": 0.35})
    sheet.print_area(0, 0, 24, 15)
    sheet.fit_to_pages(1, 1)
