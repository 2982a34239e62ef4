"""Tables of constants against copies of the tables as printed, entry by entry.

Each copy was typed from the text that it names; where the text was not available, "from memory" is written beside it.
Tables of EN 1264-2, screed thickness, insulation and soil are compared in the same way by ``tests/vectors``.
"""

from __future__ import annotations

from itertools import product
from typing import Any

import pytest
from tepidarium_engine.envelope import air, balance, ground, u_values
from tepidarium_engine.estimating import assumptions
from tepidarium_engine.ordering import coil_records, floor_items, pipe_items
from tepidarium_engine.plan_import import gbxml_units
from tepidarium_engine.practice import coverings, heat_up, screed
from tepidarium_engine.site_work import joint_movement, leak_drift, leak_test, moisture_limits
from tepidarium_engine.site_work.commissioning_records import LeakTest, WaterSide
from tepidarium_engine.site_work.water_quality import backflow_protection, hardness_limit, water_limits
from tepidarium_engine.storey.joints import joint_rules
from tepidarium_engine.water import expansion, fluid
from tepidarium_engine.water.inputs import Fluid

# VDI 2035 Part 1:2021, limits of the sum of alkaline earths [mol/m3]; from memory. Rows: up to 50 kW with a usual and
# with a small water content, up to 200 kW, up to 600 kW, above. Columns: up to 20 l/kW, up to 40 l/kW, above.
HARDNESS = {
    ("usual", 50e3): (None, 1.5, 0.05),
    ("small_content", 50e3): (3.0, 1.5, 0.05),
    ("usual", 200e3): (2.0, 1.0, 0.05),
    ("small_content", 200e3): (2.0, 1.0, 0.05),
    ("usual", 600e3): (1.5, 0.05, 0.05),
    ("small_content", 600e3): (1.5, 0.05, 0.05),
    ("usual", 601e3): (0.05, 0.05, 0.05),
    ("small_content", 601e3): (0.05, 0.05, 0.05),
}
# The least output of each row [W]
LOWEST = {50e3: 1e3, 200e3: 50.1e3, 600e3: 200.1e3, 601e3: 600.1e3}


@pytest.mark.parametrize(("kind", "up_to"), HARDNESS)
def test_hardness_of_heating_water(kind: Any, up_to: float) -> None:
    for column, volumes in enumerate(((0.0, 20e-6), (20.1e-6, 40e-6), (40.1e-6, 1e-3))):
        for output, volume in product((LOWEST[up_to], up_to), volumes):
            assert hardness_limit(kind, output, volume) == HARDNESS[kind, up_to][column], (output, volume)


def test_water_beside_its_hardness() -> None:
    """VDI 2035 Part 1:2021, from memory: pH 8.2 to 10, 9 with aluminium; 100 uS/cm where low in salt, 1500 at most."""
    for aluminium, highest in ((False, 10.0), (True, 9.0)):
        limits = water_limits(WaterSide(aluminium=aluminium), 0.1)
        assert (limits.lowest_ph, limits.highest_ph) == (8.2, highest)
        assert (limits.low_salt_conductivity, limits.highest_conductivity) == (0.01, 0.15)


def test_backflow() -> None:
    """EN 1717: category 3 by a disconnector CA, category 4 by BA; as relayed by trade texts."""
    plain = backflow_protection(Fluid())
    mixed = backflow_protection(Fluid("propylene_glycol", concentration=0.3))
    assert [(one.fluid_category, one.protection) for one in (plain, mixed)] == [(3, "CA"), (4, "BA")]


@pytest.mark.parametrize(
    ("binder", "wait"), [("cement", 21), ("calcium_sulphate", 7), ("calcium_sulphate_flowing", 7)]
)
def test_first_heating_by_the_standard(binder: Any, wait: int) -> None:
    """EN 1264-4, initial heating: after 21 days (cement) or 7 (calcium sulphate), 3 days at 20 to 25 degC, then 4 days
    at the highest design temperature. Curing at 5 degC and more for 3 days."""
    rule = heat_up.heat_up_rule("standard", binder, None)
    assert (rule.earliest_heating_days, rule.curing_days) == (wait, 3)
    assert (rule.start_days, rule.temperature_step, rule.hold_days, rule.cooling_step) == (3, None, 4, None)
    assert heat_up.STANDARD_START == (20.0, 25.0)


