"""Which floor each circuit gets: the whole room, or what movement joints, a second entry or a peripheral strip
make of it."""

from __future__ import annotations

from dataclasses import replace
from typing import NamedTuple

import numpy as np
import shapely
from shapely import LineString, Polygon

from ...checking import Point
from ...errors import Fault, InputError
from ..mapping.peripheral_mapping import CloserStrip
from ..outlines.denser_area import DenserArea, Spacings
from ..outlines.overlays import difference, intersection
from ..outlines.parting import JOINT_REACH, drawn_out, faces_between
from ..outlines.pipe_zone import WallClearance
from ..outlines.polygons import LEAST_DISTANCE, MINIMUM_AREA, RoomOutline, room_outline
from ..outlines.room_frame import room_frame
from .route_entries import EntryPlace
from .route_records import PeripheralArea, RoutesInputs
from .route_walls import band_beside, closer_strip, moved_wall, wall_clearances

__all__ = ["CircuitField", "circuit_fields", "drawn_out", "parting_joints", "whole_field"]

_CUTS = 33
"""Places that are tried for a cut."""
_ON_EDGE = 1e-4
"""What counts as on the edge of a piece of floor [m]."""
_CUT_COST = 0.3
"""What a cut as long as the side of a square room costs, beside a share of 1 of the area in the wrong piece."""


class CircuitField(NamedTuple):
    """The floor of one circuit. ``room`` is drawn so that ``wall_clearance`` holds along all its edges; ``walls``
    and ``closer_strip`` are in the caller's frame."""

    id: str
    room: RoomOutline
    entry: EntryPlace
    pipe_spacing: float
    walls: tuple[WallClearance, ...]
    closer_strip: CloserStrip | None = None

    @property
    def spacings(self) -> Spacings:
        """The spacing asked for at each place of the caller's frame."""
        strip = self.closer_strip
        denser = () if strip is None else (DenserArea(strip.area, strip.pipe_spacing),)
        return Spacings(self.pipe_spacing, denser)

    @property
    def local_walls(self) -> tuple[WallClearance, ...]:
        """The walls in the room's own frame."""
        return tuple(moved_wall(wall, self.room.origin) for wall in self.walls)


def circuit_fields(
    inputs: RoutesInputs, room: RoomOutline, first: EntryPlace, second: EntryPlace | None
) -> tuple[CircuitField, ...]:
    """The fields of one or two circuits.

    Raises ``InputError`` where two circuits have no second entry or the room cannot be parted in two.
    """
    whole = whole_field(inputs, room, first)
    pieces = _parted_by_joints(inputs, room)
    if len(pieces) > 1:
        return _joint_fields(pieces, whole, second)
    if inputs.peripheral is not None and inputs.peripheral.own_circuit:
        return _strip_fields(inputs, inputs.peripheral, whole, second)
    return (whole,) if second is None else _cut_fields(whole, second, inputs.wall_clearance)


def whole_field(inputs: RoutesInputs, room: RoomOutline, entry: EntryPlace) -> CircuitField:
    """The whole room for one circuit, closer in the peripheral strip if there is one."""
    strip = inputs.peripheral
    closer = None if strip is None or strip.own_circuit else closer_strip(inputs, strip, room)
    return CircuitField("1", room, entry, inputs.pipe_spacing, wall_clearances(inputs), closer)


def _parted_by_joints(inputs: RoutesInputs, room: RoomOutline) -> list[Polygon]:
    """Pieces of floor between the movement joints, largest first; one when none of them parts the room."""
    return _parted(room, [_joint_line(room, joint) for joint in inputs.movement_joints])


def parting_joints(inputs: RoutesInputs, room: RoomOutline) -> tuple[int, ...]:
    """Numbers of the movement joints without which the room would fall into fewer pieces."""
    lines = [_joint_line(room, joint) for joint in inputs.movement_joints]
    count = len(_parted(room, lines))
    return tuple(
        number
        for number in range(len(lines))
        if count > 1 and len(_parted(room, [*lines[:number], *lines[number + 1 :]])) < count
    )


def _joint_line(room: RoomOutline, joint: tuple[Point, ...]) -> LineString:
    return drawn_out(np.array(joint) - room.origin, room.polygon)


def _parted(room: RoomOutline, lines: list[LineString]) -> list[Polygon]:
    if not lines:
        return [room.polygon]
    pieces = faces_between(room.polygon, lines, MINIMUM_AREA / 10.0)
    return sorted(pieces, key=lambda piece: (-round(piece.area, 6), piece.bounds))


def _joint_fields(
    pieces: list[Polygon], whole: CircuitField, second: EntryPlace | None
) -> tuple[CircuitField, ...]:
    areas = ", ".join(f"{piece.area:.2f}" for piece in pieces)
    if len(pieces) > 2:
        raise InputError(
            Fault(
                "/movement_joints",
                "too_many_fields",
                f"divide the room into {len(pieces)} fields of {areas} m2, and no circuit may cross a joint: leave "
                "second_entry out, so that all circuits come in at one entry, or ask for each field by itself",
                2.0,
            )
        )
    if second is None:
        raise InputError(
            Fault(
                "/second_entry",
                "missing",
                f"is required: the movement joints divide the room into fields of {areas} m2, and no circuit may "
                "cross a joint. Say where the circuit of the other field comes in",
            )
        )
    edge = whole.room.origin
    for one, other in (pieces, pieces[::-1]):
        if _touches(one, whole.entry, edge) and _touches(other, second, edge):
            return _pair(whole, second, one, other, "/movement_joints")
    raise InputError(
        Fault(
            "/second_entry",
            "same_field",
            "comes into the same field as the first: no circuit may cross the joint",
        )
    )


