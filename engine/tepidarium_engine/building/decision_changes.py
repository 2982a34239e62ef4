"""Decisions that are others than in a former design, each with what made it another."""

from __future__ import annotations

from collections.abc import Iterator

from ..trade_units import in_trade_units
from .compared_designs import NOT_KEPT, SAME_PIPE, Compared, differ
from .comparison_records import DesignChange
from .former_records import FormerRoom, FormerStrip
from .outcome import RoomDesign, StripDesign
from .request_changes import changed

__all__ = ["house_decisions", "laid_otherwise", "room_decisions"]


def house_decisions(by: Compared) -> Iterator[DesignChange]:
    result, former = by.result, by.former
    if by.supply_changed:
        yield changed(
            "supply temperature",
            "/supply_temperature",
            former.supply_temperature,
            result.supply_temperature,
            quantity="supply_temperature",
            because=_why_supply(by),
        )
    if former.pump is not None and differ(former.pump.pressure, result.pump.pressure, "Pa"):
        yield changed(
            "pressure of the pump",
            "/pump/pressure",
            former.pump.pressure,
            result.pump.pressure,
            quantity="pump_pressure",
            because="Flows or lengths of circuits have changed.",
        )
    for place, before, own in by.moved:
        yield changed(
            "place of the manifold",
            f"/layout/placed_manifolds/{place}/position",
            before,
            own.position,
            subject=own.id,
            because="" if by.kept else NOT_KEPT,
        )
    known = {room.id for room in former.rooms}
    for place, room in enumerate(result.rooms):
        if room.id not in known:
            yield changed("room", f"/rooms/{place}", None, "new", subject=by.names[room.id])
    there = {room.id for room in result.rooms}
    for gone in former.rooms:
        if gone.id not in there:
            yield changed("room", "/rooms", "there", None, subject=by.names.get(gone.id, gone.id))


def _why_supply(by: Compared) -> str:
    if by.inputs.source != by.former.inputs.source:
        return "The source of the request has changed."
    room = by.names[by.result.governing_room]
    if by.result.supply_temperature > (by.former.supply_temperature or 0.0):
        return f"{room} asks for it to get its heat."
    return NOT_KEPT if not by.kept else f"{room} asks for no more."


def room_decisions(by: Compared, place: int, before: FormerRoom, after: RoomDesign) -> Iterator[DesignChange]:
    """Decisions for one room, with what made them."""
    where, name = f"/rooms/{place}", by.names[after.id]
    if before.pipe_spacing != after.pipe_spacing:
        because = by.cause(after.id, "At its former spacing the room would not get its heat on this supply.")
        yield changed(
            "pipe spacing",
            f"{where}/pipe_spacing",
            before.pipe_spacing,
            after.pipe_spacing,
            quantity="pipe_spacing",
            subject=name,
            because=because,
        )
    yield from _floor_decisions(by, where, before, after)
    counts = len(before.circuit_ids), len(after.circuit_ids)
    if counts[0] != counts[1]:
        because = by.cause(
            after.id, "A circuit would be too long, would lose too much pressure, or has no way."
        )
        yield changed("circuits", f"{where}/circuit_ids", *counts, subject=name, because=because)
    if before.manifold not in (None, after.manifold):
        because = by.cause(after.id, "Its former manifold does not serve it any more.")
        yield changed(
            "manifold", f"{where}/manifold", before.manifold, after.manifold, subject=name, because=because
        )
    ports = by.ports(by.former.circuits, after.id), by.ports(by.result.circuits, after.id)
    if ports[0] != ports[1] and ports[0]:
        yield changed("ports", f"{where}/circuit_ids", *ports, subject=name, because=_why_ports(by, after.id))
    drawn = dict(drawn_otherwise(by))
    if after.id in drawn:
        yield changed(
            "drawn pipe",
            f"{where}/pipe_length",
            before.pipe_length,
            after.pipe_length,
            quantity="pipe_length",
            subject=name,
            because=drawn[after.id],
        )


