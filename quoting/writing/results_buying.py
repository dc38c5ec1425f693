"""What is bought and hired, as results.json has it (see results.schema.json)."""

from __future__ import annotations

from decimal import Decimal

from quoting.domain.money import Currency, Rounding, rounded
from quoting.domain.orders import Clash, GasPurchase, Purchase, Shortage, SupplierOrder
from quoting.domain.quotes import BuyLine

Data = dict[str, object]


def amount_text(amount: Decimal, currency: Currency) -> str:
    """Give an amount with all decimals of its currency, rounded half up."""
    return f"{rounded(amount, currency.unit, Rounding.HALF_UP):.{currency.digits}f}"


def buy_line_data(line: BuyLine, currency: Currency) -> Data:
    """Give one item of the buying list."""
    return {
        "item": line.item,
        "need": line.need,
        "on_hand": line.on_hand,
        "packs": [
            {"count": count, "packs": packs, "price": amount_text(price, currency), "supplier": supplier}
            for count, packs, price, supplier in line.packs
        ],
        "cost": amount_text(line.cost, currency),
        "needed_by": None if line.needed_by is None else line.needed_by.isoformat(),
        "jobs": list(line.jobs),
        "short": line.short,
    }


def purchase_data(purchase: Purchase, currency: Currency) -> Data:
    """Give everything else that is bought and hired."""
    found = purchase.comparison
    return {
        "total": amount_text(purchase.total, currency),
        "gap": amount_text(purchase.gap, currency),
        "comparison": None if found is None else {
            "together": amount_text(found.together, currency),
            "together_left": found.together_left,
            "one_by_one": amount_text(found.one_by_one, currency),
            "one_by_one_left": found.one_by_one_left,
        },
        "orders": [_order(order, currency) for order in purchase.orders],
        "job_costs": [
            {"job": s.job, "goods": amount_text(s.goods, currency), "delivery": amount_text(s.charges, currency)}
            for s in purchase.shares
        ],
        "stock_after": [
            {
                "item": s.item, "on_hand": s.on_hand, "bought": s.bought, "used": s.used, "expired": s.expired,
                "left": s.left, "value": amount_text(s.value, currency),
            }
            for s in purchase.levels
        ],
        "shortages": [_shortage(short) for short in purchase.shortages],
        "clashes": [_clash(clash) for clash in purchase.clashes],
        "helium": None if purchase.gas is None else _gas(purchase.gas, currency),
    }


def _order(order: SupplierOrder, currency: Currency) -> Data:
    return {
        "supplier": order.supplier,
        "goods": amount_text(order.goods, currency),
        "delivery": amount_text(order.charge, currency),
        "total": amount_text(order.total, currency),
        "arrives": order.arrives.isoformat(),
        "lines": [
            {
                "item": line.item, "count": line.count, "measure": line.measure, "packs": line.packs,
                "price": amount_text(line.price, currency), "cost": amount_text(line.cost, currency),
                "lot": line.lot, "needed_by": line.needed_by.isoformat(), "jobs": list(line.jobs),
            }
            for line in order.lines
        ],
    }


def _shortage(short: Shortage) -> Data:
    return {
        "item": short.item,
        "job": short.job,
        "count": short.count,
        "needed_by": short.needed_by.isoformat(),
        "comes": None if short.comes is None else short.comes.isoformat(),
        "is_early": short.is_early,
    }


def _clash(clash: Clash) -> Data:
    return {
        "item": clash.item,
        "first": clash.first.isoformat(),
        "last": clash.last.isoformat(),
        "owned": clash.owned,
        "wanted": clash.wanted,
        "jobs": [{"job": job, "count": count} for job, count in clash.jobs],
    }


def _gas(gas: GasPurchase, currency: Currency) -> Data:
    return {
        "litres": round(gas.litres, 1),
        "needed": gas.needed,
        "on_hand": gas.on_hand,
        "short": gas.short,
        "cylinders": [
            {
                "item": line.item, "count": line.count, "litres": line.litres,
                "cost": amount_text(line.cost, currency), "deposit": amount_text(line.deposit, currency),
            }
            for line in gas.cylinders
        ],
    }
