"""The documents of the single calculations: the same chapters and tables as in the pack of a whole house."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, Protocol

from tepidarium_engine.coil_plan import CoilPlanInputs, CoilPlanResult
from tepidarium_engine.commissioning import CommissioningInputs, CommissioningResult
from tepidarium_engine.curing_plan import CuringPlanInputs, CuringPlanResult
from tepidarium_engine.design_options import DesignOptionsInputs, DesignOptionsResult
from tepidarium_engine.design_sensitivity import DesignSensitivityInputs, DesignSensitivityResult
from tepidarium_engine.heat_loss import HeatLossInputs, HeatLossResult
from tepidarium_engine.heating_season import HeatingSeasonInputs, HeatingSeasonResult
from tepidarium_engine.hydraulics import HydraulicsInputs, HydraulicsResult
from tepidarium_engine.laying_sheets import LayingSheetsInputs, LayingSheetsResult
from tepidarium_engine.materials import MaterialsInputs, MaterialsResult
from tepidarium_engine.moisture_reading import MoistureReadingInputs, MoistureReadingResult
from tepidarium_engine.results import Caution, Finding
from tepidarium_engine.routes import RoutesInputs, RoutesResult

from ..renderings.dxf_sheets import dxf_of
from ..renderings.route_drawing import route_sheets
from .beside_chapters import options_parts, season_parts, sensitivity_parts
from .csv_text import csv_of
from .dates import PlanOf, dates_chapter, programme_table
from .laying_pages import laying_chapter, step_table
from .moisture_form import limit_table, moisture_chapter, reading_table
from .order_tables import coil_chapter, coil_table, material_table, order_chapter, to_buy_table
from .pack import cautions_chapter, decisions_chapter
from .parts import Chapter, page_data
from .record_forms import (
    balancing_table,
    flushing_table,
    heat_up_table,
    leak_test_table,
    moisture_table,
    record_chapters,
)
from .typesetting import pdf_of, printed
from .water_and_loss_tables import flow_chapter, flow_table, loss_chapters, loss_table
from .workbook import workbook_of

__all__ = [
    "coil_csv",
    "coil_pdf",
    "coil_workbook",
    "curing_csv",
    "curing_pdf",
    "flow_csv",
    "flow_pdf",
    "laying_csv",
    "laying_pdf",
    "laying_workbook",
    "loss_csv",
    "loss_pdf",
    "material_csv",
    "material_pdf",
    "material_workbook",
    "moisture_csv",
    "moisture_pdf",
    "moisture_workbook",
    "options_pdf",
    "record_pdf",
    "record_workbook",
    "route_cad",
    "route_pdf",
    "season_pdf",
    "sensitivity_pdf",
]


class _Judged(Protocol):
    @property
    def findings(self) -> tuple[Finding, ...]: ...
    @property
    def cautions(self) -> tuple[Caution, ...]: ...


def _pdf(title: str, chapters: Iterable[Chapter], result: _Judged) -> bytes:
    return _pdf_of(title, map(page_data, chapters), result)


def _pdf_of(title: str, parts: Iterable[dict[str, Any]], result: _Judged) -> bytes:
    """The parts, then what is to be looked at and the cautions."""
    last = [*([decisions_chapter(result.findings, "Findings")] if result.findings else [])]
    if result.cautions:
        last.append(cautions_chapter(result.cautions))
    return pdf_of({"title": title, "cover": None, "parts": [*parts, *map(page_data, last)]})


def route_cad(inputs: RoutesInputs, result: RoutesResult) -> bytes:
    return dxf_of(route_sheets(inputs, result))


def route_pdf(inputs: RoutesInputs, result: RoutesResult) -> bytes:
    return printed(route_sheets(inputs, result))


def material_pdf(inputs: MaterialsInputs, result: MaterialsResult) -> bytes:
    chapters = [order_chapter(result)]
    if inputs.circuits:
        chapters.append(coil_chapter(result.coil_plan))
    return _pdf("Material list", chapters, result)


def material_csv(inputs: MaterialsInputs, result: MaterialsResult) -> bytes:
    return csv_of(material_table(result))


def material_workbook(inputs: MaterialsInputs, result: MaterialsResult) -> bytes:
    return workbook_of((material_table(result), to_buy_table(result.coil_plan), coil_table(result.coil_plan)))


def coil_pdf(inputs: CoilPlanInputs, result: CoilPlanResult) -> bytes:
    return _pdf("Plan of coils", (coil_chapter(result),), result)


def coil_csv(inputs: CoilPlanInputs, result: CoilPlanResult) -> bytes:
    return csv_of(coil_table(result))


def coil_workbook(inputs: CoilPlanInputs, result: CoilPlanResult) -> bytes:
    return workbook_of((to_buy_table(result), coil_table(result)))


def laying_pdf(inputs: LayingSheetsInputs, result: LayingSheetsResult) -> bytes:
    chapters = (
        laying_chapter(
            sheet, [room for room in inputs.rooms if room.storey == circuit.storey], circuit.pieces
        )
        for circuit, sheet in zip(inputs.circuits, result.sheets, strict=True)
    )
    return _pdf("Laying sheets", chapters, result)


def laying_csv(inputs: LayingSheetsInputs, result: LayingSheetsResult) -> bytes:
    return csv_of(step_table(result.sheets, {room.id: room.name or room.id for room in inputs.rooms}))


def laying_workbook(inputs: LayingSheetsInputs, result: LayingSheetsResult) -> bytes:
    names = {room.id: room.name or room.id for room in inputs.rooms}
    return workbook_of(step_table((sheet,), names).titled(sheet.circuit) for sheet in result.sheets)


def record_pdf(inputs: CommissioningInputs, result: CommissioningResult) -> bytes:
    return _pdf("Records of commissioning", record_chapters(result), result)


def record_workbook(inputs: CommissioningInputs, result: CommissioningResult) -> bytes:
    makers = {
        "Leak test": leak_test_table,
        "Flushing": flushing_table,
        "Balancing": balancing_table,
        "First heat-up log": heat_up_table,
        "Moisture": moisture_table,
    }
    tables = (make(result).titled(title) for title, make in makers.items())
    return workbook_of(table for table in tables if table.rows)


def curing_pdf(inputs: CuringPlanInputs, result: CuringPlanResult) -> bytes:
    return _pdf("Curing and first heat-up", (dates_chapter([PlanOf("", result)]),), result)


def curing_csv(inputs: CuringPlanInputs, result: CuringPlanResult) -> bytes:
    return csv_of(programme_table([PlanOf("", result)]))


def moisture_pdf(inputs: MoistureReadingInputs, result: MoistureReadingResult) -> bytes:
    return _pdf("Record of moisture", (moisture_chapter(inputs, result),), result)


def moisture_csv(inputs: MoistureReadingInputs, result: MoistureReadingResult) -> bytes:
    return csv_of(reading_table(inputs, result))


def moisture_workbook(inputs: MoistureReadingInputs, result: MoistureReadingResult) -> bytes:
    return workbook_of((reading_table(inputs, result), limit_table(result)))


def flow_pdf(inputs: HydraulicsInputs, result: HydraulicsResult) -> bytes:
    return _pdf("Flows and balancing", (flow_chapter(inputs, result),), result)


def flow_csv(inputs: HydraulicsInputs, result: HydraulicsResult) -> bytes:
    return csv_of(flow_table(inputs, result))


def loss_pdf(inputs: HeatLossInputs, result: HeatLossResult) -> bytes:
    return _pdf("Heat loss of rooms", loss_chapters(result), result)


def loss_csv(inputs: HeatLossInputs, result: HeatLossResult) -> bytes:
    return csv_of(loss_table(result))


def options_pdf(inputs: DesignOptionsInputs, result: DesignOptionsResult) -> bytes:
    return _pdf_of("Options of a house", options_parts(result, inputs.prices), result)


def sensitivity_pdf(_: DesignSensitivityInputs, result: DesignSensitivityResult) -> bytes:
    return _pdf_of("How a design reacts", sensitivity_parts(result), result)


def season_pdf(_: HeatingSeasonInputs, result: HeatingSeasonResult) -> bytes:
    return _pdf_of("Heating curve and year", season_parts(result), result)
