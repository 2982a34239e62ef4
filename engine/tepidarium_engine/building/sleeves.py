"""Where drawn pipes pass movement joints, found from the drawing alone: sleeves, and what may not be."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from ..checking import Point
from .drawn_storey import DrawnStorey
from .house_joints import HouseJoint

__all__ = ["Crossing", "crossings"]


class Crossing(NamedTuple):
    """A circuit's pipe on a joint; ``ahead`` is the unit vector of its flow. ``aslant`` [rad] is off the square to the
    joint; ``tail``: it is on its way to its field there."""

    circuit: str
    joint: HouseJoint
    place: Point
    ahead: Point
    aslant: float
    tail: bool


def crossings(storey: DrawnStorey, joints: Sequence[HouseJoint]) -> Iterator[Crossing]:
    """Of the joints in rooms of the storey, in order of joint and circuit."""
    frame = storey.frame
    for joint in joints:
        if joint.room.index in storey.indices:
            for one in storey.drawing.crossed(tuple(map(frame.own_place, joint.points))):
                name, place = frame.name(one.circuit), frame.place(one.place)
                yield Crossing(name, joint, place, one.ahead, one.aslant, one.tail)
