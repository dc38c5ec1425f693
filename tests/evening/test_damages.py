"""Single cells of the good samples damaged: reported at that very cell, or nothing changes.

Seeded, so that the same 500 repeat. The books are read once; each damage is done to the
cells as read, and everything after reading runs as on any evening. A smaller number is
done to real files, to see that reading itself names the cell.
"""

from __future__ import annotations

import random
import shutil
from dataclasses import replace
from datetime import datetime
from pathlib import Path

import openpyxl
import pytest
from damages import BROKEN, NAMING, SAME, TYPO, Damage, choose, damaged, filled_cells
from scenes import RUN_DATE, SAMPLES, jobs_of, sample_books

from quoting.batch import price_job, run_evening, work_out
from quoting.checking.books import check_tables
from quoting.checking.layouts import book_layouts
from quoting.domain.cells import Book, Sheet
from quoting.domain.problems import Problem, holds
from quoting.reading.tables import read_tables
from quoting.reading.workbooks import read_book

KEPT_JOBS = {
    "dollars": ("402", "404", "405", "406", "413-hire", "431-wind", "432-foyer"),
    "euros": ("E21", "E22", "E24", "E25"),
}
"""Jobs that stay in the books: all forms, patterns and ways of charging, and quick to work out 500 times."""


JOB_COLUMN = {"Jobs": 1, "Pieces": 1, "Adjustments": 3}
HEADING_ROW = 4


class Scene:
    """The books of a sample as read, cut to the jobs kept, and what comes of them undamaged."""

    def __init__(self, name: str) -> None:
        jobs = KEPT_JOBS[name]
        used = {line.item for job in jobs for line in jobs_of(name)[job].stock}
        self.books = [_cut(read_book(path).value, jobs, used) for path in sample_books(name)]
        self.read = {(book.name, sheet.name): _tables(book, sheet) for book in self.books for sheet in book.sheets}
        self.sheets: dict[str, tuple[object, object]] = {}
        self.prices: object = None
        amounts, problems, jobs, prices = self._worked_out(self.read.values())
        self.amounts, self.problems = amounts, frozenset(problems)
        self.sheets, self.prices = jobs, prices
        self.currency = prices.shop.currency.code

    def after(self, damage: Damage) -> tuple[dict[str, object], list[Problem]]:
        """What comes of the books with one cell changed: amounts of each quoted job, and all problems.

        Sheets don't depend on each other in reading, so only the damaged one is read again.
        """
        book = damaged(next(b for b in self.books if b.name == damage.place.workbook), damage)
        sheet = next(s for s in book.sheets if s.name == damage.place.sheet)
        return self._worked_out({**self.read, (book.name, sheet.name): _tables(book, sheet)}.values())[:2]

    def _worked_out(self, tables):
        checked = check_tables([t for outcome in tables for t in outcome.value], RUN_DATE)
        problems = [p for outcome in tables for p in outcome.problems] + list(checked.problems)
        amounts, jobs = {}, {}
        same_prices = checked.value.prices == self.prices
        for job in checked.value.jobs if checked.value.prices else ():
            before = self.sheets.get(job.code)
            if same_prices and before is not None and before[0] == job:
                jobs[job.code] = before  # the same values give the same sheet
            else:
                jobs[job.code] = (job, price_job(job, checked.value.prices))
            outcome = jobs[job.code][1]
            problems += outcome.problems
            if outcome.value is not None and not holds(p for p in problems if p.job == job.code):
                amounts[job.code] = _amounts(outcome.value)
        return amounts, problems, jobs, checked.value.prices


def _tables(book: Book, sheet: Sheet):
    return read_tables(replace(book, sheets=(sheet,)), book_layouts())


def _amounts(sheet) -> tuple[object, ...]:
    quote = sheet.quote
    totals = quote.totals
    return (
        tuple((line.quantity, line.unit_price, line.amount) for line in quote.lines),
        (totals.subtotal, totals.discount, totals.charges, totals.tax, totals.total, totals.payable),
        sorted((tax.rate, tax.taxable, tax.amount) for tax in totals.taxes),
        quote.terms,
        quote.currency,
        sorted((line.need, line.with_spares, line.charged_count) for line in sheet.stock),
        sheet.cost,
        sheet.hours,
        sorted(line.count for line in sheet.hire),
    )


