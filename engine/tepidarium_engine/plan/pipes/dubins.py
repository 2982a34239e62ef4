"""Shortest paths of bounded curvature between two poses.

Dubins (American Journal of Mathematics 79, 1957, 497-516): the shortest is an arc, a straight and an arc, or
three arcs, all of the least radius, and some of them may vanish. With L and R for a turn to the left and to
the right and S for straight that makes six words: LSL, RSR, LSR, RSL, LRL, RLR.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import NamedTuple

from ...checking import Point
from .pipe_path import LEAST_PIECE_LENGTH, Arc, Line

__all__ = ["TOUCH_TOLERANCE", "WORDS", "Pieces", "Pose", "curve_of", "curves_within"]

_LENGTH_TIE = 1e-7
"""Rounding of a distance that is compared with a length [m]."""
TOUCH_TOLERANCE = 1e-9
"""Circles this near to touching do touch; relative to the radius."""
_RIGHT_ANGLE = math.pi / 2.0

Pieces = tuple[Line | Arc, ...]


class Pose(NamedTuple):
    """A point [m] and a direction of travel [rad], counter-clockwise from the x axis."""

    place: Point
    heading: float


def curves_within(start: Pose, end: Pose, bend_radius: float, longest: float) -> list[Pieces]:
    """The pieces of one curve for each word that joins the poses in at most ``longest`` [m], in the order of the words.

    Parts of no length are left out. LRL and RLR come with a middle arc of more than half a turn only: the other
    one is never the shortest. Numbers are sound, and not checked here.
    """
    found: list[Pieces] = []
    if math.dist(start.place, end.place) > longest + _LENGTH_TIE:
        return found
    for word in WORDS:
        pieces = curve_of(word, start, end, bend_radius)
        if pieces and sum(piece.length for piece in pieces) <= longest:
            found.append(pieces)
    return found


def curve_of(word: str, start: Pose, end: Pose, bend_radius: float) -> Pieces:
    """The pieces of the curve of one word; none where the poses have no such curve."""
    side, make = _WORDS[word]
    return tuple(piece for piece in make(start, end, bend_radius, side) if piece.length >= LEAST_PIECE_LENGTH)


# Below, ``side`` is 1 for the word as the function is named and -1 for its mirror image.


def _left_straight_left(start: Pose, end: Pose, radius: float, side: int) -> Pieces:
    first, last = _centre(start, radius, side), _centre(end, radius, side)
    length, heading = math.dist(first, last), _heading(first, last)
    if length < LEAST_PIECE_LENGTH:  # one circle: the direction between its centres is noise
        heading = start.heading
    return (
        _arc(first, radius, start.heading, side, side * (heading - start.heading)),
        Line(_on(first, radius, heading, side), _on(last, radius, heading, side)),
        _arc(last, radius, heading, side, side * (end.heading - heading)),
    )


def _left_straight_right(start: Pose, end: Pose, radius: float, side: int) -> Pieces:
    first, last = _centre(start, radius, side), _centre(end, radius, -side)
    apart = math.dist(first, last)
    if apart < 2.0 * radius * (1.0 - TOUCH_TOLERANCE):
        return ()
    straight = math.sqrt(max(0.0, (apart - 2.0 * radius) * (apart + 2.0 * radius)))
    heading = _heading(first, last) + side * math.atan2(2.0 * radius, straight)
    return (
        _arc(first, radius, start.heading, side, side * (heading - start.heading)),
        Line(_on(first, radius, heading, side), _on(last, radius, heading, -side)),
        _arc(last, radius, heading, -side, side * (heading - end.heading)),
    )


def _left_right_left(start: Pose, end: Pose, radius: float, side: int) -> Pieces:
    first, last = _centre(start, radius, side), _centre(end, radius, side)
    apart = math.dist(first, last)
    if apart > 4.0 * radius * (1.0 + TOUCH_TOLERANCE):
        return ()
    # The three centres make a triangle with two sides of two radii; this is its angle at the base.
    base = math.acos(min(1.0, apart / (4.0 * radius)))
    into = _heading(first, last) + side * (base + _RIGHT_ANGLE)
    turn = math.pi + 2.0 * base
    out = into - side * turn
    middle = _on(first, 2.0 * radius, into, side)
    return (
        _arc(first, radius, start.heading, side, side * (into - start.heading)),
        Arc(middle, radius, into + side * _RIGHT_ANGLE, -side * turn),
        _arc(last, radius, out, side, side * (end.heading - out)),
    )


_WORDS: dict[str, tuple[int, Callable[[Pose, Pose, float, int], Pieces]]] = {
    "LSL": (1, _left_straight_left),
    "RSR": (-1, _left_straight_left),
    "LSR": (1, _left_straight_right),
    "RSL": (-1, _left_straight_right),
    "LRL": (1, _left_right_left),
    "RLR": (-1, _left_right_left),
}
WORDS = tuple(_WORDS)


def _centre(pose: Pose, radius: float, side: int) -> Point:
    """Centre of the circle that turns to ``side`` out of the pose."""
    (x, y), heading = pose
    return (x - side * radius * math.sin(heading), y + side * radius * math.cos(heading))


def _on(centre: Point, radius: float, heading: float, side: int) -> Point:
    """The point of the circle at which travel turning to ``side`` has the heading."""
    return (
        centre[0] + side * radius * math.sin(heading),
        centre[1] - side * radius * math.cos(heading),
    )


def _heading(start: Point, end: Point) -> float:
    return math.atan2(end[1] - start[1], end[0] - start[0])


def _arc(centre: Point, radius: float, heading: float, side: int, turn: float) -> Arc:
    """Arc that starts with the heading and turns to ``side`` by ``turn`` [rad], less whole turns.

    A turn backwards that is shorter than a piece can be is rounding, not most of a circle.
    """
    forward = turn % (2.0 * math.pi)
    if radius * (2.0 * math.pi - forward) < LEAST_PIECE_LENGTH:
        forward = 0.0
    return Arc(centre, radius, heading - side * _RIGHT_ANGLE, side * forward)
