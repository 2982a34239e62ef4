"""Heat, water, layers and dates."""

from __future__ import annotations

__all__ = ["WORDS"]

WORDS: dict[str, tuple[str, str]] = {
    "not_above_room": ("The water is not warmer than the room.", "Give warmer water, or a cooler room."),
    "not_below_supply": ("The return is not colder than the supply.", "Give a return below the supply."),
    "outside_method": (
        "The floor lies outside of what the standard covers.",
        "Take the method that solves the section.",
    ),
    "pipes_touch": ("Pipes of this size touch at this spacing.", "Take a wider spacing or a thinner pipe."),
    "sheath_inside_pipe": (
        "The sheath is not wider than the pipe.",
        "Give the outside diameter of the sheath.",
    ),
    "no_bore": (
        "The walls of the pipe leave no bore.",
        "Check diameter and wall thickness: both are in metres.",
    ),
    "heated_from_below": (
        "The heat from below is more than the room needs.",
        "Check temperature and insulation below.",
    ),
    "exchange_and_coefficient": (
        "A surface coefficient goes with its own kind of exchange only.",
        "Give both, or leave the coefficient out.",
    ),
    "no_resistance_below": ("Nothing insulates below the pipes.", "Give the layers below."),
    "pipe_does_not_fit": ("The screed is thinner than cover and pipe.", "Give a thicker screed."),
    "pipe_outside_floor": ("The pipe reaches over the edge of the floor.", "Give a larger distance."),
    "section_edge_distance": (
        "The outermost pipe lies too far from the edge to be computed.",
        "Give a smaller distance.",
    ),
    "section_steps": ("The time takes too many steps.", "Take longer steps or a shorter time."),
    "above_storey": ("The room is higher than its storey.", "Correct one of the heights."),
    "area_without_slab": (
        "An area is given and no slab that it is of.",
        "Give the height of the storey or the slab.",
    ),
    "larger_than_room": ("The areas of floor or ceiling are larger than the room.", "Correct the areas."),
    "larger_than_wall": ("Windows and doors are larger than their wall.", "Correct the areas."),
    "longer_than_edge": ("The walls along an edge are longer than it.", "Correct their lengths."),
    "edge_without_wall": ("An edge of the outline has no wall.", "Say what lies beyond this edge."),
    "nothing_left": (
        "The other parts take up the whole edge or area.",
        "Leave this part out, or correct the others.",
    ),
    "no_elements": ("A room without outline has no elements.", "Give what its heat flows through."),
    "not_on_ground": ("Only walls and floors lie against the ground.", "Say what lies beyond this element."),
    "not_suspended": ("Only floors lie over an underfloor space.", "Say what lies beyond this element."),
    "too_many_bridged": (
        "Too many layers have bridges.",
        "Put layers together, or calculate the U-value elsewhere.",
    ),
    "outside_valve_table": (
        "The valve is more open than its table knows.",
        "Extend the table, or correct the value.",
    ),
    "water_is_pure": ("Water has no concentration.", "Give 0, or name the glycol."),
    "outside_published_range": (
        "No properties are published for so little glycol.",
        "Give more glycol, or pure water.",
    ),
    "fluid_frozen": ("The water or mixture would freeze.", "Give warmer water or more antifreeze."),
    "primary_below_return": ("The source is colder than the return.", "Give a warmer source."),
    "below_supply": ("The highest temperature is below that of operation.", "Give at least the supply."),
    "no_room_for_expansion": (
        "The safety valve opens before the vessel works.",
        "Take a valve with a higher pressure.",
    ),
    "thinner_than_pipe": ("The screed is thinner than the pipe.", "Give a thicker screed."),
    "above_maximum": ("The start is warmer than the screed may get.", "Start cooler."),
    "outside_plan": ("The date lies before the pour or far after it.", "Correct the date."),
    "longer_than_waiting": (
        "Heating would start before curing is over.",
        "Let heating wait until curing is over.",
    ),
    "too_many_boards": ("The order takes more boards than one request lays.", "Ask for fewer areas at once."),
    "supply_below_room": (
        "The supply is hardly warmer than the warmest room.",
        "Give a warmer supply, or a cooler room.",
    ),
    "supply_too_warm": (
        "For the limit of the surface the water would have to cool further than can be computed.",
        "Raise the limit of the surface, or take a cooler supply.",
    ),
    "drop_too_large": (
        "With the heat of its tails the water would cool further than can be computed.",
        "Allow a smaller temperature drop.",
    ),
    "above_source": (
        "The supply is warmer than the source gives.",
        "Leave this supply out, or give a warmer source.",
    ),
    "efficiency_not_known": (
        "The efficiency of the heat pump is not given for this supply.",
        "Give a curve that covers all supplies.",
    ),
    "efficiency_rises": ("A warmer supply cannot be more efficient.", "Check the order of the curve."),
    "not_colder": ("It is not colder outside than in every room.", "Give a colder outside."),
    "too_many_hours": ("The climate has more hours than a year.", "Check the hours of each temperature."),
}