@pytest.mark.parametrize(
    ("binder", "wait"), [("cement", 28), ("calcium_sulphate", 14), ("calcium_sulphate_flowing", 14)]
)
def test_first_heating_with_caution(binder: Any, wait: int) -> None:
    """Common practice, no source: 5 K a day up and down, one day at the top for each centimetre. The earliest maturity
    heating is that of the interface guides of the German heating and screed trades."""
    rule = heat_up.heat_up_rule("cautious", binder, None)
    assert (rule.earliest_heating_days, rule.curing_days, rule.start_days) == (wait, 7, 3)
    assert (rule.temperature_step, rule.hold_days, rule.cooling_step) == (5.0, 4, 5.0)
    assert [rule.hold(thickness) for thickness in (0.04, 0.065, 0.08)] == [4, 7, 8]
    assert heat_up.MATURITY_EARLIEST_DAYS[binder] == wait


# Linear expansion [1/K], modulus [Pa] of short loads, Poisson's ratio: textbooks of plastic pipe, from memory.
# Multilayer: the modulus of 0.2 mm of aluminium (70 GPa, from memory) in a wall of 2 mm, without the plastic.
PIPES = {
    "PE-X": (0.18e-3, 600e6, 0.45),
    "PE-RT": (0.18e-3, 550e6, 0.45),
    "PB": (0.13e-3, 450e6, 0.45),
    "PP-R": (0.15e-3, 850e6, 0.42),
    "multilayer": (0.03e-3, 70e9 * 0.2 / 2.0, 0.4),
}


def test_pipe_materials() -> None:
    assert set(leak_drift.PIPE_MATERIALS) == set(PIPES)
    for name, values in PIPES.items():
        assert tuple(leak_drift.PIPE_MATERIALS[name]) == pytest.approx(values), name  # type: ignore[index]


@pytest.mark.parametrize("operating", [2.0, 3.5, 5.0])
def test_leak_test_by_edition(operating: float) -> None:
    """Least and highest test pressure [bar] and hours, None: the text gives no figure. EN 1264-4:2021, leak test
    (published extract); EN 1264-4:2009 and 2001, NF DTU 65.14, JGJ 142 and EN 14336 as relayed by trade texts."""
    printed = [
        ("EN 1264-4:2021", "water", 4.0, 6.0, None),
        ("EN 1264-4:2021", "air", 2.0, 3.0, None),
        ("EN 1264-4:2009", "water", 4.0, 6.0, None),
        ("EN 1264-4:2001", "water", max(6.0, 2.0 * operating), max(6.0, 2.0 * operating), None),
        ("NF DTU 65.14", "water", 6.0, 6.0, 2.0),
        ("JGJ 142", "water", max(6.0, 1.5 * operating), max(6.0, 1.5 * operating), 1.0),
        ("EN 14336", "water", 1.3 * operating, 1.3 * operating, None),
    ]
    found = leak_test._editions(leak_test.operating_pressure(LeakTest(operating_pressure=operating * 1e5)))
    for edition, (text, medium, least, most, hours) in zip(found, printed, strict=True):
        assert (edition.edition, edition.medium) == (text, medium)
        assert edition.lowest_pressure == pytest.approx(least * 1e5)
        assert edition.highest_pressure == pytest.approx(most * 1e5)
        assert edition.duration == (None if hours is None else hours * 3600.0)


# Per cent by mass of the carbide method: cement without and with floor heating, calcium sulphate likewise. Interface
# guides of the German heating and covering trades; DIN 18560-1, newer editions; SIA 253. All as relayed by trade texts.
CARBIDE = {
    "trade_associations": (2.0, 1.8, 0.5, 0.3),
    "DIN_18560_1": (2.0, 1.8, 0.5, 0.5),
    "SIA_253": (2.3, 1.5, 0.5, 0.3),
}


def test_moisture_limits() -> None:
    assert set(moisture_limits.CARBIDE_RULES) == set(CARBIDE)
    for name, printed in CARBIDE.items():
        rule = moisture_limits.CARBIDE_RULES[name]  # type: ignore[index]
        found = [
            rule.limit(binder, heated)
            for binder in ("cement", "calcium_sulphate")
            for heated in (False, True)
        ]  # type: ignore[arg-type]
        assert [100.0 * value for value in found] == pytest.approx(printed), name


