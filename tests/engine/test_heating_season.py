"""A heating season against a floor that is integrated along its pipe, and against sums over the year."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from tepidarium_engine import designs, heat_output
from tepidarium_engine.design_options import EfficiencyPoint
from tepidarium_engine.errors import InputError
from tepidarium_engine.heating_season import (
    ClimateBin,
    HeatingSeasonInputs,
    HeatingSeasonResult,
    calculate,
)

from tests.options.houses import house

CLIMATE = tuple(ClimateBin(float(outside), 300.0) for outside in range(-12, 20, 4))


def season(seed: int, **others: object) -> HeatingSeasonResult:
    return calculate(HeatingSeasonInputs(house(seed, 4), CLIMATE, **others))  # type: ignore[arg-type]


@pytest.mark.parametrize("outside", [-12.0, -4.0, 4.0, 12.0])
def test_the_governing_floor_gives_the_load_at_its_design_flow(outside: float) -> None:
    """The water runs along the pipe and loses heat to the room in proportion to its excess: the drop at the flow of the
    design, stepped along the pipe, and the heat of EN 1264-2 with it."""
    design = house(3, 3)
    found = calculate(HeatingSeasonInputs(design, (ClimateBin(outside, 1.0),)))
    ruled = designs.calculate(design)
    governing = next(room for room in ruled.rooms if room.id == ruled.governing_room)
    asked = next(room for room in design.rooms if room.id == governing.id)
    build_up = next(each for each in design.build_ups if each.id == asked.build_up)
    supply = found.bins[0].supply_temperature
    assert (
        supply is not None and governing.pipe_spacing is not None and governing.temperature_drop is not None
    )
    capacity = governing.heat_output / governing.temperature_drop  # of the water on 1 m2 [W/(m2.K)]
    at = heat_output.calculate(
        heat_output.HeatOutputInputs(
            pipe_spacing=governing.pipe_spacing,
            pipe=design.pipe,
            screed_cover=build_up.screed_cover,
            screed_conductivity=build_up.screed_conductivity,
            covering_resistance=build_up.covering_resistance,
            resistance_below=build_up.resistance_below,
            room_temperature=asked.room_temperature,
            temperature_below=build_up.temperature_below,
            supply_temperature=40.0,
            return_temperature=35.0,
        )
    )
    steps = 20_000
    water, given = supply, 0.0
    for _ in range(steps):
        lost = at.heat_transmittance * (water - asked.room_temperature) / steps
        given += lost
        water -= lost / capacity
    load = (asked.room_temperature - outside) / (asked.room_temperature + 12.0)
    assert given == pytest.approx(load * governing.required_heat_output, rel=2e-4)


@pytest.mark.parametrize("exponent", [0.8, 1.0, 1.1, 1.6])
def test_what_the_water_gives_is_what_the_rooms_get(exponent: float) -> None:
    """First law: mass flow x heat capacity of water (4.18 kJ/(kg.K)) x drop is the heat of the rooms with what they
    lose downwards, which goes with it: the same share in every bin, whatever the exponent. Rooms differ by 0.1 %."""
    found = season(5, exponent=exponent)
    shares = [
        own.volume_flow
        * 4.18e6
        * (own.supply_temperature - own.return_temperature)
        * own.hours
        / (own.heat * 1000.0)
        for own in found.bins
        if own.supply_temperature is not None and own.return_temperature is not None
    ]
    assert len(shares) == 7
    assert shares == pytest.approx([shares[0]] * 7, rel=2e-3)
    assert 1.0 < shares[0] < 1.25


def test_the_source_gives_no_warmer_water_than_it_can() -> None:
    """A bin colder than the design: the heat of EN 1264-2 goes with the excess that is left."""
    design = house(5, 4)
    supply = designs.calculate(design).supply_temperature
    weak = replace(design, source=replace(design.source, maximum_supply_temperature=supply + 1.0))
    found = calculate(HeatingSeasonInputs(weak, (ClimateBin(-30.0, 100.0),), outside_temperature=-12.0))
    (own,) = found.bins
    assert own.supply_temperature == pytest.approx(supply + 1.0)
    assert "curve_too_low" in {finding.code for finding in found.findings}
    basis = next(room for room in found.rooms if room.id == found.curve.basis_room)
    inside = found.curve.basis_temperature
    share = (supply + 1.0 - inside) / (supply - inside)
    assert basis.heat / (basis.heat + basis.heat_lacking) == pytest.approx(share / own.load_share)


def test_rooms_and_bins_add_up_to_the_same_heat() -> None:
    found = season(5)
    assert math.fsum(room.heat for room in found.rooms) == pytest.approx(found.heat, rel=1e-12)
    assert found.heating_hours == 300.0 * sum(each.outside_temperature < 15.0 for each in CLIMATE)
    for each in found.bins:
        if each.supply_temperature is not None and each.return_temperature is not None:
            assert each.supply_temperature > each.return_temperature
        assert 0.0 <= each.flow_share <= 1.0


def test_what_rooms_get_and_lack_is_what_they_need() -> None:
    design = house(5, 4)
    found = calculate(HeatingSeasonInputs(design, CLIMATE))
    for room, asked in zip(found.rooms, design.rooms, strict=True):
        inside = asked.room_temperature
        needs = math.fsum(
            (asked.heat_demand or 0.0) * (inside - each.outside_temperature) / (inside + 12.0) * each.hours
            for each in CLIMATE
            if each.outside_temperature < 15.0
        )
        assert room.heat + room.heat_lacking == pytest.approx(needs / 1000.0, rel=1e-9)


def test_a_bathroom_that_is_warmer_lacks_heat_in_mild_weather() -> None:
    codes = {finding.code for finding in season(5).findings}
    assert "curve_too_low" in codes
    alone = replace(house(5, 4), rooms=(house(5, 4).rooms[0],))
    assert not calculate(HeatingSeasonInputs(alone, CLIMATE)).findings


def test_a_year_that_is_never_heated() -> None:
    found = calculate(HeatingSeasonInputs(house(2, 3), (ClimateBin(25.0, 8760.0),)))
    assert (found.heat, found.heating_hours, found.mean_supply_temperature) == (0.0, 0.0, None)


def test_electricity_that_is_not_known_for_all_bins_stays_open() -> None:
    found = season(2, efficiency=(EfficiencyPoint(34.0, 4.4), EfficiencyPoint(60.0, 3.0)))
    assert found.electricity is None
    assert "efficiency_not_known" in {finding.code for finding in found.findings}


@pytest.mark.parametrize(
    ("others", "pointer"),
    [({"outside_temperature": 20.0}, "/outside_temperature"), ({"exponent": 3.0}, "/exponent")],
)
def test_refusals(others: dict[str, object], pointer: str) -> None:
    with pytest.raises(InputError) as refused:
        season(1, **others)
    assert [fault.pointer for fault in refused.value.faults] == [pointer]


def test_pump_and_flow_follow_the_controls() -> None:
    """A pump that keeps its pressure gives it to the flow that is left: P = V dp, averaged over the time that the
    controls are open; hydraulics of the design from designs."""
    design = house(5, 4)
    found, whole = calculate(HeatingSeasonInputs(design, CLIMATE)), designs.calculate(design)
    heated = [each for each in found.bins if each.supply_temperature is not None]
    assert heated
    for each in found.bins:
        flows = [
            duty * math.fsum(own.mass_flow for own in whole.circuits if own.room == room.id)
            for room, duty in zip(whole.rooms, each.duties, strict=True)
        ]
        share = math.fsum(flows) / whole.mass_flow
        assert each.volume_flow == pytest.approx(share * whole.pump.volume_flow, rel=1e-9, abs=1e-15)
        assert each.pump_power == pytest.approx(each.volume_flow * whole.pump.pressure, rel=1e-9, abs=1e-12)
    energy = math.fsum(each.pump_power * each.hours for each in found.bins) / 1000.0
    assert found.pump_energy == pytest.approx(energy)
    for place, room in enumerate(found.rooms):
        hours = math.fsum(each.hours for each in heated)
        mean = math.fsum(each.duties[place] * each.hours for each in heated) / hours
        assert room.mean_duty == pytest.approx(mean)
