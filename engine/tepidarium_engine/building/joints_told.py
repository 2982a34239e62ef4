"""What is said about movement joints: those that are due or adopted, those that pipes cross and must not, sleeves
aslant."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from ..results import Finding
from ..storey.joints.joint_findings import joint_finding
from .house_joints import HouseJoint, joint_length
from .room_joints import parts_room
from .sleeves import Crossing

__all__ = ["joints_told"]

_ASLANT = math.radians(30.0)
_SOURCE = "EN 1264-4, movement joints"


def joints_told(joints: Sequence[HouseJoint], crossings: Sequence[Crossing]) -> Iterator[Finding]:
    """Joints that are due, then those adopted, then what the drawing shows of all that are laid."""
    for joint in joints:
        if joint.state == "due" and joint.proposal is not None:
            yield joint_finding(joint.proposal, joint.where, joint.subject)
    adopted = [joint for joint in joints if joint.state == "adopted"]
    if adopted:
        length = joint_length(adopted, due=False)
        yield Finding.at(
            "movement_joints_adopted",
            "/movement_joints",
            detail=f"{len(adopted)} joints",
            value=length,
            source=_SOURCE,
            quantity="movement_joint_length",
        )
    told: set[tuple[int, int | None, bool]] = set()
    for crossing in crossings:
        joint = crossing.joint
        key = (joint.room.index, joint.number, crossing.tail)
        if joint.state == "due" or key in told or (crossing.tail and crossing.aslant <= _ASLANT):
            continue
        told.add(key)
        yield _aslant(crossing) if crossing.tail else _crossed(crossing)


def _crossed(crossing: Crossing) -> Finding:
    joint = crossing.joint
    parts = joint.number is not None and parts_room(joint.room, joint.number)
    return Finding.at(
        "crosses_movement_joint",
        joint.where,
        source=_SOURCE,
        point=crossing.place,
        detail=f"Circuit {crossing.circuit}" + ("" if parts else ", where the joint ends within the floor"),
        subject=joint.room.label,
    )


def _aslant(crossing: Crossing) -> Finding:
    return Finding.at(
        "sleeve_aslant",
        crossing.joint.where,
        value=crossing.aslant,
        limit=_ASLANT,
        quantity="joint_angle",
        source=_SOURCE,
        point=crossing.place,
        detail=f"Circuit {crossing.circuit}",
        subject=crossing.joint.room.label,
    )
