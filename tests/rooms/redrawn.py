"""Rectangles and L-rooms, and the same rooms as other people would draw them."""

from __future__ import annotations

import math
import random
from collections.abc import Iterator
from dataclasses import dataclass

from tepidarium_engine.errors import InputError
from tepidarium_engine.plan.laying.laying import Pattern
from tepidarium_engine.routes import RoutesInputs, calculate

from .case import Ring

__all__ = ["PlainRoom", "differs", "lengths", "plain_room", "redrawn", "three_inches"]

FOOT = 0.3048
"""[m], exact (international yard and pound agreement, 1959)."""
SAME_LENGTH = 0.005
"""Share by which the pipe of a circuit may change when its drawing changes by less than a millimetre."""
_SHORTER = 0.0003
_SHAKEN = 0.0004
_FAR = (4_512_345.678, 5_398_765.4321)
"""As coordinates of a national survey [m]."""


@dataclass(frozen=True)
class PlainRoom:
    """A ring of corners [m] whose pipe comes in at a ``share`` of the wall with number ``edge``."""

    outline: Ring
    edge: int
    share: float
    pipe_spacing: float
    pattern: Pattern

    def drawn(self, outline: Ring, quick: bool) -> RoutesInputs:
        """The request with the corners where they are in another drawing."""
        (ax, ay), (bx, by) = outline[self.edge], outline[(self.edge + 1) % len(outline)]
        entry = (ax + self.share * (bx - ax), ay + self.share * (by - ay))
        return RoutesInputs(outline, self.pipe_spacing, entry=entry, pattern=self.pattern, quick=quick)


def plain_room(number: int) -> PlainRoom:
    """A rectangle or an L of 2 to 58 m2, by turns counterflow and serpentine; the same number is the same room."""
    lot = random.Random(number)
    spacing = lot.choice((0.1, 0.15, 0.2, 0.25, 0.3))
    width, depth = round(lot.uniform(1.5, 9.0), 3), round(lot.uniform(1.5, 6.5), 3)
    outline: Ring = ((0.0, 0.0), (width, 0.0), (width, depth), (0.0, depth))
    if number // 2 % 2:
        inner, step = round(width * lot.uniform(0.3, 0.7), 3), round(depth * lot.uniform(0.3, 0.7), 3)
        outline = (outline[0], outline[1], (width, step), (inner, step), (inner, depth), outline[3])
    pattern: Pattern = "serpentine" if number % 2 else "counterflow"
    return PlainRoom(outline, lot.randrange(len(outline)), lot.uniform(0.1, 0.9), spacing, pattern)


def redrawn(outline: Ring, number: int) -> Iterator[tuple[str, Ring]]:
    """The outline a fraction of a millimetre off, turned, and far away."""
    lot = random.Random(number)
    yield "0.3 mm less", tuple((x - _SHORTER * (x > 0.0), y - _SHORTER * (y > 0.0)) for x, y in outline)
    c, s = math.cos(math.radians(17.0)), math.sin(math.radians(17.0))
    yield "turned", tuple((c * x - s * y, s * x + c * y) for x, y in outline)
    yield "far away", tuple((x + _FAR[0], y + _FAR[1]) for x, y in outline)
    moves = [(_SHAKEN * lot.random(), math.tau * lot.random()) for _ in outline]
    shaken = zip(outline, moves, strict=True)
    yield "shaken", tuple((x + r * math.cos(turn), y + r * math.sin(turn)) for (x, y), (r, turn) in shaken)


def three_inches(outline: Ring) -> tuple[Ring, Ring]:
    """The outline in whole three inches, as feet with decimals are in metres, and rounded to millimetres."""
    feet = tuple((round(4.0 * x / FOOT) / 4.0, round(4.0 * y / FOOT) / 4.0) for x, y in outline)
    metres = tuple((x * FOOT, y * FOOT) for x, y in feet)
    return metres, tuple((round(x, 3), round(y, 3)) for x, y in metres)


def lengths(inputs: RoutesInputs) -> list[float] | str:
    """Lengths of the circuits [m], or the code of the refusal."""
    try:
        return [circuit.length for circuit in calculate(inputs).circuits]
    except InputError as error:
        return error.faults[0].code


def differs(number: int, quick: bool) -> Iterator[str]:
    """What comes out otherwise where a room is drawn otherwise: nothing, if all is well."""
    room = plain_room(number)
    feet, millimetres = three_inches(room.outline)
    drawings = [("as given", room.outline, list(redrawn(room.outline, number)))]
    drawings.append(("three inches", feet, [("in millimetres", millimetres)]))
    for name, outline, others in drawings:
        usual = lengths(room.drawn(outline, quick))
        for what, other in others:
            found = lengths(room.drawn(other, quick))
            if not _alike(usual, found):
                yield f"{number} {name}: {usual}, {what}: {found}"


def _alike(one: list[float] | str, other: list[float] | str) -> bool:
    if isinstance(one, str) or isinstance(other, str):
        return one == other
    return len(one) == len(other) and all(
        math.isclose(a, b, rel_tol=SAME_LENGTH) for a, b in zip(sorted(one), sorted(other), strict=True)
    )
