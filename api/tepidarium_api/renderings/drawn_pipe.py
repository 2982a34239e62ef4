"""The pipe of a circuit on paper: flow solid, return dashed, with arrows along the water's way."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from .marks import Area, Mark, Paper, Piece, Way, between, direction
from .sheet import Sheet
from .turning import turned

__all__ = ["at_share", "drawn_way", "parted", "pipe_width"]

BETWEEN_ARROWS = 55.0
"""Least distance between arrows along the pipe on paper [mm]."""
LONG_ENOUGH = 5.0
"""A straight piece takes an arrow from this length on [mm]."""


def drawn_way(
    pieces: Sequence[Piece], core: float | None, name: str, size: float = 1.0, width: float | None = None
) -> Iterator[Mark]:
    """Flow up to ``core`` [mm] along the pipe, return from there (None: half of its length), with arrows of a
    ``size``; ``width`` of the line [mm] where it is not that of all."""
    flow, back = parted(pieces, sum(piece.length for piece in pieces) / 2.0 if core is None else core)
    yield Way("flow", tuple(flow), name, width)
    yield Way("return", tuple(back), name, width)
    yield from _arrows(flow, "flow-arrow", size)
    yield from _arrows(back, "return-arrow", size)


def pipe_width(sheet: Sheet) -> float | None:
    """Of the line [mm], thinner on small scales, so that pipes side by side stay apart; None: that of its kind."""
    return None if sheet.scale <= 50 else 25.0 / sheet.scale


def at_share(pieces: Sequence[Piece], share: float) -> Paper:
    """The place at a share of the pipe's length, on the chord of a bend."""
    left = share * sum(piece.length for piece in pieces)
    for piece in pieces:
        if left <= piece.length:
            return between(piece.start, piece.end, left / piece.length if piece.length > 0.0 else 0.0)
        left -= piece.length
    return pieces[-1].end


def parted(pieces: Sequence[Piece], mark: float) -> tuple[list[Piece], list[Piece]]:
    """The pipe before and after a ``mark`` [mm] along it."""
    left = mark
    for index, piece in enumerate(pieces):
        length = piece.length
        if length < left:
            left -= length
            continue
        before, after = _cut(piece, left / length if length > 0.0 else 0.0)
        return [*pieces[:index], before], [after, *pieces[index + 1 :]]
    return list(pieces), []


def _cut(piece: Piece, share: float) -> tuple[Piece, Piece]:
    if piece.centre is None:
        middle = between(piece.start, piece.end, share)
        return Piece(piece.start, middle), Piece(middle, piece.end)
    (x, y), sweep = piece.centre, piece.sweep * share
    across, down = turned((piece.start[0] - x, piece.start[1] - y), sweep)
    middle = (x + across, y + down)
    return (
        Piece(piece.start, middle, piece.centre, piece.radius, sweep),
        Piece(middle, piece.end, piece.centre, piece.radius, piece.sweep - sweep),
    )


def _arrows(pieces: Sequence[Piece], kind: str, size: float) -> Iterator[Mark]:
    since = BETWEEN_ARROWS
    for piece in pieces:
        length = piece.length
        if piece.centre is None and length >= LONG_ENOUGH and since + length / 2.0 >= BETWEEN_ARROWS:
            yield _arrow(piece, kind, size)
            since = length / 2.0
        else:
            since += length


def _arrow(piece: Piece, kind: str, size: float) -> Mark:
    tip = between(piece.start, piece.end, 0.5)
    x, y = (size * part for part in direction(piece.start, piece.end))
    corners = (
        (tip[0] + 1.3 * x, tip[1] + 1.3 * y),
        (tip[0] - 1.0 * x - 0.9 * y, tip[1] - 1.0 * y + 0.9 * x),
        (tip[0] - 1.0 * x + 0.9 * y, tip[1] - 1.0 * y - 0.9 * x),
    )
    return Area(kind, (corners,))
