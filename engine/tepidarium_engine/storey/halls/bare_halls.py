"""Circuits for floor of a hall that tails cut off, and that no passing circuit has length for: of every manifold that
stands in the hall, else one more of the hall's own where its pair has a way, else one more of a room whose pipe passes
that floor, so that these have length for it."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

import shapely
from shapely import Polygon

from ...plan.outlines.overlays import intersection
from ...plan.outlines.regions import joined, minus, parts_of
from ..circuit_numbers import circuit_ids
from ..judging.room_bare import bare_floor, line_of
from ..model.layout_records import StoreyCircuit, StoreyLayout, StoreyTask
from ..model.tail_records import RoutedTails, UnroutedTail
from .cut_off_floor import free_parts, loop_rules
from .floor_apart import with_part
from .hall_cells import cut_between_manifolds
from .side_loops import borders

__all__ = ["LEAST_BARE", "MOST_BARE", "FullerStorey", "barest_hall", "circuits_of_rooms", "is_fuller"]

MOST_BARE = 0.06
"""Share of a hall that may stay bare."""
LEAST_BARE = 0.8
"""Bare floor that is worth a circuit [m2]."""
_HOSTS = 2
"""Rooms that are tried for one circuit more."""
_FEW = 40
"""Circuits of a storey up to which this is tried: all of it is laid once more."""
_TOUCH = 0.02
"""Nearer floor is beside each other [m]."""


@dataclass(frozen=True)
class FullerStorey:
    """A storey in which less floor of halls may stay bare: with parts of ``halls``, one for each that is named, as so
    many rooms after its own. ``counts``: circuits by room before."""

    task: StoreyTask
    counts: Mapping[int, int]
    halls: tuple[int, ...] = ()

    def as_asked(self, layout: StoreyLayout, narrow: tuple[UnroutedTail, ...]) -> StoreyLayout:
        """The layout with all circuits in the rooms of the storey that was asked for, and its ``narrow`` places."""
        names, room = self._names(layout), self._room
        tails, more = layout.tails, Counter[int]()
        for index, count in circuits_of_rooms(layout).items():
            more[room(index)] += count
        more.subtract(self.counts)
        places = (replace(one, circuit=names[one.circuit], room=room(one.room)) for one in tails.places)
        routes = (
            replace(one, circuit=names[one.circuit], rooms=tuple(map(room, one.rooms)))
            for one in tails.routes
        )
        lanes = (
            replace(one, circuits=tuple(map(names.__getitem__, one.circuits)), room=room(one.room))
            for one in tails.lanes
        )
        unrouted = (replace(one, circuit=names[one.circuit]) for one in tails.unrouted)
        return replace(
            layout,
            circuits=tuple(replace(one, id=names[one.id], room=room(one.room)) for one in layout.circuits),
            unplaced=tuple(replace(one, id=names[one.id], room=room(one.room)) for one in layout.unplaced),
            tails=RoutedTails(
                tuple(map(names.__getitem__, tails.ports)),
                tuple(places),
                tuple(routes),
                tuple(lanes),
                tuple(unrouted),
            ),
            fewer=tuple(replace(one, room=room(one.room)) for one in layout.fewer),
            narrow=narrow,
            more=tuple(sorted(more.elements())),
        )

    def fuller(
        self,
        hall: int,
        layout: StoreyLayout,
        without_loops: Sequence[StoreyCircuit],
        all_have_a_way: Callable[[StoreyTask], bool],
    ) -> Iterator[FullerStorey]:
        """With more circuits for floor of a hall, the best way first; ``layout``: of this storey, ``without_loops``:
        its circuits before loops were laid on floor that is cut off.

        In 100 storeys in the style of measured buildings 35 halls were cut, 22 of these kept; 4 times a part could be a
        room, all kept; 7 times a host had a way, 3 kept.
        """
        task = replace(self.task, tail_pitch=layout.tail_pitch, least_tail_pitch=math.inf)
        counts = _on_manifolds(task, circuits_of_rooms(layout))
        able = {index for index, room in enumerate(task.rooms) if counts[room.manifold] < task.most_circuits}
        cut = cut_between_manifolds(task, hall, circuits_of_rooms(layout)) if able else None
        if cut is not None:
            yield replace(self, task=cut, halls=(*self.halls, *[hall] * (len(cut.rooms) - len(task.rooms))))
        if layout.tails.unrouted:
            # One circuit more has no way where some have none already.
            return
        part = _part(task, layout, without_loops, hall) if hall in able else None
        parted = None if part is None else next(filter(all_have_a_way, with_part(task, hall, part)), None)
        if parted is not None:
            yield replace(self, task=parted, halls=(*self.halls, hall))
        for index in _hosts(task, layout, without_loops, able - {hall}, hall):
            count = sum(one.room == index for one in layout.circuits) + 1
            rooms = (*task.rooms[:index], replace(task.rooms[index], count=count), *task.rooms[index + 1 :])
            host = replace(task, rooms=rooms)
            if all_have_a_way(host):
                yield replace(self, task=host)

    def has_ports(self, layout: StoreyLayout) -> bool:
        """Whether no manifold has more circuits than it may, or than it had before."""
        before = _on_manifolds(self.task, self.counts)
        now = _on_manifolds(self.task, circuits_of_rooms(layout))
        return all(count <= max(self.task.most_circuits, before[number]) for number, count in now.items())

    def _room(self, index: int) -> int:
        own = len(self.task.rooms) - len(self.halls)
        return index if index < own else self.halls[index - own]

    def _names(self, layout: StoreyLayout) -> dict[str, str]:
        """Circuits by the names that they were laid under: those of a hall are numbered through."""
        rooms = {one.id: one.room for one in layout.circuits}
        rooms |= {one.id: one.room for one in layout.unplaced}
        names = {name: name for name in rooms}
        for hall in sorted(set(self.halls)):
            own = [name for name, room in rooms.items() if self._room(room) == hall]
            own.sort(key=lambda name: (rooms[name] != hall, rooms[name], len(name), name))
            names |= dict(zip(own, circuit_ids(self.task.rooms[hall], len(own)), strict=True))
        return names


def barest_hall(task: StoreyTask, layout: StoreyLayout) -> int | None:
    """The room with circuits that tails of others cross, of which the largest share is bare; ``None``: none is so bare
    that it matters, or the storey is too large to be laid again."""
    crossed = sorted({lane.room for lane in layout.tails.lanes if lane.room < len(task.rooms)})
    halls = [index for index in crossed if task.rooms[index].count != 0 and not task.rooms[index].joints]
    shares = {index: _bare_share(task, layout.circuits, index) for index in halls}
    barest = max(halls, key=lambda index: shares[index], default=None)
    return (
        barest if len(layout.circuits) <= _FEW and barest is not None and shares[barest] > MOST_BARE else None
    )


def is_fuller(task: StoreyTask, hall: int, layout: StoreyLayout, before: StoreyLayout) -> bool:
    """Whether all is drawn that was, and so much less of a hall is bare that it is worth a circuit."""
    if len(layout.unplaced) > len(before.unplaced) or layout.settled < before.settled:
        return False
    bare = [float(_bare(task, each.circuits, hall).area) for each in (layout, before)]
    return bare[1] - bare[0] >= LEAST_BARE


def _bare_share(task: StoreyTask, circuits: Sequence[StoreyCircuit], index: int) -> float:
    """Share of a room's floor that is bare."""
    room = task.plan.rooms[index]
    return float(_bare(task, circuits, index).area) / float(room.area)


