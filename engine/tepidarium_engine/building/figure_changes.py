"""Figures that are others than in a former design by more than anybody sees on site."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from .compared_designs import Compared, differ
from .comparison_records import DesignChange
from .request_changes import changed

__all__ = ["figure_changes"]

_HOUSE = ("return_temperature", "heat_given", "heat_missing", "volume_flow", "pipe_length", "system_volume")
_ROOM = ("heat_given", "heat_missing", "mean_surface_temperature", "pipe_length")
_CIRCUIT = ("total_length", "volume_flow", "total_pressure_drop", "valve_kv", "valve_setting")


def figure_changes(by: Compared) -> Iterator[DesignChange]:
    """Of the house, its pump, its rooms and its circuits, of its order and its dates."""
    yield from _fields(_HOUSE, "", by.former, by.result, "")
    if by.former.pump is not None:
        yield from _fields(("volume_flow",), "/pump", by.former.pump, by.result.pump, "pump")
    for place, room, now in by.rooms:
        because = by.cause(now.id, _why_figures(by))
        for own in _fields(_ROOM, f"/rooms/{place}", room, now, by.names[now.id]):
            yield replace(own, because=because)
    for place, circuit, after in by.circuits:
        name = by.names[after.room]
        label = name if after.id == after.room else f"{name} ({after.id})"
        because = by.cause(after.room, _why_figures(by))
        for own in _fields(_CIRCUIT, f"/circuits/{place}", circuit, after, label):
            yield replace(own, because=because)

    yield from _order(by)
    yield from _dates(by)


def _why_figures(by: Compared) -> str:
    if by.supply_changed:
        return "The supply temperature has changed."
    return "All circuits are balanced with each other, and tails give off heat where they pass."


def _fields(
    names: Iterable[str], where: str, before: object, after: object, subject: str
) -> Iterator[DesignChange]:
    for name in names:
        own = changed(
            name.replace("_", " "),
            f"{where}/{name}",
            getattr(before, name),
            getattr(after, name),
            quantity=name,
            subject=subject,
        )
        if differ(own.value_before, own.value_after, own.unit or "1"):
            yield own


def _order(by: Compared) -> Iterator[DesignChange]:
    """Lines of the order."""
    if by.former.materials is None or by.result.materials is None:
        return
    before = {line.item: line for line in by.former.materials.quantities}
    for place, line in enumerate(by.result.materials.quantities):
        was = before.pop(line.item, None)
        amount = 0.0 if was is None else was.order_quantity
        if abs(amount - line.order_quantity) > 1e-6:
            where = f"/materials/quantities/{place}/order_quantity"
            yield _ordered(line.name, where, line.unit, amount, line.order_quantity)
    for was in before.values():
        yield _ordered(was.name, "/materials/quantities", was.unit, was.order_quantity, 0.0)


def _ordered(name: str, where: str, unit: str, before: float, after: float) -> DesignChange:
    own = changed(name, where, before, after, quantity="order_quantity", subject="order")
    name_of_unit = "" if unit == "1" else unit
    words = [f"{round(amount, 3):.9g} {name_of_unit}".rstrip() for amount in (before, after)]
    return replace(own, unit=unit[:24], text_before=words[0], text_after=words[1])


def _dates(by: Compared) -> Iterator[DesignChange]:
    before = {plan.build_up: plan.plan for plan in by.former.curing_plans}
    names = {build_up.id: build_up.name or build_up.id for build_up in by.inputs.build_ups}
    for place, own in enumerate(by.result.curing_plans):
        for name in ("earliest_heating", "earliest_covering") if own.build_up in before else ():
            day, now = getattr(before[own.build_up], name), getattr(own.plan, name)
            if day is not None and day != now:
                where = f"/curing_plans/{place}/plan/{name}"
                words = name.replace("_", " ")
                yield changed(words, where, day.isoformat(), now.isoformat(), subject=names[own.build_up])
