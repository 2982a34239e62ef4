"""The terms of geometry, each with a sketch: what is meant is orange, everything else is pipe and wall."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial

from ..renderings.svg import Paper, document, element, group, points, text

__all__ = ["TERMS", "TERM_SKETCHES", "Term"]

_SIZE = (64.0, 44.0)
_MEANT = "#c45100"
_STYLE = {
    "paper": "fill: #fff",
    "room": "fill: none; stroke: #222; stroke-width: 0.8",
    "wall": "fill: #8c8c8c",
    "meant-floor": "fill: #fbd9b5",
    "flow": "fill: none; stroke: #b3261e; stroke-width: 1.1; stroke-linejoin: round",
    "return": "fill: none; stroke: #1f4e79; stroke-width: 1.1; stroke-linejoin: round",
    "quiet": "fill: none; stroke: #b0b0b0; stroke-width: 0.9; stroke-linejoin: round",
    "meant": f"fill: none; stroke: {_MEANT}; stroke-width: 0.6",
    "meant-strong": f"fill: none; stroke: {_MEANT}; stroke-width: 1.2",
    "joint": f"fill: none; stroke: {_MEANT}; stroke-width: 1.2; stroke-dasharray: 3 1.5",
}
_COUNTERFLOW = (
    ((9, 42), (9, 6), (57, 6), (57, 34), (19, 34), (19, 16), (47, 16), (47, 22.5), (35, 22.5)),
    ((35, 22.5), (24, 22.5), (24, 29), (52, 29), (52, 11), (14, 11), (14, 42)),
)
_SERPENTINE = [(x, y) for x in range(9, 54, 10) for x, y in ((x, 34), (x, 7), (x + 5, 7), (x + 5, 34))]


@dataclass(frozen=True, slots=True)
class Term:
    """What a word means, and what draws it."""

    name: str
    meaning: str
    draw: Callable[[], list[str]]

    @property
    def picture(self) -> str:
        return f"term-{self.name.replace(' ', '-')}"


def _line(places: Sequence[Paper], class_: str) -> str:
    return element("polyline", class_=class_, points=points(places))


def _floor(left: float, top: float, right: float, bottom: float, class_: str = "room") -> str:
    return element("rect", class_=class_, x=left, y=top, width=right - left, height=bottom - top)


def _words(place: Paper, words: str, anchor: str = "start") -> str:
    return text(place, words, 2.2, text_anchor=anchor, font_weight="bold", fill=_MEANT)


def _measured(start: Paper, end: Paper, words: str, place: Paper) -> list[str]:
    """A line between two places with strokes at its ends, and what it is called."""
    across = (0.0, 1.6) if start[1] == end[1] else (1.6, 0.0)
    strokes = [((a - across[0], b - across[1]), (a + across[0], b + across[1])) for a, b in (start, end)]
    return [*(_line(pair, "meant") for pair in ((start, end), *strokes)), _words(place, words)]


def _spacing() -> list[str]:
    pipes = [_line([(4, y), (60, y)], kind) for y, kind in ((10, "flow"), (22, "return"), (34, "flow"))]
    return [*pipes, *_measured((20, 10), (20, 22), "spacing", (23, 17.2))]


def _wall_clearance() -> list[str]:
    pipes = [_line([(x, 9), (x, 41)], kind) for x, kind in ((24, "flow"), (38, "return"), (52, "flow"))]
    return [
        _floor(4, 3, 10, 41, "wall"),
        *pipes,
        *_measured((10, 26), (24, 26), "wall clearance", (11, 6.5)),
    ]


def _tail() -> list[str]:
    return [
        _floor(3, 4, 27, 40),
        _floor(28, 4, 61, 40),
        _floor(26.4, 17, 28.8, 27, "paper"),
        element("rect", x=6, y=34, width=10, height=3, fill="#555"),
        _line(
            [(32, 20), (32, 8), (57, 8), (57, 36), (38, 36), (38, 14), (51, 14), (51, 29), (44, 29)], "quiet"
        ),
        _line([(44, 29), (44, 19), (47, 19)], "quiet"),
        _line([(9, 34), (9, 20), (32, 20)], "meant-strong"),
        _line([(13, 34), (13, 24), (35, 24)], "meant-strong"),
        _words((12, 15.5), "tails", "middle"),
    ]


def _entry() -> list[str]:
    return [
        _floor(6, 4, 58, 34),
        _floor(25, 33.2, 37, 35, "paper"),
        _line([(29, 43), (29, 29), (10, 29), (10, 8), (32, 8)], "flow"),
        _line([(32, 8), (54, 8), (54, 29), (33, 29), (33, 43)], "return"),
        element("circle", class_="meant-strong", cx=31, cy=34, r=5.5),
        _words((39, 41.5), "entry"),
    ]


def _manifold() -> list[str]:
    circuits = []
    for x in (16, 26, 36, 46):
        circuits += [_line([(x, 10), (x, 42)], "flow"), _line([(x + 4, 20), (x + 4, 42)], "return")]
    return [
        *circuits,
        _line([(6, 10), (50, 10)], "flow"),
        _line([(6, 20), (54, 20)], "return"),
        *(element("circle", cx=x, cy=10, r=1.3, fill=_MEANT) for x in (16, 26, 36, 46)),
        *(element("circle", cx=x, cy=20, r=1.3, fill=_MEANT) for x in (20, 30, 40, 50)),
        element("rect", class_="meant-strong", x=9, y=5.5, width=50, height=19),
        _words((34, 3.8), "manifold and its ports", "middle"),
    ]


def _counterflow() -> list[str]:
    inward, back = _COUNTERFLOW
    return [_floor(3, 2, 62, 38), _line(inward, "flow"), _line(back, "return")]


def _serpentine() -> list[str]:
    half = len(_SERPENTINE) // 2
    return [
        _floor(3, 2, 62, 38),
        _line([(9, 42), *_SERPENTINE[: half + 1]], "flow"),
        _line([*_SERPENTINE[half:], (54, 42)], "return"),
    ]


def _neck() -> list[str]:
    outline: list[Paper] = [
        (4, 6), (26, 6), (26, 17), (38, 17), (38, 6), (60, 6),
        (60, 38), (38, 38), (38, 27), (26, 27), (26, 38), (4, 38),
    ]  # fmt: skip
    return [
        _floor(26, 17, 38, 27, "meant-floor"),
        element("polygon", class_="room", points=points(outline)),
        *_measured((32, 17), (32, 27), "neck", (28, 13)),
    ]


def _lane() -> list[str]:
    lanes = []
    for y, x in ((10, 22), (20, 36), (30, 50)):
        lane = [(4, y - 2), (x - 2, y - 2), (x - 2, 5), (x + 6, 5), (x + 6, y + 6), (4, y + 6)]
        lanes += [
            element("polygon", class_="meant-floor", points=points(lane)),
            _floor(x - 2, 4, x + 6, 6, "paper"),
            _line([(4, y), (x, y), (x, 2)], "flow"),
            _line([(4, y + 4), (x + 4, y + 4), (x + 4, 2)], "return"),
        ]
    return [_floor(3, 5, 62, 38), *lanes, _words((3, 42.5), "lanes: one for each pair of tails")]


def _movement_joint() -> list[str]:
    return [
        _floor(4, 4, 60, 38),
        _line([(8, 32), (8, 8), (26, 8), (26, 34), (14, 34), (14, 16), (20, 16)], "quiet"),
        _line([(56, 36), (56, 8), (38, 8), (38, 28), (50, 28), (50, 16), (44, 16)], "quiet"),
        _line([(32, 4), (32, 34)], "joint"),
        _line([(4, 36), (56, 36)], "flow"),
        element("rect", x=27, y=34.6, width=10, height=2.8, fill="#fff", stroke="#222", stroke_width=0.4),
        _words((32, 3.0), "movement joint", "middle"),
        text((38.5, 42), "pipe in a sleeve", 1.9),
    ]


def _peripheral_strip() -> list[str]:
    return [
        _floor(2, 5, 6, 38, "wall"),
        _floor(2.6, 14, 5.4, 32, "paper"),
        _floor(6, 5, 22, 38, "meant-floor"),
        *(_line([(x, 5), (x, 38)], "flow") for x in (9, 13, 17, 21)),
        *(_line([(x, 5), (x, 38)], "return") for x in (29, 37, 45, 53)),
        _words((7, 3.4), "peripheral strip"),
        text((29, 42), "inside the pipe lies wider", 1.9),
    ]


def _bend_radius() -> list[str]:
    return [
        element("path", class_="flow", d="M6 34 H30 A15 15 0 0 0 30 4 H6", stroke_width=2.4),
        element("circle", cx=30, cy=19, r=0.9, fill=_MEANT),
        *_measured((30, 19), (45, 19), "bend radius", (7, 19.8)),
    ]


TERMS: tuple[Term, ...] = (
    Term("spacing", "From the centre of a pipe to the centre of the next.", _spacing),
    Term("wall clearance", "From the wall to the centre of the outermost pipe.", _wall_clearance),
    Term(
        "bend radius",
        "From the centre of a bend to the centre of the pipe. In a tighter bend the pipe kinks.",
        _bend_radius,
    ),
    Term("counterflow", "Flow and return lie side by side: the floor is evenly warm.", _counterflow),
    Term(
        "serpentine",
        "Line beside line: the floor is warm where the water comes in and cooler at the other end.",
        _serpentine,
    ),
    Term(
        "manifold",
        "Where all circuits of a storey begin and end. A circuit has a port for flow and one for return.",
        _manifold,
    ),
    Term("tail", "The part of a circuit between manifold and room: one for flow, one for return.", _tail),
    Term("entry", "The place where flow and return of a circuit come into the room.", _entry),
    Term(
        "lane", "The strip of floor that one pair of tails takes on its way through a room or a hall.", _lane
    ),
    Term(
        "neck",
        "A narrow part between two wide parts of a room. All pipe for the far part must pass it.",
        _neck,
    ),
    Term(
        "movement joint",
        "A gap through the whole screed, so that it can move without cracks. Only tails cross it, in sleeves.",
        _movement_joint,
    ),
    Term(
        "peripheral strip",
        "The floor along a cold outer wall. Pipe may lie closer here, and the surface may be warmer.",
        _peripheral_strip,
    ),
)
"""In the order in which a fitter meets them."""


def _sketch(term: Term) -> bytes:
    paper = element("rect", class_="paper", x=0.0, y=0.0, width=_SIZE[0], height=_SIZE[1])
    return document(
        _SIZE, term.name.capitalize(), [group([paper, *term.draw()], font_family="sans-serif")], _STYLE
    )


TERM_SKETCHES: Mapping[str, Callable[[], bytes]] = {term.picture: partial(_sketch, term) for term in TERMS}
"""Name of a picture -> what draws it."""