def _strip_fields(
    inputs: RoutesInputs, strip: PeripheralArea, whole: CircuitField, second: EntryPlace | None
) -> tuple[CircuitField, ...]:
    """The strip along outside walls with the second entry, the rest of the floor with the first.

    Pipes keep half a spacing of their own to the border between the two, hence the shifts.
    """
    if second is None:
        raise InputError(
            Fault("/second_entry", "missing", "is required: say where the circuit of the strip comes in")
        )
    origin, room, clearance = whole.room.origin, whole.room.polygon, inputs.wall_clearance

    def band(width: float) -> shapely.Geometry:
        return band_beside(inputs, strip.edges, origin, width)

    inside = intersection(room, band(strip.width - (strip.pipe_spacing / 2.0 - clearance)))
    outside = difference(room, band(strip.width + (whole.pipe_spacing / 2.0 - clearance)))
    for piece, what in ((inside, "strip"), (outside, "rest of the floor")):
        if not isinstance(piece, Polygon) or piece.area < MINIMUM_AREA:
            raise InputError(
                Fault("/peripheral", "not_one_piece", f"leaves the {what} in several pieces or without floor")
            )
    if not _touches(inside, second, origin):
        raise InputError(
            Fault("/second_entry", "outside_strip", "must lie on the outline where the strip runs along it")
        )
    if not _touches(outside, whole.entry, origin):
        raise InputError(
            Fault(
                whole.entry.pointer,
                "inside_strip",
                "lies in the strip along the outside walls: let the circuit of the rest come in elsewhere",
            )
        )
    rest, dense = _pair(whole, second, outside, inside, "/peripheral")
    return rest, dense._replace(pipe_spacing=strip.pipe_spacing)


def _cut_fields(whole: CircuitField, second: EntryPlace, clearance: float) -> tuple[CircuitField, ...]:
    """Two pieces of about the same size, each with one of the entries, by one straight cut along the walls."""
    frame, origin = room_frame(whole.room.polygon), whole.room.origin
    room = frame.to_local(whole.room.polygon)
    places = [frame.local_place(entry.place, origin) for entry in (whole.entry, second)]
    shift = whole.pipe_spacing / 2.0 - clearance
    margin = max(whole.entry.tail_pitch, second.tail_pitch) / 2.0 + max(shift, 0.0) + JOINT_REACH
    found = [
        cut for axis in (0, 1) for cut in _cuts(room, axis, (places[0][axis], places[1][axis]), shift, margin)
    ]
    if not found:
        raise InputError(
            Fault(
                "/second_entry",
                "no_cut",
                "no straight cut along the walls divides the room into two whole pieces with one entry each: move "
                "the entries apart, or ask for both pieces by themselves",
            )
        )
    _, one, other = min(found, key=lambda cut: cut[0])
    back = frame.from_local
    return _pair(whole, second, back(one), back(other), "/second_entry")


def _cuts(
    room: Polygon, axis: int, entries: Point, shift: float, margin: float
) -> list[tuple[float, Polygon, Polygon]]:
    """Cost and pieces of every cut square to an axis between the ``entries``' places on it [m]; the piece of the
    first entry comes first."""
    low, high = min(entries) + margin, max(entries) - margin
    if low > high:
        return []
    cuts = []
    bounds = np.array(room.bounds).reshape(2, 2)
    for step in range(_CUTS):
        at = low + (high - low) * step / (_CUTS - 1)
        below, above = bounds.copy(), bounds.copy()
        below[1, axis], above[0, axis] = at - shift, at + shift
        pieces = [intersection(room, shapely.box(*box.ravel())) for box in (below, above)]
        if any(not isinstance(piece, Polygon) or piece.area < MINIMUM_AREA for piece in pieces):
            continue
        length = (sum(piece.length for piece in pieces) - room.length) / 2.0
        wrong = abs(pieces[0].area - pieces[1].area) / room.area
        cost = round(wrong + _CUT_COST * length / room.area**0.5, 6)
        cuts.append((cost, *(pieces if entries[0] < entries[1] else pieces[::-1])))
    return cuts


def _touches(piece: Polygon, entry: EntryPlace, origin: Point) -> bool:
    place = shapely.Point(entry.place[0] - origin[0], entry.place[1] - origin[1])
    return bool(shapely.distance(piece.exterior, place) <= _ON_EDGE)


def _pair(
    whole: CircuitField, second: EntryPlace, one: Polygon, other: Polygon, pointer: str
) -> tuple[CircuitField, CircuitField]:
    """The circuits of two pieces of a room that what ``pointer`` leads to makes of it."""
    rooms = [_as_room(piece, whole.room.origin, pointer) for piece in (one, other)]
    return whole._replace(room=rooms[0]), whole._replace(id="2", room=rooms[1], entry=second)


def _as_room(piece: Polygon, origin: Point, pointer: str) -> RoomOutline:
    """A piece of a room as a room: as a cut may leave edges that are no edges, it is checked like any other, and its
    faults are those of what makes the cut."""
    plain = shapely.remove_repeated_points(piece, LEAST_DISTANCE)
    rings = [
        [(x, y) for x, y in (shapely.get_coordinates(ring)[:-1] + origin).tolist()]
        for ring in (plain.exterior, *plain.interiors)
    ]
    try:
        return room_outline(rings[0], rings[1:])
    except InputError as error:
        raise InputError(
            *(
                replace(
                    fault, pointer=pointer, detail=f"one piece of the parted floor {fault.detail}", changes=()
                )
                for fault in error.faults
            )
        ) from error
