"""What is said about movement joints: those that are due, those that pipes cross and must not, sleeves aslant."""

from __future__ import annotations

import math
from collections.abc import Iterator

from ..practice.screed import Binder
from ..results import Finding
from ..storey.joint_findings import joint_finding
from ..storey.joint_rules import doorway_joints, proposed_joints
from .drawn_house import DrawnHouse
from .floors import RoomToHeat
from .house import House, StoreySite
from .room_joints import given_segments, parts_room
from .sleeves import crossings

__all__ = ["joints_told"]

_ASLANT = math.radians(30.0)
_SOURCE = "EN 1264-4, movement joints"


def joints_told(house: House, drawn: DrawnHouse | None) -> Iterator[Finding]:
    """Room by room, then doorway by doorway, then what the drawing shows."""
    screed = house.inputs.screed
    binder: Binder = "cement" if screed is None else screed.binder
    for room in house.rooms:
        yield from _due_in_room(room, binder)
    for site in house.sites:
        yield from _due_in_doorways(site)
    for storey in () if drawn is None else drawn.storeys:
        told: set[tuple[int, int, str]] = set()
        for crossing in crossings(storey):
            where = f"{crossing.room.pointer}/movement_joints/{crossing.joint}"
            code = "crosses_movement_joint" if not crossing.tail else "sleeve_aslant"
            key = (crossing.room.index, crossing.joint, code)
            if key in told or (crossing.tail and crossing.aslant <= _ASLANT):
                continue
            told.add(key)
            if not crossing.tail:
                ends = "" if parts_room(crossing.room, crossing.joint) else "The joint ends within the floor"
                yield Finding.at(
                    code,
                    "violation",
                    where,
                    "A circuit crosses a movement joint, which can tear the pipe. Let the joint run from wall to "
                    "wall, so that it parts the floor; only tails may cross, each in a sleeve.",
                    detail=ends,
                    subject=crossing.room.circuit_label(crossing.circuit),
                    source=_SOURCE,
                    point=crossing.place,
                )
            else:
                yield Finding.at(
                    code,
                    "warning",
                    where,
                    "A tail passes a movement joint askew, where its sleeve may not protect it. Bend it so that it "
                    "lies square to the joint.",
                    subject=crossing.room.circuit_label(crossing.circuit),
                    value=crossing.aslant,
                    limit=_ASLANT,
                    quantity="joint_angle",
                    source=_SOURCE,
                    point=crossing.place,
                )


def _due_in_room(room: RoomToHeat, binder: Binder) -> Iterator[Finding]:
    if room.outline is None:
        return
    given = given_segments(room.room.movement_joints)
    for joint in proposed_joints(room.outline, binder, joints=given):
        yield joint_finding(joint, f"{room.pointer}/movement_joints", room.label)


def _due_in_doorways(site: StoreySite) -> Iterator[Finding]:
    """One for each doorway, whichever of its rooms would give the joint."""
    for number, doorway in zip(site.doorways, site.plan.doorways, strict=True):
        rooms = [site.rooms[room] for room in doorway.rooms]
        given = [segment for room in rooms for segment in given_segments(room.room.movement_joints)]
        for joint in doorway_joints(given, [doorway.stretches[0]]):
            names = " - ".join(room.label for room in rooms)
            yield joint_finding(joint, f"/doorways/{number}", f"doorway {names}")
