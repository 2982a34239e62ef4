"""Fluid, friction, balancing, pump and expansion."""

from __future__ import annotations

from .entries import Entry, Items, Number, Text, Word

_PRESSURE = (0.0, 1e6)
_KV = (0.001, 100.0)

WATER: dict[str, Entry] = {
    # the fluid
    "fluid": Word("The fluid in the circuits"),
    "fluid_kind": Word("Water, or which glycol in water"),
    "concentration": Number(
        "1", 0.0, 0.6, "Fraction of glycol: by mass 0 to 0.6, by volume 0.1 to 0.6; 0 with water"
    ),
    "concentration_basis": Word("Whether the concentration is a fraction by mass or by volume"),
    "density": Number("kg/m3", 500.0, 2000.0, "Density"),
    "heat_capacity": Number("J/(kg.K)", 1000.0, 6000.0, "Specific heat capacity"),
    "dynamic_viscosity": Number("Pa.s", 1e-5, 10.0, "Dynamic viscosity"),
    "freezing_point": Number("degC", -100.0, 10.0, "Freezing point of the fluid"),
    "mean_fluid_temperature": Number(
        "degC", -50.0, 100.0, "Mean of the circuit's supply and return temperature"
    ),
    # circuits
    "hydraulic_circuits": Items("The circuits of one manifold", 1, 200),
    "circuit_length": Number("m", 0.1, 1000.0, "Length along the pipe's axis, arcs and both tails included"),
    "heat_flow": Number("W", 0.1, 100_000.0, "Heat that the water gives, to the room and downwards"),
    "mass_flow": Number("kg/s", 1e-6, 5.0, "Mass flow of the fluid"),
    "volume_flow": Number("m3/s", 1e-9, 1.0, "Volume flow of the fluid; what a flow meter shows"),
    "bend_allowance": Number("1", 0.0, 1.0, "Addition to the straight pipe's friction for its bends"),
    "counted_bends": Items("Bends counted on the drawing; they replace the allowance", 0, 50),
    "bend_count": Number("1", 1, 10_000, "Number of equal bends"),
    "bend_angle": Number("deg", 10.0, 360.0, "Angle by which the pipe turns"),
    "bend_radius": Number(
        "m", 0.02, 5.0, "Radius of the bend's centre line; the pipe's least radius if not given"
    ),
    "velocity": Number("m/s", 0.0, 100.0, "Mean velocity in the bore"),
    "reynolds": Number("1", 0.0, 1e9, "Reynolds number"),
    "regime": Word("laminar below a Reynolds number of 2000, turbulent from 4000, transitional between"),
    "friction_factor": Number("1", 0.0, 1e9, "Darcy friction factor by Churchill"),
    "friction_factor_upper": Number(
        "1",
        0.0,
        1e9,
        "Darcy friction factor, the larger of Churchill and Colebrook-White in the transition zone",
    ),
    "pressure_gradient": Number("Pa/m", 0.0, 1e9, "Friction of the straight pipe per length, by Churchill"),
    "pressure_drop": Number("Pa", 0.0, 1e12, "Pressure drop of the pipe with its bends, by Churchill"),
    "pressure_drop_upper": Number(
        "Pa", 0.0, 1e12, "Pressure drop of the pipe with its bends, upper bound in the transition zone"
    ),
    "water_content": Number("m3", 0.0, 1e6, "Volume of fluid in the pipe"),
    # valves and balancing
    "valve_kv_open": Number(
        "m3/h", *_KV, "Flow coefficient of the presetting valve fully open: m3/h of water at a drop of 1 bar"
    ),
    "flow_meter_kv": Number(
        "m3/h", *_KV, "Flow coefficient of the flow meter: m3/h of water at a drop of 1 bar"
    ),
    "valve_kv": Number(
        "m3/h", *_KV, "Flow coefficient of the presetting valve as set: m3/h of water at a drop of 1 bar"
    ),
    "valve_setting": Number("1", 0.0, 1000.0, "Setting on the valve's own scale"),
    "valve_table": Items("The valve maker's settings and flow coefficients, both rising", 0, 60),
    "valve_pressure_drop": Number("Pa", 0.0, 1e12, "Pressure drop that the presetting valve must take up"),
    "open_valve_pressure_drop": Number("Pa", 0.0, 1e12, "Pressure drop of the presetting valve fully open"),
    "fixed_pressure_drop": Number("Pa", 0.0, 1e12, "Pressure drop of the flow meter"),
    "total_pressure_drop": Number("Pa", 0.0, 1e12, "Pressure drop of pipe, flow meter and set valve"),
    "valve_authority": Number(
        "1", 0.0, 1.0, "Pressure drop of the open valve divided by that of the whole circuit"
    ),
    "index_circuit": Text("Identifier of the circuit that decides the pump; its valve stays open", 64, 1),
    "manifold_pressure": Number("Pa", 0.0, 1e12, "Pressure across the balanced manifold's circuits"),
    "open_valves": Word("The manifold if all presetting valves are fully open"),
    "open_flow_same_pressure": Word("Flow with all valves open at the balanced manifold's pressure"),
    "open_flow_same_flow": Word("Flow with all valves open when the manifold gets its design flow in total"),
    "flow_ratio": Number("1", 0.0, 1e6, "Flow divided by the design flow"),
    "same_flow_pressure": Number(
        "Pa", 0.0, 1e12, "Pressure that drives the design flow in total, valves open"
    ),
    "same_pressure_mass_flow": Number("kg/s", 0.0, 1e6, "Total flow at the balanced pressure, valves open"),
    # pump and mains
    "manifold_pressure_drop": Number(
        "Pa", *_PRESSURE, "Pressure drop of the manifold's bars and shut-off valves"
    ),
    "mains_pressure_drop": Number(
        "Pa", *_PRESSURE, "Pressure drop of mains, mixing set and source that the same pump overcomes"
    ),
    "pump": Word("Pump duty"),
    "pump_pressure": Number("Pa", 0.0, 1e12, "Pressure of the pump, with the upper bound of friction"),
    "pump_head": Number("m", 0.0, 1e9, "Head of the pump, with the upper bound of friction"),
    "pressure_best_estimate": Number("Pa", 0.0, 1e12, "Pressure of the pump by Churchill"),
    "head_best_estimate": Number("m", 0.0, 1e9, "Head of the pump by Churchill"),
    "hydraulic_power": Number("W", 0.0, 1e12, "Power that the pump gives to the fluid"),
    "electric_power_low": Number("W", 0.0, 1e12, "Electric power at a pump efficiency of 0.45"),
    "electric_power_high": Number("W", 0.0, 1e12, "Electric power at a pump efficiency of 0.15"),
    # mixing
    "primary_temperature": Number(
        "degC", -10.0, 95.0, "Temperature that the source delivers to the mixing set"
    ),
    "mixing": Word("The mixing set; null without a primary, or with one that is colder than the supply"),
    "primary_share": Number("1", 0.0, 1.0, "Flow from the source divided by the flow through the manifold"),
    "recirculated_share": Number(
        "1", -1e6, 1.0, "Return water mixed in, divided by the flow through the manifold"
    ),
    "primary_mass_flow": Number("kg/s", 0.0, 1e6, "Mass flow from the source"),
    "primary_volume_flow": Number("m3/s", 0.0, 1e6, "Volume flow from the source, at primary temperature"),
    # volume and expansion
    "system_volume": Number("m3", 0.0001, 1000.0, "Volume of fluid in the system"),
    "expansion": Word("The closed system round the circuits, for its expansion vessel"),
    "additional_volume": Number("m3", 0.0, 100.0, "Fluid outside the circuits: in source, store and mains"),
    "fill_temperature": Number("degC", 0.0, 60.0, "Temperature of the fluid when the system is filled"),
    "maximum_fluid_temperature": Number("degC", 5.0, 95.0, "Highest temperature that the fluid can reach"),
    "static_height": Number("m", 0.0, 100.0, "Height of the system's highest point above the vessel"),
    "safety_valve_pressure": Number(
        "Pa", 50_000.0, 1_000_000.0, "Response pressure of the safety valve (gauge)"
    ),
    "precharge_pressure": Number("Pa", 10_000.0, 1_000_000.0, "Gas pressure of the empty vessel (gauge)"),
    "expansion_vessel": Word("The expansion vessel"),
    "expansion_ratio": Number(
        "1", 0.0, 1.0, "Growth of the fluid's volume from filling to the highest temperature"
    ),
    "given_expansion_ratio": Number(
        "1",
        0.0,
        0.2,
        "Growth of the fluid from filling to the highest temperature, in place of what its density says",
    ),
    "given_water_reserve": Number(
        "m3", 0.0, 10.0, "Water to keep in the cold vessel against losses; 0 for none"
    ),
    "expansion_volume": Number("m3", 0.0, 1e6, "Growth of the system's volume"),
    "water_reserve": Number("m3", 0.0, 1e6, "Water kept in the cold vessel against losses"),
    "final_pressure": Number("Pa", 0.0, 1e7, "Pressure at the highest temperature (gauge)"),
    "minimum_volume": Number("m3", 0.0, 1e6, "Least volume of the vessel"),
    "nominal_volume": Number("m3", 0.0, 1e6, "Next common size of vessel"),
    "fill_pressure": Number("Pa", 0.0, 1e7, "Pressure to fill the cold system to (gauge)"),
    # frost
    "frost_temperature": Number(
        "degC", -60.0, 5.0, "Lowest temperature that the filled system must withstand"
    ),
    "frost_protection": Word("Check of the fluid against frost"),
    "frost_margin": Number("K", -200.0, 200.0, "Frost temperature minus freezing point"),
    "required_concentration": Number(
        "1", 0.0, 0.6, "Lowest concentration that protects down to the frost temperature"
    ),
    "glycol_volume": Number("m3", 0.0, 1e6, "Glycol in the system at the concentration as used"),
    # limits
    "hydraulics_limits": Word("Limits that the circuits are compared with"),
    "advised_pressure_drop": Number(
        "Pa", *_PRESSURE, "Pressure drop of a circuit with open valve above which there is a warning"
    ),
    "maximum_pressure_drop": Number("Pa", *_PRESSURE, "Highest pressure drop of a circuit with open valve"),
    "maximum_valve_pressure_drop": Number(
        "Pa", *_PRESSURE, "Drop of a presetting valve above which it may be heard"
    ),
    "minimum_velocity": Number("m/s", 0.0, 10.0, "Velocity below which air is not carried along"),
    "advised_velocity": Number("m/s", 0.0, 10.0, "Velocity above which there is a warning"),
    "maximum_velocity": Number("m/s", 0.0, 10.0, "Highest velocity"),
    "advised_length": Number(
        "m", 1.0, 1000.0, "Circuit length above which there is a warning; by size of pipe if not given"
    ),
    "maximum_length": Number("m", 1.0, 1000.0, "Highest circuit length; by size of pipe if not given"),
    "minimum_meter_flow": Number("m3/s", 0.0, 0.01, "Least flow that the flow meter shows"),
    "maximum_meter_flow": Number("m3/s", 0.0, 0.01, "Highest flow that the flow meter shows"),
    "maximum_circuits": Number("1", 1, 200, "Most circuits on one manifold"),
    "supply_temperature_limit": Number(
        "degC", 10.0, 95.0, "Highest water temperature that the screed can bear"
    ),
}
