"""What the import of a plan is given and what it answers."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from ..building.records import DesignsInputs
from ..glossary import named
from ..results import Caution, Finding

__all__ = [
    "FileFormat",
    "FoundLayer",
    "FoundRoom",
    "FoundStorey",
    "ImportedPart",
    "LengthUnit",
    "PlanImportsInputs",
    "PlanImportsResult",
    "RoomState",
]

FileFormat = Literal["gbxml", "dxf"]
LengthUnit = Literal["m", "dm", "cm", "mm", "ft", "in", "yd", "km", "mi"]
RoomState = Literal["taken", "not_heated", "not_asked_for", "left_out"]


@dataclass(frozen=True, slots=True)
class PlanImportsInputs:
    """How to read a plan. Lengths in metres.

    ``length_unit`` takes the place of the file's own unit. Gaps and overlaps of no more than ``snap_tolerance`` are
    closed. Rooms that face each other over no more than ``thickest_wall`` have a wall in common. ``room_layer``,
    ``name_layer`` and ``doorway_layer`` are layers of a DXF; None: found. ``find_doorways``: whether rooms that no
    doorway reaches get one to a neighbour, of the ``doorway_width``. ``external_temperature`` and
    ``annual_mean_temperature`` [degC] no file has; without the first there is no heat loss. ``storeys`` are ids of
    those to take; all where there are none, as far as a design may have so many rooms.
    """

    length_unit: LengthUnit | None = None
    snap_tolerance: float = 0.02
    thickest_wall: float = 0.5
    room_layer: str | None = field(default=None, metadata=named("layer"))
    name_layer: str | None = field(default=None, metadata=named("layer"))
    doorway_layer: str | None = field(default=None, metadata=named("layer"))
    find_doorways: bool = True
    doorway_width: float = 0.8
    external_temperature: float | None = None
    annual_mean_temperature: float | None = None
    storeys: tuple[str, ...] = field(default=(), metadata=named("storeys_wanted"))


@dataclass(frozen=True, slots=True)
class FoundStorey:
    """A storey of the file; ``level`` [m] is the height of its floor, None where the file has none."""

    id: str
    name: str
    level: float | None
    room_count: int = field(metadata=named("rooms_on_storey"))
    taken: bool = field(metadata=named("storey_taken"))


@dataclass(frozen=True, slots=True)
class FoundRoom:
    """A room of the file. ``area`` [m2] of the outline as drawn, 0 where it has none; ``reason`` why it is not in the
    request."""

    id: str
    name: str
    storey: str = field(metadata=named("storey_id"))
    area: float = field(metadata=named("found_area"))
    state: RoomState = field(metadata=named("room_state"))
    reason: str = field(metadata=named("room_reason"))
    element: str = field(metadata=named("file_element"))
    file_line: int | None


@dataclass(frozen=True, slots=True)
class FoundLayer:
    """A layer of a drawing, what it was used for and what lies on it: outlines that are closed, lines that are not,
    texts, blocks, and all else."""

    name: str
    use: str = field(metadata=named("layer_use"))
    outline_count: int
    open_line_count: int
    text_count: int
    block_count: int
    other_count: int


@dataclass(frozen=True, slots=True)
class ImportedPart:
    """A part of the request and what it comes from: ``where`` is a JSON pointer into ``request`` of the answer,
    ``element`` and ``file_line`` are those of the file, empty and None where nothing in the file says it."""

    where: str = field(metadata=named("where_in_request"))
    message: str
    element: str = field(metadata=named("file_element"))
    file_line: int | None


@dataclass(frozen=True, slots=True)
class PlanImportsResult:
    """``request`` is one of designs; it can be computed once what ``missing`` names is filled in.

    ``taken`` is from the file. ``guessed`` is not: look at it. Findings point into this answer.
    """

    format: FileFormat = field(metadata=named("file_format"))
    length_unit: str = field(metadata=named("file_unit"))
    metres_per_unit: float
    request: DesignsInputs = field(metadata=named("imported_request"))
    taken: tuple[ImportedPart, ...] = field(metadata=named("parts_taken"))
    guessed: tuple[ImportedPart, ...] = field(metadata=named("parts_guessed"))
    missing: tuple[ImportedPart, ...] = field(metadata=named("parts_missing"))
    storeys_found: tuple[FoundStorey, ...]
    rooms_found: tuple[FoundRoom, ...]
    layers_found: tuple[FoundLayer, ...]
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
