"""EN 1264-3: the layout against energy, the logarithmic mean and the standard's rules."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq
from tepidarium_engine import heat_output
from tepidarium_engine.errors import InputError
from tepidarium_engine.heat_output import HeatOutputInputs
from tepidarium_engine.pipe import Pipe
from tepidarium_engine.supply_temperature import OtherRoom, SupplyTemperatureInputs, calculate, workings
from tepidarium_engine.thermal.dimensioning import (
    drop_on_supply,
    standard_drop_on_supply,
    standard_supply_excess,
    supply_excess,
)
from tepidarium_engine.thermal.floor import Floor
from tepidarium_engine.thermal.heated_room import HeatedRoom, operate, room_need

PIPE = Pipe(0.016, 0.002)
LIVING = SupplyTemperatureInputs(PIPE, 0.045, 1.85, 55.0, pipe_spacing=0.15, area=20.0)


def codes(inputs: SupplyTemperatureInputs) -> set[str]:
    return {finding.code for finding in calculate(inputs).findings}


def faults(inputs: SupplyTemperatureInputs) -> set[str]:
    with pytest.raises(InputError) as caught:
        calculate(inputs)
    return {fault.pointer for fault in caught.value.faults}


rooms = st.builds(
    OtherRoom,
    id=st.uuids().map(str),
    required_heat_output=st.floats(15.0, 90.0),
    area=st.floats(2.0, 60.0),
    pipe_spacing=st.none() | st.floats(0.05, 0.375),
    covering_resistance=st.none() | st.floats(0.0, 0.15),
    room_temperature=st.none() | st.floats(15.0, 24.0),
)
layouts = st.builds(
    SupplyTemperatureInputs,
    pipe=st.just(PIPE),
    screed_cover=st.floats(0.03, 0.08),
    resistance_below=st.floats(0.75, 6.0),
    required_heat_output=st.floats(10.0, 120.0),
    pipe_spacings=st.lists(st.floats(0.05, 0.375), min_size=1, max_size=6).map(tuple),
    covering_resistance=st.floats(0.0, 0.15),
    temperature_below=st.floats(-5.0, 20.0),
    temperature_drop=st.floats(1.0, 8.0),
    area=st.floats(3.0, 60.0),
    other_rooms=st.lists(rooms, max_size=4, unique_by=lambda room: room.id).map(tuple),
)


@settings(max_examples=100, deadline=None)
@given(st.floats(1.0, 60.0), st.floats(0.1, 30.0))
def test_supply_inverts_the_logarithmic_mean(mean: float, drop: float) -> None:
    """The definition of the logarithmic mean excess temperature, EN 1264-2."""
    supply = supply_excess(mean, drop)
    assert supply > drop
    if supply - drop > 1e-6:
        assert drop / math.log(supply / (supply - drop)) == pytest.approx(mean, rel=1e-7)
    assert drop_on_supply(supply, mean) == pytest.approx(drop, rel=1e-7)


@settings(max_examples=60, deadline=None)
@given(st.floats(1.0, 60.0), st.floats(1.001, 6.0), st.just(0.0) | st.floats(0.0, 0.5))
def test_exact_drop_against_a_general_root_finder(mean: float, reach: float, lost: float) -> None:
    """scipy.optimize.brentq on the logarithmic mean, with water that cools on its way to the floor."""

    def miss(drop: float) -> float:
        return drop / -math.expm1(-drop / mean) - (reach * mean - lost * drop)

    assert drop_on_supply(reach * mean, mean, lost) == pytest.approx(
        brentq(miss, 1e-9 * mean, reach * mean, xtol=1e-13), rel=1e-6
    )


@settings(max_examples=60, deadline=None)
@given(layouts)
def test_other_rooms_have_the_logarithmic_mean_of_their_own_return(i: SupplyTemperatureInputs) -> None:
    """EN 1264-2, definition of the mean excess temperature, taken from the answer's own temperatures."""
    r = calculate(i)
    for other, room in zip(i.other_rooms, r.rooms_on_supply, strict=True):
        own = i.room_temperature if other.room_temperature is None else other.room_temperature
        flow, back = r.supply_temperature - own, room.return_temperature - own
        if room.reached and back > 1e-6:
            mean = (flow - back) / math.log(flow / back)
            assert mean == pytest.approx(other.required_heat_output / room.heat_transmittance, rel=1e-7)


