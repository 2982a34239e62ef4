"""Options of a house: what is weighed, and what each comes to."""

from __future__ import annotations

from .entries import Entry, Items, Number, Text, Word

OPTIONS: dict[str, Entry] = {
    # what is asked
    "design_request": Word(
        "A request of designs; what concerns drawings, dates and orders does not matter here"
    ),
    "option_supplies": Items(
        "Supply temperatures to look at; none: all at which the choice of a room changes",
        0,
        48,
        of="supply_temperature",
    ),
    "option_drops": Items(
        "Temperature drops of the governing room to look at in place of the source's",
        0,
        4,
        of="temperature_drop",
    ),
    "additional_circuits": Number("1", 0, 4, "Circuits that a room may have above the fewest that hold"),
    "covering_options": Items("Coverings that rooms may have in place of their own", 0, 6),
    "option_rooms": Items("The ids of the rooms that may have it; none named: all", 0, 64, of="id"),
    "price_per_area": Number(
        "1/m2", 0.0, 1e4, "Price of 1 m2 above that of the room's own covering, in the currency of the prices"
    ),
    "pattern_options": Items("Patterns that rooms may have in place of their own", 0, 4),
    "price_of_pattern": Number(
        "1/m2", 0.0, 1e4, "Price of 1 m2 above that of the room's own pattern, in the currency of the prices"
    ),
    "strip_options": Items("Strips of closer pipe that rooms may have", 0, 128),
    "maximum_surface_range": Number(
        "K", 0.1, 15.0, "How much warmer a floor may be at one end than at the other; null: any"
    ),
    "pattern_option": Number("1", 0, 3, "Number of the pattern in the request; null: the room's own"),
    "surface_range": Number("K", 0.0, 50.0, "How much warmer the floor is where the water comes in"),
    "pump_stages": Items("Settings of the pump; none: any pressure within the limits", 0, 6),
    "pump_stage": Number(
        "1", 0, 5, "Number of the pump's setting in the request; null: none does, or none is given"
    ),
    "stage_pressure": Number("Pa", 100.0, 1e6, "Pressure that the pump gives at this setting"),
    "maximum_volume_flow": Number("m3/s", 1e-6, 1.0, "Most flow that the pump gives at this pressure"),
    "permitted_heat_missing": Number(
        "W", 0.0, 500_000.0, "Heat that all rooms may lack above what they lack by the rule of designs"
    ),
    "option_prices": Word("Prices of the material; without them metres of pipe are counted"),
    "price_of_pipe": Number("1/m", 0.0, 1e4, "Price of 1 m of pipe, laid"),
    "coil_price": Number("1", 0.0, 1e5, "Price of a coil"),
    "coil_prices": Items("Coils that are bought whole; none: pipe is bought by the metre", 0, 12),
    "coils_of_option": Word("The coils that the pipe is cut from; null without their prices"),
    "bought_coils": Items("How many coils of each length are bought, the longest first", 0, 12),
    "coils_price": Number("1", 0.0, 1e9, "Price of these coils"),
    "price_of_circuit": Number("1", 0.0, 1e5, "Price of a circuit with its ports, valve and connections"),
    "heat_pump": Word("What the source makes of electricity, for energy and cost of a year"),
    "efficiency_curve": Items("Heat over electricity by supply temperature, coldest first", 1, 24),
    "coefficient_of_performance": Number("1", 0.5, 20.0, "Heat given over electricity taken"),
    "heating_energy": Number("kWh", 1.0, 1e7, "Heat of a year"),
    "equivalent_hours": Number(
        "h", 1.0, 8784.0, "Hours of the whole demand that come to the heat of a year, in place of that heat"
    ),
    "electricity_price": Number("1/kWh", 0.0, 100.0, "Price of 1 kWh of electricity"),
    "years_of_use": Number("1", 0.0, 100.0, "Years over which an option is used"),
    "maximum_options": Number("1", 2, 40, "Most options to answer; those that differ most are taken"),
    "search_nodes": Number("1", 1, 100_000, "Most nodes of each search for a house"),
    # what it comes to
    "design_options": Items("The options from the warmest supply to the coldest", 1, 40),
    "by_rule": Word("The house as designs does it, by area"),
    "number_of_option": Number("1", 0, 40, "Number of the option, counted from 1; 0: the house by the rule"),
    "least_material": Number("1", 1, 40, "The option with the least material"),
    "least_supply": Number("1", 1, 40, "The option with the coldest supply"),
    "least_pump_power": Number("1", 1, 40, "The option with the least pump power"),
    "least_cost_of_use": Number(
        "1", 1, 40, "The option that costs least with its energy; null without prices"
    ),
    "supplies_considered": Number("1", 0, 1000, "Supply temperatures that were looked at"),
    "searches": Number("1", 0, 100_000, "Mixed-integer programmes that were solved"),
    "solver": Text("What solved them, with its version; empty where none was needed", 120),
    "design_drop": Number("K", 0.5, 30.0, "Temperature drop of the governing room"),
    "rooms_of_option": Items("What each room is in this option", 1, 64),
    "ports_of_option": Items("The manifolds that serve rooms", 1, 16),
    "covering_option": Number("1", 0, 5, "Number of the covering in the request; null: the room's own"),
    "circuit_length_of_room": Number("m", 0.0, 20_000.0, "Length of each of its circuits with both tails"),
    "material_cost": Number("1", 0.0, 1e12, "Price of the material; null without prices"),
    "energy": Word("Electricity of a year and its cost; null without a heat pump"),
    "electricity": Number("kWh", 0.0, 1e8, "Electricity of a year"),
    "yearly_cost": Number("1", 0.0, 1e10, "Price of the electricity of a year; null without its price"),
    "cost_of_use": Number(
        "1", 0.0, 1e13, "Material and all years of electricity, without interest; null without prices"
    ),
    "option_proven": Word("Whether no other choice at this supply is better of its kind"),
    "option_gap": Number("1", 0.0, 1.0, "Share by which another choice could be better; 0 where proven"),
    "breaks": Items("Limits that it breaks, by the codes of designs", 0, 40, of="code"),
    "beside": Word("What it takes more or less than the option before; null for the first"),
    "supply_difference": Number("K", -100.0, 100.0, "Supply temperature less that of the option before"),
    "pipe_difference": Number("m", -1e6, 1e6, "Pipe less that of the option before"),
    "circuit_difference": Number("1", -256, 256, "Circuits less those of the option before"),
    "missing_difference": Number("W", -1e6, 1e6, "Missing heat less that of the option before"),
    "power_difference": Number("W", -1e6, 1e6, "Pump power less that of the option before"),
    "material_difference": Number("1", -1e12, 1e12, "Price of material less that of the option before"),
    "use_difference": Number("1", -1e13, 1e13, "Cost of use less that of the option before"),
    # how a design reacts
    "demand_rise": Number("1", 0.0, 2.0, "Share by which heat demands rise"),
    "warmer_by": Number("K", 0.0, 10.0, "By how much a room is kept warmer"),
    "outside_of_design": Number(
        "degC", -50.0, 20.0, "Outside temperature of the demands: they grow with the distance from it"
    ),
    "added_screed": Number("m", 0.0, 0.1, "Further screed over the pipes"),
    "limit_of_supply": Number("degC", 20.0, 90.0, "Warmest supply that is looked at; null: not looked at"),
    "sensitivity_lines": Items("The design with one change each, the greatest effect first", 0, 200),
    "change_kind": Word("What is changed"),
    "room_sensitivities": Items("What its own changes and those of the house do to each room", 1, 64),
    "room_effects": Items("One change each, the greatest effect on the room first", 0, 6),
    "of_house": Word("Whether the change concerns all rooms"),
    "supply_changed": Number("K", -100.0, 100.0, "Supply temperature less that of the design"),
    "missing_changed": Number("W", -1e6, 1e6, "Missing heat less that of the design"),
    "pipe_changed": Number("m", -1e6, 1e6, "Pipe less that of the design"),
    "circuits_changed": Number("1", -256, 256, "Circuits less those of the design"),
    "power_changed": Number("W", -1e6, 1e6, "Pump power less that of the design"),
    "pump_power": Number("W", 0.0, 1e6, "Power that the pump gives to the water"),
    "tolerances": Items("How much more heat each room may need at its spacing", 1, 64),
    "tolerance_on_supply": Number(
        "1", -1.0, 1e6, "The same on the supply of the design, as a share of the demand"
    ),
    "tolerance_at_most": Number(
        "1", -1.0, 1e6, "The same on the warmest supply that the source gives, as a share of the demand"
    ),
    "limited_by": Word("What ends it: the supply, or the limit of the surface"),
    "demand_tolerance": Number("1", -1.0, 1e6, "The least of these of all rooms"),
    "finding_tolerances": Items(
        "How much more heat may be needed before a finding changes: all rooms together, then each alone",
        2,
        65,
    ),
    "tolerable_rise": Number(
        "1",
        0.0,
        1.0,
        "Greatest rise of the demand with the same findings; null: none changes up to twice of it",
    ),
    "tolerance_changes": Items("Findings that are new or gone just above", 0, 10_000),
    "tolerance_change": Word("new; gone"),
    # a heating season
    "climate": Items("The year in bins of outside temperature", 1, 80),
    "outside_of_bin": Number("degC", -60.0, 50.0, "Temperature of the outside air"),
    "hours_of_bin": Number("h", 0.0, 8784.0, "Hours of a year"),
    "heating_limit": Number("degC", 0.0, 25.0, "Outside temperature from which nothing is heated"),
    "curve_exponent": Number(
        "1", 0.8, 1.6, "Exponent of the heat over the excess temperature: 1 for floors after EN 1264-2"
    ),
    "efficiency_if_known": Items("Heat over electricity by supply temperature, coldest first", 0, 24),
    "heating_curve": Word("Supply temperature over outside temperature, as controls take it"),
    "basis_temperature": Number("degC", -10.0, 60.0, "Temperature of the room that the curve is for"),
    "design_outside_temperature": Number("degC", -50.0, 20.0, "Outside temperature of the design"),
    "design_supply_temperature": Number("degC", -10.0, 95.0, "Supply at that outside temperature"),
    "curve_slope": Number(
        "1", 0.0, 1000.0, "Kelvin of supply over the room for each kelvin outside below it"
    ),
    "season_bins": Items("The house at each outside temperature, in the order of the request", 1, 80),
    "load_share": Number("1", 0.0, 1000.0, "Heat that the basis room needs over that of the design"),
    "heat_of_bin": Number("kWh", 0.0, 1e9, "Heat that is given in these hours"),
    "flow_share": Number("1", 0.0, 1.000001, "Mean flow over design flow"),
    "room_duties": Items(
        "Share of the time that the control of each room is open, in the order of the rooms",
        1,
        64,
        of="mean_duty",
    ),
    "pump_energy": Number("kWh", 0.0, 1e7, "What the pump gives to the water in the heating hours"),
    "season_rooms": Items("The rooms through the season", 1, 64),
    "design_duty": Number("1", 0.0, 1.000001, "Share of the time that the control is open at the design"),
    "mean_duty": Number("1", 0.0, 1.000001, "The same on average over the heating hours"),
    "heat_lacking": Number("kWh", 0.0, 1e9, "Heat that the room lacks in the year"),
    "heating_hours": Number("h", 0.0, 8784.0, "Hours that are heated"),
    "mean_supply_temperature": Number("degC", -10.0, 95.0, "Mean over the heating hours"),
    "mean_flow_share": Number("1", 0.0, 1.000001, "Mean over the heating hours"),
    "seasonal_performance": Number("1", 0.5, 20.0, "Heat of the year over its electricity"),
}
