"""The search for places of manifolds on a storey: as few as ports and ways allow, with the least pipe in all tails."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from ...elementwise import Array
from ..model.tail_records import ManifoldPlace
from .manifold_assignment import Assignment, Siting, assigned
from .manifold_sites import AllowedWall, Distances, WallRun, places_along, wall_runs

__all__ = ["FoundPlace", "PlaceSearch", "RoomDemand", "Stand"]

_COARSE = 0.25
"""Between places along a wall that are compared first [m]."""
_FINE = (0.05, 0.01)
"""Between places round the best one, in turn [m]."""


@dataclass(frozen=True, slots=True)
class RoomDemand:
    """Circuits of a room of the plan; ``room`` is ``None`` for one that is on no plan and as near to any place."""

    room: int | None
    circuits: int


@dataclass(frozen=True, slots=True)
class Stand:
    """A manifold: where it stands, or the walls at which it may stand; ``barred`` rooms (numbers of demands) are
    served by others."""

    place: ManifoldPlace | None = None
    walls: tuple[AllowedWall, ...] = ()
    barred: frozenset[int] = frozenset()


@dataclass(frozen=True, slots=True)
class FoundPlace:
    """Where a manifold stands, the numbers of the demands that it serves, and the pipe in their tails [m]."""

    place: ManifoldPlace
    served: tuple[int, ...]
    tail_length: float


@dataclass(frozen=True)
class _Row:
    """A place that is compared: on a run of wall, or where a manifold stands already."""

    place: ManifoldPlace
    run: WallRun | None = None
    along: float = 0.0


@dataclass(frozen=True)
class PlaceSearch:
    """``ports``: circuits of a manifold at most; ``longest``: one way to a room at most [m]; ``no_way``: what is
    counted for a way that is not there [m]; ``reluctance``: by room of the plan, what a metre of tail from a manifold
    in it counts, one where it is not given. Places and ways are remembered from question to question."""

    distances: Distances
    ports: int
    longest: float = math.inf
    no_way: float = math.inf
    reluctance: tuple[float, ...] = ()
    _known: dict[tuple[object, int], tuple[list[_Row], Array]] = field(default_factory=dict)

    def along(self, walls: tuple[AllowedWall, ...], pairs: int) -> tuple[list[_Row], Array]:
        """Places along walls, clear of doorways, for so many pairs of pipes, with the ways to all rooms [m]."""
        if (walls, pairs) not in self._known:
            width = self.distances.walkways.rules.width_for(pairs)
            rows = [
                _Row(run.at(along), run, along)
                for run in wall_runs(self.distances.walkways.plan, walls)
                for along in places_along(run, width, _COARSE)
            ]
            self._known[walls, pairs] = rows, self.distances.to_rooms([row.place for row in rows])
        return self._known[walls, pairs]

    def costs(self, lengths: Array, demands: Sequence[RoomDemand]) -> Array:
        """Pipe in the tails of each demand (a column) [m], infinite where they are too long or find no way."""
        columns = np.zeros((len(lengths), len(demands)))
        for column, demand in enumerate(demands):
            if demand.room is not None:
                ways = lengths[:, demand.room]
                ways = np.where(np.isfinite(ways), np.where(ways <= self.longest, ways, np.inf), self.no_way)
                columns[:, column] = 2.0 * ways * demand.circuits
        return columns

    def question(self, stands: Sequence[Stand], demands: Sequence[RoomDemand]) -> _Question:
        pairs = min(self.ports, sum(demand.circuits for demand in demands))
        rows: list[_Row] = []
        lengths: list[Array] = []
        spans: list[range] = []
        starts: dict[tuple[AllowedWall, ...], range] = {}
        for stand in stands:
            own = starts.get(stand.walls) if stand.place is None else None
            if own is None:
                if stand.place is None:
                    found, ways = self.along(stand.walls, pairs)
                    own = starts[stand.walls] = range(len(rows), len(rows) + len(found))
                else:
                    found, ways = [_Row(stand.place)], self.distances.to_rooms([stand.place])
                    own = range(len(rows), len(rows) + 1)
                rows += found
                lengths.append(ways)
            spans.append(own)
        whole = np.concatenate(lengths)
        return _Question(self, tuple(stands), tuple(demands), pairs, rows, whole, tuple(spans))


@dataclass(frozen=True)
class _Question:
    """``spans``: for each stand, which rows it may take; ``lengths``: ways from each row to each room [m]."""

    search: PlaceSearch
    stands: tuple[Stand, ...]
    demands: tuple[RoomDemand, ...]
    pairs: int
    rows: list[_Row]
    lengths: Array
    spans: tuple[range, ...]

    @property
    def width(self) -> float:
        return self.search.distances.walkways.rules.width_for(self.pairs)

    def answer(self, closed: Sequence[ManifoldPlace] = ()) -> list[FoundPlace] | None:
        """A place for each stand, none within the width of a manifold of those ``closed``; ``None``: ports and ways
        leave none."""
        if not self.rows or not all(self.spans):
            return None
        costs = self.search.costs(self.lengths, self.demands)
        if self.search.reluctance:
            costs = costs * np.array(self.search.reluctance)[self._rooms][:, None]
        found = assigned(self._siting(costs, closed), len(self.stands))
        if found is None:
            return None
        return [self._found(found, number) for number in range(len(self.stands))]

    def _siting(self, costs: Array, closed: Sequence[ManifoldPlace]) -> Siting:
        open_to = np.zeros((len(self.stands), len(self.rows)), dtype=bool)
        serves = np.ones((len(self.stands), len(self.demands)), dtype=bool)
        for number, (stand, span) in enumerate(zip(self.stands, self.spans, strict=True)):
            open_to[number, span.start : span.stop] = True
            serves[number, sorted(stand.barred)] = False
            if stand.place is None:
                for place in closed:
                    open_to[number] &= self._away_from(place)
        circuits = np.array([demand.circuits for demand in self.demands])
        return Siting(costs, circuits, self.search.ports, self._clear_of, open_to, serves)

    def _clear_of(self, row: int) -> Array:
        """Places that leave a manifold at ``row`` its width of wall."""
        return self._away_from(self.rows[row].place)

    def _away_from(self, place: ManifoldPlace) -> Array:
        away = np.hypot(*(self._places - np.array(place.place)).T)
        found: Array = (away >= self.width) | (self._rooms != place.room)
        return found

    @cached_property
    def _places(self) -> Array:
        return np.array([row.place.place for row in self.rows])

    @cached_property
    def _rooms(self) -> Array:
        return np.array([row.place.room for row in self.rows])

    def _found(self, found: Assignment, number: int) -> FoundPlace:
        """The best place near a coarse one; beside other manifolds it stays where they were kept apart."""
        served = tuple(column for column, owner in enumerate(found.manifolds) if owner == number)
        row = self.rows[found.places[number]]
        demands = [self.demands[column] for column in served]
        place = row.place
        if row.run is not None and len(self.stands) == 1:
            place = self._refined(row.run, row.along, demands)
        cost = self.search.costs(self.search.distances.to_rooms([place]), demands)
        return FoundPlace(place, served, float(cost.sum()))

    def _refined(self, run: WallRun, along: float, demands: Sequence[RoomDemand]) -> ManifoldPlace:
        half, step = self.width / 2.0, _COARSE
        for finer in _FINE:
            low, high = max(half, along - step), min(run.length - half, along + step)
            tried = np.unique(
                np.append(np.linspace(low, high, round((high - low) / finer) + 1), along)
            ).tolist()
            lengths = self.search.distances.to_rooms([run.at(position) for position in tried])
            costs = self.search.costs(lengths, demands)
            along = tried[int(np.round(costs.sum(axis=1), 9).argmin())]
            step = finer
        return run.at(along)