@pytest.mark.parametrize(("spacing", "published"), [(0.1, 24.6475), (0.35, 28.1598)])
def test_the_rule_of_the_standard_stays_in_the_workings(spacing: float, published: float) -> None:
    """Goebel, Schmitt, Mehrfeld, Mueller 2021, 14th Modelica Conference, doi 10.3384/ecp21181343, Table 2: return of
    the second room by the root formula of EN 1264-3."""
    two = SupplyTemperatureInputs(
        Pipe(0.017, 0.002),
        0.06,
        1.02,
        50.0,
        pipe_spacing=spacing,
        other_rooms=(OtherRoom("2", 100.0 / 3.0, 10.0),),
    )
    r = calculate(two)
    chain = {working.symbol: working.value for working in workings(two, r)}
    assert r.supply_temperature - chain["sigma_j,rule"] == pytest.approx(published, abs=4.5e-4)
    assert 0.01 < chain["sigma_j"] - chain["sigma_j,rule"] < 0.06


def test_standard_rules_and_their_branches() -> None:
    """EN 1264-3: half the drop up to a ratio of 0.5, a quadratic term beyond; short and root form of the drop.

    The quadratic form is the second-order expansion of the exact supply: at a ratio of 0.35 they agree to 1 mK.
    """
    assert standard_supply_excess(14.0, 5.0) == 16.5
    assert standard_supply_excess(8.0, 5.0) == pytest.approx(8.0 + 2.5 + 25.0 / 96.0, rel=1e-14)
    assert supply_excess(14.0, 4.9) == pytest.approx(14.0 + 2.45 + 4.9**2 / (12 * 14.0), abs=1e-3)
    assert standard_drop_on_supply(12.0, 10.0) == pytest.approx(4.0)
    assert standard_drop_on_supply(16.0, 10.0) == pytest.approx(30.0 * (math.sqrt(1.8) - 1.0), rel=1e-14)
    # at the switch itself the short forms hold, just beyond it the others: 20 + 5.025 + 10.05^2 / 240, and
    # 60 (sqrt(1 + 2/3 * 0.502) - 1)
    assert standard_supply_excess(20.0, 10.0) == 25.0
    assert standard_supply_excess(20.0, 10.05) == pytest.approx(25.44584, abs=1e-5)
    assert standard_drop_on_supply(25.0, 20.0) == 10.0
    assert standard_drop_on_supply(25.02, 20.0) == pytest.approx(9.31669, abs=1e-4)
    assert standard_drop_on_supply(9.0, 10.0) == 0.0
    assert drop_on_supply(9.0, 10.0) == 0.0
    for ratio in (0.6, 0.9, 1.2):
        supply = standard_supply_excess(10.0, 10.0 * ratio)
        assert standard_drop_on_supply(supply, 10.0) == pytest.approx(10.0 * ratio, rel=1e-12)


@pytest.mark.parametrize("demand", [30.0, 54.0])
def test_another_room_is_the_same_floor_by_itself(demand: float) -> None:
    """The other calculation, which published cases hold, says what such a floor gives both ways; water by c_W = 4190
    J/(kg.K), EN 1264-3."""
    other = OtherRoom("2", demand, 10.0, pipe_spacing=0.15)
    answer = calculate(replace(LIVING, other_rooms=(other,)))
    (room,) = answer.rooms_on_supply
    alone = heat_output.calculate(
        HeatOutputInputs(
            0.15,
            PIPE,
            0.045,
            1.85,
            supply_temperature=answer.supply_temperature,
            return_temperature=room.return_temperature,
        )
    )
    assert room.reached and alone.heat_output == pytest.approx(demand, rel=1e-6)
    assert room.downward_heat_loss == pytest.approx(alone.downward_heat_loss, rel=1e-6)
    drop = answer.supply_temperature - room.return_temperature
    assert room.mass_flow * 4190.0 * drop == pytest.approx(
        10.0 * (alone.heat_output + alone.downward_heat_loss), rel=1e-6
    )


def test_a_room_hardly_reached_has_half_its_excess_as_drop() -> None:
    """Water 0.6 K over a room that needs far more: the drop is at most half of it (common practice, no source), and the
    mean is the logarithmic mean of 0.6 K and 0.3 K, 0.3 / ln 2 (EN 1264-2)."""
    room = HeatedRoom(Floor(0.15, PIPE, 0.045, 1.85), 60.0, 20.0, 20.0, 29.0)
    need = room_need(room)
    given = operate(room, need, 20.6, 5.0)
    assert not given.reached
    assert given.temperature_drop == pytest.approx(0.3, rel=1e-12)
    assert given.mean_excess_temperature == pytest.approx(0.3 / math.log(2.0), rel=1e-9)


