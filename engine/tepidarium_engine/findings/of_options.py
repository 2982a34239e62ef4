"""What a house could be instead."""

from __future__ import annotations

from .kind import NOTE, VIOLATION, WARNING, Kind

__all__ = ["KINDS"]

KINDS: dict[str, Kind] = {
    "ports_too_few": Kind(
        VIOLATION,
        "On every supply the rooms need more circuits than the manifolds have ports, so the options "
        "have more.",
        "Add a manifold, or allow longer circuits or a higher pressure.",
        cause="The manifolds are small for the house, or the circuits are limited to short lengths.",
        calculations=("design-options",),
    ),
    "pump_stages_too_small": Kind(
        VIOLATION,
        "No stage of the pump gives pressure and flow for all rooms, so the options are without the stages.",
        "Take a stronger pump, or allow more circuits.",
        cause="The pump is too weak for the house, or its stages were entered in other units.",
        calculations=("designs", "design-options"),
    ),
    "floor_not_even": Kind(
        VIOLATION,
        "No permitted choice makes this floor as even as you ask, so it is warmer where the water comes in.",
        "Permit a counterflow, or a smaller temperature drop.",
        cause="In a serpentine the water cools across the room.",
        calculations=("design-options", "designs"),
    ),
    "prices_are_zero": Kind(
        WARNING,
        "Neither pipe nor circuits cost anything, so the options use as much of them as helps.",
        "Give prices, or leave them out to count metres.",
        cause="The prices for pipe and circuits were entered as zero.",
        calculations=("design-options", "designs"),
    ),
    "option_not_proven": Kind(
        WARNING,
        "The search stopped before it had proven this option to be the best of its kind.",
        "Allow more nodes to have the proof.",
        cause="The house has many rooms and many choices.",
        calculations=("design-options", "designs"),
        guard=True,
    ),
    "coils_not_proven": Kind(
        NOTE,
        "Coils or circuits that cost a little less may exist, as the best bound is below this house; none was found.",
        "Take it, or permit more coil lengths or circuits to get nearer to the bound.",
        cause="The circuits leave rests of their coils, and the bound counts the length of pipe.",
        calculations=("design-options", "designs"),
    ),
    "efficiency_not_known": Kind(
        WARNING,
        "The efficiency of the heat pump is not given for this supply, so its energy stays open.",
        "Give a curve that covers all supplies.",
        cause="The efficiency curve of the heat pump ends before this supply temperature.",
        calculations=("designs", "heating-season", "design-options"),
    ),
    "little_reserve": Kind(
        WARNING,
        "No supply that the source gives covers so much more heat in this room at its spacing.",
        "Check its demand well, or take a closer spacing or a covering that insulates less.",
        cause="The room already uses its closest spacing or lies near its surface limit.",
        calculations=("designs", "design-sensitivity"),
    ),
    "curve_too_low": Kind(
        WARNING,
        "On the heating curve of the governing room this room lacks heat in a part of the season.",
        "Shift the curve up, or let another heat emitter help.",
        cause="The room loses or gains heat in another way than the room that sets the curve, or it gets colder than "
        "the design counts with, and the source gives no warmer water.",
        calculations=("designs", "heating-season"),
    ),
    "single_option": Kind(
        NOTE,
        "One house beats all others, so there is nothing to weigh.",
        "Permit more spacings, supplies or coverings to see others.",
        cause="Few spacings, supplies or coverings are permitted.",
        calculations=("design-options",),
    ),
    "objective_met_by_rule": Kind(
        NOTE,
        "No house that could be designed completely is better in what you asked for than the one by the rule.",
        "Permit more spacings, circuits or a warmer source if you want to gain more.",
        cause="The rule of designs takes the coldest supply and on it the widest spacings, which is often the best.",
        calculations=("designs",),
    ),
    "supplies_left_out": Kind(
        NOTE,
        "There are more supply temperatures to look at than one request allows, so some of them were "
        "left out.",
        "Give those that you want to see, or permit fewer spacings and coverings.",
        cause="Many rooms with many spacings and coverings, each possible from another supply on.",
        calculations=("design-options", "designs"),
    ),
    "options_left_out": Kind(
        NOTE,
        "There are more options than asked for; those that differ most are shown.",
        "Ask for more to see the rest.",
        cause="The number of options asked for is small.",
        calculations=("design-options",),
    ),
    "change_not_computed": Kind(
        NOTE,
        "With some changes no house can be designed within what can be computed, so they have no line.",
        "Make them in the request of designs to see why.",
        cause="A change leads beyond what the standard or the limits of the request permit.",
        calculations=("designs", "design-sensitivity"),
    ),
    "patterns_alike": Kind(
        NOTE,
        "By area patterns differ in how even the floor is, and no evenness is asked for, so every room keeps its own.",
        "Say how much warmer a floor may be at one end than at the other.",
        cause="EN 1264-2 counts the same heat for all patterns, and they take as much pipe.",
        calculations=("design-options", "designs"),
    ),
    "options_by_area": Kind(
        NOTE,
        "The options follow from areas and estimated tails, and drawn pipes are a little longer or shorter.",
        "Send the spacings and the supply of an option to designs to have it drawn.",
        cause="Options compare many houses, which are not drawn one by one.",
        calculations=("design-options",),
    ),
}
