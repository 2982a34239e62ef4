"""How each kind of mark looks, and the layer it has in a CAD file. Everything can be read without colour."""

from __future__ import annotations

from typing import NamedTuple

__all__ = ["FONT", "STYLES", "Style"]

FONT = "Liberation Sans, Arial, Helvetica, sans-serif"

_FLOW, _RETURN = "#b3261e", "#1f4e9e"
_PIPE = 0.5
_PROPOSED = (3.0, 1.4)


class Style(NamedTuple):
    """``layer`` in a CAD file, empty where the mark serves paper only; ``line`` colour and ``width`` [mm], ``dash`` as
    lengths of strokes and gaps in turn [mm]; ``fill`` colour. None: not drawn."""

    layer: str = ""
    line: str | None = None
    width: float = 0.18
    dash: tuple[float, ...] = ()
    fill: str | None = None
    join: str = "round"


STYLES = {
    "sheet": Style(fill="#fff"),
    "frame": Style("Sheet", "#000", 0.5),
    "thin": Style("Sheet", "#000", 0.18),
    "text": Style("Sheet", fill="#000"),
    "black": Style("Sheet", fill="#000"),
    "match": Style("Sheet", "#000", 0.35, (8.0, 2.0)),
    "outside": Style(fill="#fff"),
    "wall": Style(line="#999", width=3.0, join="miter"),
    "floor": Style("Walls", "#000", 0.35, fill="#fff"),
    "room-edge": Style(line="#000", width=0.35),
    "void": Style("Voids", "#000", 0.35, fill="#eee"),
    "void-cross": Style("Voids", "#000", 0.18),
    "doorway": Style(line="#fff", width=0.5, fill="#fff"),
    "jamb": Style("Doorways", "#000", 0.25),
    "clearance": Style("Limit of the pipe", "#555", 0.18, (4.0, 1.0, 0.5, 1.0)),
    "joint": Style("Movement joints", "#000", 0.6, (6.0, 1.0, 0.6, 1.0, 0.6, 1.0)),
    "joint-proposed": Style("Movement joints proposed", "#000", 0.6, _PROPOSED),
    "joint-due": Style("Movement joints due", "#777", 0.35, (1.2, 1.2)),
    "flow": Style("Pipe flow", _FLOW, _PIPE),
    "return": Style("Pipe return", _RETURN, _PIPE, (2.4, 1.2)),
    "flow-arrow": Style("Pipe arrows", fill=_FLOW),
    "return-arrow": Style("Pipe arrows", _RETURN, 0.25, fill="#fff"),
    "other-pipe": Style("Other pipe", "#999", 0.25),
    "opening": Style(line="#fff", width=2.4),
    "sleeve": Style("Sleeves", "#000", 0.35),
    "manifold": Style("Manifold", "#000", 0.35, fill="#fff"),
    "port": Style("Manifold", fill="#000"),
    "number": Style("Circuit numbers", "#000", 0.3, fill="#fff"),
    "mark": Style("Notes", "#000", 0.25, fill="#fff"),
    "bare": Style("Notes", "#000", 0.25, (0.8, 0.8)),
    "name": Style("Names", fill="#000"),
    "leader": Style("Names", "#000", 0.13),
    "dot": Style("Names", fill="#000"),
    "dimension": Style("Dimensions", "#000", 0.18),
    "dimension-tick": Style("Dimensions", "#000", 0.5),
    "dimension-text": Style("Dimensions", fill="#000"),
    "wall-distance": Style("Dimensions", "#000", 0.18),
}