def _bare(task: StoreyTask, circuits: Sequence[StoreyCircuit], index: int) -> shapely.Geometry:
    return bare_floor(task.plan.rooms[index], map(line_of, circuits), task.rooms[index].pipe_spacing)


def _on_manifolds(task: StoreyTask, rooms: Mapping[int, int]) -> Counter[int]:
    """Circuits of each manifold, from those of each of the ``rooms``."""
    counts = Counter[int]()
    for room, count in rooms.items():
        counts[task.rooms[room].manifold] += count
    return counts


def circuits_of_rooms(layout: StoreyLayout) -> Counter[int]:
    """How many each room has, drawn or not."""
    return Counter([one.room for one in layout.circuits] + [one.room for one in layout.unplaced])


def _hosts(
    task: StoreyTask,
    layout: StoreyLayout,
    without_loops: Sequence[StoreyCircuit],
    able: Collection[int],
    hall: int,
) -> list[int]:
    """Rooms of those that are ``able`` to have a circuit more whose pipe borders, before it has loops, the floor of a
    hall with the largest bare part, the one with the shortest tails first."""
    part = _barest(_bare(task, layout.circuits, hall), free_parts(task, without_loops, hall))
    if part is None:
        return []
    tails: dict[int, float] = {}
    for circuit in without_loops:
        if circuit.room in able and next(borders(circuit.path, part, loop_rules(task, hall)), None):
            tails[circuit.room] = min(circuit.tail_length, tails.get(circuit.room, math.inf))
    return sorted(tails, key=lambda room: round(tails[room], 3))[:_HOSTS]


def _part(
    task: StoreyTask, layout: StoreyLayout, without_loops: Sequence[StoreyCircuit], hall: int
) -> Polygon | None:
    """The barest floor of a hall for a circuit of its own."""
    reached = _reached(task, layout, hall)
    parts = free_parts(task, without_loops, hall)
    near = [part for part in parts if any(shapely.dwithin(part, one, _TOUCH) for one in reached)]
    return _barest(_bare(task, layout.circuits, hall), near)


def _barest(bare: shapely.Geometry, parts: Iterable[Polygon]) -> Polygon | None:
    """The part with the most bare floor, if that is worth a circuit."""
    found = [(round(float(intersection(part, bare).area), 4), part.bounds, part) for part in parts]
    area, _, part = max(found, key=lambda each: each[:2], default=(0.0, (), None))
    return part if area >= LEAST_BARE else None


def _reached(task: StoreyTask, layout: StoreyLayout, hall: int) -> list[Polygon]:
    """Floor of a hall that its own pairs come to without crossing tails of other manifolds."""
    number = task.rooms[hall].manifold
    served = {one.id: task.rooms[one.room].manifold for one in layout.circuits}
    across = joined(
        lane.floor
        for lane in layout.tails.lanes
        if lane.room == hall and any(served.get(circuit, number) != number for circuit in lane.circuits)
    )
    own = [shapely.Point(place.pair.place) for place in layout.tails.places if place.room == hall]
    return [
        part
        for part in parts_of(minus(task.plan.rooms[hall], across))
        if any(shapely.dwithin(part, place, _TOUCH) for place in own)
    ]
