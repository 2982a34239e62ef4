"""A divided room to scale, to be looked at."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from xml.sax.saxutils import escape

import numpy as np
import resvg_py
import shapely
from shapely import Polygon
from tepidarium_engine.storey.division.division import DividedRoom

from tests.division.fields import FieldCase

__all__ = ["drawing", "picture", "sheet"]

_SIZE, _HEAD, _MARGIN = 620.0, 54.0, 14.0
_COLOURS = ("#b03a2e", "#1f618d", "#1e8449", "#b9770e", "#6c3483", "#117a65", "#7b241c", "#2e4053", "#a04000")
_SLEEVE = 0.15
_STYLE = """
text { font-family: sans-serif; font-size: 15px; fill: #222 }
.number { font-size: 22px; font-weight: bold; stroke: #fff; stroke-width: 5px; paint-order: stroke }
.floor { fill: #fff; stroke: #222; stroke-width: 2.5; fill-rule: evenodd }
.piece { stroke: #999; stroke-width: 0.8; stroke-dasharray: 4 3; fill-opacity: 0.08; fill-rule: evenodd }
.pipe { fill: none; stroke-width: 1.8 }
.joint { stroke: #d600d6; stroke-width: 2; stroke-dasharray: 9 4 }
.sleeve { fill: none; stroke: #d600d6; stroke-width: 1.5 }
"""


def sheet(found: Iterable[tuple[FieldCase, DividedRoom]], columns: int = 3) -> str:
    """All rooms side by side."""
    cells = [drawing(case, room) for case, room in found]
    rows = -(-len(cells) // columns)
    placed = (
        f'<g transform="translate({(index % columns) * _SIZE:g} {(index // columns) * (_SIZE + _HEAD):g})">{cell}</g>'
        for index, cell in enumerate(cells)
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{columns * _SIZE:g}" height="{rows * (_SIZE + _HEAD):g}">'
        f"<style>{_STYLE}</style>{''.join(placed)}</svg>"
    )


def picture(drawn: str) -> bytes:
    """A drawing as PNG."""
    return bytes(resvg_py.svg_to_bytes(svg_string=drawn, background="#ffffff"))


def drawing(case: FieldCase, room: DividedRoom) -> str:
    """One room: floor, pieces, pipes, joints and sleeves, with the lengths above it."""
    x0, y0, x1, y1 = shapely.MultiPoint(list(case.outline)).bounds
    scale = min((_SIZE - 2.0 * _MARGIN) / max(x1 - x0, y1 - y0), _SIZE)
    shift = (-x0, -y1)

    def at(points: object) -> str:
        placed = (np.asarray(points, dtype=float)[:, :2] + shift) * (scale, -scale) + (_MARGIN, _HEAD)
        return " ".join(f"{x:.2f},{y:.2f}" for x, y in placed.tolist())

    def outline(polygon: Polygon, style: str) -> str:
        rings = (polygon.exterior, *polygon.interiors)
        return f'<path {style} d="{" ".join(f"M{at(ring.coords)}Z" for ring in rings)}"/>'

    def parts() -> Iterator[str]:
        words = (
            str(room.refusal) if room.refusal else f"spread {100.0 * room.spread:.2f} %, {room.rounds} rounds"
        )
        lengths = " ".join(f"{circuit.length:.1f}" for circuit in room.circuits)
        yield f'<text x="{_MARGIN}" y="20">{escape(case.name)}: {escape(words)}</text>'
        yield f'<text x="{_MARGIN}" y="40">{lengths} m</text>'
        yield outline(Polygon(case.outline, case.voids), 'class="floor"')
        for circuit in room.circuits:
            colour = _COLOURS[circuit.id % len(_COLOURS)]
            yield outline(circuit.piece, f'class="piece" fill="{colour}"')
            yield f'<polyline class="pipe" stroke="{colour}" points="{at(circuit.path.polyline(1e-3))}"/>'
        for joint in case.joints:
            yield f'<polyline class="joint" points="{at(joint)}"/>'
        for crossing in room.crossings:
            (x, y), (dx, dy) = crossing.place, crossing.ahead
            ends = [(x - _SLEEVE * dx, y - _SLEEVE * dy), (x + _SLEEVE * dx, y + _SLEEVE * dy)]
            yield f'<polyline class="sleeve" stroke-width="5" points="{at(ends)}"/>'
        for circuit in room.circuits:
            x, y = at([shapely.point_on_surface(circuit.piece).coords[0]]).split(",")
            yield f'<text class="number" x="{x}" y="{y}">{circuit.id + 1}</text>'

    return "".join(parts())
