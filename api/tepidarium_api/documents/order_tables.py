"""The tables of an order: what to buy, which coil is cut where."""

from __future__ import annotations

from collections.abc import Iterable

from tepidarium_engine.coil_plan import CoilPlanResult
from tepidarium_engine.materials import MaterialQuantity, MaterialsResult

from .parts import Chapter, Column, Fields, Listed, Quantity, Table, Value

__all__ = ["coil_chapter", "coil_table", "material_table", "order_chapter", "to_buy_table"]

_UNITS = {
    "1": ("", 1.0, 0),
    "m": ("m", 1.0, 1),
    "m2": ("m²", 1.0, 1),
    "m3": ("m³", 1.0, 3),
    "small m3": ("l", 1000.0, 1),
    "kg": ("kg", 1.0, 0),
}
"""SI unit -> as it is ordered, factor, decimals."""
LITRES_BELOW = 0.1
"""Volumes that are ordered by the litre [m3]."""
LESS_THAN_NEEDED = "the rest: see the plan of coils"
"""Pipe that is in stock or that no coil is long enough for; nothing else is ordered below its need."""
_STATUS = {"needed": "", "due": "if joints are agreed", "if_wanted": "if wanted"}


def material_table(result: MaterialsResult) -> Table:
    """The order, line by line, with the ids by which items are priced; with prices where a price list was sent."""
    priced = result.currency is not None
    money = (
        (Column(f"Price {result.currency}", 2, 1.1), Column(f"Cost {result.currency}", 2, 1.1))
        if priced
        else ()
    )
    columns = (
        Column("Item", width=3.3),
        Column("Id", width=2.8),
        Column("Needed", width=1.2),
        Column("Waste %", 0),
        Column("Packs", 0),
        Column("To order", width=1.3),
        Column("Remark", width=1.6),
        *money,
    )
    return Table("What to order", columns, tuple(_line(line, priced) for line in result.quantities))


def _line(line: MaterialQuantity, priced: bool) -> tuple[Value, ...]:
    money = (line.unit_price, line.cost) if priced else ()
    return (
        line.name,
        line.item,
        _with_unit(line.net_quantity, line.unit),
        line.waste_share * 100.0,
        line.packs,
        _with_unit(line.order_quantity, line.unit),
        LESS_THAN_NEEDED if line.order_quantity < line.net_quantity else _STATUS[line.status],
        *money,
    )


def _with_unit(value: float, unit: str) -> Quantity:
    unit = "small m3" if unit == "m3" and value < LITRES_BELOW else unit
    name, factor, decimals = _UNITS.get(unit, (unit, 1.0, 2))
    return Quantity(value * factor, name, decimals)


def to_buy_table(plan: CoilPlanResult) -> Table:
    rows = tuple((order.length, order.count) for order in plan.to_buy)
    lengths = _decimals(order.length for order in plan.to_buy)
    return Table("Coils to buy", (Column("Length m", lengths), Column("Coils", 0)), rows)


def _decimals(lengths: Iterable[float]) -> int:
    """Of a column of coil lengths [m], few of which are not whole."""
    return 0 if all(length == int(length) for length in lengths) else 2


def coil_table(plan: CoilPlanResult) -> Table:
    """The cuts of each coil in the order of laying, with their metre marks."""
    columns = (
        Column("Coil"),
        Column("Coil m", _decimals(coil.length for coil in plan.coils)),
        Column("Circuit", width=2.0),
        Column("From mark m", 2, 1.3),
        Column("To mark m", 2, 1.3),
        Column("Piece m", 2, 1.2),
        Column("Rest of the coil m", 2, 1.5),
    )
    rows = []
    for coil in plan.coils:
        name = f"{coil.coil} ({coil.stock_name or 'stock'})" if coil.in_stock else coil.coil
        last = len(coil.cuts) - 1
        for number, cut in enumerate(coil.cuts):
            rest = coil.offcut if number == last else None
            rows.append((name, coil.length, cut.circuit, cut.start_mark, cut.end_mark, cut.length, rest))
    return Table("Plan of coils", columns, tuple(rows))


def order_chapter(result: MaterialsResult) -> Chapter:
    """The order with the rule and source of each line."""
    parts: list[Table | Fields | Listed] = [material_table(result)]
    if result.total_cost is not None:
        total = f"{result.total_cost:.2f} {result.currency}"
        missing = ", ".join(result.without_price)
        parts.append(Fields("", (("Sum of what is needed", total), ("Without a price", missing or "none"))))
    rules = tuple(dict.fromkeys((line.name, f"{line.rule} ({line.source})") for line in result.quantities))
    parts.append(Listed("How each quantity was found", tuple(("-", f"{a}: {b}") for a, b in rules)))
    return Chapter("Material list", tuple(parts))


def coil_chapter(plan: CoilPlanResult) -> Chapter:
    """Which circuits are cut from which coils."""
    proof = (
        "No plan buys less pipe."
        if plan.proven
        else f"No plan buys less than {plan.least_bought_length:.0f} m; whether one as short exists is not proven."
    )
    rows = (
        ("Bought", f"{plan.bought_length:.0f} m in {sum(order.count for order in plan.to_buy)} coils"),
        ("Cut, with what is added at the ends", f"{plan.cut_length:.1f} m"),
        ("Proof", proof),
        *((("Longer than any coil", ", ".join(plan.not_planned)),) if plan.not_planned else ()),
    )
    words = (
        ("-", "Each circuit is one piece: there is no joint in the screed. Unroll the coil in this order."),
    )
    return Chapter(
        "Plan of coils", (Fields("", rows), Listed("", words), to_buy_table(plan), coil_table(plan))
    )
