"""The chain from the room to the pipe of its circuits, for those who want to check by hand."""

from __future__ import annotations

from collections.abc import Iterator

from ...results import Working
from ..laying.spacing_limits import LARGEST_BEND_SHARE
from ..lengths.lengths import circuit_length_rule, laid_diameter
from ..outlines.polygons import room_polygon, served_area
from .route_records import RouteCircuit, RoutesInputs, RoutesResult

__all__ = ["route_workings"]

_ARITHMETIC = "Arithmetic"
_GEOMETRY = "Geometry"
_PRACTICE = "Common practice, no source"


def route_workings(inputs: RoutesInputs, result: RoutesResult) -> tuple[Working, ...]:
    """Intermediate values; those of a circuit carry its number in their symbol."""
    spacing, clearance = inputs.pipe_spacing, inputs.wall_clearance
    pipe, share = inputs.pipe, LARGEST_BEND_SHARE[inputs.pattern]
    radius_source = _PRACTICE if pipe.minimum_bend_radius is None else "Input"
    limit_source = "Input" if inputs.maximum_circuit_length is not None else circuit_length_rule(pipe).source
    served = served_area(room_polygon(inputs.outline, inputs.voids), spacing, clearance)
    rows = (
        ("A", "floor area net of voids", result.area, "m2", "from outline and voids", _GEOMETRY),
        ("T", "pipe spacing", spacing, "m", "given", "Input"),
        ("c", "wall clearance of the centre line", clearance, "m", "given", _PRACTICE),
        ("R", "least bend radius", result.bend_radius, "m", "given, or 5 outside diameters", radius_source),
        ("R_max", "greatest bend radius at this spacing", share * spacing, "m", f"{share:g} T", _GEOMETRY),
        ("A_s", "area served by even pipe", served, "m2", "outline moved outwards by T/2 - c", _GEOMETRY),
        ("L_0", "even pipe on the whole floor", served / spacing, "m", "A_s / T", _ARITHMETIC),
        (
            "A_h",
            "heated area",
            result.coverage.heated_area,
            "m2",
            "outline moved inwards by c - T/2",
            _GEOMETRY,
        ),
        (
            "A_b",
            "bare area",
            result.coverage.bare_area,
            "m2",
            "part of A_h more than 0.75 T from all pipe",
            _GEOMETRY,
        ),
        (
            "C_75",
            "coverage at 0.75 spacings",
            result.coverage.coverage_three_quarters,
            "1",
            "1 - A_b / A_h",
            _ARITHMETIC,
        ),
        (
            "L_max",
            "longest permitted circuit",
            result.maximum_circuit_length,
            "m",
            "given or by diameter",
            limit_source,
        ),
        ("d", "outside diameter as laid", laid_diameter(pipe), "m", "given", "Input"),
        ("s", "spacer", result.spacer_length, "m", "T - d", _PRACTICE),
    )
    circuits = (row for circuit in result.circuits for row in _circuit(inputs, circuit))
    total = Working("L", "pipe of all circuits", result.pipe_length, "m", "sum of L_i", _ARITHMETIC)
    return (*(Working(*row) for row in rows), *circuits, total)


def _circuit(inputs: RoutesInputs, circuit: RouteCircuit) -> Iterator[Working]:
    mark = f"_{circuit.id}"
    lines = sum(1 for piece in circuit.pieces if piece.kind == "line")
    arcs = len(circuit.pieces) - lines
    bends = circuit.bends
    yield Working(
        f"l{mark}",
        "centre line as drawn",
        circuit.length,
        "m",
        f"sum of {lines} lines (distance of the ends) and {arcs} arcs (radius x sweep)",
        _GEOMETRY,
    )
    yield Working(
        f"l_0{mark}",
        "length over that of even pipe on this circuit's floor",
        circuit.quality.length_ratio,
        "1",
        "l T / A_s of the circuit",
        _ARITHMETIC,
    )
    yield Working(f"l_t{mark}", "one way from manifold to entry", inputs.tail_length, "m", "given", "Input")
    yield Working(f"L{mark}", "circuit with both tails", circuit.total_length, "m", "l + 2 l_t", _ARITHMETIC)
    yield Working(
        f"n{mark}",
        "bends",
        float(bends.right_angle + bends.u_turn + bends.other),
        "1",
        f"{bends.right_angle} right angles + {bends.u_turn} U-turns + {bends.other} others",
        _GEOMETRY,
    )
