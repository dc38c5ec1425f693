"""Rates, rules and outlines for the tests of hours, crews and delivery. All data invented."""

from __future__ import annotations

from datetime import time
from decimal import Decimal

from costing_made import PRICES, plan

from quoting.domain.crews import CrewRules, HourRate, PricePolicy, Van
from quoting.domain.plans import Outline

D = Decimal


def rated(name, factor, start=None, end=None, *, days=(), is_holiday=False):
    return HourRate(
        name=name, factor=D(factor), start=start and time(*start), end=end and time(*end), days=days,
        is_holiday=is_holiday, place=PRICES,
    )  # fmt: skip


EVENING = rated("evening", "1.25", (18, 0), (22, 0))
NIGHT = rated("night", "1.5", (22, 0), (6, 0))
SUNDAY = rated("Sunday", "1.6", days=(6,))
HOLIDAY = rated("public holiday", "2", is_holiday=True)
RATES = (EVENING, NIGHT, SUNDAY, HOLIDAY)


def outline(width=60.0, height=180.0, depth=None, *, rigid=180.0, litres=500.0):
    return Outline(
        width_cm=width, height_cm=height, depth_cm=depth or width, longest_rigid_cm=rigid, packed_volume_l=litres,
        mass_g=2000.0,
    )  # fmt: skip


def van(name="Small van", *, litres=3000, length=250, door=120, charge=0, cost=0):
    return Van(
        van=name, usable_litres=D(litres), length_cm=D(length), door_height_cm=D(door), charge=D(charge), cost=D(cost),
        place=PRICES,
    )  # fmt: skip


def rules(**changes):
    return CrewRules(**{key: D(value) if isinstance(value, (str, float)) else value for key, value in changes.items()})


def policy(**changes):
    return PricePolicy(**{key: D(v) if type(v) is str else v for key, v in changes.items()})


def worked(install=0, strike=0, workshop=0, **changes):
    """A plan of so many installs of 900 s, strikes of 412.5 s and loads of 120 s, 60 cm wide and 180 cm high."""
    tasks = [("install piece", install), ("strike piece", strike), ("load piece", workshop)]
    return plan([("Round 11 ivory", 10)], [task for task in tasks if task[1]], **{"outline": outline(), **changes})
