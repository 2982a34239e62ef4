"""What is known of the building and its heat loss."""

from __future__ import annotations

from .kind import NOTE, WARNING, Kind

__all__ = ["KINDS"]

KINDS: dict[str, Kind] = {
    "partition_areas_differ": Kind(
        WARNING,
        "What lies between two rooms has one area seen from one room and another seen from the "
        "other, so one heat loss is wrong.",
        "Check both outlines; the side that gives the construction counts.",
        cause="One of the two outlines is wrong, or their storey heights differ.",
        calculations=("heat-loss",),
    ),
    "space_without_outlet": Kind(
        WARNING,
        "Nothing leads from this unheated space to the outside, so it counts as warm as the rooms beside it.",
        "Give what its walls, roof and air let through.",
        cause="The walls or the air change of the unheated space were not given.",
        calculations=("heat-loss",),
    ),
    "bridges_beyond_method": Kind(
        WARNING,
        "The thermal bridges conduct so much better than their layer that the U-value is unreliable.",
        "Have it calculated numerically; metal bridges always need it.",
        cause="Metal parts cross the insulation.",
        calculations=("heat-loss",),
    ),
    "annual_mean_below_design_day": Kind(
        WARNING,
        "The mean of the year is colder than the design day, so losses to the ground come out too high.",
        "Check both temperatures.",
        cause="The two temperatures were mixed up.",
        calculations=("heat-loss",),
    ),
    "outlines_as_drawn": Kind(
        NOTE,
        "Outside walls count as long as the outlines, but the standard counts outer dimensions, so "
        "losses may be too low.",
        "For outlines along the inner faces give the ratio of outer to inner wall area, 1.25 when it "
        "is not known.",
        cause="Outlines were taken along the inner faces of the walls.",
        calculations=("heat-loss",),
    ),
    "unheated_space_assumed": Kind(
        NOTE,
        "Nothing is said about the unheated space, so half of the difference to the outside is assumed.",
        "Describe the space, or give its temperature factor.",
        cause="An element leads to an unheated space that the request does not describe.",
        calculations=("heat-loss",),
    ),
    "underfloor_space_by_balance": Kind(
        NOTE,
        "The air below the suspended floor is as cold as its heat balance says, not as the "
        "standard's default.",
        "Give a temperature factor of 0.8 to be on the standard's side.",
        cause="The temperature factor of the space below the floor was not given.",
        calculations=("heat-loss",),
    ),
    "underfloor_ventilation_low": Kind(
        WARNING,
        "So little air passes below the suspended floor that its timber may rot.",
        "Add openings, or insulate the space and lay a membrane on the soil.",
        cause="The ventilation openings are small for the size of the floor.",
        calculations=("heat-loss",),
    ),
    "supplement_low": Kind(
        WARNING,
        "The supplement for thermal bridges is lower than the standard grants the best new "
        "buildings, so losses may be too low.",
        "Calculate every junction, or raise it.",
        cause="The supplement was taken from an optimistic table or left at zero.",
        calculations=("heat-loss",),
    ),
    "air_change_low": Kind(
        WARNING,
        "The room gets less fresh air than people need, unless a ventilation system brings it.",
        "Check the air change.",
        cause="The air change was entered per day, or the room is airtight.",
        calculations=("heat-loss",),
    ),
    "high_room": Kind(
        WARNING,
        "In a high room warm air gathers below the ceiling, and more heat is lost than computed.",
        "Add a margin to the demand.",
        cause="The room is open through two storeys, or its height was mistyped.",
        calculations=("heat-loss",),
    ),
    "deep_storey": Kind(
        NOTE,
        "The storey lies wholly below ground, and its walls count as losing more than they do.",
        "No action is needed.",
        cause="The storey is a cellar with its whole height below ground.",
        calculations=("heat-loss",),
    ),
    "edge_insulation_wide": Kind(
        NOTE,
        "The edge insulation reaches so far that the standard's formula no longer holds.",
        "It counts as insulation below the whole floor; no action is needed.",
        cause="The edge insulation reaches across most of the floor.",
        calculations=("heat-loss",),
    ),
    "edge_insulation_not_counted": Kind(
        NOTE,
        "Edge insulation counts for floors at ground level only, so it is left out for those below.",
        "No action is needed.",
        cause="The floor lies below ground level, where edge insulation has little effect.",
        calculations=("heat-loss",),
    ),
    "soil_not_counted": Kind(
        NOTE,
        "The U-value leaves out the soil, which is on the safe side.",
        "Give floor area and exposed perimeter of the building to count it.",
        cause="The size of the building on the ground was not given.",
        calculations=("insulation-check", "designs"),
    ),
    "gain_from_neighbours": Kind(
        NOTE,
        "The room counts on heat from warmer neighbours.",
        "Keep them heated, or plan without their heat.",
        cause="The neighbouring rooms are planned warmer than this one.",
        calculations=("heat-loss",),
    ),
    "heated_by_air": Kind(
        NOTE,
        "The demand counts on warm supply air.",
        "The fan and its heater must run whenever the room is heated.",
        cause="A ventilation system brings air warmer than the room.",
        calculations=("heat-loss",),
    ),
    "no_heat_needed": Kind(
        WARNING,
        "The room loses no heat.",
        "Check its temperatures and elements, or leave out its circuit.",
        cause="The room lies between warmer rooms, or its elements are missing.",
        calculations=("heat-loss",),
    ),
    "more_than_a_floor_gives": Kind(
        WARNING,
        "The room needs more heat than a floor of 29 °C gives.",
        "Insulate it better, or add other heating.",
        cause="Large windows, poor insulation or a small floor.",
        calculations=("heat-loss",),
    ),
}
