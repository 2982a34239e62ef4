"""From the laid pipe to the running floor: leak test, flushing, filling, frost, water, balancing, first heating.

Sources: EN 1264-4 in its editions (leak test, first heating), EN 14336 (commissioning), VDI 2035 (water), EN 1717
(backflow), trade practice where the texts are silent. The records are forms: what the design knows is printed in them.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from . import curing_plan
from .cautions import commissioning_cautions
from .checking import check
from .curing_plan import CuringPlanResult
from .errors import FaultList, InputError
from .gathering import gathered
from .pipe import check_pipe
from .results import Working
from .site_work.antifreeze import antifreeze_options
from .site_work.commissioning_findings import commissioning_findings
from .site_work.commissioning_outcome import (
    AntifreezeOption,
    BackflowProtection,
    BalancingRow,
    CommissioningResult,
    Filling,
    FillingStep,
    FlushingRow,
    FormField,
    HeatUpRow,
    JointMovement,
    LeakTestEdition,
    LeakTestPlan,
    LeakTestStep,
    MoistureRow,
    PressureDrift,
    RecordForm,
    WaterLimits,
)
from .site_work.commissioning_records import (
    CircuitToCommission,
    CommissioningInputs,
    Flushing,
    JointSpan,
    LeakTest,
    ScreedToHeat,
    WaterSide,
)
from .site_work.commissioning_workings import commissioning_workings
from .site_work.flushing import filling, flushing_rows
from .site_work.joint_movement import ALLOWED_MOVEMENT, joint_movements
from .site_work.leak_test import leak_test_plan
from .site_work.record_forms import record_forms
from .site_work.water_quality import backflow_protection, water_limits
from .water.relations import check_fluid

__all__ = [
    "AntifreezeOption",
    "BackflowProtection",
    "BalancingRow",
    "CircuitToCommission",
    "CommissioningInputs",
    "CommissioningResult",
    "Filling",
    "FillingStep",
    "Flushing",
    "FlushingRow",
    "FormField",
    "HeatUpRow",
    "JointMovement",
    "JointSpan",
    "LeakTest",
    "LeakTestEdition",
    "LeakTestPlan",
    "LeakTestStep",
    "MoistureRow",
    "PressureDrift",
    "RecordForm",
    "ScreedToHeat",
    "WaterLimits",
    "WaterSide",
    "calculate",
    "commissioned",
    "workings",
]


def calculate(inputs: CommissioningInputs) -> CommissioningResult:
    """All steps with their figures and records; see the records for units.

    Raises ``InputError`` for circuits named twice, a pipe without bore, a fluid outside its published range, and
    what curing-plan refuses.
    """
    check(inputs)
    return commissioned(inputs)


def commissioned(inputs: CommissioningInputs) -> CommissioningResult:
    """``calculate`` for inputs whose numbers were checked already."""
    _check_relations(inputs)
    content = math.fsum(circuit.length for circuit in inputs.circuits) * inputs.pipe.water_content
    volume = content + inputs.additional_volume if inputs.system_volume is None else inputs.system_volume
    plans = _curing_plans(inputs)
    leak_test = leak_test_plan(inputs.leak_test, inputs.pipe, inputs.pipe_material, volume)
    flushing = flushing_rows(inputs.circuits, inputs.pipe, inputs.flushing)
    fill, water = filling(volume, inputs.water_side, inputs.fluid), water_limits(inputs.water_side, volume)
    frost, backflow = inputs.frost_temperature, backflow_protection(inputs.fluid)
    antifreeze = () if frost is None else tuple(antifreeze_options(frost, volume))
    movements = _movements(inputs, plans)
    return CommissioningResult(
        system_volume=volume,
        leak_test=leak_test,
        flushing=flushing,
        filling=fill,
        antifreeze=antifreeze,
        water_limits=water,
        backflow=backflow,
        balancing=tuple(
            BalancingRow(
                circuit.id,
                circuit.room,
                circuit.manifold,
                circuit.port,
                circuit.volume_flow,
                circuit.valve_setting,
            )
            for circuit in inputs.circuits
        ),
        heat_up_log=_heat_up_log(plans),
        moisture_points=tuple(_moisture_points(inputs, plans)),
        joint_movements=movements,
        edge_movement_limit=ALLOWED_MOVEMENT,
        forms=record_forms(inputs, leak_test, fill, water, backflow),
        findings=gathered(
            commissioning_findings(
                inputs,
                leak_test=leak_test,
                flushing=flushing,
                water=water,
                antifreeze=antifreeze,
                movements=movements,
            ),
            inputs,
        ),
        cautions=commissioning_cautions(
            air=inputs.leak_test.medium == "air",
            glycol=inputs.fluid.kind != "water" or inputs.frost_temperature is not None,
        ),
    )


def _curing_plans(inputs: CommissioningInputs) -> tuple[CuringPlanResult, ...]:
    plans = []
    for number, screed in enumerate(inputs.screeds):
        try:
            plans.append(curing_plan.calculate(screed.curing))
        except InputError as error:
            pointer = f"/screeds/{number}/curing"
            raise InputError(
                *(replace(fault, pointer=pointer + fault.pointer) for fault in error.faults)
            ) from error
    return tuple(plans)


def _heat_up_log(plans: tuple[CuringPlanResult, ...]) -> tuple[HeatUpRow, ...]:
    """Days of all screeds; what is the same for several of them stands once."""
    rows = {
        HeatUpRow(day.date, day.day, day.stage, day.supply_temperature)
        for plan in plans
        for day in plan.daily_programme
    }
    return tuple(sorted(rows, key=lambda row: (row.date, row.supply_temperature, row.stage)))


def _moisture_points(
    inputs: CommissioningInputs, plans: tuple[CuringPlanResult, ...]
) -> Iterator[MoistureRow]:
    for number, (screed, plan) in enumerate(zip(inputs.screeds, plans, strict=True), start=1):
        for area, count in enumerate(plan.test_points, start=1):
            room = screed.rooms[area - 1] if area <= len(screed.rooms) else ""
            for point in range(1, count + 1):
                yield MoistureRow(
                    screed.name or str(number),
                    room,
                    area,
                    point,
                    plan.moisture_limit.carbide_moisture,
                    plan.moisture_limit.relative_humidity,
                )


def _movements(inputs: CommissioningInputs, plans: tuple[CuringPlanResult, ...]) -> tuple[JointMovement, ...]:
    """From the pour to a screed as warm as the water at its warmest, which is on the safe side."""
    binder = inputs.screeds[0].curing.binder if inputs.screeds else inputs.binder
    warmest = max(
        (plan.highest_supply_temperature for plan in plans), default=inputs.maximum_supply_temperature
    )
    return tuple(joint_movements(inputs.joints, binder, max(warmest - inputs.pour_temperature, 0.0)))


def _check_relations(inputs: CommissioningInputs) -> None:
    faults = FaultList()
    check_pipe(inputs.pipe, "/pipe", faults)
    check_fluid(inputs.fluid, faults)
    ids = [circuit.id for circuit in inputs.circuits]
    for number, name in enumerate(ids):
        faults.require(
            ids.index(name) == number,
            f"/circuits/{number}/id",
            "not_unique",
            "another circuit has the same id",
        )
    faults.raise_if_any()


def workings(inputs: CommissioningInputs, result: CommissioningResult) -> tuple[Working, ...]:
    """The chain from the content of the system to test, flushing, frost and movement."""
    return commissioning_workings(inputs, result)
