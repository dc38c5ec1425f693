"""Lists of the summary about what the batch buys and hires."""

from __future__ import annotations

from datetime import date

from quoting.domain.money import Currency
from quoting.domain.orders import Clash, Purchase, Shortage, SupplierOrder
from quoting.domain.quotes import BuyLine
from quoting.domain.reports import BatchReport
from quoting.writing.file_names import order_files
from quoting.writing.listings import Heading, Link, Listing
from quoting.writing.number_formats import WEEKDAY, WHOLE, amount_format, amount_words
from quoting.writing.pages import CellValue

NO_SUPPLIER = "no supplier named"
_Row = tuple[CellValue | Link, ...]


def _paper(report: BatchReport) -> str:
    return report.sheets[0].quote.paper if report.sheets else "A4"


def _currency(report: BatchReport) -> Currency:
    return report.sheets[0].quote.currency if report.sheets else Currency(code="XXX")


def _purchase(report: BatchReport) -> Purchase:
    return report.purchase or Purchase()


def span_words(first: date, last: date) -> str:
    """Say a run of days: "14 May 2031", or "14 May 2031 to 16 May 2031"."""
    days = [f"{day.day} {day:%b %Y}" for day in (first, last)]
    return days[0] if first == last else " to ".join(days)


def buying_list(report: BatchReport) -> Listing:
    """Give what to buy for all quoted jobs, by item; what is on hand already is left out of the cost."""
    money = amount_format(_currency(report))
    return Listing(
        name="Buying",
        title="Buying list",
        words=_buying_words(report),
        empty="Nothing has to be bought.",
        paper=_paper(report),
        headings=(
            Heading(text="Item", width=210, bold=True),
            Heading(text="Need", width=56, number_format=WHOLE),
            Heading(text="On hand", width=56, number_format=WHOLE),
            Heading(text="Packs to buy", width=130, bold=True),
            Heading(text="Balloons bought", width=70, number_format=WHOLE),
            Heading(text="Supplier", width=150),
            Heading(text="Cost", width=84, number_format=money, is_summed=True),
            Heading(text="Needed by", width=110, number_format=WEEKDAY),
            Heading(text="For jobs", width=150),
            Heading(text="Not to be had in time", width=80, number_format=WHOLE),
        ),
        rows=[_buy_row(line) for line in sorted(report.buying, key=lambda line: line.item.casefold())],
    )


def _buy_row(line: BuyLine) -> _Row:
    packs = ", ".join(f"{packs} × {count}" for count, packs, _, _ in line.packs)
    suppliers = ", ".join(dict.fromkeys(supplier for *_, supplier in line.packs if supplier))
    bought = sum(count * packs for count, packs, _, _ in line.packs)
    told = packs or ("none" if line.short else "none: on hand")
    return (
        line.item, line.need, line.on_hand, told, bought, suppliers, line.cost, line.needed_by,
        ", ".join(line.jobs), line.short or None,
    )


def _buying_words(report: BatchReport) -> str:
    words = "For all quoted jobs, with spares, less what is on hand: the cheapest whole packs that come in time."
    purchase = _purchase(report)
    currency = _currency(report)
    found = purchase.comparison
    if found is not None:
        together, apart = (amount_words(amount, currency) for amount in (found.together, found.one_by_one))
        words += (
            f" Bought together {together} with delivery, {found.together_left} left over; "
            f"one job after the other at least {apart}, {found.one_by_one_left} left over."
        )
    if purchase.gap:
        words += f" Something up to {amount_words(purchase.gap, currency)} cheaper could not be ruled out."
    return words


def orders_list(report: BatchReport) -> Listing:
    """Give one order per supplier, with a link to the workbook to be sent."""
    money = amount_format(_currency(report))
    purchase = _purchase(report)
    files = order_files(purchase.orders)
    return Listing(
        name="Orders",
        title="Orders by supplier",
        words="One workbook each, ready to be sent: no client's name and no price charged is in it.",
        empty="Nothing has to be ordered.",
        paper=_paper(report),
        warned=frozenset({_BELOW}),
        headings=(
            Heading(text="Supplier", width=190, bold=True),
            Heading(text="Lines", width=56, number_format=WHOLE),
            Heading(text="Goods", width=96, number_format=money, is_summed=True),
            Heading(text="Delivery", width=86, number_format=money, is_summed=True),
            Heading(text="Total", width=96, number_format=money, is_summed=True, bold=True),
            Heading(text="Their minimum", width=96, number_format=money),
            Heading(text="There on", width=110, number_format=WEEKDAY),
            Heading(text="First needed", width=110, number_format=WEEKDAY),
            Heading(text="Note", width=150),
            Heading(text="Order", width=80),
        ),
        rows=[_order_row(order, files[order.supplier]) for order in purchase.orders],
    )


_BELOW = "below their minimum: they have no more packs"


def _order_row(order: SupplierOrder, file: str) -> _Row:
    return (
        order.supplier or NO_SUPPLIER, len(order.lines), order.goods, order.charge, order.total,
        order.minimum or None, order.arrives, min(line.needed_by for line in order.lines),
        _BELOW if order.goods < order.minimum else "", Link(path=file, text="open"),
    )


