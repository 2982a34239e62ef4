"""What the layout of a storey is asked for and what it answers; lengths in metres, all in one frame."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from shapely import Polygon

from ...checking import Point
from ...plan.laying.laying import Pattern
from ...plan.mapping.peripheral_mapping import CloserStrip
from ...plan.outlines.polygons import RoomOutline
from ...plan.pipes.pipe_path import PipePath
from .division_records import JointCrossing
from .records import Segment
from .tail_records import ManifoldPlace, RoutedTails, StoreyPlan, UnroutedTail

__all__ = [
    "FewerCircuits",
    "LaidRoom",
    "RoomTask",
    "StoreyCircuit",
    "StoreyLayout",
    "StoreyTask",
    "Unplaced",
]


@dataclass(frozen=True)
class RoomTask:
    """A room of the storey, in the storey's frame. ``count`` None: as many circuits as the limit asks for;
    0: not heated, but tails may pass. However little floor the tails of others leave it gets the ``least`` number.
    ``manifold``: number of the one that serves it; others that stand in it may serve parts of it, unless it is to be
    ``only`` that one. ``numbered``: what the numbers of its circuits are put after; None: its name and a hyphen.
    ``loops``: even without circuits of its own it gets loops of circuits that pass it on floor that tails cut off. Pipe
    lies closer in its ``strip``."""

    id: str
    room: RoomOutline
    pipe_spacing: float
    maximum_circuit_length: float
    pattern: Pattern = "counterflow"
    count: int | None = None
    least: int = 0
    joints: tuple[Segment, ...] = ()
    manifold: int = 0
    only: bool = False
    numbered: str | None = None
    loops: bool = False
    strip: CloserStrip | None = None
    outermost_pipe: Literal["flow", "return"] = "flow"

    @property
    def prefix(self) -> str:
        """What the numbers of its circuits are put after."""
        return f"{self.id}-" if self.numbered is None else self.numbered


@dataclass(frozen=True)
class StoreyTask:
    """``rooms`` in the order of ``plan``; ``manifold`` is number 0, those after it follow; lengths in metres. Tails
    come closer than ``tail_pitch``, but not below ``least_tail_pitch``, where some have no way otherwise. A manifold
    gets no circuit that only heats what stays bare of a hall where it has ``most_circuits`` already."""

    plan: StoreyPlan
    rooms: tuple[RoomTask, ...]
    manifold: ManifoldPlace
    tail_pitch: float
    wall_clearance: float
    bend_radius: float
    quick: bool = False
    further_manifolds: tuple[ManifoldPlace, ...] = ()
    least_tail_pitch: float = math.inf
    most_circuits: float = math.inf

    @property
    def manifolds(self) -> tuple[ManifoldPlace, ...]:
        return (self.manifold, *self.further_manifolds)


@dataclass(frozen=True)
class StoreyCircuit:
    """One circuit from its port on a ``manifold`` and back: ``path`` is the whole pipe, ``field_length`` [m] what of
    it heats its own ``floor``."""

    id: str
    room: int
    manifold: int
    port: int
    path: PipePath
    field_length: float
    floor: Polygon
    crossings: tuple[JointCrossing, ...] = ()

    @property
    def tail_length(self) -> float:
        """Both ways together [m]."""
        return self.path.length - self.field_length


@dataclass(frozen=True, slots=True)
class Unplaced:
    """A circuit that could not be drawn: why, and where if there is a place to it; ``beside``: the circuit to which it
    comes too near."""

    id: str
    room: int
    code: str
    place: Point | None
    message: str
    beside: str | None = None

    @property
    def words(self) -> str:
        """The message with the circuit that it is about."""
        return self.message if self.beside is None else f"{self.message} of circuit {self.beside}."


@dataclass(frozen=True, slots=True)
class FewerCircuits:
    """A room that gets ``laid`` circuits instead of the number ``asked`` for, within the permitted length: no more
    have a way at ``place``."""

    room: int
    asked: int
    laid: int
    place: Point
    message: str


@dataclass(frozen=True)
class LaidRoom:
    """The circuits of one room, or why there are none; ``too_few``: they were not laid as they would be too long.
    ``length``: of those that were not laid, on average, where it is known [m]."""

    circuits: tuple[StoreyCircuit, ...]
    unplaced: tuple[Unplaced, ...]
    too_few: bool = False
    length: float = 0.0


@dataclass(frozen=True)
class StoreyLayout:
    """``circuits`` in order of manifold and port; ``tails`` of all manifolds one after the other; ``rounds`` that
    the numbers of circuits took; ``settled``: no circuit is longer than its room permits; rooms with ``fewer``
    circuits than were asked for are listed. ``tail_pitch`` is that of the tails as laid [m]; ``narrow`` are the places
    for which it is closer than asked for, each with the first circuit that had no way there. Rooms with a circuit
    ``more`` than their own floor asks for, because of floor of a hall that would stay bare, are named once for each."""

    circuits: tuple[StoreyCircuit, ...]
    unplaced: tuple[Unplaced, ...]
    tails: RoutedTails
    tail_pitch: float
    rounds: int
    settled: bool
    fewer: tuple[FewerCircuits, ...] = ()
    narrow: tuple[UnroutedTail, ...] = ()
    more: tuple[int, ...] = ()
