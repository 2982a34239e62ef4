"""A route that the caller brings, as lines and arcs."""

from __future__ import annotations

import math

import shapely
from shapely import LineString

from ...checking import Point
from ...errors import Fault, FaultList, InputError
from ..pipes.pipe_path import Arc, Line, PipePath
from ..pipes.polyline_path import path_from_polyline
from .route_records import PathPiece, RoutesInputs

__all__ = ["as_asked", "given_path", "path_of_pieces"]

_SLACK = 1e-4
"""By how much the end of an arc may miss where its sweep leads, and a radius its centre's distance [m]."""


def given_path(inputs: RoutesInputs) -> PipePath | None:
    """The route to be judged, None when one is to be laid.

    Corners of ``path`` are rounded with the pipe's bend radius, or less where their legs are too short: the
    judge then says so. Raises ``InputError`` for pieces that contradict themselves.
    """
    if inputs.pieces is not None:
        return PipePath(_pieces(inputs.pieces))
    if inputs.path is None:
        return None
    try:
        return path_from_polyline(_essential(inputs.path, inputs.chord_error), inputs.pipe.bend_radius).path
    except InputError as error:
        raise as_asked(error, inputs) from error


def path_of_pieces(given: tuple[PathPiece, ...], pointer: str = "/pieces") -> PipePath:
    """The path of pieces that a request brings. Raises ``InputError`` for those that contradict themselves."""
    try:
        return PipePath(_pieces(given))
    except InputError as error:
        raise InputError(*(_renamed(fault, {"/pieces": pointer}) for fault in error.faults)) from error


def _essential(points: tuple[Point, ...], chord_error: float) -> list[Point]:
    """Points without which the line would stray by more than ``chord_error`` [m]: corners that lie closer
    together than the line is exact tell nothing of a bend."""
    x0, y0 = points[0]
    line = LineString([(x - x0, y - y0) for x, y in points])
    kept = shapely.get_coordinates(shapely.simplify(line, chord_error)).tolist()
    return [(x + x0, y + y0) for x, y in kept]


def as_asked(error: InputError, inputs: RoutesInputs) -> InputError:
    """Faults of a route with the pointers of the request."""
    ours = {
        "/points": "/path",
        "/bend_radius": "/pipe/minimum_bend_radius",
        "/pieces": "/path" if inputs.pieces is None else "/pieces",
        "/walls": "/wall_stretches",
        "/denser": "/peripheral",
    }
    return InputError(*(_renamed(fault, ours) for fault in error.faults))


def _renamed(fault: Fault, names: dict[str, str]) -> Fault:
    for ours, theirs in names.items():
        if fault.pointer.startswith(ours):
            return Fault(theirs + fault.pointer.removeprefix(ours), fault.code, fault.detail, fault.limit)
    return fault


def _pieces(given: tuple[PathPiece, ...]) -> tuple[Line | Arc, ...]:
    faults = FaultList()
    pieces: list[Line | Arc] = []
    for index, piece in enumerate(given):
        pointer = f"/pieces/{index}"
        if piece.kind == "line":
            pieces.append(Line(piece.start, piece.end))
        elif (arc := _arc(piece, pointer, faults)) is not None:
            pieces.append(arc)
    faults.raise_if_any()
    return tuple(pieces)


def _arc(piece: PathPiece, pointer: str, faults: FaultList) -> Arc | None:
    if piece.centre is None or piece.sweep is None:
        name = "centre" if piece.centre is None else "sweep"
        faults.add(f"{pointer}/{name}", "missing", "an arc needs centre and sweep")
        return None
    (x, y), (cx, cy) = piece.start, piece.centre
    radius = math.hypot(x - cx, y - cy)
    agrees = faults.require(
        piece.radius is None or abs(piece.radius - radius) <= _SLACK,
        f"{pointer}/radius",
        "contradiction",
        f"is not the distance of start from centre, which is {radius:.4f} m",
        radius,
    )
    if not agrees or not faults.require(
        radius > 0.0, f"{pointer}/centre", "no_radius", "must not be the arc's start"
    ):
        return None
    arc = Arc(piece.centre, radius, math.atan2(y - cy, x - cx), piece.sweep)
    miss = math.dist(arc.end, piece.end)
    meets = faults.require(
        miss <= _SLACK, f"{pointer}/end", "contradiction", f"lies {miss:.4f} m from where the sweep leads"
    )
    return arc if meets else None
