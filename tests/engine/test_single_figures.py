"""Single figures of methods and rules, and what holds where a request leaves a field out, against copies as published.

Beside each copy stands its text: the standard itself, or who relayed it; "from memory" where no print was at hand.
What has no source is common practice.
"""

from __future__ import annotations

from dataclasses import fields
from inspect import signature
from typing import Any

import pytest
from tepidarium_engine.conduction import water_film
from tepidarium_engine.envelope import (
    balance,
    check_findings,
    edges,
    loss_findings,
    required_resistance,
    room_findings,
    u_values,
)
from tepidarium_engine.envelope.check_records import ScreedSection
from tepidarium_engine.envelope.records import (
    Ground,
    HeatLossInputs,
    HeatLossRoom,
    UnderfloorSpace,
    UnheatedSpace,
)
from tepidarium_engine.plan.judging import route_faults, route_measures, route_task
from tepidarium_engine.practice import curing_findings, heat_up, insulation_requirements, screed
from tepidarium_engine.section import course, isolines
from tepidarium_engine.section import findings as section_findings
from tepidarium_engine.section import refusals as section_refusals
from tepidarium_engine.section.contract import FloorSectionInputs
from tepidarium_engine.section.records import SectionLayer, WarmUp
from tepidarium_engine.thermal import dimensioning, section_output, single_pipes, supply_findings
from tepidarium_engine.thermal.floor import Floor
from tepidarium_engine.thermal.output_array import heat_output_array
from tepidarium_engine.thermal.supply_records import SupplyTemperatureInputs
from tepidarium_engine.water import duty, expansion, friction, frost, manifold, relations
from tepidarium_engine.water.coefficients import GLYCOLS
from tepidarium_engine.water.inputs import CountedBends, Expansion, HydraulicsInputs, HydraulicsLimits
from tepidarium_engine.water.valves import kv_for_drop, resistance

LEFT_OUT: dict[type, dict[str, float]] = {
    # ISO 13370, classes of soil: sand or gravel, as relayed by a Norwegian table B.8; walls of 0.3 m: Approved Document
    # L1 (2002) for England and Wales, Appendix C, Table C1
    Ground: {"thermal_conductivity": 2.0, "wall_thickness": 0.3},
    # Approved Document L1 (2002), Appendix C, Table C4, what it assumes: 0.3 m above the ground, walls of 1.7 W/(m2.K),
    # 3 m/s (at second hand); openings of 1500 mm2/m: Approved Document C, from memory
    UnderfloorSpace: {
        "floor_height": 0.3,
        "wall_u_value": 1.7,
        "ventilation_openings": 1500e-6,
        "wind_speed": 3.0,
    },
    # ISO 13789, air change of unheated spaces, from memory: 0.5 1/h where joints are tight and there is no opening
    UnheatedSpace: {"air_change": 0.5},
    # EN 12831-1:2017, Annex B, by an openly published copy: 0.10 W/(m2.K) for thermal bridges in the simplified method,
    # 20 degC in living rooms; common practice, no source: the height, and walls measured as they are drawn (1.0)
    HeatLossInputs: {"storey_height": 2.5, "wall_area_ratio": 1.0, "thermal_bridge_supplement": 0.1},
    HeatLossRoom: {"room_temperature": 20.0},
    # DIN 18560-2, nominal thickness of floating screeds, first column, by a data handbook of concrete: up to 2 kN/m2;
    # pipe of 16 mm is common practice, no source
    ScreedSection: {"pipe_outside_diameter": 16e-3, "imposed_load": 2e3},
    # EN 1264-3, design of living rooms, by trade texts: covering of 0.10 m2.K/W; EN 1264-2, standard room: 20 degC;
    # common practice, no source: the rest
    FloorSectionInputs: {
        "screed_heat_capacity": 2.1e6,
        "covering_resistance": 0.1,
        "room_temperature": 20.0,
        "water_velocity": 0.3,
    },
    # EN 1264-3 and EN 1264-2, as above; 5 K: EN 1264-3, drop of the governing room; screed of 1.2 W/(m.K): the columns
    # of EN 1264-2, Table A.4, are covers of 12, 25, ... 95 mm at this conductivity, and Göbel and others 2021 take it
    SupplyTemperatureInputs: {
        "screed_conductivity": 1.2,
        "covering_resistance": 0.1,
        "room_temperature": 20.0,
        "temperature_drop": 5.0,
    },
    Floor: {"screed_conductivity": 1.2, "covering_resistance": 0.1},
    # common practice, no source; two days in quarters of an hour
    SectionLayer: {"volumetric_heat_capacity": 1.5e6},
    WarmUp: {"duration": 2 * 24 * 3600.0, "time_step": 15 * 60.0},
    # 0.25 m/s: JGJ 142, clause 3.5, by an extract; common practice, no source: the rest, in mbar, m/s and l/min
    HydraulicsLimits: {
        "advised_pressure_drop": 200e2,
        "maximum_pressure_drop": 300e2,
        "maximum_valve_pressure_drop": 250e2,
        "minimum_velocity": 0.25,
        "advised_velocity": 0.6,
        "maximum_velocity": 1.0,
        "minimum_meter_flow": 0.5 / 60_000,
        "maximum_meter_flow": 5 / 60_000,
        # DIN 18560-2 and EN 1264-4, by trade texts: at the pipes in screed of cement or calcium sulphate
        "supply_temperature_limit": 55.0,
    },
    # common practice, no source: corners are counted
    CountedBends: {"angle": 90.0},
    # common practice, no source: filled cold, a safety valve of 3 bar on a house of 5 m
    Expansion: {"fill_temperature": 10.0, "static_height": 5.0, "safety_valve_pressure": 3e5},
    # common practice, no source
    HydraulicsInputs: {"supply_temperature": 37.5, "temperature_drop": 5.0, "bend_allowance": 0.05},
}

