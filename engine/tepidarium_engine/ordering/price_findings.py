"""What is said about a price list: what it lacks, and prices that are for nothing."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Sequence
from difflib import get_close_matches
from typing import Protocol

from ..practice.screed import BINDER_NAMES
from ..results import Finding
from .item_rules import ITEM_RULES
from .order_options import PriceList

__all__ = ["price_findings"]

_MOST_NAMED = 6
"""Items that are named where prices are missing; all stand in the answer."""
_ALIKE = 0.6
"""How much an id is like one that it is taken for (difflib's ratio)."""
_NUMBER = r"\d+(\.\d*[1-9])?"
_BINDERS = "|".join(BINDER_NAMES)
_SIZES = {
    "pipe": f"{_NUMBER}x{_NUMBER}",
    "insulation": f"({_NUMBER}mm_)?{_NUMBER}x{_NUMBER}(_\\d+)?",
    "edge_strip": r"\d+mm",
    "screed": _BINDERS,
    "screed_bag": _BINDERS,
    "antifreeze": "ethylene_glycol|propylene_glycol",
    "manifold": r"\d+_ports",
    "manifold_cabinet": r"\d+mm",
    "expansion_vessel": f"{_NUMBER}l",
}
"""By kind of item: how its sizes are written in an id; other kinds have none."""
_POINTER = "/ordering/price_list/prices"


class _Line(Protocol):
    @property
    def item(self) -> str: ...
    @property
    def name(self) -> str: ...
    @property
    def unit_price(self) -> float | None: ...


def price_findings(
    price_list: PriceList | None, known: Collection[str], lines: Sequence[_Line]
) -> Iterator[Finding]:
    """``known`` are the ids of all items of the order, ``lines`` those of which there is anything."""
    if price_list is None:
        return
    missing = [line.name for line in lines if line.unit_price is None]
    if missing:
        more = "" if len(missing) <= _MOST_NAMED else f" and {len(missing) - _MOST_NAMED} more"
        yield Finding.at("price_missing", _POINTER, detail=", ".join(missing[:_MOST_NAMED]) + more)
    for number, price in enumerate(price_list.prices):
        if price.item not in known and not _of_some_order(price.item):
            meant = " or ".join(get_close_matches(price.item.lower(), sorted(known), 2, _ALIKE))
            words = f"{price.item}: did you mean {meant}?" if meant else price.item
            yield Finding.at("price_unused", f"{_POINTER}/{number}/item", detail=words)


def _of_some_order(item: str) -> bool:
    """Whether an order can have the item, this one or another."""
    kind = max((own for own in ITEM_RULES if item == own or item.startswith(f"{own}_")), key=len, default="")
    size = item.removeprefix(kind).removesuffix("_due")
    return bool(kind) and re.fullmatch(f"_({_SIZES[kind]})" if kind in _SIZES else "", size) is not None
