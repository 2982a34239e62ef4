"""The part of a room's floor that fewer circuits than it asks for can serve: what lies nearest to where they come in.

Fewer pairs of pipes may fit through a doorway than the room needs circuits. Then pipe is laid on the floor that these
circuits reach, and the answer says how much floor stays without pipe. Of 1,354 rooms 9 needed this; it worked for 4.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import replace

import shapely
from shapely import Polygon

from ...checking import Point
from ...plan.laying.laying import Refusal
from ...plan.outlines.polygons import RoomOutline
from ...plan.outlines.regions import common, opened, parts_of
from ..model.layout_records import LaidRoom
from .field_circuits import refused
from .own_floor import OwnFloor

__all__ = ["laid_in_part"]

_FILL = 0.97
"""Share of the ideal length that a laid field comes to, to begin with."""
_HALVINGS = 24
_TRIES = 4
_SHORTER = 0.97
"""Aimed at, as circuits differ: of three rooms none came out short enough when all of the length was, which took a
quarter of a storey's time."""
_WHOLE = 0.98
"""Share of the floor that counts as all of it."""
_CUTS = 2
"""Ways to cut that are tried."""
_CHANNEL = 1.0
"""Least depth of a part [m]: room for a few pipes beside each other."""


def laid_in_part(own: OwnFloor, lay: Callable[[OwnFloor], LaidRoom]) -> LaidRoom:
    """The circuits of the largest part of the floor that they serve within the permitted length."""
    limit, count = own.room.maximum_circuit_length, len(own.places)
    tail = math.fsum(own.tail_length(number) for number in range(count)) / count
    area, served = own.inlet.floor.area, count * own.room.pipe_spacing / _FILL
    if area > served * (limit - tail):
        area = served * max(0.0, _SHORTER * limit - tail)
    told: LaidRoom | None = None
    for _ in range(_TRIES):
        lengths = []
        for part in _parts(own, area):
            laid = lay(part)
            longest = max((circuit.path.length for circuit in laid.circuits), default=laid.length)
            if not laid.unplaced and longest <= limit + 1e-6:
                return laid
            told = told or (replace(laid, too_few=False) if laid.unplaced else _too_long(own, longest))
            if longest > tail:
                lengths.append(longest)
            if not laid.unplaced:
                break
        if not lengths:
            break
        area *= max(0.0, _SHORTER * limit - tail) / (min(lengths) - tail)
    return told or _too_long(own, tail)


def _parts(own: OwnFloor, area: float) -> Iterator[OwnFloor]:
    """Parts of the floor by the entry, the most compact one first; the floor itself where it is no larger."""
    floor = own.inlet.floor
    if area >= _WHOLE * floor.area:
        yield own
        return
    ahead = own.inlet.ahead
    found = []
    for direction in (ahead, (-ahead[1], ahead[0]), (ahead[1], -ahead[0])):
        part = _cut(own, direction, area)
        if part is not None:
            found.append((round(part.length**2 / part.area, 6), part))
    for _, part in sorted(found, key=lambda each: each[0])[:_CUTS]:
        yield replace(own, outline=RoomOutline.of(part), inlet=replace(own.inlet, floor=part))


def _cut(own: OwnFloor, direction: Point, area: float) -> Polygon | None:
    """What of the floor at the entry lies less far in a direction than makes an area [m2]; ``None``: too narrow."""
    low, high = _CHANNEL, math.hypot(*_extent(own.inlet.floor))
    for _ in range(_HALVINGS):
        middle = (low + high) / 2.0
        part = _within(own, direction, middle)
        if part is None or part.area < area:
            low = middle
        else:
            high = middle
    part = _within(own, direction, low)
    return None if part is None or part.area > 1.05 * area else part


def _extent(floor: Polygon) -> tuple[float, float]:
    low_x, low_y, high_x, high_y = floor.bounds
    return high_x - low_x, high_y - low_y


def _within(own: OwnFloor, direction: Point, far: float) -> Polygon | None:
    """The part of the floor at the entry that lies less than ``far`` [m] in a direction."""
    floor, (x, y), (u, v) = own.inlet.floor, own.inlet.entry, direction
    wide = sum(_extent(floor)) + 1.0
    corners = [
        (x + along * u - side * v, y + along * v + side * u)
        for along, side in ((far, -wide), (far, wide), (-wide, wide), (-wide, -wide))
    ]
    left = parts_of(opened(common(floor, Polygon(corners)), own.task.wall_clearance))
    here = shapely.Point(own.inlet.entry)
    return next((part for part in left if shapely.distance(part.exterior, here) < 1e-3), None)


def _too_long(own: OwnFloor, length: float) -> LaidRoom:
    refusal = Refusal("circuit_too_long", None, length, own.room.maximum_circuit_length)
    return LaidRoom((), tuple(refused(place.circuit, own.index, refusal) for place in own.places))
