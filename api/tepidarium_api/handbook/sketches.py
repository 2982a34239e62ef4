"""Sketches of the terms: the layers of a floor, a circuit with its tails."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from ..renderings.svg import Paper, document, element, group, points, text

__all__ = ["SKETCHES"]

_SIZE = (150.0, 74.0)
_STYLE = {
    "paper": "fill: #fff",
    "covering": "fill: #d9c3a0; stroke: #222; stroke-width: 0.25",
    "screed": "fill: #dcdcdc; stroke: #222; stroke-width: 0.25",
    "insulation": "fill: #f3e9a9; stroke: #222; stroke-width: 0.25",
    "slab": "fill: #b9b9b9; stroke: #222; stroke-width: 0.25",
    "edge": "fill: #9fc5a5; stroke: #222; stroke-width: 0.25",
    "wall": "fill: none; stroke: #222; stroke-width: 0.8",
    "flow": "fill: none; stroke: #b3261e; stroke-width: 0.9; stroke-linejoin: round",
    "return": "fill: none; stroke: #1f4e79; stroke-width: 0.9; stroke-linejoin: round",
    "measure": "fill: none; stroke: #222; stroke-width: 0.2",
}
_LAYERS = (
    ("covering", 14.0, 5.0, "covering (tiles, wood, carpet)"),
    ("screed", 19.0, 20.0, "screed, with the cover above the pipe"),
    ("insulation", 39.0, 12.0, "insulation, with the pipe stapled on it"),
    ("slab", 51.0, 12.0, "slab or ground"),
)
_LEFT, _RIGHT, _EDGE = 6.0, 82.0, 3.0
_PIPES = (16.0, 36.0, 56.0, 76.0)


def _layers() -> bytes:
    content = []
    for name, top, height, words in _LAYERS:
        content.append(element("rect", class_=name, x=_LEFT, y=top, width=_RIGHT - _LEFT, height=height))
        content.append(text((_RIGHT + 3.0, top + height / 2 + 0.9), words, 2.1))
    content.append(element("rect", class_="edge", x=_LEFT, y=14.0, width=_EDGE, height=25.0))
    content.append(text((_LEFT, 11.0), "edge strip", 2.1))
    for place, x in enumerate(_PIPES):
        colour = ("#b3261e", "#1f4e79")[place % 2]
        content.append(element("circle", cx=x, cy=36.0, r=2.6, fill="#fff", stroke=colour, stroke_width=1.0))
    content += _dimension((_PIPES[1], 30.0), (_PIPES[2], 30.0), "spacing")
    content += _dimension((_PIPES[3] + 4.0, 19.0), (_PIPES[3] + 4.0, 33.0), "")
    content.append(text((_PIPES[3] - 10.0, 24.0), "cover", 2.0))
    return _sheet("The layers of a heated floor", content)


_CIRCUIT_IN = "11,58 11,42 60,42 60,20 138,20 138,62 72,62 72,32 126,32 126,50 84,50"
_CIRCUIT_OUT = "84,50 84,44 120,44 120,38 78,38 78,56 132,56 132,26 66,26 66,46 15,46 15,58"


def _circuit() -> bytes:
    content = [
        element("rect", class_="wall", x=4.0, y=14.0, width=50.0, height=54.0),
        element("rect", class_="wall", x=56.0, y=14.0, width=88.0, height=54.0),
        element("rect", x=53.4, y=38.0, width=3.2, height=12.0, fill="#fff"),
        text((58.0, 11.5), "room with its field", 2.1),
        text((4.0, 11.5), "hall with the manifold", 2.1),
        element("rect", x=8.0, y=58.0, width=14.0, height=4.0, fill="#8c8c8c"),
        text((8.0, 66.0), "manifold", 2.0),
        element("polyline", class_="flow", points=_CIRCUIT_IN),
        element("polyline", class_="return", points=_CIRCUIT_OUT),
        text((17.0, 40.0), "tail: flow", 2.0),
        text((17.0, 50.0), "tail: return", 2.0),
    ]
    return _sheet("A circuit: its field and its two tails", content)


def _pipe(places: Sequence[Paper], class_: str) -> str:
    return element("polyline", class_=class_, points=points(places))


def _dimension(start: Paper, end: Paper, words: str) -> list[str]:
    """A dimension line with strokes at both ends."""
    (x, y), (u, v) = start, end
    across = (0.0, 1.5) if y == v else (1.5, 0.0)
    strokes = [((a - across[0], b - across[1]), (a + across[0], b + across[1])) for a, b in (start, end)]
    lines = [_pipe(pair, "measure") for pair in ((start, end), *strokes)]
    return (
        [*lines, text(((x + u) / 2, (y + v) / 2 - 1.2), words, 2.0, text_anchor="middle")] if words else lines
    )


def _sheet(title: str, content: Sequence[str]) -> bytes:
    paper = element("rect", class_="paper", x=0.0, y=0.0, width=_SIZE[0], height=_SIZE[1])
    body = group(
        [paper, text((4.0, 6.0), title, 2.5, font_weight="bold"), *content], font_family="sans-serif"
    )
    return document(_SIZE, title, [body], _STYLE)


SKETCHES: Mapping[str, Callable[[], bytes]] = {"layers": _layers, "circuit": _circuit}
"""Name of a sketch -> what draws it."""
