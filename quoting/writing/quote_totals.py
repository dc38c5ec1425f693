"""The totals of the client's quote, as live formulas wherever the client's page is enough to compute them."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from quoting.domain.quotes import OrderAdjustment
from quoting.writing.inks import QUIET
from quoting.writing.number_formats import number_words, percent_words
from quoting.writing.quote_foot import INNER, OUTER, PLAIN, STRONG, Entry, Foot, Look
from quoting.writing.quote_lines import LinesPlace
from quoting.writing.quote_taxes import write_taxes_added, write_taxes_included
from quoting.writing.rounding_formulas import formula_that_gives

_SMALL_LOOK = Look(size=9, color=QUIET)


def write_totals(foot: Foot, lines: LinesPlace) -> str:
    """Write subtotal, discounts, surcharges, taxes, total and amount due; gives the cell of the amount due."""
    totals = foot.quote.totals
    # No page may end between the last line and its sum: totals alone on a page say nothing.
    if not totals.discount:
        foot.unseen_zero("quote_discount", 8)
    else:
        foot.page.gap(8)
    amounts = f"E{lines.first + 1}:E{lines.last + 1}"
    subtotal = Entry(label=foot.phrases.text("subtotal"), amount=totals.subtotal, formula=f"SUM({amounts})")
    terms = [foot.row(subtotal, name="quote_subtotal")]
    terms += _signed("-", _write_adjustments(foot, terms[0], is_discount=True))
    terms += _signed("+", _write_adjustments(foot, terms[0], is_discount=False))
    if not totals.prices_include_tax:
        terms += _signed("+", write_taxes_added(foot, terms, lines))
    total = _write_total(foot, terms)
    if totals.prices_include_tax:
        write_taxes_included(foot, total)
    if not totals.taxes:
        foot.unseen_zero("quote_tax", 4)
    if foot.quote.exempt_reason:
        exempt = foot.phrases.text("exempt", reason=foot.quote.exempt_reason)
        foot.page.paragraph(exempt, 0, OUTER, color=QUIET, align="right")
    return _write_due(foot, total)


def _signed(sign: str, cell: str) -> list[str]:
    return [sign + cell] if cell else []


def _write_adjustments(foot: Foot, subtotal: str, *, is_discount: bool) -> str:
    """Write the discounts, or the surcharges, on the whole order; gives the cell of what they come to, "" for none."""
    totals = foot.quote.totals
    whole = totals.discount if is_discount else totals.charges
    chosen = [a for a in foot.quote.adjustments if a.is_discount is is_discount]
    name = "quote_discount" if is_discount else ""
    if not whole and not chosen:
        return ""
    label = foot.phrases.text("discount" if is_discount else "charges")
    adds_up = sum((a.amount for a in chosen), Decimal(0)) == whole
    if len(chosen) == 1 and adds_up:
        return foot.row(_adjustment(foot, chosen[0], subtotal), name=name, is_deducted=is_discount)
    cells = [
        foot.row(_adjustment(foot, a, subtotal), look=_SMALL_LOOK, column=INNER, is_deducted=is_discount)
        for a in chosen
    ]
    formula = f"SUM({cells[0]}:{cells[-1]})" if cells and adds_up else ""
    return foot.row(Entry(label=label, amount=whole, formula=formula), name=name, is_deducted=is_discount)


def _adjustment(foot: Foot, adjustment: OrderAdjustment, subtotal: str) -> Entry:
    if adjustment.percent is None:
        return Entry(label=adjustment.name, amount=adjustment.amount)
    exact = foot.quote.totals.subtotal * adjustment.percent
    formula = f"{subtotal}*{number_words(adjustment.percent)}"
    return Entry(
        label=f"{adjustment.name}, {percent_words(adjustment.percent)}",
        amount=adjustment.amount,
        formula=formula_that_gives(formula, exact, adjustment.amount, foot.quote.currency.unit),
    )


def _write_total(foot: Foot, terms: Sequence[str]) -> str:
    key = "total_with_tax" if foot.quote.totals.prices_include_tax and foot.quote.totals.taxes else "total"
    look = PLAIN if _has_more(foot) else STRONG
    entry = Entry(label=foot.phrases.text(key), amount=foot.quote.totals.total, formula="".join(terms))
    foot.page.gap(3)
    return foot.row(entry, look=look, name="quote_total", signed=True)


def _has_more(foot: Foot) -> bool:
    totals = foot.quote.totals
    return bool(totals.cash_rounding or totals.prepaid)


def _write_due(foot: Foot, total: str) -> str:
    """Write what stands between total and amount due, if anything does."""
    totals, phrases = foot.quote.totals, foot.phrases
    if not _has_more(foot):
        return total
    due = total
    if totals.prepaid:
        due += "-" + foot.row(Entry(label=phrases.text("prepaid"), amount=totals.prepaid), is_deducted=True)
    if totals.cash_rounding:
        before = totals.total - totals.prepaid
        unit = foot.quote.cash_unit
        rounded_due = formula_that_gives(due, before, totals.payable, unit) if unit else ""
        # The difference of two amounts is itself rounded: in binary it would show a tail.
        formula = f"ROUND({rounded_due}-({due}),{foot.quote.currency.digits})" if rounded_due else ""
        due += "+" + foot.row(Entry(label=phrases.text("cash_rounding"), amount=totals.cash_rounding, formula=formula))
    return foot.row(
        Entry(label=phrases.text("amount_due"), amount=totals.payable, formula=due), look=STRONG, signed=True
    )
