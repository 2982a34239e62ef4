"""The request for a manifold's place as a plan of the storey, checked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ...errors import FaultList, InputError
from ...pipe import check_pipe
from ...plan.lengths.lengths import laid_diameter
from ...plan.outlines.polygons import room_outline
from ..model.circuit_names import circuit_name, number_prefix
from ..model.tail_records import ManifoldPlace, StoreyPlan, TailDemand, TailRules
from .manifold_place import ManifoldChoice
from .manifold_sites import AllowedWall, wall_runs
from .plan_input import (
    SentRoom,
    allowed_walls,
    check_doorways,
    check_overlaps,
    doorway_between,
    place_on_wall,
    sent_rooms,
)
from .position_records import ManifoldPositionInputs

__all__ = ["MOST_STOREY_CIRCUITS", "PositionPlan", "check_choice", "position_plan", "require_wall"]

MOST_STOREY_CIRCUITS = 64
"""Of a storey whose manifolds are placed in one request."""


@dataclass(frozen=True)
class PositionPlan:
    """The request as a plan: rooms that take circuits are demands, in order."""

    inputs: ManifoldPositionInputs
    rooms: tuple[SentRoom, ...]
    plan: StoreyPlan
    demands: tuple[TailDemand, ...]
    allowed: tuple[AllowedWall, ...]
    given: ManifoldPlace | None

    @property
    def rules(self) -> TailRules:
        inputs = self.inputs
        return TailRules(inputs.tail_pitch, inputs.wall_clearance, inputs.pipe.bend_radius)


def position_plan(inputs: ManifoldPositionInputs) -> PositionPlan:
    """Raises ``InputError`` for what does not fit together."""
    faults = FaultList()
    check_pipe(inputs.pipe, "/pipe", faults)
    _check_numbers(inputs, faults)
    rooms = _sent_rooms(inputs, faults)
    check_overlaps(rooms, faults)
    doorways = [
        doorway_between(doorway, f"/doorways/{number}", rooms, faults)
        for number, doorway in enumerate(inputs.doorways)
    ]
    found = tuple(door for door in doorways if door is not None)
    if len(found) == len(doorways):
        check_doorways(found, [f"/doorways/{number}" for number in range(len(found))], faults)
    allowed = allowed_walls(inputs.allowed_places, "/allowed_places", rooms, faults)
    given = None if inputs.position is None else place_on_wall(inputs.position, "/position", rooms, faults)
    faults.raise_if_any()
    names = [room.id for room in inputs.rooms]
    demands = tuple(
        TailDemand(circuit_name(room.id, number_prefix(room.id, names), number, room.circuits), index)
        for index, room in enumerate(inputs.rooms)
        for number in range(1, room.circuits + 1)
    )
    plan = StoreyPlan(tuple(room.floor for room in rooms), found)
    place = None if given is None else ManifoldPlace(given[1], given[2], given[0])
    return PositionPlan(inputs, rooms, plan, demands, allowed, place)


def _sent_rooms(inputs: ManifoldPositionInputs, faults: FaultList) -> tuple[SentRoom, ...]:
    for number, room in enumerate(inputs.rooms):
        try:
            room_outline(room.outline, room.voids, f"/rooms/{number}")
        except InputError as error:
            faults.faults += error.faults
    faults.raise_if_any()
    return sent_rooms(
        [room.id for room in inputs.rooms],
        [f"/rooms/{number}" for number in range(len(inputs.rooms))],
        [(room.outline, room.voids) for room in inputs.rooms],
    )


def _check_numbers(inputs: ManifoldPositionInputs, faults: FaultList) -> None:
    ids = [room.id for room in inputs.rooms]
    for number, name in enumerate(ids):
        faults.require(
            ids.index(name) == number, f"/rooms/{number}/id", "repeated", "another room has the same id"
        )
    total = sum(room.circuits for room in inputs.rooms)
    faults.require(
        total > 0, "/rooms", "no_circuits", "no room has a circuit: give at least one room its circuits"
    )
    faults.require(
        total <= MOST_STOREY_CIRCUITS,
        "/rooms",
        "too_many_circuits",
        f"take {total} circuits; at most {MOST_STOREY_CIRCUITS} are placed in one request: ask for each storey by "
        "itself",
        MOST_STOREY_CIRCUITS,
    )
    for number, room in enumerate(inputs.rooms):
        if room.circuits > inputs.maximum_ports:
            faults.add(
                "/maximum_ports",
                "too_few_ports",
                f"are fewer than the {room.circuits} circuits of /rooms/{number}, and a room is served by one "
                "manifold: give it as two rooms, or a manifold more ports",
                room.circuits,
            )
    faults.require(
        inputs.tail_pitch > laid_diameter(inputs.pipe),
        "/tail_pitch",
        "pipes_overlap",
        "must be more than the outside diameter of the pipe, or of its sheath if it has one",
        laid_diameter(inputs.pipe),
    )


def require_wall(
    plan: StoreyPlan, walls: Sequence[AllowedWall], width: float, pointer: str, faults: FaultList
) -> bool:
    """Whether one of the walls takes a manifold ``width`` [m] wide; notes a fault otherwise."""
    longest = max((run.length for run in wall_runs(plan, walls)), default=0.0)
    return faults.require(
        longest >= width,
        pointer,
        "no_wall_wide_enough",
        f"no allowed wall has room for the pipes of all ports: they need {width:.2f} m, straight and free of "
        f"doorways, and the longest has {longest:.2f} m. Allow another wall, fewer ports for each manifold, or a "
        "smaller tail_pitch",
        width,
    )


def check_choice(storey: PositionPlan, choice: ManifoldChoice) -> None:
    """Raises ``InputError`` where no place was found, saying what stands in the way."""
    faults = FaultList()
    pointer = "/allowed_places" if storey.inputs.allowed_places else "/rooms"
    width = storey.rules.width_for(min(storey.inputs.maximum_ports, len(storey.demands)))
    if require_wall(storey.plan, storey.allowed, width, pointer, faults):
        unreached = {demand.room for demand in storey.demands if demand.circuit in choice.unreached}
        for room in sorted(unreached):
            faults.add(
                f"/rooms/{room}",
                "unreached",
                "cannot be reached from any allowed place: no row of doorways that take a pair of pipes leads to it",
            )
        faults.require(
            bool(choice.manifolds) or bool(unreached),
            "/maximum_tail_length" if storey.inputs.maximum_tail_length is not None else "/maximum_ports",
            "no_place",
            "is too short: no set of up to eight manifolds at the allowed places reaches all rooms",
        )
    faults.raise_if_any()
