"""Screed, dates, materials and site practice."""

from __future__ import annotations

from .entries import Day, Entry, Items, Number, Text, Word

PRACTICE: dict[str, Entry] = {
    # the screed
    "binder": Word(
        "Binder of the screed in the words of EN 13813: cement (CT), calcium_sulphate (CA) or "
        "calcium_sulphate_flowing (CA laid as flowing screed, CAF in DIN 18560)"
    ),
    "flexural_class": Word(
        "Flexural strength class of EN 13813; F4 is the lowest and needs the greatest thickness"
    ),
    "screed_thickness": Number(
        "m", 0.01, 0.2, "Whole thickness of the screed on the insulation, pipe included"
    ),
    "imposed_load": Number("N/m2", 500.0, 50_000.0, "Imposed load on the floor area (2000 in a dwelling)"),
    "concentrated_load": Number(
        "N", 0.0, 50_000.0, "Largest single load on the floor; 0 where only the load per area is demanded"
    ),
    "insulation_compressibility": Number(
        "m", 0.0, 0.03, "Compressibility c of all insulation below the screed together (EN 13163)"
    ),
    "nominal_thickness": Number("m", 0.0, 1.0, "Least thickness in the table, without the pipe"),
    "minimum_screed_cover": Number("m", 0.0, 1.0, "Least screed above the pipe that the rules ask for"),
    "minimum_thickness": Number("m", 0.0, 1.0, "Least whole thickness that the rules ask for, pipe included"),
    "film_thickness": Number("m", 0.0, 0.01, "Least thickness of the film between insulation and screed"),
    "film_lap": Number("m", 0.0, 1.0, "Smallest overlap of the film's sheets"),
    "screed_mass": Number(
        "kg/m2", 0.0, 2000.0, "Mass of the screed per floor area, at the upper usual density"
    ),
    # days
    "pour_date": Day("Day on which the screed is poured: day 0 of the plan", last_year=2150),
    "planned_heating_date": Day("Day on which the site plans to start heating", last_year=2150),
    "planned_covering_date": Day("Day on which the site plans to lay the covering", last_year=2150),
    "date": Day("Calendar date"),
    "start_date": Day("Day on which it begins"),
    "end_date": Day("Day on which it is over and the next begins"),
    "earliest_heating": Day("First day on which heating may start"),
    "earliest_covering": Day(
        "First day for which the covering can be planned; only a moisture measurement releases the floor"
    ),
    "day": Number("d", 0, 5000, "Days since the pour"),
    "days": Number("d", 0, 5000, "Length in days of 24 hours"),
    "drying_days": Number("d", 0, 5000, "Estimated drying time after curing, unheated; a planning value"),
    # first heat-up
    "rule_set": Word(
        "Rules of the first heat-up: standard (EN 1264-4), cautious (longer wait, small steps) or maker "
        "(the values of the screed maker's sheet in maker_rules)"
    ),
    "maker_rules": Word("The values of the screed maker's sheet; given if and only if rule_set is maker"),
    "maximum_supply_temperature": Number("degC", 20.0, 90.0, "Highest supply temperature of the design"),
    "start_temperature": Number("degC", 10.0, 60.0, "Supply temperature on the first days of heating"),
    "earliest_heating_days": Number("d", 1, 120, "Days from the pour to the earliest heating"),
    "curing_days": Number("d", 1, 60, "Days of curing: protected from drying, draught and frost"),
    "start_days": Number("d", 1, 30, "Days at the start temperature"),
    "temperature_step": Number("K", 0.5, 40.0, "Largest rise of the supply temperature from day to day"),
    "hold_days": Number("d", 1, 60, "Days at the highest supply temperature"),
    "cooling_step": Number("K", 0.5, 40.0, "Largest fall of the supply temperature from day to day"),
    "maturity_heating": Word("Whether a second heating period follows before the moisture test"),
    "lowest_air_temperature": Number(
        "degC", -50.0, 40.0, "Lowest air temperature expected at the floor between pour and handover"
    ),
    "highest_supply_temperature": Number("degC", -10.0, 95.0, "Highest supply temperature in the programme"),
    "binder_temperature_limit": Number("degC", -10.0, 95.0, "Highest temperature that the screed can bear"),
    "daily_programme": Items("Supply temperature of every heating day in order", 0, 1000),
    "stages": Items("Stages in order, without gap or overlap", 0, 20),
    "stage": Word("Stage of the plan"),
    "description": Text("What is to be done", 1000),
    # covering
    "covering": Word("Family of the floor covering"),
    "moisture_limit": Word("Residual moisture at which the covering may be laid on the heated screed"),
    "carbide_moisture": Number("kg/kg", 0.0, 1.0, "Moisture by the carbide method (1.8 CM-% is 0.018)"),
    "relative_humidity": Number("1", 0.0, 1.0, "Equilibrium relative humidity under a sealed hygrometer"),
    "room_areas": Items("Floor areas of the rooms, for the moisture test points", 0, 500, of="area"),
    "test_points": Items(
        "Moisture test points of each room, in the order of room_areas", 0, 500, of="test_point_count"
    ),
    "test_point_count": Number("1", 0, 1000, "Number of moisture test points"),
}
