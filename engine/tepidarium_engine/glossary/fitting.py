"""Laying sheets: a drawn pipe as it is laid on site."""

from __future__ import annotations

from .entries import Entry, Items, Number, Word

FITTING: dict[str, Entry] = {
    "circuits_to_lay": Items("Circuits as drawn; sheets do not depend on each other", 1, 64),
    "laying_rooms": Items("Rooms that pipe runs through", 1, 64),
    "coil_start_mark": Number("m", 0.0, 1000.0, "Metre mark of the coil at which the circuit's piece begins"),
    "coil_end_mark": Number("m", 0.0, 2000.0, "Metre mark of the coil at which the circuit's piece ends"),
    "laying_sheets": Items("One sheet for each circuit", 0, 256),
    "infeed_spacing": Number(
        "m",
        0.0,
        1.2,
        "Centres of a counterflow's first pass, inwards: twice the spacing; none for a serpentine",
    ),
    "infeed_spacer_length": Number(
        "m", 0.0, 1.2, "Spacer for the first pass: its centres minus outside diameter"
    ),
    "core_mark": Number("m", 0.0, 20_000.0, "Metre from the port at which flow turns into return"),
    "datum": Items("Corner of the room from which from_datum counts, x and y [m]", 2, 2, of="coordinate"),
    "datum_direction": Items(
        "Unit vector of the datum's first axis, along the walls; the second lies to its left",
        2,
        2,
        of="direction",
    ),
    "laying_steps": Items("Straights and turns in the order of laying", 0, 1000),
    "step_number": Number("1", 1, 1000, "Number of the step"),
    "step_kind": Word("straight or turn"),
    "pipe_mark": Number("m", 0.0, 20_000.0, "Metre from the port at which the step begins"),
    "coil_mark": Number("m", 0.0, 20_000.0, "Metre mark of the coil at which the step begins"),
    "step_length": Number("m", 0.0, 20_000.0, "Pipe in the step"),
    "from_datum": Items(
        "Where the step begins, along and across the datum's direction [m]", 2, 2, of="coordinate"
    ),
    "heading": Number(
        "deg", 0.0, 360.0, "Direction of travel where the step begins, counter-clockwise from the x axis"
    ),
    "hand": Word("To which side the turn goes: left or right; none for a straight"),
    "turn_angle": Number("deg", 0.0, 360.0, "Angle of the turn"),
    "laying_part": Word(
        "tail: on the way to the room or back; flow: inwards; core: the turn there; return: the way back"
    ),
    "step_fixings": Number("1", 0, 10_000, "Fixings on the step, that at its end not counted"),
    "wall_distances": Items("From the walls to the first straight beside them", 0, 600),
    "ring_number": Number("1", 0, 32, "0 for the outline, then the voids in order"),
    "wall_distance": Number("m", 0.0, 200.0, "From the wall to the pipe's centre line, square to the wall"),
    "on_wall": Items("End of the dimension line on the wall, x and y [m]", 2, 2, of="coordinate"),
    "on_pipe": Items("End of the dimension line on the pipe, x and y [m]", 2, 2, of="coordinate"),
}
