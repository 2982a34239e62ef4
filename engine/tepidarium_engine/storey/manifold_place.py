"""Where a storey's manifolds should stand: where tails are shortest in all."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from ..elementwise import Array
from .manifold_assignment import Assignment, Siting, assigned
from .manifold_sites import AllowedWall, Distances, WallRun, places_along, wall_runs
from .tail_records import ManifoldPlace, StoreyPlan, TailDemand, TailRules
from .tail_routes import routed_tails

__all__ = ["AllowedWall", "ManifoldChoice", "SitedManifold", "best_manifold_place"]

_COARSE = 0.25
"""Between places along a wall that are compared first [m]."""
_FINE = (0.05, 0.01)
"""Between places round the best one, in turn [m]."""
_MOST_MANIFOLDS = 8


@dataclass(frozen=True, slots=True)
class SitedManifold:
    """A manifold, its circuits in the order asked for, and the pipe in all their tails, flow and return [m]."""

    manifold: ManifoldPlace
    circuits: tuple[str, ...]
    tail_length: float


@dataclass(frozen=True, slots=True)
class ManifoldChoice:
    """``manifolds``: none where no allowed place serves all rooms that can be reached; ``tail_length`` [m] of
    all; ``given_tail_length`` [m] from the caller's own position, ``None`` without one or where it does not
    reach every room; ``unreached``: circuits of rooms that no allowed place reaches."""

    manifolds: tuple[SitedManifold, ...]
    tail_length: float
    given_tail_length: float | None
    unreached: tuple[str, ...]


def best_manifold_place(
    plan: StoreyPlan,
    demands: Sequence[TailDemand],
    allowed: Sequence[AllowedWall],
    *,
    tail_pitch: float,
    wall_clearance: float,
    bend_radius: float,
    ports_maximum: int = 12,
    tail_length_maximum: float = math.inf,
    given: ManifoldPlace | None = None,
    routed: int = 0,
) -> ManifoldChoice:
    """As few manifolds as ``ports_maximum`` circuits each and ``tail_length_maximum`` [m] (one way) allow, at
    places on ``allowed`` walls, each room wholly on one of them.

    Lengths are those of shortest ways over free floor, each pair for itself. Doorways are kept clear. With
    ``routed`` > 0 the tails of a single manifold are drawn from so many of the best places in turn, and the
    first from which all circuits find a way is taken.
    """
    rules = TailRules(tail_pitch, wall_clearance, bend_radius)
    task = _Task(
        Distances.of(plan, rules), demands, rules, min(ports_maximum, len(demands)), tail_length_maximum
    )
    runs = wall_runs(plan, allowed)
    sites = task.sites(runs)
    lengths = task.distances.to_rooms([run.at(along) for run, along in sites])
    rooms = [room for room in task.rooms if np.isfinite(lengths[:, room]).any()] if sites else []
    unreached = tuple(demand.circuit for demand in demands if demand.room not in rooms)
    found = task.chosen(sites, lengths, rooms, routed)
    given_length = None if given is None else task.length_from(given)
    return ManifoldChoice(found, math.fsum(one.tail_length for one in found), given_length, unreached)


@dataclass(frozen=True)
class _Task:
    distances: Distances
    demands: Sequence[TailDemand]
    rules: TailRules
    ports: int
    longest: float

    @property
    def rooms(self) -> list[int]:
        return sorted({demand.room for demand in self.demands})

    def circuits(self, room: int) -> int:
        return sum(demand.room == room for demand in self.demands)

    def sites(self, runs: Sequence[WallRun]) -> list[tuple[WallRun, float]]:
        width = self.rules.width_for(self.ports)
        return [(run, along) for run in runs for along in places_along(run, width, _COARSE)]

    def length_from(self, place: ManifoldPlace) -> float | None:
        """Pipe in all tails from one place [m]."""
        lengths = self.distances.to_rooms([place])[0]
        total = math.fsum(2.0 * float(lengths[demand.room]) for demand in self.demands)
        return total if math.isfinite(total) else None

    def costs(self, lengths: Array, rooms: Sequence[int]) -> Array:
        """Pipe in the tails of each room [m], infinite where they are too long."""
        own = lengths[:, list(rooms)]
        count = np.array([self.circuits(room) for room in rooms])
        costs: Array = np.where(own <= self.longest, 2.0 * own * count[None, :], np.inf)
        return costs

    def chosen(
        self, sites: list[tuple[WallRun, float]], lengths: Array, rooms: Sequence[int], routed: int
    ) -> tuple[SitedManifold, ...]:
        if not rooms:
            return ()
        costs = self.costs(lengths, rooms)
        counts = np.array([self.circuits(room) for room in rooms])
        siting = Siting(costs, counts, self.ports, self._apart(sites))
        least = math.ceil(int(counts.sum()) / self.ports)
        for count in range(max(1, least), min(_MOST_MANIFOLDS, len(sites)) + 1):
            found = assigned(siting, count)
            if found is not None:
                if count == 1 and routed > 0:
                    found = self._drawn(sites, costs, rooms, routed)
                return self._sited(sites, found, rooms)
        return ()

    def _apart(self, sites: Sequence[tuple[WallRun, float]]) -> Array:
        """Which places leave each other the width of a manifold."""
        places = np.array([run.at(along).place for run, along in sites])
        rooms = np.array([run.room for run, _ in sites])
        away = np.hypot(*(places[:, None, :] - places[None, :, :]).transpose(2, 0, 1))
        apart: Array = (away >= self.rules.width_for(self.ports)) | (rooms[:, None] != rooms[None, :])
        return apart

    def _drawn(
        self, sites: list[tuple[WallRun, float]], costs: Array, rooms: Sequence[int], routed: int
    ) -> Assignment:
        """Of the best place of each wall, in order, the first from which all tails can be drawn; else the one
        with the fewest circuits left out."""
        totals = costs.sum(axis=1)
        best: dict[int, int] = {}
        for row in np.argsort(np.round(totals, 6), kind="stable").tolist():
            best.setdefault(id(sites[row][0]), row)
        demands = [demand for demand in self.demands if demand.room in rooms]
        tried: list[tuple[int, int, int]] = []
        for row in [row for row in best.values() if math.isfinite(totals[row])][:routed]:
            run, along = sites[row]
            place = self._refined(run, along, rooms).manifold
            drawn = routed_tails(
                self.distances.walkways.plan,
                place,
                demands,
                tail_pitch=self.rules.tail_pitch,
                wall_clearance=self.rules.wall_clearance,
                bend_radius=self.rules.bend_radius,
            )
            tried.append((len(drawn.unrouted), len(tried), row))
            if not drawn.unrouted:
                break
        row = min(tried)[2]
        return Assignment((row,), (0,) * len(rooms), float(totals[row]))

    def _sited(
        self, sites: list[tuple[WallRun, float]], found: Assignment, rooms: Sequence[int]
    ) -> tuple[SitedManifold, ...]:
        chosen = []
        for number, row in enumerate(found.places):
            own = [room for room, owner in zip(rooms, found.manifolds, strict=True) if owner == number]
            if own:
                chosen.append(self._refined(*sites[row], own, alone=len(found.places) == 1))
        return tuple(chosen)

    def _refined(self, run: WallRun, along: float, rooms: Sequence[int], alone: bool = True) -> SitedManifold:
        """The best place near a coarse one; beside other manifolds it stays where they were kept apart."""
        half = self.rules.width_for(self.ports) / 2.0
        step = _COARSE
        for finer in _FINE if alone else ():
            low, high = max(half, along - step), min(run.length - half, along + step)
            tried = np.unique(
                np.append(np.linspace(low, high, round((high - low) / finer) + 1), along)
            ).tolist()
            costs = self.costs(self.distances.to_rooms([run.at(position) for position in tried]), rooms)
            along = tried[int(np.round(costs.sum(axis=1), 9).argmin())]
            step = finer
        place = run.at(along)
        cost = self.costs(self.distances.to_rooms([place]), rooms)[0]
        circuits = tuple(demand.circuit for demand in self.demands if demand.room in rooms)
        return SitedManifold(replace(place), circuits, float(cost.sum()))
