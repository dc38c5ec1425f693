"""When the client pays what: deposit, balance, and the hold that is paid back."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from quoting.writing.inks import QUIET
from quoting.writing.number_formats import DATE, amount_format, number_words, percent_words, quoted
from quoting.writing.quote_foot import INNER, OUTER, Entry, Foot
from quoting.writing.rounding_formulas import formula_that_gives
from quoting.writing.text_heights import row_height


def write_payments(foot: Foot, due: str) -> None:
    """Write deposit, balance and damage hold; `due` is the cell of the amount due."""
    terms, phrases = foot.quote.terms, foot.phrases
    if terms.deposit and terms.deposit_due == terms.balance_due:
        _write_in_full(foot, due)
        return
    paid = due
    if terms.deposit:
        foot.page.gap(8)
        label = phrases.text("deposit", share=percent_words(terms.deposit_share))
        entry = Entry(label=label, amount=terms.deposit, formula=_deposit(foot, due))
        paid += "-" + _payment(foot, entry, "deposit_due", terms.deposit_due, name="quote_deposit")
    else:
        foot.unseen_zero("quote_deposit", 8)
    adds_up = terms.balance == foot.quote.totals.payable - terms.deposit
    balance = Entry(label=phrases.text("balance"), amount=terms.balance, formula=paid if adds_up else "")
    _payment(foot, balance, "balance_due", terms.balance_due)
    _write_hold(foot)


def _write_in_full(foot: Foot, due: str) -> None:
    """Write one line for deposit and balance, which are due on one day; the deposit's named cell prints as nothing."""
    page, payable = foot.page, foot.quote.totals.payable
    page.write(OUTER, foot.quote.terms.deposit, page.inks(size=9, num_format=";;;"))
    foot.name("quote_deposit")
    page.end_row(8)
    _payment(foot, Entry(label=foot.phrases.text("in_full"), amount=payable, formula=due), "balance_due",
             foot.quote.terms.balance_due)
    _write_hold(foot)


def _write_hold(foot: Foot) -> None:
    held = foot.quote.terms.damage_hold
    if held:
        _payment(foot, Entry(label=foot.phrases.text("damage_hold"), amount=held), "", None)


def _deposit(foot: Foot, due: str) -> str:
    terms, totals, unit = foot.quote.terms, foot.quote.totals, foot.quote.currency.unit
    share = number_words(terms.deposit_share)
    for base, cell in ((totals.payable, due), (totals.total, foot.names["quote_total"].replace("$", ""))):
        formula = formula_that_gives(f"{cell}*{share}", base * Decimal(terms.deposit_share), terms.deposit, unit)
        if formula:
            return formula
    return ""


def _payment(foot: Foot, entry: Entry, key: str, day: date | None, name: str = "") -> str:
    page = foot.page
    last = INNER if day is None else 1
    page.span(0, last, entry.label, page.inks(color=QUIET, align="right", text_wrap=True))
    if day is not None:
        before = foot.phrases.text(key)
        ink = page.inks(size=9, color=QUIET, align="right", num_format=f"{quoted(f'{before} ')}{DATE}")
        page.span(2, INNER, day, ink)
    ink = page.inks(align="right", num_format=amount_format(foot.quote.currency))
    if entry.formula:
        page.formula(OUTER, entry.formula, entry.amount, ink)
    else:
        page.write(OUTER, entry.amount, ink)
    cell = page.cell(OUTER)
    if name:
        foot.name(name)
    page.end_row(row_height(page.lines(entry.label, 0, last, 10), 10, padding=5))
    return cell
