"""The documents of a design, and the files that it is handed over as."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from tepidarium_engine.designs import DesignsInputs, DesignsResult
from tepidarium_engine.errors import Fault, InputError

from ..renderings.calendar import house_calendar
from ..renderings.dxf_sheets import dxf_of
from ..renderings.options_drawing import options_sheet
from ..renderings.season_drawing import season_sheet
from ..renderings.sensitivity_drawing import sensitivity_sheet
from ..renderings.storey_drawing import storey_drawing, storey_sheets
from .beside_chapters import beside_tables
from .comparison_tables import comparison_table
from .csv_text import csv_of
from .dates import PlanOf, programme_table, stage_table
from .design_tables import (
    chosen_floor_table,
    circuit_table,
    pressure_table,
    remedy_table,
    room_table,
    schedule_table,
    strip_table,
)
from .laying_pages import step_table
from .order_tables import coil_table, material_table
from .pack import handover_pack
from .parts import Table
from .record_forms import balancing_table, flushing_table, heat_up_table, moisture_table
from .typesetting import printed
from .workbook import workbook_of

__all__ = ["DESIGN_FILES", "design_cad", "design_schedule", "design_workbook", "with_laying_sheets"]


def with_laying_sheets(inputs: DesignsInputs) -> DesignsInputs:
    """Drawings show where the flow turns into the return, which laying sheets say."""
    return replace(inputs, laying_sheets=True)


def design_cad(inputs: DesignsInputs, result: DesignsResult) -> bytes:
    """The storeys as DXF."""
    return dxf_of(storey_sheets(inputs, result))


def design_drawings(inputs: DesignsInputs, result: DesignsResult) -> bytes:
    """The drawings alone as PDF."""
    return printed(storey_sheets(inputs, result))


def design_schedule(inputs: DesignsInputs, result: DesignsResult) -> bytes:
    """One line for each circuit as CSV."""
    return csv_of(schedule_table(inputs, result))


def design_workbook(inputs: DesignsInputs, result: DesignsResult) -> bytes:
    """All tables as XLSX."""
    return workbook_of(_tables(inputs, result))


def _tables(inputs: DesignsInputs, result: DesignsResult) -> Iterator[Table]:
    yield room_table(result)
    yield from (table for table in (chosen_floor_table(result), strip_table(result)) if table.rows)
    remedies = remedy_table(result)
    if remedies.rows:
        yield remedies.titled("Remedies")
    yield circuit_table(inputs, result)
    yield pressure_table(inputs, result)
    if result.comparison is not None:
        yield comparison_table(result.comparison)
    yield from beside_tables(inputs, result)
    if result.laying_sheets:
        names = {room.id: room.name or room.id for room in inputs.rooms}
        yield step_table(result.laying_sheets, names).titled("Laying steps")
    if result.materials is not None:
        yield material_table(result.materials)
        yield coil_table(result.materials.coil_plan)
    if result.curing_plans:
        names = {build_up.id: build_up.name or build_up.id for build_up in inputs.build_ups}
        plans = [PlanOf(names[own.build_up], own.plan) for own in result.curing_plans]
        yield stage_table(plans)
        yield programme_table(plans).titled("Supply day by day")
    if result.commissioning is not None:
        for title, make in _RECORDS.items():
            yield make(result.commissioning).titled(title)


_RECORDS = {
    "Flushing": flushing_table,
    "Balancing": balancing_table,
    "First heat-up log": heat_up_table,
    "Moisture": moisture_table,
}


def _options_plot(inputs: DesignsInputs, result: DesignsResult) -> bytes:
    if result.options is None:
        raise _not_asked("/objective")
    return options_sheet(result.options, None if inputs.objective is None else inputs.objective.prices)


def _sensitivity_plot(_: DesignsInputs, result: DesignsResult) -> bytes:
    if result.sensitivity is None:
        raise _not_asked("/sensitivity")
    return sensitivity_sheet(result.sensitivity)


def _season_plot(_: DesignsInputs, result: DesignsResult) -> bytes:
    if result.season is None:
        raise _not_asked("/season")
    return season_sheet(result.season)


def _not_asked(pointer: str) -> InputError:
    return InputError(Fault(pointer, "missing", "was not asked for, so that there is no plot of it"))


DESIGN_FILES = {
    "handover-pack.pdf": handover_pack,
    "drawings.pdf": design_drawings,
    "drawings.svg": storey_drawing,
    "drawings.dxf": design_cad,
    "tables.xlsx": design_workbook,
    "schedule.csv": design_schedule,
    "calendar.ics": house_calendar,
    "options.svg": _options_plot,
    "sensitivity.svg": _sensitivity_plot,
    "heating-curve.svg": _season_plot,
}
"""Name -> how it is made; beside ``result.json`` in the answer of several files."""
