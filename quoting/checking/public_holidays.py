"""Public holidays by country and region, from the library `holidays`."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date

from holidays import country_holidays


def public_holidays(country: str, region: str, years: Iterable[int]) -> Mapping[date, str] | None:
    """Days and names of the public holidays of some years; None where country or region is not known.

    `country` are two letters of ISO 3166, `region` the short sign of its part ("CA",
    "BY") or "". Days that are moved because they fall on a weekend are as observed.
    """
    try:
        found = country_holidays(country.upper(), subdiv=region.upper() or None, years=list(years), expand=False)
    except NotImplementedError:
        return None
    return dict(found)
