"""The section of a heated floor: two-dimensional heat conduction, solved and not correlated."""

from __future__ import annotations

from dataclasses import replace

from .cautions import FLOOR
from .checking import check
from .gathering import gathered
from .results import Working
from .section.bay import solved
from .section.comparison import comparison, pipe_surface
from .section.contract import FloorSectionInputs, FloorSectionResult
from .section.course import warm_up_result
from .section.edge import edge_result
from .section.findings import section_findings
from .section.picture import SectionPicture, section_picture
from .section.profile import surface_profiles
from .section.refusals import check_relations
from .section.workings import section_workings

__all__ = [
    "FloorSectionInputs",
    "FloorSectionResult",
    "SectionPicture",
    "calculate",
    "picture",
    "workings",
]


def calculate(inputs: FloorSectionInputs) -> FloorSectionResult:
    """The section's temperatures and heat flows.

    Raises ``InputError`` where a field is out of its range, the pipe does not fit, pipes touch, nothing resists the
    way down, the basic curve is asked for with water no warmer than the room, or a limit of the work is passed.
    """
    check(inputs)
    check_relations(inputs)
    case = solved(inputs)
    bay, room, up, film = case.bay, inputs.room_temperature, case.mix("up"), case.bay.surface_resistance
    surface, under = surface_profiles(case, room)
    result = FloorSectionResult(
        heat_output=up,
        downward_heat_loss=case.mix("down"),
        total_heat_output=case.mix("water"),
        heat_transmittance=case.water.up,
        mean_surface_temperature=room + up * film,
        highest_surface_temperature=max(point.temperature for point in surface),
        lowest_surface_temperature=min(point.temperature for point in surface),
        pipe_surface_temperature=pipe_surface(case, inputs.water_temperature),
        below_covering_temperature=room + case.mix("top"),
        highest_below_covering_temperature=max(under),
        screed_underside_temperature=room + case.mix("bottom"),
        surface_coefficient=1.0 / film,
        film_coefficient=bay.film,
        pipe_resistance=bay.pipe_resistance,
        surface_profile=surface,
        edge_bay=edge_result(inputs, case),
        warm_up=warm_up_result(inputs, case),
        comparison=comparison(inputs),
        findings=(),
        cautions=FLOOR,
    )
    return replace(result, findings=gathered(section_findings(inputs, result), inputs))


def picture(inputs: FloorSectionInputs) -> SectionPicture:
    """The section's layers and isotherms, to be drawn."""
    return section_picture(inputs, solved(inputs))


def workings(inputs: FloorSectionInputs, result: FloorSectionResult) -> tuple[Working, ...]:
    """Resistances and conductances of the section, and how its temperatures follow."""
    return section_workings(inputs, solved(inputs), result)
