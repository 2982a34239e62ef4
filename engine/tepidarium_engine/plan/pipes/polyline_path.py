"""A pipe that comes as a plain polyline, as drawings hold it."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from ...checking import Point
from ...errors import Fault, FaultList, InputError
from .fillets import Rounded, rounded
from .pipe_path import MOST_PIECES, Line, PipePath

__all__ = ["path_from_polyline"]


def path_from_polyline(points: Sequence[Point], bend_radius: float | None = None) -> Rounded:
    """The centre line of a pipe that is given by its ``points`` [m] in the order of flow.

    With a ``bend_radius`` [m] every corner is rounded by an arc of that radius, or of what its legs leave
    room for: those corners are listed as ``unresolved``, and the judge finds the bends too tight. A curve that
    comes as a chain of chords becomes arcs of that radius and lines that stray from it by no more than the
    chords do, if it was no tighter. Without one the points are joined by straight lines as they are; then any
    corner is a kink to the judge.

    Raises ``InputError``, pointers ``/points``, for fewer than 2 or more than 2500 points, a number that is not
    finite, points on one spot, or a radius below 0.01 m (``/bend_radius``).
    """
    most = MOST_PIECES // 2  # a line and an arc each
    faults = FaultList()
    faults.require(len(points) >= 2, "/points", "too_few", "must be at least 2 points", 2)
    faults.require(len(points) <= most, "/points", "too_many", f"must be at most {most} points", most)
    faults.raise_if_any()
    try:
        if bend_radius is not None:
            return rounded(points, bend_radius)
        return Rounded(PipePath.of(Line(a, b) for a, b in pairwise(points)), ())
    except InputError as refused:
        raise InputError(*map(_renamed, refused.faults)) from None


def _renamed(fault: Fault) -> Fault:
    """With the pointer as the caller knows the field."""
    for ours in ("/corners", "/pieces"):
        if fault.pointer.startswith(ours):
            return Fault("/points" + fault.pointer.removeprefix(ours), fault.code, fault.detail, fault.limit)
    return fault
