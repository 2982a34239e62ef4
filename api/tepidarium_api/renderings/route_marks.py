"""The plan of a room with the pipe of its circuits."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from tepidarium_engine.laying_sheets import core_of
from tepidarium_engine.results import Finding
from tepidarium_engine.routes import PathPiece, RouteCircuit, RoutesInputs, RoutesResult, clearance_rings

from .drawn_pipe import at_share, drawn_way
from .drawn_room import drawn_dimensions, drawn_sleeve, drawn_void
from .marks import Area, Disc, Group, Line, Mark, Paper, Piece, Way, Words, between, direction, straights
from .sheet import Sheet, tiling

__all__ = ["route_groups"]

ALMOST_FULL = 6.28
STUB, SHORT_STUB = 9.0, 3.5
"""How far the tails are drawn outwards, and where several circuits share an entry [mm]."""
WIDTHS = (0.7, 1.1, 0.45)
"""Of the lines of circuits side by side, in turn [mm]."""
NUMBERS_APART, NUMBERS_AWAY = 4.8, 8.0
"""Between the numbers at an entry, and of their row from the wall [mm]."""
NUMBER = 2.1
"""Radius of the circle round a circuit's number [mm]."""
_AROUND = ((1.0, -1.0), (-1.0, -1.0), (1.0, 1.0), (-1.0, 1.0))


def route_groups(
    tiles: Sequence[Sheet], inputs: RoutesInputs, result: RoutesResult, marks: Mapping[str, str]
) -> list[Group]:
    """The plan on the paper of the first of its sheets. ``marks`` are the numbers of findings by code."""
    sheet = tiles[0]
    shared = result.length_spread is not None
    groups = [
        Group("room", tuple(_room(sheet, inputs))),
        *(
            Group(f"circuit-{number + 1}", tuple(_circuit(sheet, result, number)))
            for number in range(len(result.circuits))
        ),
        Group("sleeves", tuple(drawn_sleeve(sheet, own.place, own.ahead) for own in result.sleeves)),
        Group("bare-spots", tuple(_bare_spots(sheet, result))),
        Group("marks", tuple(_marks(sheet, result.findings, marks))),
        Group("dimensions", tuple(drawn_dimensions(sheet, inputs.outline, tiling(tiles).seams))),
    ]
    return [
        *groups,
        *([Group("entry-numbers", tuple(_entry_numbers(sheet, result.circuits)))] if shared else []),
    ]


def _room(sheet: Sheet, inputs: RoutesInputs) -> Iterator[Mark]:
    """Walls lie outside the outline: the floor is painted over the inner half of their line."""
    outline = sheet.ring(inputs.outline)
    yield Area("wall", (outline,))
    yield Area("floor", (outline,))
    for void in inputs.voids:
        yield from drawn_void(sheet.ring(void))
    rings = tuple(sheet.ring(ring) for ring in clearance_rings(inputs))
    if rings:
        yield Area("clearance", rings)
    for joint in inputs.movement_joints:
        yield Line("joint", sheet.ring(joint))


def _circuit(sheet: Sheet, result: RoutesResult, number: int) -> Iterator[Mark]:
    """Circuits that share an entry have their number in a circle there and in the middle of their floor, and differ
    by the width of their line."""
    circuit = result.circuits[number]
    pieces = sheet.pieces(_line_pieces(circuit))
    place = number if result.length_spread is not None else None
    yield from _tails(pieces, circuit, len(result.circuits) > 1, place)
    core = core_of(circuit.pieces, circuit.pipe_spacing) if circuit.pattern == "counterflow" else None
    width = None if place is None else WIDTHS[place % len(WIDTHS)]
    yield from drawn_way(pieces, None if core is None else sheet.length(core), circuit.id, 1.0, width)
    if place is not None:
        yield from _number(at_share(pieces, 0.5), circuit.id)


def _line_pieces(circuit: RouteCircuit) -> Sequence[PathPiece]:
    """The pieces, or the polyline where one of them comes round to its start, which SVG has no arc for."""
    if all(abs(piece.sweep or 0.0) < ALMOST_FULL for piece in circuit.pieces):
        return circuit.pieces
    return [PathPiece("line", start, end) for start, end in zip(circuit.path, circuit.path[1:], strict=False)]


