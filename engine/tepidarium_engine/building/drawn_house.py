"""The rooms of a design with the circuits that were drawn, until length and pressure hold."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from ..errors import required
from ..findings.undrawn import GUARDS
from ..plan.lengths.lengths import laid_diameter
from ..plan.mapping.peripheral_mapping import CloserStrip
from ..spreading import Spread
from ..storey.halls.bare_halls import barest_hall
from ..storey.model.layout_records import RoomTask, StoreyLayout, StoreyTask
from ..storey.narrow_places import least_tail_pitch
from ..storey.own_frame import OwnFrame, own_frame
from ..storey.sketched_storey import sketched_storey
from ..storey.storey_layout import (
    StoreyMemory,
    laid_storey,
    rooms_without_way,
    unfilled_storey,
)
from .circuits import DividedRoom, balance, in_circuits, loses_too_much
from .drawn_lengths import measured
from .drawn_parts import AskedPart, Book, Part, known, part_of, with_books
from .drawn_storey import Drawing, DrawnStorey
from .floors import RoomToHeat
from .house import House, HouseState, StoreySite
from .house_water import HouseWater
from .records import DesignsInputs
from .room_joints import parting_segments
from .room_strips import drawn_strip
from .site_parts import site_parts

__all__ = ["Draughtsman", "DrawnHouse"]

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
        """Rooms by index of whose circuits none is drawn as tails of others leave them no floor for that."""
        return {
            storey.site.rooms[one.room].index
            for storey in self.storeys
            for one in storey.drawing.layout.unplaced
            if f"not_drawn_{one.code}" not in GUARDS
            and all(other.room != one.room for other in storey.drawing.layout.circuits)
        }

    def covers(self, room: RoomToHeat) -> bool:
        """Whether pipe of others lies all over the floor of a room."""
        spacing = self.divided[room.index].point.choice.pipe_spacing
        storey = next(storey for storey in self.storeys if room.index in storey.indices)
        return storey.drawing.is_covered(storey.site.place_of(room), spacing)

    @property
    def ports(self) -> dict[str, int]:
        """Port of each drawn circuit on its manifold."""
        return {circuit.id: circuit.port for storey in self.storeys for circuit in storey.circuits}


@dataclass
class Draughtsman:
    """Draws a house, again and again while its spacings change, part by part of its storeys, and remembers what did
    not: in ``books``, one for all parts that were alike so far, and as numbers of circuits that a room was found to
    need at a spacing: the ``least`` for the pressure that it loses, for which it got one more so often as ``pressed``
    says. While it is ``filling``, rooms get a circuit more where much floor of a hall would stay bare. ``last``: what
    was drawn last. ``alike``: by part tasks with the numbers that it came to, and that which it was laid for then."""

    house: House
    spread: Spread = map
    books: dict[Part, Book] = field(default_factory=dict)
    last: tuple[DrawnStorey, ...] = ()
    counts: dict[tuple[int, float], int] = field(default_factory=dict)
    least: dict[tuple[int, float], int] = field(default_factory=dict)
    pressed: dict[tuple[int, float], int] = field(default_factory=dict)
    alike: dict[Part, list[tuple[StoreyTask, StoreyTask]]] = field(default_factory=dict)
    filling: bool = False

    def again(self, house: House) -> Draughtsman:
        """One for a house on the same plan, with the memory of this one."""
        return Draughtsman(house, self.spread, self.books)

    @property
    def memories(self) -> list[StoreyMemory]:
        """Those of all books."""
        return list({id(book): book.memory for book in self.books.values()}.values())

    def draw(self, state: HouseState, divided: tuple[DividedRoom, ...]) -> DrawnHouse:
        """Draw all circuits, take their lengths, and solve the water."""
        self.last = storeys = tuple(self._drawn(one, divided) for one in self._asked(divided))
        for storey in storeys:
            self._remember_counts(storey.site, divided, storey.drawing.layout)
        layouts = {room.index: storey for storey in storeys for room in storey.site.rooms}
        rooms = tuple(measured(self.house.inputs, room, layouts.get(room.heated.index)) for room in divided)
        found = DrawnHouse(rooms, balance(state, rooms), storeys, False)
        settled = not self._losing(found) and all(storey.drawing.layout.settled for storey in storeys)
        return found._replace(settled=settled)

    def sketch(self, state: HouseState, divided: tuple[DividedRoom, ...]) -> DrawnHouse:
        """The same with tails only, and lengths as they are estimated."""
        storeys = []
        for site, frame, book in self._asked(divided):
            sketch = known(book.sketches, frame.task)
            if sketch is None:
                sketch = Drawing(frame.task, sketched_storey(frame.task, book.memory))
                book.sketches.append(((frame.task,), sketch))
            storeys.append(DrawnStorey(site, sketch, frame))
        numbers = {
            storey.site.rooms[place].index: number
            for storey in storeys
            for place, number in Counter(one.room for one in storey.drawing.layout.circuits).items()
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
        drawings = {id(storey.drawing): storey.drawing for storey in self.last}
        bare = any(barest_hall(drawing.task, drawing.layout) is not None for drawing in drawings.values())
        begins = bare and not self.filling
        self.filling |= bare
        return begins

    def without_way(self, storey: int, divided: Sequence[DividedRoom]) -> int:
        """Circuits of a storey whose tails find no way beside the others although there is one to their rooms: known
        before anything is drawn."""
        return sum(
            _reachable(site, rooms_without_way(frame.task, book.memory))
            for site, frame, book in self._asked(divided, storey)
        )

    def left_out(self, storey: int, divided: Sequence[DividedRoom]) -> int:
        """Circuits of a storey that are not drawn although there is a way to their rooms."""
        left = 0
        for site, frame, book in self._asked(divided, storey):
            layout = unfilled_storey(frame.task, book.memory, self.spread)
            self._remember_counts(site, divided, layout)
            pairs = self.alike.setdefault(part_of(site), [])
            pairs.append((self._frame(site, divided).task, frame.task))
            left += _reachable(site, [one.room for one in layout.unplaced])
        return left

    def _asked(self, divided: Sequence[DividedRoom], storey: int | None = None) -> list[AskedPart]:
        """All parts, or those of one storey, with their books: those of which the same was asked so far share one."""
        parts = [
            part
            for site in self.house.sites
            if storey in (None, site.number)
            for part in site_parts(site, [divided[room.index].manifold for room in site.rooms])
        ]
        return with_books(self.books, [(part, self._frame(part, divided)) for part in parts])

    def _drawn(self, asked: AskedPart, divided: Sequence[DividedRoom]) -> DrawnStorey:
        site, frame, book = asked
        pairs = self.alike.get(part_of(site), [])
        task = next((before for after, before in pairs if after == frame.task), frame.task)
        drawing = known(book.layouts, task)
        if drawing is None:
            drawing = Drawing(task, laid_storey(task, book.memory, spread=self.spread))
            self._remember_counts(site, divided, drawing.layout)
            # Asked for with the numbers that it came to, the storey is the same.
            book.layouts.append(((task, self._frame(site, divided).task), drawing))
        return DrawnStorey(site, drawing, frame)

    def _remember_counts(
        self, site: StoreySite, divided: Sequence[DividedRoom], layout: StoreyLayout
    ) -> None:
        """Numbers of circuits that were raised while the storey was laid."""
        for place, heated in enumerate(site.rooms):
            room = divided[heated.index]
            if room.heated.own_circuits:
                found = sum(one.room == place for one in layout.circuits)
                found += sum(one.room == place for one in layout.unplaced) - layout.more.count(place)
                self.counts[_key(room)] = max(found, self._count(room))

    def _frame(self, part: StoreySite, divided: Sequence[DividedRoom]) -> OwnFrame:
        """A part of a storey as it is asked for."""
        whole = next(site for site in self.house.sites if site.number == part.number)
        return own_frame(self._task(part, divided), as_it_lies=len(part.rooms) == len(whole.rooms))

    def _task(self, site: StoreySite, divided: Sequence[DividedRoom]) -> StoreyTask:
        inputs = self.house.inputs
        return StoreyTask(
            plan=site.plan,
            rooms=tuple(self._room_task(site, divided[heated.index]) for heated in site.rooms),
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
            loops=not heated.own_circuits,
            strip=_strip(room),
            manifold=site.numbers.index(room.manifold),
            only=heated.room.manifold is not None,
            numbered=heated.numbered,
        )

    def _count(self, room: DividedRoom) -> int:
        if not room.heated.own_circuits:
            return 0
        return self.counts.get(_key(room), len(room.loops.circuits))


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