def _floor_decisions(
    by: Compared, where: str, before: FormerRoom, after: RoomDesign
) -> Iterator[DesignChange]:
    """Pattern and strip of a room that has circuits in both designs."""
    if before.pattern is None or after.pattern is None:
        return
    name, because = by.names[after.id], by.cause(after.id, NOT_KEPT)
    if before.pattern != after.pattern:
        yield changed(
            "pattern", f"{where}/pattern", before.pattern, after.pattern, subject=name, because=because
        )
    strips = _strip_in_words(before.peripheral), _strip_in_words(after.peripheral)
    if strips[0] != strips[1]:
        yield changed("strip of closer pipe", f"{where}/peripheral", *strips, subject=name, because=because)


def _strip_in_words(designed: FormerStrip | StripDesign | None) -> str | None:
    """How wide, along what, at which spacing."""
    if designed is None:
        return None
    strip = designed.strip
    along = ""
    if strip.length is not None:
        along = f" along {in_trade_units('strip_length', strip.length)}"
    elif strip.edges:
        walls = ", ".join(str(edge + 1) for edge in strip.edges)
        along = f" along wall{'s' if len(strip.edges) > 1 else ''} {walls}"
    width = in_trade_units("peripheral_width", strip.width)
    return f"{width} wide{along}, at {in_trade_units('pipe_spacing', strip.pipe_spacing)}"


def _why_ports(by: Compared, room: str) -> str:
    others = [by.names.get(each, each) for each in by.renumbered]
    if room in by.renumbered:
        return by.cause(room, "Its number of circuits has changed.")
    if others:
        return f"{_listed(others)}: the number of circuits has changed, so ports have moved."
    if by.moved:
        return "The manifold has moved."
    return by.cause(room, "Its tails take another way.")


def _listed(names: list[str]) -> str:
    return ", ".join(names[:3]) + (" and others" if len(names) > 3 else "")


def drawn_otherwise(by: Compared) -> Iterator[tuple[str, str]]:
    """Rooms whose pipe is drawn otherwise, and why."""
    if by.result.layout is None:
        return
    drawn = {circuit.id for circuit in by.result.layout.drawn_circuits}
    other = {
        after.room
        for _, before, after in by.circuits
        if after.id in drawn
        and (
            differ(before.field_length, after.field_length, "m", SAME_PIPE)
            or differ(before.total_length, after.total_length, "m", SAME_PIPE)
        )
    }
    for _, before, room in by.rooms:
        again = len(before.circuit_ids) != len(room.circuit_ids)
        if before.circuit_ids and (room.id in other or again):
            yield room.id, _why_drawn(by, before, room)


def _why_drawn(by: Compared, before: FormerRoom, after: RoomDesign) -> str:
    if (before.pipe_spacing, len(before.circuit_ids)) != (after.pipe_spacing, len(after.circuit_ids)):
        return by.cause(after.id, "Its spacing or its number of circuits has changed.")
    if by.ports(by.former.circuits, after.id) != by.ports(by.result.circuits, after.id):
        return by.cause(after.id, "Its tails run from other ports.")
    if by.moved:
        return by.cause(after.id, "The manifold has moved.")
    return by.cause(after.id, "Tails of other rooms take another way beside it or through it.")


def laid_otherwise(by: Compared) -> Iterator[tuple[str, str]]:
    """Rooms that a fitter lays or connects otherwise."""
    yield from drawn_otherwise(by)
    for _, before, after in by.rooms:
        ports = by.ports(by.former.circuits, after.id), by.ports(by.result.circuits, after.id)
        was = (
            before.pipe_spacing,
            len(before.circuit_ids),
            before.manifold or after.manifold,
            ports[0] or ports[1],
        )
        other_floor = any(True for _ in _floor_decisions(by, "", before, after))
        if other_floor or was != (after.pipe_spacing, len(after.circuit_ids), after.manifold, ports[1]):
            yield after.id, ""