def test_a_demand_at_the_limit_is_within_it_and_half_a_per_cent_more_is_not() -> None:
    room = HeatedRoom(Floor(0.15, PIPE, 0.045, 1.85), 60.0, 20.0, 20.0, 29.0)
    limit = room_need(room).limit_heat_output
    assert room_need(replace(room, required_heat_output=limit)).within_limit
    assert not room_need(replace(room, required_heat_output=1.005 * limit)).within_limit


@settings(max_examples=60, deadline=None)
@given(layouts)
def test_floor_at_the_answer_gives_the_demand(i: SupplyTemperatureInputs) -> None:
    """The two calculations are inverse to each other, and what the water loses is what the floor gives."""
    r = calculate(i)
    back = heat_output.calculate(
        HeatOutputInputs(
            r.pipe_spacing,
            i.pipe,
            i.screed_cover,
            i.resistance_below,
            r.supply_temperature,
            r.return_temperature,
            i.screed_conductivity,
            i.covering_resistance,
            i.room_temperature,
            i.temperature_below,
            method="standard",
        )
    )
    assert back.heat_output == pytest.approx(i.required_heat_output, rel=1e-9)
    assert back.downward_heat_loss == pytest.approx(r.downward_heat_loss, rel=1e-9, abs=1e-9)
    assert back.limit_heat_output == pytest.approx(r.limit_heat_output, rel=1e-12)
    assert i.area is not None
    assert r.mass_flow is not None
    water = r.mass_flow * 4190.0 * (r.supply_temperature - r.return_temperature)
    assert water == pytest.approx(i.area * (back.heat_output + back.downward_heat_loss), rel=1e-9)


@settings(max_examples=60, deadline=None)
@given(layouts)
def test_energy_of_every_other_room_closes(i: SupplyTemperatureInputs) -> None:
    r = calculate(i)
    assert r.mass_flow is not None
    for other, room in zip(i.other_rooms, r.rooms_on_supply, strict=True):
        water = room.mass_flow * 4190.0 * (r.supply_temperature - room.return_temperature)
        assert water == pytest.approx(
            other.area * (room.heat_output + room.downward_heat_loss), rel=1e-6, abs=1e-6
        )
        own = i.room_temperature if other.room_temperature is None else other.room_temperature
        assert room.return_temperature >= min(own, r.supply_temperature)
        if room.reached:
            assert room.heat_output == other.required_heat_output
        else:
            assert room.heat_output < other.required_heat_output
            assert room.missing_heat_output >= other.required_heat_output - room.heat_output
    total = r.mass_flow + sum(room.mass_flow for room in r.rooms_on_supply)
    assert r.total_mass_flow == pytest.approx(total, rel=1e-12)


@settings(max_examples=40, deadline=None)
@given(layouts, st.randoms(use_true_random=False))
def test_order_of_rooms_and_spacings_does_not_matter(i: SupplyTemperatureInputs, random: Any) -> None:
    assert i.pipe_spacings is not None
    others, spacings = list(i.other_rooms), list(i.pipe_spacings)
    random.shuffle(others)
    random.shuffle(spacings)
    a, b = calculate(i), calculate(replace(i, other_rooms=tuple(others), pipe_spacings=tuple(spacings)))
    assert (a.supply_temperature, a.pipe_spacing) == (b.supply_temperature, b.pipe_spacing)
    assert a.total_mass_flow == b.total_mass_flow
    assert {room.id: room for room in a.rooms_on_supply} == {room.id: room for room in b.rooms_on_supply}


@settings(max_examples=60, deadline=None)
@given(layouts)
def test_choice_is_the_coolest_that_keeps_the_limits(i: SupplyTemperatureInputs) -> None:
    r = calculate(i)
    kept = [option for option in r.options if option.within_limits]
    chosen = next(option for option in r.options if option.chosen)
    assert [option.chosen for option in r.options].count(True) == 1
    assert chosen.pipe_spacing == r.pipe_spacing
    assert all(option.reason for option in r.options)
    if kept:
        assert chosen.supply_temperature == min(option.supply_temperature for option in kept)
        assert chosen.within_limits
    elif all(option.limit_heat_output < i.required_heat_output for option in r.options):
        assert chosen.limit_heat_output == max(option.limit_heat_output for option in r.options)
        assert r.missing_heat_output == pytest.approx(i.required_heat_output - r.limit_heat_output)
        assert "surface_limit_exceeded" in {finding.code for finding in r.findings}


