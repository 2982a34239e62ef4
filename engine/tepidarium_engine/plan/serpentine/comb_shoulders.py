"""Teeth made wider where floor beside them would stay bare: walls that no line could be laid along."""

from __future__ import annotations

from collections.abc import Sequence

from ...elementwise import Array
from .comb_teeth import Piece, Reach, Span, free_spans

__all__ = ["shoulders"]

_DEPTHS = (0.5, 0.38, 0.26)
"""By how much a tooth is widened, in spacings."""
_WIDEST = 1.5
"""A tooth's middle is heated from both sides up to this width, in spacings."""
_LEAST_LENGTH = 3.0
_FROM_OTHERS = 1.0
"""Distance kept from teeth of the next row, along the runs, in spacings."""
_SWING = 2.0
"""A run swings out over this many times the depth."""


def shoulders(
    teeth: Sequence[Sequence[Piece]], edges: Array, lines: Array, reach: Reach
) -> list[list[list[Piece]]]:
    """For each tooth of each row what it is widened by; ``lines`` [m] are those the teeth lie on."""
    found: list[list[list[Piece]]] = [[[] for _ in row] for row in teeth]
    blocked = {
        (row, upwards): _others(teeth, row + (1 if upwards else -1), reach)
        for row in range(len(teeth))
        for upwards in (False, True)
    }
    for depth in (share * reach.spacing for share in _DEPTHS):
        for upwards in (False, True):
            low = lines[1::2] if upwards else lines[::2] - depth
            for row, spans in enumerate(free_spans(edges, low, low + depth)):
                height = (float(low[row]), float(low[row] + depth))
                for tooth, pieces in zip(teeth[row], found[row], strict=True):
                    if tooth.high - tooth.low + depth > _WIDEST * reach.spacing + 1e-9:
                        continue
                    run = _run(tooth, upwards)
                    for part in _left_over(spans, run, blocked[row, upwards]):
                        if part[1] - part[0] >= _LEAST_LENGTH * reach.spacing:
                            pieces.append(_widened(part, run, height, upwards))
                            # Not on its other side, too: the middle would stay cold.
                            blocked[row, False].append(part)
                            blocked[row, True].append(part)
    return found


def _run(tooth: Piece, upper: bool) -> Span:
    return (tooth.left_high, tooth.right_high) if upper else (tooth.left_low, tooth.right_low)


def _others(teeth: Sequence[Sequence[Piece]], row: int, reach: Reach) -> list[Span]:
    """Spans that the teeth of a row keep others from."""
    if not 0 <= row < len(teeth):
        return []
    away = _FROM_OTHERS * reach.spacing
    return [
        (min(tooth.left_low, tooth.left_high) - away, max(tooth.right_low, tooth.right_high) + away)
        for tooth in teeth[row]
    ]


def _left_over(spans: Sequence[Span], run: Span, blocked: Sequence[Span]) -> list[Span]:
    """What of spans lies along a run and is not blocked."""
    parts = [(max(left, run[0]), min(right, run[1])) for left, right in spans]
    for start, end in blocked:
        parts = [
            piece
            for left, right in parts
            for piece in ((left, min(right, start)), (max(left, end), right))
            if piece[1] > piece[0]
        ]
    return parts


def _widened(part: Span, run: Span, height: Span, upwards: bool) -> Piece:
    """The piece between a run and where it swings out to; it ends upright where the tooth ends."""
    slant = _SWING * (height[1] - height[0])
    left = part[0] if part[0] - run[0] < 1e-4 else part[0] + slant
    right = part[1] if run[1] - part[1] < 1e-4 else part[1] - slant
    outer, inner = (left, right), part
    low, high = (inner, outer) if upwards else (outer, inner)
    return Piece(*height, left, right, low[0], high[0], low[1], high[1])
