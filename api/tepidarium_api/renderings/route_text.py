"""The text beside the plan of a room: legend, data of its circuits, numbered notes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from tepidarium_engine.routes import RouteCircuit, RoutesInputs, RoutesResult

from .drawing_notes import notes
from .flow import Row, Sample, heading, paragraph, rule, samples
from .legend import (
    crossed_sample,
    line_sample,
    number_sample,
    pipe_samples,
    ring_sample,
    sleeve_sample,
)

__all__ = ["route_text"]


def route_text(inputs: RoutesInputs, result: RoutesResult, marks: Mapping[str, str]) -> Iterator[Row]:
    """``marks`` are the numbers of findings on the drawing, by code."""
    yield heading("Legend")
    yield from samples(_legend(inputs, result))
    yield rule()
    yield heading("Data")
    for line in _data(inputs, result):
        yield from paragraph(line)
    yield rule()
    yield from notes(result.findings, result.cautions, marks)


def _legend(inputs: RoutesInputs, result: RoutesResult) -> Iterator[tuple[Sample, str]]:
    yield from pipe_samples({circuit.pattern for circuit in result.circuits})
    yield line_sample("clearance"), "limit of the pipe's centre line"
    if result.length_spread is not None:
        yield number_sample, "circuit: its number at the entry and in its floor"
    if result.sleeves:
        yield sleeve_sample, f"sleeve on a tail through a joint, {len(result.sleeves)} in all"
    if inputs.voids:
        yield crossed_sample, "void: stays free of pipe"
    if inputs.movement_joints:
        yield line_sample("joint"), "movement joint"
    if result.coverage.bare_spots:
        yield ring_sample, "floor more than 0.75 spacings from the pipe"


def _data(inputs: RoutesInputs, result: RoutesResult) -> Iterator[str]:
    pipe = inputs.pipe
    yield (
        f"Pipe {_millimetres(pipe.outside_diameter)} x {_millimetres(pipe.wall_thickness)} mm, least bend radius "
        f"{_millimetres(result.bend_radius)} mm"
    )
    yield (
        f"Clearance of the centre line {_millimetres(inputs.wall_clearance)} mm, "
        f"spacer {_millimetres(result.spacer_length)} mm"
    )
    yield (
        f"Floor {result.area:.2f} m², within 0.75 spacings "
        f"{100.0 * result.coverage.coverage_three_quarters:.1f} %"
    )
    for circuit in result.circuits:
        yield from _circuit_lines(circuit)
    yield (f"All pipe {result.pipe_length:.1f} m, circuits of at most {result.maximum_circuit_length:g} m")
    yield "Dimensions in m, pipe and spacings in mm. Check dimensions on site."


def _circuit_lines(circuit: RouteCircuit) -> Iterator[str]:
    bends = circuit.bends
    fault = "" if circuit.valid else ", CANNOT BE LAID AS DRAWN"
    yield f"Circuit {circuit.id}: {circuit.pattern}, spacing {_millimetres(circuit.pipe_spacing)} mm{fault}"
    yield (
        f"{circuit.length:.1f} m in the room + {circuit.tail_length:.1f} m tails = {circuit.total_length:.1f} m"
    )
    if circuit.inner_tail_length > 0.0:
        yield f"of which {circuit.inner_tail_length:.1f} m lead from the entry to its floor and back"
    yield f"{bends.right_angle} right angles, {bends.u_turn} U-turns, {bends.other} other bends"


def _millimetres(length: float) -> str:
    return f"{length * 1000.0:.4g}"
