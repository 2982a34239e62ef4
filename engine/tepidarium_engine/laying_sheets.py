"""Laying sheets: each drawn circuit as a fitter follows it, straight by straight and turn by turn, with metre marks."""

from __future__ import annotations

from .cautions import LAYING
from .checking import check
from .errors import FaultList, InputError
from .fitting.core import core_mark
from .fitting.drawn_pipe import drawn_pipe
from .fitting.sheet_records import (
    CircuitToLay,
    LayingRoom,
    LayingSheet,
    LayingSheetsInputs,
    LayingSheetsResult,
    LayingStep,
    WallDistance,
)
from .fitting.sheets import RoomFloor, Rooms, laying_sheet
from .gathering import gathered
from .pipe import check_pipe
from .plan.asking.route_records import PathPiece
from .plan.lengths.lengths import laid_diameter
from .plan.outlines.polygons import room_outline
from .plan.pipes.pipe_path import PipePath
from .results import Finding, Working

__all__ = [
    "CircuitToLay",
    "LayingRoom",
    "LayingSheet",
    "LayingSheetsInputs",
    "LayingSheetsResult",
    "LayingStep",
    "WallDistance",
    "calculate",
    "core_of",
    "sheets_of",
    "workings",
]


_PRACTICE = "Common practice, no source"


def calculate(inputs: LayingSheetsInputs) -> LayingSheetsResult:
    """One sheet for each circuit; lengths in metres, angles in degrees.

    Raises ``InputError`` for pieces that contradict themselves or do not join, outlines that are none, circuits in
    rooms that are not there, ids that are not unique, and a spacing no wider than the pipe.
    """
    check(inputs)
    return sheets_of(inputs)


def sheets_of(inputs: LayingSheetsInputs) -> LayingSheetsResult:
    """``calculate`` for inputs whose numbers were checked already."""
    faults = FaultList()
    storeys = _storeys(inputs, faults)
    paths = _paths(inputs, storeys, faults)
    faults.raise_if_any()
    sheets = tuple(
        laying_sheet(inputs, circuit, path, storeys[circuit.storey])
        for circuit, path in zip(inputs.circuits, paths, strict=True)
    )
    return LayingSheetsResult(sheets, gathered(_findings(inputs), inputs), LAYING)


def core_of(pieces: tuple[PathPiece, ...], pipe_spacing: float) -> float | None:
    """Where along a drawn counterflow [m] its flow turns into the return; None where the pieces do not join, or nothing
    runs beside each other. ``pipe_spacing`` [m]."""
    path = drawn_pipe(pieces, "", FaultList())
    return None if path is None else core_mark(path, pipe_spacing)


def _storeys(inputs: LayingSheetsInputs, faults: FaultList) -> dict[str | None, Rooms]:
    """The rooms by storey."""
    found: dict[str | None, Rooms] = {}
    ids = [room.id for room in inputs.rooms]
    for number, room in enumerate(inputs.rooms):
        pointer = f"/rooms/{number}"
        faults.require(
            ids.index(room.id) == number, f"{pointer}/id", "not_unique", "another room has the same id"
        )
        try:
            outline = room_outline(room.outline, room.voids, pointer)
        except InputError as error:
            faults.faults.extend(error.faults)
            continue
        found.setdefault(room.storey, Rooms({})).floors[room.id] = RoomFloor(
            outline.placed, (room.outline, *room.voids)
        )
    return found


def _paths(inputs: LayingSheetsInputs, storeys: dict[str | None, Rooms], faults: FaultList) -> list[PipePath]:
    check_pipe(inputs.pipe, "/pipe", faults)
    found: list[PipePath] = []
    ids = [circuit.id for circuit in inputs.circuits]
    for number, circuit in enumerate(inputs.circuits):
        pointer = f"/circuits/{number}"
        faults.require(
            ids.index(circuit.id) == number, f"{pointer}/id", "not_unique", "another has the same id"
        )
        rooms = storeys.get(circuit.storey)
        faults.require(
            rooms is not None and circuit.room in rooms.floors,
            f"{pointer}/room",
            "unknown_room",
            "names no room of this request on its storey",
        )
        faults.require(
            circuit.pipe_spacing > laid_diameter(inputs.pipe),
            f"{pointer}/pipe_spacing",
            "pipes_overlap",
            "must be more than the outside diameter of the pipe, or of its sheath if it has one",
            laid_diameter(inputs.pipe),
        )
        path = drawn_pipe(circuit.pieces, f"{pointer}/pieces", faults)
        if path is not None:
            found.append(path)
    return found


def _findings(inputs: LayingSheetsInputs) -> list[Finding]:
    if inputs.fixing_distance <= 0.5:
        return []
    return [
        Finding.at(
            "fixings_far_apart",
            "/fixing_distance",
            value=inputs.fixing_distance,
            limit=0.5,
            quantity="fixing_distance",
            source="EN 1264-4:2001, fixing of pipes",
        )
    ]


def workings(inputs: LayingSheetsInputs, result: LayingSheetsResult) -> tuple[Working, ...]:
    """Length, spacers and fixings of each circuit."""
    rows: list[tuple[str, str, float, str, str, str]] = [
        ("d", "outside diameter as laid", laid_diameter(inputs.pipe), "m", "given", "Input"),
        ("a", "distance of fixings on straights", inputs.fixing_distance, "m", "given", "Input"),
    ]
    for number, (circuit, sheet) in enumerate(zip(inputs.circuits, result.sheets, strict=True), start=1):
        who = sheet.circuit
        drawn = sheet.total_length - 2.0 * circuit.port_height
        rows += [
            (f"T_{number}", f"spacing of {who}", sheet.pipe_spacing, "m", "given", "Input"),
            (f"s_{number}", f"spacer of {who}", sheet.spacer_length, "m", f"T_{number} - d", _PRACTICE),
            (f"l_{number}", f"drawn pipe of {who}", drawn, "m", "sum of its lines and arcs", "Geometry"),
            (
                f"L_{number}",
                f"{who} from port to port",
                sheet.total_length,
                "m",
                f"l_{number} + 2 h",
                "Geometry",
            ),
            (
                f"N_{number}",
                f"fixings of {who}",
                float(sheet.fixings_on_straights + sheet.fixings_at_bends),
                "1",
                "ends of bends and crowns of U-turns, between them none further apart than a",
                "EN 1264-4:2001, fixing of pipes; bends by common practice",
            ),
        ]
    return tuple(Working(*row) for row in rows)
