"""The drawing of a storey as part of a design."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from ..glossary import named
from ..places import Direction, PlacedText, Point
from ..plan.asking.route_records import PathPiece
from ..storey.joints.joint_rules import JointReason

__all__ = [
    "DesignJoint",
    "DesignLayout",
    "DrawnCircuit",
    "DrawnDoorway",
    "DrawnManifold",
    "DrawnSleeve",
    "JointState",
    "StoreySiting",
    "UnplacedCircuit",
]

JointState = Literal["given", "adopted", "due"]


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
    """A manifold as it was found: the middle of its ports at ``place`` [m] on a wall of ``room``, its tails at
    ``tail_pitch`` [m].

    ``position`` [m] is what was given, or what was found in its place (``position_found``): given the next time, it
    leads to the same design."""

    id: str
    room: str
    place: Point
    position: Point
    position_found: bool
    tail_pitch: float


@dataclass(frozen=True, slots=True)
class StoreySiting:
    """What the places of a storey's manifolds cost, as in ``ManifoldPositionResult``.

    ``tail_pipe`` [m] is the pipe in all tails by shortest ways from ``places``, the best that are allowed.
    ``position_tail_pipe`` [m] is the same from the positions given, ``position_excess`` [m] what they take more; None
    where a place was found, so that manifolds stand at ``places``. None, too, where there is no way to some room.
    """

    storey: str | None = field(metadata=named("storey_id"))
    places: tuple[Point, ...] = field(metadata=named("manifold_places"))
    tail_pipe: float | None
    position_tail_pipe: float | None
    position_excess: float | None


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
    ahead: Direction
    room: str


@dataclass(frozen=True, slots=True)
class DesignJoint:
    """A movement joint of a room, or of the doorway to it: ``points`` from end to end, its ``length`` [m], and the
    sleeves that tails as drawn need in it."""

    room: str
    doorway: tuple[str, ...] = field(metadata=named("joint_doorway"))
    state: JointState = field(metadata=named("joint_state"))
    reason: JointReason | None = field(metadata=named("joint_reason"))
    points: tuple[Point, ...] = field(metadata=named("joint_points"))
    length: float = field(metadata=named("joint_length"))
    sleeve_count: int = field(metadata=named("joint_sleeves"))


@dataclass(frozen=True, slots=True)
class UnplacedCircuit:
    """A circuit that could not be drawn; its length is estimated."""

    id: str
    room: str
    code: str
    place: Point | None
    message: PlacedText


@dataclass(frozen=True, slots=True)
class DesignLayout:
    """The storeys as drawn, each in the frame of its rooms; ``drawn_length`` [m] is the sum of the circuits'
    lengths. ``manifold_place`` is that of the first of ``placed_manifolds``. ``sitings``: of storeys on which a place
    was found, or was compared with ``allowed_places``."""

    manifold_place: Point
    drawn_length: float
    drawn_circuits: tuple[DrawnCircuit, ...]
    doorway_stretches: tuple[DrawnDoorway, ...]
    sleeves: tuple[DrawnSleeve, ...]
    unplaced: tuple[UnplacedCircuit, ...]
    placed_manifolds: tuple[DrawnManifold, ...]
    sitings: tuple[StoreySiting, ...]
