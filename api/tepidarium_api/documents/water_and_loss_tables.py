"""The tables of a manifold's water side, and of the heat loss of rooms."""

from __future__ import annotations

from collections.abc import Iterator

from tepidarium_engine.heat_loss import HeatLossResult, RoomLoss
from tepidarium_engine.hydraulics import HydraulicsInputs, HydraulicsResult

from .design_tables import FLOW_COLUMNS, flow_cells
from .parts import Chapter, Column, Fields, Table, Value

__all__ = ["flow_chapter", "flow_table", "loss_chapters", "loss_table"]


def flow_table(inputs: HydraulicsInputs, result: HydraulicsResult) -> Table:
    """What each circuit takes, and what is set at its port."""
    columns = (
        Column("Circuit", width=2.4),
        Column("Pipe m", 1),
        *FLOW_COLUMNS,
        Column("Return °C", 1),
        Column("Remark", width=1.6),
    )
    rows = (
        (
            circuit.id,
            asked.length,
            *flow_cells(circuit),
            circuit.return_temperature,
            "valve stays open" if circuit.id == result.index_circuit else None,
        )
        for asked, circuit in zip(inputs.circuits, result.circuits, strict=True)
    )
    return Table("Flows and valves", columns, tuple(rows))


def flow_chapter(inputs: HydraulicsInputs, result: HydraulicsResult) -> Chapter:
    fields = Fields("Manifold, pump and vessel", tuple(_water_side(inputs, result)))
    return Chapter("Flows and balancing", (fields, flow_table(inputs, result)))


def _water_side(inputs: HydraulicsInputs, result: HydraulicsResult) -> Iterator[tuple[str, str]]:
    pump, vessel = result.pump, result.expansion_vessel
    yield "Supply and return", f"{inputs.supply_temperature:.1f} °C and {result.return_temperature:.1f} °C"
    yield "Heat in all", f"{result.heat_flow:.0f} W"
    yield "Flow in all", f"{result.volume_flow * 6e4:.2f} l/min"
    yield "Pressure across the manifold", f"{result.manifold_pressure * 1e-3:.1f} kPa"
    yield "Pump", f"{pump.volume_flow * 6e4:.2f} l/min at {pump.pressure * 1e-3:.1f} kPa ({pump.head:.2f} m)"
    yield "Electric power of the pump", f"{pump.electric_power_low:.0f} to {pump.electric_power_high:.0f} W"
    if result.mixing is not None:
        yield "Flow from the source", f"{result.mixing.primary_volume_flow * 6e4:.2f} l/min"
    yield "Content of the system", f"{result.system_volume * 1e3:.0f} l"
    size = "none found" if vessel.nominal_volume is None else f"{vessel.nominal_volume * 1e3:.0f} l"
    yield "Expansion vessel", f"{size}, precharge {vessel.precharge_pressure * 1e-5:.2f} bar"
    yield "Freezing point of the fluid", f"{result.freezing_point:.1f} °C"


def loss_table(result: HeatLossResult) -> Table:
    """What each room loses and needs."""
    columns = (
        Column("Room", width=2.4),
        Column("Room °C", 1),
        Column("Area m²", 1),
        Column("Volume m³", 1, 1.1),
        Column("Through elements W", 0, 1.4),
        Column("By air W", 0),
        Column("Heat loss W", 0, 1.1),
        Column("Reheat W", 0),
        Column("Heat demand W", 0, 1.2),
        Column("Demand W/m²", 1, 1.2),
        Column("Heated floor loses W", 0, 1.4),
    )
    rows = (
        (
            room.name or room.id,
            room.room_temperature,
            room.area,
            room.volume,
            room.transmission_loss,
            room.ventilation_loss,
            room.heat_loss,
            room.reheat_power,
            room.heat_demand,
            room.required_heat_output,
            room.heated_floor_loss,
        )
        for room in result.rooms
    )
    return Table("Rooms", columns, tuple(rows))


def loss_chapters(result: HeatLossResult) -> Iterator[Chapter]:
    totals = [
        ("Heat loss", f"{result.heat_loss:.0f} W"),
        ("Reheat", f"{result.reheat_power:.0f} W"),
        ("Heat demand", f"{result.heat_demand:.0f} W"),
        ("Loss through heated floors, not in the demand", f"{result.heated_floor_loss:.0f} W"),
    ]
    for space in result.unheated_spaces:
        totals.append((f"Temperature of {space.name or space.id}", f"{space.temperature:.1f} °C"))
    yield Chapter("Heat loss by EN 12831-1", (Fields("In all", tuple(totals)), loss_table(result)))
    yield Chapter("Heat loss by element", tuple(map(_element_table, result.rooms)))


def _element_table(room: RoomLoss) -> Table:
    columns = (
        Column("Element", width=1.4),
        Column("Name", width=1.4),
        Column("Beyond", width=1.8),
        Column("Area m²", 2),
        Column("U-value W/m²K", 3, 1.2),
        Column("Beyond °C", 1),
        Column("Heat loss W", 0),
    )
    rows: list[tuple[Value, ...]] = [
        (
            element.surface.replace("_", " "),
            element.name,
            " ".join(filter(None, (element.beyond.replace("_", " "), element.neighbour))),
            element.area,
            element.u_value,
            element.temperature_beyond,
            element.heat_loss,
        )
        for element in room.elements
    ]
    rows.append(("air", None, None, None, None, None, room.ventilation_loss))
    return Table(room.name or room.id, columns, tuple(rows))
