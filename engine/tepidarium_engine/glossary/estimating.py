"""Estimates for a quotation."""

from __future__ import annotations

from .entries import Entry, Items, Number, Text, Word

ESTIMATING: dict[str, Entry] = {
    "estimate_rooms": Items("Heated rooms by their areas", 0, 64),
    "room_count": Number("1", 1, 64, "Number of heated rooms"),
    "storey_count": Number("1", 1, 8, "Number of storeys, each with a manifold of its own"),
    "building_standard": Word(
        "Standard of the building: new, renovated (better windows, some insulation), or unrenovated"
    ),
    "specific_heat_demand": Number("W/m2", 1.0, 400.0, "Heat demand of the house per heated floor area"),
    "outside_design_temperature": Number("degC", -50.0, 15.0, "Outside design temperature of the region"),
    "range_low": Number("1", -1e3, 1e15, "Low end of the range, in its unit"),
    "range_likely": Number("1", -1e3, 1e15, "Likely value, in the unit of the range"),
    "range_high": Number("1", -1e3, 1e15, "High end of the range, in its unit"),
    "range_unit": Text("Unit of low, likely and high; 1 for a pure number or for money", 8),
    "range_basis": Text("What the range rests on", 400),
    "estimated_quantity": Word("What to order, with waste and in whole packs"),
    "estimated_cost": Word("Cost in the currency of the price list"),
    "estimated_specific_heat_demand": Word("Heat demand per heated floor area"),
    "estimated_pipe_length": Word("Pipe of all circuits, tails included"),
    "estimated_circuit_count": Word("Number of circuits"),
    "estimated_manifold_count": Word("Number of manifolds"),
    "estimated_heat_output": Word("Heat that the floors give to the rooms"),
    "estimated_supply_temperature": Word("Supply temperature on the coldest day of design"),
    "estimated_materials": Items("Lines of the order", 0, 200),
    "house_class": Text("What is known of the rooms: rooms, count or area", 32),
    "drawn_designs": Number(
        "1", 0, 1_000_000, "Drawn designs on which the spread of this class was measured"
    ),
}
