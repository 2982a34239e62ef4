"""What should be looked at in a design, and the words on people's safety that go with it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..results import Caution, Finding
from ..thermal.dimensioning import GREATEST_DROP
from ..thermal.floor_findings import CAUTIONS as FLOOR_CAUTIONS
from ..thermal.floor_findings import floor_findings, surface_limit_findings, water_findings
from .circuits import DividedRoom
from .dates import plan_findings
from .house_water import HouseWater
from .outcome import BuildUpPlan, CircuitDesign, ManifoldDesign
from .records import DesignsInputs
from .supply import CommonSupply
from .tails import ASSUMED_TAIL

__all__ = ["design_cautions", "design_findings", "water_side_findings"]

_SOUND = 1e-6
_OF_REQUEST = ("/pipe", "/fluid", "/frost_temperature", "/expansion")


def design_findings(
    inputs: DesignsInputs,
    divided: tuple[DividedRoom, ...],
    supply: CommonSupply,
    plans: tuple[BuildUpPlan, ...],
) -> tuple[Finding, ...]:
    """Findings of the house first, then room by room, then dates."""
    return (
        *_supply_findings(inputs, supply),
        *(finding for room in divided for finding in _room_findings(inputs, room, supply)),
        *plan_findings(plans),
    )


def _supply_findings(inputs: DesignsInputs, supply: CommonSupply) -> Iterator[Finding]:
    governing = supply.governing
    if supply.temperature < supply.wanted - _SOUND:
        yield Finding(
            "supply_too_cold",
            "violation",
            governing.pointer,
            f"{governing.label} would need a supply of {supply.wanted:.1f} degC; the source gives "
            f"{supply.temperature:.1f} degC. See the remedies of each room that lacks heat.",
            supply.temperature,
            supply.wanted,
            "EN 1264-3, supply temperature from the governing room",
        )
    if inputs.source.temperature_drop > GREATEST_DROP:
        yield Finding(
            "design_drop_large",
            "note",
            "/source/temperature_drop",
            "The governing room is dimensioned with a drop of at most 5 K.",
            inputs.source.temperature_drop,
            GREATEST_DROP,
            "EN 1264-3, temperature drop of the governing room",
        )
    yield from water_findings(supply.temperature, supply.temperature, "/result/supply_temperature")
    if inputs.screed is None:
        yield Finding(
            "no_dates", "note", "/screed", "Without the screed and its pour date there is no curing plan."
        )


def _room_findings(inputs: DesignsInputs, room: DividedRoom, supply: CommonSupply) -> Iterator[Finding]:
    heated, point = room.heated, room.point
    given = heated.given(point.heat_output)
    missing = heated.heat_demand - given
    if missing > _SOUND * heated.heat_demand:
        yield Finding(
            "heat_missing",
            "violation",
            heated.pointer + "/heat_demand",
            f"The floor of {heated.label} lacks {missing:.0f} W; the room's remedies say what would help.",
            heated.heat_demand,
            given,
            "EN 1264-3, heat output within the limit curve",
        )
    elif -missing > 0.05 * heated.heat_demand:
        yield Finding(
            "more_heat_than_needed",
            "note",
            heated.pointer + "/heat_demand",
            f"At the design's flow {heated.label} gets {-missing:.0f} W more than it needs; its room control "
            "throttles the circuit.",
            given,
            heated.heat_demand,
            "limits/maximum_temperature_drop of the request",
        )
    if not room.tail.known:
        yield Finding(
            "tail_assumed",
            "warning",
            heated.pointer + "/tail_length",
            f"The way from the manifold is not known and is taken as {ASSUMED_TAIL:g} m each way; give tail_length, "
            "or the manifold's position and the room's outline or entry.",
            ASSUMED_TAIL,
            None,
            "common practice, no source",
        )
    if heated.room.surface_temperature_limit is not None:
        yield from surface_limit_findings(
            heated.surface_limit, heated.room.room_temperature, heated.pointer + "/surface_temperature_limit"
        )
    yield from _section_findings(inputs, room)
    for finding in room.loops.findings:
        where = finding.where if finding.where.startswith("/pipe/") else heated.pointer + finding.where
        yield replace(finding, where=where)


def _section_findings(inputs: DesignsInputs, room: DividedRoom) -> Iterator[Finding]:
    """Findings of the section point to the build-up, those of the spacing to the room."""
    heated = room.heated
    place = [build_up.id for build_up in inputs.build_ups].index(heated.build_up.id)
    for finding in floor_findings(room.point.choice.floor, heated.build_up.temperature_below):
        if finding.where == "/pipe_spacing":
            yield replace(finding, where=heated.pointer + finding.where)
        elif finding.where.startswith("/pipe/"):
            yield finding
        else:
            yield replace(finding, where=f"/build_ups/{place}{finding.where}")


def water_side_findings(
    inputs: DesignsInputs,
    water: HouseWater,
    circuits: tuple[CircuitDesign, ...],
    manifolds: tuple[ManifoldDesign, ...],
) -> Iterator[Finding]:
    """Findings of the hydraulics, pointing into the request or into the result."""
    places = {circuit.id: number for number, circuit in enumerate(circuits)}
    numbers = {manifold.number: place for place, manifold in enumerate(water.manifolds)}
    for finding in water.findings:
        head, _, rest = finding.where.lstrip("/").partition("/")
        if finding.where.startswith(_OF_REQUEST):
            yield finding
        elif head == "primary_temperature":
            yield replace(finding, where="/source" + finding.where)
        elif head == "circuits":
            yield replace(finding, where=f"/result/circuits/{places[rest]}")
        elif head == "manifolds":
            yield replace(finding, where=f"/result/manifolds/{numbers[int(rest)]}")
        else:
            yield replace(finding, where="/result" + finding.where)
    for number, manifold in enumerate(inputs.all_manifolds):
        if number not in numbers:
            yield Finding(
                "manifold_without_rooms",
                "note",
                inputs.manifold_pointer(number),
                f"The manifold {manifold.id} serves no room: others are nearer to all rooms of its storey.",
            )
    for place, design in enumerate(manifolds):
        if design.balancing_kv is not None:
            yield Finding(
                "balancing_valve_due",
                "note",
                f"/result/manifolds/{place}",
                f"The manifold {design.id} needs {design.balancing_pressure_drop / 1000.0:.1f} kPa less than the one "
                f"that decides the pump: set a balancing valve before it to kv {design.balancing_kv:.2f} m3/h.",
                design.balancing_pressure_drop,
                0.0,
                "Pressure balance of branches on one pump",
            )


def design_cautions(
    divided: tuple[DividedRoom, ...], water: HouseWater, plans: tuple[BuildUpPlan, ...]
) -> tuple[Caution, ...]:
    """The cautions of all parts, each code once."""
    parts = (
        *FLOOR_CAUTIONS,
        *(caution for room in divided for caution in room.loops.cautions),
        *water.cautions,
        *(caution for build_up in plans for caution in build_up.plan.cautions),
    )
    return tuple({caution.code: caution for caution in reversed(parts)}.values())[::-1]
