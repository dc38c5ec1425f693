"""The workshop sheet: what the crew takes, builds and knows, and every figure's workings."""

from __future__ import annotations

from pathlib import Path

from quoting.domain.quotes import JobSheet
from quoting.writing.build_pages import write_build
from quoting.writing.file_names import numbered
from quoting.writing.front_page import write_front
from quoting.writing.inks import Inks, open_workbook
from quoting.writing.pages import Page
from quoting.writing.phrases import page_foot, page_head, sheet_name
from quoting.writing.pictures.job_pictures import JobPictures
from quoting.writing.pull_list import write_pull_list
from quoting.writing.workings_sheet import LEAST_SCALE, WIDTHS, place_steps, split_by_money, write_workings

WORKINGS, PRICES = "Workings", "Prices (shop only)"
"""Sheets of workings. The prices are the last sheet, and say on every page that they are not the crew's."""
_SHOP_ONLY = "Shop only \N{EM DASH} not for the crew"
_TRY_OUT = "Change a shaded figure to see what it would come to; the other sheets stay as quoted."

PAGE_WIDTHS = (32, 62, 110, 106, 96, 74, 76, 88)
"""Pixels of the columns of the crew's pages, which share one grid."""


def write_workshop(path: Path, sheet: JobSheet, pictures: JobPictures | None = None) -> None:
    """Write a job's workshop workbook: front page, pull list, a build page per piece, workings.

    Build pages have the larger pictures, with the numbers of their steps.

    Sheets "Workshop", "Pull list", "Build …" and "Workings" hold no money, so that they
    can be handed to the crew; "Prices (shop only)" comes last and holds the rest. Every step of the
    workings is a live formula over earlier steps. Equal job sheets give equal bytes.
    OSError where `path` can't be written.
    """
    title = f"{numbered(sheet.quote)} workshop"
    with open_workbook(path, title=title, author=sheet.quote.shop.name, made=sheet.quote.quote_date) as workbook:
        inks = Inks(workbook)
        paper, foot = sheet.quote.paper, page_foot(f"{title} · {sheet.quote.client}")

        def page(name: str, widths: tuple[int, ...] = PAGE_WIDTHS) -> Page:
            return Page(workbook.add_worksheet(name), inks, widths)

        front = page("Workshop")
        write_front(front, sheet)
        front.set_paper(paper, foot=foot, is_even=True)
        pulled = page("Pull list")
        write_pull_list(pulled, sheet)
        pulled.set_paper(paper, foot=foot, is_even=True)
        drawn = pictures.for_workshop() if pictures is not None else {}
        taken = {"workshop", "pull list", WORKINGS.casefold(), PRICES.casefold()}
        for piece in sheet.pieces:
            built = page(_build_name(piece.label, taken))
            write_build(built, sheet, piece, drawn.get(piece.label))
            built.set_paper(paper, foot=foot, is_even=True)
        crew, priced = split_by_money(sheet.workings, sheet.quote.currency)
        cells = place_steps({WORKINGS: crew, PRICES: priced})
        for name, sections, words, head in (
            (WORKINGS, crew, _TRY_OUT, ""),
            (PRICES, priced, f"{_SHOP_ONLY}: costs and prices. {_TRY_OUT}", page_head(_SHOP_ONLY)),
        ):
            workings = page(name, WIDTHS)
            heading = f"{name}, {numbered(sheet.quote)}"
            write_workings(workings, sections, cells, title=heading, subtitle=words, currency=sheet.quote.currency)
            workings.set_paper(paper, foot=foot, head=head, repeated=2, repeated_until=workings.row,
                               least_scale=LEAST_SCALE, is_even=True)


def _build_name(label: str, taken: set[str]) -> str:
    """Give a sheet name for a piece that no other sheet has, whatever the case."""
    wanted = sheet_name(f"Build {label}", "Build")
    name, number = wanted, 1
    while name.casefold() in taken:
        number += 1
        tail = f" ({number})"
        name = wanted[: 31 - len(tail)] + tail
    taken.add(name.casefold())
    return name
