"""Heat output of a heated floor (EN 1264-2, pipes in the screed on flat insulation, type A)."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, NamedTuple

from .cautions import FLOOR
from .checking import check
from .elementwise import ROUND_OFF
from .errors import FaultList, required
from .gathering import gathered
from .pipe import Pipe, check_pipe
from .quick_records import quickly_made
from .results import Caution, Finding, Working
from .thermal import characteristic as curve
from .thermal.floor import (
    check_floor,
    check_surface_limit,
    check_touching,
)
from .thermal.floor_findings import (
    building_findings,
    cooling_findings,
    floor_findings,
    return_findings,
    surface_limit_findings,
    water_findings,
)
from .thermal.limit_curves import SURFACE_EXCESS
from .thermal.output_array import HeatOutputArrays, heat_output_array
from .thermal.output_methods import (
    Factors,
    MethodOutput,
    OutputByMethod,
    Temperatures,
    by_section,
    by_standard,
    section_workings,
)
from .thermal.poor_insulation import insulation_is_poor, promises_too_much
from .thermal.section_output import beyond_tables, within_method
from .thermal.workings import characteristic_workings, limit_workings, loss_workings

__all__ = [
    "Factors",
    "HeatOutputArrays",
    "HeatOutputInputs",
    "HeatOutputResult",
    "Method",
    "OutputByMethod",
    "calculate",
    "heat_output_array",
    "workings",
]


Method = Literal["automatic", "standard", "section"]


@dataclass(frozen=True, slots=True)
class HeatOutputInputs:
    """A floor and the temperatures it works between.

    ``temperature_below`` defaults to the room temperature (a heated room below),
    ``surface_temperature_limit`` to the room temperature plus 9 K (29 degC in a living room of 20 degC, 33
    degC in a bathroom of 24 degC). ``method`` says whether the standard or the solved section leads: the standard
    unless the section is asked for. ``automatic`` shows the section beside the standard beyond the standard's tables
    and where the insulation below is poorer than EN 1264-4 asks; it lets the section lead where the standard has no
    value, and where poor insulation makes the standard promise clearly too much."""

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
    method: Method = "automatic"

    def __post_init__(self) -> None:
        if self.temperature_below is None:
            object.__setattr__(self, "temperature_below", self.room_temperature)
        if self.surface_temperature_limit is None and isinstance(self.room_temperature, float | int):
            object.__setattr__(self, "surface_temperature_limit", self.room_temperature + SURFACE_EXCESS)


@quickly_made
@dataclass(frozen=True, slots=True)
class HeatOutputResult:
    """What the floor gives [W/m2] at its temperatures [degC], and where its surface reaches the limit.

    ``heat_output`` is not cut off at ``limit_heat_output``: a floor beyond the limit carries a finding.
    ``total_heat_output`` is what the water gives off upwards and downwards. ``leading_method`` gave all these
    numbers; ``by_standard`` and ``by_section`` show each method that was used. Without a value of the standard there
    are no ``factors``.
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
    factors: Factors | None
    leading_method: Literal["standard", "section"]
    by_standard: OutputByMethod | None
    by_section: OutputByMethod | None
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]


def calculate(inputs: HeatOutputInputs) -> HeatOutputResult:
    """Heat output of one floor.

    Raises ``InputError`` where a field is out of its range, the water does not stay above the room, the
    surface limit does not lie above the room, pipes touch, or the method ``standard`` is asked for where EN 1264-2
    has no value (spacing below 0.05 m, cover below 0.010 m)."""
    check(inputs)
    _check_relations(inputs)
    at = _at(inputs)
    standard = by_standard(inputs, at) if within_method(inputs) else None
    poor = insulation_is_poor(inputs, at.below)
    section = None
    if inputs.method == "section" or (inputs.method == "automatic" and (poor or beyond_tables(inputs))):
        section = by_section(inputs, at)
    leads_section = inputs.method == "section" or standard is None or (poor and _misleads(standard, section))
    lead = required(section if leads_section else standard, "an output by some method")
    shown = lead.shown
    return HeatOutputResult(
        heat_output=shown.heat_output,
        heat_transmittance=shown.heat_transmittance,
        mean_excess_temperature=at.excess,
        mean_surface_temperature=shown.mean_surface_temperature,
        limit_heat_output=shown.limit_heat_output,
        limit_excess_temperature=shown.limit_excess_temperature,
        heat_output_margin=shown.limit_heat_output - shown.heat_output,
        maximum_heat_output=float(curve.basic_heat_output(at.limit - at.room)),
        downward_heat_loss=shown.downward_heat_loss,
        total_heat_output=shown.heat_output + shown.downward_heat_loss,
        factors=standard.factors if standard else None,
        leading_method="section" if leads_section else "standard",
        by_standard=standard.shown if standard else None,
        by_section=section.shown if section else None,
        findings=gathered(_findings(inputs, at, lead, standard, section), inputs),
        cautions=FLOOR,
    )


def _findings(
    inputs: HeatOutputInputs,
    at: Temperatures,
    lead: MethodOutput,
    standard: MethodOutput | None,
    section: MethodOutput | None,
) -> Iterator[Finding]:
    yield from (building_findings if standard is None else floor_findings)(inputs, at.below)
    yield from surface_limit_findings(at.limit, at.room, "/surface_temperature_limit")
    yield from return_findings(inputs.return_temperature, at.room, "/return_temperature")
    yield from water_findings(inputs.supply_temperature, at.room + at.excess, "/supply_temperature")
    yield from _output_findings(
        lead.shown, "the solved section" if lead is section else "EN 1264-2, limit curves"
    )
    if standard is None:
        least = _least(inputs)
        yield Finding.at(
            "outside_standard",
            f"/{least.quantity}",
            value=least.value,
            limit=least.limit,
            source="EN 1264-2, range of the method",
            quantity=least.quantity,
        )
    elif section is not None:
        yield _two_methods(section.shown.heat_output, standard.shown.heat_output)


