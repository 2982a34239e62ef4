"""The drawing of a storey as part of a design."""

from __future__ import annotations

from dataclasses import dataclass, field

from ..checking import Point
from ..glossary import named
from ..plan.asking.route_records import PathPiece

__all__ = ["DesignLayout", "DrawnCircuit", "DrawnDoorway", "DrawnManifold", "DrawnSleeve", "UnplacedCircuit"]


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
    manifold: str = field(metadata=named("manifold_id"))


@dataclass(frozen=True, slots=True)
class DrawnManifold:
    """A manifold as it was found: the middle of its ports at ``place`` [m] on a wall of ``room``."""

    id: str
    room: str
    place: Point


@dataclass(frozen=True, slots=True)
class DrawnDoorway:
    """A doorway as it was found: its stretch on the outline of either of its ``rooms`` [m]."""

    jambs: tuple[Point, ...]
    opposite_jambs: tuple[Point, ...]
    rooms: tuple[str, ...] = field(metadata=named("doorway_rooms"))


@dataclass(frozen=True, slots=True)
class DrawnSleeve:
    """Where a tail of a circuit passes a movement joint of ``room``: a sleeve is due, in the direction ``ahead``."""

    circuit: str
    place: Point
    ahead: Point
    room: str


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
    """The storeys as drawn, each in the frame of its rooms; ``drawn_length`` [m] is the sum of the circuits'
    lengths. ``manifold_place`` is that of the first of ``placed_manifolds``."""

    manifold_place: Point
    drawn_length: float
    drawn_circuits: tuple[DrawnCircuit, ...]
    doorway_stretches: tuple[DrawnDoorway, ...]
    sleeves: tuple[DrawnSleeve, ...]
    unplaced: tuple[UnplacedCircuit, ...]
    placed_manifolds: tuple[DrawnManifold, ...]
