"""Codes by which the engine refuses its own work: no quick request is known that leads to them, so each is planted."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Any

import pytest
from shapely import LinearRing, Polygon, box, difference
from shapely.errors import GEOSException
from tepidarium_engine import design_options, designs, routes
from tepidarium_engine.design_options import DesignOptionsInputs
from tepidarium_engine.designs import BuildUp, DesignRoom, DesignsInputs, Manifold, PlanDoorway
from tepidarium_engine.errors import FaultList, InputError
from tepidarium_engine.findings import FINDINGS
from tepidarium_engine.options import selection
from tepidarium_engine.plan.laying import laying
from tepidarium_engine.plan.outlines import ring_checks
from tepidarium_engine.plan.pipes.pipe_path import Line, PipePath
from tepidarium_engine.refusals import REFUSALS
from tepidarium_engine.routes import RoutesInputs
from tepidarium_engine.storey import storey_layout
from tepidarium_engine.storey.division import division
from tepidarium_engine.storey.judging.storey_judge import Crowding
from tepidarium_engine.storey.lanes import walkways
from tepidarium_engine.storey.model.division_records import DividedRoom
from tepidarium_engine.storey.rooms import field_circuits, room_circuits, route_division

Planted = Callable[[pytest.MonkeyPatch], set[str]]
"""Plants a fault and says which codes come of it."""
ROOM = RoutesInputs(
    outline=((0.0, 0.0), (5.0, 0.0), (5.0, 4.0), (0.0, 4.0)), pipe_spacing=0.2, entry=(2.0, 0.0), quick=True
)
PARTED = replace(ROOM, circuits=2)
JOINT = ((0.0, 2.0), (5.0, 2.0))
FLOOR = BuildUp("floor", resistance_below=2.5, temperature_below=8.0)
HALL, PARLOUR = (
    ((0.0, y), (4.0, y), (4.0, y + depth), (0.0, y + depth)) for y, depth in ((0.0, 2.0), (2.1, 3.0))
)
HOUSE = DesignsInputs(
    (
        DesignRoom("hall", "floor", 300.0, outline=HALL, pipe_spacing=0.2),
        DesignRoom("parlour", "floor", 300.0, outline=PARLOUR, pipe_spacing=0.2),
    ),
    (FLOOR,),
    manifold=Manifold(position=(0.5, 0.0)),
    doorways=(PlanDoorway(("hall", "parlour"), (2.0, 2.05)),),
)


def refused(inputs: RoutesInputs) -> set[str]:
    with pytest.raises(InputError) as refusal:
        routes.calculate(inputs)
    return {fault.code for fault in refusal.value.faults}


def told() -> set[str]:
    return {finding.code for finding in designs.calculate(HOUSE).findings}


def not_laid(reason: str) -> Callable[..., laying.Laid]:
    """Lays a room and then says that the pipe has a fault."""

    def lay(*asked: Any) -> laying.Laid:
        return replace(laying.lay(*asked), path=None, check=None, refusal=laying.Refusal(reason))

    return lay


def no_route(reason: str) -> Planted:
    def planted(patch: pytest.MonkeyPatch) -> set[str]:
        patch.setattr(routes, "lay", not_laid(reason))
        return refused(ROOM)

    return planted


def no_division(reason: str) -> Planted:
    def planted(patch: pytest.MonkeyPatch) -> set[str]:
        refusal = DividedRoom(refusal=laying.Refusal(reason))
        patch.setattr(route_division, "divided", lambda *_: refusal)
        patch.setattr(route_division, "alone_in_pieces", lambda *_: None)
        return refused(PARTED)

    return planted


def not_drawn(reason: str) -> Planted:
    def planted(patch: pytest.MonkeyPatch) -> set[str]:
        patch.setattr(field_circuits, "lay", not_laid(reason))
        return told()

    return planted


def parted(change: Callable[[DividedRoom], DividedRoom]) -> Planted:
    """A room divided as it should be, and then changed."""

    def planted(patch: pytest.MonkeyPatch) -> set[str]:
        patch.setattr(route_division, "divided", lambda *asked: change(division.divided(*asked)))
        patch.setattr(route_division, "alone_in_pieces", lambda *_: None)
        return refused(PARTED)

    return planted


def _twice(found: DividedRoom) -> DividedRoom:
    return replace(found, circuits=(found.circuits[0], found.circuits[0]))


def _moved_away(found: DividedRoom) -> DividedRoom:
    away = [replace(one, path=one.path.moved((10.0, 0.0))) for one in found.circuits]
    return replace(found, circuits=tuple(away))


def _crossing_itself(found: DividedRoom) -> DividedRoom:
    """One circuit's pipe is led back through its beginning."""
    one = found.circuits[0]
    (x, y), (u, v) = one.path.start, one.path.end
    back = (Line((u, v), (x + 1.0, y + 1.0)), Line((x + 1.0, y + 1.0), (x - 1.0, y + 1.1)))
    return replace(found, circuits=(replace(one, path=PipePath((*one.path.pieces, *back))),))


