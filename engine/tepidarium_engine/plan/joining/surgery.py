"""Many loops become one: the operation on which every pattern rests.

A strip joins two loops that do not touch: its short sides, the openings, are taken out of the loops and its
two long sides are put in. If the strips form a tree over the loops and touch nothing else, what comes out is
one closed curve that cannot cross itself, and cutting it at the entry gives one pipe whose two ends lie side
by side (a connected sum along a band, as known from knot theory).
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import NamedTuple

import numpy as np

from ...elementwise import Array
from ..outlines.loops import Loop

__all__ = ["Opening", "Strip", "SurgeryError", "spliced"]


class SurgeryError(Exception):
    """Loops and strips that do not make one pipe. Never leaves the engine: the next way to lay is tried."""


class Opening(NamedTuple):
    """The stretch of loop number ``loop`` from ``start`` forward to ``end`` [m] that is taken out."""

    loop: int
    start: float
    end: float


class Strip(NamedTuple):
    """Two openings and how their ends are joined.

    ``nested``: one loop lies inside the other, and the openings run the same way along the strip: start is
    joined to start and end to end. Otherwise the loops lie beside each other: start is joined to end.
    """

    first: Opening
    second: Opening
    nested: bool


_Node = tuple[int, int]
"""Opening number and 0 for its start, 1 for its end."""


def spliced(
    loops: Sequence[Loop], strips: Sequence[Strip], entry: Opening, left_out: Collection[int] = ()
) -> Array:
    """The corners [m] of the one pipe, from the end of the entry's opening forward round to its start.

    Raises ``SurgeryError`` when openings of a loop overlap, or when not every loop and strip is part of the
    pipe, but for the loops that are ``left_out`` knowingly. That the strips meet nothing on their way is for
    the caller to see to.
    """
    openings = [entry, *(opening for strip in strips for opening in (strip.first, strip.second))]
    following = _following(loops, openings)
    across: dict[_Node, _Node] = {}
    for index, strip in enumerate(strips):
        one, other = 1 + 2 * index, 2 + 2 * index
        for end in (0, 1):
            across[(one, end)] = (other, end if strip.nested else 1 - end)
            across[(other, end if strip.nested else 1 - end)] = (one, end)
    pieces = []
    at: _Node = (0, 1)
    while True:
        opening, end = at
        target = following[at]
        forward = end == 1
        start, stop = _position(openings, at), _position(openings, target)
        loop = loops[openings[opening].loop]
        pieces.append(loop.stretch(start, stop) if forward else loop.stretch(stop, start)[::-1])
        if target == (0, 0):
            break
        if target not in across or len(pieces) > len(openings):
            raise SurgeryError("the pipe does not come back to the entry")
        at = across[target]
    if len(pieces) != len(openings) or {opening.loop for opening in openings} != set(range(len(loops))) - set(
        left_out
    ):
        raise SurgeryError("loops or strips are left out")
    return np.concatenate(pieces)


def _following(loops: Sequence[Loop], openings: Sequence[Opening]) -> dict[_Node, _Node]:
    """For each end of an opening, the end of an opening that the loop leads to."""
    following: dict[_Node, _Node] = {}
    for number, loop in enumerate(loops):
        mine = [index for index, opening in enumerate(openings) if opening.loop == number]
        mine.sort(key=lambda index: openings[index].start % loop.length)
        for here, ahead in zip(mine, mine[1:] + mine[:1], strict=True):
            begin = openings[here].start
            width = (openings[here].end - begin) % loop.length
            gap = (openings[ahead].start - begin) % loop.length if ahead != here else loop.length
            if width > gap + 1e-9:
                raise SurgeryError("openings overlap")
            following[(here, 1)] = (ahead, 0)
            following[(ahead, 0)] = (here, 1)
    return following


def _position(openings: Sequence[Opening], node: _Node) -> float:
    opening = openings[node[0]]
    return opening.end if node[1] else opening.start
