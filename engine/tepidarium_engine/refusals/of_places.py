"""Outlines, doorways, joints, manifolds and pipes on a plan."""

from __future__ import annotations

__all__ = ["WORDS"]

WORDS: dict[str, tuple[str, str]] = {
    "coordinate": ("A coordinate is no number, or too large.", "Give coordinates in metres."),
    "repeated_point": ("Two points in a row lie at the same place.", "Leave one of them out."),
    "self_crossing": (
        "The outline crosses or touches itself.",
        "Draw it round the floor once, without crossing.",
    ),
    "area_too_small": ("The outline encloses hardly any floor.", "Check that coordinates are in metres."),
    "area_too_large": (
        "The outline encloses more floor than is computed.",
        "Check that coordinates are in metres.",
    ),
    "too_narrow": (
        "A place is too narrow for pipe there and back.",
        "Widen it, or take what the detail names.",
    ),
    "invalid": ("The outline encloses no valid area.", "Draw it again, simpler."),
    "geometry": ("An area is empty or not valid.", "Draw it again, simpler."),
    "geometry_failed": (
        "The shapes of the request could not be computed.",
        "Draw them simpler, and report the request.",
    ),
    "void_is_outline": ("A void takes the whole room.", "Leave it out, or make it smaller."),
    "void_touches_outline": (
        "A void touches the outline.",
        "Let the outline go round it and leave it out of the voids: the changes beside the fault do both.",
    ),
    "void_outside": (
        "A void lies outside of the room, or reaches out of it.",
        "Keep voids inside of the room.",
    ),
    "voids_meet": ("Two voids overlap or touch.", "Draw them as one."),
    "rooms_overlap": ("Two rooms of a storey overlap.", "Correct their outlines."),
    "doorways_overlap": ("Two doorways lie over each other.", "Give each opening once."),
    "not_facing": ("The walls of the two rooms do not face each other at the doorway.", "Move the doorway."),
    "not_on_wall": (
        "There is no wall with space for it at this place.",
        "Give a place on a wall of the room.",
    ),
    "same_room": ("A doorway joins a room with itself.", "Name the two rooms that it joins."),
    "off_outline": (
        "The place lies off the outline.",
        "Take the nearest point of the outline, which the detail names.",
    ),
    "outside": ("The place lies outside of the rooms.", "Give a place at a wall."),
    "outside_room": ("A movement joint leaves the room.", "Draw joints across the floor that they divide."),
    "crosses_itself": (
        "A movement joint crosses or touches itself.",
        "Give joints that meet as joints of their own.",
    ),
    "repeated_joint": ("A movement joint runs along another one.", "Give each joint once."),
    "too_short": ("A joint or a piece of pipe is too short.", "Leave it out, or make it longer."),
    "no_such_wall": (
        "The outline has no wall of this number.",
        "Count the walls from 0, in the order of the points.",
    ),
    "no_such_edge": (
        "The outline has no edge of this number.",
        "Count the edges from 0, in the order of the points.",
    ),
    "needs_outline": (
        "The field goes with an outline, and the room has none.",
        "Give the outline, or leave the field out.",
    ),
    "needs_doorways": (
        "No place for the manifold can be found without doorways.",
        "Give the doorways between the rooms.",
    ),
    "no_manifold": ("A storey has rooms and no manifold.", "Give a manifold on this storey."),
    "no_circuits": ("No room has a circuit.", "Give at least one room its circuits."),
    "too_few_ports": (
        "A room has more circuits than a manifold has ports.",
        "Allow more ports, or give the room as two.",
    ),
    "no_wall_wide_enough": (
        "No allowed wall has room for the pipes of all ports.",
        "Allow another wall, fewer ports for each manifold or a smaller pitch of the tails.",
    ),
    "no_place": (
        "From no allowed place are all rooms reached with tails of the permitted length.",
        "Allow other places, or longer tails.",
    ),
    "unreached": (
        "No row of doorways leads from an allowed place to the room.",
        "Add the doorway that is missing.",
    ),
    "tails_too_long": (
        "The tails alone are as long as a circuit may be.",
        "Move the manifold nearer, or allow longer circuits.",
    ),
    "pipes_overlap": ("Two pipes beside each other would touch.", "Take a wider distance or a thinner pipe."),
    "bend_too_wide": (
        "The pipe does not bend as tightly as its spacing asks.",
        "Take a wider spacing, or a pipe that bends tighter.",
    ),
    "clearance_fills_room": (
        "The clearance from the walls leaves no floor for pipe.",
        "Take a smaller clearance.",
    ),
    "no_pipe_fits": (
        "The spacing is too wide for the room: not even one turn fits.",
        "Take a closer spacing.",
    ),
    "below_room": (
        "A value of a part is below that of the whole room.",
        "Give the room the least value, and its parts more.",
    ),
    "with_given_path": ("A path to be checked is one circuit.", "Leave the number of circuits out."),
    "with_second_entry": (
        "Circuits with a second entry do not share an entry.",
        "Leave the number of circuits out.",
    ),
    "with_joints": ("A closer strip cannot go with movement joints.", "Ask for each field by itself."),
    "wider_than_room": (
        "The closer strip has a wider spacing than the room.",
        "Take at most that of the room.",
    ),
    "with_serpentine": (
        "A closer strip shares the water of the room only in a counterflow.",
        "Lay the room in counterflow, or make the strip a room of its own.",
    ),
    "strip_fills_room": (
        "The closer strip takes the whole room.",
        "Give the room itself the closer spacing.",
    ),
    "much_closer_than_room": (
        "The spacing of the strip is far closer than that of the room.",
        "Take at least a tenth of it.",
    ),
    "one_circuit": (
        "A second entry has no use where all is one circuit.",
        "Leave it out, or make the strip a circuit.",
    ),
    "inside_strip": ("The entry of the inner circuit lies in the strip.", "Let it come in elsewhere."),
    "outside_strip": (
        "The entry of the strip's circuit lies away from the strip.",
        "Move it to where the strip is.",
    ),
    "not_one_piece": (
        "The strip parts the floor in several pieces.",
        "Take a narrower strip or other walls.",
    ),
    "no_cut": ("No straight cut divides the room between its two entries.", "Move the entries apart."),
    "same_field": (
        "Both entries lie in the same field between the joints.",
        "Move one into the other field.",
    ),
    "too_many_fields": (
        "Joints divide the room into more fields than it has entries.",
        "Leave the second entry out.",
    ),
    "too_many_circuits": (
        "The work takes more circuits than one request computes.",
        "Divide it into several requests.",
    ),
    "too_much_pipe": (
        "The room takes more pipe than one request computes.",
        "Divide the room, or take a wider spacing.",
    ),
    "too_much_to_divide": (
        "The room is too large to be divided in one request.",
        "Divide it, and ask for each part.",
    ),
    "too_dense": ("The path has too much pipe at one place to be checked.", "Draw each pipe once."),
    "too_long": ("The path is longer than a circuit can be.", "Check that coordinates are in metres."),
    "not_drawn": (
        "A drawing is asked for of what is not drawn.",
        "Give what a drawing needs: see the findings.",
    ),
    "gap": (
        "A piece of the pipe does not begin where the last one ends.",
        "Give the pieces in order, without gaps.",
    ),
    "no_radius": ("The centre of an arc lies on its start.", "Give the centre of the bend."),
}
