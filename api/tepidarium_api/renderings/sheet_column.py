"""The column beside the drawing of a room: legend, numbered notes, cautions, title block."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from tepidarium_engine import __version__ as engine_version
from tepidarium_engine.routes import RouteCircuit, RoutesInputs, RoutesResult

from .column_pen import Pen, Sample, legend, millimetres, notes, sample, title_block
from .sheet import Sheet
from .svg import element, text

__all__ = ["crossed", "sheet_column"]


def sheet_column(
    sheet: Sheet, inputs: RoutesInputs, result: RoutesResult, marks: Mapping[str, str]
) -> Iterator[str]:
    """``marks`` are the numbers of findings on the drawing, by code."""
    _, top, _ = sheet.column
    end, block = title_block(sheet, _title_lines(sheet, inputs, result))
    pen = Pen(sheet, top, end)
    legend(pen, _legend_rows(inputs, result))
    notes(pen, result.findings, result.cautions, marks)
    yield from pen.drawn
    yield from block


def _legend_rows(inputs: RoutesInputs, result: RoutesResult) -> list[tuple[Sample, str]]:
    rows: list[tuple[Sample, str]] = [
        (sample("flow"), "flow: first half of the pipe, arrows filled"),
        (sample("return"), "return: second half, arrows open"),
        (sample("clearance"), "limit of the pipe's centre line"),
    ]
    if result.length_spread is not None:
        rows.append((_numbered, "circuit: its number at the entry and in its floor"))
    if result.sleeves:
        rows.append((_sleeved, f"sleeve on a tail through a joint, {len(result.sleeves)} in all"))
    if inputs.voids:
        rows.append((crossed, "void: stays free of pipe"))
    if inputs.movement_joints:
        rows.append((sample("joint"), "movement joint"))
    if result.coverage.bare_spots:
        rows.append((_ringed, "floor more than 0.75 spacings from the pipe"))
    return rows


def crossed(x: float, y: float) -> str:
    """The sample of a void."""
    box = element("rect", class_="void", x=x + 4.0, y=y - 1.3, width=5.0, height=2.6)
    data = f"M {x + 4.0:.3f},{y - 1.3:.3f} l 5,2.6 M {x + 4.0:.3f},{y + 1.3:.3f} l 5,-2.6"
    return box + element("path", class_="thin", d=data)


def _numbered(x: float, y: float) -> str:
    circle = element("circle", class_="number", cx=x + 6.5, cy=y, r=1.6)
    return circle + text((x + 6.5, y + 0.7), "1", 1.5, text_anchor="middle", class_="strong")


def _sleeved(x: float, y: float) -> str:
    pipe = element("path", class_="flow", d=f"M {x:.3f},{y:.3f} L {x + 13.0:.3f},{y:.3f}")
    return pipe + element("rect", class_="sleeve", x=x + 4.0, y=y - 0.7, width=5.0, height=1.4)


def _ringed(x: float, y: float) -> str:
    return element("circle", class_="bare", cx=x + 6.5, cy=y, r=1.3)


def _title_lines(sheet: Sheet, inputs: RoutesInputs, result: RoutesResult) -> list[str]:
    pipe = inputs.pipe
    lines = [
        f"Pipe {millimetres(pipe.outside_diameter)} x {millimetres(pipe.wall_thickness)} mm, least bend radius "
        f"{millimetres(result.bend_radius)} mm",
        f"Clearance of the centre line {millimetres(inputs.wall_clearance)} mm, "
        f"spacer {millimetres(result.spacer_length)} mm",
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
        f"Circuit {circuit.id}: {circuit.pattern}, spacing {millimetres(circuit.pipe_spacing)} mm{judged}",
        f"  {circuit.length:.1f} m in the room + {circuit.tail_length:.1f} m tails = {circuit.total_length:.1f} m",
        *_inner_tails(circuit),
        f"  {bends.right_angle} right angles, {bends.u_turn} U-turns, {bends.other} other bends",
    ]


def _inner_tails(circuit: RouteCircuit) -> list[str]:
    if circuit.inner_tail_length <= 0.0:
        return []
    return [f"  of which {circuit.inner_tail_length:.1f} m lead from the entry to its floor and back"]
