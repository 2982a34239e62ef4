"""A design beside the former one: what both have, and why something may have changed."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from .former_records import FormerCircuit, FormerDesign, FormerRoom
from .layout_outcome import DrawnManifold
from .outcome import CircuitDesign, DesignsResult, RoomDesign
from .records import DesignsInputs

__all__ = ["NOT_KEPT", "SAME_PIPE", "Compared", "differ"]

SEEN = {
    "degC": 0.05,
    "W": 2.0,
    "m": 0.01,
    "m3/s": 0.02 / 6e4,
    "Pa": 100.0,
    "m3": 5e-4,
    "m3/h": 0.005,
    "1": 0.05,
}
"""Differences by unit from which a figure has changed: smaller ones nobody sees on site, and a design comes to rest
within 1 W (common practice, no source)."""
SAME_PIPE = 1e-3
"""Pipes whose lengths differ by less are the same [m]."""
_SAME_PLACE = 5e-4
"""The same of a manifold's place [m]."""
_TOUCHED = "The request for this room has changed."
NOT_KEPT = "The former decisions could not stay."


@dataclass(frozen=True)
class Compared:
    """A design beside the former one. ``untouched``: ids of the rooms that are as they were; ``kept``: whether the
    former decisions were kept where they hold."""

    inputs: DesignsInputs
    former: FormerDesign
    result: DesignsResult
    untouched: frozenset[str]
    kept: bool

    @cached_property
    def names(self) -> dict[str, str]:
        """What people call the rooms, those that are gone too."""
        every = (*self.former.inputs.rooms, *self.inputs.rooms)
        return {room.id: room.name or room.id for room in every}

    @cached_property
    def rooms(self) -> tuple[tuple[int, FormerRoom, RoomDesign], ...]:
        """The rooms that both have, with their number in the answer."""
        before = {room.id: room for room in self.former.rooms}
        return tuple(
            (place, before[room.id], room)
            for place, room in enumerate(self.result.rooms)
            if room.id in before
        )

    @cached_property
    def circuits(self) -> tuple[tuple[int, FormerCircuit, CircuitDesign], ...]:
        """The circuits that both have, with their number in the answer."""
        before = {circuit.id: circuit for circuit in self.former.circuits}
        return tuple(
            (place, before[circuit.id], circuit)
            for place, circuit in enumerate(self.result.circuits)
            if circuit.id in before and before[circuit.id].room == circuit.room
        )

    @cached_property
    def supply_changed(self) -> bool:
        return differ(self.former.supply_temperature, self.result.supply_temperature, "degC")

    @cached_property
    def moved(self) -> tuple[tuple[int, tuple[float, float], DrawnManifold], ...]:
        """Manifolds that stand elsewhere: their number in the layout, and where they stood."""
        if self.result.layout is None or self.former.layout is None:
            return ()
        before = {own.id: own.position for own in self.former.layout.placed_manifolds}
        return tuple(
            (place, before[own.id], own)
            for place, own in enumerate(self.result.layout.placed_manifolds)
            if own.id in before
            and max(abs(a - b) for a, b in zip(before[own.id], own.position, strict=True)) > _SAME_PLACE
        )

    @cached_property
    def renumbered(self) -> tuple[str, ...]:
        """Rooms that have another number of circuits, are new, or are gone."""
        before = {room.id: len(room.circuit_ids) for room in self.former.rooms}
        after = {room.id: len(room.circuit_ids) for room in self.result.rooms}
        every = dict.fromkeys((*before, *after))
        return tuple(room for room in every if before.get(room, 0) != after.get(room, 0))

    def ports(self, circuits: Iterable[FormerCircuit | CircuitDesign], room: str) -> str:
        return ", ".join(str(own.port) for own in circuits if own.room == room and own.port is not None)

    def cause(self, room: str, otherwise: str) -> str:
        """Why something of a room changed."""
        if room not in self.untouched:
            return _TOUCHED
        return otherwise if self.kept else NOT_KEPT


def differ(before: float | None, after: float | None, unit: str, seen: float | None = None) -> bool:
    """Whether two values differ by so much that it is seen. What was not known has not changed."""
    if before is None or after is None:
        return False
    return abs(before - after) >= (SEEN[unit] if seen is None else seen)
