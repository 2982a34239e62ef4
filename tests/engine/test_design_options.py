"""Options of a house against every combination of spacings, each designed by itself, and against plain arithmetic."""

from __future__ import annotations

import itertools
from dataclasses import replace

import pytest
from tepidarium_engine import design_options, designs
from tepidarium_engine.design_options import (
    CoveringOption,
    DesignOption,
    DesignOptionsInputs,
    DesignOptionsResult,
    EfficiencyPoint,
    HeatPump,
    OptionPrices,
    PumpStage,
)
from tepidarium_engine.designs import (
    DesignLimits,
    DesignRoom,
    DesignsInputs,
    DesignsResult,
    Manifold,
    Storey,
)
from tepidarium_engine.errors import InputError
from tepidarium_engine.options.energy import coefficient_at

from tests.options.houses import house

HEAT, LENGTH, POWER, SUPPLY = 1.0, 0.01, 0.5, 0.1
"""By what options may be worse than another house before it counts: 1 W, 1 %, 0.5 W and 0.1 K."""


def options(design: DesignsInputs, **others: object) -> DesignOptionsResult:
    return design_options.calculate(DesignOptionsInputs(design, **others))  # type: ignore[arg-type]


def designed(design: DesignsInputs, supply: float, spacings: tuple[float, ...]) -> DesignsResult:
    """The house at these spacings by the rule of designs."""
    rooms = tuple(
        replace(room, pipe_spacing=spacing) for room, spacing in zip(design.rooms, spacings, strict=True)
    )
    source = replace(design.source, supply_temperature=supply)
    return designs.calculate(replace(design, rooms=rooms, source=source))


def codes(result: DesignOptionsResult) -> set[str]:
    return {finding.code for finding in result.findings}


# --- against designs ---


@pytest.mark.parametrize("seed", range(4))
def test_no_combination_of_spacings_has_less_pipe(seed: int) -> None:
    """Every combination of spacings of three rooms, designed by itself at supplies of options: of those that give most
    heat, none has less pipe."""
    design = house(seed, 3)
    found = options(design, additional_circuits=0, maximum_options=40)
    spacings = [(0.1,) if room.use == "bathroom" else design.limits.pipe_spacings for room in design.rooms]
    for supply in sorted({option.supply_temperature for option in found.options})[:3]:
        every = [designed(design, supply, each) for each in itertools.product(*spacings)]
        here = [option for option in found.options if option.supply_temperature <= supply + SUPPLY]
        least = min(other.heat_missing for other in every)
        for other in (one for one in every if one.heat_missing <= least + 0.05):
            assert any(
                option.heat_missing <= other.heat_missing + HEAT
                and option.pipe_length <= other.pipe_length * (1.0 + LENGTH)
                for option in here
            ), (supply, [room.pipe_spacing for room in other.rooms])


@pytest.mark.parametrize("seed", range(4))
def test_each_option_is_what_designs_answers_for_its_spacings(seed: int) -> None:
    design = house(seed, 4)
    found = options(design, additional_circuits=0)
    for option in found.options:
        again = designed(design, option.supply_temperature, tuple(room.pipe_spacing for room in option.rooms))
        assert option.pipe_length == pytest.approx(again.pipe_length, rel=1e-9)
        assert option.circuit_count == len(again.circuits)
        assert option.heat_missing == pytest.approx(again.heat_missing, abs=1e-6)
        assert option.return_temperature == pytest.approx(again.return_temperature, rel=1e-9)
        assert option.pump.hydraulic_power == pytest.approx(again.pump.hydraulic_power, rel=1e-9)


def is_no_worse(option: DesignOption, other: DesignOption) -> bool:
    return (
        option.supply_temperature <= other.supply_temperature + SUPPLY
        and option.heat_missing <= other.heat_missing + HEAT
        and option.pipe_length <= other.pipe_length * (1.0 + LENGTH)
        and option.pump.hydraulic_power <= other.pump.hydraulic_power + POWER
    )


