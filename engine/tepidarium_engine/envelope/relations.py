"""What the parts of a heat loss ask of each other, before anything is computed."""

from __future__ import annotations

from collections.abc import Iterable

from ..errors import FaultList
from .faces import Face, RoomFaces
from .records import Beyond, HeatLossInputs, Surface
from .u_values import check_construction

__all__ = ["check_faces", "check_inputs", "facing"]

_DESCRIBED_BY: dict[Beyond, tuple[str, ...]] = {
    "outside": (),
    "ground": (),
    "underfloor_space": ("temperature_factor",),
    "unheated": ("neighbour", "neighbour_temperature", "temperature_factor"),
    "heated_neighbour": ("neighbour_temperature",),
    "room": ("neighbour",),
    "adiabatic": (),
}
"""Which fields describe what lies beyond."""

_ALL = ("neighbour", "neighbour_temperature", "temperature_factor")


def check_inputs(inputs: HeatLossInputs, faults: FaultList) -> None:
    """Ids that occur once, whole constructions, unheated spaces that can be balanced, elements that name what
    exists."""
    for name in ("rooms", "constructions", "unheated_spaces"):
        seen: set[str] = set()
        for index, item in enumerate(getattr(inputs, name)):
            if item.id in seen:
                faults.add(f"/{name}/{index}/id", "not_unique", "another item has the same id")
            seen.add(item.id)
    for index, construction in enumerate(inputs.constructions):
        check_construction(construction, f"/constructions/{index}", faults)
    for index, space in enumerate(inputs.unheated_spaces):
        if (space.temperature is None) == (space.external_transmittance is None):
            detail = "give the temperature of the space, or its transmittance to the outside"
            faults.add(f"/unheated_spaces/{index}/external_transmittance", "one_of", detail)
        if space.ground_contact is not None and space.temperature is not None:
            detail = "leave it out, as the temperature of this space is given"
            faults.add(f"/unheated_spaces/{index}/ground_contact", "contradiction", detail)
    _check_names(inputs, faults)


def _check_names(inputs: HeatLossInputs, faults: FaultList) -> None:
    known = {construction.id for construction in inputs.constructions}
    for index, room in enumerate(inputs.rooms):
        for name in ("walls", "floors", "ceilings", "elements"):
            for place, item in enumerate(getattr(room, name)):
                if item.construction is not None and item.construction not in known:
                    where = f"/rooms/{index}/{name}/{place}/construction"
                    faults.add(where, "unknown_construction", "names no construction of this request")


def check_faces(inputs: HeatLossInputs, rooms: tuple[RoomFaces, ...], faults: FaultList) -> None:
    """What lies beyond every face exists and is described as it must be; partitions are given once."""
    ids = {
        "room": {room.id for room in inputs.rooms},
        "unheated": {space.id for space in inputs.unheated_spaces},
    }
    faces = [face for room in rooms for face in room.faces]
    for face in faces:
        if "/openings/" not in face.pointer:
            _check_beyond(face, inputs, ids, faults)
    _check_ground(inputs, faces, faults)
    _check_partitions(inputs, faces, faults)


def _check_beyond(face: Face, inputs: HeatLossInputs, ids: dict[str, set[str]], faults: FaultList) -> None:
    once = (face.construction is None) != (face.u_value is None)
    if once and not face.described and face.beyond not in ("room", "heated_neighbour"):
        return  # nearly all
    used = _DESCRIBED_BY[face.beyond]
    given = [name for name in _ALL if getattr(face, name) is not None]

    def fault(field: str, code: str, detail: str) -> None:
        faults.add(f"{face.pointer}/{field}", code, detail)

    for name in given:
        if name not in used:
            fault(name, "contradiction", f"does not go with {face.beyond}; leave it out")
    if not given and face.beyond in ("room", "heated_neighbour"):
        fault(used[0], "missing", f"{face.beyond} needs its {used[0]}")
    if len(given) > 1:
        fault(given[-1], "one_of", "describe what lies beyond in one way only")
    if face.neighbour is not None and face.beyond in ids:
        if face.neighbour not in ids[face.beyond]:
            fault("neighbour", "unknown_neighbour", f"names no {face.beyond} of this request")
        if face.beyond == "room" and face.neighbour == inputs.rooms[face.room].id:
            fault("neighbour", "own_neighbour", "a room is not its own neighbour")
    if face.construction is not None and face.u_value is not None:
        fault("u_value", "one_of", "give a construction or a U-value")
    if not face.given and face.beyond not in ("room", "adiabatic"):
        fault("construction", "missing", "an element needs a construction or a U-value")


def _check_ground(inputs: HeatLossInputs, faces: Iterable[Face], faults: FaultList) -> None:
    grounded = [face for face in faces if face.beyond == "ground"]
    suspended = [face for face in faces if face.beyond == "underfloor_space"]
    for face in grounded:
        if face.surface not in ("wall", "floor"):
            faults.add(
                f"{face.pointer}/beyond", "not_on_ground", "only walls and floors lie against the ground"
            )
    for face in suspended:
        if face.surface != "floor":
            faults.add(f"{face.pointer}/beyond", "not_suspended", "only floors lie over an underfloor space")
    walled = {face.room for face in grounded if face.surface == "wall"}
    for index, room in enumerate(inputs.rooms):
        if room.depth_below_ground > 0.0:
            continue
        if index in walled or any(wall.beyond == "ground" for wall in room.walls):
            detail = "give how deep the room's floor lies below ground: its walls against the ground need it"
            faults.add(f"/rooms/{index}/depth_below_ground", "missing", detail)
    faults.require(
        inputs.annual_mean_temperature is not None
        or not (
            grounded
            or any(face.over_balanced_space for face in suspended)
            or any(space.ground_contact for space in inputs.unheated_spaces)
        ),
        "/annual_mean_temperature",
        "missing",
        "give the annual mean of the outside air: the temperature of the ground follows from it",
    )


_FACING: dict[Surface, Surface] = {"floor": "ceiling", "ceiling": "floor"}


def facing(surface: Surface) -> Surface:
    """What an element is on its other side."""
    return _FACING.get(surface, surface)


def _level(surface: Surface) -> Surface:
    return surface if surface in _FACING else "wall"


def _check_partitions(inputs: HeatLossInputs, faces: list[Face], faults: FaultList) -> None:
    """What lies between two rooms is given on exactly one side."""
    given = {
        (inputs.rooms[face.room].id, face.neighbour, _level(face.surface))
        for face in faces
        if face.beyond == "room" and face.given
    }
    for face in faces:
        if face.beyond != "room" or "/openings/" in face.pointer:
            continue
        own = inputs.rooms[face.room].id
        from_there = (face.neighbour, own, _level(facing(face.surface))) in given
        if not face.given and not from_there:
            detail = f"neither this room nor {face.neighbour} gives what lies between them"
            faults.add(f"{face.pointer}/construction", "not_given", detail)
        if face.given and from_there and own > str(face.neighbour):
            faults.add(
                f"{face.pointer}/construction",
                "given_twice",
                f"{face.neighbour} gives what lies between them already",
            )
