"""Heat output of a heated floor (EN 1264-2, pipes in the screed on flat insulation, type A)."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from .checking import check
from .errors import FaultList
from .pipe import Pipe
from .results import Caution, Finding, Working
from .thermal import characteristic as curve
from .thermal.characteristic import Characteristic
from .thermal.floor import (
    check_floor,
    check_surface_limit,
    floor_characteristic,
    floor_downward_loss,
    floor_limit,
)
from .thermal.floor_findings import CAUTIONS, floor_findings, surface_limit_findings, water_findings
from .thermal.limit_curves import SURFACE_EXCESS, LimitCurve
from .thermal.output_array import HeatOutputArrays, heat_output_array
from .thermal.workings import characteristic_workings, limit_workings, loss_workings

__all__ = [
    "Factors",
    "HeatOutputArrays",
    "HeatOutputInputs",
    "HeatOutputResult",
    "calculate",
    "heat_output_array",
    "workings",
]


@dataclass(frozen=True, slots=True)
class HeatOutputInputs:
    """A floor and the temperatures it works between.

    ``temperature_below`` defaults to the room temperature (a heated room below),
    ``surface_temperature_limit`` to the room temperature plus 9 K (29 degC in a living room of 20 degC, 33
    degC in a bathroom of 24 degC)."""

    pipe_spacing: float
    pipe: Pipe
    screed_cover: float
    resistance_below: float
    supply_temperature: float
    return_temperature: float
    screed_conductivity: float = 1.2
    covering_resistance: float = 0.1
    room_temperature: float = 20.0
    temperature_below: float | None = None
    surface_temperature_limit: float | None = None

    def __post_init__(self) -> None:
        if self.temperature_below is None:
            object.__setattr__(self, "temperature_below", self.room_temperature)
        if self.surface_temperature_limit is None and isinstance(self.room_temperature, float | int):
            object.__setattr__(self, "surface_temperature_limit", self.room_temperature + SURFACE_EXCESS)


@dataclass(frozen=True, slots=True)
class Factors:
    """The factors of EN 1264-2 in full names: B, a_B, a_T, m_T, a_U, m_U, a_D, m_D, then B_G, n_G, phi,
    f_G."""

    system_coefficient: float
    covering_factor: float
    spacing_factor: float
    spacing_exponent: float
    cover_factor: float
    cover_exponent: float
    diameter_factor: float
    diameter_exponent: float
    limit_coefficient: float
    limit_exponent: float
    surface_factor: float
    wide_spacing_factor: float


@dataclass(frozen=True, slots=True)
class HeatOutputResult:
    """What the floor gives [W/m2] at its temperatures [degC], and where its surface reaches the limit.

    ``heat_output`` is not cut off at ``limit_heat_output``: a floor beyond the limit carries a finding.
    ``total_heat_output`` is what the water gives off upwards and downwards.
    """

    heat_output: float
    heat_transmittance: float
    mean_excess_temperature: float
    mean_surface_temperature: float
    limit_heat_output: float
    limit_excess_temperature: float
    heat_output_margin: float
    maximum_heat_output: float
    downward_heat_loss: float
    total_heat_output: float
    factors: Factors
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]


def calculate(inputs: HeatOutputInputs) -> HeatOutputResult:
    """Heat output of one floor.

    Raises ``InputError`` where a field is out of its range, the water does not stay above the room, the
    surface limit does not lie above the room, or EN 1264-2 has no value (spacing below 0.05 m, cover below
    0.010 m)."""
    check(inputs)
    below, limit_temperature = _resolved(inputs)
    _check_relations(inputs, limit_temperature)
    room = inputs.room_temperature
    slope = floor_characteristic(inputs)
    limit = floor_limit(inputs, slope.heat_transmittance, limit_temperature - room)
    excess = curve.mean_excess_temperature(inputs.supply_temperature, inputs.return_temperature, room)
    output = slope.heat_transmittance * excess
    surface = curve.mean_surface_temperature(output, room)
    loss = floor_downward_loss(inputs, output, room, below)
    return HeatOutputResult(
        heat_output=output,
        heat_transmittance=slope.heat_transmittance,
        mean_excess_temperature=excess,
        mean_surface_temperature=surface,
        limit_heat_output=limit.heat_output,
        limit_excess_temperature=limit.excess_temperature,
        heat_output_margin=limit.heat_output - output,
        maximum_heat_output=limit.maximum_heat_output,
        downward_heat_loss=loss,
        total_heat_output=output + loss,
        factors=_factors(slope, limit),
        findings=(
            *floor_findings(inputs, below),
            *surface_limit_findings(limit_temperature, room, "/surface_temperature_limit"),
            *water_findings(inputs.supply_temperature, room + excess, "/supply_temperature"),
            *_output_findings(output, limit.heat_output, loss),
        ),
        cautions=CAUTIONS,
    )


def _resolved(inputs: HeatOutputInputs) -> tuple[float, float]:
    """Temperature below and surface limit; the record has filled in both."""
    assert inputs.temperature_below is not None
    assert inputs.surface_temperature_limit is not None
    return inputs.temperature_below, inputs.surface_temperature_limit


def _check_relations(inputs: HeatOutputInputs, limit_temperature: float) -> None:
    faults = FaultList()
    room, supply, return_ = inputs.room_temperature, inputs.supply_temperature, inputs.return_temperature
    if return_ >= supply:
        detail = f"the return must be colder than the supply of {supply:g} °C"
        faults.add("/return_temperature", "not_below_supply", detail, supply)
    if return_ <= room:
        detail = f"the return must be warmer than the room of {room:g} °C, or no logarithmic mean exists"
        faults.add("/return_temperature", "not_above_room", detail, room)
    check_surface_limit(limit_temperature, room, "", faults)
    check_floor(inputs, "", faults)
    faults.raise_if_any()


def _factors(slope: Characteristic, limit: LimitCurve) -> Factors:
    return Factors(
        *slope[:8],
        limit_coefficient=limit.coefficient,
        limit_exponent=limit.exponent,
        surface_factor=limit.surface_factor,
        wide_spacing_factor=limit.wide_spacing_factor,
    )


def _output_findings(output: float, limit: float, loss: float) -> Iterator[Finding]:
    if output > limit * (1.0 + 1e-9):
        yield Finding(
            "surface_limit_exceeded",
            "violation",
            "/supply_temperature",
            "The warmest spots of the surface pass the limit. Colder water, closer pipes or a thicker cover "
            "help; the output is given as it would be, not cut off.",
            output,
            limit,
            "EN 1264-2, limit curves",
        )
    if loss < 0.0:
        yield Finding(
            "heat_from_below",
            "note",
            "/temperature_below",
            "It is so warm below that heat flows up into the floor: the water gives off less than the "
            "room gets.",
            loss,
            0.0,
            "EN 1264-2, downward heat flow",
        )


def workings(inputs: HeatOutputInputs, result: HeatOutputResult) -> tuple[Working, ...]:
    """The chain from the inputs to the result, enough to redo it by hand."""
    below, limit_temperature = _resolved(inputs)
    excess = limit_temperature - inputs.room_temperature
    return (
        *characteristic_workings(inputs),
        Working(
            "Delta theta_H",
            "mean excess temperature",
            result.mean_excess_temperature,
            "K",
            "(theta_V - theta_R) / ln((theta_V - theta_i) / (theta_R - theta_i))",
            "EN 1264-2, mean excess temperature",
        ),
        Working(
            "q",
            "heat output",
            result.heat_output,
            "W/m2",
            "K_H * Delta theta_H",
            "EN 1264-2, characteristic curve",
        ),
        Working(
            "theta_F,m",
            "mean surface temperature",
            result.mean_surface_temperature,
            "degC",
            "theta_i + (q / 8.92)^(1 / 1.1)",
            "EN 1264-2, basic characteristic curve",
        ),
        *limit_workings(inputs, result.heat_transmittance, excess),
        *loss_workings(inputs, result.heat_output, inputs.room_temperature, below),
    )