def check_beside_rule(seed: int, rooms: int) -> DesignOptionsResult:
    """No option beats another, and some option is no worse than the house by the rule."""
    design = house(seed, rooms, maximum_circuits=60)
    found = options(design)
    ruled = designs.calculate(design)
    assert found.by_rule.pipe_length == pytest.approx(ruled.pipe_length, rel=1e-9)
    assert found.by_rule.supply_temperature == ruled.supply_temperature
    assert any(is_no_worse(option, found.by_rule) for option in found.options)
    for one, other in itertools.permutations(found.options, 2):
        assert not (is_no_worse(one, other) and is_no_worse(other, one)) or one == other
        assert not (
            one.supply_temperature <= other.supply_temperature
            and one.heat_missing <= other.heat_missing
            and one.pipe_length < other.pipe_length
            and one.pump.hydraulic_power < other.pump.hydraulic_power
        )
    assert all(option.proven for option in found.options)
    return found


@pytest.mark.parametrize("seed", range(8))
def test_options_beside_the_rule_of_designs(seed: int) -> None:
    check_beside_rule(seed, 3 + seed % 6)


@pytest.mark.long
def test_options_beside_the_rule_of_designs_for_300_houses() -> None:
    for seed in range(300):
        check_beside_rule(seed, 2 + seed % 11)


# --- ports, pump, manifolds ---


def test_ports_are_kept_where_rooms_would_like_more() -> None:
    free = options(house(5, 6, maximum_circuits=60))
    most = max(option.circuit_count for option in free.options) - 1
    least = min(option.circuit_count for option in free.options)
    assert least < most
    tight = options(house(5, 6, maximum_circuits=most))
    assert all(option.circuit_count <= most for option in tight.options)
    assert "ports_too_few" not in codes(tight)


def test_too_few_ports_are_reported() -> None:
    found = options(house(5, 6, maximum_circuits=2))
    assert "ports_too_few" in codes(found)
    assert found.options


def test_a_pump_stage_limits_pressure_and_flow() -> None:
    design = house(2, 5, maximum_circuits=60)
    free = options(design)
    pressure = 0.8 * max(room.pressure_drop_upper for option in free.options for room in option.rooms)
    flow = 0.95 * max(option.pump.volume_flow for option in free.options)
    found = options(design, pump_stages=(PumpStage(pressure, flow),), permitted_heat_missing=500.0)
    assert "pump_stages_too_small" not in codes(found)
    for option in found.options:
        assert max(room.pressure_drop_upper for room in option.rooms) <= pressure * (1.0 + 1e-6)
        assert option.pump.volume_flow <= flow * (1.0 + 1e-6)
        assert option.pump_stage == 0


def test_each_option_names_the_weakest_stage_that_does() -> None:
    stages = (PumpStage(30_000.0), PumpStage(9_000.0), PumpStage(16_000.0))
    found = options(house(2, 5, maximum_circuits=60), pump_stages=stages)
    assert len({option.pump_stage for option in found.options}) > 1
    for option in (*found.options, found.by_rule):
        fitting = [stage.pressure for stage in stages if stage.pressure >= option.pump.pressure]
        named = None if option.pump_stage is None else stages[option.pump_stage].pressure
        assert named == min(fitting, default=None)


def test_a_pump_that_is_too_small_is_reported() -> None:
    found = options(house(2, 5), pump_stages=(PumpStage(150.0),))
    assert "pump_stages_too_small" in codes(found)
    assert found.options


def test_rooms_are_shared_by_two_manifolds_within_their_ports() -> None:
    """Rooms beside the first manifold, which has too few ports for all: some go to the other, further away."""
    rooms = tuple(
        DesignRoom(f"r{place}", "tile", heat_demand=500.0, area=10.0, entry=(float(place), 0.0))
        for place in range(6)
    )
    manifolds = (Manifold((0.0, 0.0), id="near"), Manifold((12.0, 0.0), id="far"))
    design = replace(
        house(1, 2), rooms=rooms, manifolds=manifolds, limits=DesignLimits((0.1, 0.2), maximum_circuits=4)
    )
    found = options(design, additional_circuits=0)
    for option in found.options:
        assert option.proven
        assert all(ports.circuit_count <= 4 for ports in option.manifolds)
        assert sum(ports.circuit_count for ports in option.manifolds) == option.circuit_count
    best = min(found.options, key=lambda option: option.pipe_length)
    # With one circuit each: the way of room i is i to the near manifold, 12 - i to the far one, 0.5 m up, both twice.
    fields = sum(10.0 / room.pipe_spacing for room in best.rooms)
    ways = min(
        sum(place if place in near else 12 - place for place in range(6))
        for size in range(2, 5)
        for near in itertools.combinations(range(6), size)
    )
    assert best.circuit_count == 6
    assert best.pipe_length == pytest.approx(fields + 2.0 * (ways + 6 * 0.5), rel=1e-9)


