"""The manifold on paper: a box behind the wall's face with the number of each port at its pair of pipes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

from tepidarium_engine.designs import DrawnCircuit

from .marks import Area, Disc, Mark, Paper, Words, between, direction
from .sheet import Point, Sheet

__all__ = ["drawn_manifold", "unwritten_ports"]

DEPTH = 0.12
"""Of the manifold with its cabinet [m] (common practice, no source)."""
LEAST_DEPTH = 4.0
"""On paper, for the numbers [mm]."""
HEIGHT, LEGIBLE = 1.8, 1.2
"""Of the numbers, where the ports are far enough apart, and at least [mm]."""


def drawn_manifold(
    sheet: Sheet, place: Point, circuits: Sequence[DrawnCircuit], labels: Mapping[str, str], pitch: float
) -> Iterator[Mark]:
    """The box is as wide as its pipes with half of their ``pitch`` [m] on either side. The solid pipe of a pair is the
    flow."""
    origin = sheet.at(place)
    if not circuits:
        yield Disc("manifold", origin, 1.2)
        return
    pairs = [(sheet.at(own.pieces[0].start), sheet.at(own.pieces[-1].end)) for own in circuits]
    along, ahead = _frame(pairs[0], sheet.at(circuits[0].pieces[0].end))
    places = [_along(origin, along, end) for pair in pairs for end in pair]
    beyond, depth = sheet.length(pitch) / 2.0, max(LEAST_DEPTH, sheet.length(DEPTH))
    ends = (min(places) - beyond, max(places) + beyond)
    corners = tuple(
        (origin[0] + end * along[0] - back * ahead[0], origin[1] + end * along[1] - back * ahead[1])
        for end, back in ((ends[0], 0.0), (ends[1], 0.0), (ends[1], depth), (ends[0], depth))
    )
    yield Area("manifold", (corners,))
    height = _height(places)
    if height < LEGIBLE:
        return
    for circuit, (flow, back) in zip(circuits, pairs, strict=True):
        middle = ((flow[0] + back[0]) / 2.0, (flow[1] + back[1]) / 2.0)
        yield _number(labels[circuit.id], middle, ahead, height, depth)


def unwritten_ports(
    sheet: Sheet, place: Point, circuits: Sequence[DrawnCircuit], labels: Mapping[str, str]
) -> list[tuple[Paper, str]]:
    """Places and numbers of the first and the last port, where the box has no room for all numbers. Ports lie in order
    along it."""
    if not circuits:
        return []
    pairs = [(sheet.at(own.pieces[0].start), sheet.at(own.pieces[-1].end)) for own in circuits]
    origin, (along, _) = sheet.at(place), _frame(pairs[0], sheet.at(circuits[0].pieces[0].end))
    if _height([_along(origin, along, end) for pair in pairs for end in pair]) >= LEGIBLE:
        return []
    ends = [(_along(origin, along, pair[0]), number) for number, pair in enumerate(pairs)]
    return [
        (between(*pairs[number], 0.5), labels[circuits[number].id])
        for number in dict.fromkeys(number for _, number in (min(ends), max(ends)))
    ]


def _height(places: list[float]) -> float:
    """Of the numbers [mm], so that none is wider than its pair of pipes."""
    return min([HEIGHT, *(0.8 * width for width in _gaps(places))])


def _frame(pair: tuple[Paper, Paper], inside: Paper) -> tuple[Paper, Paper]:
    """Unit vectors along the manifold and into the room."""
    flow, back = pair
    x, y = direction(flow, back)
    side = 1.0 if (inside[1] - flow[1]) * x - (inside[0] - flow[0]) * y > 0.0 else -1.0
    return (x, y), (-y * side, x * side)


def _along(origin: Paper, along: Paper, place: Paper) -> float:
    return (place[0] - origin[0]) * along[0] + (place[1] - origin[1]) * along[1]


def _gaps(places: list[float]) -> Iterator[float]:
    """Between the middles of neighbouring pairs [mm]."""
    middles = sorted((one + other) / 2.0 for one, other in zip(places[::2], places[1::2], strict=True))
    yield from (after - before for before, after in pairwise(middles))


def _number(port: str, middle: Paper, ahead: Paper, height: float, depth: float) -> Mark:
    """Written along the pipes, so that it is no wider than their pair, and never upside down."""
    x, y = middle[0] - depth / 2.0 * ahead[0], middle[1] - depth / 2.0 * ahead[1]
    readable = ahead[0] > 1e-6 or (abs(ahead[0]) <= 1e-6 and ahead[1] < 0.0)
    c, s = ahead if readable else (-ahead[0], -ahead[1])
    place = (x - s * height / 2.0, y + c * height / 2.0)
    return Words(place, port, height, "middle", True, (c, s), "port")
