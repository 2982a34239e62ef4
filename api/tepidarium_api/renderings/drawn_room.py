"""The room on paper: walls, voids, joints, clearance, dimensions and scale."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from tepidarium_engine.routes import RoutesInputs

from .sheet import BINDING, EDGE, SCALE_BAR, Point, Sheet
from .svg import Paper, element, moved_along, points, polygon, text

__all__ = ["drawn_dimensions", "drawn_room", "drawn_scale_bar", "drawn_void", "overall_dimensions"]

SHORTEST_LABEL = 11.0
"""A wall shorter than this on paper goes without its length [mm]."""
LABEL_AWAY = 2.6
"""Between a wall's face and its length [mm]."""
DIMENSION_AWAY = 15.0
"""Between the room and the lines of its overall dimensions [mm]."""
TICK = 1.4

Rings = Sequence[Sequence[Point]]


def drawn_room(sheet: Sheet, inputs: RoutesInputs, clearance: Rings) -> Iterator[str]:
    """Walls lie outside the outline: the floor is painted over the inner half of their line."""
    outline = sheet.ring(inputs.outline)
    yield element("polygon", class_="wall", points=points(outline))
    yield element("path", class_="floor", d=polygon([outline]))
    for number, void in enumerate(inputs.voids):
        yield from drawn_void(sheet.ring(void), f"void-{number}")
    yield element("path", class_="clearance", d=polygon(sheet.ring(ring) for ring in clearance))
    for joint in inputs.movement_joints:
        yield element("polyline", class_="joint", points=points(sheet.ring(joint)))


def drawn_void(ring: list[Paper], name: str) -> Iterator[str]:
    """A void with the two diagonals that mark an opening, cut off at its edge."""
    xs, ys = zip(*ring, strict=True)
    yield element("clipPath", element("path", d=polygon([ring])), id=name)
    yield element("path", class_="void", d=polygon([ring]))
    cross = (
        f"M {points([(min(xs), min(ys)), (max(xs), max(ys))]).replace(' ', ' L ')} "
        f"M {points([(min(xs), max(ys)), (max(xs), min(ys))]).replace(' ', ' L ')}"
    )
    yield element("path", class_="thin", d=cross, clip_path=f"url(#{name})")


def drawn_dimensions(sheet: Sheet, outline: Sequence[Point]) -> Iterator[str]:
    """The length of each wall along it, and the room's extent below and to the left. Metres."""
    corners = list(outline if outline[0] != outline[-1] else outline[:-1])
    turn = 1.0 if _doubled_area(corners) > 0.0 else -1.0
    for start, end in pairwise([*corners, corners[0]]):
        yield from _wall_length(sheet, start, end, turn)
    yield from overall_dimensions(sheet, corners)


def overall_dimensions(sheet: Sheet, corners: Sequence[Point]) -> Iterator[str]:
    """The extent of all corners, below and to the left of them. Metres."""
    xs, ys = zip(*corners, strict=True)
    low, high = (min(xs), min(ys)), (max(xs), max(ys))
    left, bottom = sheet.at(low)
    right, top = sheet.at(high)
    yield from _dimension(
        (left, bottom + DIMENSION_AWAY), (right, bottom + DIMENSION_AWAY), f"{high[0] - low[0]:.2f}"
    )
    yield from _dimension(
        (left - DIMENSION_AWAY, bottom), (left - DIMENSION_AWAY, top), f"{high[1] - low[1]:.2f}"
    )


def _doubled_area(corners: Sequence[Point]) -> float:
    """Positive when the corners run counter-clockwise; near the origin, lest digits be lost."""
    x0, y0 = corners[0]
    return sum(
        (ax - x0) * (by - y0) - (bx - x0) * (ay - y0)
        for (ax, ay), (bx, by) in pairwise([*corners, corners[0]])
    )


def _wall_length(sheet: Sheet, start: Point, end: Point, turn: float) -> Iterator[str]:
    (ax, ay), (bx, by) = sheet.at(start), sheet.at(end)
    length = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5
    if length < SHORTEST_LABEL:
        return
    ux, uy = (bx - ax) / length, (by - ay) / length
    # To the right of a wall that runs counter-clockwise is outside; on paper y points down.
    out = (-uy * turn, ux * turn)
    readable = ux > 1e-6 or (abs(ux) <= 1e-6 and uy < 0.0)
    along = (ux, uy) if readable else (-ux, -uy)
    below = out[0] * -along[1] + out[1] * along[0] > 0.0  # the text's own down points outside
    away = LABEL_AWAY + (1.8 if below else 0.0)
    middle = ((ax + bx) / 2.0 + away * out[0], (ay + by) / 2.0 + away * out[1])
    metres = length * sheet.scale / 1000.0
    yield moved_along(text((0.0, 0.0), f"{metres:.2f}", 1.8, text_anchor="middle"), middle, along)


def _dimension(start: Paper, end: Paper, words: str) -> Iterator[str]:
    """A dimension line with oblique strokes at its ends, its text above or to the left."""
    yield element("line", class_="thin", x1=start[0], y1=start[1], x2=end[0], y2=end[1])
    for x, y in (start, end):
        yield element("line", class_="frame", x1=x - TICK, y1=y + TICK, x2=x + TICK, y2=y - TICK)
    middle = ((start[0] + end[0]) / 2.0, (start[1] + end[1]) / 2.0)
    upright = (0.0, -1.0) if start[0] == end[0] else (1.0, 0.0)
    lifted = (middle[0] - 1.2, middle[1]) if start[0] == end[0] else (middle[0], middle[1] - 1.2)
    yield moved_along(text((0.0, 0.0), words, 2.5, text_anchor="middle"), lifted, upright)


def drawn_scale_bar(sheet: Sheet) -> Iterator[str]:
    """A bar of whole metres, alternately filled, and the scale in figures."""
    step = next(step for step in (0.5, 1.0, 2.0, 5.0, 10.0, 50.0) if sheet.length(step) >= 10.0)
    width = sheet.length(step)
    left, y = BINDING + 12.0, sheet.size[1] - EDGE - SCALE_BAR / 2.0
    for count in range(4):
        kind = "black" if count % 2 == 0 else "thin"
        yield element("rect", class_=kind, x=left + count * width, y=y, width=width, height=1.6)
    yield element("rect", class_="thin", x=left, y=y, width=4.0 * width, height=1.6)
    for count in range(5):
        yield text((left + count * width, y - 1.2), f"{count * step:g}", 1.8, text_anchor="middle")
    end = left + 4.0 * width
    yield text((end + 3.0, y + 1.6), "m", 1.8)
    yield text((end + 10.0, y + 1.6), f"Scale 1:{sheet.scale} on {sheet.paper}", 2.5)
