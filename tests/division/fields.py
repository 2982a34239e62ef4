"""Invented rooms that need several circuits: outlines [m], entry, voids, joints and what is asked for."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from tepidarium_engine.plan.laying.laying import Pattern
from tepidarium_engine.plan.outlines.polygons import room_outline
from tepidarium_engine.storey.division.division import DividedRoom, DivisionRequest, divided

__all__ = ["FIELDS", "SERPENTINES", "FieldCase"]

Place = tuple[float, float]


@dataclass(frozen=True)
class FieldCase:
    name: str
    outline: Sequence[Place]
    entry: Place
    voids: Sequence[Sequence[Place]] = ()
    joints: tuple[tuple[Place, Place], ...] = ()
    pipe_spacing: float = 0.15
    bend_radius: float = 0.06
    tail_pitch: float = 0.05
    longest: float = 100.0
    outer: tuple[float, ...] | float = 4.0
    count: int | None = None
    quick: bool = False
    pattern: Pattern = "counterflow"

    @property
    def request(self) -> DivisionRequest:
        return DivisionRequest(
            pipe_spacing=self.pipe_spacing,
            wall_clearance=0.075,
            bend_radius=self.bend_radius,
            tail_pitch=self.tail_pitch,
            entry=self.entry,
            maximum_circuit_length=self.longest,
            outer_tail_lengths=self.outer,
            count=self.count,
            joints=self.joints,
            quick=self.quick,
            pattern=self.pattern,
        )

    def divided(self) -> DividedRoom:
        return divided(room_outline(self.outline, self.voids), self.request)


def box(x0: float, y0: float, x1: float, y1: float) -> list[Place]:
    return [(x0, y0), (x1, y0), (x1, y1), (x0, y1)]


def _turned(points: Sequence[Place], degrees: float) -> list[Place]:
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return [(c * x - s * y, s * x + c * y) for x, y in points]


_L = [(0.0, 0.0), (9.0, 0.0), (9.0, 4.0), (4.0, 4.0), (4.0, 8.0), (0.0, 8.0)]
_T = [(0.0, 4.0), (3.0, 4.0), (3.0, 0.0), (7.0, 0.0), (7.0, 4.0), (10.0, 4.0), (10.0, 8.0), (0.0, 8.0)]
_U = [(0.0, 0.0), (10.0, 0.0), (10.0, 7.0), (7.0, 7.0), (7.0, 3.0), (3.0, 3.0), (3.0, 7.0), (0.0, 7.0)]
_SLANTED = [(0.0, 0.0), (9.0, 0.0), (7.5, 5.0), (0.0, 5.5)]
_BAY = [(0.0, 0.0), (8.0, 0.0), (8.0, 2.0), (9.0, 3.0), (9.0, 4.0), (8.0, 5.0), (8.0, 6.0), (0.0, 6.0)]

FIELDS: tuple[FieldCase, ...] = (
    FieldCase("living room, two circuits", box(0, 0, 6, 4.5), (1.0, 0.0), longest=110.0),
    FieldCase("living room, entry in the middle", box(0, 0, 6, 4.5), (3.0, 0.0), longest=110.0),
    FieldCase("living room, entry at the side", box(0, 0, 6, 4.5), (0.0, 2.0), longest=110.0),
    FieldCase("room of three circuits", box(0, 0, 7, 5), (0.8, 0.0), longest=90.0),
    FieldCase("long room", box(0, 0, 11, 3.2), (0.7, 0.0)),
    FieldCase("long room, entry at the end", box(0, 0, 11, 3.2), (0.0, 1.6)),
    FieldCase("long room, entry in the middle", box(0, 0, 11, 3.2), (5.0, 0.0)),
    FieldCase("large room, entry in the middle", box(0, 0, 8, 5), (4.0, 0.0)),
    FieldCase("large room, entry near the corner", box(0, 0, 8, 5), (0.6, 0.0)),
    FieldCase("square room", box(0, 0, 6, 6), (2.0, 0.0)),
    FieldCase(
        "hall, 200 mm", box(0, 0, 12, 8), (3.0, 0.0), pipe_spacing=0.2, bend_radius=0.08, longest=110.0
    ),
    FieldCase(
        "hall, 300 mm", box(0, 0, 16, 10), (4.0, 0.0), pipe_spacing=0.3, bend_radius=0.1, longest=120.0
    ),
    FieldCase("room, 100 mm", box(0, 0, 6, 4), (0.7, 0.0), pipe_spacing=0.1, bend_radius=0.05, longest=90.0),
    FieldCase("L, entry at the long leg", _L, (0.0, 1.0)),
    FieldCase("L, entry at the corner", _L, (6.0, 4.0)),
    FieldCase("L, entry at the end", _L, (9.0, 2.0)),
    FieldCase("L turned by 20 degrees", _turned(_L, 20.0), _turned([(0.0, 1.0)], 20.0)[0]),
    FieldCase("T, entry at the foot", _T, (5.0, 0.0)),
    FieldCase("T, entry at the top", _T, (2.0, 8.0)),
    FieldCase("T, entry at an arm", _T, (0.0, 6.0)),
    FieldCase("U, entry at the base", _U, (4.0, 0.0)),
    FieldCase("U, entry at a leg", _U, (0.0, 5.0)),
    FieldCase("slanted room", _SLANTED, (1.0, 0.0)),
    FieldCase("bay", _BAY, (2.0, 0.0)),
    FieldCase("room with island", box(0, 0, 8, 6), (1.5, 0.0), voids=[box(3.2, 2.5, 4.8, 3.5)]),
    FieldCase("room with stair", box(0, 0, 9, 6), (1.2, 0.0), voids=[box(5.0, 2.5, 7.0, 3.6)]),
    FieldCase(
        "room with two columns", box(0, 0, 9, 5), (1.2, 0.0), voids=[box(3, 2, 3.4, 2.4), box(6, 2, 6.4, 2.4)]
    ),
    FieldCase("L with island", _L, (0.0, 1.0), voids=[box(1.6, 5, 2.4, 6.2)]),
    FieldCase("hall with one joint", box(0, 0, 12, 6), (2.5, 0.0), joints=(((6.0, 0.0), (6.0, 6.0)),)),
    FieldCase(
        "hall with two joints",
        box(0, 0, 18, 7),
        (7.5, 0.0),
        joints=(((6.0, 0.0), (6.0, 7.0)), ((12.0, 0.0), (12.0, 7.0))),
        pipe_spacing=0.2,
        bend_radius=0.08,
        longest=120.0,
    ),
    FieldCase(
        "hall with crossing joints",
        box(0, 0, 14, 10),
        (3.0, 0.0),
        joints=(((7.0, 0.0), (7.0, 10.0)), ((0.0, 5.0), (14.0, 5.0))),
        pipe_spacing=0.2,
        bend_radius=0.08,
        longest=120.0,
    ),
    FieldCase("L with a joint at the corner", _L, (0.0, 1.0), joints=(((4.0, 4.0), (4.0, 0.0)),)),
    FieldCase("unlike outer tails", box(0, 0, 8, 5), (1.5, 0.0), outer=(3.0, 6.0, 9.0, 12.0), count=4),
    FieldCase("six asked for", box(0, 0, 9, 6), (2.0, 0.0), count=6),
    FieldCase("eight asked for", box(0, 0, 12, 8), (3.0, 0.0), pipe_spacing=0.2, bend_radius=0.08, count=8),
    FieldCase(
        "twelve asked for", box(0, 0, 16, 10), (5.0, 0.0), pipe_spacing=0.2, bend_radius=0.08, count=12
    ),
)

SERPENTINES: tuple[FieldCase, ...] = tuple(
    replace(case, name=f"{case.name}, serpentine", pattern="serpentine") for case in FIELDS
)
"""The same rooms in the other pattern."""
