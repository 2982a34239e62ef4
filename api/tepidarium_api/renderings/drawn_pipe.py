"""The pipe of a circuit on paper: flow solid, return dashed, with arrows along the water's way."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tepidarium_engine.routes import PathPiece, RouteCircuit

from .sheet import Point, Sheet
from .svg import Paper, element, number, points, text

__all__ = ["at_share", "direction", "drawn_pipe", "drawn_way", "entry_numbers"]

HALF_TURN = 3.141592653589793
ALMOST_FULL = 6.28
BETWEEN_ARROWS = 55.0
"""Least distance between arrows along the pipe on paper [mm]."""
LONG_ENOUGH = 5.0
"""A straight piece takes an arrow from this length on [mm]."""
STUB = 9.0
"""How far the tails are drawn outwards [mm]."""
SHORT_STUB = 3.5
"""The same where several circuits share an entry."""
WIDTHS = (0.7, 1.1, 0.45)
"""Of the lines of circuits side by side, in turn [mm]."""
NUMBERS_APART, NUMBERS_AWAY = 4.8, 8.0
"""Between the numbers at an entry, and of their row from the wall [mm]."""
NUMBER = 2.1
"""Radius of the circle round a circuit's number [mm]."""


def drawn_pipe(sheet: Sheet, circuit: RouteCircuit, several: bool, place: int | None = None) -> Iterator[str]:
    """The first half of the pipe as flow, the second as return; ``several`` circuits show their names.

    ``place`` counts the circuits that share an entry: these are told apart by the number in a circle at the
    entry and in the middle of their floor, and by the width of their line.
    """
    pieces = _line_pieces(circuit)
    yield from _tails(sheet, pieces, circuit, several, place)
    yield from drawn_way(sheet, pieces, 1.0, None if place is None else WIDTHS[place % len(WIDTHS)])
    if place is not None:
        yield _number(sheet.at(at_share(pieces, 0.5)), circuit.id)


def entry_numbers(sheet: Sheet, circuits: Sequence[RouteCircuit]) -> Iterator[str]:
    """The numbers of circuits that share an entry in a row outside the wall, each with a line to its pair."""
    ends = [(sheet.at(circuit.path[0]), sheet.at(circuit.path[-1])) for circuit in circuits]
    middles = [_between(flow, back, 0.5) for flow, back in ends]
    x, y = _outwards(*ends[0], sheet.at(circuits[0].path[1]))
    centre = _between(middles[0], middles[-1], 0.5)
    along = direction(middles[0], middles[-1])
    for count, (circuit, middle) in enumerate(zip(circuits, middles, strict=True)):
        aside = (count - (len(circuits) - 1) / 2.0) * NUMBERS_APART
        foot = (middle[0] + SHORT_STUB * x, middle[1] + SHORT_STUB * y)
        place = (
            centre[0] + NUMBERS_AWAY * x + aside * along[0],
            centre[1] + NUMBERS_AWAY * y + aside * along[1],
        )
        yield element("line", class_="thin", x1=foot[0], y1=foot[1], x2=place[0], y2=place[1])
        yield _number(place, circuit.id)


def drawn_way(
    sheet: Sheet, pieces: Sequence[PathPiece], size: float, width: float | None = None
) -> Iterator[str]:
    """The first half of a pipe as flow, the second as return, with arrows of a ``size`` (1 in a room's own
    drawing); ``width`` of the line [mm] where it is not that of all."""
    style = {} if width is None else {"style": f"stroke-width: {width}"}
    flow, back = _halves(pieces)
    yield element("path", class_="flow", d=_data(sheet, flow), **style)
    yield element("path", class_="return", d=_data(sheet, back), **style)
    yield from _arrows(sheet, flow, "flow-arrow", size)
    yield from _arrows(sheet, back, "return-arrow", size)


def at_share(pieces: Sequence[PathPiece], share: float) -> Point:
    """The place at a share of the pipe's length, on the chord of a bend."""
    lengths = [_length(piece) for piece in pieces]
    left = share * sum(lengths)
    for piece, length in zip(pieces, lengths, strict=True):
        if left <= length:
            return _between(piece.start, piece.end, left / length if length > 0.0 else 0.0)
        left -= length
    return pieces[-1].end


def _number(place: Paper, words: str) -> str:
    x, y = place
    circle = element("circle", class_="number", cx=x, cy=y, r=NUMBER)
    return circle + text((x, y + 0.9), words, 1.9, text_anchor="middle", class_="strong")


def _line_pieces(circuit: RouteCircuit) -> Sequence[PathPiece]:
    """The pieces, or the polyline where one of them comes round to its start, which SVG has no arc for."""
    if all(abs(piece.sweep or 0.0) < ALMOST_FULL for piece in circuit.pieces):
        return circuit.pieces
    return [PathPiece("line", start, end) for start, end in zip(circuit.path, circuit.path[1:], strict=False)]


def _length(piece: PathPiece) -> float:
    if piece.radius is not None and piece.sweep is not None:
        return piece.radius * abs(piece.sweep)
    return _distance(piece.start, piece.end)


