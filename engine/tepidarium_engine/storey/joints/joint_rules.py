"""When a field of screed is parted by movement joints: the rules of the trade and where a field breaks them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from types import MappingProxyType
from typing import Literal, NamedTuple

from shapely import Polygon

from ...practice.screed import Binder
from ..division.fields import joint_fields
from .joint_shapes import Corner, FittedRectangle, fitted_rectangle, is_field, re_entrant_corners

__all__ = [
    "DOORWAY_SOURCE",
    "FIELD_RULES",
    "LEAST_FIELD",
    "Broken",
    "FieldRule",
    "JointReason",
    "ScreedField",
]

JointReason = Literal["field_area", "field_side", "field_ratio", "re_entrant_corner", "doorway"]


@dataclass(frozen=True, slots=True)
class FieldRule:
    """Limits of a field of screed: ``area`` [m2], longest ``side`` [m], ``ratio`` of the sides; None where the
    rule has no such limit. ``corners``: whether joints start from re-entrant corners."""

    area: float | None
    side: float | None
    ratio: float | None
    corners: bool
    source: str


_CEMENT = FieldRule(
    40.0,
    8.0,
    2.0,
    True,
    "EN 1264-4, movement joints: 40 m2 and 8 m for heated cement screed; ratio 2:1 and re-entrant corners are "
    "common practice with DIN 18560-2",
)
_CALCIUM_SULPHATE = FieldRule(
    None,
    10.0,
    None,
    False,
    "Joint guidance of the calcium sulphate screed trade: 10 m edge length under rigid coverings, 20 m under resilient "
    "ones",
)
FIELD_RULES: Mapping[Binder, FieldRule] = MappingProxyType(
    {
        "cement": _CEMENT,
        "calcium_sulphate": _CALCIUM_SULPHATE,
        "calcium_sulphate_flowing": _CALCIUM_SULPHATE,
    }
)
DOORWAY_SOURCE = "EN 1264-4, movement joints: doorways; common practice with DIN 18560-2"

LEAST_FIELD = (4.0, 0.8)
"""Area [m2] and width [m] of a field that is worth a joint: niches, bays and small pieces of a hall stay with the rest
(common practice, no source)."""
_SHORT = 5.0
"""A field that is no longer than this [m] is not parted for the ratio of its sides (common practice, no source)."""
_LONGER = 1.5
"""Longest joint of a field, in widths of it (common practice, no source)."""
_SLACK = 1e-6


class Broken(NamedTuple):
    """A rule that a field breaks: ``value`` passes ``limit`` (area [m2], side [m], ratio [1]; both None for corners).
    ``parts`` are the equal ones in which it would keep the rule, ``weight`` how far it is from keeping it."""

    reason: JointReason
    value: float | None
    limit: float | None
    parts: int
    weight: float


@dataclass(frozen=True)
class ScreedField:
    """A field of screed in the room's own frame, under a rule."""

    floor: Polygon
    rule: FieldRule

    @cached_property
    def rectangle(self) -> FittedRectangle:
        return fitted_rectangle(self.floor)

    @property
    def longest_joint(self) -> float:
        """A joint that is longer [m] runs along the field, not across."""
        return _LONGER * min(self.rectangle.sides)

    @cached_property
    def corners(self) -> tuple[Corner, ...]:
        """Corners that part the floor: every joint from them leaves two pieces that are fields."""
        return tuple(corner for corner in re_entrant_corners(self.floor) if self._parts(corner))

    def _parts(self, corner: Corner) -> bool:
        cuts = [joint_fields(self.floor, [line]) for line in corner.lines]
        parting = [parts for parts in cuts if len(parts) > 1]
        return bool(parting) and all(is_field(part, *LEAST_FIELD) for parts in parting for part in parts)

    @cached_property
    def broken(self) -> tuple[Broken, ...]:
        """What the field breaks, the hardest rule first."""
        return tuple(self._broken())

    @property
    def weight(self) -> float:
        """How far the field is from keeping all rules: 0 when it does."""
        return math.fsum(each.weight for each in self.broken)

    def _broken(self) -> Iterator[Broken]:
        rule, long, ratio = self.rule, max(self.rectangle.sides), self.rectangle.ratio
        area = float(self.floor.area)
        if rule.side is not None and long > rule.side + _SLACK:
            yield Broken("field_side", long, rule.side, _parts(long, rule.side), long / rule.side - 1.0)
        if rule.area is not None and area > rule.area + _SLACK:
            yield Broken("field_area", area, rule.area, _parts(area, rule.area), area / rule.area - 1.0)
        if rule.corners and self.corners:
            yield Broken("re_entrant_corner", None, None, 1, float(len(self.corners)))
        if rule.ratio is not None and ratio > rule.ratio + _SLACK and long > _SHORT + _SLACK:
            parts = min(_parts(ratio, rule.ratio), _parts(long, _SHORT))
            yield Broken("field_ratio", ratio, rule.ratio, parts, 0.5 * (ratio / rule.ratio - 1.0))


def _parts(value: float, limit: float) -> int:
    return max(2, math.ceil(value / limit - _SLACK))