def _over_a_joint(patch: pytest.MonkeyPatch) -> set[str]:
    patch.setattr(
        route_division, "divided", lambda room, asked: division.divided(room, replace(asked, joints=()))
    )
    patch.setattr(route_division, "alone_in_pieces", lambda *_: None)
    return refused(replace(PARTED, movement_joints=(JOINT,)))


def _too_near(patch: pytest.MonkeyPatch) -> set[str]:
    patch.setattr(division, "crowding", lambda *_: [Crowding(0, 1, 0.01, (1.0, 1.0))])
    return refused(PARTED)


def _too_near_in_a_storey(patch: pytest.MonkeyPatch) -> set[str]:
    patch.setattr(storey_layout, "crowding", lambda *_: [Crowding(0, 1, 0.01, (1.0, 1.0))])
    return told()


def broken(fault: str) -> Planted:
    def planted(patch: pytest.MonkeyPatch) -> set[str]:
        patch.setattr(storey_layout, "fault_of", lambda *_: (fault, (1.0, 1.0)))
        return told()

    return planted


def _off_floor(patch: pytest.MonkeyPatch) -> set[str]:
    """A shaft stands where pipe was drawn."""
    shaft = box(0.5, 0.5, 1.5, 1.5)
    patch.setattr(storey_layout, "storey_floor", lambda plan: difference(walkways.storey_floor(plan), shaft))
    return told()


def _gives_up(*_: Any, **__: Any) -> None:
    raise GEOSException("side location conflict")


def _not_computed(patch: pytest.MonkeyPatch) -> set[str]:
    patch.setattr(room_circuits, "laid_single", _gives_up)
    return told()


def _room_not_computed(patch: pytest.MonkeyPatch) -> set[str]:
    patch.setattr(routes, "check_room", _gives_up)
    return refused(ROOM)


def _crossed(_: pytest.MonkeyPatch) -> set[str]:
    crossed = Polygon([(0.0, 0.0), (4.0, 4.0), (4.0, 0.0), (0.0, 3.0)])
    faults = FaultList()
    ring_checks.check_whole(crossed, [("", LinearRing(crossed.exterior))], "/outline", (0.0, 0.0), faults)
    return {fault.code for fault in faults.faults}


def _not_proven(patch: pytest.MonkeyPatch) -> set[str]:
    """The solver stops before its bound has come up to what it found."""
    patch.setattr(selection.Selection, "proven", lambda *_: False)
    rooms = tuple(
        DesignRoom(f"room {number}", "floor", 500.0 + 70.0 * number, area=10.0 + 3.0 * number)
        for number in range(3)
    )
    found = design_options.calculate(DesignOptionsInputs(DesignsInputs(rooms, (FLOOR,))))
    return {finding.code for finding in found.findings}


OF_PIPE = ("gap", "kink", "start_off_entry", "end_off_entry", "tail_pitch", "too_long_for_one_circuit")
OF_PIECES = (*OF_PIPE, "no_room_for_pipe", "too_narrow", "wall_clearance", "near_itself")
OF_STOREYS = ("entry_too_narrow", "too_many_circuits", "too_narrow", "no_room_for_pipe", "pipe_distance")
OF_STOREYS += ("too_long_for_one_circuit", "wall_clearance", "tail_distance", "start_off_entry")
OF_STOREYS += ("end_off_entry", "tail_pitch", "too_few_circuits")
PLANTED: dict[str, Planted] = {
    **{f"no_route_{reason}": no_route(reason) for reason in OF_PIPE},
    **{f"no_division_{reason}": no_division(reason) for reason in OF_PIECES},
    **{f"not_drawn_{reason}": not_drawn(reason) for reason in OF_STOREYS},
    "no_division_circuits_too_near": _too_near,
    "no_division_crosses_itself": parted(_crossing_itself),
    "no_division_crosses_movement_joint": _over_a_joint,
    "no_division_outside_floor": parted(_moved_away),
    "no_division_pipe_distance": parted(_twice),
    "not_drawn_geometry_failed": _not_computed,
    "not_drawn_gap": broken("gap"),
    "not_drawn_kink": broken("kink"),
    "not_drawn_outside_floor": _off_floor,
    "not_drawn_too_near": _too_near_in_a_storey,
    "geometry_failed": _room_not_computed,
    "invalid": _crossed,
    "option_not_proven": _not_proven,
}


@pytest.fixture(autouse=True)
def _without_remedies(monkeypatch: pytest.MonkeyPatch) -> None:
    """What would help a refused room has tests of its own."""
    monkeypatch.setattr(routes, "with_remedy", lambda error, *_: error)


@pytest.mark.parametrize("code", PLANTED)
def test_a_planted_fault_comes_out_under_its_code(code: str, monkeypatch: pytest.MonkeyPatch) -> None:
    assert code in PLANTED[code](monkeypatch)


def _guards() -> Iterator[str]:
    for kinds in (FINDINGS, REFUSALS):
        yield from (code for code, kind in kinds.items() if kind.guard)


def test_every_guard_is_planted() -> None:
    assert set(PLANTED) == set(_guards())