def _cut(book: Book, jobs, used) -> Book:
    """The same book without the rows of other jobs, and of balloons that these jobs don't take."""

    def is_kept(name: str, number: int, row) -> bool:
        if number <= HEADING_ROW:
            return True
        if name == "Balloons":
            return row[1].value in used
        if name not in JOB_COLUMN:
            return True
        code = row.get(JOB_COLUMN[name])
        return code is None or str(code.value) in jobs

    sheets = tuple(
        replace(s, rows={n: r for n, r in s.rows.items() if is_kept(s.name, n, r)}) for s in book.sheets
    )
    return replace(book, sheets=sheets)


@pytest.fixture(scope="module", params=["dollars", "euros"])
def scene(request) -> tuple[str, Scene]:
    return request.param, Scene(request.param)


def test_the_scene_is_whole(scene):
    name, made = scene
    assert sorted(made.amounts) == sorted(KEPT_JOBS[name])
    assert not holds(made.problems)


def test_250_damages_of_single_cells(scene):
    name, made = scene
    wrong, kinds = [], {BROKEN: 0, SAME: 0, TYPO: 0}
    for damage in damages_of(name, made, 250):
        kinds[damage.what] += 1
        amounts, problems = made.after(damage)
        complaint = judged(damage, made, amounts, problems)
        if complaint:
            wrong.append(f"{damage}\n      {complaint}")
    assert not wrong, f"{len(wrong)} of 250:\n" + "\n".join(wrong)
    assert min(kinds.values()) >= 10, kinds


def damages_of(name: str, made: Scene, count: int) -> list[Damage]:
    by_book = {
        book.name: [
            cell
            for (owner, _), outcome in made.read.items()
            if owner == book.name
            for cell in filled_cells(outcome.value, book_layouts())
        ]
        for book in made.books
    }
    columns = {name: len({(cell[0], cell[1].key) for cell in cells}) for name, cells in by_book.items()}
    chosen: list[Damage] = []
    for book in made.books:
        share = round(count * columns[book.name] / sum(columns.values()))
        chosen += choose(book, by_book[book.name], share, seed=2031, currency=made.currency)
    return chosen


def judged(damage: Damage, made: Scene, amounts, problems) -> str:
    """What is wrong with the outcome of a damage, or "".

    Broken: a new problem stands at that very cell. The same value: no job changes and nothing new is said. A typo:
    no job changes, or a new problem stands at that very cell. One exception, for typos in the columns `NAMING` and only
    while no quoted amount changes: there the cell has become a legitimate other name, so each job held must be told at
    a cell that calls for the old one, or by a problem that names the changed cell by its address in its words (rows of
    one item that disagree: either may be meant). Whatever the damage, no quoted job's amounts change unless that very
    cell has a problem.
    """
    if any(p.code == "P901" for p in problems):
        return next(str(p) for p in problems if p.code == "P901")
    new = [p for p in problems if p not in made.problems]
    is_named = any(p.place == damage.place for p in new)
    changed = [job for job, before in made.amounts.items() if amounts.get(job, before) != before]
    gone = [job for job in made.amounts if job not in amounts]
    outcome = f"{_shown(new)}; other amounts for {changed}, held {gone}"
    if damage.what == SAME:
        unseen = {replace(p, seen="") for p in made.problems}  # a note may quote the cell, which looks another way now
        is_more = any(replace(p, seen="") not in unseen for p in new)
        return f"the same value, but {outcome}" if changed or gone or is_more else ""
    if is_named or (damage.what == TYPO and not changed and not gone):
        return ""
    if changed or damage.what != TYPO or (damage.sheet_key, damage.key) not in NAMING:
        return f"not reported there; {outcome}"
    untold = [job for job in gone if not any(calls_for(damage, p) for p in new if p.job in (job, ""))]
    return f"not told where the old name is called for: {untold}; {outcome}" if untold else ""


