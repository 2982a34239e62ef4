"""A room with the pipe of its circuits as a drawing to scale, for the person who lays it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from tepidarium_engine.results import Finding
from tepidarium_engine.routes import RoutesInputs, RoutesResult, clearance_rings

from .drawn_pipe import drawn_pipe, entry_numbers
from .drawn_room import drawn_dimensions, drawn_room, drawn_scale_bar
from .sheet import BINDING, EDGE, Point, Sheet, sheet_for
from .sheet_column import sheet_column
from .svg import document, element, group, moved_along, text

__all__ = ["FONT", "STYLE", "drawn_frame", "drawn_sleeve", "route_drawing"]

FLOW, RETURN = "#b3261e", "#1f4e9e"

SLEEVE = 0.3
"""Length of a sleeve at least, half of it on either side of the joint [m]."""
SHORTEST_SLEEVE = 3.0
"""On paper [mm]."""

FONT = "Liberation Sans, Arial, Helvetica, sans-serif"

STYLE = {
    "sheet": "fill: #fff",
    "frame": "fill: none; stroke: #000; stroke-width: 0.5",
    "thin": "fill: none; stroke: #000; stroke-width: 0.18",
    "wall": "fill: none; stroke: #444; stroke-width: 3; stroke-linejoin: miter",
    "floor": "fill: #fff; fill-rule: evenodd; stroke: #000; stroke-width: 0.35",
    "void": "fill: #eee; stroke: #000; stroke-width: 0.35",
    "clearance": "fill: none; stroke: #555; stroke-width: 0.18; stroke-dasharray: 4 1 0.5 1",
    "joint": "fill: none; stroke: #000; stroke-width: 0.6; stroke-dasharray: 6 1 0.6 1 0.6 1",
    "flow": f"fill: none; stroke: {FLOW}; stroke-width: 0.7; stroke-linejoin: round",
    "return": f"fill: none; stroke: {RETURN}; stroke-width: 0.7; stroke-dasharray: 2.4 1.2; stroke-linejoin: round",
    "flow-arrow": f"fill: {FLOW}; stroke: none",
    "return-arrow": f"fill: #fff; stroke: {RETURN}; stroke-width: 0.3",
    "opening": "stroke: #fff; stroke-width: 2.4",
    "sleeve": "fill: none; stroke: #000; stroke-width: 0.35",
    "number": "fill: #fff; stroke: #000; stroke-width: 0.4",
    "mark": "fill: #fff; stroke: #000; stroke-width: 0.25",
    "bare": "fill: none; stroke: #000; stroke-width: 0.25; stroke-dasharray: 0.8 0.8",
    "black": "fill: #000; stroke: none",
    "strong": "font-weight: bold",
}


def route_drawing(inputs: RoutesInputs, result: RoutesResult) -> bytes:
    """The circuits as ``image/svg+xml`` on A4 or A3, to one of the scales of ISO 5455."""
    sheet = sheet_for(_extent(inputs, result))
    marked = [
        finding.code
        for finding in result.findings
        if any(place.point is not None for place in finding.places)
    ]
    marks = {code: str(count) for count, code in enumerate(marked, start=1)}
    shared = result.length_spread is not None
    content = (
        element("rect", class_="sheet", width=sheet.size[0], height=sheet.size[1]),
        group(drawn_room(sheet, inputs, clearance_rings(inputs)), id="room"),
        *(
            group(
                drawn_pipe(sheet, circuit, len(result.circuits) > 1, number if shared else None),
                id=f"circuit-{number + 1}",
            )
            for number, circuit in enumerate(result.circuits)
        ),
        group(_sleeves(sheet, result), id="sleeves"),
        group(_bare_spots(sheet, result), id="bare-spots"),
        group(_marks(sheet, result.findings, marks), id="marks"),
        group(drawn_dimensions(sheet, inputs.outline), id="dimensions"),
        *([group(entry_numbers(sheet, result.circuits), id="entry-numbers")] if shared else []),
        group(drawn_scale_bar(sheet), id="scale-bar"),
        group(drawn_frame(sheet), id="frame"),
        group(sheet_column(sheet, inputs, result, marks), id="column"),
    )
    return document(
        sheet.size,
        "Layout of floor heating pipe",
        [group(content, font_family=FONT)],
        STYLE,
    )


def _extent(inputs: RoutesInputs, result: RoutesResult) -> Iterator[tuple[float, float]]:
    """Everything that has to be on the sheet; a path that was brought may lie outside the room."""
    yield from inputs.outline
    for circuit in result.circuits:
        yield from circuit.path


def _sleeves(sheet: Sheet, result: RoutesResult) -> Iterator[str]:
    for sleeve in result.sleeves:
        yield drawn_sleeve(sheet, sleeve.place, sleeve.ahead)


def drawn_sleeve(sheet: Sheet, place: Point, ahead: Point) -> str:
    """A box round the pipe at a joint that it passes, as long as the sleeve is at least."""
    half = max(SHORTEST_SLEEVE, sheet.length(SLEEVE)) / 2.0
    box = element("rect", class_="sleeve", x=-half, y=-0.7, width=2.0 * half, height=1.4)
    return moved_along(box, sheet.at(place), (ahead[0], -ahead[1]))


def _bare_spots(sheet: Sheet, result: RoutesResult) -> Iterator[str]:
    for spot in result.coverage.bare_spots:
        x, y = sheet.at(spot.place)
        yield element("circle", class_="bare", cx=x, cy=y, r=max(1.0, sheet.length(spot.width) / 2.0))


def _marks(sheet: Sheet, findings: Sequence[Finding], marks: Mapping[str, str]) -> Iterator[str]:
    """Numbers beside the places of findings, moved apart where they would cover each other."""
    taken: list[tuple[float, float]] = []
    points = [
        (marks[finding.code], place.point)
        for finding in findings
        for place in finding.places
        if place.point is not None
    ]
    for mark, point in points:
        x, y = sheet.at(point)
        spot = next(
            (x + dx, y + dy)
            for dx, dy in ((3.0 * step * a, 3.0 * step * b) for step in range(1, 200) for a, b in _AROUND)
            if all((x + dx - a) ** 2 + (y + dy - b) ** 2 >= 25.0 for a, b in taken)
        )
        taken.append(spot)
        yield element("line", class_="thin", x1=x, y1=y, x2=spot[0], y2=spot[1])
        yield element("circle", class_="black", cx=x, cy=y, r=0.5)
        yield element("circle", class_="mark", cx=spot[0], cy=spot[1], r=2.1)
        yield text((spot[0], spot[1] + 0.9), mark, 1.9, text_anchor="middle")


_AROUND = ((1.0, -1.0), (-1.0, -1.0), (1.0, 1.0), (-1.0, 1.0))


def drawn_frame(sheet: Sheet) -> Iterator[str]:
    width, height = sheet.size
    yield element(
        "rect", class_="frame", x=BINDING, y=EDGE, width=width - BINDING - EDGE, height=height - 2.0 * EDGE
    )
    left, top, bottom = sheet.column
    yield element("line", class_="frame", x1=left, y1=top, x2=left, y2=bottom)
