"""Outlines, lengths and areas."""

from __future__ import annotations

from .entries import Entry, Items, Number, Word

GEOMETRY: dict[str, Entry] = {
    "coordinate": Number("m", -2e7, 2e7, "Coordinate; those of a national grid, too"),
    "point": Items("x and y", 2, 2, of="coordinate"),
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
    "length_method": Word(
        "area: floor area divided by spacing; outline: served area of the outline divided by spacing; route: "
        "measured on a route"
    ),
    "measured": Word(
        "Whether to lay a route in the outline and measure it; else its length follows from the area"
    ),
    "ideal_length": Number(
        "m", 0.0, 20_000.0, "Served area divided by spacing: length of pipe that lies exactly at its spacing"
    ),
    "loop_circuits": Items("Circuits of equal length", 1, 256),
    "maximum_circuit_area": Number(
        "m2", 0.0, 1000.0, "Floor area that one circuit of the permitted length covers"
    ),
    "pipe_length_per_area": Number("1/m", 0.0, 40.0, "Pipe in the field per floor area: 1 / spacing"),
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
        "Distance between pipe centres on the way inwards of a counterflow: twice the spacing, as the way back fills "
        "the gaps",
    ),
    "fixings": Number("1", 0, 1_000_000, "Fixings (staples) for all pipe"),
    # what a route is asked
    "place": Items("Where in the plan, x and y", 2, 2, of="coordinate"),
    "second_entry": Items("Where a second circuit of the same room comes in, x and y", 2, 2, of="coordinate"),
    "doorway": Items("Both jambs of the doorway through which the pipes come in, on the outline [m]", 2, 2),
    "manifold_place": Items(
        "Where the manifold stands; the pipes come in where the outline is nearest to it",
        2,
        2,
        of="coordinate",
    ),
    "tail_pitch": Number("m", 0.01, 1.0, "Distance between the centres of flow and return at the entry"),
    "pattern": Word(
        "counterflow: flow and return side by side, inwards and back; serpentine: to and fro across the room"
    ),
    "wall_stretches": Items("Walls from which the pipe keeps more than wall_clearance", 0, 32),
    "edge": Number("1", 0, 255, "Wall of the outline: 0 runs from its first corner to its second, and so on"),
    "edges": Items(
        "Walls of the outline: 0 runs from its first corner to its second, and so on", 1, 256, of="edge"
    ),
    "stretch": Items("The two ends of a straight stretch of wall, on the outline [m]", 2, 2),
    "peripheral": Word("A strip along outside walls with closer pipe"),
    "peripheral_width": Number("m", 0.1, 3.0, "Width of the strip along the outside walls"),
    "strip_edges": Items(
        "Outside walls along which the strip runs: 0 from the outline's first corner to its second, and so on",
        0,
        256,
        of="edge",
    ),
    "strip_length": Number("m", 0.1, 500.0, "Length of the strip in a room without an outline"),
    "strip_area": Number("m2", 0.0, 5000.0, "Floor of the strip, without what tails of others take"),
    "rest_heat_output": Number("W/m2", -1e4, 1e4, "Heat output beside the strip"),
    "rest_surface_temperature": Number(
        "degC", -50.0, 200.0, "Mean temperature of the surface beside the strip"
    ),
    "peripheral_designed": Word("The closer strip as it is in the end; null without one"),
    "own_circuit": Word("Whether the strip is a circuit of its own, which comes in at second_entry"),
    "movement_joints": Items(
        "Movement joints of the screed, each a line of points [m]", 0, 16, of="joint_line"
    ),
    "joint_line": Items("Points of a movement joint in order [m]", 2, 64),
    "circuits_wanted": Number("1", 1, 24, "Number of circuits that share the entry"),
    "outermost_pipe": Word("Which of flow and return runs along the walls"),
    "quick": Word("Whether to skip the search for the spacings that fit the room best"),
    "chord_error": Number("m", 1e-5, 0.05, "How far the points of path may lie off the bends of the pipe"),
    # the pipe as it lies
    "path": Items("Points of the pipe's centre line from flow to return [m]", 2, 2500),
    "pieces": Items("Straight lines and arcs of the pipe's centre line from flow to return", 1, 1000),
    "kind": Word("line or arc"),
    "start": Items("Where it starts, x and y", 2, 2, of="coordinate"),
    "end": Items("Where it ends, x and y", 2, 2, of="coordinate"),
    "centre": Items("Centre of the arc, x and y", 2, 2, of="coordinate"),
    "radius": Number("m", 0.001, 1000.0, "Radius of the arc"),
    "sweep": Number(
        "rad", -6.2831854, 6.2831854, "Angle that the arc turns by, counter-clockwise when positive"
    ),
    "route_circuits": Items("The circuits as laid", 1, 24),
    "laid_pattern": Word("The pattern laid; given for a path that came with the request"),
    "engine": Word(
        "How the pattern was made: rings, comb or lattice; null for a path that came with the request"
    ),
    "valid": Word("Whether the pipe can be laid as drawn: it passes every check"),
    "length": Number("m", 0.0, 20_000.0, "Length of the pipe's centre line as drawn, from entry to entry"),
    "inner_tail_length": Number(
        "m", 0.0, 20_000.0, "Pipe from the entry to the circuit's own floor and back, part of its length"
    ),
    "length_spread": Number(
        "1",
        0.0,
        10.0,
        "Longest minus shortest circuit of a divided room, divided by their mean, tails included",
    ),
    "ahead": Items("Unit vector of the direction of travel, x and y", 2, 2, of="direction"),
    "direction": Number("1", -1.0, 1.0, "Component of a unit vector"),
    "least_bend_radius": Number(
        "m", 0.0, 1.0, "Least bend radius of the centre line that holds for the pipe"
    ),
    "least_radius": Number("m", 0.0, 1000.0, "Least radius of all bends as drawn"),
    "bends": Word("Number of bends by kind"),
    "right_angle": Number("1", 0, 100_000, "Bends by a right angle"),
    "u_turn": Number("1", 0, 100_000, "U-turns: two right angles at about one spacing, or one bend"),
    "other": Number("1", 0, 100_000, "Bends by other angles"),
    "laid_spacings": Items("Parts of the floor where the pipe lies at another spacing than asked for", 0, 64),
    "pipe_count": Number("1", 0, 10_000, "Pipes side by side across this part of the floor"),
    "coverage": Word("How much of the floor the pipe reaches"),
    "heated_area": Number("m2", 0.0, 10_000.0, "Floor within half a spacing of where pipe may lie"),
    "coverage_half": Number("1", 0.0, 1.0, "Share of the heated area within half a spacing of the pipe"),
    "coverage_three_quarters": Number(
        "1", 0.0, 1.0, "Share of the heated area within three quarters of a spacing of the pipe"
    ),
    "bare_area": Number("m2", 0.0, 10_000.0, "Heated area beyond three quarters of a spacing of the pipe"),
    "bare_spots": Items("The largest pieces of the bare area, largest first", 0, 16),
    "width": Number("m", 0.0, 200.0, "Diameter of the largest circle in it"),
    "pipe_distance": Number("m", 0.0, 200.0, "From its middle to the pipe"),
    "quality": Word("How good the route is"),
    "length_ratio": Number(
        "1", 0.0, 100.0, "Length divided by that of pipe laid evenly at the spacing (served area / spacing)"
    ),
    "gap_95": Number(
        "1",
        0.0,
        10.0,
        "Distance to what lies square to the pipe, in spacings: 95 % of these distances are not greater",
    ),
    "least_distance": Number("1", 0.0, 10.0, "Least distance between parts of the pipe, in spacings"),
    "distance_1": Number(
        "1",
        0.0,
        10.0,
        "Distance to other parts of the pipe, in spacings: along 1 % of the pipe it is smaller",
    ),
    "close_share": Number("1", 0.0, 1.0, "Share of the pipe nearer than 0.75 spacings to other pipe"),
    "mixed_share": Number(
        "1",
        0.0,
        1.0,
        "Share of the pipe that has only pipe of the other half beside it: counterflow nearly 1",
    ),
    "temperature_spread": Number(
        "1", 0.0, 1.0, "Share of the water's temperature drop by which the floor differs from place to place"
    ),
}
