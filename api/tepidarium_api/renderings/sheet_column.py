"""The column beside a drawing: legend, numbered notes, cautions, title block."""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Iterator

from tepidarium_engine import __version__ as engine_version
from tepidarium_engine.results import Finding
from tepidarium_engine.routes import RouteCircuit, RoutesInputs, RoutesResult

from .sheet import COLUMN, Sheet
from .svg import element, text

__all__ = ["SEVERITIES", "sheet_column"]

LINE = 3.6
"""Between lines of small print [mm]."""
INSET = 3.0
CHARACTERS = 58
"""In a line of small print."""
SMALL = 1.8
SEVERITIES = {"violation": 0, "warning": 1, "note": 2}
"""Worst first."""


class _Pen:
    """Writes down the column, line by line, until its end is reached."""

    def __init__(self, left: float, top: float, bottom: float) -> None:
        self.left, self.y, self.bottom = left + INSET, top, bottom
        self.drawn: list[str] = []

    def heading(self, words: str) -> None:
        self.y += 6.0
        self.drawn.append(text((self.left, self.y), words, 2.5, class_="strong"))
        self.y += 1.0

    def line(self, words: str, indent: float = 0.0) -> None:
        self.y += LINE
        self.drawn.append(text((self.left + indent, self.y), words, SMALL))

    @property
    def lines_left(self) -> int:
        return int((self.bottom - self.y) / LINE) - 1

    def rule(self) -> None:
        self.y += 2.0
        self.drawn.append(
            element(
                "line",
                class_="thin",
                x1=self.left - INSET,
                y1=self.y,
                x2=self.left - INSET + COLUMN,
                y2=self.y,
            )
        )


def sheet_column(
    sheet: Sheet, inputs: RoutesInputs, result: RoutesResult, marked: list[Finding]
) -> Iterator[str]:
    left, top, bottom = sheet.column
    title = _title_lines(sheet, inputs, result)
    height = 12.0 + LINE * len(title)
    pen = _Pen(left, top, bottom - height)
    _legend(pen, inputs, result)
    _notes(pen, result, marked)
    yield from pen.drawn
    block = _Pen(left, bottom - height - 2.0, bottom)
    block.rule()
    block.heading("Layout of floor heating pipe")
    for words in title:
        block.line(words)
    yield from block.drawn


def _legend(pen: _Pen, inputs: RoutesInputs, result: RoutesResult) -> None:
    pen.heading("Legend")
    rows: list[tuple[Callable[[float, float], str], str]] = [
        (_sample("flow"), "flow: first half of the pipe, arrows filled"),
        (_sample("return"), "return: second half, arrows open"),
        (_sample("clearance"), "limit of the pipe's centre line"),
    ]
    if inputs.voids:
        rows.append((_crossed, "void: stays free of pipe"))
    if inputs.movement_joints:
        rows.append((_sample("joint"), "movement joint"))
    if result.coverage.bare_spots:
        rows.append((_ringed, "floor more than 0.75 spacings from the pipe"))
    for draw, words in rows:
        pen.line(words, 16.0)
        pen.drawn.append(draw(pen.left, pen.y - 0.9))
    pen.rule()


def _sample(kind: str) -> Callable[[float, float], str]:
    return lambda x, y: element("path", class_=kind, d=f"M {x:.3f},{y:.3f} L {x + 13.0:.3f},{y:.3f}")


def _crossed(x: float, y: float) -> str:
    box = element("rect", class_="void", x=x + 4.0, y=y - 1.3, width=5.0, height=2.6)
    data = f"M {x + 4.0:.3f},{y - 1.3:.3f} l 5,2.6 M {x + 4.0:.3f},{y + 1.3:.3f} l 5,-2.6"
    return box + element("path", class_="thin", d=data)


def _ringed(x: float, y: float) -> str:
    return element("circle", class_="bare", cx=x + 6.5, cy=y, r=1.3)


def _notes(pen: _Pen, result: RoutesResult, marked: list[Finding]) -> None:
    """Findings with their marks, the others after them, as many as there is room for; then the cautions, each
    whole or at least what it begins with."""
    pen.heading("Notes")
    short = [line for caution in result.cautions for line in _wrapped("! " + _beginning(caution.message))]
    whole = [line for caution in result.cautions for line in _wrapped("! " + caution.message)]
    numbers = {id(finding): str(count) for count, finding in enumerate(marked, start=1)}
    ordered = sorted(
        result.findings, key=lambda finding: (id(finding) not in numbers, SEVERITIES[finding.severity])
    )
    for told, finding in enumerate(ordered):
        lines = _wrapped(f"{finding.severity.capitalize()}: {finding.message}")
        if pen.lines_left < len(lines) + len(short) + 1:
            pen.line(f"{len(ordered) - told} more findings in the answer as JSON.")
            break
        pen.drawn.append(text((pen.left, pen.y + LINE), numbers.get(id(finding), "-"), SMALL))
        for words in lines:
            pen.line(words, 4.0)
    if not ordered:
        pen.line("No findings.")
    for words in whole if pen.lines_left >= len(whole) else short:
        pen.line(words)


def _wrapped(words: str) -> list[str]:
    return textwrap.wrap(words, CHARACTERS)


def _beginning(message: str) -> str:
    """The first sentences, until there is something to go by."""
    sentences = message.rstrip(".").split(". ")
    count = next((n for n in range(1, len(sentences)) if len(". ".join(sentences[:n])) >= 30), len(sentences))
    return ". ".join(sentences[:count]) + "."


def _title_lines(sheet: Sheet, inputs: RoutesInputs, result: RoutesResult) -> list[str]:
    pipe = inputs.pipe
    lines = [
        f"Pipe {_mm(pipe.outside_diameter)} x {_mm(pipe.wall_thickness)} mm, least bend radius "
        f"{_mm(result.bend_radius)} mm",
        f"Clearance of the centre line {_mm(inputs.wall_clearance)} mm, spacer {_mm(result.spacer_length)} mm",
        f"Floor {result.area:.2f} m2, within 0.75 spacings "
        f"{100.0 * result.coverage.coverage_three_quarters:.1f} %",
    ]
    for circuit in result.circuits:
        lines += _circuit_lines(circuit)
    return [
        *lines,
        f"All pipe {result.pipe_length:.1f} m, circuits of at most {result.maximum_circuit_length:g} m",
        f"Scale 1:{sheet.scale} on {sheet.paper}; dimensions in m, pipe in mm",
        f"Check dimensions on site. Engine {engine_version}",
    ]


def _circuit_lines(circuit: RouteCircuit) -> list[str]:
    bends = circuit.bends
    judged = "" if circuit.valid else ", CANNOT BE LAID AS DRAWN"
    return [
        f"Circuit {circuit.id}: {circuit.pattern}, spacing {_mm(circuit.pipe_spacing)} mm{judged}",
        f"  {circuit.length:.1f} m in the room + {circuit.tail_length:.1f} m tails = {circuit.total_length:.1f} m",
        f"  {bends.right_angle} right angles, {bends.u_turn} U-turns, {bends.other} other bends",
    ]


def _mm(length: float) -> str:
    return f"{length * 1000.0:.4g}"
