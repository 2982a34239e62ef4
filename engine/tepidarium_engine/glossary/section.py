"""The section of a heated floor: layers, exchange with the room, the cold edge, the course in time."""

from __future__ import annotations

from .entries import Entry, Items, Number, Word

_LEVEL = (-50.0, 150.0)
_FLOW = (-5000.0, 5000.0)
_ENERGY = (-1e12, 1e12)

SECTION: dict[str, Entry] = {
    # the section
    "layers_above": Items("Layers between screed and covering, from the screed upwards", 0, 6),
    "layers_below": Items("Layers under the screed, from the insulation downwards", 0, 6),
    "section_layer_thickness": Number("m", 0.0002, 1.0, "Thickness of the layer"),
    "section_layer_conductivity": Number("W/(m.K)", 0.01, 500.0, "Thermal conductivity of the layer"),
    "layer_heat_capacity": Number(
        "J/(m3.K)", 1e3, 1e7, "Heat capacity of the layer per volume; matters in time only"
    ),
    "section_screed_thickness": Number(
        "m",
        0.013,
        0.5,
        "Whole thickness of the screed; cover and pipe if not given, so that the pipe lies below",
    ),
    "screed_heat_capacity": Number("J/(m3.K)", 1e5, 1e7, "Heat capacity of the screed per volume"),
    "surface_resistance_below": Number(
        "m2.K/W", 0.0, 1.0, "Surface resistance of the ceiling below: 0.17 over a room, 0 over ground"
    ),
    # comparison
    "compared_spacings": Items(
        "Further distances between pipe centres at which the floor is solved", 0, 12, of="pipe_spacing"
    ),
    "compared_water_temperatures": Items(
        "Further mean temperatures of the water with which the floor is solved", 0, 12, of="water_temperature"
    ),
    "comparison": Items("The floor at each compared spacing with each compared water", 0, 144),
    # exchange
    "water_temperature": Number("degC", -10.0, 95.0, "Mean temperature of the water in the pipe"),
    "water_velocity": Number("m/s", 0.001, 5.0, "Mean velocity of the water, for the film on the bore"),
    "film_coefficient": Number(
        "W/(m2.K)", 20.0, 1e6, "Heat transfer from the water to the bore; from the velocity if not given"
    ),
    "surface_exchange": Word(
        "Heat transfer to the room by convection and radiation: constant 10.8 W/(m2.K), by the basic "
        "characteristic curve of EN 1264-2, or as given"
    ),
    "surface_coefficient": Number("W/(m2.K)", 0.5, 100.0, "Heat transfer from the floor surface to the room"),
    # outcomes
    "highest_surface_temperature": Number("degC", *_LEVEL, "Highest floor surface temperature"),
    "lowest_surface_temperature": Number("degC", *_LEVEL, "Lowest floor surface temperature"),
    "pipe_surface_temperature": Number("degC", *_LEVEL, "Mean temperature of the screed at the pipe"),
    "below_covering_temperature": Number(
        "degC", *_LEVEL, "Mean temperature of the top face of the screed, below all that lies on it"
    ),
    "highest_below_covering_temperature": Number(
        "degC", *_LEVEL, "Highest temperature of the top face of the screed"
    ),
    "screed_underside_temperature": Number(
        "degC", *_LEVEL, "Mean temperature at the underside of the screed"
    ),
    "pipe_resistance": Number("m.K/W", 0.0, 100.0, "Resistance of film and wall per length of pipe"),
    "surface_profile": Items(
        "Floor surface from the pipe to midway to the next, or from the edge on", 0, 400
    ),
    "profile_distance": Number("m", 0.0, 10.0, "Distance along the floor"),
    "profile_temperature": Number("degC", *_LEVEL, "Floor surface temperature there"),
    # the cold edge
    "cold_edge": Word("The cold edge of the outermost bay"),
    "edge_distance": Number("m", 0.01, 1.0, "From the axis of the outermost pipe to the edge of the screed"),
    "edge_temperature": Number("degC", -50.0, 60.0, "Temperature beyond the edge"),
    "edge_resistance": Number(
        "m2.K/W", 0.02, 20.0, "Resistance from the edge of the floor outwards: edge strip, wall and surface"
    ),
    "edge_bay": Word("The outermost bay, with its cold edge"),
    "bay_width": Number("m", 0.0, 2.0, "From the edge to midway between the outermost pipe and the next"),
    "edge_heat_loss": Number("W/m", -1e4, 1e4, "Heat lost through the edge per length of it"),
    # heat output by two methods
    "method": Word(
        "standard: EN 1264-2; section: the solved section leads; automatic: the standard, with the section beside it "
        "beyond the tables and with poor insulation below, where the section leads if the standard promises too much"
    ),
    "leading_method": Word("The method that gave the numbers outside by_standard and by_section"),
    "by_standard": Word("Result by EN 1264-2; null where it has no value"),
    "by_section": Word("What the solved section says; null when it was not needed"),
    # in time
    "warm_up": Word("The section in time, from cold"),
    "warm_up_result": Word("The section in time; null when not asked for"),
    "warm_up_duration": Number("s", 600.0, 2.6e6, "How long the section is followed"),
    "time_step": Number("s", 1.0, 86_400.0, "Step of time"),
    "initial_temperature": Number(
        "degC",
        -10.0,
        60.0,
        "Temperature of the whole floor at the start; without it the floor as it lies unheated",
    ),
    "source_power": Number("W/m2", 1.0, 2000.0, "Greatest heat that the source can give per floor area"),
    "setback": Word("A setback at night from the steady state"),
    "setback_duration": Number("s", 600.0, 604_800.0, "Length of the setback"),
    "time": Number("s", 0.0, 1e9, "Time since the start of the warm-up or of the setback"),
    "water_heat": Number("W/m2", *_FLOW, "Heat that the water gives per floor area"),
    "warm_up_time": Number("s", 0.0, 1e9, "Time from the start to nine tenths of the steady heat output"),
    "stored_energy": Number(
        "J/m2", *_ENERGY, "Heat held by the floor at the end beyond what it held at first"
    ),
    "supplied_energy": Number("J/m2", *_ENERGY, "Heat that the water gave"),
    "energy_to_room": Number("J/m2", *_ENERGY, "Heat that the room got"),
    "energy_downwards": Number("J/m2", *_ENERGY, "Heat that went down"),
    "balance_error": Number(
        "1", 0.0, 1.0, "Largest error of the heat balance of a step, divided by the heat moved"
    ),
    "course": Items("The section at even distances of time", 0, 400),
    "setback_result": Word("Effect of the setback"),
    "released_energy": Number("J/m2", *_ENERGY, "Heat that the floor gave off during the setback"),
    "recovery_time": Number("s", 0.0, 1e9, "Time from the end of the setback to nine tenths of the output"),
}
