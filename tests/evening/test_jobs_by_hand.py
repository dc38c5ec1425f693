"""Three jobs of the samples worked out by hand: own arithmetic on the figures typed in their books.

Every amount below is written out from the typed prices; only the rounding to cents is
shared, and it is Python's own half-up. Counts of spares come from scipy's binomial.
"""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal

from scenes import jobs_of
from scipy.stats import binom


def cents(amount: Decimal) -> Decimal:
    return amount.quantize(Decimal("0.01"), ROUND_HALF_UP)


def rings_of_four(height: float, fill: float) -> int:
    """Rings of equal fills squeezed to 93 % of their touching pitch, fill × 2^(-1/4)."""
    return round((height - fill) / (0.93 * fill * 2 ** -0.25)) + 1


def with_spares(need: int, chance: float, service: float) -> int:
    return next(n for n in range(need, 2 * need + 9) if binom.sf(need - 1, n, 1 - chance) >= service)


def taxes(sheet) -> list[tuple[Decimal, Decimal]]:
    return [(tax.taxable, tax.amount) for tax in sheet.quote.totals.taxes]


def test_a_small_collected_column_lifted_to_the_minimum_order():
    """Job 404: one 4 ft column of 11 in lilac at 9.5 in, taxes on top.

    The client collects, so that nothing is loaded, unloaded, installed or struck.
    """
    sheet = jobs_of("dollars")["404"]
    rings = rings_of_four(48, 9.5)
    assert rings == 6
    balloons = with_spares(4 * rings, 0.03, 0.95)
    assert (sheet.stock[0].need, sheet.stock[0].with_spares) == (24, balloons) == (24, 26)
    goods = 26 * Decimal("1.35") + 15 + 8  # balloons, base plate, pole
    workshop = 24 * 22 + 6 * 20 + 6 * 25 + 150  # inflate, tie, build, set base and pole: 948 s
    labour = workshop * Decimal(42) / 3600
    (line,) = sheet.quote.lines
    assert line.amount == cents(goods + labour) == Decimal("69.16")
    # 180.00 is the least the shop works for; the missing 110.84 is goods and labour in the order's proportion.
    goods_share = Decimal("58.10") + cents(Decimal("110.84") * Decimal("58.10") / Decimal("69.16"))
    assert goods_share == Decimal("151.21")
    state = cents(goods_share * Decimal("0.0625"))
    county = cents(180 * Decimal("0.01"))
    city = cents((goods_share + state) * Decimal("0.0075"))
    assert taxes(sheet) == [(goods_share, state), (Decimal("180.00"), county), (goods_share + state, city)]
    assert sheet.quote.totals.total == 180 + state + county + city == Decimal("192.45")
    assert sheet.quote.terms.deposit == Decimal("96.23")
    hours = workshop * Decimal("19.5") / 3600
    assert sheet.cost == cents(26 * Decimal("17.9") / 100 + Decimal("8.5") + Decimal("4.2") + hours)


def test_a_service_and_two_columns_under_the_new_state_rate():
    """Job 414-care: five mornings at 45.00, and two 6 ft sage columns with a foil each; the event is in November."""
    sheet = jobs_of("dollars")["414-care"]
    rings = rings_of_four(72, 9.5)
    assert rings == 9
    service = 0.95 ** 0.5  # two balloon items share the job's 95 %
    assert with_spares(2 * 4 * rings, 0.03, service) == 78
    assert with_spares(2, 0.01, service) == 2
    goods = 78 * Decimal("1.35") + 2 * Decimal("5.5") + 2 * Decimal(15) + 2 * Decimal(12)
    workshop = 2 * (36 * 22 + 60 + 9 * 20 + 9 * 25 + 150 + 240)
    venue = 2 * (45 + 240 + 600 + 360)
    labour = (workshop * Decimal(42) + venue * Decimal(55)) / 3600
    each = cents((goods + labour) / 2)
    assert [line.amount for line in sheet.quote.lines] == [Decimal("225.00"), 2 * each, Decimal("0.00")]
    assert 2 * each == Decimal("246.78")
    # 246.78 as 170.30 of goods to 76.47… of labour: 170.3057 and 76.4743, the odd cent to the larger remainder.
    goods_part = Decimal("170.31")
    state = cents(goods_part * Decimal("0.065"))
    county = cents(Decimal("471.78") * Decimal("0.01"))
    city = cents((goods_part + state) * Decimal("0.0075"))
    assert taxes(sheet) == [(goods_part, state), (Decimal("471.78"), county), (goods_part + state, city)]
    assert (state, county, city) == (Decimal("11.07"), Decimal("4.72"), Decimal("1.36"))
    assert sheet.quote.totals.total == Decimal("488.93")


def test_a_column_with_vat_in_its_price():
    """Job E24: one 120 cm column at 24 cm fill, collected; flat 5 % spares, 21 % VAT on all but labour at 9 %."""
    sheet = jobs_of("euros")["E24"]
    rings = rings_of_four(120, 24)
    assert rings == 6
    assert sheet.stock[0].with_spares == 26  # 24 × 1.05 = 25.2, and no part of a balloon
    goods, hire = 26 * Decimal("1.6") + Decimal("7.5"), Decimal(8)
    workshop = 24 * 24 + 6 * 20 + 6 * 25 + 150  # the base is set at the workshop where the client collects
    labour = workshop * Decimal(39) / 3600
    (line,) = sheet.quote.lines
    assert line.amount == cents(goods + hire + labour) == Decimal("67.89")
    standard = Decimal("57.10") + cents(Decimal("52.11") * Decimal("57.10") / Decimal("67.89"))
    reduced = 120 - standard
    vat, low = cents(standard - standard / Decimal("1.21")), cents(reduced - reduced / Decimal("1.09"))
    assert taxes(sheet) == [(standard - vat, vat), (reduced - low, low)]
    assert (vat, low) == (Decimal("17.52"), Decimal("1.57"))
    assert sheet.quote.totals.total == Decimal("120.00")
    assert sheet.quote.terms.deposit == Decimal("36.00")
    assert sheet.quote.terms.damage_hold == Decimal("20.00")
