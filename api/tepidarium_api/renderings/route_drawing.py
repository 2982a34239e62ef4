"""A room with the pipe of its circuits as a drawing to scale, for the person who lays it."""

from __future__ import annotations

from collections.abc import Iterator

from tepidarium_engine.routes import RoutesInputs, RoutesResult

from .route_marks import route_groups
from .route_text import route_text
from .sheet import Point, extent, sheets_for
from .sheets import DrawnPlan, DrawnSheet, drawn_sheets
from .svg_sheets import svg_of
from .title_block import TitleBlock

__all__ = ["route_drawing", "route_sheets"]

TITLE = "Layout of floor heating pipe"


def route_drawing(inputs: RoutesInputs, result: RoutesResult) -> bytes:
    """All sheets as ``image/svg+xml``."""
    return svg_of(route_sheets(inputs, result))


def route_sheets(inputs: RoutesInputs, result: RoutesResult) -> list[DrawnSheet]:
    """The circuits of the room; places of findings bear the numbers of their notes."""
    marked = [
        finding.code
        for finding in result.findings
        if any(place.point is not None for place in finding.places)
    ]
    marks = {code: str(count) for count, code in enumerate(marked, start=1)}
    tiles = sheets_for(extent(_points(inputs, result)), inputs.drawing)
    part = ", ".join(filter(None, (inputs.drawing.storey, inputs.drawing.room)))
    plan = DrawnPlan(
        tiles,
        route_groups(tiles, inputs, result, marks),
        list(route_text(inputs, result, marks)),
        TitleBlock(TITLE, part),
    )
    return drawn_sheets([plan], inputs.drawing)


def _points(inputs: RoutesInputs, result: RoutesResult) -> Iterator[Point]:
    """Everything that has to be on the sheet; a path that was brought may lie outside the room."""
    yield from inputs.outline
    for circuit in result.circuits:
        yield from circuit.path
