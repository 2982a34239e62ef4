"""How a design reacts, as a table of changes with bars: longer bars are greater effects."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

from tepidarium_engine.design_sensitivity import (
    DesignSensitivityInputs,
    DesignSensitivityResult,
    FindingTolerance,
    SensitivityLine,
)

from .framed import SIZE, framed
from .marks import printable
from .round_ticks import round_ticks
from .sheet import BINDING, EDGE
from .svg import element, group, text
from .text_widths import shortened

__all__ = ["changes_in_words", "sensitivity_drawing", "sensitivity_sheet", "tolerance_in_words"]

_LEFT, _TOP, _BOTTOM = BINDING + 4.0, EDGE + 33.0, SIZE[1] - EDGE - 20.0
_WORDS = 76.0
"""Room for what is changed [mm]."""
_MOST_ROWS, _TALLEST_ROW = 36, 7.0
_TEXT = 2.0
_FIRST, _PANEL, _BAR, _NUMBER = BINDING + 84.0, 40.0, 25.0, 12.0
"""Where the first panel begins, the width of each, of its bars, and of the numbers before them [mm]."""
_CIRCUITS = SIZE[0] - EDGE - 4.0

_STYLE = {
    "sheet": "fill: #fff",
    "frame": "fill: none; stroke: #000; stroke-width: 0.5",
    "grid": "stroke: #bbb; stroke-width: 0.15",
    "zero": "stroke: #000; stroke-width: 0.35",
    "more": "fill: #333; stroke: #333; stroke-width: 0.2",
    "less": "fill: #fff; stroke: #333; stroke-width: 0.3",
    "strong": "font-weight: bold",
}


class _Panel(NamedTuple):
    heading: str
    unit: str
    decimals: int
    value: Callable[[SensitivityLine], float]


_PANELS = (
    _Panel("missing heat", "W", 0, lambda line: line.missing_difference),
    _Panel("supply", "K", 1, lambda line: line.supply_difference),
    _Panel("pipe", "m", 0, lambda line: line.pipe_difference),
    _Panel("pump power", "W", 2, lambda line: line.power_difference),
)


def sensitivity_drawing(_: DesignSensitivityInputs, result: DesignSensitivityResult) -> bytes:
    """The changes with their effects as ``image/svg+xml`` on A4; the greatest ones where there are many."""
    return sensitivity_sheet(result)


def sensitivity_sheet(result: DesignSensitivityResult) -> bytes:
    """The same, wherever they were computed."""
    lines = result.lines[:_MOST_ROWS]
    step = min(_TALLEST_ROW, (_BOTTOM - _TOP) / max(len(lines), 1))
    bottom = _TOP + step * len(lines)
    content = [group(_heading(result, len(lines)), id="heading"), group(_words(lines, step), id="changes")]
    for place, panel in enumerate(_PANELS):
        drawn = _bars(panel, _FIRST + place * _PANEL, lines, step, bottom)
        content.append(group(drawn, id=panel.heading.replace(" ", "-")))
    return framed("How the design reacts", tuple(content), _STYLE)


def _heading(result: DesignSensitivityResult, shown: int) -> Iterator[str]:
    yield text(
        (_LEFT, EDGE + 8.0), "How the design reacts to one change at a time, by area", 3.0, class_="strong"
    )
    yield text(
        (_LEFT, EDGE + 13.5),
        f"Beside the design: supply {result.supply_temperature:.1f} °C, {result.heat_missing:.0f} W missing, "
        f"{result.pipe_length:.0f} m of pipe, {result.circuit_count} circuits, {result.pump_power:.2f} W of pump "
        f"power. On the warmest supply of the source every room bears {100.0 * result.demand_tolerance:.0f} % more "
        "heat.",
        2.0,
    )
    yield text((_LEFT, EDGE + 17.5), printable(tolerance_in_words(result.finding_tolerances[0])), 2.0)
    y = EDGE + 22.5
    for kind, words, x in (("more", "more", _LEFT), ("less", "less", _LEFT + 16.0)):
        yield element("rect", class_=kind, x=x, y=y - 2.0, width=4.0, height=2.4)
        yield text((x + 5.5, y), words, 2.0)
    left_out = len(result.lines) - shown
    if left_out:
        words = f"{left_out} more changes with less effect are not plotted."
        yield text((_LEFT + 32.0, y), words, 2.0)
    yield text((_LEFT, SIZE[1] - EDGE - 4.0), "Local codes and licensed practice decide.", 1.9)


def tolerance_in_words(own: FindingTolerance) -> str:
    """How much more heat a room or all rooms may need, and what changes then."""
    who = f"{own.name or own.room} may need" if own.room else "All rooms together may need"
    if own.tolerable_rise is None:
        return f"{who} twice as much heat without any change of findings."
    # Rounded down: so much is borne.
    borne = f"{who} {int(1000.0 * own.tolerable_rise) / 10.0:.1f} % more heat before a finding changes"
    told = changes_in_words(own)
    more = f" and {len(told) - 2} more" if len(told) > 2 else ""
    return f"{borne}: {'; '.join(told[:2])}{more}." if told else f"{borne}: no house can be computed beyond."


def changes_in_words(own: FindingTolerance) -> list[str]:
    """Each finding that is new or gone just above the tolerance, with what it concerns."""
    subjects: dict[str, list[str]] = {}
    for each in own.changes:
        subjects.setdefault(f"{each.code.replace('_', ' ')} is {each.change}", []).append(each.subject)
    return [f"{what} for {', '.join(named)}" if any(named) else what for what, named in subjects.items()]


def _words(lines: Sequence[SensitivityLine], step: float) -> Iterator[str]:
    yield text((_LEFT, _TOP - 3.0), "change", 2.0, class_="strong")
    yield text((_CIRCUITS, _TOP - 3.0), "circuits", 2.0, class_="strong", text_anchor="end")
    for place, line in enumerate(lines):
        y = _base(place, step)
        yield text((_LEFT, y), shortened(printable(line.message), _TEXT, _WORDS), _TEXT)
        yield text(
            (_CIRCUITS, y), f"{line.circuit_difference:+d}".replace("+0", "0"), _TEXT, text_anchor="end"
        )


def _base(place: int, step: float) -> float:
    """Base line of the words in a row."""
    return _TOP + step * (place + 0.5) + _TEXT / 2.0


def _bars(
    panel: _Panel, left: float, lines: Sequence[SensitivityLine], step: float, bottom: float
) -> Iterator[str]:
    values = [panel.value(line) for line in lines]
    low, high = min([0.0, *values]), max([0.0, *values])
    if high - low < 0.5 * 10.0**-panel.decimals:
        high = low + 1.0

    def across(value: float) -> float:
        return left + _NUMBER + 2.0 + (value - low) / (high - low) * _BAR

    yield text(
        (left + _NUMBER, _TOP - 3.0),
        f"{panel.heading}, {panel.unit}",
        2.0,
        class_="strong",
        text_anchor="start",
    )
    for tick in round_ticks((low, high), 3):
        x = across(tick)
        yield element("line", class_="zero" if tick == 0.0 else "grid", x1=x, y1=_TOP, x2=x, y2=bottom)
        yield text((x, bottom + 4.0), f"{tick:g}", 1.7, text_anchor="middle")
    for place, value in enumerate(values):
        y, shown = _base(place, step), f"{value:+.{panel.decimals}f}"
        shown = shown if float(shown) else f"{0.0:.{panel.decimals}f}"
        yield text((left + _NUMBER, y), shown, _TEXT, text_anchor="end")
        if float(shown):
            begin, end = sorted((across(0.0), across(value)))
            kind, height = "more" if value > 0.0 else "less", min(3.0, 0.6 * step)
            middle = _TOP + step * (place + 0.5)
            yield element(
                "rect", class_=kind, x=begin, y=middle - height / 2.0, width=end - begin, height=height
            )