def shares_list(report: BatchReport) -> Listing:
    """Give each job's share of what is bought together; the shares add up to the orders."""
    money = amount_format(_currency(report))
    clients = {result.job: result.client for result in report.results}
    return Listing(
        name="Cost by job",
        title="What is bought, by job",
        words="Shared packs go by what each job uses of them, delivery by each job's goods. A quote's own price "
        "does not hang on its neighbours: it is worked out as if the job were alone.",
        empty="Nothing has to be bought.",
        paper=_paper(report),
        headings=(
            Heading(text="Job", width=80, bold=True),
            Heading(text="Client", width=300),
            Heading(text="Goods", width=110, number_format=money, is_summed=True),
            Heading(text="Delivery", width=110, number_format=money, is_summed=True),
            Heading(text="Total", width=110, number_format=money, is_summed=True, bold=True),
        ),
        rows=[(s.job, clients.get(s.job, ""), s.goods, s.charges, s.total) for s in _purchase(report).shares],
    )


def stock_list(report: BatchReport) -> Listing:
    """Give what is on the shelf once everything is bought and used, by item."""
    purchase = _purchase(report)
    return Listing(
        name="Stock after",
        title="Stock after these jobs",
        words="On hand now, plus what is bought, less what the jobs take with their spares and what is past its day.",
        empty="There is no stock, and none is bought.",
        paper=_paper(report),
        headings=(
            Heading(text="Item", width=300, bold=True),
            *(
                Heading(text=text, width=90, number_format=WHOLE)
                for text in ("On hand now", "Bought", "Used", "Past its day")
            ),
            Heading(text="Left", width=90, number_format=WHOLE, bold=True),
        ),
        rows=[(s.item, s.on_hand, s.bought, s.used, s.expired or None, s.left) for s in purchase.levels],
    )


def tied_up_list(report: BatchReport) -> Listing:
    """Give the money in what is left, dearest first."""
    money = amount_format(_currency(report))
    levels = sorted(_purchase(report).levels, key=lambda level: (-level.value, level.item.casefold()))
    return Listing(
        name="Money tied up",
        title="Money tied up in stock",
        words="What is left after these jobs, at the least price of one in any pack.",
        empty="No stock is left.",
        paper=_paper(report),
        headings=(
            Heading(text="Item", width=300, bold=True),
            Heading(text="Left", width=90, number_format=WHOLE),
            Heading(text="Price of one", width=110, number_format=amount_format(_currency(report))),
            Heading(text="Value", width=110, number_format=money, is_summed=True, bold=True),
        ),
        rows=[(s.item, s.left, s.unit_cost, s.value) for s in levels if s.left],
    )


def clashes_list(report: BatchReport) -> Listing:
    """Give what is promised twice or can't be had in time, by item and day."""
    purchase = _purchase(report)
    rows = [_clash_row(clash) for clash in purchase.clashes] + [_shortage_row(short) for short in purchase.shortages]
    return Listing(
        name="Clashes",
        title="Promised twice, or not to be had in time",
        words="Hired things are out from the install to the strike. Those without a number under Owned aren't checked.",
        empty="Nothing is promised twice, and everything can be there in time.",
        paper=_paper(report),
        headings=(
            Heading(text="Item", width=220, bold=True),
            Heading(text="What", width=130),
            Heading(text="Days", width=180),
            Heading(text="Wanted", width=70, number_format=WHOLE),
            Heading(text="There are", width=70, number_format=WHOLE),
            Heading(text="Short by", width=70, number_format=WHOLE, bold=True),
            Heading(text="Jobs", width=230),
        ),
        rows=sorted(rows, key=lambda row: str(row[0]).casefold()),
    )


def _clash_row(clash: Clash) -> _Row:
    jobs = ", ".join(f"{job} ({count})" for job, count in clash.jobs)
    days = span_words(clash.first, clash.last)
    return clash.item, "promised twice", days, clash.wanted, clash.owned, clash.short, jobs


def _shortage_row(short: Shortage) -> _Row:
    what = "nobody has more" if short.comes is None else f"comes {span_words(short.comes, short.comes)}"
    what = "order later: would not keep" if short.is_early else what
    return short.item, what, f"by {span_words(short.needed_by, short.needed_by)}", None, None, short.count, short.job


def helium_list(report: BatchReport) -> Listing:
    """Give the cylinders to get."""
    money = amount_format(_currency(report))
    gas = _purchase(report).gas
    words = ""
    if gas is not None:
        words = (
            f"{gas.litres:,.0f} litres float, {gas.needed:,} with what is lost in filling; "
            f"{gas.on_hand:,} in full cylinders of your own. A deposit comes back with the empty cylinder."
        )
    return Listing(
        name="Helium",
        title="Helium",
        words=words,
        empty=f"{words} No further cylinder is needed." if gas and not gas.short else f"{words} No cylinder is listed.",
        paper=_paper(report),
        headings=(
            Heading(text="Cylinder", width=240, bold=True),
            Heading(text="Get", width=60, number_format=WHOLE, bold=True),
            Heading(text="Litres each", width=90, number_format=WHOLE),
            Heading(text="Buy or hire", width=90),
            Heading(text="Supplier", width=170),
            Heading(text="Cost", width=100, number_format=money, is_summed=True),
            Heading(text="Deposit", width=100, number_format=money, is_summed=True),
            Heading(text="For jobs", width=170),
        ),
        rows=[
            (
                line.item, line.count, line.litres, "hire" if line.is_hire else "buy", line.supplier, line.cost,
                line.deposit, ", ".join(job for job, _ in gas.jobs),
            )
            for line in gas.cylinders
        ] if gas else [],
    )