def test_storeys_have_manifolds_of_their_own() -> None:
    design = house(3, 4)
    rooms = tuple(
        replace(room, storey="ground" if place < 2 else "upper") for place, room in enumerate(design.rooms)
    )
    design = replace(
        design,
        rooms=rooms,
        storeys=(Storey("ground"), Storey("upper")),
        manifolds=(Manifold(id="g", storey="ground"), Manifold(id="u", storey="upper")),
    )
    for option in options(design).options:
        assert [room.manifold for room in option.rooms] == ["g", "g", "u", "u"]


# --- coverings, prices, energy ---


def test_a_thinner_covering_lowers_the_supply_for_its_price() -> None:
    design = replace(house(7, 3), rooms=tuple(replace(room, build_up="carpet") for room in house(7, 3).rooms))
    tile = CoveringOption("ceramic", 0.01, price=30.0)
    found = options(design, coverings=(tile,), prices=OptionPrices(2.0, 50.0))
    without = options(design, prices=OptionPrices(2.0, 50.0))
    assert found.options[-1].supply_temperature < without.options[-1].supply_temperature - 3.0
    for option in found.options:
        areas = sum(
            room.area or 0.0
            for room, chosen in zip(design.rooms, option.rooms, strict=True)
            if chosen.covering_option is not None
        )
        cost = 2.0 * option.pipe_length + 50.0 * option.circuit_count + 30.0 * areas
        assert option.material_cost == pytest.approx(cost, rel=1e-12)


CURVE = (EfficiencyPoint(30.0, 5.0), EfficiencyPoint(40.0, 4.0), EfficiencyPoint(60.0, 2.5))


@pytest.mark.parametrize(
    ("supply", "coefficient"), [(30.0, 5.0), (35.0, 4.5), (40.0, 4.0), (50.0, 3.25), (60.0, 2.5)]
)
def test_efficiency_lies_on_straight_lines(supply: float, coefficient: float) -> None:
    assert coefficient_at(CURVE, supply) == pytest.approx(coefficient)


def test_efficiency_beyond_the_curve_is_not_guessed() -> None:
    assert coefficient_at(CURVE, 29.9) is None
    short = HeatPump((EfficiencyPoint(20.0, 5.0), EfficiencyPoint(21.0, 4.9)), 1000.0)
    found = options(house(1, 3), heat_pump=short)
    assert "efficiency_not_known" in codes(found)
    assert all(option.energy is None for option in found.options)


def test_the_cheapest_over_the_years_depends_on_the_years() -> None:
    """For a day only material counts; over very many years the coldest supply of those with the same heat."""
    design = house(11, 4)
    prices = OptionPrices(3.0, 60.0)
    short, long = (
        options(design, prices=prices, heat_pump=HeatPump(CURVE, 12_000.0, 0.4, years))
        for years in (0.001, 100.0)
    )
    assert short.least_cost_of_use == short.least_material
    assert long.least_cost_of_use is not None
    cheapest = long.options[long.least_cost_of_use - 1]
    assert cheapest.supply_temperature == min(option.supply_temperature for option in long.options)


def test_hours_give_the_heat_of_a_year() -> None:
    """EN 14825: the heat of a year is the design load times the equivalent hours, 2066 h in its average climate (the
    value from memory)."""
    design = house(11, 4)
    demand = sum(room.heat_demand or 0.0 for room in design.rooms)
    by_hours, by_heat = (
        options(design, heat_pump=HeatPump(CURVE, electricity_price=0.4, **given))
        for given in ({"heating_hours": 2066.0}, {"heating_energy": 2066.0 * demand / 1000.0})
    )
    for one, other in zip(by_hours.options, by_heat.options, strict=True):
        assert one.energy is not None
        assert other.energy is not None
        assert one.energy.heating_energy == pytest.approx(2.066 * demand)
        assert one.energy.electricity == pytest.approx(other.energy.electricity)


