"""Commissioning of a design, with its own circuits, litres and dates."""

from __future__ import annotations

from dataclasses import replace

from ..commissioning import (
    CircuitToCommission,
    CommissioningInputs,
    CommissioningResult,
    LeakTest,
    ScreedToHeat,
    WaterSide,
    commissioned,
)
from ..results import FindingPlace
from .handover_records import Commissioning
from .joint_spans import joint_spans
from .whole_design import WholeDesign

__all__ = ["house_commissioning"]

_OF_DESIGN = ("/frost_temperature", "/fluid")


def house_commissioning(design: WholeDesign, options: Commissioning) -> CommissioningResult:
    """The steps with the design's figures. Findings point into the design."""
    inputs = design.inputs
    names = {room.id: room.name or room.id for room in inputs.rooms}
    result = commissioned(
        CommissioningInputs(
            circuits=tuple(
                CircuitToCommission(
                    id=circuit.id,
                    length=circuit.total_length,
                    volume_flow=circuit.volume_flow,
                    valve_setting=circuit.valve_setting,
                    room=names[circuit.room],
                    manifold=circuit.manifold,
                    port=circuit.port,
                )
                for circuit in design.circuits
            ),
            pipe=inputs.pipe,
            pipe_material=options.pipe_material,
            system_volume=design.solved.water.whole.system_volume,
            fluid=inputs.fluid,
            frost_temperature=inputs.frost_temperature,
            leak_test=_leak_test(design, options.leak_test),
            flushing=options.flushing,
            water_side=_water_side(design, options.water_side),
            screeds=tuple(_screed(design, number) for number in range(len(design.plans))),
            binder="cement" if inputs.screed is None else inputs.screed.binder,
            maximum_supply_temperature=design.solved.supply.temperature,
            pour_temperature=options.pour_temperature,
            joints=joint_spans(design),
            project=options.project or inputs.drawing.project,
        )
    )
    return replace(result, findings=tuple(finding.moved(_in_design) for finding in result.findings))


def _leak_test(design: WholeDesign, test: LeakTest) -> LeakTest:
    if test.operating_pressure is not None:
        return test
    return replace(test, operating_pressure=design.solved.water.whole.expansion_vessel.final_pressure)


def _water_side(design: WholeDesign, side: WaterSide) -> WaterSide:
    whole, vessel = design.solved.water.whole, design.solved.water.whole.expansion_vessel
    return replace(
        side,
        source_output=whole.heat_flow if side.source_output is None else side.source_output,
        precharge_pressure=vessel.precharge_pressure
        if side.precharge_pressure is None
        else side.precharge_pressure,
        fill_pressure=vessel.fill_pressure if side.fill_pressure is None else side.fill_pressure,
    )


def _screed(design: WholeDesign, number: int) -> ScreedToHeat:
    plan = design.plans[number]
    rooms = [room for room in design.inputs.rooms if room.build_up == plan.build_up]
    build_up = next(own for own in design.inputs.build_ups if own.id == plan.build_up)
    return ScreedToHeat(
        plan.plan_inputs, tuple(room.name or room.id for room in rooms), build_up.name or build_up.id
    )


def _in_design(place: FindingPlace) -> FindingPlace:
    if place.where.startswith(_OF_DESIGN):
        return place
    if place.where.startswith("/joints"):
        where = place.where.replace("/joints", "/commissioning/joint_movements", 1)
        return replace(place, where=where, where_in="answer")
    return replace(place, where=f"/commissioning{place.where}")