FIGURES: dict[Any, dict[str, Any]] = {
    # EN 12828, Annex D, by a text after it: 0.5 % of the water, 3 l at least, a fifth for vessels below 15 l; from
    # memory: 0.3 bar above the vapour. 1 bar of precharge at least: common practice, no source (0.7 in EN 12828, from
    # memory)
    expansion: {
        "_RESERVE_SHARE": 0.5 / 100,
        "_LEAST_RESERVE": 3e-3,
        "_SMALL_VESSEL": 15e-3,
        "_SMALL_SHARE": 1 / 5,
        "_LEAST_PRECHARGE": 1e5,
        "_PRECHARGE_MARGIN": 0.3e5,
    },
    # third general conference on weights and measures, 1901; pumps: common practice, no source
    duty: {"GRAVITY": 9.80665, "PUMP_EFFICIENCIES": (0.45, 0.15)},
    # Moody 1944, from memory: the critical zone begins at 2000 and ends at 4000
    friction: {"TRANSITION_START": 2e3, "TRANSITION_END": 4e3},
    # ASHRAE Handbook Fundamentals 2001, chapter 21, tables of glycols, from memory: to 60 % and -35 degC
    frost: {"HIGHEST_CONCENTRATION": 60 / 100},
    relations: {"LOWEST_TEMPERATURE": -35.0, "_LEAST_DIFFERENCE": 1 / 100},
    # common practice, no source
    manifold: {"USUAL_VALVE_KV": 1.1},
    # Gnielinski 1995, from memory; the mean of 3.66 and 4.36 (Shah and London 1978, from memory), rounded: Koschenz and
    # Lehmann's method, by an open library, takes 4 as well
    water_film: {
        "LAMINAR_END": 2300.0,
        "TURBULENT_START": 4e3,
        "_LAMINAR_NUSSELT": round((3.66 + 4.36) / 2, 1),
    },
    # EN 1264-2, peripheral areas, by trade texts: 35 degC in a room of 20; DIN 18560-2, by a handbook: 30 mm of cover
    # at least; 2 K: common practice, no source
    section_findings: {"_PERIPHERAL_EXCESS": 35.0 - 20.0, "_THIN_COVER": 30e-3, "_UNEVEN": 2.0},
    # common practice, no source
    section_refusals: {"GREATEST_EDGE_DISTANCE": 2.0, "LEAST_RESISTANCE_BELOW": 0.02},
    course: {"SHARE": 90 / 100},
    section_output: {"_WATER_VELOCITY": 0.3, "_FELT": 1 / 100},
    required_resistance: {"_MOST": 100.0},
    # EN 12831-1:2017, rooms higher than 4 m, from memory; EN 1264-2, basic curve: 8.92 x 9^1.1 = 100 W/m2 at 29 degC
    room_findings: {"_HIGH_ROOM": 4.0, "_FLOOR_LIMIT": 100.0},
    # common practice, no source; Approved Document C, from memory: 1500 mm2 for each metre of wall
    loss_findings: {"_SAME_AREA": 1.0, "_LEAST_OPENINGS": 1500e-6},
    # what the project holds itself to
    edges: {"SAME_LENGTH": 1e-3},
    # a board: 0.1 W/(m.K), common practice, no source
    check_findings: {"_INSULATOR": 0.1},
    # ISO 6946:2017, combined method, from memory: the ratio of both limits up to 1.5; unheated spaces, by an open
    # calculator after it: 0.33 Wh/(m3.K) of air
    u_values: {"LEAST_RATIO": 1.5},
    balance: {"_SPACE_AIR": 0.33},
    # EN 1264-4, initial heating, by trade texts: 20 to 25 degC; 0.5 K/h: a text on drying screed; up to 70 mm:
    # interface guides of the German heating and screed trades; 10 K a day down: a protocol for calcium sulphate screed
    # of 2016; common practice, no source: 25 to 30 degC
    heat_up: {
        "STANDARD_START": (20.0, 25.0),
        "USUAL_START": (25.0, 30.0),
        "STEADY_RISE": 24 * 0.5,
        "_MATURITY_THICKNESS": 70e-3,
        "_COOLING_STEP": 10.0,
    },
    # DIN 18560-2, by handbooks: 30 mm at least, compressibility up to 10 mm with 5 mm more screed, heated screeds of
    # the lowest class 45 mm (CAF 40 mm); usual thickness and density (the trade says 2000 to 2200): common practice, no
    # source
    screed: {
        "ABSOLUTE_COVER": 30e-3,
        "_COMPRESSIBILITY_EXTENDED": 10e-3,
        "_COMPRESSIBILITY_ALLOWANCE": 5e-3,
        "USUAL_THICKNESS": (50e-3, 65e-3),
        "SCREED_DENSITY": 2200.0,
        "_HEATED_COVER": {
            ("cement", "F4"): 45e-3,
            ("calcium_sulphate", "F4"): 45e-3,
            ("calcium_sulphate_flowing", "F4"): 40e-3,
        },
    },
    # EN 1264-4:2021, laying of the screed, by a published extract: at least 5 degC for three days
    curing_findings: {"_CURING_TEMPERATURE": 5.0, "_FREEZING": 0.0},
    # EN 1264-4, Table 1, as printed in CSTC Dossier 2009-4, Table 2: 0 to 10, -5 to 0, -15 to -5 degC; groundwater
    # within 5 m: from memory
    insulation_requirements: {
        "_BY_TEMPERATURE": ((-5.0, 2.0), (0.0, 1.5), (10.0, 1.25)),
        "COLDEST_OUTSIDE": -15.0,
        "NEAR_GROUNDWATER": 5.0,
    },
    # what the project holds itself to; no standard states a figure
    route_faults: {"CLEARANCE_TOLERANCE": 2e-3, "ENTRY_TOLERANCE": 5e-3, "LEAST_PIPE_DISTANCE": 60 / 100},
    route_measures: {"SERVED": 75 / 100, "CLOSE": 75 / 100},
    route_task: {"_SMALLEST_SHARE": 1 / 10},
    single_pipes: {"FAR": 1.0, "_ROUND": 0.6931471805599453},
    # EN 1264-3, governing room, by trade texts: 5 K at most; common practice, no source: the rest
    dimensioning: {"GREATEST_DROP": 5.0, "USUAL_SPACING": 0.15, "LEAST_DROP": 0.5},
    # EN 12831-1:2017, Annex B, by an openly published copy, and EN 1264-2: bathrooms at 24 degC
    supply_findings: {"_BATHROOM": 24.0},
}


