"""Temperatures, heat flows, resistances and the section of the floor."""

from __future__ import annotations

from .entries import Entry, Items, Number, Text, Word

_LEVEL = (-50.0, 150.0)

THERMAL: dict[str, Entry] = {
    # the floor's section
    "pipe": Word("The pipe laid in the screed"),
    "outside_diameter": Number("m", 0.008, 0.032, "Outside diameter of the pipe, without a sheath"),
    "wall_thickness": Number("m", 0.0005, 0.006, "Wall thickness of the pipe"),
    "thermal_conductivity": Number("W/(m.K)", 0.05, 500.0, "Thermal conductivity"),
    "sheath_diameter": Number("m", 0.008, 0.05, "Outside diameter of a sheath round the pipe"),
    "sheath_conductivity": Number("W/(m.K)", 0.02, 500.0, "Thermal conductivity of the sheath"),
    "roughness": Number("m", 0.0, 0.0005, "Absolute roughness of the bore"),
    "minimum_bend_radius": Number("m", 0.02, 0.5, "Smallest permitted bend radius of the pipe's centre line"),
    "pipe_spacing": Number("m", 0.03, 0.6, "Distance between pipe centres"),
    "pipe_spacings": Items("Distances between pipe centres to compare", 1, 12, of="pipe_spacing"),
    "screed_cover": Number("m", 0.005, 0.3, "Screed above the top of the pipe"),
    "screed_conductivity": Number("W/(m.K)", 0.2, 5.0, "Thermal conductivity of the screed"),
    "covering_resistance": Number("m2.K/W", 0.0, 1.0, "Thermal resistance of the floor covering"),
    "resistance_below": Number(
        "m2.K/W",
        0.05,
        50.0,
        "Thermal resistance from the pipes down to temperature_below, surface resistance of the ceiling below "
        "(0.17 over a room, 0 over ground) included",
    ),
    # temperatures
    "room_temperature": Number("degC", -10.0, 45.0, "Design temperature of the room"),
    "temperature_below": Number("degC", -50.0, 60.0, "Temperature below the floor"),
    "supply_temperature": Number("degC", -10.0, 95.0, "Water temperature into the circuit"),
    "return_temperature": Number("degC", -10.0, 95.0, "Water temperature out of the circuit"),
    "surface_temperature_limit": Number("degC", -10.0, 60.0, "Highest permitted floor surface temperature"),
    "temperature_drop": Number("K", 0.5, 30.0, "Supply minus return temperature of the water"),
    # outcomes
    "heat_output": Number("W/m2", -1000.0, 1000.0, "Heat given to the room per floor area"),
    "required_heat_output": Number("W/m2", 1.0, 400.0, "Heat that the floor must give per floor area"),
    "heat_transmittance": Number("W/(m2.K)", 0.0, 50.0, "Heat output per kelvin of mean excess temperature"),
    "mean_excess_temperature": Number("K", *_LEVEL, "Logarithmic mean of water minus room temperature"),
    "mean_surface_temperature": Number("degC", *_LEVEL, "Mean floor surface temperature"),
    "limit_heat_output": Number("W/m2", 0.0, 1000.0, "Heat output at which the surface limit is reached"),
    "limit_excess_temperature": Number("K", *_LEVEL, "Mean excess temperature at the limit heat output"),
    "downward_heat_loss": Number("W/m2", -1000.0, 1000.0, "Heat lost downwards per floor area"),
    "heat_output_margin": Number("W/m2", -1000.0, 1000.0, "Limit heat output minus heat output"),
    "maximum_heat_output": Number(
        "W/m2", 0.0, 1000.0, "Heat output of any floor whose whole surface is at the surface limit"
    ),
    "total_heat_output": Number("W/m2", -2000.0, 2000.0, "Heat from the water per floor area, up and down"),
    "missing_heat_output": Number(
        "W/m2", 0.0, 1000.0, "Heat demand per floor area that the floor cannot give"
    ),
    "mass_flow_per_area": Number("kg/(s.m2)", 0.0, 10.0, "Water per floor area"),
    "total_mass_flow": Number("kg/s", 0.0, 1000.0, "Water of all rooms together"),
    # factors of EN 1264-2
    "factors": Word("The factors of the calculation"),
    "system_coefficient": Number("W/(m2.K)", 0.0, 50.0, "B: coefficient of the system and its pipe"),
    "covering_factor": Number("1", 0.0, 10.0, "a_B: factor of the floor covering"),
    "spacing_factor": Number("1", 0.0, 10.0, "a_T: base of the factor of the pipe spacing"),
    "spacing_exponent": Number("1", -10.0, 10.0, "m_T: exponent of the factor of the pipe spacing"),
    "cover_factor": Number("1", 0.0, 10.0, "a_U: base of the factor of the screed cover"),
    "cover_exponent": Number("1", -50.0, 10.0, "m_U: exponent of the factor of the screed cover"),
    "diameter_factor": Number("1", 0.0, 10.0, "a_D: base of the factor of the pipe diameter"),
    "diameter_exponent": Number("1", -10.0, 10.0, "m_D: exponent of the factor of the pipe diameter"),
    "limit_coefficient": Number("W/m2", 0.0, 100.0, "B_G: coefficient of the limit curve"),
    "limit_exponent": Number("1", 0.0, 1.0, "n_G: exponent of the limit curve"),
    "surface_factor": Number("1", 0.0, 50.0, "phi: permitted surface excess over 9 K, to the power 1.1"),
    "wide_spacing_factor": Number(
        "1", 0.0, 50.0, "f_G: limit curve at spacings beyond 0.375 m; 1 up to there"
    ),
    # floors on one supply
    "other_rooms": Items("Further rooms on the supply of the governing room", 0, 200),
    "options": Items("The spacings compared, closest first", 1, 13),
    "within_limits": Word("Whether every room keeps its surface limit"),
    "chosen": Word("Whether this one was chosen"),
    "reason": Text("Why it was chosen or not", 400),
    "rooms_on_supply": Items("The other rooms on the chosen supply, in the order of the request", 0, 200),
    "reached": Word("Whether the floor gives the heat that the room needs"),
    # text that goes with every calculation
    "id": Text("The caller's own name for this item", 64, 1),
    "name": Text("Name for people", 120),
    # records of a result
    "cautions": Items("Warnings about people's safety, each code once", 0, 100),
    "code": Text("Code that stays the same from release to release", 64),
    "severity": Word(
        "note (worth knowing), warning (have a second look) or violation (do not build it like this)"
    ),
    "message": Text("The same in words", 2000),
    "source": Text("Document, edition and clause, or a named trade practice", 400),
    "symbol": Text("Symbol of the formula", 40),
    "unit": Text("Unit", 24),
    "formula": Text("The formula with its symbols", 400),
}
