"""Pipe that cannot be laid or drawn: findings whose code ends in the reason."""

from __future__ import annotations

from .kind import NOTE, VIOLATION, Kind

__all__ = ["GUARDS", "NOT_DRAWN", "NO_DIVISION", "NO_ROUTE", "REASONS", "ROUTE_FAULTS"]

_REPORT = "Move the entry or take another spacing, and report the request."
REASONS: dict[str, tuple[str, str]] = {
    "tails_no_way": (
        "No row of doorways leads from the manifold to the room.",
        "Open a doorway to it, or place a manifold in its reach.",
    ),
    "tails_manifold": (
        "The wall of the manifold is too short for the pipes of all circuits.",
        "Choose a longer wall, a smaller pitch of the tails or one manifold more.",
    ),
    "tails_doorway": (
        "A doorway on the way is too narrow for the pipes of all circuits.",
        "Widen the doorway, take a smaller pitch of the tails or one manifold more.",
    ),
    "tails_room": (
        "A room on the way is too narrow for the pipes of all circuits, or for their bends.",
        "Widen that place, take a smaller pitch of the tails or one manifold more.",
    ),
    "no_floor": (
        "Tails to other rooms leave no floor that the room's own pipe can reach.",
        "Move the doorway or the manifold.",
    ),
    "no_joint": (
        "There is no room at the doorway for the bend that joins the tails to the circuit.",
        "Move the doorway or the entry.",
    ),
    "entry_too_narrow": (
        "The straight wall at the entry is too short for the pipes of all circuits.",
        "Move the entry along the wall, or take a smaller pitch of the tails.",
    ),
    "doorway_too_narrow": (
        "The doorway is too narrow for the pipes of all circuits.",
        "Widen the doorway, or take a smaller pitch of the tails.",
    ),
    "field_too_narrow": (
        "A part of the divided room is too narrow for pipe there and back.",
        "Move the joint, or leave the strip out of the outline.",
    ),
    "joint_at_entry": (
        "A movement joint lies so close to the entry that tails cannot part there.",
        "Move the entry to the middle of a field.",
    ),
    "no_way_for_tails": (
        "A part of the divided room cannot be reached by tails from the entry.",
        "Move the entry to the middle of a long wall, or ask for each part with its own entry.",
    ),
    "circuit_too_long": (
        "A circuit would be longer than permitted, and the room takes no more circuits.",
        "Allow more or longer circuits.",
    ),
    "too_few_circuits": (
        "Movement joints part the room into more fields than it may have circuits.",
        "Ask for at least one circuit in each field.",
    ),
    "too_many_circuits": (
        "The room needs more circuits than it may have.",
        "Allow longer circuits, or ask for each part of the room by itself.",
    ),
    "too_narrow": (
        "The room is too narrow for pipe there and back.",
        "Take a closer spacing, a smaller clearance or a pipe that bends tighter.",
    ),
    "no_room_for_pipe": (
        "The clearances from walls and voids take all the floor.",
        "Take smaller clearances.",
    ),
    "too_long_for_one_circuit": (
        "The room takes far more pipe than one circuit can hold.",
        "Divide the room into circuits, or take a wider spacing.",
    ),
    "bend_radius": (
        "The pipe does not bend as tightly as the spacing or the room asks for.",
        "Take a wider spacing, or a pipe that bends tighter.",
    ),
    "wall_clearance": (
        "The pipe would come too close to a wall or void.",
        "Take a smaller clearance, or a pipe that bends tighter.",
    ),
    "pipe_distance": (
        "Two pipes would come too close to each other.",
        "Take another spacing, or move the entry.",
    ),
    "tail_distance": (
        "Flow and return would come too close to each other near the entry.",
        "Move the entry, or change the pitch of the tails.",
    ),
    "gap": ("Two pieces of the pipe would not join.", _REPORT),
    "kink": ("The pipe would be kinked.", _REPORT),
    "crosses_itself": ("The pipe would cross itself.", _REPORT),
    "near_itself": ("The pipe would come too close to itself.", _REPORT),
    "too_near": ("The pipe would come too close to another circuit.", _REPORT),
    "circuits_too_near": ("Two circuits of the room would come too close to each other.", _REPORT),
    "outside_floor": ("The pipe would leave the floor.", _REPORT),
    "crosses_movement_joint": ("The pipe would cross a movement joint.", _REPORT),
    "start_off_entry": ("The flow would start too far from the entry.", _REPORT),
    "end_off_entry": ("The return would end too far from the entry.", _REPORT),
    "tail_pitch": ("Flow and return would not end at their pitch.", _REPORT),
    "geometry_failed": ("The shapes could not be computed.", _REPORT),
}
"""Why a circuit could not be laid or drawn and what to do, by the end of the code."""

