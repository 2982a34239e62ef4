"""The heating curve of a house: water over outside temperature, with the year in bins beside it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tepidarium_engine.heating_season import HeatingSeasonInputs, HeatingSeasonResult, SeasonBin

from .framed import SIZE, framed
from .round_ticks import round_ticks
from .sheet import BINDING, EDGE
from .svg import Paper, element, group, points, text

__all__ = ["season_drawing", "season_sheet"]

_COLUMN = 122.0
_LEFT, _RIGHT, _TOP, _BOTTOM = BINDING + 16.0, 297.0 - EDGE - _COLUMN - 8.0, EDGE + 22.0, 210.0 - EDGE - 34.0
"""The plot's own frame on the sheet [mm]."""
_MARGIN = 1.0
"""By which each axis is longer at both ends [K]."""
_APART = 3.2
"""Between the names of curves [mm]."""
_FIELDS = (
    ("outside", "°C"),
    ("hours", "h"),
    ("supply", "°C"),
    ("return", "°C"),
    ("heat", "kWh"),
    ("flow", "%"),
    ("electricity", "kWh"),
)
_STEP = 16.0

_STYLE = {
    "sheet": "fill: #fff",
    "frame": "fill: none; stroke: #000; stroke-width: 0.5",
    "axis": "fill: none; stroke: #000; stroke-width: 0.35",
    "grid": "stroke: #bbb; stroke-width: 0.15",
    "supply": "fill: none; stroke: #000; stroke-width: 0.6",
    "return": "fill: none; stroke: #000; stroke-width: 0.5; stroke-dasharray: 2 1",
    "room": "fill: none; stroke: #555; stroke-width: 0.3; stroke-dasharray: 0.5 1",
    "dot": "fill: #000",
    "strong": "font-weight: bold",
}


def season_drawing(_: HeatingSeasonInputs, result: HeatingSeasonResult) -> bytes:
    """The curve and the year as ``image/svg+xml`` on A4."""
    return season_sheet(result)


def season_sheet(result: HeatingSeasonResult) -> bytes:
    """The same, wherever they were computed."""
    heated = sorted(
        (own for own in result.bins if own.supply_temperature is not None),
        key=lambda own: own.outside_temperature,
    )
    plot = _Plot(result, heated)
    content = (
        group(_axes(plot), id="axes"),
        group(_curves(plot, result, heated), id="curves"),
        group(_controls(result), id="controls"),
        group(_column(result), id="column"),
    )
    return framed("Heating curve", content, _STYLE)


class _Plot:
    """Where an outside temperature and one of the water [degC] come to lie on paper."""

    def __init__(self, result: HeatingSeasonResult, heated: Sequence[SeasonBin]) -> None:
        curve = result.curve
        across = [curve.design_outside_temperature, *(own.outside_temperature for own in heated)]
        up = [curve.basis_temperature, curve.design_supply_temperature]
        up += [water for own in heated for water in (own.supply_temperature, own.return_temperature) if water]
        self.x = min(across) - _MARGIN, max(across) + _MARGIN
        self.y = min(up) - _MARGIN, max(up) + _MARGIN

    def place(self, outside: float, water: float) -> Paper:
        x = _LEFT + (outside - self.x[0]) / (self.x[1] - self.x[0]) * (_RIGHT - _LEFT)
        y = _BOTTOM - (water - self.y[0]) / (self.y[1] - self.y[0]) * (_BOTTOM - _TOP)
        return x, y


def _axes(plot: _Plot) -> Iterator[str]:
    for outside in round_ticks(plot.x):
        x, _ = plot.place(outside, plot.y[0])
        yield element("line", class_="grid", x1=x, y1=_TOP, x2=x, y2=_BOTTOM)
        yield text((x, _BOTTOM + 5.0), f"{outside:g}", 2.2, text_anchor="middle")
    for water in round_ticks(plot.y):
        _, y = plot.place(plot.x[0], water)
        yield element("line", class_="grid", x1=_LEFT, y1=y, x2=_RIGHT, y2=y)
        yield text((_LEFT - 2.0, y + 0.9), f"{water:g}", 2.2, text_anchor="end")
    yield element("rect", class_="axis", x=_LEFT, y=_TOP, width=_RIGHT - _LEFT, height=_BOTTOM - _TOP)
    yield text(((_LEFT + _RIGHT) / 2.0, _BOTTOM + 10.5), "outside temperature, °C", 2.5, text_anchor="middle")
    yield text((_LEFT, _TOP - 3.0), "water temperature, °C", 2.5)


