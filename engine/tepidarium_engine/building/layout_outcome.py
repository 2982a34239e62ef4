"""The drawing of a storey as part of a design."""

from __future__ import annotations

from dataclasses import dataclass

from ..checking import Point
from ..plan.asking.route_records import PathPiece

__all__ = ["DesignLayout", "DrawnCircuit", "DrawnDoorway", "DrawnSleeve", "UnplacedCircuit"]


@dataclass(frozen=True, slots=True)
class DrawnCircuit:
    """A circuit from its port and back, in the plan: ``length`` [m] is that of ``pieces``, ``field_length``
    what of it heats its own field."""

    id: str
    port: int
    room: str
    length: float
    field_length: float
    pieces: tuple[PathPiece, ...]


@dataclass(frozen=True, slots=True)
class DrawnDoorway:
    """A doorway as it was found: its stretch on the outline of either room [m]."""

    jambs: tuple[Point, ...]
    opposite_jambs: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class DrawnSleeve:
    """Where a tail passes a movement joint: a sleeve is due."""

    circuit: str
    place: Point


@dataclass(frozen=True, slots=True)
class UnplacedCircuit:
    """A circuit that could not be drawn; its length is estimated."""

    id: str
    room: str
    code: str
    place: Point | None
    message: str


@dataclass(frozen=True, slots=True)
class DesignLayout:
    """The storey as drawn, in the caller's frame; ``drawn_length`` [m] is the sum of the circuits' lengths."""

    manifold_place: Point
    drawn_length: float
    drawn_circuits: tuple[DrawnCircuit, ...]
    doorway_stretches: tuple[DrawnDoorway, ...]
    sleeves: tuple[DrawnSleeve, ...]
    unplaced: tuple[UnplacedCircuit, ...]
