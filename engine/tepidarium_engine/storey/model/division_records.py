"""What the division of a room is asked for, and what it answers; lengths in metres, all in the caller's frame."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from shapely import Polygon

from ...checking import Point
from ...plan.laying.laying import Laid, Pattern, Refusal
from ...plan.mapping.peripheral_mapping import CloserStrip
from ...plan.outlines.pipe_zone import WallClearance
from ...plan.pipes.pipe_path import PipePath
from .records import PairPlace, Segment

__all__ = ["MOST_CIRCUITS", "DividedCircuit", "DividedRoom", "DivisionRequest", "JointCrossing"]

MOST_CIRCUITS = 24
"""Of one room: more pairs than pass a doorway side by side."""


@dataclass(frozen=True, slots=True)
class DivisionRequest:
    """What is asked of a room with several circuits.

    ``entry`` is the place on the outline in the middle of all pairs, which stand side by side there, two
    ``tail_pitch`` a pair. ``maximum_circuit_length`` counts the pipe in the room and the ``outer_tail_lengths``
    (one way, from the manifold to the entry; one number for all circuits or one for each, in their order
    along the wall). ``count``: number of circuits, or None for the least that keeps the maximum.
    ``joints`` are movement joints, each from wall to wall. ``quick`` leaves out the spacing fit.
    ``most_rounds``: of laying all circuits, after which the best so far is taken, equal or not.
    ``most_circuits``: more are refused. In each piece pipe lies closer where the ``strip`` is. ``entry_shift``: how
    far beside the entry pairs may come in where a wall ends, as a share of the wall that they take. ``entry_stays``:
    also pieces are reached from there, not from wherever ports of a manifold stand best.
    """

    pipe_spacing: float
    wall_clearance: float
    bend_radius: float
    tail_pitch: float
    entry: Point
    maximum_circuit_length: float
    pattern: Pattern = "counterflow"
    outer_tail_lengths: tuple[float, ...] | float = 0.0
    count: int | None = None
    joints: tuple[Segment, ...] = ()
    quick: bool = False
    outermost_pipe: Literal["flow", "return"] = "flow"
    walls: tuple[WallClearance, ...] = ()
    most_rounds: int | None = None
    most_circuits: int = MOST_CIRCUITS
    strip: CloserStrip | None = None
    entry_shift: float = 0.0
    entry_stays: bool = False

    def outer_tail(self, index: int) -> float:
        """One way [m], of the circuit that is number ``index`` along the wall; the last one given goes on."""
        given = self.outer_tail_lengths
        if isinstance(given, tuple):
            return given[min(index, len(given) - 1)] if given else 0.0
        return given


@dataclass(frozen=True, slots=True)
class JointCrossing:
    """A pipe of circuit number ``circuit`` that passes a movement joint: a sleeve is due at ``place``.

    ``ahead`` is the unit vector of the direction of flow there.
    """

    circuit: int
    place: Point
    ahead: Point


@dataclass(frozen=True)
class DividedCircuit:
    """One circuit of a divided room.

    ``id`` counts from 0 along the wall at the entry, counter-clockwise on the outline. ``piece`` is the floor
    that is the circuit's own, without what is taken by tails of others; ``outline`` is the room that it is to
    the pipe, drawn so that the wall clearance holds all round, ``laid`` the pipe within that.
    ``path`` is the whole pipe from its place at the entry to the piece, through it, and back; ``length`` [m]
    that of ``path``, ``tail_length`` [m] what of it is not in the piece, both ways together.
    """

    id: int
    piece: Polygon
    outline: Polygon
    laid: Laid
    path: PipePath
    length: float
    tail_length: float
    place: PairPlace


@dataclass(frozen=True)
class DividedRoom:
    """Circuits in order along the wall at the entry, counter-clockwise on the outline.

    ``spread`` is (longest - shortest) / mean of the circuits' whole lengths (with outer tails), the greatest
    over the fields between joints: pipe cannot be moved from one field to the next. ``bands`` [m2] is floor
    taken by tails. ``settled``: the spread is within what is asked for (3 %). ``in_pieces``: they are reached through
    each other, flow and return as at ports; ``too_few``: nothing was laid as circuits would be too long.
    """

    circuits: tuple[DividedCircuit, ...] = ()
    crossings: tuple[JointCrossing, ...] = ()
    spread: float = 0.0
    bands: float = 0.0
    rounds: int = 0
    settled: bool = False
    refusal: Refusal | None = None
    in_pieces: bool = False
    too_few: bool = False
