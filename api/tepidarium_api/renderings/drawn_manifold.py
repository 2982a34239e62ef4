"""The manifold on paper: a box behind the wall's face with the number of each port at its pair of pipes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

from tepidarium_engine.designs import DrawnCircuit

from .drawn_pipe import direction
from .sheet import Point, Sheet
from .storey_plans import StoreyPlan
from .svg import Paper, element, moved_along, points, text

__all__ = ["drawn_manifolds"]

DEPTH = 5.0
"""Of the box [mm]."""
BEYOND = 1.2
"""How far the box goes on beside its outermost pipes [mm]."""
HEIGHT = 1.8
"""Of the numbers, where the ports are far enough apart [mm]."""


def drawn_manifolds(plan: StoreyPlan) -> Iterator[str]:
    """The manifolds of a storey. Ports are numbered as in the schedule; the solid pipe of a pair is the flow."""
    for manifold in plan.manifolds:
        circuits = [circuit for circuit in plan.circuits if circuit.manifold == manifold.id]
        yield from _manifold(plan.sheet, manifold.place, circuits, plan.labels)


def _manifold(
    sheet: Sheet, place: Point, circuits: Sequence[DrawnCircuit], labels: Mapping[str, str]
) -> Iterator[str]:
    origin = sheet.at(place)
    if not circuits:
        yield element("circle", class_="manifold", cx=origin[0], cy=origin[1], r=BEYOND)
        return
    pairs = [_pair(sheet, circuit) for circuit in circuits]
    along, ahead = _frame(sheet, circuits[0])
    places = [_along(origin, along, end) for pair in pairs for end in pair]
    ends = (min(places) - BEYOND, max(places) + BEYOND)
    corners = [
        (origin[0] + end * along[0] - back * ahead[0], origin[1] + end * along[1] - back * ahead[1])
        for end, back in ((ends[0], 0.0), (ends[1], 0.0), (ends[1], DEPTH), (ends[0], DEPTH))
    ]
    yield element("polygon", class_="manifold", points=points(corners))
    height = min([HEIGHT, *(0.8 * width for width in _gaps(places))])
    for circuit, (flow, back) in zip(circuits, pairs, strict=True):
        middle = ((flow[0] + back[0]) / 2.0, (flow[1] + back[1]) / 2.0)
        yield _number(labels[circuit.id], middle, ahead, height)


def _frame(sheet: Sheet, circuit: DrawnCircuit) -> tuple[Paper, Paper]:
    """Unit vectors along the manifold and into the room."""
    flow, back = _pair(sheet, circuit)
    x, y = direction(flow, back)
    inside = sheet.at(circuit.pieces[0].end)
    side = 1.0 if (inside[1] - flow[1]) * x - (inside[0] - flow[0]) * y > 0.0 else -1.0
    return (x, y), (-y * side, x * side)


def _pair(sheet: Sheet, circuit: DrawnCircuit) -> tuple[Paper, Paper]:
    return sheet.at(circuit.pieces[0].start), sheet.at(circuit.pieces[-1].end)


def _along(origin: Paper, along: Paper, place: Paper) -> float:
    return (place[0] - origin[0]) * along[0] + (place[1] - origin[1]) * along[1]


def _gaps(places: list[float]) -> Iterator[float]:
    """Between the middles of neighbouring pairs [mm]."""
    middles = sorted((one + other) / 2.0 for one, other in zip(places[::2], places[1::2], strict=True))
    yield from (after - before for before, after in pairwise(middles))


def _number(port: str, middle: Paper, ahead: Paper, height: float) -> str:
    """Written along the pipes, so that it is no wider than their pair, and never upside down."""
    away = DEPTH / 2.0
    x, y = middle[0] - away * ahead[0], middle[1] - away * ahead[1]
    readable = ahead[0] > 1e-6 or (abs(ahead[0]) <= 1e-6 and ahead[1] < 0.0)
    along = ahead if readable else (-ahead[0], -ahead[1])
    words = text((0.0, height / 2.0), port, height, text_anchor="middle", class_="strong")
    return moved_along(words, (x, y), along)
