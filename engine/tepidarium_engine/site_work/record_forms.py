"""The records of commissioning as forms: design values printed, the rest to be written on site."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..curing_plan import CuringPlanInputs
from .commissioning_outcome import (
    BackflowProtection,
    Filling,
    FormField,
    LeakTestPlan,
    RecordForm,
    WaterLimits,
)
from .commissioning_records import CommissioningInputs
from .leak_test import operating_pressure

__all__ = ["record_forms"]

_SIGNATURES = (
    FormField("Installer, name and signature"),
    FormField("Client or site manager, name and signature"),
    FormField("Place and date"),
)
_PART, _INITIALS, _DATE = FormField("Part of the building"), FormField("Initials"), FormField("Date")
_TEST_FOUND = (
    FormField("Gauge, number and last calibration"),
    FormField("Leaks found, and what was done"),
    FormField("The circuits are tight"),
    *_SIGNATURES,
)
_TEST_COLUMNS = (FormField("Time"), FormField("Reading", "Pa"), FormField("Temperature", "degC"), _INITIALS)
_WATER_METER, _CONDUCTIVITY = (
    FormField("Water meter before and after", "m3"),
    FormField("Conductivity found", "S/m"),
)
_FLUSHING_COLUMNS = (FormField("Flushed, clear and free of air"), _DATE, _INITIALS)
_BALANCING_FOUND = (FormField("Pump mode and setting"), FormField("Measured with"), *_SIGNATURES)
_BALANCING_COLUMNS = (FormField("Flow found", "m3/s"), FormField("Setting found"), FormField("Remarks"))
_HEAT_UP_FOUND = (
    FormField("Interruptions, and why"),
    FormField("Handed over at outside air of", "degC"),
    *_SIGNATURES,
)
_HEAT_UP_COLUMNS = (
    FormField("Supply found", "degC"),
    FormField("Return found", "degC"),
    FormField("Outside air", "degC"),
    _INITIALS,
)
_MOISTURE_FOUND = (FormField("Method"), FormField("Heating off since"), *_SIGNATURES)
_MOISTURE_COLUMNS = (FormField("Depth", "m"), FormField("Reading"), FormField("Passed"), _DATE)


def record_forms(
    inputs: CommissioningInputs,
    leak_test: LeakTestPlan,
    filling: Filling,
    water: WaterLimits,
    backflow: BackflowProtection,
) -> tuple[RecordForm, ...]:
    """Forms in the order in which they are needed; heat-up and moisture only with a curing plan."""
    head = (FormField("Project", design_text=inputs.project), _PART)
    forms = [
        RecordForm(
            "leak_test",
            "Leak test",
            (*head, *_leak_test_fields(inputs, leak_test, filling.system_volume)),
            "leak_test.steps",
            _TEST_COLUMNS,
            "EN 1264-4: absence of leaks and test pressure in a report",
        ),
        RecordForm(
            "flushing",
            "Flushing and filling",
            (*head, *_filling_fields(inputs, filling, water, backflow)),
            "flushing",
            _FLUSHING_COLUMNS,
            "EN 14336; VDI 2035; EN 1717",
        ),
        RecordForm(
            "balancing",
            "Balancing",
            (*head, *_BALANCING_FOUND),
            "balancing",
            _BALANCING_COLUMNS,
            "EN 14336, balancing",
        ),
    ]
    if inputs.screeds:
        forms += _screed_forms([screed.curing for screed in inputs.screeds], head)
    return tuple(forms)


def _leak_test_fields(inputs: CommissioningInputs, plan: LeakTestPlan, volume: float) -> Iterator[FormField]:
    test = inputs.leak_test
    pipe = f"{inputs.pipe_material} {inputs.pipe.outside_diameter * 1000:g} x {inputs.pipe.wall_thickness * 1000:g} mm"
    yield FormField("Pipe", design_text=pipe)
    yield FormField("Circuits", "1", float(len(inputs.circuits)))
    yield FormField("Content of the system", "m3", volume)
    yield FormField("Highest operating pressure", "Pa", operating_pressure(test))
    yield FormField("Lowest rating of pipe, fittings and manifold", "Pa", test.component_rating)
    yield FormField("Test medium", design_text=plan.medium)
    yield FormField("Test pressure", "Pa", plan.test_pressure)
    yield FormField("Duration", "s", plan.duration)
    yield FormField("Reading moves by temperature", "Pa/K", plan.drift.pressure_per_kelvin)
    yield FormField("Isolated before the test", design_text="; ".join(plan.isolate))
    yield FormField("Pressure kept while the screed is poured", "Pa", plan.holding_pressure)
    yield from _TEST_FOUND


def _filling_fields(
    inputs: CommissioningInputs, filling: Filling, water: WaterLimits, backflow: BackflowProtection
) -> Iterator[FormField]:
    yield FormField("Content of the system", "m3", filling.system_volume)
    yield _WATER_METER
    yield FormField("Precharge of the expansion vessel", "Pa", filling.precharge_pressure)
    yield FormField("Fill pressure, cold", "Pa", filling.fill_pressure)
    yield FormField(
        "Hardness, at most",
        "mol/m3",
        water.hardness_limit,
        "no limit" if water.specific_volume is not None and not water.limited else "",
    )
    yield FormField("Hardness found", "mol/m3", water.hardness)
    yield FormField("pH found", "1", None, f"{water.lowest_ph:g} to {water.highest_ph:g}")
    yield _CONDUCTIVITY
    fluid = inputs.fluid
    if fluid.kind != "water":
        words = f"{fluid.kind.replace('_', ' ')}, {fluid.concentration:.0%} by {fluid.basis}"
        yield FormField("Antifreeze", design_text=words)
    yield FormField("Frost point by refractometer", "degC", inputs.frost_temperature)
    yield FormField(
        "Backflow protection", design_text=f"{backflow.protection}, category {backflow.fluid_category}"
    )
    yield from _SIGNATURES


def _screed_forms(screeds: Sequence[CuringPlanInputs], head: tuple[FormField, ...]) -> Iterator[RecordForm]:
    curing = screeds[0]
    thickest = max(own.thickness for own in screeds)
    coverings = ", ".join(dict.fromkeys(own.covering.replace("_", " ") for own in screeds))
    screed = (
        FormField("Screed", design_text=f"{curing.binder.replace('_', ' ')} {curing.flexural_class}"),
        FormField("Greatest thickness, pipe included", "m", thickest),
        FormField("Poured on", design_text=curing.pour_date.isoformat()),
        FormField("Coverings", design_text=coverings),
    )
    yield RecordForm(
        "first_heat_up",
        "First heat-up",
        (*head, *screed, *_HEAT_UP_FOUND),
        "heat_up_log",
        _HEAT_UP_COLUMNS,
        "EN 1264-4, documented first heating",
    )
    yield RecordForm(
        "moisture",
        "Moisture before the covering",
        (*head, *screed, *_MOISTURE_FOUND),
        "moisture_points",
        _MOISTURE_COLUMNS,
        "Interface guides of the heating and covering trades; BS 8203",
    )
