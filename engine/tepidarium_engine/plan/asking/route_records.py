"""Records of a request for a route and of its answer."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from ...drawing_sheet import DrawingSheet
from ...glossary import named
from ...pipe import USUAL_PIPE, Pipe
from ...places import Direction, Point
from ...practice.screed import Binder
from ...quick_records import quickly_made
from ...results import Caution, Finding
from ..judging.route_measures import BareSpot, BendCount
from ..pipes.pipe_path import Arc, Line

__all__ = [
    "LaidSpacing",
    "PathPiece",
    "PeripheralArea",
    "RouteCircuit",
    "RouteCoverage",
    "RouteQuality",
    "RouteSleeve",
    "RoutesInputs",
    "RoutesResult",
    "WallStretch",
]


@dataclass(frozen=True, slots=True)
class WallStretch:
    """A wall from which the pipe's centre line keeps more than the room's clearance [m].

    Exactly one of ``edge`` (a whole wall by number) and ``stretch`` (its two ends [m]) names it.
    """

    wall_clearance: float
    edge: int | None = None
    stretch: tuple[Point, ...] | None = None


@dataclass(frozen=True, slots=True)
class PeripheralArea:
    """A strip of ``width`` [m] along the walls ``edges`` with a ``pipe_spacing`` [m] of its own.

    EN 1264 calls it the peripheral area and allows it a width of 1 m and a warmer surface.
    """

    edges: tuple[int, ...]
    pipe_spacing: float
    width: float = field(default=1.0, metadata=named("peripheral_width"))
    own_circuit: bool = False


@quickly_made
@dataclass(frozen=True, slots=True)
class PathPiece:
    """A piece of the centre line from ``start`` to ``end`` [m].

    An arc has ``centre`` [m], ``radius`` [m] and ``sweep`` [rad], counter-clockwise when positive; of a given
    path the radius may be left out.
    """

    kind: Literal["line", "arc"]
    start: Point
    end: Point
    centre: Point | None = None
    radius: float | None = None
    sweep: float | None = None


@dataclass(frozen=True, slots=True)
class RoutesInputs:
    """A room and how it is to be laid, in the caller's frame; lengths in metres.

    Exactly one of ``entry`` (a point of the outline), ``doorway`` (its two jambs) and ``manifold_place`` (the
    pipes come in where the outline is nearest to it) says where the pipes come in. ``tail_length`` is one way
    from the manifold to the entry. Without ``tail_pitch`` flow and return come in one spacing apart, or as near
    as the doorway asks for; those of several circuits at one entry 50 mm.

    A room whose pipe is longer than a circuit may be, or that movement joints part in fields, is divided in
    circuits that come in side by side; ``circuits`` asks for a number of them. With ``second_entry`` the second
    of two circuits comes in elsewhere. ``binder`` of the screed decides which movement joints are proposed.

    ``path`` (corners of the centre line, to be rounded with the pipe's bend radius) or ``pieces`` bring a route
    to be judged instead of laid. ``drawing`` says how a drawing of it is laid out.
    """

    outline: tuple[Point, ...]
    pipe_spacing: float
    entry: Point | None = None
    doorway: tuple[Point, ...] | None = None
    manifold_place: Point | None = None
    second_entry: Point | None = None
    tail_pitch: float | None = None
    voids: tuple[tuple[Point, ...], ...] = ()
    pattern: Literal["counterflow", "serpentine"] = "counterflow"
    outermost_pipe: Literal["flow", "return"] = "flow"
    wall_clearance: float = 0.075
    wall_stretches: tuple[WallStretch, ...] = ()
    peripheral: PeripheralArea | None = None
    pipe: Pipe = USUAL_PIPE
    movement_joints: tuple[tuple[Point, ...], ...] = ()
    tail_length: float = 0.0
    maximum_circuit_length: float | None = None
    circuits: int | None = field(default=None, metadata=named("circuits_wanted"))
    binder: Binder = "cement"
    quick: bool = False
    chord_error: float = 0.001
    path: tuple[Point, ...] | None = None
    pieces: tuple[PathPiece, ...] | None = None
    drawing: DrawingSheet = field(default=DrawingSheet(), metadata=named("drawing_sheet"))


@dataclass(frozen=True, slots=True)
class LaidSpacing:
    """A part of the floor of ``area`` [m2] round ``place`` [m] where the pipes lie at ``pipe_spacing`` [m]
    on average, ``pipe_count`` of them side by side."""

    place: Point
    area: float
    pipe_spacing: float
    pipe_count: int
    reason: str


@dataclass(frozen=True, slots=True)
class RouteQuality:
    """Figures of one route, as ``route_measures.RouteMeasures`` defines them; None where there is nothing to
    measure."""

    length_ratio: float
    coverage_half: float
    coverage_three_quarters: float
    gap_95: float | None
    least_distance: float | None
    distance_1: float | None
    close_share: float
    mixed_share: float | None
    temperature_spread: float | None


@dataclass(frozen=True, slots=True)
class RouteCoverage:
    """How much of the room's floor all pipe reaches; areas [m2], shares [0 to 1]."""

    heated_area: float
    coverage_half: float
    coverage_three_quarters: float
    bare_area: float
    bare_spots: tuple[BareSpot, ...]


@dataclass(frozen=True, slots=True)
class RouteCircuit:
    """One circuit as laid. Lengths in metres.

    ``path`` and ``pieces`` run from the flow's end at the entry to the return's. ``length`` is that of
    ``pieces``; ``tail_length`` is both ways to the manifold, so that both add up to ``total_length``.
    ``inner_tail_length`` is what of ``length`` leads from the entry to this circuit's floor and back.
    ``area`` [m2] is the floor of this circuit, by which ``quality`` is judged.
    """

    id: str
    engine: Literal["rings", "comb", "lattice"] | None
    entry: Point
    tail_pitch: float
    area: float
    pipe_spacing: float
    valid: bool
    length: float
    total_length: float
    least_radius: float | None
    bends: BendCount
    laid_spacings: tuple[LaidSpacing, ...]
    quality: RouteQuality
    path: tuple[Point, ...]
    pieces: tuple[PathPiece, ...]
    pattern: Literal["counterflow", "serpentine", "given"] = field(metadata=named("laid_pattern"))
    tail_length: float = field(metadata=named("both_tails_length"))
    inner_tail_length: float = 0.0


@dataclass(frozen=True, slots=True)
class RouteSleeve:
    """Where a tail of a circuit passes a movement joint: ``ahead`` is the unit vector of its direction there."""

    circuit: str
    place: Point
    ahead: Direction


@dataclass(frozen=True, slots=True)
class RoutesResult:
    """The circuits of a room, those at one entry in order along the wall, counter-clockwise round the room.

    ``area`` [m2] is net of voids, ``pipe_length`` [m] that of all circuits with their tails; ``bend_radius``
    [m] and ``maximum_circuit_length`` [m] are the ones applied, ``spacer_length`` [m] the clear distance
    between neighbouring pipes. ``length_spread`` is longest less shortest circuit over their mean, of the field
    between joints where it is greatest; None where the room was not divided.
    """

    area: float
    bend_radius: float
    maximum_circuit_length: float
    pipe_length: float
    spacer_length: float
    coverage: RouteCoverage
    sleeves: tuple[RouteSleeve, ...]
    length_spread: float | None
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    circuits: tuple[RouteCircuit, ...] = field(metadata=named("route_circuits"))


def path_piece(piece: Line | Arc) -> PathPiece:
    """A piece of a centre line as it is answered."""
    if isinstance(piece, Line):
        return PathPiece("line", piece.start, piece.end)
    return PathPiece("arc", piece.start, piece.end, piece.centre, piece.radius, piece.sweep)
