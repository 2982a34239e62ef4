"""What tails on their way through rooms of others give to those rooms, and take from their own."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from ..errors import FaultList
from ..plan.lengths.lengths import laid_diameter
from .records import DesignsInputs

__all__ = [
    "NO_CIRCUIT_TAILS",
    "NO_ROOM_TAILS",
    "CircuitTails",
    "HouseTails",
    "RoomTails",
    "check_insulated_tails",
]


@dataclass(frozen=True, slots=True)
class RoomTails:
    """Tails of others in a room: ``heat`` to the room and ``downward`` [W], the ``area`` [m2] of floor that they take
    from its own circuits, with what they cut off, their ``length`` [m], and their mean ``output`` [W/m2] beside its
    ``limit`` [W/m2]."""

    heat: float
    downward: float
    area: float
    length: float
    output: float
    limit: float


@dataclass(frozen=True, slots=True)
class CircuitTails:
    """Heat that a circuit leaves in rooms of others [W], upwards and downwards, by its flow and by its return."""

    flow: float
    back: float

    @property
    def heat(self) -> float:
        return self.flow + self.back


NO_ROOM_TAILS = RoomTails(0.0, 0.0, 0.0, 0.0, 0.0, 0.0)
NO_CIRCUIT_TAILS = CircuitTails(0.0, 0.0)


@dataclass(frozen=True)
class HouseTails:
    """By index of the room, and by id of the circuit."""

    rooms: Mapping[int, RoomTails] = field(default_factory=dict)
    circuits: Mapping[str, CircuitTails] = field(default_factory=dict)

    def room(self, index: int) -> RoomTails:
        return self.rooms.get(index, NO_ROOM_TAILS)

    def circuit(self, name: str) -> CircuitTails:
        return self.circuits.get(name, NO_CIRCUIT_TAILS)

    def change(self, found: HouseTails) -> dict[str, float]:
        """Heat found less heat that is taken here, by room and by circuit [W]."""
        changes = {
            f"room {index}": found.room(index).heat - self.room(index).heat
            for index in sorted({*self.rooms, *found.rooms})
        }
        return changes | {
            f"circuit {name}": found.circuit(name).heat - self.circuit(name).heat
            for name in sorted({*self.circuits, *found.circuits})
        }

    def towards(self, found: HouseTails, share: float) -> HouseTails:
        """What was found, its heat a ``share`` of the way from what was taken before; all of it where circuits came
        or went, so that rooms get what circuits lose."""
        if self.circuits.keys() != found.circuits.keys():
            return found
        return HouseTails(
            {
                index: replace(
                    tails,
                    heat=_between(self.room(index).heat, tails.heat, share),
                    downward=_between(self.room(index).downward, tails.downward, share),
                    output=_between(self.room(index).output, tails.output, share),
                )
                for index, tails in found.rooms.items()
            },
            {
                name: CircuitTails(
                    _between(self.circuit(name).flow, tails.flow, share),
                    _between(self.circuit(name).back, tails.back, share),
                )
                for name, tails in found.circuits.items()
            },
        )


def _between(taken: float, found: float, share: float) -> float:
    return taken + share * (found - taken)


def check_insulated_tails(inputs: DesignsInputs, faults: FaultList) -> None:
    """Insulated tails side by side must not touch."""
    insulation = inputs.tail_insulation
    if insulation is not None:
        thickest = (inputs.limits.tail_pitch - laid_diameter(inputs.pipe)) / insulation.layers_between
        faults.require(
            insulation.thickness < thickest,
            "/tail_insulation/thickness",
            "pipes_overlap",
            "insulated pipes are wider than the tail pitch: take thinner insulation or a wider pitch",
            thickest,
        )
