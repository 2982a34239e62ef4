"""The build-ups of a design looked at more closely: insulation against its rules, the section solved."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from functools import partial

from .. import floor_section, insulation_check
from ..errors import faults_at
from ..floor_section import FloorSectionInputs, FloorSectionResult
from ..glossary import named
from ..insulation_check import InsulationCheckResult
from ..results import Finding, FindingPlace
from ..section.records import SectionLayer
from .circuits import DividedRoom
from .records import BuildUp, DesignsInputs
from .spacings import spacing_pointer
from .supply import supply_pointer

__all__ = ["BuildUpCheck", "build_up_checks", "check_findings", "without_findings"]

_SURFACE_BELOW = 0.17
"""Surface resistance of a floor against what lies below [m2.K/W] (ISO 6946, heat flow downwards)."""
_EQUIVALENT = 0.05
"""Thickness [m] of the one layer that stands for all insulation below the pipes, unless it insulates better than any
material: then it is thicker."""
_LEAST_CONDUCTIVITY = 0.01
"""Of a layer of a section [W/(m.K)]."""
_OF_THE_FLOOR = (
    "covering_too_insulating",
    "insulation_below_minimum",
    "screed_cover_thin",
    "water_too_hot_for_screed",
)
"""What the design says of every floor, whether its section is solved or not."""


@dataclass(frozen=True, slots=True)
class BuildUpCheck:
    """A build-up: its insulation against the rules, where layers were given, and its section under the room that
    asks most of it, solved, where that was asked for."""

    build_up: str
    insulation: InsulationCheckResult | None = field(metadata=named("insulation_result"))
    section_inputs: FloorSectionInputs | None
    section: FloorSectionResult | None = field(metadata=named("section_result"))


def build_up_checks(
    inputs: DesignsInputs, divided: tuple[DividedRoom, ...], supply: float
) -> tuple[BuildUpCheck, ...]:
    """One check for each build-up that asks for one, in order; faults point into the build-up."""
    checks = []
    for index, build_up in enumerate(inputs.build_ups):
        rooms = [room for room in divided if room.heated.build_up is build_up]
        asked = inputs.solve_sections and bool(rooms)
        if build_up.insulation is None and not asked:
            continue
        insulation, section, solved = None, None, None
        if build_up.insulation is not None:
            with faults_at({}, f"/build_ups/{index}/insulation"):
                insulation = insulation_check.calculate(build_up.insulation)
        if asked:
            room = _governing(rooms)
            section = _section(inputs, build_up, room, supply)
            with faults_at(_places(inputs, room, index), f"/build_ups/{index}"):
                solved = floor_section.calculate(section)
        checks.append(BuildUpCheck(build_up.id, insulation, section, solved))
    return tuple(checks)


def _governing(rooms: list[DividedRoom]) -> DividedRoom:
    """The room with the greatest output per area."""
    return max(rooms, key=lambda room: (round(room.point.heat_output, 9), -room.heated.index))


def _places(inputs: DesignsInputs, room: DividedRoom, index: int) -> dict[str, str]:
    """Fields of the request for those of the section under a room."""
    return {
        "/pipe": "/pipe",
        "/pipe_spacing": spacing_pointer(inputs, room.heated.index, room.point.choice.pipe_spacing),
        "/layers_below": f"/build_ups/{index}/resistance_below",
        "/water_temperature": supply_pointer(inputs.source),
        "/room_temperature": f"{room.heated.pointer}/room_temperature",
    }


def _section(
    inputs: DesignsInputs, build_up: BuildUp, room: DividedRoom, supply: float
) -> FloorSectionInputs:
    """The section at the mean water temperature of a room."""
    below = max(build_up.resistance_below - _SURFACE_BELOW, 0.01)
    thickness = max(_EQUIVALENT, below * _LEAST_CONDUCTIVITY)
    return FloorSectionInputs(
        pipe_spacing=room.point.choice.pipe_spacing,
        pipe=inputs.pipe,
        screed_cover=build_up.screed_cover,
        layers_below=(SectionLayer(thickness, thickness / below),),
        water_temperature=supply - room.point.temperature_drop / 2.0,
        screed_conductivity=build_up.screed_conductivity,
        covering_resistance=build_up.covering_resistance,
        surface_resistance_below=_SURFACE_BELOW,
        room_temperature=room.heated.room.room_temperature,
        temperature_below=build_up.temperature_below,
    )


def check_findings(inputs: DesignsInputs, checks: tuple[BuildUpCheck, ...]) -> Iterator[Finding]:
    """Findings of the insulation checks point into their build-up, those of the sections into the answer."""
    ids = [build_up.id for build_up in inputs.build_ups]
    for number, check in enumerate(checks):
        index = ids.index(check.build_up)
        label = inputs.build_ups[index].name or check.build_up
        for finding in () if check.insulation is None else check.insulation.findings:
            yield finding.inside(f"/build_ups/{index}/insulation", label)
        for finding in () if check.section is None else check.section.findings:
            if finding.code not in _OF_THE_FLOOR:
                yield finding.moved(partial(_in_answer, place=f"/build_up_checks/{number}", label=label))


def _in_answer(one: FindingPlace, place: str, label: str) -> FindingPlace:
    """What a section was solved from stands in the answer, not in the request."""
    member = "section_inputs" if one.where_in == "request" else "section"
    return replace(one, where=f"{place}/{member}{one.where}", where_in="answer", subject=label)


def without_findings(check: BuildUpCheck) -> BuildUpCheck:
    """The same without what the design says itself."""
    insulation, section = check.insulation, check.section
    return replace(
        check,
        insulation=None if insulation is None else replace(insulation, findings=(), cautions=()),
        section=None if section is None else replace(section, findings=(), cautions=()),
    )