NO_ROUTE = (
    "bend_radius",
    "too_long_for_one_circuit",
    "no_room_for_pipe",
    "too_narrow",
    "wall_clearance",
    "pipe_distance",
    "tail_distance",
    "gap",
    "kink",
    "crosses_itself",
    "start_off_entry",
    "end_off_entry",
    "tail_pitch",
)
"""Why one circuit of a room was not laid."""
NO_DIVISION = (
    "entry_too_narrow",
    "doorway_too_narrow",
    "too_few_circuits",
    "too_many_circuits",
    "circuit_too_long",
    "field_too_narrow",
    "joint_at_entry",
    "no_way_for_tails",
    *NO_ROUTE,
    "near_itself",
    "circuits_too_near",
    "outside_floor",
    "crosses_movement_joint",
)
"""Why a room was not laid with several circuits."""
_NOT_OF_STOREYS = {"doorway_too_narrow", "crosses_movement_joint"}
"""Reasons for rooms that are laid by themselves alone."""
GUARDS = frozenset(
    {
        "not_drawn_entry_too_narrow",
        "not_drawn_too_many_circuits",
        "not_drawn_too_narrow",
        "not_drawn_no_room_for_pipe",
        "not_drawn_too_long_for_one_circuit",
        "not_drawn_wall_clearance",
        "not_drawn_pipe_distance",
        "not_drawn_tail_distance",
        "not_drawn_gap",
        "not_drawn_kink",
        "not_drawn_too_few_circuits",
        "not_drawn_outside_floor",
        "not_drawn_too_near",
        "not_drawn_start_off_entry",
        "not_drawn_end_off_entry",
        "not_drawn_tail_pitch",
        "not_drawn_geometry_failed",
        "no_route_too_long_for_one_circuit",
        "no_route_gap",
        "no_route_kink",
        "no_route_start_off_entry",
        "no_route_end_off_entry",
        "no_route_tail_pitch",
        "no_division_too_long_for_one_circuit",
        "no_division_no_room_for_pipe",
        "no_division_too_narrow",
        "no_division_wall_clearance",
        "no_division_pipe_distance",
        "no_division_crosses_itself",
        "no_division_gap",
        "no_division_kink",
        "no_division_start_off_entry",
        "no_division_end_off_entry",
        "no_division_tail_pitch",
        "no_division_near_itself",
        "no_division_circuits_too_near",
        "no_division_outside_floor",
        "no_division_crosses_movement_joint",
    }
)
"""Codes by which the engine refuses its own work: no request is known that leads to them."""

_MEANING = "Circuits could not be drawn, so their lengths are estimated."
_REMEDY = "See for each what would help."
NOT_DRAWN: dict[str, Kind] = {
    **{
        code: Kind(VIOLATION, _MEANING, _REMEDY, cause, ("designs",), guard=code in GUARDS)
        for code, (cause, _) in ((f"not_drawn_{reason}", words) for reason, words in REASONS.items())
        if code.removeprefix("not_drawn_") not in _NOT_OF_STOREYS
    },
    "not_drawn_no_outline": Kind(
        NOTE,
        "Rooms without an outline are not drawn, so their lengths are estimated.",
        "Give their outlines.",
        cause="The room was given by its area only.",
        calculations=("designs",),
    ),
}
"""Circuits of a storey."""

_GIVEN = "The path of the request was drawn by hand or changed by another program."


def _fault(meaning: str, remedy: str) -> Kind:
    return Kind(VIOLATION, meaning, remedy, _GIVEN, ("routes",))


ROUTE_FAULTS: dict[str, Kind] = {
    "route_gap": _fault("The pieces of the pipe do not join.", "Let each start where the last one ends."),
    "route_kink": _fault("The pipe is kinked.", "Round the corner with the bend radius."),
    "route_crosses_itself": _fault(
        "The pipe crosses itself, but a circuit lies in one layer.", "Lead it round."
    ),
    "route_start_off_entry": _fault(
        "The flow starts too far from the entry.", "Let it start there, half the tails' pitch aside."
    ),
    "route_end_off_entry": _fault(
        "The return ends too far from the entry.", "Let it end there, half the tails' pitch aside."
    ),
    "route_tail_pitch": _fault("Flow and return do not end at their pitch.", "Change the ends or the pitch."),
    "route_wall_clearance": _fault(
        "The pipe comes too close to a wall or void, or leaves the floor.", "Lead it further inside."
    ),
    "route_bend_radius": _fault(
        "A bend is tighter than the pipe bears, so it can kink.",
        "Widen the turn, or take a pipe that bends tighter.",
    ),
    "route_pipe_distance": _fault("Two pipes come too close to each other.", "Move one of them."),
    "route_tail_distance": _fault(
        "Flow and return come too close to each other near the entry.", "Widen their pitch."
    ),
}
"""A pipe that came with the request, as the judge finds it."""
