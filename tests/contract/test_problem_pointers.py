"""Every pointer of every problem leads to a field of the request, and a fault of one field to that field.

Each number of every example is set to both its bounds, to what lies beyond, to nothing, and left out. RFC 9457 leaves
members of a problem to us; RFC 6901 is the pointer.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from tepidarium_api.answer import Answer, answer
from tepidarium_api.calculations import CALCULATIONS, Calculation

from tests.problems.full_house import FULL_HOUSE, without_plan
from tests.problems.hostile import LEFT_OUT, changed, hostile_values, leads_into, numbers

EXAMPLES = Path(__file__).parents[2] / "examples"
BY_NAME = {calculation.name: calculation for calculation in CALCULATIONS}
SLOW = {"routes", "designs", "manifold-position", "loop-length"}
"""Whose examples are laid anew for every number."""


def example(stem: str) -> dict[str, Any]:
    loaded: dict[str, Any] = json.loads((EXAMPLES / f"{stem}.json").read_text(encoding="utf-8"))
    return loaded


def problem_pointers(calculation: Calculation, request: dict[str, Any]) -> list[str]:
    found = answer(calculation, json.dumps(request).encode(), "application/json")
    return [] if isinstance(found, Answer) else [error.pointer for error in found.errors]


def astray(
    calculation: Calculation, request: dict[str, Any], *, coordinates: bool = True, within: bool = False
) -> list[str]:
    """What leads nowhere, of all hostile requests made of one; ``within`` leaves out those that no range allows."""
    assert problem_pointers(calculation, request) == []
    wrong = []
    for path, entry in numbers(request, calculation.inputs, coordinates):
        for value in (entry.minimum, entry.maximum, LEFT_OUT) if within else hostile_values(entry):
            sent = changed(request, path, value)
            for pointer in problem_pointers(calculation, sent):
                if not leads_into(sent, calculation.inputs, pointer):
                    shown = "left out" if value is LEFT_OUT else value
                    wrong.append(f"/{'/'.join(map(str, path))} {shown}: {pointer}")
    return wrong


@pytest.mark.parametrize("name", sorted(set(BY_NAME) - SLOW))
def test_problems_point_into_the_request(name: str) -> None:
    assert astray(BY_NAME[name], example(name)) == []


def test_problems_of_a_house_without_a_plan_point_into_the_request() -> None:
    assert astray(BY_NAME["designs"], without_plan(), coordinates=False, within=True) == []


@pytest.mark.long
@pytest.mark.parametrize("name", sorted(SLOW))
def test_problems_point_into_the_request_where_pipe_is_laid(name: str) -> None:
    assert astray(BY_NAME[name], example(name), coordinates=name != "designs") == []


@pytest.mark.long
@pytest.mark.parametrize(
    "request_body", [FULL_HOUSE, example("two-storeys")], ids=["full house", "two storeys"]
)
def test_problems_of_a_house_point_into_the_request(request_body: dict[str, Any]) -> None:
    # in house after house only what a range allows gets as far as the drawing
    within = request_body not in (FULL_HOUSE, without_plan())
    assert astray(BY_NAME["designs"], request_body, coordinates=False, within=within) == []


def _of(request: dict[str, Any], *changes: tuple[tuple[str | int, ...], Any]) -> dict[str, Any]:
    for path, value in changes:
        request = changed(request, path, value)
    return request


@pytest.mark.parametrize(
    ("changes", "pointers"),
    [
        # a bathroom at 0 degC would have to cool its water by more than can be computed
        ([(("rooms", 1, "room_temperature"), 0.0), (("rooms", 1, "surface_temperature_limit"), None)],
         ["/rooms/1/room_temperature"]),
        ([(("rooms", 1, "room_temperature"), -5.0), (("rooms", 1, "surface_temperature_limit"), 2.0)],
         ["/rooms/1/surface_temperature_limit"]),
        # warmer than its covering may get
        ([(("rooms", 3, "room_temperature"), 28.0)], ["/rooms/3/room_temperature"]),
        # what inner calculations are made of
        ([(("build_ups", 0, "screed_cover"), 0.005)], ["/build_ups/0/screed_cover"]),
        ([(("limits", "pipe_spacings"), [0.1, 0.6, 0.15]), (("pipe", "minimum_bend_radius"), 0.02),
          (("limits", "pipe_spacings", 1), 0.04)], ["/limits/pipe_spacings/1"]),
        ([(("rooms", 2, "pipe_spacing"), 0.03)], ["/rooms/2/pipe_spacing"]),
        ([(("source", "primary_temperature"), 20.0)], ["/source/primary_temperature"]),
        ([(("manifolds", 0, "valve_kv_open"), 9.0)], ["/manifolds/0/valve_kv_open"]),
        ([(("expansion", "fill_temperature"), -20.0)], ["/expansion/fill_temperature"]),
        ([(("screed", "maker_rules", "curing_days"), 30)], ["/screed/maker_rules/curing_days"]),
        ([(("heat_loss", "rooms", 0, "walls", 1, "openings", 0, "width"), 9.0)],
         ["/heat_loss/rooms/0/walls/1/openings/0/width", "/heat_loss/rooms/0/walls/1/openings"]),
        # the outline is the room's own, the loss only uses it
        ([(("rooms", 0, "outline", 2), [4.0, 0.0])], None),
        ([(("build_ups", 0, "insulation", "layers", 0, "thickness"), None)],
         ["/build_ups/0/insulation/layers/0/thickness"]),
        ([(("limits", "maximum_circuit_length"), 8.0)], ["/limits/maximum_circuit_length"]),
        ([(("rooms", 3, "tail_length"), 60.0)], ["/rooms/3/tail_length"]),
        ([(("source", "supply_temperature"), 22.0)], ["/source/supply_temperature", "/rooms/1/room_temperature"]),
    ],
)  # fmt: skip
def test_a_fault_is_reported_at_its_field(changes: list[Any], pointers: list[str] | None) -> None:
    request = _of(without_plan(), *changes)
    found = problem_pointers(BY_NAME["designs"], request)
    assert found and all(leads_into(request, BY_NAME["designs"].inputs, pointer) for pointer in found)
    if pointers is None:
        assert all(pointer.startswith("/rooms/0/outline") for pointer in found)
    else:
        assert sorted(found) == sorted(pointers)


def test_what_leads_astray_is_seen() -> None:
    """The check itself: members that are there or may be, and nothing else."""
    inputs, request = BY_NAME["designs"].inputs, without_plan()
    for pointer in (
        "",
        "/rooms/0/outline/2",
        "/limits/tail_pitch",
        "/rooms/3/pipe_spacing",
        "/manifold/position",
    ):
        assert leads_into(request, inputs, pointer), pointer
    for pointer in (
        "/circuits/10/temperature_drop",
        "/rooms/9/id",
        "/rooms/0/outline/4",
        "/supply_temperature",
        "/heat_loss/rooms/0/outline/1",
    ):
        assert not leads_into(request, inputs, pointer), pointer
