"""The pipe of a circuit as it is laid."""

from __future__ import annotations

from .kind import NOTE, VIOLATION, WARNING, Kind
from .undrawn import ROUTE_FAULTS

__all__ = ["KINDS"]

KINDS: dict[str, Kind] = {
    **ROUTE_FAULTS,
    "spacing_too_close_for_pipe": Kind(
        VIOLATION,
        "The pipe cannot be laid at this spacing, as it does not bend so tightly.",
        "Take a wider spacing, or a pipe that may be bent tighter.",
        cause="A thick or stiff pipe at a close spacing.",
        calculations=("designs",),
    ),
    "close_to_wall": Kind(
        VIOLATION,
        "The pipe lies so close to walls or other upright parts that later work on them can hit it.",
        "Enlarge the clearance.",
        cause="The clearance was measured to the middle of the pipe, or set to zero.",
        calculations=("loop-length", "routes"),
    ),
    "circuit_too_long": Kind(
        VIOLATION + WARNING,
        "The circuit is longer than permitted, tails included.",
        "Divide the floor into several circuits, or take a wider spacing.",
        cause="The room is large for one circuit of this pipe and spacing.",
        calculations=("routes",),
    ),
    "too_long_circuit": Kind(
        VIOLATION,
        "Circuits are too long for this pipe size, so they lose too much pressure.",
        "Divide them.",
        cause="The room is large, or the manifold far away.",
        calculations=("loop-length", "hydraulics", "designs"),
    ),
    "long_circuit": Kind(
        WARNING,
        "Circuits are longer than usual for this pipe and may lose too much pressure.",
        "Check their pressure drop, or divide them.",
        cause="The room is large, or the manifold far away.",
        calculations=("loop-length", "hydraulics", "designs"),
    ),
    "tail_assumed": Kind(
        WARNING,
        "The way from the manifold is not known, so lengths are only estimates.",
        "Give the length of the tail, or the manifold's position and the room's outline.",
        cause="The manifold's position or the room's outline is not given.",
        calculations=("designs",),
    ),
    "bare_spot": Kind(
        WARNING + NOTE,
        "Parts of the floor are too far from any pipe and stay cooler.",
        "A closer spacing, another entry or a second circuit may reach them.",
        cause="Corners, niches and narrow places that the pattern does not reach.",
        calculations=("routes",),
    ),
    "floor_left_out": Kind(
        WARNING + NOTE,
        "Parts of the floor get no pipe and stay cold.",
        "See for each part what would help.",
        cause="Narrow strips, small corners, or floor that the circuit cannot reach.",
        calculations=("routes",),
    ),
    "strip_not_closer": Kind(
        WARNING,
        "Beside this wall the pipe cannot lie closer within one circuit, so the strip gets no more heat.",
        "Make the strip a circuit or a room of its own.",
        cause="The wall is short, or lies beside the entry.",
        calculations=("routes", "designs"),
    ),
    "two_circuits_better": Kind(
        WARNING,
        "One end of the floor gets clearly warmer water than the other.",
        "Lay two circuits, parted at the narrowest place.",
        cause="The room has a narrow place, and the pipe warms one part before the other.",
        calculations=("routes",),
    ),
    "wide_peripheral_area": Kind(
        WARNING,
        "The closer strip along the wall is wider than the standard permits for a warmer surface.",
        "Make it at most 1 m wide.",
        cause="The closer strip was extended into the room.",
        calculations=("routes", "designs"),
    ),
    "narrow_room": Kind(
        WARNING,
        "The room is so narrow that flow and return lie closer than the spacing.",
        "Choose a closer spacing.",
        cause="A corridor or a niche.",
        calculations=(
            "designs",
            "loop-length",
        ),
    ),
    "not_drawn": Kind(
        NOTE,
        "No single route could be laid in this outline, so its length follows from the area.",
        "Ask for its route to learn why.",
        cause="The room is small, narrow or has many corners for the pipe and its spacing.",
        calculations=(
            "designs",
            "loop-length",
        ),
    ),
    "fixings_far_apart": Kind(
        WARNING,
        "Fixings lie so far apart that the pipe can rise in the screed.",
        "Set them closer.",
        cause="The distance of the fixings was chosen to save clips.",
        calculations=("laying-sheets", "loop-length"),
    ),
    "fewer_circuits": Kind(
        NOTE,
        "Rooms get fewer circuits than asked for, as no more have a way; each keeps the permitted length.",
        "Widen the way if you need them all.",
        cause="The doorway or the wall is too narrow for all pairs of pipes.",
        calculations=("designs",),
    ),
    "tails_closer": Kind(
        NOTE,
        "Tails of the whole storey lie closer together than asked for, as some would have no way otherwise.",
        "Lay them at the pitch that is named, or widen the place.",
        cause="A doorway, a room or the wall of the manifold is too narrow for all pairs of pipes.",
        calculations=("designs",),
    ),
    "long_tails": Kind(
        NOTE,
        "More than a third of the pipe of a circuit lies between its manifold and its room, and heats other rooms.",
        "Place the manifold nearer to the room, or give the room fewer circuits.",
        cause="The room is small, or far from its manifold.",
        calculations=("designs",),
    ),
    "divided": Kind(
        NOTE,
        "One circuit would be too long.",
        "The field is divided into equal circuits.",
        cause="The room is large for this pipe.",
        calculations=("loop-length",),
    ),
    "unequal_circuits": Kind(
        NOTE,
        "The circuits differ much in length, so the valves have to balance them.",
        "Another place of the entry or another number of circuits may make them more alike.",
        cause="The outline or the entry does not permit parts of the same size.",
        calculations=("routes",),
    ),
    "spacing_left_out": Kind(
        NOTE,
        "A spacing was left out, as the pipe does not bend so tightly.",
        "Give the least bend radius of the pipe if its maker allows a smaller one.",
        cause="A spacing among the choices is closer than the pipe bends.",
        calculations=("designs",),
    ),
    "spacing_too_wide_for_room": Kind(
        NOTE,
        "A spacing was left out: flow and return do not fit into the room beside each other.",
        "A closer one is taken.",
        cause="A narrow room.",
        calculations=("designs",),
    ),
    "closer_spacing_kept": Kind(
        NOTE,
        "A room keeps a closer spacing, as a wider one would no longer do with the tails that then pass it.",
        "Give its spacing to decide otherwise.",
        cause="Tails to other rooms take floor of this room.",
        calculations=("designs",),
    ),
    "spacing_differs": Kind(
        NOTE,
        "In parts of the floor the pipes lie at another spacing than asked for.",
        "Set the spacer for them.",
        cause="The width of the room is no whole number of spacings.",
        calculations=("routes",),
    ),
    "bend_wider_than_half_spacing": Kind(
        NOTE,
        "The bend radius is more than half the spacing, so U-turns bulge.",
        "For plain ones take a wider spacing or a pipe that bends tighter.",
        cause="A thick or stiff pipe at a close spacing.",
        calculations=("routes",),
    ),
    "u_turn_too_tight": Kind(
        NOTE,
        "A plain U-turn of a serpentine needs twice the bend radius as spacing.",
        "Lay a counterflow, or widen the turns.",
        cause="A serpentine at a close spacing.",
        calculations=(
            "designs",
            "loop-length",
        ),
    ),
    "unusual_spacing": Kind(
        NOTE,
        "The pipe spacing is outside the usual 50 to 300 mm and may be a mistake.",
        "Check it.",
        cause="The spacing was mistyped, or given in another unit.",
        calculations=("loop-length", "routes"),
    ),
}
