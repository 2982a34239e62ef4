"""A block: floor that some circuits lay together, entered by all of their pairs side by side."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from shapely import Polygon

from ...checking import Point
from ...plan.judging.route_measures import RouteMeasures
from ...plan.laying.laying import LayingTask, Pattern, Refusal
from ...plan.pipes.pipe_path import PipePath
from ..records import Segment
from ..tail_records import TailRules
from .cell_fields import FieldJob

__all__ = ["BlockCircuit", "BlockTask", "LaidBlock"]


@dataclass(frozen=True, slots=True)
class BlockTask:
    """``floor``, of whose edge pipe keeps the ``clearance``; ``entry``: the middle of all pairs on it, which come in
    ``ahead`` at a ``pitch``. ``outside`` [m]: pipe of each pair before the entry, from the right; no circuit is to be
    longer than ``longest`` [m] with it. ``least``: how near pipes of lanes may come [m]. ``missing`` circuits have no
    way to the floor: what they would lay stays bare."""

    floor: Polygon
    entry: Point
    ahead: Point
    pitch: float
    outside: tuple[float, ...]
    longest: float
    spacing: float
    clearance: float
    bend_radius: float
    least: float
    pattern: Pattern
    quick: bool
    joints: tuple[Segment, ...] = ()
    missing: int = 0

    @property
    def count(self) -> int:
        return len(self.outside)

    @property
    def rules(self) -> TailRules:
        return TailRules(self.least, self.clearance, self.bend_radius)

    def field_job(self, floor: Polygon, entry: Point, pitch: float) -> FieldJob:
        task = LayingTask(
            pipe_spacing=self.spacing,
            wall_clearance=self.clearance,
            bend_radius=self.bend_radius,
            tail_pitch=pitch,
            entry=entry,
            pattern=self.pattern,
            quick=self.quick,
        )
        return FieldJob(floor, task)


@dataclass(frozen=True)
class BlockCircuit:
    """The pipe of pair number ``pair``, from the right, from the entry and back; ``field_length`` [m] of it lie on its
    own ``floor``."""

    pair: int
    path: PipePath
    field_length: float
    floor: Polygon
    measures: RouteMeasures


@dataclass(frozen=True)
class LaidBlock:
    """The circuits that could be laid, and why others could not, by pair; ``spread`` of their lengths with what lies
    outside, the greatest between joints; ``rounds`` of laying."""

    circuits: tuple[BlockCircuit, ...]
    refused: Mapping[int, Refusal]
    spread: float
    rounds: int

    def badness(self, task: BlockTask) -> tuple[int, bool, float]:
        longest = max((c.path.length + task.outside[c.pair] for c in self.circuits), default=0.0)
        return len(self.refused), longest > task.longest, round(self.spread, 4)