def calls_for(damage: Damage, found: Problem) -> bool:
    """True where a problem stands at another cell that calls for the name a damaged cell had, or names that cell."""
    is_caller = found.place.column > 0 and found.place.sheet in ("Pieces", "Builds")
    return (is_caller and str(damage.was).casefold() in found.seen.casefold()) or str(damage.place) in found.why


def _shown(problems) -> str:
    return "; ".join(str(p) for p in problems[:3]) or "no problem"


REAL_DAMAGES = [
    ("Pieces", "Height", "about 2 m"), ("Pieces", "Quantity", "#REF!"),
    ("Pieces", "Form", "ring colum"), ("Pieces", "Fill", datetime(2031, 2, 3)),
    ("Pieces", "Accents", "3 x Paper fun"),
    ("Pieces", "Topper", "Foil moon"),
    ("Pieces", "Balloons per ring", 9),
    ("Pieces", "Job", "E29"), ("Jobs", "Client", None),
    ("Jobs", "Distance", "=1/0"), ("Jobs", "Event date", "=TODAY()"),
    ("Adjustments", "Percent", "a little"), ("Adjustments", "Kind", "gift"),
]
"""The first adjustment is for every job, so a mistake in it holds them all."""


@pytest.mark.parametrize(("sheet", "heading", "value"), REAL_DAMAGES)
def test_a_damaged_file_names_the_cell(sheet, heading, value, tmp_path):
    prices, jobs = SAMPLES / "euros" / "price sheets.xlsx", tmp_path / "jobs.xlsx"
    book = openpyxl.load_workbook(SAMPLES / "euros" / "jobs summer.xlsx")
    cell = _first_below(book[sheet], heading)
    cell.value = value
    book.save(jobs)
    report = work_out([prices, jobs], RUN_DATE)
    named = [p for p in report.problems if (p.place.sheet, p.place.cell) == (sheet, cell.coordinate)]
    assert named, [str(p) for p in report.problems]
    assert not [p for p in report.problems if p.code == "P901"]
    quoted = [r.job for r in report.results if r.sheet is not None]
    assert len(quoted) == 0 if sheet == "Adjustments" else len(quoted) >= 5, quoted


def sampled() -> list[Damage]:
    """Six of the euros' damages that must be reported."""
    made = Scene("euros")
    broken = [damage for damage in damages_of("euros", made, 250) if damage.what == BROKEN]
    return random.Random(2031).sample(broken, 6)


def test_six_damaged_files_go_through_the_whole_evening(tmp_path):
    """Papers are written for every job left, and both the report and the marked copy name the cell."""
    for number, damage in enumerate(sampled()):
        books = tmp_path / str(number)
        shutil.copytree(SAMPLES / "euros", books)
        _type_in(books / damage.place.workbook, damage)
        report, written = run_evening([books], tmp_path / "out" / str(number), RUN_DATE)
        assert damage.place in {p.place for p in report.problems}, str(damage)
        assert not [p for p in report.problems if p.code == "P901"], str(damage)
        quoted = [result for result in report.results if result.sheet is not None]
        assert len(list(written.folder.glob("quotes/*.xlsx"))) == len(quoted), str(damage)
        (marked,) = written.folder.glob(f"marked/{Path(damage.place.workbook).stem}*.xlsx")
        copy = openpyxl.load_workbook(marked)
        assert copy[damage.place.sheet][damage.place.cell].comment is not None, str(damage)


def _type_in(path, damage: Damage) -> None:
    """The damage done to a file. A formula never worked out is one saved without its result."""
    book = openpyxl.load_workbook(path)
    cell = book[damage.place.sheet].cell(damage.place.row, damage.place.column)
    if damage.cell is None:
        cell.value = None
    else:
        cell.value = "=1+1" if damage.cell.is_uncalculated else damage.cell.value
        cell.number_format = damage.cell.number_format
    book.save(path)


def _first_below(sheet, heading):
    for row in sheet.iter_rows():
        for cell in row:
            if isinstance(cell.value, str) and cell.value.split(" (")[0] == heading:
                return next(
                    sheet.cell(n, cell.column)
                    for n in range(cell.row + 1, sheet.max_row + 1)
                    if sheet.cell(n, cell.column).value is not None
                )
    raise AssertionError(heading)
