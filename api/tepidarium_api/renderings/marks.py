"""What stands on a sheet, whichever file is made of it: lines, arcs, areas and words on paper.

Lengths are millimetres on paper, y pointing down. The ``kind`` of a mark is a key of ``styles.STYLES``.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from itertools import pairwise
from typing import NamedTuple

from .text_widths import text_width
from .turning import turned

__all__ = [
    "Area",
    "Box",
    "Disc",
    "Group",
    "Line",
    "Mark",
    "Paper",
    "Piece",
    "Way",
    "Words",
    "away",
    "between",
    "bounds",
    "boxed",
    "crossing",
    "direction",
    "distance",
    "isolated",
    "printable",
    "straights",
]

Paper = tuple[float, float]
"""A place on the sheet [mm]."""
_FROM_RIGHT = "[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc\U00010800-\U00010fff\U0001e800-\U0001efff]+"
_LEFTWARD = re.compile(rf"{_FROM_RIGHT}(?: +{_FROM_RIGHT})*")
"""Words of scripts that run from right to left: the blocks of Unicode 15, DerivedBidiClass, R and AL."""


class Box(NamedTuple):
    """An upright rectangle on paper [mm]; top is less than bottom."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        return self.right - self.left

    @property
    def height(self) -> float:
        return self.bottom - self.top

    @property
    def corners(self) -> list[Paper]:
        return [
            (self.left, self.top),
            (self.right, self.top),
            (self.right, self.bottom),
            (self.left, self.bottom),
        ]

    @property
    def middle(self) -> Paper:
        return ((self.left + self.right) / 2.0, (self.top + self.bottom) / 2.0)

    def grown(self, by: float) -> Box:
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)

    def holds(self, place: Paper) -> bool:
        return self.left <= place[0] <= self.right and self.top <= place[1] <= self.bottom

    def overlaps(self, other: Box) -> bool:
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )

    def crossed(self, start: Paper, end: Paper) -> bool:
        """Whether a line has a part of its length in the box (Liang and Barsky 1984)."""
        (ax, ay), (bx, by) = start, end
        if (ax <= self.left and bx <= self.left) or (ax >= self.right and bx >= self.right):
            return False
        if (ay <= self.top and by <= self.top) or (ay >= self.bottom and by >= self.bottom):
            return False
        low, high = 0.0, 1.0
        for side, (least, most) in enumerate(((self.left, self.right), (self.top, self.bottom))):
            away = end[side] - start[side]
            if away == 0.0:
                if not least < start[side] < most:
                    return False
                continue
            near, far = sorted(((least - start[side]) / away, (most - start[side]) / away))
            low, high = max(low, near), min(high, far)
        return low < high


class Piece(NamedTuple):
    """A straight, or an arc round ``centre`` by ``sweep`` [rad], clockwise on paper where it is positive."""

    start: Paper
    end: Paper
    centre: Paper | None = None
    radius: float = 0.0
    sweep: float = 0.0

    @property
    def length(self) -> float:
        return self.radius * abs(self.sweep) if self.centre else distance(self.start, self.end)

    def places(self, away: float) -> list[Paper]:
        """Its start and places along an arc whose chords are ``away`` [mm] from it at most."""
        if self.centre is None or self.radius <= away:
            return [self.start]
        (x, y), count = self.centre, 1
        while self.radius * self.sweep**2 > 8.0 * away * count**2:  # the height of a flat arc over its chord
            count += 1
        out = (self.start[0] - x, self.start[1] - y)
        spokes = [turned(out, self.sweep * number / count) for number in range(1, count)]
        return [self.start, *((x + across, y + down) for across, down in spokes)]


class Way(NamedTuple):
    """Straights and arcs one after the other; where one does not begin at the end of the last there is a gap.
    ``name`` is what the way belongs to; ``width`` [mm] that of its line where it is not that of its kind."""

    kind: str
    pieces: tuple[Piece, ...]
    name: str = ""
    width: float | None = None


class Line(NamedTuple):
    """A line from point to point."""

    kind: str
    points: tuple[Paper, ...]


class Area(NamedTuple):
    """Closed rings, those inside others being holes."""

    kind: str
    rings: tuple[tuple[Paper, ...], ...]


class Disc(NamedTuple):
    kind: str
    centre: Paper
    radius: float


class Words(NamedTuple):
    """Text whose capitals are ``height`` [mm] high, with its baseline through ``place`` in the direction ``along``."""

    place: Paper
    text: str
    height: float
    anchor: str = "start"
    bold: bool = False
    along: Paper = (1.0, 0.0)
    kind: str = "text"

    @property
    def width(self) -> float:
        return text_width(self.text, self.height, self.bold)

    @property
    def round(self) -> Box:
        """Round words that are anchored at their middle, whichever way they are turned."""
        (x, y), half = self.place, max(self.width / 2.0, self.height)
        return Box(x - half, y - half, x + half, y + half)


Mark = Way | Line | Area | Disc | Words


class Group(NamedTuple):
    """Marks that belong together; ``name`` is the same in every drawing."""

    name: str
    marks: tuple[Mark, ...]


def printable(text: str) -> str:
    """The text on one line: control characters, which no format can print, are spaces."""
    return " ".join("".join(sign if sign.isprintable() else " " for sign in text).split())


def isolated(text: str) -> str:
    """The text with words that are written from right to left set apart from what stands beside them (Unicode Standard
    Annex 9, isolates). Without that a number after such a name is shown before it."""
    return text if text.isascii() or _LEFTWARD.fullmatch(text) else _LEFTWARD.sub("\u2067\\g<0>\u2069", text)


def bounds(places: Iterable[Paper]) -> Box:
    """The box round places."""
    xs, ys = zip(*places, strict=True)
    return Box(min(xs), min(ys), max(xs), max(ys))


def boxed(kind: str, box: Box) -> Area:
    return Area(kind, (tuple(box.corners),))


def between(a: Paper, b: Paper, share: float) -> Paper:
    return (a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]))


def distance(a: Paper, b: Paper) -> float:
    return float(((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5)


def crossing(one: tuple[Paper, Paper], other: tuple[Paper, Paper]) -> bool:
    """Whether two straight lines between places cross each other."""

    def side(line: tuple[Paper, Paper], place: Paper) -> float:
        (a, b), (c, d), (x, y) = *line, place
        return (c - a) * (y - b) - (d - b) * (x - a)

    return side(one, other[0]) * side(one, other[1]) < 0.0 and side(other, one[0]) * side(other, one[1]) < 0.0


def away(place: Paper, line: tuple[Paper, Paper]) -> float:
    """Distance of a place from a straight line between two others."""
    (x, y), (start, end) = place, line
    across, down = end[0] - start[0], end[1] - start[1]
    squared = across**2 + down**2
    share = 0.0 if squared == 0.0 else ((x - start[0]) * across + (y - start[1]) * down) / squared
    return distance(place, between(start, end, min(1.0, max(0.0, share))))


def direction(start: Paper, end: Paper) -> Paper:
    """Unit vector from one place to the other."""
    length = distance(start, end)
    return ((end[0] - start[0]) / length, (end[1] - start[1]) / length) if length > 0.0 else (1.0, 0.0)


def straights(points: Iterable[Paper]) -> tuple[Piece, ...]:
    """Pieces from point to point."""
    corners = list(points)
    return tuple(Piece(start, end) for start, end in pairwise(corners))
