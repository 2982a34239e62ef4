"""All movement joints of a house: given with its rooms, adopted as proposed, and those that the rules ask for beside
them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import NamedTuple

from ..checking import Point
from ..practice.screed import Binder
from ..storey.joints.proposed_joints import ProposedJoint, doorway_joints, field_joints
from ..storey.model.records import Segment
from .floors import AdoptedJoint, RoomToHeat
from .house import House, StoreySite, house_of
from .layout_outcome import DesignJoint, JointState
from .records import DesignsInputs

__all__ = ["HouseJoint", "design_joint", "due_joints", "house_joints", "joint_length", "with_proposed_joints"]


class HouseJoint(NamedTuple):
    """A joint of a room; ``number`` counts the joints that it has. ``where`` is what it comes from in the request, and
    ``doorway`` the number of the doorway that it lies in, ``between`` these rooms."""

    room: RoomToHeat
    number: int | None
    points: tuple[Point, ...]
    state: JointState
    where: str
    proposal: ProposedJoint | None = None
    doorway: int | None = None
    between: str = ""

    @property
    def subject(self) -> str:
        """What people call the place."""
        return self.room.label if self.doorway is None else f"doorway {self.between}"

    @property
    def key(self) -> tuple[int, tuple[Point, ...]]:
        """Tells it from all others."""
        return self.room.index, self.points

    @property
    def length(self) -> float:
        return math.fsum(math.dist(*pair) for pair in pairwise(self.points))


def with_proposed_joints(
    inputs: DesignsInputs, rooms: tuple[RoomToHeat, ...]
) -> tuple[tuple[RoomToHeat, ...], tuple[HouseJoint, ...]]:
    """The rooms and the joints that are due beside those that they have. Where the request wants them adopted the rooms
    have all of them, and none is due."""
    due = due_joints(house_of(inputs, rooms))
    if inputs.movement_joints == "given":
        return rooms, due
    adopted: dict[int, list[AdoptedJoint]] = {}
    for joint in due:
        if joint.proposal is not None:
            adopted.setdefault(joint.room.index, []).append(AdoptedJoint(joint.proposal, joint.doorway))
    return tuple(replace(room, adopted_joints=tuple(adopted.get(room.index, ()))) for room in rooms), ()


def due_joints(house: House) -> tuple[HouseJoint, ...]:
    """Joints that the rules ask for beside those that the rooms have: room by room, then doorway by doorway."""
    screed = house.inputs.screed
    binder: Binder = "cement" if screed is None else screed.binder
    sites = {site.number: site for site in house.sites}
    in_rooms = (
        joint
        for room in house.rooms
        for joint in _due_in_room(room, sites.get(house.storey_of[room.index]), binder)
    )
    return (*in_rooms, *(joint for site in house.sites for joint in _due_in_doorways(site)))


def _due_in_room(room: RoomToHeat, site: StoreySite | None, binder: Binder) -> Iterator[HouseJoint]:
    if room.outline is None:
        return
    doorways = [] if site is None else list(_doorways_of(room, site))
    where = f"{room.pointer}/movement_joints"
    given = [pair for joint in room.joints for pair in pairwise(joint)]
    for joint in field_joints(room.outline, binder, given, doorways):
        yield HouseJoint(room, None, joint.line, "due", where, joint)


def _doorways_of(room: RoomToHeat, site: StoreySite) -> Iterator[Segment]:
    """Where doorways stand on the outline of a room."""
    place = site.place_of(room)
    for doorway in site.plan.doorways:
        for number, stretch in zip(doorway.rooms, doorway.stretches, strict=True):
            if number == place:
                yield stretch


def _due_in_doorways(site: StoreySite) -> Iterator[HouseJoint]:
    """One for each doorway, whichever of its rooms would give the joint."""
    for number, doorway in zip(site.doorways, site.plan.doorways, strict=True):
        rooms = [site.rooms[room] for room in doorway.rooms]
        given = [pair for room in rooms for joint in room.joints for pair in pairwise(joint)]
        for joint in doorway_joints(given, [doorway.middle_line]):
            names = " - ".join(room.label for room in rooms)
            yield HouseJoint(rooms[0], None, joint.line, "due", f"/doorways/{number}", joint, number, names)


def house_joints(house: House, due: Sequence[HouseJoint]) -> tuple[HouseJoint, ...]:
    """Those that the rooms have, room by room, then those that are ``due``."""
    return (*(joint for room in house.rooms for joint in _of_room(room)), *due)


def _of_room(room: RoomToHeat) -> Iterator[HouseJoint]:
    given = room.room.movement_joints
    for number, points in enumerate(given):
        yield HouseJoint(room, number, points, "given", f"{room.pointer}/movement_joints/{number}")
    for number, joint in enumerate(room.adopted_joints, start=len(given)):
        line = joint.proposal.line
        yield HouseJoint(room, number, line, "adopted", "/movement_joints", joint.proposal, joint.doorway)


def joint_length(joints: Sequence[HouseJoint], due: bool) -> float:
    """Of the joints that are due, or of all others [m]."""
    return math.fsum(joint.length for joint in joints if (joint.state == "due") == due)


def design_joint(inputs: DesignsInputs, joint: HouseJoint, sleeves: int) -> DesignJoint:
    """The joint as it is answered."""
    return DesignJoint(
        room=joint.room.room.id,
        doorway=() if joint.doorway is None else inputs.doorways[joint.doorway].rooms,
        state=joint.state,
        reason=None if joint.proposal is None else joint.proposal.reason,
        points=joint.points,
        length=joint.length,
        sleeve_count=sleeves,
    )
