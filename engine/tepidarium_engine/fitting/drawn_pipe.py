"""The lines and arcs of a request as one pipe."""

from __future__ import annotations

import math
from itertools import pairwise

from ..errors import FaultList, InputError
from ..plan.asking.given_path import path_of_pieces
from ..plan.asking.route_records import PathPiece
from ..plan.pipes.pipe_path import PipePath

__all__ = ["MOST_LENGTH", "drawn_pipe"]

MOST_LENGTH = 1000.0
"""Of a drawn circuit [m]."""
_LARGEST_GAP = 1e-3
"""Between the end of a piece and the start of the next [m]."""


def drawn_pipe(pieces: tuple[PathPiece, ...], pointer: str, faults: FaultList) -> PipePath | None:
    """The pipe, or None when a fault was noted: pieces that contradict themselves or do not join."""
    try:
        path = path_of_pieces(pieces, pointer)
    except InputError as error:
        faults.faults.extend(error.faults)
        return None
    if not faults.require(
        path.length <= MOST_LENGTH,
        pointer,
        "too_long",
        f"are {path.length:.0f} m of pipe; a circuit has at most {MOST_LENGTH:.0f} m",
        MOST_LENGTH,
    ):
        return None
    for number, (before, after) in enumerate(pairwise(path.pieces), start=1):
        gap = math.dist(before.end, after.start)
        if gap > _LARGEST_GAP:
            faults.add(
                f"{pointer}/{number}/start",
                "gap",
                f"lies {gap:.3f} m from the end of the piece before",
                _LARGEST_GAP,
            )
            return None
    return path
