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
    "minimum_bend_radius": Number("m", 0.02, 0.5, "Least bend radius of the pipe's centre line"),
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
    "surface_temperature_limit": Number("degC", 0.0, 60.0, "Highest permitted floor surface temperature"),
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
    "factors": Word("The factors of the calculation"),
    # text that goes with every calculation
    "id": Text("Name by which the caller knows this item", 64, 1),
    "name": Text("Name for people", 120),
    # records of a result
    "findings": Items("What can be computed but should be looked at", 0, 10_000),
    "cautions": Items("Words on people's safety", 0, 100),
    "code": Text("Stable code", 64),
    "severity": Word("note, warning or violation (should not be built like this)"),
    "where": Text("JSON pointer to what the finding is about", 200),
    "message": Text("Explanation", 2000),
    "value": Number("1", -1e12, 1e12, "The value concerned, in the unit of its quantity"),
    "limit": Number("1", -1e12, 1e12, "The limit concerned, in the unit of its quantity"),
    "source": Text("Document, edition and clause, or a named trade practice", 400),
    "symbol": Text("Symbol of the formula", 40),
    "unit": Text("Unit", 24),
    "formula": Text("The formula with its symbols", 400),
}