def test_humidity_and_surface_of_coverings() -> None:
    """BS 8203 (75 % relative humidity; 27 degC at the adhesive of resilient coverings), BS 8201 (65 % for timber),
    EN 1264-2 (29 degC in the occupied area). Laminate and timber: common practice, no source."""
    surface = {
        "ceramic": 29.0,
        "natural_stone": 29.0,
        "carpet": 29.0,
        "resilient": 27.0,
        "laminate": 27.0,
        "timber": 27.0,
    }
    assert {name: limit for name, (limit, _) in coverings.SURFACE_TEMPERATURE_LIMITS.items()} == surface
    humidity: dict[Any, float] = {name: 0.65 if name == "timber" else 0.75 for name in surface}
    for name, limit in humidity.items():
        assert moisture_limits.humidity_limit(name)[0] == limit
        assert coverings.moisture_limit("cement", name).relative_humidity == limit


def test_screed_beside_its_thickness() -> None:
    """DIN 18560-2: columns of loads [kN/m2, kN], compressibility [mm], 55 degC at the pipes, film of 0.15 mm with laps
    of 80 mm (EN 1264-4). Drying: BS 8203 and the BS 8204 series, 1 mm a day up to 50 mm (cement) or 40 mm. Expansion
    [mm/(m.K)]: trade texts, the upper value for flowing screed."""
    columns = [(2.0, 0.0), (3.0, 2.0), (4.0, 3.0), (5.0, 4.0)]
    assert tuple((1e3 * area, 1e3 * point) for area, point in columns) == screed.LOAD_COLUMNS
    assert [1e3 * value for value in screed.COMPRESSIBILITY_LIMITS] == [5.0, 5.0, 3.0, 3.0]
    assert (screed.FILM_THICKNESS, screed.FILM_LAP) == (0.00015, 0.08)
    for binder, drying, growth in (
        ("cement", 50, 0.012),
        ("calcium_sulphate", 40, 0.008),
        ("calcium_sulphate_flowing", 40, 0.016),
    ):
        assert screed.BINDER_TEMPERATURE_LIMIT[binder] == 55.0
        assert screed.drying_days(binder, drying / 1e3) == drying  # type: ignore[arg-type]
        assert screed.drying_days(binder, (drying + 1) / 1e3) > drying + 1  # type: ignore[arg-type]
        assert 1e3 * joint_movement.EXPANSION[binder] == pytest.approx(growth)  # type: ignore[index]


def test_fields_of_screed() -> None:
    """EN 1264-4, movement joints: 40 m2, 8 m; sides of 2:1 and re-entrant corners by common practice with DIN 18560-2.
    Calcium sulphate: 10 m, guidance of its trade."""
    cement = joint_rules.FIELD_RULES["cement"]
    assert (cement.area, cement.side, cement.ratio, cement.corners) == (40.0, 8.0, 2.0, True)
    for binder in ("calcium_sulphate", "calcium_sulphate_flowing"):
        rule = joint_rules.FIELD_RULES[binder]  # type: ignore[index]
        assert (rule.area, rule.side, rule.ratio, rule.corners) == (None, 10.0, None, False)
    assert joint_movement.ALLOWED_MOVEMENT == 0.005  # EN 1264-4: an edge strip gives way by 5 mm


def test_surfaces_and_air_of_buildings() -> None:
    """ISO 6946:2017, conventional surface resistances (upwards 0.10, sideways 0.13, downwards 0.17, outside 0.04
    m2.K/W); ISO 13370:2017, wind shielding; EN 12831-1:2017 with its annex B. The last two from memory but for 0.34
    Wh/(m3.K), 1.45 and 1.15."""
    assert u_values.INTERNAL_RESISTANCE == {
        "ceiling": 0.10,
        "wall": 0.13,
        "window": 0.13,
        "door": 0.13,
        "floor": 0.17,
    }
    assert u_values.EXTERNAL_RESISTANCE == 0.04
    assert ground.WIND_SHIELDING == {"sheltered": 0.02, "average": 0.05, "exposed": 0.10}
    assert pytest.approx(0.34 * 3600.0) == air.AIR_HEAT_CAPACITY
    assert air.LEAST_AIR_CHANGE == 0.5
    assert (balance.ANNUAL_FLUCTUATION, balance.GROUNDWATER_FACTOR, balance.NEAR_GROUNDWATER) == (
        1.45,
        1.15,
        1.0,
    )
    assert (balance.SUSPENDED_FACTOR, balance.UNHEATED_FACTOR) == (0.8, 0.5)