# --- what is asked wrongly, and what is reported ---


@pytest.mark.parametrize(
    ("others", "pointer"),
    [
        ({"supply_temperatures": (45.0, 55.0)}, "/supply_temperatures/1"),
        ({"coverings": (CoveringOption("carpet", 0.1, ("attic",)),)}, "/coverings/0/rooms/0"),
        (
            {"heat_pump": HeatPump((EfficiencyPoint(30.0, 4.0), EfficiencyPoint(40.0, 4.1)), 1.0)},
            "/heat_pump/efficiency/1/coefficient_of_performance",
        ),
        (
            {"heat_pump": HeatPump((EfficiencyPoint(40.0, 4.0), EfficiencyPoint(30.0, 3.0)), 1.0)},
            "/heat_pump/efficiency/1/supply_temperature",
        ),
        ({"heat_pump": HeatPump(CURVE)}, "/heat_pump/heating_energy"),
        ({"heat_pump": HeatPump(CURVE, 9000.0, heating_hours=2000.0)}, "/heat_pump/heating_hours"),
        ({"supply_temperatures": (20.5,)}, "/supply_temperatures/0"),
        ({"additional_circuits": 9}, "/additional_circuits"),
    ],
)
def test_refusals(others: dict[str, object], pointer: str) -> None:
    with pytest.raises(InputError) as refused:
        options(house(1, 3), **others)
    assert [fault.pointer for fault in refused.value.faults] == [pointer]


def test_faults_of_the_design_lie_below_it() -> None:
    design = house(1, 3)
    with pytest.raises(InputError) as refused:
        options(replace(design, rooms=(replace(design.rooms[0], build_up="loam"),)))
    assert [fault.pointer for fault in refused.value.faults] == ["/design/rooms/0/build_up"]


def test_one_choice_is_a_front_of_one() -> None:
    design = house(1, 1, pipe_spacings=(0.15,))
    found = options(design, additional_circuits=0, supply_temperatures=(45.0,))
    assert len(found.options) == 1
    assert "single_option" in codes(found)
    assert found.options[0].beside is None


def test_prices_of_zero_are_reported() -> None:
    assert "prices_are_zero" in codes(options(house(1, 3), prices=OptionPrices()))


def test_more_options_than_asked_for_are_reported() -> None:
    every = options(house(4, 8, maximum_circuits=60), maximum_options=40)
    few = options(house(4, 8, maximum_circuits=60), maximum_options=3)
    assert len(few.options) == 3 < len(every.options)
    assert "options_left_out" in codes(few)


def test_differences_add_up_to_the_last_option() -> None:
    found = options(house(9, 5))
    steps = [option.beside for option in found.options if option.beside is not None]
    assert len(steps) == len(found.options) - 1
    first, last = found.options[0], found.options[-1]
    assert sum(step.pipe_difference for step in steps) == pytest.approx(last.pipe_length - first.pipe_length)
    assert sum(step.circuit_difference for step in steps) == last.circuit_count - first.circuit_count
    supplies = [option.supply_temperature for option in found.options]
    assert supplies == sorted(supplies, reverse=True)


def test_the_same_request_has_the_same_answer() -> None:
    assert options(house(6, 6)) == options(house(6, 6))


def test_a_covering_that_may_not_be_warmer_than_the_room_is_refused() -> None:
    """A room at 30 degC, and a timber floor that bears 27 degC (its makers; common practice, no source)."""
    design = house(1, 1)
    hot = replace(design.rooms[0], room_temperature=30.0, surface_temperature_limit=None, use="bathroom")
    with pytest.raises(InputError) as refused:
        options(replace(design, rooms=(hot,)), coverings=(CoveringOption("timber", 0.1),))
    assert [fault.pointer for fault in refused.value.faults] == ["/coverings/0/covering"]
