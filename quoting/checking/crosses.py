"""Every check across rows and sheets, in the order they are made."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from quoting.checking import (
    adjustment_checks,
    crew_checks,
    doubt_checks,
    heading_checks,
    item_checks,
    job_checks,
    option_checks,
    piece_checks,
    rate_checks,
    sheet_checks,
    slip_checks,
    supplier_checks,
)
from quoting.checking.pool import Pool
from quoting.domain.problems import Outcome, Problem

Check = Callable[[Pool], Iterable[Problem]]
"""Looks at the pooled rows and gives the problems it finds. A row that a problem (no mere note) stands at
is out of use for the checks after it, which is why price sheets come before the pieces that name their items."""

CHECKS: tuple[Check, ...] = (
    heading_checks.unread_headings,
    heading_checks.misplaced_prices,
    sheet_checks.missing_sheets,
    sheet_checks.differing_shops,
    sheet_checks.layout_versions,
    sheet_checks.misread_for_all,
    sheet_checks.foreign_money,
    sheet_checks.periods_in_order,
    item_checks.disagreeing_rows,
    item_checks.clashing_prices,
    item_checks.overfilled_items,
    item_checks.twin_balloons,
    item_checks.shared_names,
    item_checks.colours_not_drawn,
    item_checks.prices_run_out,
    supplier_checks.repeated_suppliers,
    supplier_checks.misspelt_suppliers,
    supplier_checks.stock_past_its_day,
    supplier_checks.doubtful_cylinders,
    rate_checks.overlapping_taxes,
    rate_checks.unknown_taxes,
    rate_checks.taxes_in_a_circle,
    rate_checks.bands_in_order,
    rate_checks.repeated_rates,
    rate_checks.activities_without_rate,
    crew_checks.time_zones,
    crew_checks.holiday_regions,
    crew_checks.price_steps,
    crew_checks.repeated_holidays,
    rate_checks.phrases,
    rate_checks.build_rows,
    slip_checks.misspelt_builds,
    slip_checks.misspelt_activities,
    slip_checks.misspelt_taxes,
    doubt_checks.noughts,
    doubt_checks.dear_singles,
    doubt_checks.no_taxes,
    doubt_checks.example_names,
    job_checks.repeated_jobs,
    job_checks.shared_numbers,
    piece_checks.strayed_pieces,
    piece_checks.repeated_labels,
    job_checks.jobs_without_pieces,
    job_checks.job_dates,
    doubt_checks.exemptions,
    doubt_checks.doubtful_days,
    job_checks.taxes_out_of_date,
    job_checks.deliveries,
    crew_checks.wrong_crew_sheets,
    option_checks.option_groups,
    option_checks.add_ons,
    piece_checks.unknown_things,
    slip_checks.doubtful_builds,
    piece_checks.unparted_colours,
    piece_checks.doubtful_usuals,
    piece_checks.doubtful_balloons,
    piece_checks.overfilled_pieces,
    adjustment_checks.adjusted_jobs,
    adjustment_checks.adjusted_pieces,
    adjustment_checks.percent_or_amount,
    doubt_checks.repeated_adjustments,
    doubt_checks.whole_discounts,
    heading_checks.misplaced_entries,
)


def cross_check(pool: Pool) -> Outcome[Pool]:
    """The pool with the rows marked that a check found wrong, and what the checks found."""
    problems: list[Problem] = []
    for check in CHECKS:
        found = tuple(check(pool))
        problems += found
        pool = pool.without(found)
    return Outcome(value=pool, problems=tuple(problems))
