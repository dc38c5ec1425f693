"""What suppliers ask beside the price of their packs: a least order, a delivery charge."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderTerms:
    """A supplier's terms for one order, in whole smallest units of money.

    Goods of an order come to `minimum` at least; `charge` is for delivery, unless the
    goods come to `free_from` (None: never free).
    """

    minimum: int = 0
    charge: int = 0
    free_from: int | None = None

    @property
    def is_plain(self) -> bool:
        """True where an order costs what its packs cost, however small."""
        return not self.minimum and not self.charge

    def charge_on(self, goods: int) -> int:
        """Say what delivery of goods costs: nothing for no goods."""
        is_free = not goods or (self.free_from is not None and goods >= self.free_from)
        return 0 if is_free else self.charge

    def takes(self, goods: int) -> bool:
        """Tell whether the supplier takes an order of these goods (no order is always fine)."""
        return not goods or goods >= self.minimum


PLAIN = OrderTerms()
