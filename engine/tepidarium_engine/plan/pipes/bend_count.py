"""The bends of a laid pipe, by kind."""

from __future__ import annotations

import math
from dataclasses import dataclass

from .pipe_path import Line, PipePath

__all__ = ["BendCount", "bend_count"]

_ANGLE_TOLERANCE = math.radians(15.0)
_RIGHT_ANGLE = math.pi / 2.0
_U_TURN_PITCH = 1.5
"""Two right angles the same way are a U-turn when the pipes are at most so many spacings apart."""
_TOUCHING = 1e-3
"""Arcs with no more than this between them are one bend [m]."""


@dataclass(frozen=True, slots=True)
class BendCount:
    """Bends by kind: right angles, U-turns (two right angles within 1.5 spacings or one bend), all others."""

    right_angle: int
    u_turn: int
    other: int


def bend_count(path: PipePath, pipe_spacing: float) -> BendCount:
    """Bends by kind. Arcs of one hand that touch are one bend; 15 degrees are allowed to either side.

    The bulb of an omega, which follows on a bend to the other hand and turns by more than half a circle, is a
    U-turn and its two shoulders are other bends.
    """
    right_angle = u_turn = other = 0
    corner: _Turn | None = None  # a right angle that may be the first half of a U-turn
    for turn in _turns(path):
        quarters = turn.quarters
        if quarters == 0:
            bulb = abs(turn.angle) > 2.0 * _RIGHT_ANGLE
            u_turn, other = u_turn + bulb, other + (not bulb)
        u_turn += quarters // 2
        if quarters % 2 == 0:
            corner = None
        elif corner is not None and corner.pitch_to(turn) <= _U_TURN_PITCH * pipe_spacing:
            right_angle, u_turn, corner = right_angle - 1, u_turn + 1, None
        else:
            right_angle, corner = right_angle + 1, turn
    return BendCount(right_angle, u_turn, other)


@dataclass(frozen=True, slots=True)
class _Turn:
    """A bend by ``angle`` [rad] between two positions along the pipe [m].

    ``reverse`` when it starts where a bend to the other hand ends.
    """

    angle: float
    start: float
    end: float
    reverse: bool

    @property
    def quarters(self) -> int:
        """Number of right angles, 0 when it is not a whole number of them."""
        if self.reverse and abs(self.angle) > 2.0 * _RIGHT_ANGLE + _ANGLE_TOLERANCE:
            return 0
        count = round(abs(self.angle) / _RIGHT_ANGLE)
        return count if abs(abs(self.angle) - count * _RIGHT_ANGLE) <= _ANGLE_TOLERANCE else 0

    def pitch_to(self, after: _Turn) -> float:
        """Distance between the pipes before and after two right angles; infinite if they oppose [m]."""
        if self.angle * after.angle < 0.0:
            return math.inf
        radii = sum((turn.end - turn.start) / abs(turn.angle) for turn in (self, after))
        return radii + after.start - self.end


def _turns(path: PipePath) -> list[_Turn]:
    turns: list[_Turn] = []
    touching = False
    for piece, start, end in zip(path.pieces, path.offsets[:-1], path.offsets[1:], strict=True):
        if isinstance(piece, Line):
            touching = touching and piece.length <= _TOUCHING
            continue
        if touching and turns[-1].angle * piece.sweep > 0.0:
            before = turns.pop()
            turns.append(_Turn(before.angle + piece.sweep, before.start, float(end), before.reverse))
        else:
            turns.append(_Turn(piece.sweep, float(start), float(end), reverse=touching))
        touching = True
    return turns
