"""The taxes of the client's quote: added to prices before tax, or named where prices include them."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction

from quoting.domain.money import rounded
from quoting.domain.prices import TaxRounding
from quoting.domain.quotes import TaxLine
from quoting.writing.inks import QUIET
from quoting.writing.number_formats import amount_format, number_words, percent_words, quoted
from quoting.writing.quote_foot import FAINT, INNER, OUTER, PLAIN, TAXED, Entry, Foot, Look
from quoting.writing.quote_lines import LinesPlace
from quoting.writing.rounding_formulas import formula_that_gives, rounded_formula

_PART = Look(size=9, color=QUIET)


def write_taxes_added(foot: Foot, terms: Sequence[str], lines: LinesPlace) -> str:
    """Write the taxes on prices before tax; `terms` are what the total adds up so far. Gives the cell of their sum."""
    totals = foot.quote.totals
    cells: list[str] = []
    for number, tax in enumerate(totals.taxes):
        taxed = Entry(label=_taxed_format(foot), amount=tax.taxable, formula=_taxable(foot, number, terms, cells))
        formula = _amount(foot, tax, lines, whole=taxed.formula == "".join(terms))
        cells.append(_write_tax(foot, Entry(label=_label(tax), amount=tax.amount, formula=formula), PLAIN, taxed))
    return _write_sum(foot, cells, PLAIN)


def write_taxes_included(foot: Foot, total: str) -> None:
    """Write the taxes that the total has in it."""
    totals = foot.quote.totals
    cells = []
    for tax in totals.taxes:
        is_all = len(totals.taxes) == 1 and tax.taxable + tax.amount == totals.total
        cell = foot.page.cell(OUTER)
        rate = number_words(tax.rate)
        per_tax = foot.quote.tax_rounding is TaxRounding.PER_TAX
        exact = Fraction(totals.total) * Fraction(tax.rate) / (1 + Fraction(tax.rate))
        formula = ""
        if is_all and per_tax:
            formula = _rounded(foot, f"{total}*{rate}/(1+{rate})", exact, tax.amount)
        taxed = Entry(label=_taxed_format(foot), amount=tax.taxable, formula=f"{total}-{cell}" if is_all else "")
        if not is_all and per_tax:
            formula = _rounded(
                foot, f"{foot.page.cell(TAXED)}*{rate}", Fraction(tax.taxable) * Fraction(tax.rate), tax.amount
            )
        label = foot.phrases.text("tax_included", name=_label(tax))
        cells.append(_write_tax(foot, Entry(label=label, amount=tax.amount, formula=formula), FAINT, taxed))
    _write_sum(foot, cells, FAINT)


def _label(tax: TaxLine) -> str:
    return f"{tax.name}, {percent_words(tax.rate)}"


def _write_tax(foot: Foot, entry: Entry, look: Look, taxed: Entry) -> str:
    is_one = len(foot.quote.totals.taxes) == 1
    return foot.row(
        entry,
        look=look if is_one else _PART,
        column=OUTER if is_one else INNER,
        name="quote_tax" if is_one else "",
        taxed=taxed,
    )


def _write_sum(foot: Foot, cells: Sequence[str], look: Look) -> str:
    if len(cells) < 2:
        return "".join(cells)
    entry = Entry(
        label=foot.phrases.text("tax_total"), amount=foot.quote.totals.tax, formula=f"SUM({cells[0]}:{cells[-1]})"
    )
    return foot.row(entry, look=look, name="quote_tax")


def _taxed_format(foot: Foot) -> str:
    before, after = foot.phrases.around("taxable", "amount")
    parts = amount_format(foot.quote.currency).split(";")
    return ";".join(f"{quoted(before)}{part}{quoted(after)}" for part in parts)


def _taxable(foot: Foot, number: int, terms: Sequence[str], taxes: Sequence[str]) -> str:
    """Give the formula of what a tax is on: everything so far, with the taxes before it where it goes on top."""
    totals = foot.quote.totals
    base = totals.subtotal - totals.discount + totals.charges
    taxable = totals.taxes[number].taxable
    before = [tax.amount for tax in totals.taxes[:number]]
    if taxable == base:
        return "".join(terms)
    if before and taxable == base + sum(before, Decimal(0)):
        return "".join(terms) + "".join(f"+{cell}" for cell in taxes)
    for amount, cell in zip(before, taxes, strict=True):
        if amount and taxable == base + amount:
            return "".join(terms) + f"+{cell}"
    return ""


def _amount(foot: Foot, tax: TaxLine, lines: LinesPlace, *, whole: bool) -> str:
    """Give a tax's formula on the amount beside it; rounded per line, on the lines where each is taxed whole."""
    rate = number_words(tax.rate)
    if foot.quote.tax_rounding is TaxRounding.PER_TAX:
        return _rounded(foot, f"{foot.page.cell(TAXED)}*{rate}", Fraction(tax.taxable) * Fraction(tax.rate), tax.amount)
    totals = foot.quote.totals
    if not whole or totals.discount or totals.charges or any(line.amount < 0 for line in foot.quote.lines):
        return ""
    return _per_line(foot, tax, f"E{lines.first + 1}:E{lines.last + 1}")


def _per_line(foot: Foot, tax: TaxLine, amounts: str) -> str:
    unit, rule = foot.quote.currency.unit, foot.quote.rounding
    exact = [Fraction(line.amount) * Fraction(tax.rate) for line in foot.quote.lines]
    if sum((rounded(part, unit, rule) for part in exact), Decimal(0)) != tax.amount:
        return ""
    return f"SUMPRODUCT({rounded_formula(f'{amounts}*{number_words(tax.rate)}', unit, rule)})"


def _rounded(foot: Foot, formula: str, exact: Fraction, amount: Decimal) -> str:
    return formula_that_gives(formula, exact, amount, foot.quote.currency.unit, foot.quote.rounding)