def test_units_of_building_models() -> None:
    """NIST Special Publication 811 (2008), appendix B.8, from memory: seven digits of each factor."""
    assert gbxml_units.U_VALUES["BtuPerHourSquareFtF"] == pytest.approx(5.678263, rel=1e-6)
    assert gbxml_units.RESISTANCES["HrSquareFtFPerBTU"] == pytest.approx(0.1761102, rel=1e-6)
    assert gbxml_units.CONDUCTIVITIES["BtuPerHourFtF"] == pytest.approx(1.730735, rel=1e-6)
    assert gbxml_units.AREAS["SquareFeet"] == pytest.approx(0.09290304, rel=1e-9)
    assert gbxml_units.VOLUMES["CubicFeet"] == pytest.approx(0.02831685, rel=1e-6)
    assert gbxml_units.VOLUMES["CubicYards"] == pytest.approx(0.7645549, rel=1e-6)
    assert gbxml_units.AREAS["SquareInches"] == pytest.approx(6.4516e-4, rel=1e-9)
    assert gbxml_units.LENGTHS["Miles"] == pytest.approx(1609.344)
    for word, short in (("Meters", "m"), ("Centimeters", "cm"), ("Millimeters", "mm"), ("Kilometers", "km")):
        power = {"m": 1.0, "cm": 1e-2, "mm": 1e-3, "km": 1e3}[short]
        assert gbxml_units.LENGTHS[word] == gbxml_units.METRES[short] == power  # type: ignore[index]
    for word, short, inches in (("Feet", "ft", 12), ("Inches", "in", 1), ("Yards", "yd", 36)):
        assert gbxml_units.LENGTHS[word] == pytest.approx(gbxml_units.METRES[short])  # type: ignore[index]
        assert gbxml_units.LENGTHS[word] == pytest.approx(0.0254 * inches)
    # the steam point and absolute zero
    assert gbxml_units.celsius(212.0, "F") == pytest.approx(100.0)
    assert gbxml_units.celsius(0.0, "K") == gbxml_units.celsius(0.0, "R") == -273.15


def test_pure_glycols() -> None:
    """CRC Handbook of Chemistry and Physics, from memory: 1.036 and 1.113 g/cm3 at 20 degC."""
    assert pipe_items._GLYCOL_DENSITY == {"propylene_glycol": 1036.0, "ethylene_glycol": 1113.0}


def test_vessels_that_are_made() -> None:
    """Litres; common practice, no source."""
    litres = [8, 12, 18, 25, 35, 50, 80, 100, 140, 200, 250, 300, 400, 500]
    assert [1e3 * volume for volume in expansion.COMMON_VESSELS] == pytest.approx(litres)


def test_what_is_sold_and_assumed() -> None:
    """Common practice, no source: heights of edge strip [mm], lengths of coils [m], resistance of coverings [m2.K/W],
    heat demand [W/m2] at -12 degC outside (low, likely, high)."""
    strips = [80, 100, 120, 130, 150, 160, 180, 200, 250, 300]
    assert [1e3 * height for height in floor_items._STRIP_HEIGHTS] == pytest.approx(strips)
    assert coil_records.COMMON_COIL_LENGTHS == (50, 60, 80, 100, 120, 200, 240, 300, 500, 600)
    assert assumptions.COVERING_RESISTANCES == {
        "ceramic": 0.01,
        "natural_stone": 0.015,
        "resilient": 0.02,
        "laminate": 0.06,
        "timber": 0.10,
        "carpet": 0.15,
    }
    assert assumptions._DEMANDS == {
        "new": (25.0, 35.0, 50.0),
        "renovated": (40.0, 60.0, 80.0),
        "unrenovated": (80.0, 110.0, 150.0),
    }


def test_water_by_iapws() -> None:
    """IAPWS SR6-08(2011), liquid water at 0.1 MPa: viscosity (coefficients in uPa.s) and thermal conductivity in powers
    of T / 300 K. From memory."""
    viscosity = ((280.68, -1.9), (511.45, -7.7), (61.131, -19.6), (0.45903, -40.0))
    conductivity = ((1.6630, -1.15), (-1.7781, -3.4), (1.1567, -6.0), (-0.432115, -7.6))
    water = fluid.fluid_model(Fluid())
    for celsius in (5.0, 20.0, 45.0, 90.0):
        ratio = (celsius + 273.15) / 300.0
        assert water.dynamic_viscosity(celsius) == pytest.approx(
            1e-6 * sum(a * ratio**b for a, b in viscosity), rel=1e-12
        )
        found = water.thermal_conductivity(celsius)
        assert found == pytest.approx(sum(c * ratio**d for c, d in conductivity), rel=1e-12)
