"""The tables of a design: rooms, circuits, balancing."""

from __future__ import annotations

from tepidarium_engine.building.outcome import CircuitDesign
from tepidarium_engine.designs import DesignsInputs, DesignsResult
from tepidarium_engine.water.result import CircuitHydraulics

from ..renderings.storey_plans import circuit_labels
from .parts import Column, Table, Value

__all__ = [
    "FLOW_COLUMNS",
    "chosen_floor_table",
    "circuit_table",
    "flow_cells",
    "pressure_table",
    "remedy_table",
    "room_table",
    "schedule_table",
    "strip_table",
]

_M, _MM, _L_MIN, _KPA = 1.0, 1e3, 6e4, 1e-3


def room_table(result: DesignsResult) -> Table:
    """What each room needs and gets."""
    columns = (
        Column("Room", width=3.0),
        Column("Area m²", 1),
        Column("Spacing mm", 0, 1.2),
        Column("Spacer mm", 0, 1.1),
        Column("Needs W", 0),
        Column("Gets W", 0),
        Column("From tails W", 0, 1.1),
        Column("Missing W", 0, 1.1),
        Column("Floor °C", 1),
    )
    rows = (
        (
            room.name or room.id,
            room.area,
            _times(room.pipe_spacing, _MM),
            _times(room.spacer_length, _MM),
            room.heat_demand,
            room.heat_given,
            room.tails_heat,
            room.heat_missing,
            room.mean_surface_temperature,
        )
        for room in result.rooms
    )
    return Table("Rooms", columns, tuple(rows))


def chosen_floor_table(result: DesignsResult) -> Table:
    """Floors whose covering was chosen, room by room."""
    columns = (
        Column("Room", width=2.5),
        Column("Floor chosen", width=4.0),
        Column("In place of", width=2.5),
        Column("Covering", width=2.0),
        Column("m²K/W", 3),
    )
    names = {room.id: room.name or room.id for room in result.rooms}
    rows = (
        (
            names[room],
            floor.build_up.name,
            floor.like,
            floor.build_up.covering.replace("_", " "),
            floor.build_up.covering_resistance,
        )
        for floor in result.chosen_floors
        for room in floor.rooms
    )
    return Table("Coverings that were chosen", columns, tuple(rows))


def strip_table(result: DesignsResult) -> Table:
    """Closer pipe along outside walls, and how warm both parts of the floor are."""
    columns = (
        Column("Room", width=2.5),
        Column("Strip m2", 1),
        Column("Spacing mm", 0, 1.2),
        Column("Strip °C", 1),
        Column("At most °C", 1, 1.1),
        Column("Beside it °C", 1, 1.2),
    )
    rows = (
        (
            room.name or room.id,
            room.peripheral.area,
            _times(room.peripheral.pipe_spacing, _MM),
            room.peripheral.mean_surface_temperature,
            room.peripheral.surface_temperature_limit,
            room.peripheral.rest_surface_temperature,
        )
        for room in result.rooms
        if room.peripheral is not None
    )
    return Table("Strips of closer pipe", columns, tuple(rows))


def remedy_table(result: DesignsResult) -> Table:
    """What would give the heat that rooms miss; a change that gives rooms the same stands once."""
    columns = (
        Column("Room", width=2.5),
        Column("Change", width=5.0),
        Column("Gives W", 0),
        Column("Missing W", 0),
    )
    found: dict[tuple[str, int, int], list[str]] = {}
    for room in result.rooms:
        for remedy in room.remedies:
            key = (remedy.message, round(remedy.heat_given), round(remedy.heat_missing))
            found.setdefault(key, []).append(room.name or room.id)
    rows = ((", ".join(names), *key) for key, names in found.items())
    return Table("What would give the missing heat", columns, tuple(rows))


