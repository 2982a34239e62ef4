"""What an order, its sheets and its pack cost by the number of rooms, with the design given: a table in Markdown of the
processor's time, by ``python -m tests.benchmarks growth``. ``tests/api/test_growth.py`` counts calls of the same."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator

from tepidarium_api.documents.design_files import design_cad, design_workbook
from tepidarium_api.documents.pack import handover_pack
from tepidarium_api.renderings.storey_drawing import storey_drawing
from tepidarium_engine.building.house_order import drawn_pieces
from tepidarium_engine.coil_plan import CircuitToCut, CoilPlanInputs
from tepidarium_engine.coil_plan import calculate as coil_plan
from tepidarium_engine.designs import (
    BuildUp,
    DesignRoom,
    DesignsInputs,
    DesignsResult,
    Manifold,
    PlanDoorway,
    Storey,
)
from tepidarium_engine.designs import calculate as design
from tepidarium_engine.laying_sheets import CircuitToLay, LayingRoom, LayingSheetsInputs
from tepidarium_engine.laying_sheets import calculate as laying_sheets
from tepidarium_engine.materials import MaterialArea, MaterialBuildUp, MaterialCircuit, MaterialsInputs
from tepidarium_engine.materials import calculate as materials

from .ratio import Ratio

__all__ = ["SEARCHED", "flats", "ratios", "tasks"]

ROOMS = 8
"""Of a flat."""
FLATS = (1, 2, 4, 8)
LAST = 2.6
"""So many times the time of half as many rooms, at most: twice, and what a shared machine adds."""
SEARCHED = ("coil plan", "materials, coil plan included")
MOST = 64
"""Circuits in a request of laying sheets."""
_WIDE, _DEEP = 16.4, 9.4


def flats(count: int, *, one_sheet: bool) -> DesignsInputs:
    """So many flats of eight rooms, each with a manifold in its hall: side by side on one storey, or one above the
    other."""
    rooms, doorways, manifolds = [], [], []
    for number in range(count):
        storey = None if one_sheet else f"storey {number}"
        x, y = (_WIDE * (number % 2), _DEEP * (number // 2)) if one_sheet else (0.0, 0.0)
        hall = f"hall {number}"
        rooms.append(_room(hall, storey, (x, y + 4.0, 16.0, 1.6), 20.0))
        for place in range(7):
            below, along = (True, place * 4.03) if place < 4 else (False, (place - 4) * 5.37)
            box = (x + along, y, 3.91, 3.88) if below else (x + along, y + 5.72, 5.25, 3.4)
            rooms.append(_room(f"room {number}-{place}", storey, box, 43.0))
            door = (x + along + 2.0, y + (3.94 if below else 5.66))
            doorways.append(PlanDoorway((hall, rooms[-1].id), door, 0.9))
        manifolds.append(Manifold((x, y + 4.8), id=f"M{number}", storey=storey))
    storeys = () if one_sheet else tuple(Storey(f"storey {number}") for number in range(count))
    floors = (BuildUp("tile", 3.1, 9.0, covering_resistance=0.02),)
    return DesignsInputs(
        tuple(rooms),
        floors,
        manifolds=tuple(manifolds),
        storeys=storeys,
        doorways=tuple(doorways),
        laying_sheets=True,
    )


def _room(name: str, storey: str | None, box: tuple[float, float, float, float], heat: float) -> DesignRoom:
    x, y, wide, deep = box
    outline = ((x, y), (x + wide, y), (x + wide, y + deep), (x, y + deep))
    return DesignRoom(name, "tile", heat * wide * deep, outline=outline, storey=storey)


def tasks(inputs: DesignsInputs, result: DesignsResult) -> dict[str, Callable[[], object]]:
    """What is made of a design, by name; the single calculations with requests that hold the same house."""
    storeys, pieces = {room.id: room.storey for room in inputs.rooms}, drawn_pieces(result.layout)
    spacings = {sheet.circuit: sheet.pipe_spacing for sheet in result.laying_sheets}
    cut = CoilPlanInputs(tuple(CircuitToCut(own.id, own.total_length) for own in result.circuits))
    bought = MaterialsInputs(
        tuple(
            MaterialCircuit(
                own.id, own.total_length, own.room, storey=storeys[own.room], pieces=pieces[own.id]
            )
            for own in result.circuits
        ),
        tuple(MaterialArea(room.id, "tile", room.outline, storey=storeys[room.id]) for room in inputs.rooms),
        (MaterialBuildUp("tile", 0.061),),
    )
    floors = tuple(LayingRoom(room.id, room.outline or (), storey=room.storey) for room in inputs.rooms)
    drawn = tuple(
        CircuitToLay(own.id, own.room, pieces[own.id], spacings[own.id], storey=storeys[own.room])
        for own in result.circuits
    )
    laid = [LayingSheetsInputs(drawn[at : at + MOST], floors) for at in range(0, len(drawn), MOST)]
    return {
        "coil plan": lambda: coil_plan(cut),
        "materials, coil plan included": lambda: materials(bought),
        "laying sheets": lambda: [laying_sheets(one) for one in laid],
        "drawing (SVG)": lambda: storey_drawing(inputs, result),
        "CAD drawing (DXF)": lambda: design_cad(inputs, result),
        "workbook": lambda: design_workbook(inputs, result),
        "handover pack": lambda: handover_pack(inputs, result),
    }


def ratios() -> Iterator[Ratio]:
    """For flats above each other and side by side: milliseconds by rooms, and what twice the rooms took. The search of
    a coil plan is bounded, not linear."""
    for one_sheet in (False, True):
        where = "on one sheet" if one_sheet else "on storeys"
        spent: dict[str, list[float]] = {}
        for count in FLATS:
            inputs = flats(count, one_sheet=one_sheet)
            for name, work in tasks(inputs, design(inputs)).items():
                spent.setdefault(name, []).append(min(_processor_time(work) for _ in range(3)))
        print(f"\n| flats {where} |", *(f"{count * ROOMS} rooms |" for count in FLATS))
        print("|---|" + "---|" * len(FLATS))
        for name, seconds in spent.items():
            print(f"| {name} |", *(f"{own * 1e3:.0f} ms |" for own in seconds))
        for name, (*_, half, whole) in spent.items():
            if name not in SEARCHED:
                yield Ratio(f"{name}, {where}: 64 / 32 rooms", whole / half, LAST, False)


def _processor_time(work: Callable[[], object]) -> float:
    started = time.process_time()
    work()
    return time.process_time() - started
