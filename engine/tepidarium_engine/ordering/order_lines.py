"""From quantities to lines of the order: what is overridden, waste, packs and prices."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from ..errors import FaultList
from ..quick_records import quickly_made
from .item_rules import ITEM_RULES
from .material_outcome import MaterialQuantity, QuantityStatus
from .order_options import MaterialOverride, PriceList

__all__ = [
    "CountedItem",
    "OrderTerms",
    "check_ordering",
    "check_prices",
    "order_lines",
    "order_terms",
    "packed",
]

_ROUNDING = 1e-9


@quickly_made
@dataclass(frozen=True, slots=True)
class CountedItem:
    """An item by the ``kind`` of its rule and its ``size``, in words for its id and name. ``waste_share``,
    ``pack_size``, ``rule`` and ``order_quantity`` None: those of the rule; ``extra`` is added after the waste."""

    kind: str
    name: str
    quantity: float
    size: str = ""
    status: QuantityStatus = "needed"
    waste_share: float | None = None
    pack_size: float | None = None
    order_quantity: float | None = None
    extra: float = 0.0
    rule_kind: str | None = None

    @property
    def item(self) -> str:
        """The id by which it is overridden and priced."""
        called = f"{self.kind}_{self.size}" if self.size else self.kind
        return f"{called}_due" if self.status == "due" else called

    def in_quantity(self, quantity: float, order_quantity: float | None) -> CountedItem:
        """Another quantity of the same."""
        return CountedItem(
            self.kind,
            self.name,
            quantity,
            self.size,
            self.status,
            self.waste_share,
            self.pack_size,
            order_quantity,
            self.extra,
            self.rule_kind,
        )


def check_ordering(
    items: Sequence[CountedItem], overrides: Sequence[MaterialOverride], faults: FaultList
) -> None:
    """Overrides that name nothing of this order, or one thing twice."""
    if not overrides:
        return
    known = {item.item for item in items}
    names = [override.item for override in overrides]
    for number, name in enumerate(names):
        pointer = f"/ordering/overrides/{number}/item"
        faults.require(
            name in known,
            pointer,
            "unknown_item",
            f"names no item of this order; its items are {', '.join(sorted(known))}",
        )
        faults.require(
            names.index(name) == number, pointer, "not_unique", "another override names the same item"
        )


def check_prices(price_list: PriceList | None, faults: FaultList) -> None:
    names = [] if price_list is None else [price.item for price in price_list.prices]
    if len(set(names)) == len(names):
        return
    seen: set[str] = set()
    for number, name in enumerate(names):
        faults.require(
            name not in seen,
            f"/ordering/price_list/prices/{number}/item",
            "not_unique",
            "another price names the same item",
        )
        seen.add(name)


def order_lines(
    items: Sequence[CountedItem], overrides: Sequence[MaterialOverride], price_list: PriceList | None
) -> tuple[MaterialQuantity, ...]:
    """One line for each item of which there is anything."""
    own = {override.item: override for override in overrides}
    prices = {} if price_list is None else {price.item: price.unit_price for price in price_list.prices}
    lines = (_line(item, own, prices) for item in items)
    return tuple(line for line in lines if line is not None)


class OrderTerms(NamedTuple):
    """How an item is ordered; ``net_quantity`` None: what is counted. ``overridden``: not as the rule says."""

    unit: str
    waste_share: float
    pack_size: float | None
    rule: str
    source: str
    net_quantity: float | None
    overridden: bool


def order_terms(item: CountedItem, override: MaterialOverride | None) -> OrderTerms:
    """Those of the rule and of the item, as far as nothing else is given."""
    rule = ITEM_RULES[item.rule_kind or item.kind]
    waste = rule.waste_share if item.waste_share is None else item.waste_share
    pack = rule.pack_size if item.pack_size is None else item.pack_size
    if override is None:
        return OrderTerms(rule.unit, waste, pack, rule.rule, rule.source, None, False)
    waste = waste if override.waste_share is None else override.waste_share
    pack = pack if override.pack_size is None else override.pack_size
    if override.net_quantity is None:
        return OrderTerms(rule.unit, waste, pack, rule.rule, rule.source, None, True)
    return OrderTerms(rule.unit, waste, pack, "given", "Input", override.net_quantity, True)


def _line(
    item: CountedItem, overrides: Mapping[str, MaterialOverride], prices: Mapping[str, float]
) -> MaterialQuantity | None:
    """None where there is nothing of the item."""
    called = item.item
    unit, waste, pack, said, source, net, overridden = order_terms(item, overrides.get(called))
    quantity = item.quantity if net is None else net
    if quantity <= 0.0:
        return None
    packs, ordered = packed(quantity * (1.0 + waste) + item.extra, pack, unit)
    if item.order_quantity is not None and not overridden:
        ordered = item.order_quantity
        packs = packs if pack is None else round(ordered / pack)
    price = prices.get(called)
    return MaterialQuantity(
        item=called,
        name=item.name,
        status=item.status,
        unit=unit,
        net_quantity=quantity,
        waste_share=waste,
        pack_size=pack,
        packs=packs,
        order_quantity=ordered,
        rule=said,
        source=source,
        unit_price=price,
        cost=None if price is None else price * ordered,
    )


def packed(quantity: float, pack: float | None, unit: str) -> tuple[int | None, float]:
    """Packs and what they hold; what is counted by pieces is rounded up."""
    if pack is None:
        return None, float(math.ceil(quantity - _ROUNDING)) if unit == "1" else quantity
    packs = math.ceil(quantity / pack - _ROUNDING)
    return packs, packs * pack
