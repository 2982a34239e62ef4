"""Layers, elements, ground and air: heat loss and insulation."""

from __future__ import annotations

from .entries import Entry, Items, Number, Text, Word

_LEVEL = (-60.0, 60.0)
_FLOW = (-1e7, 1e7)

ENVELOPE: dict[str, Entry] = {
    # layers and constructions
    "layers": Items("Layers of the construction, in order", 0, 24),
    "layer_thickness": Number("m", 0.0001, 5.0, "Thickness of the layer"),
    "layer_conductivity": Number("W/(m.K)", 0.001, 500.0, "Design thermal conductivity of the layer"),
    "layer_resistance": Number(
        "m2.K/W", 0.001, 50.0, "Thermal resistance of the layer, in place of thickness and conductivity"
    ),
    "bridge_share": Number(
        "1", 0.0, 0.95, "Share of the layer's area that studs, joists, rafters or mortar joints take up"
    ),
    "bridge_conductivity": Number("W/(m.K)", 0.001, 500.0, "Thermal conductivity of what bridges the layer"),
    "constructions": Items("Constructions that elements name", 0, 64),
    "construction": Text("The id of a construction", 64, 1),
    "u_value": Number(
        "W/(m2.K)",
        0.01,
        20.0,
        "Thermal transmittance with both surface resistances; of a floor or wall on ground without the soil",
    ),
    # elements
    "surface": Word("wall, floor, ceiling (roofs too), window or door: decides the direction of heat flow"),
    "beyond": Word(
        "What lies beyond: outside air, ground, the ventilated underfloor_space of a suspended floor, an unheated "
        "space, a heated_neighbour (at neighbour_temperature), another room of this request, or adiabatic (nothing "
        "is lost)"
    ),
    "neighbour": Text("The id of the room or unheated space beyond", 64, 1),
    "neighbour_temperature": Number("degC", *_LEVEL, "Temperature beyond the element"),
    "temperature_factor": Number(
        "1",
        0.0,
        1.0,
        "Share of the difference between room and outside air that lies across an element to an unheated "
        "space (0.5 when nothing is known) or across a suspended floor (from the heat balance below it if not given)",
    ),
    "element_area": Number("m2", 0.01, 10_000.0, "Area of the element"),
    "element_thermal_bridges": Number(
        "W/(m2.K)",
        0.0,
        1.0,
        "Supplement for the thermal bridges of this element, in place of the general one",
    ),
    "walls": Items("The walls along the edges of the outline", 0, 256),
    "stretch_length": Number(
        "m", 0.01, 200.0, "Length of this part of the edge; what other walls leave of the edge if not given"
    ),
    "floors": Items("What lies below the outline", 0, 16),
    "ceilings": Items("What lies above the outline", 0, 16),
    "elements": Items("Elements given by their area", 0, 256),
    "openings": Items("Windows and doors in the element", 0, 32),
    "opening_width": Number("m", 0.05, 50.0, "Width of the opening"),
    "height": Number("m", 0.05, 20.0, "Height of the opening"),
    # rooms
    "storey_height": Number(
        "m", 1.5, 20.0, "From floor to floor: height of the walls that follow from an outline"
    ),
    "room_height": Number("m", 1.5, 20.0, "Clear height of the room, for its volume of air"),
    "wall_area_ratio": Number(
        "1",
        1.0,
        2.0,
        "Outer divided by inner area of outside walls, where outlines run along the inner faces: 1 when they are "
        "outer dimensions, 1.25 when nothing is known",
    ),
    "depth_below_ground": Number("m", 0.0, 20.0, "How deep the room's floor lies below the ground outside"),
    "heated_floor": Word(
        "Whether the room's floor is heated: what is lost through it is then shown separately"
    ),
    "air_change": Number("1/h", 0.0, 20.0, "Outside air by leaks and windows, in volumes of the room"),
    "air_flow": Number("m3/s", 0.0, 100.0, "Air supplied to the room by a fan"),
    "supply_air_temperature": Number("degC", *_LEVEL, "Temperature of the air supplied by the fan"),
    "reheat_per_area": Number("W/m2", 0.0, 200.0, "Extra power per floor area to warm up after a setback"),
    # the place
    "external_temperature": Number("degC", -60.0, 30.0, "Design temperature of the outside air"),
    "annual_mean_temperature": Number("degC", -20.0, 30.0, "Mean temperature of the outside air over a year"),
    "thermal_bridge_supplement": Number(
        "W/(m2.K)", 0.0, 1.0, "Supplement to the U-values for thermal bridges at junctions"
    ),
    "unheated_spaces": Items("Spaces without heating that rooms border on", 0, 16),
    "space_temperature": Number(
        "degC", *_LEVEL, "Temperature of the unheated space; from its heat balance if not given"
    ),
    "external_transmittance": Number(
        "W/K", 0.0, 1e6, "Areas times U-values of the unheated space towards the outside"
    ),
    "volume": Number("m3", 0.0, 1e6, "Volume of air"),
    # ground
    "ground": Word("The ground and the building's whole floor on it"),
    "ground_conductivity": Number(
        "W/(m.K)", 0.1, 10.0, "Thermal conductivity of the soil: clay or silt 1.5, sand or gravel 2, rock 3.5"
    ),
    "ground_floor_area": Number(
        "m2",
        0.05,
        100_000.0,
        "Area of the building's whole floor on the ground; that of the rooms if not given",
    ),
    "exposed_perimeter": Number(
        "m",
        0.01,
        10_000.0,
        "Length of its edge towards outside or unheated spaces; from the outlines if not given",
    ),
    "foundation_wall_thickness": Number("m", 0.0, 3.0, "Thickness of the walls that stand on the ground"),
    "groundwater_depth": Number("m", 0.0, 100.0, "How deep below the floor the groundwater stands"),
    "edge_insulation": Word("Insulation along the edge of a floor on the ground"),
    "placement": Word("horizontal (a strip below the floor's edge) or vertical (down the foundation)"),
    "insulation_extent": Number("m", 0.05, 10.0, "Width of the strip, or depth down the foundation"),
    "insulation_thickness": Number("m", 0.001, 1.0, "Thickness of the insulation"),
    "insulation_conductivity": Number("W/(m.K)", 0.01, 1.0, "Thermal conductivity of the insulation"),
    "underfloor_space": Word("The ventilated space below suspended floors"),
    "floor_height": Number("m", 0.0, 3.0, "Height of the floor's upper side above the ground outside"),
    "wall_u_value": Number(
        "W/(m2.K)", 0.01, 20.0, "Thermal transmittance of the space's walls from air to air, without soil"
    ),
    "ventilation_openings": Number(
        "m2/m", 0.0, 0.5, "Area of the ventilation openings per metre of exposed perimeter"
    ),
    "wind_speed": Number("m/s", 0.0, 30.0, "Mean wind at a height of 10 m in open country"),
    "shielding": Word("sheltered (town centre), average (suburb) or exposed (open country)"),
    "ground_insulation": Number("m2.K/W", 0.0, 50.0, "Thermal resistance of insulation on the soil"),
    "ground_contact": Word("Base and buried walls of an unheated basement"),
    "base_u_value": Number(
        "W/(m2.K)", 0.01, 20.0, "Thermal transmittance of the base from air to air, without soil"
    ),
    # outcome of a heat loss
    "heat_loss": Number("W", *_FLOW, "Heat lost; of a room or building without that through heated floors"),
    "transmission_loss": Number(
        "W", *_FLOW, "Heat lost through elements, without that through heated floors"
    ),
    "ventilation_loss": Number("W", *_FLOW, "Heat to warm up the air that comes in"),
    "heated_floor_loss": Number(
        "W", *_FLOW, "Heat lost through the heated floors as if they were as warm as the room"
    ),
    "reheat_power": Number("W", 0.0, 1e7, "Extra power to warm up after a setback"),
    "room_losses": Items("The rooms in the order of the request", 1, 64),
    "element_losses": Items("What is lost through each element of the room", 0, 4096),
    "through_heated_floor": Word("Whether this is lost through the heated floor and so not in the demand"),
    "temperature_beyond": Number("degC", *_LEVEL, "Temperature beyond the element"),
    "effective_u_value": Number(
        "W/(m2.K)", 0.0, 100.0, "Thermal transmittance as used, soil and thermal bridges included"
    ),
    "ground_result": Word("The building's floor on the ground; null when no element borders on ground"),
    "characteristic_dimension": Number("m", 0.0, 1e6, "B': floor area divided by half its exposed perimeter"),
    "space_temperatures": Items("The unheated spaces in the order of the request", 0, 16),
    # insulation below the pipes
    "what_lies_below": Word("What lies below the floor"),
    "check_layers": Items("Layers from the pipes downwards", 1, 24),
    "part": Word("insulation (counts for the requirement) or structure (slab, plaster)"),
    "layer_compressibility": Number(
        "m", 0.0, 0.03, "How far the layer gives way under load: c of the product's label (EN 13163)"
    ),
    "counts": Word("Whether the local resistance is meant for the insulation alone or for the whole_floor"),
    "local_limit": Word("What local rules ask for"),
    "required_layer_resistance": Number(
        "m2.K/W", 0.01, 30.0, "Least thermal resistance that local rules ask for"
    ),
    "limit_u_value": Number(
        "W/(m2.K)", 0.03, 10.0, "Highest U-value that local rules permit for the whole floor"
    ),
    "board_conductivity": Number(
        "W/(m.K)", 0.01, 0.2, "Thermal conductivity of the board that would be added"
    ),
    "screed_check": Word("The screed that lies on the insulation"),
    "required_resistance": Number(
        "m2.K/W", 0.0, 100.0, "Least thermal resistance of the insulation, by the rule that asks for most"
    ),
    "actual_resistance": Number("m2.K/W", 0.0, 1000.0, "Thermal resistance of the insulation"),
    "missing_resistance": Number("m2.K/W", 0.0, 100.0, "What the insulation lacks; 0 when it is enough"),
    "missing_thickness": Number(
        "m", 0.0, 100.0, "Thickness of the given board that is missing; null without a board"
    ),
    "adequate": Word("Whether the insulation is enough for the governing rule"),
    "governing_rule": Word("The rule that asks for most: EN 1264-4, or the local resistance or U-value"),
    "rules": Items("Every rule with what it asks of the insulation", 1, 3),
    "rule": Word("The rule"),
    "floor_u_value": Number(
        "W/(m2.K)", 0.0, 100.0, "U-value of all layers given, with surface resistances and, if known, soil"
    ),
    "screed_result": Word("The screed against its rules; null without a screed"),
    "screed_adequate": Word("Whether the cover carries the load and the insulation is firm enough"),
    "compressibility": Number("m", 0.0, 1.0, "Compressibility of all layers together"),
    "compressibility_limit": Number("m", 0.0, 1.0, "Highest compressibility for this load"),
}
