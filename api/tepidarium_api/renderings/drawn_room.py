"""The room on paper: walls, voids, joints, sleeves, dimensions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from .marks import Area, Box, Line, Mark, Paper, Words, between, direction, distance
from .sheet import Point, Sheet

__all__ = ["crossed", "dimension", "drawn_dimensions", "drawn_sleeve", "drawn_void", "overall_dimensions"]

SHORTEST_LABEL = 11.0
"""A wall shorter than this on paper goes without its length [mm]."""
LABEL_AWAY = 2.6
"""Between a wall's face and its length [mm]."""
DIMENSION_AWAY = 15.0
"""Between the room and the lines of its overall dimensions [mm]."""
FIGURE_AWAY = 8.0
"""Between the middle of such a figure and what it keeps clear of [mm]."""
TICK = 1.4
SLEEVE = 0.3
"""Length of a sleeve at least, half of it on either side of the joint [m]."""
SHORTEST_SLEEVE = 3.0
"""On paper [mm]."""


def drawn_void(ring: Sequence[Paper]) -> Iterator[Mark]:
    """A void, with its diagonals where it has four corners."""
    yield Area("void", (tuple(ring),))
    yield from crossed(ring)


def crossed(ring: Sequence[Paper]) -> Iterator[Mark]:
    """The two diagonals that mark an opening with four corners."""
    if len(ring) == 4:
        yield Line("void-cross", (ring[0], ring[2]))
        yield Line("void-cross", (ring[1], ring[3]))


def drawn_sleeve(sheet: Sheet, place: Point, ahead: Point) -> Mark:
    """A box round the pipe at a joint that it passes, as long as the sleeve is at least."""
    half = max(SHORTEST_SLEEVE, sheet.length(SLEEVE)) / 2.0
    (x, y), (c, s) = sheet.at(place), (ahead[0], -ahead[1])
    corners = tuple(
        (x + along * c - aside * s, y + along * s + aside * c)
        for along, aside in ((-half, -0.7), (half, -0.7), (half, 0.7), (-half, 0.7))
    )
    return Area("sleeve", (corners,))


def drawn_dimensions(sheet: Sheet, outline: Sequence[Point], seams: Sequence[Box] = ()) -> Iterator[Mark]:
    """The length of each wall along it, and the room's extent below and to the left. Metres."""
    corners = list(outline if outline[0] != outline[-1] else outline[:-1])
    turn = 1.0 if _doubled_area(corners) > 0.0 else -1.0
    for start, end in pairwise([*corners, corners[0]]):
        yield from _wall_length(sheet, start, end, turn)
    yield from overall_dimensions(sheet, corners, seams)


def overall_dimensions(sheet: Sheet, corners: Sequence[Point], seams: Sequence[Box] = ()) -> Iterator[Mark]:
    """The extent of all corners, below and to the left of them, with figures clear of ``seams``. Metres."""
    xs, ys = zip(*corners, strict=True)
    low, high = (min(xs), min(ys)), (max(xs), max(ys))
    left, bottom = sheet.at(low)
    right, top = sheet.at(high)
    below, aside = bottom + DIMENSION_AWAY, left - DIMENSION_AWAY
    across = _clear(
        left, right, [(seam.left, seam.right) for seam in seams if seam.top < below < seam.bottom]
    )
    down = _clear(top, bottom, [(seam.top, seam.bottom) for seam in seams if seam.left < aside < seam.right])
    yield from dimension((left, below), (right, below), f"{high[0] - low[0]:.2f}", at=(across, below))
    yield from dimension((aside, bottom), (aside, top), f"{high[1] - low[1]:.2f}", at=(aside, down))


def _clear(low: float, high: float, seams: Sequence[tuple[float, float]]) -> float:
    """The place for a figure between two ends that is nearest to their middle and in none of the seams."""
    middle = (low + high) / 2.0
    places = [
        middle,
        *(end for a, b in seams for end in (a - FIGURE_AWAY, b + FIGURE_AWAY) if low <= end <= high),
    ]
    clear = [
        place for place in places if not any(a - FIGURE_AWAY < place < b + FIGURE_AWAY for a, b in seams)
    ]
    return min(clear or [middle], key=lambda place: abs(place - middle))


def _doubled_area(corners: Sequence[Point]) -> float:
    """Positive when the corners run counter-clockwise; near the origin, lest digits be lost."""
    x0, y0 = corners[0]
    return sum(
        (ax - x0) * (by - y0) - (bx - x0) * (ay - y0)
        for (ax, ay), (bx, by) in pairwise([*corners, corners[0]])
    )


def _wall_length(sheet: Sheet, start: Point, end: Point, turn: float) -> Iterator[Mark]:
    a, b = sheet.at(start), sheet.at(end)
    length = distance(a, b)
    if length < SHORTEST_LABEL:
        return
    ux, uy = direction(a, b)
    # To the right of a wall that runs counter-clockwise is outside; on paper y points down.
    out = (-uy * turn, ux * turn)
    readable = ux > 1e-6 or (abs(ux) <= 1e-6 and uy < 0.0)
    along = (ux, uy) if readable else (-ux, -uy)
    below = out[0] * -along[1] + out[1] * along[0] > 0.0  # the text's own down points outside
    away = LABEL_AWAY + (1.8 if below else 0.0)
    middle = ((a[0] + b[0]) / 2.0 + away * out[0], (a[1] + b[1]) / 2.0 + away * out[1])
    metres = f"{length * sheet.scale / 1000.0:.2f}"
    yield Words(middle, metres, 1.8, "middle", along=along, kind="dimension-text")


def dimension(
    start: Paper, end: Paper, words: str, height: float = 2.5, at: Paper | None = None
) -> Iterator[Mark]:
    """A dimension line with oblique strokes at its ends, its text above or to the left, ``at`` its middle if no other
    place is given."""
    yield Line("dimension", (start, end))
    for x, y in (start, end):
        yield Line("dimension-tick", ((x - TICK, y + TICK), (x + TICK, y - TICK)))
    middle = at or between(start, end, 0.5)
    upright = abs(start[0] - end[0]) < 1e-9
    along = (0.0, -1.0) if upright else (1.0, 0.0)
    lifted = (middle[0] - 1.2, middle[1]) if upright else (middle[0], middle[1] - 1.2)
    yield Words(lifted, words, height, "middle", along=along, kind="dimension-text")
