"""How good the pipe of a draft will be, by what its corners tell, before it is bent."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely

from ...elementwise import Array
from ..judging.craft import craft_of, wall_directions
from ..judging.pipe_neighbours import neighbours
from ..judging.route_measures import SERVED, mixing
from ..model.field import Draft, Field
from ..outlines.denser_area import DenserArea, Spacings
from ..outlines.heated_floor import heated_parts, ideal_length
from ..outlines.overlays import difference
from ..pipes.pipe_path import Line
from ..pipes.pipe_table import PipeTable
from ..pipes.turns import Turns
from .route_quality import Quality

__all__ = ["DraftRanking"]

_WIGGLE = 0.02
"""Corners that stray less from the straight are none, in spacings."""
_NEAR, _WIDER = 0.4995, 1.000001
"""Bands of half a spacing that do not touch, and of three quarters that overlap: see the judge's measures."""
_CLOSEST = 0.9
_U_TURN = 1.5
"""Longest leg between two right angles the same way that make a U-turn, in spacings."""
_RIGHT = 1.3
"""Least turn of them [rad]."""
_QUARTER_SEGMENTS = 3


@dataclass(frozen=True)
class DraftRanking:
    """Looks at drafts of one field. What it expects was fitted to 958 drafts of 150 random rooms, bent and judged:
    it is right to 0.014 for the mixed share, 0.004 for the spread of temperature, 0.006 for coverage."""

    field: Field
    denser: tuple[DenserArea, ...] = ()

    def expected(self, draft: Draft) -> Quality:
        """What the draft will be like as a pipe."""
        field = self.field
        corners = shapely.get_coordinates(
            shapely.simplify(shapely.linestrings(_distinct(draft.corners)), _WIGGLE * field.pipe_spacing)
        )
        turns = Turns.of_corners(corners, field.bend_radius)
        lines = [Line(a, b) for a, b in zip(corners[:-1].tolist(), corners[1:].tolist(), strict=True)]
        table = PipeTable.of(lines, (0.0, 0.0))
        beside = neighbours(table, self._spacings, self._fan)
        mixed_share, spread = mixing(beside, table.total)
        rounding = _cut_off(turns, field.bend_radius)
        near, served = self._coverage(corners)
        tips = _turning_back(corners, turns, _U_TURN * field.pipe_spacing)
        least = min(_CLOSEST, float((beside.distance / beside.spacing).min()))
        bulge = float(np.max(field.bend_radius - tips / 2.0, initial=0.0)) / field.pipe_spacing
        return Quality(
            coverage_half=near - 0.002 - 0.58 * rounding / table.total,
            coverage_three_quarters=served - 0.001,
            length_ratio=(table.total - rounding) / self._ideal_length,
            mixed_share=mixed_share or 0.0,
            temperature_spread=spread or 0.0,
            least_distance=min(0.5 + 0.35 * least, 1.0 - bulge),
            u_turns=len(tips),
            craft=craft_of(turns, self._walls, field.bend_radius, field.room.area),
            unreached=draft.unreached,
        )

    @cached_property
    def _spacings(self) -> Spacings:
        return Spacings(self.field.pipe_spacing, self.denser)

    @cached_property
    def _fan(self) -> float:
        field = self.field
        return field.wall_clearance + field.pipe_spacing + 2.0 * field.bend_radius

    @cached_property
    def _walls(self) -> Array:
        return wall_directions(self.field.room)

    @cached_property
    def _heated(self) -> list[tuple[shapely.Geometry, float]]:
        field = self.field
        return heated_parts(field.room, self._spacings, field.wall_clearance, field.walls)

    @cached_property
    def _ideal_length(self) -> float:
        field = self.field
        return ideal_length(field.room, self._spacings, field.wall_clearance, field.walls)

    def _coverage(self, corners: Array) -> tuple[float, float]:
        """Shares of the heated floor within a half and three quarters of a spacing."""
        line = shapely.linestrings(corners)
        total = sum(part.area for part, _ in self._heated)
        shares = []
        for reach in (_NEAR, SERVED * _WIDER):
            bare = sum(
                difference(part, shapely.buffer(line, reach * spacing, quad_segs=_QUARTER_SEGMENTS)).area
                for part, spacing in self._heated
            )
            shares.append(1.0 - bare / total)
        return shares[0], shares[1]


def _distinct(corners: Array) -> Array:
    """Without points that repeat the one before."""
    steps = np.hypot(*np.diff(corners, axis=0).T)
    return corners[np.concatenate(([True], steps > 1e-6))]


def _cut_off(turns: Turns, bend_radius: float) -> float:
    """How much shorter rounding makes the pipe [m]."""
    size = np.minimum(np.abs(turns.angle), 2.5)
    return float(bend_radius * (2.0 * np.tan(size / 2.0) - size).sum())


def _turning_back(corners: Array, turns: Turns, longest: float) -> Array:
    """Lengths of the legs between two right angles the same way [m]: a turn there bulges if it is less than two
    bend radii wide."""
    legs = np.hypot(*np.diff(corners, axis=0).T)[1:-1]
    one, other = turns.angle[:-1], turns.angle[1:]
    back = (one * other > 0.0) & (np.minimum(np.abs(one), np.abs(other)) > _RIGHT) & (legs < longest)
    found: Array = legs[back]
    return found