@pytest.mark.parametrize("module", FIGURES, ids=lambda module: module.__name__.rpartition("engine.")[2])
def test_single_figures(module: Any) -> None:
    for name, value in FIGURES[module].items():
        assert getattr(module, name) == value, name


@pytest.mark.parametrize("owner", LEFT_OUT, ids=lambda owner: owner.__name__)
def test_what_holds_where_a_field_is_left_out(owner: type) -> None:
    found: dict[str, Any] = {item.name: item.default for item in fields(owner)}
    for name, value in LEFT_OUT[owner].items():
        assert found[name] == pytest.approx(value, rel=1e-9), name


def test_lines_of_equal_temperature_are_a_series_of_1_2_5() -> None:
    """Steps of scales, from 0.1 to 20 K (common practice, no source)."""
    steps = sorted(float(f"{digit}e{power}") for digit in (1, 2, 5) for power in (-1, 0, 1))
    assert tuple(steps[:-1]) == isolines._STEPS


def test_sets_by_mass_begin_at_a_hundredth() -> None:
    """Melinder 2010, from memory: from 1 % of glycol on; below it there is water."""
    for kind in ("propylene_glycol", "ethylene_glycol"):
        assert GLYCOLS[kind, "mass"].minimum_concentration == 1 / 100


def test_many_floors_have_the_covering_of_one() -> None:
    """EN 1264-3, design of living rooms, by trade texts: 0.10 m2.K/W."""
    assert signature(heat_output_array).parameters["covering_resistance"].default == 0.1


def test_valves_are_measured_with_water_of_20_degrees() -> None:
    """IEC 60534: kv is of water of 5 to 40 degC, whose density relative to itself is 1; at 20 degC 998.207 kg/m3 (IAPWS
    at 0.1 MPa, from memory), 0.045 more at 0.2 MPa."""
    density = manifold._WATER_DENSITY
    assert density == pytest.approx(998.207 + 0.045, rel=1e-5)
    assert resistance(3.0) == resistance(3.0, 1.0)
    assert kv_for_drop(1e-4, 2e4) == kv_for_drop(1e-4, 2e4, 1.0)