def test_demand_beyond_every_limit_says_what_is_missing() -> None:
    """EN 1264-2: no floor of 9 K gives more than 100 W/m2."""
    r = calculate(replace(LIVING, required_heat_output=130.0, pipe_spacings=(0.1, 0.2)))
    assert r.missing_heat_output >= 29.9
    finding = next(f for f in r.findings if f.code == "surface_limit_exceeded")
    assert (finding.where, finding.severity, finding.value) == ("/required_heat_output", "violation", 130.0)
    assert f"{r.missing_heat_output * 20.0:.0f} W in all" in finding.places[0].message
    assert r.supply_temperature > r.return_temperature > LIVING.room_temperature


def test_limit_of_another_room_moves_the_choice() -> None:
    """A room that shares the spacing passes its limit at 0.30 m but not at 0.10 m (EN 1264-2, limit curves)."""
    other = OtherRoom("bay", 90.0, 10.0)
    r = calculate(replace(LIVING, pipe_spacing=None, pipe_spacings=(0.3, 0.1), other_rooms=(other,)))
    assert [(option.pipe_spacing, option.within_limits) for option in r.options] == [
        (0.1, True),
        (0.3, False),
    ]
    assert "bay" in r.options[1].reason


@pytest.mark.parametrize(
    ("change", "code"),
    [
        ({"temperature_drop": 6.0}, "drop_above_standard"),
        ({"covering_resistance": 0.02}, "covering_below_design_value"),
        ({"other_rooms": (OtherRoom("a", 60.0, 9.0),)}, "not_the_governing_room"),
        ({"other_rooms": (OtherRoom("a", 50.0, 9.0, pipe_spacing=0.3),)}, "demand_not_reached"),
        ({"other_rooms": (OtherRoom("a", 50.0, 9.0, room_temperature=45.0),)}, "demand_not_reached"),
        ({"other_rooms": (OtherRoom("a", 50.0, 9.0, pipe_spacing=0.45),)}, "spacing_beyond_tables"),
        ({"required_heat_output": 150.0}, "water_too_hot_for_screed"),
    ],
)
def test_findings(change: dict[str, Any], code: str) -> None:
    """EN 1264-3: 5 K, 0.10 m2.K/W, governing room; EN 1264-4: 55 degC."""
    assert calculate(LIVING).findings == ()
    assert code in codes(replace(LIVING, **change))


def test_poor_insulation_is_told_with_what_the_section_gives() -> None:
    """EN 1264-4 asks for 2.0 m2.K/W over -10 degC; what is left of the heat by the calculation for one floor."""
    inputs = replace(LIVING, resistance_below=0.3, temperature_below=-10.0)
    r = calculate(inputs)
    (told,) = [finding for finding in r.findings if finding.code == "section_gives_less"]
    solved = heat_output.calculate(
        HeatOutputInputs(
            0.15,
            PIPE,
            0.045,
            0.3,
            r.supply_temperature,
            r.return_temperature,
            temperature_below=-10.0,
            method="section",
        )
    )
    assert (told.severity, told.where, told.limit) == ("warning", "/resistance_below", 55.0)
    assert told.value == pytest.approx(solved.heat_output, rel=1e-9)
    assert solved.heat_output < 40.0
    cellar = OtherRoom("cellar", 40.0, 10.0, resistance_below=0.2, temperature_below=0.0)
    other = calculate(replace(LIVING, other_rooms=(cellar,)))
    (told,) = [finding for finding in other.findings if finding.code == "section_gives_less"]
    assert told.where == "/other_rooms/0/resistance_below"


def test_returns_hardly_warmer_than_their_room_are_told() -> None:
    """A room that needs little of a warm supply cools its water nearly to the room, the governing one with a large
    drop."""
    idle = OtherRoom("store", 8.0, 10.0, pipe_spacing=0.05)
    r = calculate(replace(LIVING, required_heat_output=70.0, other_rooms=(idle,)))
    assert r.rooms_on_supply[0].reached
    assert r.rooms_on_supply[0].return_temperature - 20.0 < 0.5
    (told,) = [finding for finding in r.findings if finding.code == "return_close_to_room"]
    assert (told.where, told.limit) == ("/other_rooms/0/required_heat_output", 20.5)
    assert told.value == r.rooms_on_supply[0].return_temperature
    steep = calculate(replace(LIVING, required_heat_output=5.0, temperature_drop=12.0))
    assert steep.return_temperature - 20.0 < 0.5
    assert "return_close_to_room" in {finding.code for finding in steep.findings}


