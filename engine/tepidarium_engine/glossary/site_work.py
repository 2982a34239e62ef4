"""Leak test, flushing, filling, frost, water, moisture readings and the records of them."""

from __future__ import annotations

from .entries import Entry, Items, Number, Text, Word

_GAUGE = (0.0, 2_000_000.0)

SITE_WORK: dict[str, Entry] = {
    # what is asked
    "circuits_to_commission": Items("The circuits in the order of the manifold's ports", 1, 256),
    "pipe_material": Word("Material of the pipe, for its give and its thermal expansion"),
    "screeds_to_heat": Items("Screeds for the heat-up log and the moisture record", 0, 16),
    "curing_request": Word("What curing-plan takes"),
    "room_names": Items("Names of the rooms in the order of room_areas", 0, 500, of="room_name"),
    "room_name": Text("Name of a room", 120),
    "screed_name": Text("Name of the screed, or its number", 120),
    "pour_temperature": Number("degC", 0.0, 40.0, "Temperature of the fresh screed"),
    "joint_spans": Items("Movement joints with the fields beside them", 0, 256),
    "field_lengths": Items(
        "Lengths of the two fields beside the joint, square to it; 0 for a side without heated screed",
        2,
        2,
        of="side_length",
    ),
    "side_length": Number("m", 0.0, 200.0, "Length of a field of screed"),
    "project_name": Text("Name of the project, printed on the records", 120),
    "leak_test": Word("The leak test before the pour"),
    "test_medium": Word("Water, or compressed air where frost forbids water"),
    "operating_pressure": Number("Pa", 10_000.0, 1_000_000.0, "Highest pressure in operation (gauge)"),
    "component_rating": Number(
        "Pa", 50_000.0, 2_000_000.0, "Least rating of pipe, fittings and manifold (gauge)"
    ),
    "test_pressure": Number(
        "Pa", 10_000.0, 1_600_000.0, "Test pressure (gauge); by the standard if not given"
    ),
    "test_duration": Number("s", 600.0, 2_592_000.0, "Duration of the test"),
    "test_temperature": Number("degC", 1.0, 40.0, "Temperature of pipe and medium when the test begins"),
    "temperature_change": Number("K", -30.0, 30.0, "Change of temperature during the test that is looked at"),
    "trapped_air": Number("1", 0.0, 0.5, "Air left in the circuits at the test, over their volume"),
    "flushing": Word("How the circuits are flushed"),
    "flushing_velocity": Number("m/s", 0.1, 3.0, "Velocity at which air is carried along"),
    "water_exchanges": Number("1", 1, 20, "How often the water of a circuit is replaced"),
    "flushing_temperature": Number("degC", 1.0, 40.0, "Temperature of the water for flushing"),
    "water_side": Word("The heat source and the water to fill with"),
    "source_output": Number("W", 500.0, 5_000_000.0, "Least output of a single heat source"),
    "source_kind": Word("usual, or small_content: less than 0.3 l/kW of water in it, or an electric heater"),
    "water_hardness": Number(
        "mol/m3", 0.0, 20.0, "Sum of alkaline earths in the water; 1 degree dH is 0.178 mol/m3"
    ),
    "aluminium": Word("Whether the water touches aluminium"),
    # leak test
    "leak_test_plan": Word("The leak test with its steps"),
    "holding_pressure": Number("Pa", *_GAUGE, "Pressure kept at least while the screed is poured (gauge)"),
    "isolate": Items("What is shut off before the test", 0, 20, of="isolated_part"),
    "isolated_part": Text("Part that is shut off", 200),
    "leak_test_steps": Items("Steps in order", 0, 20),
    "time_after_start": Number("s", 0.0, 1e8, "Time since the pressure was first reached"),
    "test_action": Text("What is done", 400),
    "gauge_pressure": Number("Pa", *_GAUGE, "What the gauge shows in a tight system at the same temperature"),
    "leak_test_editions": Items("What each text asks for, side by side", 0, 20),
    "edition": Text("Document and edition", 60),
    "lowest_pressure": Number("Pa", *_GAUGE, "Lowest test pressure (gauge)"),
    "highest_pressure": Number("Pa", *_GAUGE, "Highest test pressure (gauge)"),
    "edition_note": Text("What the text adds", 400),
    "pressure_drift": Word("How the reading of a tight system moves with temperature"),
    "pressure_per_kelvin": Number(
        "Pa/K",
        -1e6,
        1e6,
        "Change of the reading by temperature, of an elastic pipe; plastic creeps and moves less",
    ),
    "pressure_change": Number("Pa", -1e8, 1e8, "Change of the reading for temperature_change"),
    "practice_pressure_change": Number(
        "Pa", 0.0, 1e8, "What the trade expects of plastic pipe: up to 1 bar for 10 K"
    ),
    "pressure_loss": Number("Pa", 0.0, 1e6, "Loss of pressure that is looked at"),
    "volume_for_loss": Number("m3", 0.0, 1e3, "Volume that has to leak for that loss"),
    "drip_pressure_loss": Number("Pa", 0.0, 1e9, "Loss in an hour by a drip of 3 ml/min"),
    "test_energy": Number("J", 0.0, 1e9, "Energy that the test medium would set free"),
    "energy_of_water": Number("J", 0.0, 1e9, "Energy that water would set free at the same pressure"),
    # flushing and filling
    "flushing_rows": Items("Circuits to flush one by one", 0, 256),
    "flushing_time": Number("s", 0.0, 1e6, "Time to flush the circuit"),
    "water_volume": Number("m3", 0.0, 1e4, "Water for all exchanges"),
    "filling": Word("How the system is filled"),
    "filling_steps": Items("Steps in order", 0, 20),
    "filling_action": Text("What is done", 400),
    "antifreeze_options": Items("Both glycols for the frost temperature; empty without one", 0, 4),
    "glycol_kind": Text("The glycol", 40),
    "concentration_by_volume": Number("1", 0.0, 1.0, "Concentration by volume that just stands the frost"),
    "concentration_by_mass": Number("1", 0.0, 1.0, "Concentration by mass that just stands the frost"),
    "flushes": Number("1", 0, 100, "Times that the system is flushed when the antifreeze is taken out"),
    "flush_volume": Number("m3", 0.0, 1e5, "Clean water for that"),
    "water_limits": Word("Limits of the heating water"),
    "specific_volume": Number("m3/W", 0.0, 1.0, "Content of the system over the output of the source"),
    "hardness_limited": Word("Whether there is a limit of hardness for this system"),
    "hardness_limit": Number("mol/m3", 0.0, 20.0, "Highest sum of alkaline earths in the water"),
    "lowest_ph": Number("1", 0.0, 14.0, "Lowest pH"),
    "highest_ph": Number("1", 0.0, 14.0, "Highest pH"),
    "low_salt_conductivity": Number(
        "S/m", 0.0, 10.0, "Highest conductivity of water that counts as low in salt"
    ),
    "highest_conductivity": Number("S/m", 0.0, 10.0, "Highest conductivity"),
    "backflow": Word("What stands between drinking water and the system while it is filled"),
    "fluid_category": Number("1", 1, 5, "Fluid category of EN 1717"),
    "backflow_protection": Word("Kind of protection by EN 1717: CA or BA"),
    # records
    "balancing_rows": Items("What to set at each circuit", 0, 256),
    "heat_up_log": Items("Days of the first heating; empty without a curing plan", 0, 1000),
    "moisture_points": Items("Test points floor by floor; empty without a curing plan", 0, 5000),
    "area_number": Number("1", 1, 500, "Number of the floor in room_areas"),
    "point_number": Number("1", 1, 1000, "Number of the test point in its floor"),
    "joint_movements": Items("Thermal movement at joints", 0, 256),
    "movement": Number("m", 0.0, 1.0, "How far both edges move against each other"),
    "allowed_movement": Number("m", 0.0, 1.0, "What an edge strip of usual thickness takes"),
    "edge_movement_limit": Number("m", 0.0, 1.0, "Movement that the edge strip must allow"),
    "record_forms": Items("Records to fill in on site", 0, 20),
    "form_title": Text("Title of the form", 80),
    "form_fields": Items(
        "Fields at the head of the form, to be filled in where they hold no design value", 0, 60
    ),
    "form_label": Text("What the field is for", 120),
    "form_unit": Text("Unit of the value, in SI", 24),
    "design_value": Number("1", -1e12, 1e12, "Value of the design, in the unit of the field"),
    "design_text": Text("Words of the design", 400),
    "form_table": Text("Name of the list of this answer that the form shows as its table", 40),
    "form_columns": Items("Empty columns beside the rows of the table", 0, 20),
    "form_basis": Text("Which text asks for the record", 200),
    # moisture readings
    "moisture_readings": Items("Measurements on the floor", 1, 200),
    "measured_carbide_moisture": Number(
        "kg/kg", 0.0, 0.1, "Moisture by the carbide method (1.8 CM-% is 0.018)"
    ),
    "test_point": Text("Name of the test point", 64),
    "heated_screed": Word("Whether the screed is heated; unheated ones may be moister"),
    "moisture_rule": Word("Whose limits of the carbide method hold"),
    "heating_off_days": Number("d", 0, 365, "Days that the heating was off before the measurement"),
    "passed": Word("Whether it is dry enough to be covered"),
    "judged_readings": Items("The readings with their limits", 0, 200),
    "moisture_method": Word("carbide, or relative_humidity under a sealed hygrometer"),
    "measured_moisture": Number("1", 0.0, 1.0, "Moisture: carbide method [kg/kg], or relative humidity"),
    "moisture_margin": Number("1", -1.0, 1.0, "Limit less reading"),
    "moisture_limits": Items("Limits of several rules, for comparison", 0, 20),
    "moisture_rule_name": Text("The rule", 60),
    "applied": Word("Whether readings are judged by it"),
    "points_needed": Number("1", 0, 10_000, "Test points that a floor of this size needs"),
}
