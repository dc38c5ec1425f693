"""Every file of the sample batches, opened, recalculated and printed by real office software."""

from __future__ import annotations

import pytest
from office import convert, formulas_that_differ, page_texts
from scenes import NAMES, jobs_of

pytestmark = pytest.mark.office


@pytest.fixture(scope="module")
def files(evenings):
    """Every workbook of the three batches."""
    return [path for name in NAMES for path in sorted(evenings[name].rglob("*.xlsx"))]


def test_every_formula_recalculates_to_what_we_wrote(files, tmp_path):
    ours = [path for path in files if path.parent.name != "marked"]  # a marked copy has the owner's own formulas
    count, differing = formulas_that_differ(ours, tmp_path)
    assert differing == []
    assert count > 1000


ERRORS = ("#REF!", "#NAME?", "#VALUE!", "#DIV/0!", "#N/A", "Err:5")


@pytest.fixture(scope="module")
def pages(files, tmp_path_factory):
    """The printed pages of every workbook: path → texts of its pages. One run of the software."""
    printed = convert(files, "pdf", tmp_path_factory.mktemp("printed"))
    return {path: page_texts(pdf) for path, pdf in zip(files, printed, strict=True)}


def test_no_printed_page_is_cut_or_empty(pages):
    assert not [path.name for path, texts in pages.items() if not texts]
    numbered = [(path, n, text) for path, texts in pages.items() for n, text in enumerate(texts, 1)]
    assert not [(path.name, n) for path, n, text in numbered if "###" in text]
    assert not [(path.name, n) for path, n, text in numbered if len(text.split()) < 3]
    # The summary and the marked copies tell of errors in the owner's own book.
    ours = [each for each in numbered if each[0].parent.name in ("quotes", "workshop")]
    assert not [(path.name, n) for path, n, text in ours if any(error in text for error in ERRORS)]


def test_the_quote_of_a_small_job_is_one_page(pages):
    quotes = {path: texts for path, texts in pages.items() if path.parent.name == "quotes"}
    small = {sheet.quote.number for name in NAMES for sheet in jobs_of(name).values() if len(sheet.quote.lines) <= 2}
    assert len(small) >= 4
    long = [path.name for path, texts in quotes.items() if path.name.startswith(tuple(small)) and len(texts) > 1]
    assert not long


def test_what_is_due_is_on_the_printed_quote(pages, evenings):
    """The printed page says the amount that was worked out, with its decimals."""
    for name in NAMES:
        for sheet in jobs_of(name).values():
            (path,) = [p for p in pages if evenings[name] in p.parents and p.name.startswith(f"{sheet.quote.number}-r")
                       and p.parent.name == "quotes"] or [None]
            assert path is not None, sheet.quote.number
            text = "\n".join(pages[path])
            assert f"{sheet.quote.totals.total:,.2f}" in text, path.name
            terms = sheet.quote.terms
            # Due on one day, deposit and balance are one line: the whole amount.
            due = terms.deposit if terms.deposit_due < terms.balance_due else terms.deposit + terms.balance
            assert f"{due:,.2f}" in text, path.name