def _misleads(standard: MethodOutput | None, section: MethodOutput | None) -> bool:
    if standard is None or section is None:
        return False
    return promises_too_much(standard.shown.heat_output, section.shown.heat_output)


def _two_methods(section: float, standard: float) -> Finding:
    """Both outputs [W/m2] for one floor; worth a warning where the standard promises clearly more."""
    more = promises_too_much(standard, section)
    by_section, by_standard = (
        Finding.at(
            "two_methods",
            f"/{member}/heat_output",
            severity="warning" if more else "note",
            value=output,
            source="steady heat conduction in the section; EN 1264-2",
            quantity="heat_output",
            where_in="answer",
            subject=name,
        )
        for member, name, output in (
            ("by_section", "solved section", section),
            ("by_standard", "EN 1264-2", standard),
        )
    )
    return by_section.with_places((*by_section.places, *by_standard.places))


def _at(inputs: HeatOutputInputs) -> Temperatures:
    """The temperatures of checked inputs; the record has filled in those that were not given."""
    room = inputs.room_temperature
    excess = curve.mean_excess_temperature(inputs.supply_temperature, inputs.return_temperature, room)
    return Temperatures(
        room,
        excess,
        required(inputs.temperature_below, "the temperature below"),
        required(inputs.surface_temperature_limit, "the surface limit"),
    )


def _check_relations(inputs: HeatOutputInputs) -> None:
    faults = FaultList()
    room, supply, return_ = inputs.room_temperature, inputs.supply_temperature, inputs.return_temperature
    if return_ >= supply:
        detail = f"the return must be colder than the supply of {supply:g} °C"
        faults.add("/return_temperature", "not_below_supply", detail, supply)
    if return_ <= room:
        detail = f"the return must be warmer than the room of {room:g} °C, or no logarithmic mean exists"
        faults.add("/return_temperature", "not_above_room", detail, room)
    limit = required(inputs.surface_temperature_limit, "the surface limit")
    check_surface_limit(limit, room, "", faults)
    if inputs.method == "standard":
        check_floor(inputs, "", faults)
    else:
        check_touching(inputs.pipe_spacing, inputs.pipe, "/pipe_spacing", faults)
        check_pipe(inputs.pipe, "/pipe", faults)
    faults.raise_if_any()


class _Least(NamedTuple):
    """A field below the range of EN 1264-2, and the range's end [m]."""

    quantity: str
    value: float
    limit: float


def _least(inputs: HeatOutputInputs) -> _Least:
    if inputs.pipe_spacing < curve.LEAST_SPACING:
        return _Least("pipe_spacing", inputs.pipe_spacing, curve.LEAST_SPACING)
    return _Least("screed_cover", inputs.screed_cover, curve.LEAST_COVER)


def _output_findings(shown: OutputByMethod, source: str) -> Iterator[Finding]:
    output, limit, loss = shown.heat_output, shown.limit_heat_output, shown.downward_heat_loss
    if output > limit * (1.0 + ROUND_OFF):
        yield Finding.at(
            "surface_limit_exceeded",
            "/supply_temperature",
            value=output,
            limit=limit,
            source=source,
            quantity="heat_output",
        )
    yield from cooling_findings(output, "/resistance_below", source)
    if loss < 0.0:
        yield Finding.at(
            "heat_from_below",
            "/temperature_below",
            value=loss,
            limit=0.0,
            source="heat balance of the floor",
            quantity="downward_heat_loss",
        )


def workings(inputs: HeatOutputInputs, result: HeatOutputResult) -> tuple[Working, ...]:
    """The chain from the inputs to the result, enough to redo it by hand."""
    mean = Working(
        "Delta theta_H",
        "mean excess temperature",
        result.mean_excess_temperature,
        "K",
        "(theta_V - theta_R) / ln((theta_V - theta_i) / (theta_R - theta_i))",
        "EN 1264-2, mean excess temperature",
    )
    chain: list[Working] = []
    if result.by_standard is not None:
        chain += [*characteristic_workings(inputs), mean, *_standard_workings(inputs, result.by_standard)]
    else:
        chain.append(mean)
    if result.by_section is not None:
        chain += section_workings(inputs, _at(inputs), result.by_section)
    return tuple(chain)


def _standard_workings(inputs: HeatOutputInputs, found: OutputByMethod) -> Iterator[Working]:
    at = _at(inputs)
    yield Working(
        "q",
        "heat output",
        found.heat_output,
        "W/m2",
        "K_H * Delta theta_H",
        "EN 1264-2, characteristic curve",
    )
    yield Working(
        "theta_F,m",
        "mean surface temperature",
        found.mean_surface_temperature,
        "degC",
        "theta_i + (q / 8.92)^(1 / 1.1)",
        "EN 1264-2, basic characteristic curve",
    )
    yield from limit_workings(inputs, found.heat_transmittance, at.limit - at.room)
    yield from loss_workings(inputs, found.heat_output, at.room, at.below)
