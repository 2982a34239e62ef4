"""Rooms as a list of faces: net areas with what lies beyond, from outlines or as given."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import NamedTuple

from ..elementwise import ROUND_OFF
from ..errors import FaultList, InputError, required
from ..plan.outlines.polygons import room_outline
from ..plan.outlines.sound_outlines import sound_areas
from .edges import SAME_LENGTH, wall_lengths
from .records import (
    Beyond,
    Construction,
    Element,
    HeatLossInputs,
    HeatLossRoom,
    Opening,
    Slab,
    Surface,
    Wall,
)

__all__ = ["Face", "RoomFaces", "room_faces"]


class Face(NamedTuple):
    """A flat part of a room's envelope of one construction, openings taken out; ``area`` [m2].

    ``construction`` and ``u_value`` are both None where the other room of the request gives the element.
    """

    room: int
    pointer: str
    name: str
    surface: Surface
    area: float
    construction: Construction | None
    u_value: float | None
    beyond: Beyond
    neighbour: str | None
    neighbour_temperature: float | None
    temperature_factor: float | None
    thermal_bridge_supplement: float | None

    @property
    def given(self) -> bool:
        return self.construction is not None or self.u_value is not None

    @property
    def described(self) -> bool:
        """Whether anything is said of what lies beyond."""
        said = (self.neighbour, self.neighbour_temperature, self.temperature_factor)
        return said != (None, None, None)

    @property
    def over_balanced_space(self) -> bool:
        """Whether it is a suspended floor over a space whose heat balance is to be found."""
        return self.beyond == "underfloor_space" and self.temperature_factor is None


class RoomFaces(NamedTuple):
    """A room's floor area [m2] and volume [m3], the length of its outer walls [m] (None without an outline), and
    its faces."""

    area: float
    volume: float
    exposed_length: float | None
    faces: tuple[Face, ...]


@dataclass(frozen=True, slots=True)
class _Context:
    """What every face of a room shares."""

    inputs: HeatLossInputs
    room: HeatLossRoom
    index: int
    pointer: str
    storey_height: float
    sound_area: float | None
    constructions: dict[str, Construction]
    faults: FaultList

    def face(self, given: Wall | Slab | Element, pointer: str, surface: Surface, area: float) -> Face:
        construction = None if given.construction is None else self.constructions.get(given.construction)
        return Face(
            self.index,
            pointer,
            given.name,
            surface,
            area,
            construction,
            given.u_value if isinstance(given, Element) else None,
            given.beyond,
            given.neighbour,
            given.neighbour_temperature,
            given.temperature_factor,
            given.thermal_bridge_supplement,
        )


def room_faces(inputs: HeatLossInputs, faults: FaultList) -> tuple[RoomFaces, ...]:
    """Every room with its faces; what is impossible goes into ``faults``."""
    constructions = {construction.id: construction for construction in inputs.constructions}
    areas = sound_areas([() if room.outline is None or room.voids else room.outline for room in inputs.rooms])
    rooms = []
    for index, (room, area) in enumerate(zip(inputs.rooms, areas, strict=True)):
        height = inputs.storey_height if room.storey_height is None else room.storey_height
        at = _Context(inputs, room, index, f"/rooms/{index}", height, area, constructions, faults)
        rooms.append(_faces_of(at))
    return tuple(rooms)


def _faces_of(at: _Context) -> RoomFaces:
    room, faults, pointer = at.room, at.faults, at.pointer
    height = at.storey_height if room.room_height is None else room.room_height
    if room.outline is not None and height > at.storey_height:
        detail = "the clear height cannot exceed the storey height"
        faults.add(f"{pointer}/room_height", "above_storey", detail, at.storey_height)
    given = [
        at.face(element, f"{pointer}/elements/{index}", element.surface, element.area)
        for index, element in enumerate(room.elements)
    ]
    if room.outline is None:
        area = _given_area(at)
        return RoomFaces(area, area * height, None, tuple(given))
    net = _outline_area(at)
    if net is None:
        return RoomFaces(0.0, 0.0, None, tuple(given))
    lengths = wall_lengths(room, pointer, faults)
    faces = [
        *_wall_faces(at, lengths),
        *_slab_faces(at, "floor", net),
        *_slab_faces(at, "ceiling", net),
        *given,
    ]
    exposed = (
        length
        for wall, length in zip(room.walls, lengths, strict=True)
        if wall.beyond in ("outside", "unheated", "ground")
    )
    return RoomFaces(net, net * height, sum(exposed), tuple(faces))


def _given_area(at: _Context) -> float:
    room, faults, pointer = at.room, at.faults, at.pointer
    faults.require(room.area is not None, f"{pointer}/outline", "missing", "give an outline or an area")
    faults.require(
        bool(room.elements), f"{pointer}/elements", "no_elements", "a room without an outline needs elements"
    )
    for name in ("voids", "walls", "floors", "ceilings"):
        faults.require(
            not getattr(room, name), f"{pointer}/{name}", "needs_outline", f"{name} go with an outline"
        )
    return 0.0 if room.area is None else room.area


def _outline_area(at: _Context) -> float | None:
    room = at.room
    outline = required(room.outline, "the outline")
    at.faults.require(
        room.area is None, f"{at.pointer}/area", "one_of", "the outline gives the area; do not give both"
    )
    if at.sound_area is not None:
        return at.sound_area
    try:
        return room_outline(outline, room.voids, at.pointer, numbered_walls=bool(room.walls)).area
    except InputError as error:
        at.faults.faults.extend(error.faults)
        return None


def _wall_faces(at: _Context, lengths: list[float]) -> Iterator[Face]:
    height, depth = at.storey_height, min(at.room.depth_below_ground, at.storey_height)
    for index, (wall, length) in enumerate(zip(at.room.walls, lengths, strict=True)):
        pointer = f"{at.pointer}/walls/{index}"
        above = height
        if wall.beyond == "ground":
            if depth > 0.0:  # its absence is a fault of its own
                yield at.face(wall, pointer, "wall", length * depth)
            wall, above = replace(wall, beyond="outside"), height - depth  # noqa: PLW2901
        ratio = at.inputs.wall_area_ratio if wall.beyond == "outside" else 1.0
        for number, opening in enumerate(wall.openings):
            if (opening.width or 0.0) > length + SAME_LENGTH or (
                opening.height or 0.0
            ) > height + SAME_LENGTH:
                _tell_size(opening, f"{pointer}/openings/{number}", length, height, at.faults)
        yield from _with_openings(at, wall, pointer, "wall", length * above * ratio)


def _tell_size(opening: Opening, pointer: str, length: float, height: float, faults: FaultList) -> None:
    """It is wider than its wall is long [m], or higher than the storey."""
    for name, size, most in (("width", opening.width, length), ("height", opening.height, height)):
        if size is not None and size > most + SAME_LENGTH:
            detail = f"does not fit into a wall of {length:.3f} m by {height:.3f} m"
            faults.add(f"{pointer}/{name}", "larger_than_wall", detail, most)


def _slab_faces(at: _Context, surface: Surface, whole: float) -> Iterator[Face]:
    """Floors or ceilings that share the area of the outline [m2]."""
    name = f"{surface}s"
    slabs: tuple[Slab, ...] = getattr(at.room, name)
    where = f"{at.pointer}/{name}"
    rest = whole - sum(slab.area for slab in slabs if slab.area is not None)
    spare = [index for index, slab in enumerate(slabs) if slab.area is None]
    _check_slabs(at.faults, where, spare, rest=rest, whole=whole, name=name)
    for index, slab in enumerate(slabs):
        area = max(rest, 0.0) if slab.area is None else slab.area
        yield from _with_openings(at, slab, f"{where}/{index}", surface, area)


def _check_slabs(
    faults: FaultList, where: str, spare: list[int], *, rest: float, whole: float, name: str
) -> None:
    """``rest`` [m2] of the ``whole`` is left to ``spare``, the slabs without an area."""
    for index in spare[1:]:
        faults.add(f"{where}/{index}/area", "missing", f"only one of the {name} may go without its area")
    if spare and rest <= SAME_LENGTH:
        faults.add(f"{where}/{spare[0]}/area", "nothing_left", f"the other {name} take up the whole area")
    if not spare and rest > SAME_LENGTH * whole:
        detail = (
            f"{rest:.3f} m2 of the room have no {name.removesuffix('s')}: say what lies beyond (adiabatic if "
            "nothing is lost)"
        )
        faults.add(where, "area_without_slab", detail)
    if rest < -SAME_LENGTH * whole:
        faults.add(where, "larger_than_room", "is more than the room's area", whole)


def _with_openings(
    at: _Context, given: Wall | Slab, pointer: str, surface: Surface, gross: float
) -> Iterator[Face]:
    """The face less its windows and doors, and these."""
    if not given.openings:
        if gross > ROUND_OFF:
            yield at.face(given, pointer, surface, gross)
        return
    pointers = [f"{pointer}/openings/{index}" for index in range(len(given.openings))]
    areas = [
        _opening_area(opening, where, at.faults)
        for opening, where in zip(given.openings, pointers, strict=True)
    ]
    net = gross - sum(areas)
    if net < -ROUND_OFF:
        detail = f"windows and doors of {sum(areas):.3f} m2 do not fit into {gross:.3f} m2"
        at.faults.add(f"{pointer}/openings", "larger_than_wall", detail, gross)
    if given.construction is None:
        detail = "an element with windows or doors needs a construction"
        at.faults.add(f"{pointer}/construction", "missing", detail)
    if net > ROUND_OFF:
        yield at.face(given, pointer, surface, net)
    for opening, where, area in zip(given.openings, pointers, areas, strict=True):
        yield Face(
            at.index,
            where,
            opening.name,
            opening.surface,
            area,
            None,
            opening.u_value,
            given.beyond,
            given.neighbour,
            given.neighbour_temperature,
            given.temperature_factor,
            given.thermal_bridge_supplement,
        )


def _opening_area(opening: Opening, pointer: str, faults: FaultList) -> float:
    if opening.area is not None:
        if opening.width is not None or opening.height is not None:
            faults.add(f"{pointer}/area", "one_of", "give the area, or width and height")
        return opening.area
    if opening.width is None or opening.height is None:
        missing = "width" if opening.width is None else "height"
        faults.add(f"{pointer}/{missing}", "missing", "give width and height, or the area")
        return 0.0
    return opening.width * opening.height