def circuit_table(inputs: DesignsInputs, result: DesignsResult) -> Table:
    """Each circuit by its port, with its pipe and where it is cut from a coil."""
    names, rooms = _room_names(inputs), {room.id: room for room in result.rooms}
    labels, cuts = circuit_labels(inputs, result), _cuts(result)
    columns = (
        Column("Port", width=0.8),
        Column("Circuit", width=1.7),
        Column("Room", width=2.6),
        Column("Spacing mm", 0, 1.1),
        Column("Field m", 1),
        Column("Tails m", 1),
        Column("Pipe m", 1),
        Column("Coil", width=0.8),
        Column("From mark m", 2, 1.2),
        Column("To mark m", 2, 1.2),
    )
    rows = []
    for circuit in result.circuits:
        coil, start, end = cuts.get(circuit.id, (None, None, None))
        rows.append(
            (
                labels[circuit.id],
                circuit.id,
                names[circuit.room],
                _times(rooms[circuit.room].pipe_spacing, _MM),
                circuit.field_length,
                circuit.tail_length,
                circuit.total_length,
                coil,
                start,
                end,
            )
        )
    return Table("Circuits", columns, tuple(rows))


FLOW_COLUMNS = (
    Column("Heat W", 0),
    Column("Flow l/min", 2, 1.1),
    Column("Drop K", 1),
    Column("Velocity m/s", 2, 1.2),
    Column("Pressure kPa", 2, 1.2),
    Column("At valve kPa", 2, 1.2),
    Column("kv m³/h", 3, 1.1),
    Column("Valve setting", 2, 1.2),
)


def flow_cells(circuit: CircuitDesign | CircuitHydraulics) -> tuple[Value, ...]:
    """What stands below ``FLOW_COLUMNS``."""
    return (
        circuit.heat_flow,
        circuit.volume_flow * _L_MIN,
        circuit.temperature_drop,
        circuit.velocity,
        circuit.total_pressure_drop * _KPA,
        circuit.valve_pressure_drop * _KPA,
        circuit.valve_kv,
        circuit.valve_setting,
    )


def pressure_table(inputs: DesignsInputs, result: DesignsResult) -> Table:
    """What is set at the manifold so that each circuit gets its water."""
    names, labels = _room_names(inputs), circuit_labels(inputs, result)
    columns = (Column("Port", width=0.8), Column("Room", width=2.6), *FLOW_COLUMNS)
    rows = ((labels[circuit.id], names[circuit.room], *flow_cells(circuit)) for circuit in result.circuits)
    return Table("Flows and valves", columns, tuple(rows))


def schedule_table(inputs: DesignsInputs, result: DesignsResult) -> Table:
    """All of a circuit in one row, for programs and spreadsheets."""
    patterns = {room.id: room.pattern for room in inputs.rooms}
    storeys = {storey.id: storey.name or storey.id for storey in inputs.storeys}
    on = {room.id: storeys.get(room.storey or "") for room in inputs.rooms}
    cores = {sheet.circuit: sheet.core_mark for sheet in result.laying_sheets if sheet.core_mark is not None}
    circuits, flows = circuit_table(inputs, result), pressure_table(inputs, result)
    columns = (
        Column("Storey"),
        Column("Manifold"),
        *circuits.columns,
        Column("Pattern"),
        Column("Turns in the middle at m", 2),
        *flows.columns[2:],
    )
    rows = (
        (
            on[circuit.room],
            circuit.manifold,
            *first,
            patterns[circuit.room],
            cores.get(circuit.id),
            *second[2:],
        )
        for circuit, first, second in zip(result.circuits, circuits.rows, flows.rows, strict=True)
    )
    return Table("Schedule", columns, tuple(rows))


def _room_names(inputs: DesignsInputs) -> dict[str, str]:
    return {room.id: room.name or room.id for room in inputs.rooms}


def _cuts(result: DesignsResult) -> dict[str, tuple[str | None, float | None, float | None]]:
    if result.materials is None:
        return {}
    return {own.circuit: (own.coil, own.start_mark, own.end_mark) for own in result.materials.circuits}


def _times(value: float | None, factor: float) -> float | None:
    return None if value is None else value * factor
