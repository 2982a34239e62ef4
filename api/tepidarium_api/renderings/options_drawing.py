"""The options of a house as a plot of material over supply temperature, with their table beside it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tepidarium_engine.design_options import (
    DesignOption,
    DesignOptionsInputs,
    DesignOptionsResult,
    OptionPrices,
)

from .framed import SIZE, framed
from .marks import printable
from .round_ticks import round_ticks
from .sheet import BINDING, EDGE
from .svg import Paper, element, group, points, text

__all__ = ["material_name", "options_drawing", "options_sheet"]

_COLUMN = 112.0
_LEFT, _RIGHT, _TOP, _BOTTOM = BINDING + 20.0, 297.0 - EDGE - _COLUMN - 8.0, EDGE + 22.0, 210.0 - EDGE - 22.0
"""The plot's own frame on the sheet [mm]."""
_MARGIN = 0.08
"""Share of its range that each axis is longer at both ends."""
_HEAT = 0.5
"""Heat from which an option is marked as lacking some [W]."""
_NEAR = 3.2
"""Numbers of options keep this far from each other and from the marks [mm]."""
_BESIDE = (
    (2.8, -1.8),
    (-2.8, -1.8),
    (2.8, 3.0),
    (-2.8, 3.0),
    (0.0, -2.6),
    (0.0, 4.0),
    (-6.0, 0.7),
    (6.0, 0.7),
)
"""Where the number of an option may stand beside its mark [mm], the best place first."""
_FIELDS = (
    ("no.", "", 5.0),
    ("supply", "°C", 18.0),
    ("pipe", "m", 30.0),
    ("circuits", "", 43.0),
    ("missing", "W", 56.0),
    ("pump", "W", 67.0),
    ("material", "", 83.0),
    ("a year", "kWh", 100.0),
)
"""Heading, unit and right end of each column of the table [mm]."""

_STYLE = {
    "sheet": "fill: #fff",
    "frame": "fill: none; stroke: #000; stroke-width: 0.5",
    "axis": "fill: none; stroke: #000; stroke-width: 0.35",
    "grid": "stroke: #bbb; stroke-width: 0.15",
    "least": "fill: none; stroke: #555; stroke-width: 0.3; stroke-dasharray: 1.5 1",
    "served": "fill: #1f4e79; stroke: #1f4e79; stroke-width: 0.35",
    "lacking": "fill: #fff; stroke: #1f4e79; stroke-width: 0.5",
    "rule": "fill: none; stroke: #b3261e; stroke-width: 0.6",
    "strong": "font-weight: bold",
}


def options_drawing(inputs: DesignOptionsInputs, result: DesignOptionsResult) -> bytes:
    """The options as ``image/svg+xml`` on A4."""
    return options_sheet(result, inputs.prices)


def options_sheet(result: DesignOptionsResult, prices: OptionPrices | None) -> bytes:
    """The same, wherever they were found."""
    plot = _Plot(result)
    content = (
        group(_axes(plot, material_name(result, prices)), id="axes"),
        group(_marks(plot, result), id="options"),
        group(_column(result), id="column"),
    )
    return framed("Options of a house", content, _STYLE)


def _material(option: DesignOption) -> float:
    return option.pipe_length if option.material_cost is None else option.material_cost


def material_name(result: DesignOptionsResult, prices: OptionPrices | None) -> str:
    """What material is counted in."""
    if result.by_rule.material_cost is None:
        return "pipe, m"
    return "material" if prices is None else f"material, {printable(prices.currency)}"


class _Plot:
    """Where a supply [degC] and its material come to lie on paper."""

    def __init__(self, result: DesignOptionsResult) -> None:
        every = (*result.options, result.by_rule)
        self.x = _range([option.supply_temperature for option in every], 2.0)
        self.y = _range([_material(option) for option in every], 20.0)

    def at(self, option: DesignOption) -> Paper:
        return self.place(option.supply_temperature, _material(option))

    def place(self, supply: float, material: float) -> Paper:
        x = _LEFT + (supply - self.x[0]) / (self.x[1] - self.x[0]) * (_RIGHT - _LEFT)
        y = _BOTTOM - (material - self.y[0]) / (self.y[1] - self.y[0]) * (_BOTTOM - _TOP)
        return x, y


def _range(values: Sequence[float], least: float) -> tuple[float, float]:
    """The values with a margin, at least so wide."""
    low, high = min(values), max(values)
    margin = max(_MARGIN * (high - low), (least - (high - low)) / 2.0)
    return low - margin, high + margin


