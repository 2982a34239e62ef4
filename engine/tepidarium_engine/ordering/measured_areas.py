"""Floors of the order with their outlines, the pipe that lies in them and the walls round them."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

import shapely
from shapely import LineString, Polygon

from ..errors import FaultList, InputError
from ..plan.outlines.overlays import intersection
from ..plan.outlines.polygons import RoomOutline, room_outline
from ..quick_records import quickly_made
from .drawn_circuits import DrawnPipe
from .material_records import MaterialArea, MaterialBuildUp, MaterialsInputs

__all__ = ["MeasuredArea", "measured_areas", "usual_wall_length"]

_SQUARISH = 5.0 / math.sqrt(1.5)
"""Perimeter of a rectangle of 3:2 over the root of its area; common practice takes about 4 root A."""


@quickly_made
@dataclass(frozen=True, slots=True)
class MeasuredArea:
    """A floor of the order; ``wall_length`` [m] gets an edge strip, ``pipe_length`` [m] of pipe lies in it."""

    area: MaterialArea
    build_up: MaterialBuildUp
    outline: RoomOutline | None
    floor_area: float
    wall_length: float
    pipe_length: float

    @property
    def polygon(self) -> Polygon | None:
        """In the frame of the request."""
        return None if self.outline is None else self.outline.placed


def measured_areas(
    inputs: MaterialsInputs, drawn: Mapping[str, DrawnPipe], faults: FaultList
) -> tuple[MeasuredArea, ...]:
    """All areas, as far as they are sound; what is not is noted."""
    build_ups = {build_up.id: build_up for build_up in inputs.build_ups}
    found: list[MeasuredArea] = []
    for number, area in enumerate(inputs.areas):
        pointer = f"/areas/{number}"
        if area.build_up not in build_ups:
            detail = f"names no build-up of this request: there is no '{area.build_up}'"
            faults.add(f"{pointer}/build_up", "unknown_build_up", detail)
            continue
        outline = _outline(area, pointer, faults)
        size = area.area if outline is None else outline.area
        if size is not None:
            walls = _wall_length(area, outline, size)
            found.append(MeasuredArea(area, build_ups[area.build_up], outline, size, walls, 0.0))
    return _with_pipe(inputs, found, drawn)


def _outline(area: MaterialArea, pointer: str, faults: FaultList) -> RoomOutline | None:
    if (area.outline is None) == (area.area is None):
        faults.add(
            f"{pointer}/{'outline' if area.outline is None else 'area'}",
            "one_of",
            "give either outline or area, exactly one of the two",
        )
        return None
    if area.outline is None:
        faults.require(
            not area.voids and not area.openings,
            f"{pointer}/{'voids' if area.voids else 'openings'}",
            "needs_outline",
            "goes with an outline",
        )
        return None
    try:
        return room_outline(area.outline, area.voids, pointer)
    except InputError as error:
        faults.faults.extend(error.faults)
        return None


def usual_wall_length(area: float) -> float:
    """Walls [m] of a floor by its area [m2] alone."""
    return _SQUARISH * math.sqrt(area)


def _wall_length(area: MaterialArea, outline: RoomOutline | None, size: float) -> float:
    if area.wall_length is not None:
        return area.wall_length
    if outline is None:
        return usual_wall_length(size)
    openings = math.fsum(float(LineString(opening).length) for opening in area.openings)
    return max(outline.perimeter - openings, 0.0)


def _with_pipe(
    inputs: MaterialsInputs, areas: list[MeasuredArea], drawn: Mapping[str, DrawnPipe]
) -> tuple[MeasuredArea, ...]:
    """Drawn pipe lies where it is drawn, other pipe in the area that it names, or in all by their size."""
    plain = [circuit for circuit in inputs.circuits if circuit.id not in drawn]
    ids = {area.area.id for area in areas}
    nowhere = math.fsum(circuit.length for circuit in plain if circuit.area_id not in ids)
    whole = math.fsum(area.floor_area for area in areas)
    found = []
    for area in areas:
        length = nowhere * area.floor_area / whole
        length += math.fsum(circuit.length for circuit in plain if circuit.area_id == area.area.id)
        floor = area.polygon
        if floor is not None:
            length += math.fsum(
                float(intersection(pipe.line, floor).length)
                for pipe in drawn.values()
                if pipe.storey == area.area.storey and shapely.intersects(pipe.line, floor)
            )
        found.append(
            MeasuredArea(area.area, area.build_up, area.outline, area.floor_area, area.wall_length, length)
        )
    return tuple(found)