def _curves(plot: _Plot, result: HeatingSeasonResult, heated: Sequence[SeasonBin]) -> Iterator[str]:
    """Named where they begin, at the cold end; names keep apart."""
    basis = result.curve.basis_temperature
    lines: list[tuple[str, list[tuple[float, float | None]]]] = [
        ("supply", [(own.outside_temperature, own.supply_temperature) for own in heated]),
        ("return", [(own.outside_temperature, own.return_temperature) for own in heated]),
        ("room", [(plot.x[0], basis), (plot.x[1], basis)]),
    ]
    lowest = _TOP
    for name, places in lines:
        drawn = [plot.place(outside, water) for outside, water in places if water is not None]
        if not drawn:
            continue
        yield element("polyline", class_=name, points=points(drawn))
        if name != "room":
            yield from (element("circle", class_="dot", cx=x, cy=y, r=0.7) for x, y in drawn)
        x, y = drawn[0]
        lowest = max(lowest + _APART, y - 1.5)
        yield text((max(x, _LEFT) + 2.0, lowest), name, 2.2)


def _controls(result: HeatingSeasonResult) -> Iterator[str]:
    """What is set at the controls."""
    curve, y = result.curve, _BOTTOM + 18.0
    yield text((_LEFT, y), "To set at the controls", 2.5, class_="strong")
    yield text(
        (_LEFT, y + 5.0),
        f"supply {curve.design_supply_temperature:.1f} °C at {curve.design_outside_temperature:g} °C outside; "
        f"slope {curve.slope:.2f}; exponent {curve.exponent:g}",
        2.1,
    )
    yield text((_LEFT, y + 9.0), f"for a room at {curve.basis_temperature:g} °C", 2.1)


def _column(result: HeatingSeasonResult) -> Iterator[str]:
    left = SIZE[0] - EDGE - _COLUMN
    yield element("line", class_="frame", x1=left, y1=EDGE, x2=left, y2=SIZE[1] - EDGE)
    y = EDGE + 8.0
    yield text((left + 4.0, y), "The house through the year", 3.0, class_="strong")
    y += 10.0
    fields = _FIELDS if result.electricity is not None else _FIELDS[:-1]
    for place, (heading, unit) in enumerate(fields):
        x = left + 18.0 + _STEP * place
        yield text((x, y), heading, 2.0, class_="strong", text_anchor="end")
        yield text((x, y + 3.6), unit, 1.8, text_anchor="end")
    rows = [*(_row(own) for own in result.bins), _whole(result)]
    step = min(6.0, (SIZE[1] - EDGE - 16.0 - y) / (len(rows) + 1))
    y += 3.6
    for number, row in enumerate(rows):
        y += step
        strong = {"class_": "strong"} if number == len(rows) - 1 else {}
        for place, words in enumerate(row[: len(fields)]):
            yield text(
                (left + 18.0 + _STEP * place, y), words, min(2.0, 0.6 * step), text_anchor="end", **strong
            )
    yield text(
        (left + 4.0, SIZE[1] - EDGE - 8.0),
        "flow: mean over design flow, as room controls close part of the time",
        1.9,
    )
    yield text((left + 4.0, SIZE[1] - EDGE - 4.0), "Local codes and licensed practice decide.", 1.9)


def _row(own: SeasonBin) -> tuple[str, ...]:
    return (
        f"{own.outside_temperature:g}",
        f"{own.hours:.0f}",
        _shown(own.supply_temperature, 1),
        _shown(own.return_temperature, 1),
        f"{own.heat:.0f}",
        f"{100.0 * own.flow_share:.0f}",
        _shown(own.electricity, 0),
    )


def _whole(result: HeatingSeasonResult) -> tuple[str, ...]:
    flow = result.mean_flow_share
    return (
        "heated",
        f"{result.heating_hours:.0f}",
        _shown(result.mean_supply_temperature, 1),
        "",
        f"{result.heat:.0f}",
        "" if flow is None else f"{100.0 * flow:.0f}",
        _shown(result.electricity, 0),
    )


def _shown(value: float | None, decimals: int) -> str:
    return "-" if value is None else f"{value:.{decimals}f}"