def _axes(plot: _Plot, material: str) -> Iterator[str]:
    for supply in round_ticks(plot.x):
        x, _ = plot.place(supply, plot.y[0])
        yield element("line", class_="grid", x1=x, y1=_TOP, x2=x, y2=_BOTTOM)
        yield text((x, _BOTTOM + 5.0), f"{supply:g}", 2.2, text_anchor="middle")
    for amount in round_ticks(plot.y):
        _, y = plot.place(plot.x[0], amount)
        yield element("line", class_="grid", x1=_LEFT, y1=y, x2=_RIGHT, y2=y)
        yield text((_LEFT - 2.0, y + 0.9), f"{amount:g}", 2.2, text_anchor="end")
    yield element("rect", class_="axis", x=_LEFT, y=_TOP, width=_RIGHT - _LEFT, height=_BOTTOM - _TOP)
    yield text(((_LEFT + _RIGHT) / 2.0, _BOTTOM + 11.0), "supply temperature, °C", 2.5, text_anchor="middle")
    yield text((_LEFT, _TOP - 3.0), material, 2.5)


def _marks(plot: _Plot, result: DesignOptionsResult) -> Iterator[str]:
    yield element("polyline", class_="least", points=points(_least(plot, result.options)))
    left, top = plot.at(result.by_rule)
    yield element("rect", class_="rule", x=left - 2.2, y=top - 2.2, width=4.4, height=4.4)
    places = [plot.at(option) for option in result.options]
    taken = [(x, y + 0.7) for x, y in places]
    taken += [(left + across, top + down) for across in (-2.2, 2.2) for down in (-2.2, 2.2)]
    for option, (x, y) in zip(result.options, places, strict=True):
        kind = "lacking" if option.heat_missing > _HEAT else "served"
        yield element("circle", class_=kind, cx=x, cy=y, r=1.2)
        number = _free_place((x, y), taken)
        taken.append(number)
        yield text(number, str(option.number), 2.0, text_anchor="middle")


def _free_place(mark: Paper, taken: Sequence[Paper]) -> Paper:
    """Beside the mark, away from all that is taken; further to the right where there is no such place."""
    x, y = mark
    places = [(x + across, y + down) for across, down in _BESIDE]
    places += [(x + 2.8 + _NEAR * step, y - 1.8) for step in range(1, len(taken) + 1)]
    return next(place for place in places if all(_apart(place, other) for other in taken))


def _apart(place: Paper, other: Paper) -> bool:
    return abs(place[0] - other[0]) >= _NEAR or abs(place[1] - other[1]) >= _NEAR / 1.5


def _least(plot: _Plot, options: Sequence[DesignOption]) -> Iterator[Paper]:
    """The least material up to each supply, as stairs."""
    least: float | None = None
    for option in reversed(options):
        own = _material(option)
        if least is not None and own >= least:
            continue
        if least is not None:
            yield plot.place(option.supply_temperature, least)
        least = own
        yield plot.at(option)
    if least is not None:
        yield plot.place(plot.x[1], least)


def _column(result: DesignOptionsResult) -> Iterator[str]:
    x = SIZE[0] - EDGE - _COLUMN
    yield element("line", class_="frame", x1=x, y1=EDGE, x2=x, y2=SIZE[1] - EDGE)
    y = EDGE + 8.0
    yield text((x + 4.0, y), "Options of the house, by area", 3.0, class_="strong")
    yield element("circle", class_="served", cx=x + 6.0, cy=y + 6.2, r=1.2)
    yield text((x + 9.0, y + 7.0), "no heat is missing", 2.0)
    yield element("circle", class_="lacking", cx=x + 61.0, cy=y + 6.2, r=1.2)
    yield text((x + 64.0, y + 7.0), "heat is missing", 2.0)
    yield element("rect", class_="rule", x=x + 4.0, y=y + 9.0, width=4.0, height=4.0)
    yield text((x + 9.0, y + 12.0), "the house as designs does it", 2.0)
    y += 20.0
    rows = [list(_row(option)) for option in (*result.options, result.by_rule)]
    for place, (heading, unit, right) in enumerate(_FIELDS):
        if any(row[place] for row in rows):
            yield text((x + right + 4.0, y), heading, 2.0, class_="strong", text_anchor="end")
            yield text((x + right + 4.0, y + 3.6), unit, 1.8, text_anchor="end")
    step = min(6.0, (SIZE[1] - EDGE - 14.0 - y) / (len(result.options) + 2))
    for number, row in enumerate(rows):
        y += step if number else step + 3.0
        for words, (_, _, right) in zip(row, _FIELDS, strict=True):
            yield text((x + right + 4.0, y), words, 2.0, text_anchor="end")
    yield text((x + 4.0, SIZE[1] - EDGE - 4.0), "Local codes and licensed practice decide.", 1.9)


def _row(option: DesignOption) -> Iterator[str]:
    """What stands in the columns of the table, empty where it is not known."""
    yield str(option.number) if option.number else "rule"
    yield f"{option.supply_temperature:.1f}"
    yield f"{option.pipe_length:.0f}"
    yield str(option.circuit_count)
    yield f"{option.heat_missing:.0f}"
    yield f"{option.pump.hydraulic_power:.1f}"
    yield "" if option.material_cost is None else f"{option.material_cost:.0f}"
    yield "" if option.energy is None else f"{option.energy.electricity:.0f}"
