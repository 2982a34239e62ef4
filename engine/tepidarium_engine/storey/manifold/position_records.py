"""Records of the question where a storey's manifold should stand, and of the answer."""

from __future__ import annotations

from dataclasses import dataclass, field

from ...glossary import named
from ...pipe import USUAL_PIPE, Pipe
from ...places import Direction, Point
from ...results import Caution, Finding

__all__ = [
    "ManifoldPositionInputs",
    "ManifoldPositionResult",
    "ManifoldRoom",
    "PlacedManifold",
    "PlanDoorway",
    "RoomTails",
    "WallAllowed",
]


@dataclass(frozen=True, slots=True)
class ManifoldRoom:
    """A room of the storey [m] and how many circuits it takes; 0 for one that pipes only pass."""

    id: str
    outline: tuple[Point, ...]
    voids: tuple[tuple[Point, ...], ...] = ()
    circuits: int = field(default=1, metadata=named("room_circuits"))


@dataclass(frozen=True, slots=True)
class PlanDoorway:
    """A doorway between two ``rooms`` (ids): its middle ``place`` [m], in the wall, and its clear ``width`` [m]."""

    rooms: tuple[str, ...] = field(metadata=named("doorway_rooms"))
    place: Point
    width: float = field(default=0.8, metadata=named("doorway_width"))


@dataclass(frozen=True, slots=True)
class WallAllowed:
    """Where a manifold may stand: a straight ``stretch`` of the outline of a ``room`` (its id) [m], or all its
    walls without one."""

    room: str
    stretch: tuple[Point, ...] | None = None


@dataclass(frozen=True, slots=True)
class ManifoldPositionInputs:
    """A storey in one frame; lengths in metres.

    Without ``allowed_places`` a manifold may stand at any wall of any room. ``position`` is the caller's own
    place, to be compared. ``tail_pitch`` is between neighbouring pipes of all tails, ``maximum_tail_length``
    one way from a manifold to a room.
    """

    rooms: tuple[ManifoldRoom, ...] = field(metadata=named("storey_rooms"))
    doorways: tuple[PlanDoorway, ...] = field(default=(), metadata=named("storey_doorways"))
    allowed_places: tuple[WallAllowed, ...] = ()
    position: Point | None = None
    maximum_ports: int = 12
    maximum_tail_length: float | None = None
    tail_pitch: float = 0.05
    wall_clearance: float = 0.075
    pipe: Pipe = USUAL_PIPE


@dataclass(frozen=True, slots=True)
class RoomTails:
    """The tails of one room: ``tail_length`` [m] is one way, 0 for the manifold's own room."""

    room: str
    circuit_ids: tuple[str, ...]
    tail_length: float = field(metadata=named("way_to_room"))


@dataclass(frozen=True, slots=True)
class PlacedManifold:
    """A manifold: the middle of its ports at ``place`` [m] on a wall, ``ahead`` the unit vector into the ``room``.

    ``ports`` holds the ids of circuits by port, from its right-hand end as seen from it into the room, so that
    their tails do not cross; those without a way come last. ``tail_pipe`` [m] is all pipe of its tails.
    """

    place: Point
    ahead: Direction
    room: str
    ports: tuple[str, ...]
    manifold_width: float
    tail_pipe: float
    room_tails: tuple[RoomTails, ...]


@dataclass(frozen=True, slots=True)
class ManifoldPositionResult:
    """``tail_pipe`` [m]: flow and return in the tails of all circuits. ``position_tail_pipe`` [m] is the same
    from the caller's own position, ``position_excess`` [m] what that takes more; None without a position, or
    where it does not reach all rooms."""

    manifolds: tuple[PlacedManifold, ...]
    tail_pipe: float
    position_tail_pipe: float | None
    position_excess: float | None
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
