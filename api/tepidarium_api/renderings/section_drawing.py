"""The section of a heated floor with its isotherms as a drawing to scale."""

from __future__ import annotations

from collections.abc import Iterator

from tepidarium_engine.floor_section import FloorSectionInputs, FloorSectionResult, SectionPicture, picture

from .framed import SIZE, framed
from .sheet import BINDING, EDGE
from .svg import Paper, element, group, points, text

__all__ = ["section_drawing"]

_COLUMN = 78.0
_SCALES = (1, 2, 5, 10, 20, 50)
"""ISO 5455."""
_ROUND = 18.0
"""Kept free round the section [mm]."""

_COLD, _MILD, _HOT = (44, 78, 156), (214, 190, 60), (179, 38, 30)
_SHADES = {"below": "#f2efe6", "screed": "#e2e2e2", "above": "#efe3d3"}

_STYLE = {
    "sheet": "fill: #fff",
    "frame": "fill: none; stroke: #000; stroke-width: 0.5",
    "layer": "stroke: #000; stroke-width: 0.25",
    "covering": "stroke: #000; stroke-width: 1.2",
    "mirror": "stroke: #000; stroke-width: 0.18; stroke-dasharray: 4 1 0.5 1",
    "edge": "stroke: #2c4e9c; stroke-width: 1.6",
    "isotherm": "fill: none; stroke-width: 0.55; stroke-linejoin: round",
    "wall": "fill: #fff; stroke: #000; stroke-width: 0.35",
    "bore": "fill: #cfe3f2; stroke: #000; stroke-width: 0.25",
    "halo": "fill: #fff; fill-opacity: 0.85",
    "thin": "fill: none; stroke: #000; stroke-width: 0.25",
    "strong": "font-weight: bold",
}


def section_drawing(inputs: FloorSectionInputs, result: FloorSectionResult) -> bytes:
    """The section as ``image/svg+xml`` on A4, with a legend of the isotherms in degrees Celsius."""
    drawn = picture(inputs)
    free = (SIZE[0] - BINDING - EDGE - _COLUMN - 2.0 * _ROUND, SIZE[1] - 2.0 * EDGE - 2.0 * _ROUND)
    need = 1000.0 * max(drawn.width / free[0], drawn.height / free[1])
    scale = next((scale for scale in _SCALES if scale >= need), _SCALES[-1])
    left = BINDING + (SIZE[0] - BINDING - EDGE - _COLUMN - drawn.width * 1000.0 / scale) / 2.0
    low = (SIZE[1] + drawn.height * 1000.0 / scale) / 2.0
    sheet = _Sheet(left, low, scale)
    content = (
        group(_layers(sheet, drawn), id="layers"),
        group(_isotherms(sheet, drawn), id="isotherms"),
        group(_pipe(sheet, drawn), id="pipe"),
        group(_surroundings(sheet, drawn, inputs), id="surroundings"),
        group(_column(drawn, inputs, result, scale), id="column"),
    )
    return framed("Section of a heated floor", content, _STYLE)


class _Sheet:
    """Where a point of the section [m] comes to lie on paper [mm]."""

    def __init__(self, left: float, low: float, scale: int) -> None:
        self._left, self._low, self._factor = left, low, 1000.0 / scale

    def at(self, point: Paper) -> Paper:
        return self._left + point[0] * self._factor, self._low - point[1] * self._factor

    def length(self, length: float) -> float:
        return length * self._factor


def _layers(sheet: _Sheet, drawn: SectionPicture) -> Iterator[str]:
    for band in drawn.bands:
        x, y = sheet.at((0.0, band.high))
        height = sheet.length(band.high - band.low)
        yield element(
            "rect",
            class_="layer",
            x=x,
            y=y,
            width=sheet.length(drawn.width),
            height=height,
            fill=_SHADES[band.kind],
        )


