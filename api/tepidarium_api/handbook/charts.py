"""Small charts as SVG: bars with parts, lines, points, and plans of rooms. Lengths are millimetres."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import NamedTuple

from ..renderings.svg import document, element, group, points, text
from .wording import number

__all__ = ["Axis", "Bar", "Line", "bars", "lines", "plan"]

_STYLE = {
    "paper": "fill: #fff",
    "axis": "stroke: #222; stroke-width: 0.3; fill: none",
    "grid": "stroke: #ccc; stroke-width: 0.15; fill: none",
    "limit": "stroke: #b3261e; stroke-width: 0.5; stroke-dasharray: 2 1; fill: none",
    "limit-text": "fill: #b3261e",
    "wall": "stroke: #222; stroke-width: 0.5; fill: #f4f1ea",
    "void": "stroke: #222; stroke-width: 0.3; fill: #fff",
}
_COLOURS = ("#1f4e79", "#c8792b", "#5b8c5a", "#8a5a83", "#8c8c8c", "#b5a642", "#4a7c8c", "#a65d57")
"""Dark enough on white and apart from each other in grey, too."""
_WIDTH, _LABELS, _ROW, _TOP, _RIGHT = 150.0, 46.0, 6.5, 13.0, 14.0
_PLOT_HEIGHT, _BOTTOM, _AXIS_LEFT = 82.0, 14.0, 18.0
_FONT = "sans-serif"


class Bar(NamedTuple):
    """A bar of parts that lie one after the other; ``note`` stands behind it."""

    label: str
    parts: tuple[float, ...]
    note: str = ""


class Axis(NamedTuple):
    title: str
    least: float
    most: float


class Line(NamedTuple):
    """A curve, or places of a scatter where ``dots`` is true."""

    label: str
    places: Sequence[tuple[float, float]]
    dots: bool = False


def bars(
    title: str,
    rows: Sequence[Bar],
    axis: str,
    parts: Sequence[str] = (),
    limits: Sequence[tuple[str, float]] = (),
) -> bytes:
    """Bars one below the other on a common axis, with upright lines at limits."""
    most = max([sum(max(part, 0.0) for part in row.parts) for row in rows] + [value for _, value in limits])
    least = min([0.0, *(min(row.parts) for row in rows)])
    ticks = _ticks(least, most)
    scale = (_WIDTH - _LABELS - _RIGHT) / (ticks[-1] - ticks[0])
    bottom = _TOP + _ROW * len(rows) + (4.0 if limits else 0.0)

    def across(value: float) -> float:
        return _LABELS + (value - ticks[0]) * scale

    content = [*_upright_grid(ticks, across, bottom), *_bar_rows(rows, across)]
    for word, value in limits:
        content.append(_path([(across(value), _TOP - 2.0), (across(value), bottom)], "limit"))
        content.append(
            text((across(value) + 1.0, bottom - 1.2), word, 1.9, class_="limit-text")
            if across(value) < _WIDTH * 0.7
            else text((across(value) - 1.0, bottom - 1.2), word, 1.9, class_="limit-text", text_anchor="end")
        )
    content.append(text((_WIDTH - _RIGHT, bottom + 8.5), axis, 2.0, text_anchor="end"))
    content += _legend(parts, bottom + 13.5)
    return _sheet(title, content, bottom + (17.0 if parts else 11.5))


def lines(
    title: str, across: Axis, upwards: Axis, curves: Sequence[Line], limits: Sequence[tuple[str, float]] = ()
) -> bytes:
    """Curves over an axis, with level lines at limits."""
    x_ticks, y_ticks = _ticks(across.least, across.most), _ticks(upwards.least, upwards.most)
    right, bottom = _WIDTH - _RIGHT, _TOP + _PLOT_HEIGHT

    def at(x: float, y: float) -> tuple[float, float]:
        return (
            _AXIS_LEFT + (x - x_ticks[0]) / (x_ticks[-1] - x_ticks[0]) * (right - _AXIS_LEFT),
            bottom - (y - y_ticks[0]) / (y_ticks[-1] - y_ticks[0]) * _PLOT_HEIGHT,
        )

    content = _upright_grid(x_ticks, lambda x: at(x, 0.0)[0], bottom)
    for tick in y_ticks:
        content.append(_path([at(x_ticks[0], tick), at(x_ticks[-1], tick)], "grid"))
        content.append(text((_AXIS_LEFT - 1.5, at(0.0, tick)[1] + 0.9), number(tick), 1.9, text_anchor="end"))
    content.append(
        element("rect", class_="axis", x=_AXIS_LEFT, y=_TOP, width=right - _AXIS_LEFT, height=_PLOT_HEIGHT)
    )
    for place, curve in enumerate(curves):
        alike = sum(
            other.dots is curve.dots for other in curves[:place]
        )  # points have the colour of their line
        content += _curve(curve, _COLOURS[alike % len(_COLOURS)], at)
    for word, value in limits:
        content.append(_path([at(x_ticks[0], value), at(x_ticks[-1], value)], "limit"))
        content.append(text((_AXIS_LEFT + 1.5, at(0.0, value)[1] - 1.0), word, 1.9, class_="limit-text"))
    content.append(text((right, bottom + 8.5), across.title, 2.0, text_anchor="end"))
    content.append(text((2.0, _TOP - 2.6), upwards.title, 2.0))
    content += _legend([curve.label for curve in curves if curve.label], bottom + 13.5)
    return _sheet(title, content, bottom + 17.0)


def plan(
    title: str,
    outlines: Sequence[tuple[str, Sequence[Sequence[float]]]],
    pipes: Sequence[Sequence[Sequence[float]]] = (),
    marks: Sequence[tuple[str, Sequence[float]]] = (),
) -> bytes:
    """Outlines in metres with their names, pipes as lines, and marked places."""
    corners = [corner for _, outline in outlines for corner in outline]
    left, low = (min(corner[axis] for corner in corners) for axis in (0, 1))
    right, high = (max(corner[axis] for corner in corners) for axis in (0, 1))
    scale = min((_WIDTH - 20.0) / (right - left), 90.0 / (high - low))
    height = (high - low) * scale + 24.0

    def at(place: Sequence[float]) -> tuple[float, float]:
        return _WIDTH / 2 + (place[0] - (left + right) / 2) * scale, 14.0 + (high - place[1]) * scale

    content = []
    for _, outline in outlines:
        content.append(element("polygon", class_="wall", points=points(map(at, outline))))
    for place, pipe in enumerate(pipes):
        content.append(_path([at(point) for point in pipe], "", stroke=_COLOURS[place % len(_COLOURS)]))
    for name, outline in outlines:
        middle = [sum(corner[axis] for corner in outline) / len(outline) for axis in (0, 1)]
        content.append(
            text(
                at(middle),
                name,
                2.2,
                text_anchor="middle",
                paint_order="stroke",
                stroke="#fff",
                stroke_width=0.8,
            )
        )
    for word, place_ in marks:
        x, y = at(place_)
        content.append(element("circle", cx=x, cy=y, r=1.4, fill="#b3261e"))
        content.append(text((x + 2.2, y + 0.9), word, 2.0, class_="limit-text"))
    return _sheet(title, content, height)


def _bar_rows(rows: Sequence[Bar], across: Callable[[float], float]) -> Iterator[str]:
    for place, row in enumerate(rows):
        top, start = _TOP + place * _ROW, 0.0
        yield text((_LABELS - 1.5, top + 3.6), row.label, 1.9, text_anchor="end")
        for part, value in enumerate(row.parts):
            begin, end = sorted((across(start), across(start + value)))
            yield element(
                "rect",
                x=begin,
                y=top + 1.0,
                width=end - begin,
                height=_ROW - 2.2,
                fill=_COLOURS[part % len(_COLOURS)],
                stroke="#fff",
                stroke_width=0.15,
            )
            start += value
        if row.note:
            yield text((max(across(start), across(0.0)) + 1.0, top + 3.6), row.note, 1.8)


def _upright_grid(ticks: Sequence[float], across: Callable[[float], float], bottom: float) -> list[str]:
    content = []
    for tick in ticks:
        x = across(tick)
        content.append(_path([(x, _TOP), (x, bottom)], "grid"))
        content.append(text((x, bottom + 4.0), number(tick), 1.9, text_anchor="middle"))
    return content


def _curve(curve: Line, colour: str, at: Callable[[float, float], tuple[float, float]]) -> Iterator[str]:
    places = [at(*place) for place in curve.places]
    if curve.dots:
        yield from (element("circle", cx=x, cy=y, r=0.7, fill=colour, fill_opacity=0.6) for x, y in places)
    else:
        yield _path(places, "", stroke=colour)


def _path(places: Iterable[tuple[float, float]], class_: str, stroke: str = "") -> str:
    if class_:
        return element("polyline", class_=class_, points=points(places))
    return element("polyline", points=points(places), fill="none", stroke=stroke, stroke_width=0.6)


def _legend(names: Sequence[str], height: float) -> list[str]:
    content, x = [], 6.0
    for place, name in enumerate(names):
        content.append(
            element("rect", x=x, y=height - 2.2, width=3.0, height=2.4, fill=_COLOURS[place % len(_COLOURS)])
        )
        content.append(text((x + 4.0, height), name, 1.9))
        x += 8.0 + 1.75 * len(name)
    return content


def _ticks(least: float, most: float) -> list[float]:
    """Round numbers that hold the range, at least four steps."""
    span = max(most - least, 1e-9)
    steps = (factor * 10.0**power for power in range(9, -12, -1) for factor in (5.0, 2.0, 1.0))
    step = next(step for step in steps if span / step >= 4.0)
    first, last = (least / step + 1e-9) // 1.0, -((1e-9 - most / step) // 1.0)
    return [round(count * step, 12) for count in range(int(first), int(last) + 1)]


def _sheet(title: str, content: Iterable[str], height: float) -> bytes:
    paper = element("rect", class_="paper", x=0.0, y=0.0, width=_WIDTH, height=height)
    body = group([paper, text((2.0, 5.0), title, 2.4, font_weight="bold"), *content], font_family=_FONT)
    return document((_WIDTH, height), title, [body], _STYLE)