def _distance(a: Point, b: Point) -> float:
    return float(((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5)


def _halves(pieces: Sequence[PathPiece]) -> tuple[list[PathPiece], list[PathPiece]]:
    """The pipe parted in its middle, or at the nearer end of the bend that lies there."""
    lengths = [_length(piece) for piece in pieces]
    left = sum(lengths) / 2.0
    for index, (piece, length) in enumerate(zip(pieces, lengths, strict=True)):
        if length < left:
            left -= length
            continue
        if piece.kind == "line":
            share = left / length if length > 0.0 else 0.0
            middle = _between(piece.start, piece.end, share)
            return (
                [*pieces[:index], PathPiece("line", piece.start, middle)],
                [PathPiece("line", middle, piece.end), *pieces[index + 1 :]],
            )
        cut = index + (left > length / 2.0)
        return list(pieces[:cut]), list(pieces[cut:])
    return list(pieces), []


def _between(a: Point, b: Point, share: float) -> Point:
    return (a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]))


def _data(sheet: Sheet, pieces: Sequence[PathPiece]) -> str:
    """Path data; a gap between pieces of a path that was brought stays a gap."""
    steps: list[str] = []
    at: Paper | None = None
    for piece in pieces:
        start, end = sheet.at(piece.start), sheet.at(piece.end)
        if at is None or _distance(at, start) > 0.01:
            steps.append(f"M {points([start])}")
        if piece.radius is not None and piece.sweep is not None:
            radius = number(sheet.length(piece.radius))
            large, clockwise = int(abs(piece.sweep) > HALF_TURN), int(piece.sweep < 0.0)
            steps.append(f"A {radius} {radius} 0 {large} {clockwise} {points([end])}")
        else:
            steps.append(f"L {points([end])}")
        at = end
    return " ".join(steps)


def _arrows(sheet: Sheet, pieces: Sequence[PathPiece], kind: str, size: float) -> Iterator[str]:
    since = BETWEEN_ARROWS
    for piece in pieces:
        length = sheet.length(_length(piece))
        if piece.kind == "line" and length >= LONG_ENOUGH and since + length / 2.0 >= BETWEEN_ARROWS:
            yield _arrow(sheet, piece, kind, size)
            since = length / 2.0
        else:
            since += length


def _arrow(sheet: Sheet, piece: PathPiece, kind: str, size: float) -> str:
    tip = sheet.at(_between(piece.start, piece.end, 0.5))
    x, y = (size * part for part in direction(sheet.at(piece.start), sheet.at(piece.end)))
    corners = [
        (tip[0] + 1.3 * x, tip[1] + 1.3 * y),
        (tip[0] - 1.0 * x - 0.9 * y, tip[1] - 1.0 * y + 0.9 * x),
        (tip[0] - 1.0 * x + 0.9 * y, tip[1] - 1.0 * y - 0.9 * x),
    ]
    return element("polygon", class_=kind, points=points(corners))


def direction(start: Paper, end: Paper) -> Paper:
    """Unit vector from one place to the other."""
    length = _distance(start, end)
    return ((end[0] - start[0]) / length, (end[1] - start[1]) / length) if length > 0.0 else (1.0, 0.0)


def _tails(
    sheet: Sheet, pieces: Sequence[PathPiece], circuit: RouteCircuit, several: bool, row: int | None
) -> Iterator[str]:
    """Stubs of flow and return through the wall, and which is which."""
    ends = (
        (sheet.at(pieces[0].start), "flow", "Flow"),
        (sheet.at(pieces[-1].end), "return", "Return"),
    )
    x, y = _outwards(ends[0][0], ends[1][0], sheet.at(circuit.path[1]))
    outer = []
    stub, style = (STUB, {}) if row is None else (SHORT_STUB, {"style": f"stroke-width: {WIDTHS[0]}"})
    for place, kind, _ in ends:
        out = (place[0] + stub * x, place[1] + stub * y)
        yield element("line", class_="opening", x1=place[0], y1=place[1], x2=out[0], y2=out[1], **style)
        yield element("path", class_=kind, d=f"M {points([place])} L {points([out])}")
        outer.append(out)
    if row is not None:
        return
    ahead = direction(outer[0], outer[1])
    name = f" {circuit.id}" if several else ""
    for out, sign, (_, _, word) in zip(outer, (-1.0, 1.0), ends, strict=True):
        aside = sign * ahead[0]
        anchor = "start" if aside > 0.3 or (abs(aside) <= 0.3 and x > 0.3) else "end"
        shift = 1.5 if anchor == "start" else -1.5
        if abs(aside) <= 0.3:
            at = (out[0] + (shift if abs(x) > 0.3 else 0.0), out[1] + 0.9 + sign * ahead[1] * 1.2)
        else:
            at = (out[0] + shift, out[1] + (0.0 if y > 0.0 else 2.0))
        yield text(at, word + name, 2.0, text_anchor=anchor)


def _outwards(flow: Paper, back: Paper, inside: Paper) -> Paper:
    """Square to the line from one end to the other, away from the room."""
    x, y = direction(flow, back)
    towards = (inside[0] - flow[0]) * -y + (inside[1] - flow[1]) * x
    return (y, -x) if towards > 0.0 else (-y, x)
