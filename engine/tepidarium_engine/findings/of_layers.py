"""Covering and insulation."""

from __future__ import annotations

from .kind import NOTE, VIOLATION, WARNING, Kind

__all__ = ["KINDS"]

KINDS: dict[str, Kind] = {
    "covering_too_insulating": Kind(
        VIOLATION + WARNING,
        "The covering insulates more than the standard plans for, so the water must be much warmer "
        "for the same heat and the output is less certain.",
        "Choose a lighter covering.",
        cause="Thick carpet, or parquet on an insulating underlay.",
        calculations=("floor-section", "heat-output", "supply-temperature", "designs"),
    ),
    "insulation_below_requirement": Kind(
        VIOLATION,
        "The floor has less insulation below the pipes than the governing rule asks for, so heat is lost.",
        "Add insulation.",
        cause="There is little height for the floor, or the insulation conducts well.",
        calculations=("insulation-check", "designs"),
    ),
    "insulation_below_minimum": Kind(
        VIOLATION,
        "The floor has less insulation below the pipes than the standard asks for, so heat is lost.",
        "Add insulation; energy rules usually ask for far more.",
        cause="There is little height for the floor, or it is an old building.",
        calculations=("floor-section", "heat-output", "supply-temperature", "designs"),
    ),
    "groundwater_near": Kind(
        WARNING,
        "Groundwater is near and carries heat away.",
        "The standard asks for more than its table without saying how much: add insulation.",
        cause="The building stands in wet ground.",
        calculations=("insulation-check", "designs"),
    ),
    "colder_than_table": Kind(
        WARNING,
        "It is colder below than the standard's table goes, so its last value is taken.",
        "Add more insulation than the rule asks for.",
        cause="The floor lies over outside air in a cold climate.",
        calculations=("insulation-check", "designs"),
    ),
    "hardly_insulation": Kind(
        WARNING,
        "A layer conducts too well to count as insulation.",
        "Give a slab or fill as part of the structure.",
        cause="A concrete slab or a fill was given as insulation.",
        calculations=("insulation-check", "designs"),
    ),
    "spacing_beyond_tables": Kind(
        WARNING,
        "Pipes lie wider apart than the tables go, so the surface becomes uneven and the output is "
        "an approximation.",
        "Choose a spacing of at most 375 mm.",
        cause="A wide spacing was chosen to save pipe.",
        calculations=("heat-output", "supply-temperature", "designs"),
    ),
    "diameter_beyond_method": Kind(
        WARNING,
        "The pipe is thicker than the method covers.",
        "The output is computed for 30 mm and is a little too low.",
        cause="A pipe for industrial floors was chosen.",
        calculations=("heat-output", "supply-temperature", "designs"),
    ),
    "limit_table_edge": Kind(
        WARNING,
        "The screed cover is below the tables of limits, so the true limit is lower than the one shown.",
        "Choose a thicker cover or stay well below the limit.",
        cause="The cover over the pipe is thin.",
        calculations=("heat-output", "supply-temperature", "designs"),
    ),
    "limit_tables_change": Kind(
        NOTE,
        "Two tables of limits meet near this screed cover and do not agree.",
        "Treat the limit as uncertain, and stay below the lower one.",
        cause="The cover over the pipe lies where two tables of the standard meet.",
        calculations=("heat-output", "supply-temperature", "designs"),
    ),
}
