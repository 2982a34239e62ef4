"""Gates: openings that lanes pass, and the places at which their pipes do so."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from ...checking import Point
from ...plan.outlines.loops import loop_of
from ..tail_records import ManifoldPlace, StoreyPlan, TailRules
from ..walkways import Passage
from .cell_lanes import Stub

__all__ = ["Gate", "gate_of", "ports_of"]

_STRAIGHT_ON = 0.9999
"""Cosine of the angle between directions that are one."""


class Gate(NamedTuple):
    """Pairs of pipes side by side, from the right as they go on: the middle of all of them where they leave a cell
    (``near``) and where they enter the next one (``far``), their direction and the ``pitch`` of their pipes [m]."""

    near: Point
    far: Point
    ahead: Point
    pitch: float
    circuits: tuple[str, ...]

    def stub(self, circuit: str, entered: bool) -> Stub:
        """Where the pair of a circuit passes, in the cell that is entered or in the one that is left."""
        middle = self.far if entered else self.near
        right = (self.ahead[1], -self.ahead[0])
        first = 2 * self.circuits.index(circuit)
        shifts = [self.pitch * (len(self.circuits) - 0.5 - number) for number in (first, first + 1)]
        places = [(middle[0] + shift * right[0], middle[1] + shift * right[1]) for shift in shifts]
        return Stub(places[0], places[1], self.ahead)


def gate_of(
    passage: Passage,
    circuits: Sequence[str],
    entry: Gate,
    rules: TailRules,
    *,
    pitch: float,
    held: float = 0.0,
    part: tuple[int, int] = (0, 0),
) -> Gate:
    """The gate of pairs through a passage.

    In an opening that begins at a wall they keep to that, less what is ``held`` there for others [m]; where they come straight on from the ``entry`` of the cell,
    they go on so as far as it is wide. ``part``: pairs of other manifolds that pass to the left of them, and all pairs.
    """
    count = 2 * len(circuits)
    others = 2 * (part[1] - len(circuits)) if part[1] else 0
    spare = max(0.0, (passage.width - (count + others - 1) * pitch) / 2.0 - rules.wall_clearance)
    if others:
        shift = pitch * (others / 2.0 - 2.0 * (part[1] - len(circuits) - part[0]))
    elif passage.anchor is not None:
        half = passage.width / 2.0 - rules.off_wall - (count - 1) * pitch / 2.0
        half = max(min(half, -spare), half - held)
        shift = half if passage.anchor == "right" else -half
    else:
        shift = _shift(_aside(passage, circuits, entry), spare, 2.0 * rules.off_wall)
    right = (passage.ahead[1], -passage.ahead[0])
    near, far = (
        (place[0] + shift * right[0], place[1] + shift * right[1]) for place in (passage.near, passage.far)
    )
    return Gate(near, far, passage.ahead, pitch, tuple(circuits))


def _shift(aside: float, spare: float, bends: float) -> float:
    """How far to the right of its middle pairs pass an opening [m], with so much to ``spare`` to either side: where they
    come straight on, else so far from there that two bends have room."""
    if abs(aside) <= spare:
        return aside
    if abs(aside) < bends and bends - abs(aside) <= spare:
        return math.copysign(abs(aside) - bends, aside)
    return 0.0


def _aside(passage: Passage, circuits: Sequence[str], entry: Gate) -> float:
    """How far to the right of the middle of a passage pairs arrive that come straight on from the entry [m]."""
    (u, v), (x, y) = passage.ahead, passage.near
    if u * entry.ahead[0] + v * entry.ahead[1] < _STRAIGHT_ON:
        return 0.0
    places = [place for one in circuits for place in entry.stub(one, True)[:2]]
    return sum((px - x) * v - (py - y) * u for px, py in places) / len(places)


def ports_of(
    plan: StoreyPlan, manifold: ManifoldPlace, circuits: Sequence[str], rules: TailRules
) -> tuple[Gate, float]:
    """The ports of a manifold: pairs that stand on one stretch of wall, clear of doorways; and the length [m] of that
    stretch."""
    outline = loop_of(plan.rooms[manifold.room])
    at = outline.project(manifold.place)
    here = np.array([at])
    back, forward = (float(outline.straight_run(here, side)[0]) for side in (-1, 1))
    for doorway in plan.doorways:
        for owner, stretch in zip(doorway.rooms, doorway.stretches, strict=True):
            for end in stretch if owner == manifold.room and doorway.anchor is None else ():
                away = (outline.project(end) - at) % outline.length
                forward, back = min(forward, away), min(back, outline.length - away)
    half = rules.width_for(len(circuits)) / 2.0
    shift = (
        min(max(0.0, half - back), forward - half) if back + forward >= 2.0 * half else (forward - back) / 2.0
    )
    middle = outline.at(at + shift)
    return Gate(middle, middle, manifold.ahead, rules.tail_pitch, tuple(circuits)), back + forward
