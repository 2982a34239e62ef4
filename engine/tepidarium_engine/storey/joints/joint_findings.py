"""Movement joints that were not given where the rules ask for them, as findings."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from ...plan.asking.route_records import RoutesInputs
from ...plan.outlines.polygons import RoomOutline
from ...results import Finding
from ..model.records import Segment
from .joint_rules import JointReason
from .proposed_joints import ProposedJoint, proposed_joints

__all__ = ["joint_finding", "joint_findings"]

_WORDS: dict[JointReason, str] = {
    "field_area": "the field of screed has {value:.1f} m2, more than {limit:g} m2",
    "field_side": "the field of screed is {value:.1f} m long, more than {limit:g} m",
    "field_ratio": "the field of screed is {value:.1f} times as long as wide, more than {limit:g} times",
    "re_entrant_corner": "cracks start at a corner that reaches into the floor",
    "doorway": "a doorway",
}


def joint_findings(inputs: RoutesInputs, room: RoomOutline) -> Iterator[Finding]:
    """One finding for each joint proposed."""
    doorways = [] if inputs.doorway is None else [(inputs.doorway[0], inputs.doorway[1])]
    given: list[Segment] = [line for joint in inputs.movement_joints for line in pairwise(joint)]
    for joint in proposed_joints(room, inputs.binder, joints=given, doorways=doorways):
        yield joint_finding(joint)


def joint_finding(joint: ProposedJoint, where: str = "/movement_joints", subject: str = "") -> Finding:
    """A joint that is due."""
    (ax, ay), (bx, by) = joint.line
    why = _WORDS[joint.reason].format(value=joint.value, limit=joint.limit)
    return Finding.at(
        "movement_joint_proposed",
        where,
        severity="warning" if joint.value is not None else "note",
        detail=f"From [{ax:.2f}, {ay:.2f}] to [{bx:.2f}, {by:.2f}] m: {why}",
        source=joint.source,
        subject=subject,
        point=joint.middle,
    )
