"""Records of laying sheets."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from ..glossary import named
from ..pipe import USUAL_PIPE, Pipe
from ..places import Direction, Offset, Point
from ..plan.asking.route_records import PathPiece
from ..plan.laying.ways import Pattern
from ..results import Caution, Finding

__all__ = [
    "CircuitToLay",
    "LayingPart",
    "LayingRoom",
    "LayingSheet",
    "LayingSheetsInputs",
    "LayingSheetsResult",
    "LayingStep",
    "WallDistance",
]

LayingPart = Literal["tail", "flow", "core", "return"]


@dataclass(frozen=True, slots=True)
class LayingRoom:
    """A room through which pipe runs, in the frame of the pieces [m]."""

    id: str
    outline: tuple[Point, ...]
    voids: tuple[tuple[Point, ...], ...] = ()
    storey: str | None = field(default=None, metadata=named("storey_id"))
    name: str = ""


@dataclass(frozen=True, slots=True)
class CircuitToLay:
    """A circuit as drawn, from its port and back, whose field lies in ``room``.

    ``port_height`` [m] is the pipe between a port and the floor at each end, which is not drawn. ``coil`` and
    ``coil_start_mark`` [m] say where its piece begins on a coil.
    """

    id: str
    room: str
    pieces: tuple[PathPiece, ...]
    pipe_spacing: float
    pattern: Pattern = "counterflow"
    port_height: float = field(default=0.0, metadata=named("manifold_height"))
    storey: str | None = field(default=None, metadata=named("storey_id"))
    manifold: str = field(default="1", metadata=named("manifold_id"))
    port: int | None = None
    coil: str | None = None
    coil_start_mark: float = 0.0


@dataclass(frozen=True, slots=True)
class LayingSheetsInputs:
    """Circuits and the rooms that they run through. ``cutting_allowance`` [m] is the pipe before the port."""

    circuits: tuple[CircuitToLay, ...] = field(metadata=named("circuits_to_lay"))
    rooms: tuple[LayingRoom, ...] = field(metadata=named("laying_rooms"))
    pipe: Pipe = USUAL_PIPE
    fixing_distance: float = 0.4
    cutting_allowance: float = 0.5


@dataclass(frozen=True, slots=True)
class LayingStep:
    """A straight or a turn of the pipe, in the order of laying.

    ``mark`` [m] is where it begins, counted from the port; ``coil_mark`` [m] the same on the coil. ``start`` and
    ``end`` [m] are in the plan, ``from_datum`` [m] is its start along and across the datum's direction. ``heading``
    [deg] is the direction of travel at its start, counter-clockwise from the x axis of the plan. A turn has an
    ``angle`` [deg] to ``hand`` and a ``radius`` [m].
    """

    number: int = field(metadata=named("step_number"))
    kind: Literal["straight", "turn"] = field(metadata=named("step_kind"))
    mark: float = field(metadata=named("pipe_mark"))
    coil_mark: float | None
    step_length: float
    start: Point
    end: Point
    from_datum: Offset
    heading: float
    hand: Literal["left", "right"] | None
    angle: float | None = field(metadata=named("turn_angle"))
    radius: float | None
    room: str
    part: LayingPart = field(metadata=named("laying_part"))
    fixings: int = field(metadata=named("step_fixings"))


@dataclass(frozen=True, slots=True)
class WallDistance:
    """From a wall to the first straight beside it, square to the wall: a dimension line from ``on_wall`` to ``on_pipe``
    [m] in the plan. ``ring`` is 0 for the outline, then the voids; ``edge`` counts from its first corner."""

    ring: int = field(metadata=named("ring_number"))
    edge: int
    distance: float = field(metadata=named("wall_distance"))
    on_wall: Point
    on_pipe: Point
    step: int = field(metadata=named("step_number"))


@dataclass(frozen=True, slots=True)
class LayingSheet:
    """What a fitter follows for one circuit.

    ``datum`` [m] is the corner of the room from which ``from_datum`` counts, ``datum_direction`` the unit vector of its
    first axis, along the walls. ``core_mark`` [m] is where flow turns into return; None for a serpentine. A counterflow
    is laid inwards at ``infeed_spacing`` [m] with a spacer of ``infeed_spacer_length`` [m] and fills the gaps on its
    way back with ``spacer_length`` [m]; both None for a serpentine.
    """

    circuit: str
    room: str
    manifold: str = field(metadata=named("manifold_id"))
    port: int | None
    coil: str | None
    coil_start_mark: float | None
    coil_end_mark: float | None
    total_length: float
    pipe_spacing: float
    spacer_length: float
    infeed_spacing: float | None
    infeed_spacer_length: float | None
    core_mark: float | None
    datum: Point
    datum_direction: Direction
    fixings_on_straights: int
    fixings_at_bends: int
    steps: tuple[LayingStep, ...] = field(metadata=named("laying_steps"))
    wall_distances: tuple[WallDistance, ...]


@dataclass(frozen=True, slots=True)
class LayingSheetsResult:
    """One sheet for each circuit, in the order of the request."""

    sheets: tuple[LayingSheet, ...] = field(metadata=named("laying_sheets"))
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