def test_bathroom_does_not_govern_and_keeps_its_own_limit() -> None:
    """EN 1264-3 leaves bathrooms out of the choice; EN 1264-2 gives them room temperature plus 9 K."""
    bath = OtherRoom("bath", 80.0, 6.0, pipe_spacing=0.1, covering_resistance=0.0, room_temperature=24.0)
    r = calculate(replace(LIVING, other_rooms=(bath,)))
    assert "not_the_governing_room" not in {finding.code for finding in r.findings}
    assert r.rooms_on_supply[0].limit_heat_output > 80.0
    counted = replace(LIVING, other_rooms=(replace(bath, counts_for_supply=True),))
    assert "not_the_governing_room" in codes(counted)
    hobby = OtherRoom("hobby", 80.0, 6.0, pipe_spacing=0.1)
    assert "not_the_governing_room" in codes(replace(LIVING, other_rooms=(hobby,)))
    left_out = replace(LIVING, other_rooms=(replace(hobby, counts_for_supply=False),))
    assert "not_the_governing_room" not in codes(left_out)


def test_rooms_that_lack_heat_are_told_the_supply_that_serves_all() -> None:
    cold = (OtherRoom("a", 70.0, 9.0), OtherRoom("b", 90.0, 9.0), OtherRoom("c", 30.0, 9.0))
    r = calculate(replace(LIVING, other_rooms=cold))
    (told,) = [finding for finding in r.findings if finding.code == "demand_not_reached"]
    assert sorted(place.where for place in told.places) == [
        f"/other_rooms/{number}/required_heat_output" for number in (0, 1)
    ]
    needed = calculate(replace(LIVING, required_heat_output=90.0)).supply_temperature
    assert all(f"a supply of {needed:.1f} °C would serve all rooms" in place.message for place in told.places)
    enough = calculate(replace(LIVING, required_heat_output=90.0, other_rooms=cold))
    assert all(room.reached for room in enough.rooms_on_supply[::2])


def test_room_colder_than_its_neighbour_below_cannot_need_water() -> None:
    warm = replace(LIVING, required_heat_output=5.0, resistance_below=0.2, temperature_below=45.0)
    assert faults(warm) == {"/temperature_below"}


def test_refusals_name_the_field_of_the_room() -> None:
    bad = OtherRoom("x", 40.0, 9.0, pipe_spacing=0.04, screed_cover=0.009, pipe=Pipe(0.012, 0.005))
    assert faults(replace(LIVING, other_rooms=(bad,))) == {
        "/other_rooms/0/pipe_spacing",
        "/other_rooms/0/screed_cover",
        "/other_rooms/0/pipe/wall_thickness",
    }
    assert faults(replace(LIVING, pipe_spacing=None)) == {"/pipe_spacing"}
    assert faults(replace(LIVING, pipe_spacings=())) == {"/pipe_spacings"}
    assert faults(replace(LIVING, temperature_drop=-5.0)) == {"/temperature_drop"}


def test_without_area_there_is_no_flow_but_one_per_area() -> None:
    r = calculate(replace(LIVING, area=None, other_rooms=(OtherRoom("a", 40.0, 9.0),)))
    assert (r.mass_flow, r.total_mass_flow) == (None, None)
    assert r.mass_flow_per_area > 0.0
    assert r.rooms_on_supply[0].mass_flow == pytest.approx(9.0 * r.rooms_on_supply[0].mass_flow_per_area)


@settings(max_examples=20, deadline=None)
@given(layouts)
def test_workings_end_at_the_result(i: SupplyTemperatureInputs) -> None:
    r = calculate(i)
    chain = [(working.symbol, working.value) for working in workings(i, r)]
    found = dict(reversed(chain))
    assert found["theta_V"] == r.supply_temperature
    assert found["m"] == r.mass_flow_per_area
    returns = [value for symbol, value in chain if symbol == "theta_R,j"]
    assert returns == [room.return_temperature for room in r.rooms_on_supply]
