"""Bare floor of halls that is too narrow for a loop: a pipe that runs straight along it is led aside through it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from functools import cached_property

import shapely
from shapely import LineString, Polygon

from ...plan.judging.route_measures import SERVED
from ...plan.outlines.overlays import difference, intersection, union
from ...plan.outlines.regions import parts_of
from ...plan.pipes.pipe_path import Line
from ..judging.room_bare import bare_floor, line_of
from ..model.layout_records import StoreyCircuit, StoreyLayout, StoreyTask
from .cut_off_floor import fits_beside, rooms_to_fill, size_of
from .led_aside import NEAR, Aside, AsideRules, asides, near

__all__ = ["with_asides"]

_LEAST_AREA = 0.06
"""Less bare floor is not worth four bends [m2] (common practice, no source)."""
_PARTS, _TRIED = 48, 3
"""Pieces of bare floor that pipe is led through in one room, and ways that are tried for each."""
_AROUND = 3.0
"""Floor so near to a bare piece, in spacings, may be bare after pipe is led through that piece."""


def with_asides(task: StoreyTask, layout: StoreyLayout) -> StoreyLayout:
    """The layout with pipe led through bare floor of rooms that tails of others cross."""
    circuits = {circuit.id: circuit for circuit in layout.circuits}
    lines = {name: line_of(circuit) for name, circuit in circuits.items()}
    for index in rooms_to_fill(task, layout.tails.lanes):
        _Hall(task, index, circuits, lines).fill()
    return replace(layout, circuits=tuple(circuits.values()))


@dataclass
class _Hall:
    """A room with the circuits of the storey, their lines, and straight pieces that were ``led`` aside."""

    task: StoreyTask
    index: int
    circuits: dict[str, StoreyCircuit]
    lines: dict[str, LineString]
    led: set[Line] = field(default_factory=set)

    @property
    def room(self) -> Polygon:
        return self.task.plan.rooms[self.index]

    @cached_property
    def inside(self) -> shapely.Geometry:
        """Where the middle of a pipe may lie."""
        return shapely.buffer(self.room, -self.task.wall_clearance, join_style="mitre")

    @property
    def spacing(self) -> float:
        return self.task.rooms[self.index].pipe_spacing

    def fill(self) -> None:
        """Lead pipe through what is bare, the largest piece first."""
        bare = bare_floor(self.room, self.lines.values(), self.spacing)
        tried: set[tuple[float, tuple[float, ...]]] = set()
        for _ in range(_PARTS):
            parts = [one for one in parts_of(bare) if one.area >= _LEAST_AREA and size_of(one) not in tried]
            if not parts:
                return
            part = max(parts, key=size_of)
            tried.add(size_of(part))
            if self._filled(part):
                around = intersection(self.room, shapely.buffer(part, _AROUND * self.spacing))
                beside = bare_floor(around, self.lines.values(), self.spacing)
                bare = union((difference(bare, around), beside))

    def _filled(self, part: Polygon) -> bool:
        """Whether a circuit is led through a piece of bare floor: the one that leaves the least bare, of those that
        fit."""
        found = [(-way.gain, name, way) for name, way in self._ways(part)]
        for _, name, way in sorted(found, key=lambda each: each[:2])[:_TRIED]:
            circuit = self.circuits[name]
            own = way.path.length - circuit.path.length if circuit.room == self.index else 0.0
            tried = replace(circuit, path=way.path, field_length=circuit.field_length + own)
            if fits_beside(self.task, tried, self.lines):
                self.circuits[name], self.lines[name] = tried, line_of(tried)
                self.led.update(way.led)
                return True
        return False

    def _ways(self, part: Polygon) -> Iterable[tuple[str, Aside]]:
        rules = AsideRules(self.task.bend_radius, SERVED * self.spacing, self.task.tail_pitch, _LEAST_AREA)
        around = near(part, rules)
        floors = intersection(self.room, around), self.inside
        lines = {
            name: intersection(line, around)
            for name, line in self.lines.items()
            if shapely.dwithin(line, part, _AROUND * self.spacing)
        }
        for name, line in lines.items():
            if shapely.dwithin(line, part, NEAR * rules.reach):
                others = shapely.multilinestrings(
                    shapely.get_parts([one for other, one in lines.items() if other != name])
                )
                path = self.circuits[name].path
                for way in asides(path, part, (line, others), floors, rules=rules, led=self.led):
                    yield name, way
