"""An order to one supplier, ready to be sent: no client's name, nothing that is charged."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

from xlsxwriter.worksheet import Worksheet

from quoting.domain.money import Currency
from quoting.domain.orders import OrderLine, SupplierOrder
from quoting.domain.quotes import ShopCard
from quoting.domain.reports import BatchReport
from quoting.writing.inks import INK, Inks, open_workbook
from quoting.writing.listings import FIRST_ROW, Heading, Listing, write_listing
from quoting.writing.number_formats import WEEKDAY, WHOLE, amount_format, number_words
from quoting.writing.pages import CellValue, write_formula

_COST = 5
"""Column of the cost of a line."""


def write_order(path: Path, order: SupplierOrder, report: BatchReport) -> None:
    """Write one order as a workbook with one sheet; equal reports give equal bytes.

    The report gives the shop's own name and address, its currency and the date. The total
    is a live formula. OSError where `path` can't be written.
    """
    quote = report.sheets[0].quote
    title = f"Order to {order.supplier}" if order.supplier else "Order"
    with open_workbook(path, title=title, author=quote.shop.name, made=report.run_date) as workbook:
        inks = Inks(workbook)
        write_listing(workbook, inks, _listing(order, report, title))
        sheet = workbook.get_worksheet_by_name("Order")
        assert sheet is not None  # the listing made it
        _write_foot(sheet, inks, order, quote.currency)


def _listing(order: SupplierOrder, report: BatchReport, title: str) -> Listing:
    quote = report.sheets[0].quote
    money = amount_format(quote.currency)
    return Listing(
        name="Order",
        title=title,
        words=f"{report.run_date.day} {report.run_date:%B %Y} · {_sender(quote.shop)}",
        empty="",
        paper=quote.paper,
        headings=(
            Heading(text="Item", width=250, bold=True),
            Heading(text="Colour lot", width=90),
            Heading(text="In a pack", width=90),
            Heading(text="Packs", width=60, number_format=WHOLE, bold=True),
            Heading(text="Price of a pack", width=90, number_format=money),
            Heading(text="Cost", width=96, number_format=money, is_summed=True),
            Heading(text="Needed by", width=120, number_format=WEEKDAY),
            Heading(text="Our jobs", width=170),
        ),
        rows=[_row(line) for line in sorted(order.lines, key=lambda line: (line.item.casefold(), -line.count))],
    )


def _row(line: OrderLine) -> tuple[CellValue, ...]:
    held = f"{number_words(Decimal(line.count))} {line.measure}".strip()
    return (
        line.item, line.lot, held, line.packs, line.price, line.cost, line.needed_by, ", ".join(line.jobs),
    )


def _sender(shop: ShopCard) -> str:
    told = (shop.name, " ".join(shop.address.split()), shop.phone, shop.email, shop.tax_number)
    return " · ".join(part for part in told if part)


def _write_foot(sheet: Worksheet, inks: Inks, order: SupplierOrder, currency: Currency) -> None:
    """Below the sum of the goods: delivery, and the total."""
    goods = FIRST_ROW + len(order.lines)
    money = amount_format(currency, signed=True)
    label = inks(size=9, bold=True, align="right")
    sheet.write_string(goods, _COST - 1, "Goods", inks(size=9, bold=True, align="right", top=1, top_color=INK))
    sheet.write_string(goods + 1, _COST - 1, "Delivery", label)
    ink = inks(size=9, num_format=amount_format(currency), align="right")
    sheet.write_number(goods + 1, _COST, float(order.charge), ink)
    sheet.write_string(goods + 2, _COST - 1, "Total", label)
    ink = inks(size=11, bold=True, num_format=money, align="right", top=1, top_color=INK, bottom=6, bottom_color=INK)
    write_formula(sheet, goods + 2, _COST, f"F{goods + 1}+F{goods + 2}", value=order.total, ink=ink)
    sheet.set_row(goods + 2, 20)
    sheet.print_area(0, 0, goods + 2, 7)
