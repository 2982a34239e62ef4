"""Outlines, lengths and areas."""

from __future__ import annotations

from .entries import Entry, Items, Number, Word

GEOMETRY: dict[str, Entry] = {
    "coordinate": Number("m", -2e6, 2e6, "Coordinate"),
    "point": Items("x and y [m]", 2, 2, of="coordinate"),
    "outline": Items("Corners of the outline in order, without repeating the first [m]", 3, 256),
    "ring": Items("Corners of a closed ring in order, without repeating the first [m]", 3, 256),
    "voids": Items("Rings of areas that stay free of pipe [m]", 0, 32, of="ring"),
    "area": Number("m2", 0.05, 10_000.0, "Floor area"),
    # the pipe's way
    "tail_length": Number(
        "m", 0.0, 200.0, "One way from the manifold to the field; counted twice, for flow and return"
    ),
    "both_tails_length": Number(
        "m", 0.0, 400.0, "Both ways between manifold and field, flow and return together"
    ),
    "maximum_circuit_length": Number("m", 5.0, 500.0, "Longest permitted circuit, tails included"),
    "wall_clearance": Number(
        "m", 0.02, 1.0, "Distance of the outermost pipe's centre line from walls and voids"
    ),
    "fixing_distance": Number("m", 0.05, 2.0, "Distance between fixings on straight pipe"),
    "right_angle_bends": Number("1", 0, 10_000, "Right-angled bends of all circuits; a U-turn counts as two"),
    "field_length": Number("m", 0.0, 20_000.0, "Pipe in the heated field, without the tails"),
    "total_length": Number("m", 0.0, 20_000.0, "Field and both tails of a circuit"),
    "pipe_length": Number("m", 0.0, 20_000.0, "Pipe of all circuits, tails included"),
    "length_method": Word("area: floor area over spacing; outline: served area of the outline over spacing"),
    "loop_circuits": Items("Circuits of equal length", 1, 256),
    "maximum_circuit_area": Number(
        "m2", 0.0, 1000.0, "Floor area that one circuit of the permitted length covers"
    ),
    "pipe_length_per_area": Number(
        "1/m", 0.0, 40.0, "Pipe in the field per floor area: one over the spacing"
    ),
    "spacer_length": Number(
        "m",
        0.0,
        0.6,
        "Clear distance between neighbouring pipes, to cut a spacer: centres minus outside diameter",
    ),
    "counterflow_infeed_spacing": Number(
        "m",
        0.0,
        1.2,
        "Centres at which a counterflow is laid inwards; its way back fills the gaps: twice the spacing",
    ),
    "fixings": Number("1", 0, 1_000_000, "Fixings (staples) for all pipe"),
}
