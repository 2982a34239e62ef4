"""Heat, surface and water temperatures."""

from __future__ import annotations

from .kind import NOTE, VIOLATION, WARNING, Kind

__all__ = ["KINDS"]

KINDS: dict[str, Kind] = {
    "heat_missing": Kind(
        VIOLATION,
        "The floor gives less heat than the room needs, so the room stays cold.",
        "Choose among the remedies listed for the room.",
        cause="Poor insulation, a small floor, a covering that insulates well or a cool supply.",
        calculations=("designs",),
    ),
    "estimated_heat_short": Kind(
        WARNING + NOTE,
        "The floor may not give all the heat that such a house needs on this supply.",
        "Have the heat loss computed, and plan other heaters or insulation.",
        cause="An old building, or a low limit of the supply temperature.",
        calculations=("estimates",),
    ),
    "supply_too_cold": Kind(
        VIOLATION,
        "The source's water is colder than the room that needs most, so rooms stay short of heat.",
        "Raise the supply, or see what would help in each room.",
        cause="The source's supply or its highest temperature is set low, or one room needs far more than "
        "the others.",
        calculations=("designs",),
    ),
    "remedies_untried": Kind(
        NOTE,
        "Not every remedy was tried in these rooms, so that the answer comes in time.",
        "Take one of those listed and design again.",
        cause="Many rooms lack heat at once.",
        calculations=("designs",),
    ),
    "demand_not_reached": Kind(
        VIOLATION,
        "At this supply the floor does not give the heat of the room.",
        "Use closer pipes, a lighter covering, a warmer supply or another heater.",
        cause="Pipes lie far apart, the covering insulates well or another room sets a cool supply.",
        calculations=("supply-temperature",),
    ),
    "room_left_out_of_supply": Kind(
        WARNING,
        "Rooms left out when the supply was chosen need warmer water.",
        "Let them count, or add another heater there.",
        cause="Bathrooms and other rooms were left out when the supply was chosen.",
        calculations=("designs",),
    ),
    "source_too_small": Kind(
        VIOLATION,
        "The source gives less than the floor takes once warm, so the water never gets as warm.",
        "Choose a stronger source or cooler water.",
        cause="The output of the source was sized for the heat loss alone.",
        calculations=("floor-section",),
    ),
    "surface_limit_exceeded": Kind(
        VIOLATION,
        "The floor gets warmer than its limit, which can harm people and covering.",
        "Use cooler water or closer pipes; where heat is then missing, insulate the room better or "
        "add another heater.",
        cause="The room needs more heat per area than its floor may give.",
        calculations=("heat-output", "supply-temperature"),
    ),
    "surface_limit_above_standard": Kind(
        VIOLATION,
        "The surface limit is above 35 °C, which the standard permits nowhere, so people can be harmed.",
        "Lower the limit.",
        cause="The limit of the surface temperature was mistyped.",
        calculations=("heat-output", "supply-temperature", "designs"),
    ),
    "surface_above_peripheral_limit": Kind(
        VIOLATION,
        "The surface gets warmer than the standard permits anywhere, which can harm people and covering.",
        "Lower the water temperature, or use closer pipes or a thicker cover.",
        cause="The water is hot, or the pipes lie far apart under a thin cover.",
        calculations=("floor-section",),
    ),
    "surface_above_occupied_limit": Kind(
        WARNING,
        "The surface gets warmer than the standard permits where people stay, which tires them.",
        "Lower the water temperature, use closer pipes or a thicker cover, or use it only along "
        "outside walls.",
        cause="The water is warm, or the pipes lie far apart under a thin cover.",
        calculations=("floor-section",),
    ),
    "water_too_hot_for_screed": Kind(
        VIOLATION + WARNING,
        "The water is hotter than cement and calcium sulphate screeds can bear, so they can crack.",
        "Keep to 55 °C at most, or 45 °C in mastic asphalt.",
        cause="The source is a boiler without a mixing set, or the floor insulates upwards.",
        calculations=("heat-output", "supply-temperature", "floor-section", "designs"),
    ),
    "supply_above_limit": Kind(
        VIOLATION,
        "The supply is hotter than the screed can bear: 55 °C in cement and calcium sulphate, 45 °C "
        "in mastic asphalt.",
        "Lower it, with closer pipes or a lighter covering.",
        cause="A covering that insulates well or wide spacing asks for hot water.",
        calculations=("hydraulics", "designs"),
    ),
    "surface_below_room": Kind(
        WARNING,
        "The floor is colder than the room, and water condenses on it below the dew point.",
        "Keep the surface above the dew point.",
        cause="The water is colder than the room: the floor cools.",
        calculations=("floor-section",),
    ),
    "edge_below_room": Kind(
        WARNING,
        "The floor's edge is colder than the room, and moisture may settle there.",
        "Use a better edge strip, insulate the wall or lay a pipe closer to the edge.",
        cause="The edge strip or the wall lets much heat out.",
        calculations=("floor-section",),
    ),
    "tails_give_too_much": Kind(
        WARNING,
        "Tails alone overheat a room, whatever its control does.",
        "Insulate the tails or lead some another way.",
        cause="Many tails cross a small room, often the hall with the manifold.",
        calculations=("designs",),
    ),
    "tails_too_warm": Kind(
        WARNING,
        "The floor above the tails gets warmer than its limit.",
        "Insulate the flow tails or lay them further apart.",
        cause="Flow tails lie close to each other beside the manifold.",
        calculations=("designs",),
    ),
    "return_close_to_room": Kind(
        WARNING,
        "The return is hardly warmer than the room, so the end of the circuit stays cold.",
        "Choose a smaller temperature drop.",
        cause="The temperature drop is large for the supply.",
        calculations=("heat-output", "supply-temperature", "designs"),
    ),
    "output_not_reached": Kind(
        WARNING,
        "The floor does not reach nine tenths of its output within the time given.",
        "Give more time or heat ahead.",
        cause="The screed is thick, or the time given is short.",
        calculations=("floor-section",),
    ),
    "not_the_governing_room": Kind(
        WARNING,
        "A room asks for more heat per area than the one that sets the supply.",
        "Let the room that asks for most set it, or leave this one out of the choice.",
        cause="Rooms were sorted by total heat instead of heat per area.",
        calculations=("supply-temperature",),
    ),
    "drop_above_standard": Kind(
        WARNING,
        "The room that sets the supply is planned with more than 5 K between supply and return, more "
        "than the standard allows.",
        "Plan it with at most 5 K.",
        cause="A large temperature drop was chosen to save flow.",
        calculations=("supply-temperature",),
    ),
    "design_drop_large": Kind(
        NOTE,
        "The room that sets the supply is planned with more than 5 K between supply and return, more "
        "than the standard allows.",
        "Plan it with at most 5 K.",
        cause="A large temperature drop was chosen to save flow.",
        calculations=("designs",),
    ),
    "design_not_settled": Kind(
        WARNING,
        "The heat of tails did not settle, so rooms that hold tails may get more or less heat than shown.",
        "Insulate the tails, or give the spacing of these rooms.",
        cause="Many tails cross rooms with little demand.",
        calculations=("designs",),
    ),
    "floor_cools_room": Kind(
        VIOLATION,
        "So much heat goes down that the floor takes heat from the room.",
        "Insulate below the pipes.",
        cause="It is cold below, and the floor has hardly any insulation.",
        calculations=("floor-section", "heat-output", "supply-temperature", "designs"),
    ),
    "section_gives_less": Kind(
        WARNING,
        "With so little insulation the floor gives less heat than EN 1264-2 says for this water.",
        "Insulate better below the pipes.",
        cause="An old floor with little insulation below the pipes.",
        calculations=("heat-output", "supply-temperature", "designs"),
    ),
    "two_methods": Kind(
        WARNING + NOTE,
        "The floor lies beyond the standard's range, so its output was also solved in the section, "
        "and the two differ.",
        "Plan with the lower output.",
        cause="The spacing, the cover or the covering lies outside of what the standard covers.",
        calculations=("heat-output",),
    ),
    "outside_standard": Kind(
        WARNING,
        "EN 1264-2 has no value for this floor, so no rating by the standard goes with it.",
        "All numbers come from the solved section.",
        cause="The spacing, the cover or the pipe lies outside of what the standard covers.",
        calculations=("heat-output",),
    ),
    "surface_limit_above_occupied": Kind(
        NOTE,
        "The surface limit is above that of rooms where people stay.",
        "Use it only for strips of at most 1 m along outside walls.",
        cause="The limit of a peripheral area was given for the whole room.",
        calculations=("heat-output", "supply-temperature", "designs"),
    ),
    "surface_limit_above_29": Kind(
        NOTE,
        "The surface limit is above 29 °C, which is too warm to stay on for long.",
        "Keep it for bathrooms only.",
        cause="The room is a bathroom, or the limit was mistyped.",
        calculations=("heat-output", "supply-temperature", "designs"),
    ),
    "covering_below_design_value": Kind(
        NOTE,
        "The covering conducts better than the one that living rooms are planned for.",
        "A later carpet or parquet may leave the room cold; plan with 0.10 m2.K/W.",
        cause="The floor is planned with tiles.",
        calculations=("supply-temperature",),
    ),
    "more_heat_than_needed": Kind(
        NOTE,
        "The floor gives more heat than the room needs at the design's flow.",
        "Fit a room control that throttles it.",
        cause="The room has little demand, and one supply serves all rooms.",
        calculations=("designs",),
    ),
    "room_without_circuits": Kind(
        WARNING + NOTE,
        "Tails to other rooms heat a room or take up its floor, so it gets no circuit of its own.",
        "Insulate the tails if it becomes too warm; move the manifold if part of its floor must not stay cold.",
        cause="The room is small and lies between the manifold and other rooms.",
        calculations=("designs",),
    ),
    "tails_heat": Kind(
        NOTE,
        "Tails to other rooms warm a room they cross.",
        "Its own circuits are planned for the rest of its heat.",
        cause="The room lies between the manifold and other rooms.",
        calculations=("designs",),
    ),
    "heat_from_below": Kind(
        NOTE,
        "It is so warm below that heat flows up into the floor, and the room gets more than the water gives.",
        "Count with this heat only if it stays as warm below.",
        cause="There is a heated room or a boiler room below.",
        calculations=("heat-output", "floor-section"),
    ),
    "much_heat_downwards": Kind(
        WARNING,
        "More than a quarter of the heat goes down and is lost to the room.",
        "Add insulation below.",
        cause="Little insulation below the pipes, or it is cold below.",
        calculations=("floor-section",),
    ),
    "surface_uneven": Kind(
        NOTE,
        "Warm and cool stripes can be felt on the surface with bare feet.",
        "Use closer pipes or a thicker cover.",
        cause="Pipes lie far apart under a thin cover, and the water is warm.",
        calculations=("floor-section",),
    ),
}