def _tails(pieces: Sequence[Piece], circuit: RouteCircuit, several: bool, row: int | None) -> Iterator[Mark]:
    """Stubs of flow and return through the wall, and which is which."""
    ends = ((pieces[0].start, "flow", "Flow"), (pieces[-1].end, "return", "Return"))
    x, y = _outwards(ends[0][0], ends[1][0], pieces[0].end)
    stub = STUB if row is None else SHORT_STUB
    outer = []
    for place, kind, _ in ends:
        out = (place[0] + stub * x, place[1] + stub * y)
        yield Way("opening", straights((place, out)), width=None if row is None else WIDTHS[0])
        yield Way(kind, straights((place, out)))
        outer.append(out)
    if row is not None:
        return
    name = f" {circuit.id}" if several else ""
    for sign, out, (_, _, word) in zip((-1.0, 1.0), outer, ends, strict=True):
        yield _tail_name(out, (x, y), direction(outer[0], outer[1]), sign, word + name)


def _tail_name(out: Paper, outwards: Paper, ahead: Paper, sign: float, words: str) -> Mark:
    x, y = outwards
    aside = sign * ahead[0]
    anchor = "start" if aside > 0.3 or (abs(aside) <= 0.3 and x > 0.3) else "end"
    shift = 1.5 if anchor == "start" else -1.5
    if abs(aside) <= 0.3:
        at = (out[0] + (shift if abs(x) > 0.3 else 0.0), out[1] + 0.9 + sign * ahead[1] * 1.2)
    else:
        at = (out[0] + shift, out[1] + (0.0 if y > 0.0 else 2.0))
    return Words(at, words, 2.0, anchor)


def _outwards(flow: Paper, back: Paper, inside: Paper) -> Paper:
    """Square to the line from one end to the other, away from the room."""
    x, y = direction(flow, back)
    towards = (inside[0] - flow[0]) * -y + (inside[1] - flow[1]) * x
    return (y, -x) if towards > 0.0 else (-y, x)


def _entry_numbers(sheet: Sheet, circuits: Sequence[RouteCircuit]) -> Iterator[Mark]:
    """The numbers of circuits that share an entry in a row outside the wall, each with a line to its pair."""
    ends = [(sheet.at(circuit.path[0]), sheet.at(circuit.path[-1])) for circuit in circuits]
    middles = [between(flow, back, 0.5) for flow, back in ends]
    x, y = _outwards(*ends[0], sheet.at(circuits[0].path[1]))
    centre, along = between(middles[0], middles[-1], 0.5), direction(middles[0], middles[-1])
    for count, (circuit, middle) in enumerate(zip(circuits, middles, strict=True)):
        aside = (count - (len(circuits) - 1) / 2.0) * NUMBERS_APART
        foot = (middle[0] + SHORT_STUB * x, middle[1] + SHORT_STUB * y)
        place = (
            centre[0] + NUMBERS_AWAY * x + aside * along[0],
            centre[1] + NUMBERS_AWAY * y + aside * along[1],
        )
        yield Line("leader", (foot, place))
        yield from _number(place, circuit.id)


def _number(place: Paper, words: str) -> Iterator[Mark]:
    yield Disc("number", place, NUMBER)
    yield Words((place[0], place[1] + 0.9), words, 1.9, "middle", True)


def _bare_spots(sheet: Sheet, result: RoutesResult) -> Iterator[Mark]:
    for spot in result.coverage.bare_spots:
        yield Disc("bare", sheet.at(spot.place), max(1.0, sheet.length(spot.width) / 2.0))


def _marks(sheet: Sheet, findings: Sequence[Finding], marks: Mapping[str, str]) -> Iterator[Mark]:
    """Numbers beside the places of findings, moved apart where they would cover each other."""
    taken: list[Paper] = []
    points = [
        (marks[finding.code], place.point)
        for finding in findings
        for place in finding.places
        if place.point is not None
    ]
    for mark, point in points:
        x, y = sheet.at(point)
        spot = next(
            (x + dx, y + dy)
            for dx, dy in ((3.0 * step * a, 3.0 * step * b) for step in range(1, 200) for a, b in _AROUND)
            if all((x + dx - a) ** 2 + (y + dy - b) ** 2 >= 25.0 for a, b in taken)
        )
        taken.append(spot)
        yield Line("leader", ((x, y), spot))
        yield Disc("dot", (x, y), 0.5)
        yield Disc("mark", spot, 2.1)
        yield Words((spot[0], spot[1] + 0.9), mark, 1.9, "middle")
