"""A laid storey to scale, to be looked at: rooms, doorways, bare floor, every circuit in a colour of its own."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from xml.sax.saxutils import escape

import numpy as np
import resvg_py
import shapely
from shapely import LineString
from tepidarium_engine.storey.model.layout_records import StoreyLayout, StoreyTask

from tests.storeys.bare import bare_floor

__all__ = ["drawing", "picture"]

_SCALE = 100.0
"""Pixels of a metre."""
_MARGIN, _HEAD = 30.0, 40.0
_COLOURS = ("#b03a2e", "#1f618d", "#1e8449", "#b9770e", "#6c3483", "#117a65", "#7b241c", "#2e4053", "#a04000")
_STYLE = """
text { font-family: sans-serif; font-size: 14px; fill: #222 }
.name { stroke: #fff; stroke-width: 4px; paint-order: stroke }
.floor { fill: #fff; stroke: #222; stroke-width: 2.5; fill-rule: evenodd }
.bare { fill: #f5b7b1; stroke: none; fill-rule: evenodd }
.door { stroke: #27ae60; stroke-width: 5 }
.pipe { fill: none; stroke-width: 2 }
.joint { stroke: #d600d6; stroke-width: 2; stroke-dasharray: 9 4 }
.bad { fill: none; stroke: #ff0000; stroke-width: 3 }
"""


def picture(drawn: str) -> bytes:
    """A drawing as PNG."""
    return bytes(resvg_py.svg_to_bytes(svg_string=drawn, background="#ffffff"))


def drawing(name: str, task: StoreyTask, layout: StoreyLayout, words: Iterable[str] = ()) -> str:
    """The storey with a line for each of ``words`` and each circuit that is not drawn below it."""
    x0, y0, x1, y1 = shapely.union_all(task.plan.rooms).bounds
    lines = [name, *words, *(f"{one.id}: {one.code}: {one.message}" for one in layout.unplaced)]
    width = max(700.0, (x1 - x0) * _SCALE + 2.0 * _MARGIN)
    height = (y1 - y0) * _SCALE + _HEAD + 2.0 * _MARGIN + 20.0 * len(lines)

    def at(points: object) -> str:
        placed = np.add(
            (np.asarray(points, dtype=float)[:, :2] - (x0, y1)) * (_SCALE, -_SCALE), (_MARGIN, _HEAD)
        )
        return " ".join(f"{x:.2f},{y:.2f}" for x, y in placed.tolist())

    def area(geometry: shapely.Geometry, style: str) -> str:
        rings = shapely.get_rings(shapely.get_parts(geometry))
        return f'<path class="{style}" d="{" ".join(f"M{at(ring.coords)}Z" for ring in rings)}"/>'

    def line(points: object, style: str, colour: str = "") -> str:
        stroke = f' stroke="{colour}"' if colour else ""
        return f'<polyline class="{style}"{stroke} points="{at(points)}"/>'

    def parts() -> Iterator[str]:
        for room in task.plan.rooms:
            yield area(room, "floor")
        for room in bare_floor(task, layout):
            if not room.floor.is_empty:
                yield area(room.floor, "bare")
        for doorway in task.plan.doorways:
            for stretch in doorway.stretches:
                yield line(stretch, "door")
        for room in task.rooms:
            for joint in room.joints:
                yield line(LineString(joint).coords, "joint")
        for number, circuit in enumerate(layout.circuits):
            yield line(circuit.path.polyline(1e-3), "pipe", _COLOURS[number % len(_COLOURS)])
        for one in layout.unplaced:
            if one.place is not None:
                (x, y) = at([one.place]).split(",")
                yield f'<circle class="bad" cx="{x}" cy="{y}" r="12"/>'
        for room, task_room in zip(task.plan.rooms, task.rooms, strict=True):
            x, y = at([shapely.point_on_surface(room).coords[0]]).split(",")
            yield f'<text class="name" x="{x}" y="{y}">{escape(task_room.id)}</text>'
        for number, text in enumerate(lines):
            yield f'<text x="{_MARGIN}" y="{height - 20.0 * (len(lines) - number):.0f}">{escape(text)}</text>'

    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:g}" height="{height:g}">'
        f"<style>{_STYLE}</style>{''.join(parts())}</svg>"
    )
