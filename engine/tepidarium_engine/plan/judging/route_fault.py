"""A reason why a pipe cannot be laid as drawn."""

from __future__ import annotations

from dataclasses import dataclass

from ...checking import Point

__all__ = ["RouteFault"]


@dataclass(frozen=True, slots=True)
class RouteFault:
    """A reason why the pipe cannot be laid as drawn.

    ``place`` [m] is where it is worst; ``value`` missed ``limit``. Both are in metres, but for ``kink`` [rad].

    - ``gap``: the next piece of pipe starts elsewhere; ``kink``: it starts in another direction;
    - ``bend_radius``: of an arc, or length over angle of a chain of short pieces that together turn as tightly;
    - ``crosses_itself``: ``value`` is the distance along the pipe between the two passes;
    - ``start_off_entry``, ``end_off_entry``: distance from the entry;
    - ``tail_pitch``: distance between the two ends;
    - ``wall_clearance``: to walls and voids, negative where the pipe leaves the floor;
    - ``pipe_distance``: between parts of the pipe more than 2.6 spacings apart along it;
    - ``tail_distance``: between the two ends near the entry.
    """

    code: str
    place: Point
    value: float
    limit: float
