"""What is said about commissioning."""

from __future__ import annotations

from collections.abc import Iterator

from ..results import Finding
from .commissioning_outcome import (
    AntifreezeOption,
    FlushingRow,
    JointMovement,
    LeakTestPlan,
    WaterLimits,
)
from .commissioning_records import CommissioningInputs
from .leak_test import CURRENT_RANGE, operating_pressure

__all__ = ["commissioning_findings"]

_EN_1264 = "EN 1264-4:2021, leak test"
_MAINS = 200_000.0
"""What is left of a usual water supply for flushing [Pa] (common practice, no source)."""
_PROTECTING = 0.2
"""Concentration below which inhibited products no longer protect [1]."""


def commissioning_findings(
    inputs: CommissioningInputs,
    *,
    leak_test: LeakTestPlan,
    flushing: tuple[FlushingRow, ...],
    water: WaterLimits,
    antifreeze: tuple[AntifreezeOption, ...],
    movements: tuple[JointMovement, ...],
) -> Iterator[Finding]:
    """In the order of the steps."""
    yield from _leak_test(inputs, leak_test)
    for row in flushing:
        if row.pressure_drop > _MAINS:
            yield Finding.at(
                "flushing_needs_pump",
                "/flushing/velocity",
                value=row.pressure_drop,
                limit=_MAINS,
                quantity="pressure_drop",
                source="Common practice, no source",
                subject=row.circuit,
            )
    yield from _frost(inputs, antifreeze)
    yield from _water(inputs, water)
    for number, movement in enumerate(movements):
        if movement.movement > movement.allowed_movement:
            yield Finding.at(
                "joint_moves_far",
                f"/joints/{number}",
                value=movement.movement,
                limit=movement.allowed_movement,
                quantity="movement",
                source="EN 1264-4, movement of at least 5 mm",
            )


def _leak_test(inputs: CommissioningInputs, plan: LeakTestPlan) -> Iterator[Finding]:
    test, (low, high) = inputs.leak_test, CURRENT_RANGE[plan.medium]
    pressure, operating, where = plan.test_pressure, operating_pressure(test), "/leak_test/test_pressure"
    rows = (
        (
            "test_pressure_above_rating",
            pressure > test.component_rating,
            test.component_rating,
            "Ratings of the components",
        ),
        (
            "test_pressure_below_operation",
            pressure < operating,
            operating,
            _EN_1264,
        ),
    )
    for code, holds, limit, source in rows:
        if holds:
            yield Finding.at(
                code,
                where,
                value=pressure,
                limit=limit,
                quantity="test_pressure",
                source=source,
            )
    if not low <= pressure <= high:
        yield Finding.at(
            "test_pressure_outside_standard",
            where,
            value=pressure,
            limit=low if pressure < low else high,
            quantity="test_pressure",
            source=_EN_1264,
        )
    if plan.medium == "air":
        yield Finding.at(
            "air_test",
            "/leak_test/medium",
            value=plan.test_energy,
            detail=f"With water {plan.energy_of_water:.1f} J",
            quantity="test_energy",
            source="HSE GS4, safety in pressure testing",
        )


def _frost(inputs: CommissioningInputs, options: tuple[AntifreezeOption, ...]) -> Iterator[Finding]:
    frost = inputs.frost_temperature
    if frost is None:
        return
    if frost < 0.0 and inputs.fluid.kind == "water":
        yield Finding.at(
            "water_freezes",
            "/frost_temperature",
            value=frost,
            limit=0.0,
            quantity="frost_temperature",
            source="EN 1264-4, protection from frost",
        )
    for option in options:
        name, needed = option.fluid.replace("_", " "), option.concentration_by_volume
        if needed is None:
            yield Finding.at(
                "no_glycol_stands_it",
                "/frost_temperature",
                value=frost,
                quantity="frost_temperature",
                source="Published freezing points up to 60 %",
                subject=name,
            )
        elif needed < _PROTECTING:
            yield Finding.at(
                "glycol_below_protection",
                "/frost_temperature",
                value=needed,
                limit=_PROTECTING,
                quantity="concentration",
                source="Common practice, value from memory",
                subject=name,
            )


def _water(inputs: CommissioningInputs, water: WaterLimits) -> Iterator[Finding]:
    if water.specific_volume is None:
        yield Finding.at(
            "source_output_unknown",
            "/water_side/source_output",
        )
    elif (
        water.hardness is not None
        and water.hardness_limit is not None
        and water.hardness > water.hardness_limit
    ):
        yield Finding.at(
            "water_too_hard",
            "/water_side/hardness",
            value=water.hardness,
            limit=water.hardness_limit,
            quantity="water_hardness",
            source=water.source,
        )
