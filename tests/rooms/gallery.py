"""Every room to scale with its pipe, to be looked at."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from xml.sax.saxutils import escape

import resvg_py
import shapely
from shapely import Polygon
from tepidarium_engine.checking import Point
from tepidarium_engine.plan.laying.laying import Pattern
from tepidarium_engine.plan.pipes.pipe_path import Arc, Line, PipePath

from .case import RoomCase
from .outcome import Outcome, outcomes

__all__ = ["sheet", "write_gallery"]

CELL = 560
HEAD = 84
MARGIN = 18
STYLE = """
text { font-family: sans-serif; font-size: 15px; fill: #222 }
.name { font-weight: bold; font-size: 17px }
.bad { fill: #b00020; font-weight: bold }
.wall { fill: #fff; stroke: #222; stroke-width: 2.5; fill-rule: evenodd; stroke-linejoin: miter }
.void { fill: url(#hatch); stroke: #222; stroke-width: 1.5 }
.clear { fill: none; stroke: #888; stroke-width: 0.8; stroke-dasharray: 3 3 }
.flow { fill: none; stroke: #c0392b; stroke-width: 2.6 }
.return { fill: none; stroke: #1f5fa8; stroke-width: 1.5; stroke-dasharray: 9 2.5 }
.entry { fill: #222 }
.bare { fill: none; stroke: #e67e00; stroke-width: 2; stroke-dasharray: 4 2 }
.frame { fill: #f4f4f2; stroke: #ccc }
"""
HATCH = (
    '<defs><pattern id="hatch" width="7" height="7" patternUnits="userSpaceOnUse" '
    'patternTransform="rotate(45)"><rect width="7" height="7" fill="#eee"/>'
    '<line x1="0" y1="0" x2="0" y2="7" stroke="#999" stroke-width="1.4"/></pattern></defs>'
)


def write_gallery(folder: Path, cases: Sequence[RoomCase], patterns: Iterable[Pattern]) -> Iterator[Path]:
    """One drawing and one picture of it for each pattern."""
    folder.mkdir(parents=True, exist_ok=True)
    for pattern in patterns:
        drawing = sheet(list(outcomes(cases, pattern)))
        for suffix, content in (("svg", drawing.encode()), ("png", picture(drawing))):
            file = folder / f"{pattern}.{suffix}"
            file.write_bytes(content)
            yield file


def picture(drawing: str) -> bytes:
    """The drawing as a PNG."""
    return bytes(resvg_py.svg_to_bytes(svg_string=drawing, background="#ffffff"))


def sheet(found: Sequence[Outcome], columns: int | None = None) -> str:
    """Drawings side by side, row by row."""
    across = columns or max(1, math.ceil(math.sqrt(len(found))))
    width, height = across * CELL, math.ceil(len(found) / across) * (CELL + HEAD)
    cells = [
        f'<g transform="translate({CELL * (index % across)} {(CELL + HEAD) * (index // across)})">'
        f"{''.join(_cell(outcome))}</g>"
        for index, outcome in enumerate(found)
    ]
    size = f'width="{width}" height="{height}" viewBox="0 0 {width} {height}"'
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" {size}><style>{STYLE}</style>{HATCH}{"".join(cells)}</svg>'
    )


class _Scale:
    """From the drawing's metres to a cell, y upwards."""

    def __init__(self, outline: Sequence[Point]) -> None:
        xs, ys = zip(*outline, strict=True)
        self.x, self.y = min(xs), max(ys)
        extent = max(max(xs) - self.x, self.y - min(ys))
        self.factor = (CELL - 2 * MARGIN) / extent

    def __call__(self, place: Point) -> str:
        return (
            f"{MARGIN + (place[0] - self.x) * self.factor:.2f} {HEAD + (self.y - place[1]) * self.factor:.2f}"
        )

    def length(self, metres: float) -> str:
        return f"{metres * self.factor:.2f}"


def _cell(outcome: Outcome) -> Iterator[str]:
    case = outcome.case
    scale = _Scale(case.outline)
    yield f'<rect class="frame" width="{CELL}" height="{CELL + HEAD}"/>'
    yield from _captions(outcome)
    yield f'<path class="wall" d="{_closed(case.outline, scale)}"/>'
    for void in case.voids:
        yield f'<path class="void" d="{_closed(void, scale)}"/>'
    yield from _clearance(case, scale)
    if outcome.laid and outcome.laid.path:
        for word, piece in zip(("flow", "return"), _halves(outcome.laid.path), strict=True):
            yield f'<path class="{word}" d="{_drawn(piece, scale)}"/>'
    if outcome.check:
        for spot in outcome.check.measures.bare_spots:
            if spot.width > 0.2 * case.pipe_spacing:
                yield _circle("bare", spot.place, max(spot.width, 0.5 * case.pipe_spacing), scale)
    entry = outcome.laid.entry.place if outcome.laid else case.entry
    yield _circle("entry", entry, 5.0 / scale.factor, scale)


def _captions(outcome: Outcome) -> Iterator[str]:
    case = outcome.case
    asked = (
        f"T {1000 * case.pipe_spacing:.0f}  d {1000 * case.outside_diameter:.0f}  "
        f"R {1000 * case.bend_radius:.0f} mm  {case.room.area:.1f} m2"
    )
    lines = [("name", f"{case.name} ({case.kind})"), ("", asked)]
    if outcome.check is None:
        lines.append(("bad", f"{outcome.status}: {outcome.detail.strip().splitlines()[-1][:70]}"))
    else:
        lines.append(("" if outcome.status == "solved" else "bad", _figures(outcome)))
        lines.append(("", f"{outcome.laid.engine}, {outcome.laid.variant}" if outcome.laid else ""))
    for index, (word, text) in enumerate(lines):
        yield f'<text class="{word}" x="{MARGIN}" y="{19 * index + 18}">{escape(text)}</text>'


def _figures(outcome: Outcome) -> str:
    assert outcome.check and outcome.laid
    measures = outcome.check.measures
    numbers = (
        f"{measures.coverage_half:.3f}/{measures.coverage_three_quarters:.3f}",
        f"d {measures.least_distance or math.nan:.2f}",
        f"L {measures.length:.0f} m {measures.length_ratio:.2f}",
        f"mix {measures.mixed_share or 0.0:.2f} {measures.temperature_spread or 0.0:.3f}",
        outcome.detail,
    )
    return "  ".join(numbers)


def _clearance(case: RoomCase, scale: _Scale) -> Iterator[str]:
    x, y = case.room.origin
    zone = shapely.buffer(case.room.polygon, -case.wall_clearance, join_style="mitre")
    for part in shapely.get_parts(zone):
        if isinstance(part, Polygon):
            for ring in (part.exterior, *part.interiors):
                if ring is not None and not ring.is_empty:
                    path = _closed([(px + x, py + y) for px, py in ring.coords[:-1]], scale)
                    yield f'<path class="clear" d="{path}"/>'


def _halves(path: PipePath) -> tuple[list[Line | Arc], list[Line | Arc]]:
    """The pieces before and after the middle of the pipe; the piece in the middle is cut."""
    half = path.length / 2.0
    index = min(int((path.offsets[1:] <= half).sum()), len(path.pieces) - 1)
    first, second = _cut(path.pieces[index], half - float(path.offsets[index]))
    return [*path.pieces[:index], *first], [*second, *path.pieces[index + 1 :]]


def _cut(piece: Line | Arc, at: float) -> tuple[list[Line | Arc], list[Line | Arc]]:
    if at < 1e-6 or at > piece.length - 1e-6:
        return ([], [piece]) if at < 1e-6 else ([piece], [])
    share = at / piece.length
    if isinstance(piece, Arc):
        sweep = piece.sweep * share
        rest = Arc(piece.centre, piece.radius, piece.start_angle + sweep, piece.sweep - sweep)
        return [Arc(piece.centre, piece.radius, piece.start_angle, sweep)], [rest]
    (x0, y0), (x1, y1) = piece.start, piece.end
    middle = (x0 + share * (x1 - x0), y0 + share * (y1 - y0))
    return [Line(piece.start, middle)], [Line(middle, piece.end)]


def _drawn(pieces: Sequence[Line | Arc], scale: _Scale) -> str:
    steps = [f"M {scale(pieces[0].start)}"] if pieces else []
    for piece in pieces:
        if isinstance(piece, Line):
            steps.append(f"L {scale(piece.end)}")
            continue
        radius = scale.length(piece.radius)
        hand = 0 if piece.sweep > 0.0 else 1
        for end in (piece.middle, piece.end):  # halves, as no arc of SVG may be a full circle
            steps.append(f"A {radius} {radius} 0 0 {hand} {scale(end)}")
    return " ".join(steps)


def _closed(ring: Iterable[Point], scale: _Scale) -> str:
    return "M " + " L ".join(map(scale, ring)) + " Z"


def _circle(word: str, place: Point, radius: float, scale: _Scale) -> str:
    x, y = scale(place).split()
    return f'<circle class="{word}" cx="{x}" cy="{y}" r="{scale.length(radius)}"/>'
