"""How long the fields of screed are that each movement joint of a house parts."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely
from shapely import LineString, Polygon

from ..checking import Point
from ..site_work.commissioning_records import JointSpan
from ..storey.division.fields import joint_fields
from .whole_design import WholeDesign

__all__ = ["joint_spans"]

_BESIDE = 0.4
"""Screed within this distance of a joint is parted by it [m]: half of a thick wall and a bit."""


@dataclass(frozen=True, slots=True)
class _Field:
    storey: int
    floor: Polygon


def joint_spans(design: WholeDesign) -> tuple[JointSpan, ...]:
    """Each joint that is laid out with the lengths of the fields that it parts, square to it."""
    house = design.sited.house
    fields = [
        _Field(house.storey_of[room.index], floor)
        for room in house.rooms
        if room.outline is not None
        for floor in _fields(room.outline.placed, room.joints)
    ]
    found = []
    for joint in design.joints:
        if joint.state != "due" and joint.number is not None:
            storey = house.storey_of[joint.room.index]
            lengths = _lengths(joint.points, [field.floor for field in fields if field.storey == storey])
            found.append(JointSpan(f"{joint.room.room.id}-{joint.number + 1}", lengths, joint.subject))
    return tuple(found)


def _fields(floor: Polygon, joints: Sequence[Sequence[Point]]) -> list[Polygon]:
    segments = [piece for joint in joints for piece in pairwise(joint)]
    return joint_fields(floor, segments)


def _lengths(joint: Sequence[Point], fields: Sequence[Polygon]) -> tuple[float, float]:
    """On its left and on its right, square to the line from its first to its last point."""
    (ax, ay), (bx, by) = joint[0], joint[-1]
    length = math.dist((ax, ay), (bx, by))
    if length == 0.0:
        return (0.0, 0.0)
    across = np.array((-(by - ay) / length, (bx - ax) / length))
    line, sides = LineString(joint), {True: 0.0, False: 0.0}
    for field in fields:
        if shapely.distance(field, line) <= _BESIDE:
            away = (shapely.get_coordinates(field) - np.array((ax, ay))) @ across
            x, y = shapely.get_coordinates(field.centroid)[0]
            left = bool((np.array((x - ax, y - ay)) @ across) > 0.0)
            sides[left] = max(sides[left], float(np.abs(away).max()))
    return (sides[True], sides[False])
