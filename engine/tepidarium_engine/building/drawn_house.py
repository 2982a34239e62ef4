"""The rooms of a design with the circuits that were drawn, until length and pressure hold."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from ..errors import required
from ..plan.lengths.lengths import laid_diameter
from ..plan.mapping.peripheral_mapping import CloserStrip
from ..spreading import Spread
from ..storey.halls.bare_halls import barest_hall
from ..storey.model.layout_records import RoomTask, StoreyLayout, StoreyTask
from ..storey.narrow_places import least_tail_pitch
from ..storey.sketched_storey import sketched_storey
from ..storey.storey_layout import (
    StoreyMemory,
    laid_storey,
    rooms_without_way,
    unfilled_storey,
)
from .circuits import DividedRoom, balance, in_circuits, loses_too_much
from .drawn_lengths import measured
from .drawn_storey import Drawing, DrawnStorey
from .floors import RoomToHeat
from .house import House, HouseState, StoreySite
from .house_water import HouseWater
from .records import DesignsInputs
from .room_joints import parting_segments
from .room_strips import drawn_strip

__all__ = ["Draughtsman", "DrawnHouse"]

_Tasks = tuple[StoreyTask, ...]
"""All for which a drawing is the same."""
_MORE = 2
"""Circuits more that a room gets for the pressure that it loses."""


class DrawnHouse(NamedTuple):
    """Rooms and water with drawn lengths, and the drawings; ``settled``: lengths and pressures hold."""

    divided: tuple[DividedRoom, ...]
    water: HouseWater
    storeys: tuple[DrawnStorey, ...]
    settled: bool

    @property
    def full_rooms(self) -> set[int]:
        """Rooms by index of whose circuits none is drawn: tails of others leave them no floor, or no way to it."""
        return {
            storey.site.rooms[one.room].index
            for storey in self.storeys
            for one in storey.layout.unplaced
            if all(other.room != one.room for other in storey.layout.circuits)
        }

    def covers(self, room: RoomToHeat) -> bool:
        """Whether pipe of others lies all over the floor of a room."""
        spacing = self.divided[room.index].point.choice.pipe_spacing
        storey = next(storey for storey in self.storeys if room.index in storey.indices)
        return storey.drawing.is_covered(storey.site.place_of(room), spacing)

    @property
    def ports(self) -> dict[str, int]:
        """Port of each drawn circuit on its manifold."""
        return {circuit.id: circuit.port for storey in self.storeys for circuit in storey.layout.circuits}


@dataclass
class Draughtsman:
    """Draws a house, again and again while its spacings change, and remembers what did not: fields, layouts and
    sketches of its storeys, and numbers of circuits that a room was found to need at a spacing: the ``least`` for the
    pressure that it loses, for which it got one more so often as ``pressed`` says. While it is ``filling``, rooms get a
    circuit more where much floor of a hall would stay bare. ``alike``: tasks with the numbers that a storey came to,
    and that which it was laid for then."""

    house: House
    spread: Spread = map
    fields: dict[int, StoreyMemory] = field(default_factory=dict)
    layouts: dict[int, list[tuple[_Tasks, Drawing]]] = field(default_factory=dict)
    sketches: dict[int, list[tuple[_Tasks, Drawing]]] = field(default_factory=dict)
    storeys: dict[int, DrawnStorey] = field(default_factory=dict)
    counts: dict[tuple[int, float], int] = field(default_factory=dict)
    least: dict[tuple[int, float], int] = field(default_factory=dict)
    pressed: dict[tuple[int, float], int] = field(default_factory=dict)
    alike: list[tuple[StoreyTask, StoreyTask]] = field(default_factory=list)
    filling: bool = False

    def again(self, house: House) -> Draughtsman:
        """One for a house on the same plan, with the memory of this one."""
        return Draughtsman(house, self.spread, self.fields, self.layouts, self.sketches)

    def draw(self, state: HouseState, divided: tuple[DividedRoom, ...]) -> DrawnHouse:
        """Draw all circuits, take their lengths, and solve the water."""
        storeys = tuple(self._drawn(site, divided) for site in self.house.sites)
        for storey in storeys:
            self._remember_counts(storey.site, divided, storey.layout)
        layouts = {room.index: storey for storey in storeys for room in storey.site.rooms}
        rooms = tuple(measured(self.house.inputs, room, layouts.get(room.heated.index)) for room in divided)
        found = DrawnHouse(rooms, balance(state, rooms), storeys, False)
        settled = not self._losing(found) and all(storey.layout.settled for storey in storeys)
        return found._replace(settled=settled)

    def sketch(self, state: HouseState, divided: tuple[DividedRoom, ...]) -> DrawnHouse:
        """The same with tails only, and lengths as they are estimated."""
        storeys = []
        for site in self.house.sites:
            task = self._task(site, divided)
            sketch = _known(self.sketches, site, task)
            if sketch is None:
                sketch = _on_plan(task, sketched_storey(task, self._memory(site)))
                self.sketches[site.number].append(((task,), sketch))
            storeys.append(DrawnStorey(site, sketch))
        numbers = {
            storey.site.rooms[place].index: number
            for storey in storeys
            for place, number in Counter(one.room for one in storey.layout.circuits).items()
        }
        rooms = tuple(
            in_circuits(room, numbers.get(room.heated.index, len(room.loops.circuits))) for room in divided
        )
        return DrawnHouse(rooms, balance(state, rooms), tuple(storeys), False)

    def divides_more(self, drawn: DrawnHouse) -> bool:
        """Whether rooms that lose too much pressure get one circuit more from now on: at most twice, then the findings
        of the hydraulics name what is left."""
        changed = False
        for room in self._losing(drawn):
            key = _key(room)
            if self.pressed.get(key, 0) < _MORE:
                self.pressed[key] = self.pressed.get(key, 0) + 1
                self.least[key] = len(room.circuit_ids) + 1
                self.counts[key] = max(self._count(room), self.least[key])
                changed = True
        return changed

    def _losing(self, drawn: DrawnHouse) -> list[DividedRoom]:
        """Rooms of which a drawn circuit loses more pressure than is permitted."""
        limit = self.house.inputs.limits.maximum_pressure_drop
        on_site = {index for storey in drawn.storeys for index in storey.indices}
        return [
            room
            for room in drawn.divided
            if room.heated.index in on_site and loses_too_much(room, drawn.water, limit)
        ]

    def fills(self) -> bool:
        """Whether halls stay bare in what was drawn last: from now on it is filling then; once."""
        bare = any(
            barest_hall(tasks[0], drawing.layout) is not None
            for number, storey in self.storeys.items()
            for tasks, drawing in self.layouts[number]
            if drawing is storey.drawing
        )
        begins = bare and not self.filling
        self.filling |= bare
        return begins

    def without_way(self, storey: int, divided: Sequence[DividedRoom]) -> int:
        """Circuits of a storey whose tails find no way beside the others although there is one to their rooms: known
        before anything is drawn."""
        site = self._site(storey)
        return _reachable(site, rooms_without_way(self._task(site, divided), self._memory(site)))

    def left_out(self, storey: int, divided: Sequence[DividedRoom]) -> int:
        """Circuits of a storey that are not drawn although there is a way to their rooms."""
        site = self._site(storey)
        task = self._task(site, divided)
        layout = unfilled_storey(task, self._memory(site), self.spread)
        self._remember_counts(site, divided, layout)
        self.alike.append((self._task(site, divided), task))
        return _reachable(site, [one.room for one in layout.unplaced])

    def _site(self, storey: int) -> StoreySite:
        return next(site for site in self.house.sites if site.number == storey)

    def _memory(self, site: StoreySite) -> StoreyMemory:
        return self.fields.setdefault(site.number, StoreyMemory())

    def _drawn(self, site: StoreySite, divided: Sequence[DividedRoom]) -> DrawnStorey:
        asked = self._task(site, divided)
        task = next((before for after, before in self.alike if after == asked), asked)
        drawing = _known(self.layouts, site, task)
        if drawing is None:
            drawing = _on_plan(task, laid_storey(task, self._memory(site), spread=self.spread))
            self._remember_counts(site, divided, drawing.layout)
            # Asked for with the numbers that it came to, the storey is the same.
            self.layouts[site.number].append(((task, self._task(site, divided)), drawing))
        self.storeys[site.number] = DrawnStorey(site, drawing)
        return self.storeys[site.number]

    def _remember_counts(
        self, site: StoreySite, divided: Sequence[DividedRoom], layout: StoreyLayout
    ) -> None:
        """Numbers of circuits that were raised while the storey was laid."""
        for room in divided:
            if room.heated.own_circuits and room.heated.index in {own.index for own in site.rooms}:
                place = site.place_of(room.heated)
                found = sum(one.room == place for one in layout.circuits)
                found += sum(one.room == place for one in layout.unplaced) - layout.more.count(place)
                self.counts[_key(room)] = max(found, self._count(room))

    def _task(self, site: StoreySite, divided: Sequence[DividedRoom]) -> StoreyTask:
        inputs = self.house.inputs
        by_index = {room.heated.index: room for room in divided}
        return StoreyTask(
            plan=site.plan,
            rooms=tuple(self._room_task(site, by_index[heated.index]) for heated in site.rooms),
            manifold=site.manifolds[0],
            further_manifolds=site.manifolds[1:],
            tail_pitch=inputs.limits.tail_pitch,
            wall_clearance=inputs.limits.wall_clearance,
            bend_radius=inputs.pipe.bend_radius,
            quick=inputs.quick,
            least_tail_pitch=_least_tail_pitch(inputs),
            most_circuits=inputs.limits.maximum_circuits if self.filling else 0,
        )

    def _room_task(self, site: StoreySite, room: DividedRoom) -> RoomTask:
        heated = room.heated
        inside = (
            number
            for number, place in zip(site.numbers, site.manifolds, strict=True)
            if place.room == site.place_of(heated)
        )
        height = max(self.house.manifolds[number].height for number in (room.manifold, *inside))
        return RoomTask(
            id=heated.room.id,
            room=required(heated.outline, "the outline of a room that is drawn"),
            pipe_spacing=room.point.choice.pipe_spacing,
            maximum_circuit_length=room.permitted_length - 2.0 * height,
            pattern=heated.room.pattern,
            count=self._count(room),
            least=self.least.get(_key(room), 0),
            joints=parting_segments(heated),
            loops=heated.loops,
            strip=_strip(room),
            manifold=site.numbers.index(room.manifold),
            only=heated.room.manifold is not None,
            numbered=heated.numbered,
        )

    def _count(self, room: DividedRoom) -> int:
        if not room.heated.own_circuits:
            return 0
        return self.counts.get(_key(room), len(room.loops.circuits))


def _known(
    made: dict[int, list[tuple[_Tasks, Drawing]]], site: StoreySite, task: StoreyTask
) -> Drawing | None:
    """What was made before for the same task."""
    return next((drawing for asked, drawing in made.setdefault(site.number, []) if task in asked), None)


def _on_plan(task: StoreyTask, layout: StoreyLayout) -> Drawing:
    return Drawing(task.plan, layout, task.wall_clearance)


def _reachable(site: StoreySite, rooms: Iterable[int]) -> int:
    """How many of the rooms have a way to a manifold."""
    nearest = site.ways.min(axis=0).tolist()
    return sum(math.isfinite(nearest[room]) for room in rooms)


def _least_tail_pitch(inputs: DesignsInputs) -> float:
    """Of the pipe with its insulation [m]."""
    insulation = inputs.tail_insulation
    between = insulation.layers_between * insulation.thickness if insulation is not None else 0.0
    return least_tail_pitch(laid_diameter(inputs.pipe), between)


def _strip(room: DividedRoom) -> CloserStrip | None:
    """Where the pipe of a room is to lie closer."""
    outline = room.heated.outline
    if room.point.choice.strip is None or outline is None:
        return None
    return drawn_strip(room.heated.room, outline)


def _key(room: DividedRoom) -> tuple[int, float]:
    return room.heated.index, room.point.choice.pipe_spacing
