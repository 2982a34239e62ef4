"""Movement joints that were not given where the rules ask for them, as findings."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from ..plan.asking.route_records import RoutesInputs
from ..plan.outlines.polygons import RoomOutline
from ..results import Finding
from .joint_rules import JointReason, ProposedJoint, proposed_joints
from .records import Segment

__all__ = ["joint_finding", "joint_findings"]

_WORDS: dict[JointReason, str] = {
    "field_area": "The field of screed has {value:.1f} m2, more than {limit:g} m2",
    "field_side": "The field of screed is {value:.2f} m long, more than {limit:g} m",
    "field_ratio": "The field of screed is {value:.2f} times as long as wide, more than {limit:g}",
    "re_entrant_corner": "Cracks start from corners that reach into the floor",
    "doorway": "Screed is parted in doorways",
}


def joint_findings(inputs: RoutesInputs, room: RoomOutline) -> Iterator[Finding]:
    """One finding for each joint proposed."""
    doorways = [] if inputs.doorway is None else [(inputs.doorway[0], inputs.doorway[1])]
    given: list[Segment] = [line for joint in inputs.movement_joints for line in pairwise(joint)]
    for joint in proposed_joints(room, inputs.binder, joints=given, doorways=doorways):
        yield joint_finding(joint)


def joint_finding(joint: ProposedJoint) -> Finding:
    """A joint that is due, pointing to ``movement_joints``."""
    (ax, ay), (bx, by) = joint.line
    why = _WORDS[joint.reason].format(value=joint.value, limit=joint.limit)
    return Finding(
        "movement_joint_proposed",
        "warning" if joint.value is not None else "note",
        "/movement_joints",
        f"{why}: a movement joint from [{ax:.2f}, {ay:.2f}] to [{bx:.2f}, {by:.2f}] is due for a screed of this "
        "binder. Agree on joints with who plans the floor and its covering, and give them in movement_joints.",
        joint.value,
        joint.limit,
        joint.source,
        joint.middle,
    )
