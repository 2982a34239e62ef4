"""The curing plan of each build-up in use."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, replace
from functools import partial

from .. import curing_plan
from ..curing_plan import CuringPlanInputs
from ..errors import faults_at
from ..results import Finding, FindingPlace
from .floors import RoomToHeat
from .outcome import BuildUpPlan
from .records import BuildUp, DesignScreed, DesignsInputs
from .supply import supply_pointer

__all__ = ["build_up_plans", "plan_findings", "without_findings"]

_OF_BUILD_UP = {"/thickness": "/screed_cover", "/covering": "/covering"}
_OF_DESIGN = {"/pipe_outside_diameter": "/pipe"}
_OF_SCREED = {item.name for item in fields(DesignScreed)}
_OF_ANSWER = {"/maximum_supply_temperature": "/supply_temperature"}


def build_up_plans(
    inputs: DesignsInputs, rooms: tuple[RoomToHeat, ...], supply: float
) -> tuple[BuildUpPlan, ...]:
    """One plan for each build-up that a room names, in the order of the request; none without a screed."""
    if inputs.screed is None:
        return ()
    plans = []
    for index, build_up in enumerate(inputs.build_ups):
        own = tuple(room for room in rooms if room.build_up.id == build_up.id)
        if own:
            plans.append(_plan(inputs, inputs.screed, index, build_up, own, supply=supply))
    return tuple(plans)


def _plan(
    inputs: DesignsInputs,
    screed: DesignScreed,
    index: int,
    build_up: BuildUp,
    rooms: tuple[RoomToHeat, ...],
    *,
    supply: float,
) -> BuildUpPlan:
    request = CuringPlanInputs(
        binder=screed.binder,
        thickness=build_up.screed_cover + inputs.pipe.outside_diameter,
        pour_date=screed.pour_date,
        maximum_supply_temperature=supply,
        covering=build_up.covering,
        flexural_class=screed.flexural_class,
        pipe_outside_diameter=inputs.pipe.outside_diameter,
        imposed_load=screed.imposed_load,
        rule_set=screed.rule_set,
        maker_rules=screed.maker_rules,
        lowest_air_temperature=screed.lowest_air_temperature,
        room_areas=tuple(room.area for room in rooms),
    )
    with faults_at(_places(inputs, index, rooms), "/screed"):
        plan = curing_plan.calculate(request)
    findings = tuple(finding.moved(partial(_in_design, index=index)) for finding in plan.findings)
    return BuildUpPlan(build_up.id, request, replace(plan, findings=findings))


def _in_design(place: FindingPlace, index: int) -> FindingPlace:
    if place.where in _OF_ANSWER:
        return replace(place, where=_OF_ANSWER[place.where], where_in="answer")
    return replace(place, where=_pointer(place.where, index))


def _places(inputs: DesignsInputs, index: int, rooms: tuple[RoomToHeat, ...]) -> dict[str, str]:
    """Fields of the request for those of a curing plan."""
    return {
        **{inner: f"/build_ups/{index}{ours}" for inner, ours in _OF_BUILD_UP.items()},
        **{
            f"/room_areas/{place}": f"{room.pointer}/{'area' if room.outline is None else 'outline'}"
            for place, room in enumerate(rooms)
        },
        "/pipe_outside_diameter": "/pipe/outside_diameter",
        "/maximum_supply_temperature": supply_pointer(inputs.source),
    }


def _pointer(pointer: str, index: int) -> str:
    if pointer in _OF_BUILD_UP:
        return f"/build_ups/{index}{_OF_BUILD_UP[pointer]}"
    if pointer in _OF_DESIGN:
        return _OF_DESIGN[pointer]
    return f"/screed{pointer}" if pointer.split("/")[1] in _OF_SCREED else "/screed"


def plan_findings(plans: tuple[BuildUpPlan, ...]) -> Iterator[Finding]:
    """The findings of all plans."""
    for build_up in plans:
        yield from build_up.plan.findings


def without_findings(plan: BuildUpPlan) -> BuildUpPlan:
    """The same without what the design says itself."""
    return replace(plan, plan=replace(plan.plan, findings=(), cautions=()))