def _isotherms(sheet: _Sheet, drawn: SectionPicture) -> Iterator[str]:
    labels = []
    for isotherm in drawn.isotherms:
        colour = _colour(isotherm.temperature, drawn)
        for line in isotherm.lines:
            yield element("polyline", class_="isotherm", stroke=colour, points=points(map(sheet.at, line)))
        longest = max(isotherm.lines, key=len, default=())
        if longest:
            labels.append((sheet.at(longest[len(longest) // 2]), isotherm.temperature))
    taken: list[Paper] = []
    for (x, y), temperature in labels:
        if all(abs(x - a) > 8.0 or abs(y - b) > 3.0 for a, b in taken):
            taken.append((x, y))
            yield element("rect", class_="halo", x=x - 3.2, y=y - 1.5, width=6.4, height=3.0)
            yield text((x, y + 0.9), f"{temperature:g}", 1.8, text_anchor="middle")


def _pipe(sheet: _Sheet, drawn: SectionPicture) -> Iterator[str]:
    x, y = sheet.at(drawn.pipe)
    yield element("circle", class_="wall", cx=x, cy=y, r=sheet.length(drawn.radius))
    yield element("circle", class_="bore", cx=x, cy=y, r=sheet.length(drawn.bore_radius))


def _surroundings(sheet: _Sheet, drawn: SectionPicture, inputs: FloorSectionInputs) -> Iterator[str]:
    left, top = sheet.at((0.0, drawn.height))
    right, bottom = sheet.at((drawn.width, 0.0))
    yield element("line", class_="covering", x1=left, y1=top, x2=right, y2=top)
    yield element(
        "line", class_="edge" if drawn.cold_edge else "mirror", x1=left, y1=top - 6, x2=left, y2=bottom + 6
    )
    yield element("line", class_="mirror", x1=right, y1=top - 6, x2=right, y2=bottom + 6)
    middle = (left + right) / 2.0
    yield text((middle, top - 8.0), f"room {inputs.room_temperature:g} °C", 2.2, text_anchor="middle")
    below = f"below {inputs.temperature_below:g} °C"
    yield text((middle, bottom + 10.5), below, 2.2, text_anchor="middle")
    if inputs.cold_edge is not None:
        beyond = f"edge {inputs.cold_edge.temperature:g} °C"
        yield text((left - 2.0, top - 8.0), beyond, 2.2, text_anchor="end")


def _column(
    drawn: SectionPicture, inputs: FloorSectionInputs, result: FloorSectionResult, scale: int
) -> Iterator[str]:
    x = SIZE[0] - EDGE - _COLUMN
    yield element("line", class_="frame", x1=x, y1=EDGE, x2=x, y2=SIZE[1] - EDGE)
    y = EDGE + 8.0
    yield text((x + 5.0, y), "Section of a heated floor", 3.0, class_="strong")
    yield text((x + 5.0, y + 6.0), f"scale 1:{scale}", 2.2)
    y += 16.0
    yield text((x + 5.0, y), "Isotherms, °C", 2.5, class_="strong")
    for number, isotherm in enumerate(drawn.isotherms):
        place = y + 6.0 + 4.6 * (len(drawn.isotherms) - 1 - number)
        colour = _colour(isotherm.temperature, drawn)
        yield element(
            "line", class_="isotherm", stroke=colour, x1=x + 5.0, y1=place - 1.0, x2=x + 19.0, y2=place - 1.0
        )
        yield text((x + 23.0, place), f"{isotherm.temperature:g} °C", 2.2)
    y += 12.0 + 4.6 * len(drawn.isotherms)
    for label, value in _figures(inputs, result):
        yield text((x + 5.0, y), label, 2.2)
        yield text((SIZE[0] - EDGE - 4.0, y), value, 2.2, text_anchor="end")
        y += 5.0
    yield text((x + 5.0, SIZE[1] - EDGE - 4.0), "Local codes and licensed practice decide.", 1.9)


def _figures(inputs: FloorSectionInputs, result: FloorSectionResult) -> Iterator[tuple[str, str]]:
    yield "mean water", f"{inputs.water_temperature:.1f} °C"
    yield "at the pipe", f"{result.pipe_surface_temperature:.1f} °C"
    yield "surface, mean", f"{result.mean_surface_temperature:.1f} °C"
    yield "surface, highest", f"{result.highest_surface_temperature:.1f} °C"
    yield "surface, lowest", f"{result.lowest_surface_temperature:.1f} °C"
    yield "heat to the room", f"{result.heat_output:.1f} W/m²"
    yield "heat downwards", f"{result.downward_heat_loss:.1f} W/m²"
    if result.edge_bay is not None:
        yield "bay at the edge, to the room", f"{result.edge_bay.heat_output:.1f} W/m²"
        yield "through the edge", f"{result.edge_bay.edge_heat_loss:.1f} W/m"


def _colour(temperature: float, drawn: SectionPicture) -> str:
    share = (temperature - drawn.lowest) / (drawn.highest - drawn.lowest)
    low, high, part = (_COLD, _MILD, 2.0 * share) if share < 0.5 else (_MILD, _HOT, 2.0 * share - 1.0)
    mixed = (round(a + (b - a) * part) for a, b in zip(low, high, strict=True))
    return "#" + "".join(f"{value:02x}" for value in mixed)
