"""What tails are asked for and what comes of it; all in one frame of the storey, lengths in metres."""

from __future__ import annotations

import math
from dataclasses import dataclass

from shapely import Polygon

from ...checking import Point
from .records import Doorway, PairPlace, TailRoute

__all__ = [
    "CircuitPlace",
    "Lane",
    "ManifoldPlace",
    "RoutedTails",
    "StoreyPlan",
    "TailDemand",
    "TailRules",
    "UnroutedTail",
]


_HAIR = 1e-6
"""That a bend has more room than it takes, so that rounding does not refuse it [m]."""


@dataclass(frozen=True)
class StoreyPlan:
    """Rooms with their voids, and the doorways between them, in one frame [m]; ``entries_of_others``: rooms with
    circuits of other manifolds than the one that is looked at, and where these come in."""

    rooms: tuple[Polygon, ...]
    doorways: tuple[Doorway, ...]
    entries_of_others: tuple[tuple[int, Point], ...] = ()


@dataclass(frozen=True, slots=True)
class ManifoldPlace:
    """The middle of a manifold's ports on the outline of a room, and the unit vector into that room."""

    place: Point
    ahead: Point
    room: int


@dataclass(frozen=True, slots=True)
class TailDemand:
    """A circuit and the room it heats: one pair of pipes from the manifold to that room."""

    circuit: str
    room: int


@dataclass(frozen=True, slots=True)
class TailRules:
    """``tail_pitch``: between neighbouring pipes; ``wall_clearance``: of a centre line from walls and voids;
    ``bend_radius``: of every bend [m]."""

    tail_pitch: float
    wall_clearance: float
    bend_radius: float

    @property
    def pair_width(self) -> float:
        """From the middle of a pair of pipes to the middle of the pair beside it [m]."""
        return 2.0 * self.tail_pitch

    @property
    def pair_clearance(self) -> float:
        """Of the middle of a pair from walls and voids [m]: so much that the nearer pipe still has the wall clearance
        where its bend cuts round a corner that stands out at a right angle."""
        round_corner = self.bend_radius - (self.bend_radius - self.wall_clearance) * math.sqrt(0.5)
        return max(self.wall_clearance, round_corner) + self.tail_pitch / 2.0

    @property
    def pair_radius(self) -> float:
        """Of the bend of a pair's middle whose inner pipe still has the bend radius [m]."""
        return self.bend_radius + self.tail_pitch / 2.0 + _HAIR

    @property
    def first_lane(self) -> float:
        """From a wall to the middle of the pair that keeps along it after a bend at the wall [m]."""
        return max(self.pair_clearance, self.pair_radius)

    def width_for(self, pairs: int) -> float:
        """Width [m] that pairs of pipes side by side take between two walls."""
        return 2.0 * self.wall_clearance + pairs * self.pair_width

    def pairs_in(self, width: float) -> int:
        """Pairs of pipes that pass side by side between two walls ``width`` [m] apart."""
        return max(0, int((width - 2.0 * self.wall_clearance + 1e-6) // self.pair_width))


@dataclass(frozen=True, slots=True)
class CircuitPlace:
    """Where a circuit's pair of pipes enters the room it heats, on that room's outline."""

    circuit: str
    room: int
    pair: PairPlace


@dataclass(frozen=True, slots=True)
class Lane:
    """Floor of a room that tails to other rooms take; no field pipe is laid there."""

    room: int
    circuits: tuple[str, ...]
    floor: Polygon


@dataclass(frozen=True, slots=True)
class UnroutedTail:
    """A circuit without tails and why.

    ``pairs`` of pipes, this one counted, were to pass at ``place`` [m] and need ``width_needed`` [m] where
    there are ``width_there`` [m]; ``named`` says what the place is: ``manifold``, ``doorway`` or ``room``
    with its index, or ``no_way``: no row of doorways leads to the room. ``remedy`` is a sentence.
    """

    circuit: str
    named: str
    index: int
    place: Point
    pairs: int
    width_needed: float
    width_there: float
    remedy: str

    @property
    def is_narrow(self) -> bool:
        """Whether more width, or tails that are closer together, would give it a way."""
        return self.named != "no_way"

    @property
    def reason(self) -> str:
        """What is in the way, and the remedy, in sentences."""
        if self.named == "no_way":
            return f"No row of doorways that take a pair of pipes leads to the room. {self.remedy}"
        if self.width_there <= 0.0:
            return f"No way through the room has space for the bends of the pipe. {self.remedy}"
        if self.width_needed <= self.width_there:
            return f"The pipes of others leave this pair no way on which it can bend. {self.remedy}"
        at = "on the wall of the manifold" if self.named == "manifold" else f"in the {self.named}"
        pairs = "A pair of pipes needs" if self.pairs == 1 else f"{self.pairs} pairs of pipes need"
        return (
            f"{pairs} {self.width_needed:.2f} m {at}, where {self.width_there:.2f} m are free. {self.remedy}"
        )


@dataclass(frozen=True)
class RoutedTails:
    """Tails of a storey.

    ``ports``: circuits by port, from the right-hand end of the manifold as seen looking into the room;
    ``places``: where each routed circuit enters its room, in the same order; ``routes``: tails of all routed
    circuits but those of the manifold's own room, which begin at their port; ``lanes`` in order of room.
    """

    ports: tuple[str, ...]
    places: tuple[CircuitPlace, ...]
    routes: tuple[TailRoute, ...]
    lanes: tuple[Lane, ...]
    unrouted: tuple[UnroutedTail, ...]
