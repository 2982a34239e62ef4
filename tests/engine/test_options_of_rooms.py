"""Patterns, strips of closer pipe and coils as choices of a house.

Oracles: exhaustive search, one design for each combination; EN 1264-2's basic curve by hand for evenness; every way to
put cuts into coils, enumerated here.
"""

from __future__ import annotations

import itertools
import random
from collections.abc import Sequence
from dataclasses import replace

import pytest
from tepidarium_engine import design_options, designs
from tepidarium_engine.building.former_records import FormerDesign, FormerInputs, FormerRoom, FormerStrip
from tepidarium_engine.building.objective_records import DesignObjective, Least
from tepidarium_engine.design_options import (
    CoilPrice,
    DesignOptionsInputs,
    DesignOptionsResult,
    OptionPrices,
    PatternOption,
    StripOption,
)
from tepidarium_engine.designs import DesignsInputs, DesignsResult, PeripheralStrip
from tepidarium_engine.errors import InputError
from tepidarium_engine.options.coil_stock import CoilKindPriced, CoilStock, Cuts
from tepidarium_engine.options.selection import Candidate, Coils, SelectionTask, best_selection

from tests.engine.test_designs_comparison import FLAT
from tests.options.houses import house

STRIP = PeripheralStrip(0.1, width=1.0, length=3.0)
SERPENTINE = PatternOption("serpentine")


def options(design: DesignsInputs, **others: object) -> DesignOptionsResult:
    return design_options.calculate(DesignOptionsInputs(design, maximum_options=40, **others))  # type: ignore[arg-type]


def codes(result: DesignOptionsResult | DesignsResult) -> set[str]:
    return {finding.code for finding in result.findings}


def strips(design: DesignsInputs) -> tuple[StripOption, ...]:
    return tuple(StripOption(room.id, STRIP) for room in design.rooms if room.use != "bathroom")


# --- strips ---


def combinations(design: DesignsInputs) -> list[DesignsInputs]:
    """Every spacing of every room, without and with the strip."""
    choices = [
        [
            replace(room, pipe_spacing=spacing, peripheral=strip)
            for spacing in (
                (min(design.limits.pipe_spacings),) if room.use == "bathroom" else design.limits.pipe_spacings
            )
            for strip in ((None,) if room.use == "bathroom" or spacing <= 0.1 else (None, STRIP))
        ]
        for room in design.rooms
    ]
    return [replace(design, rooms=rooms) for rooms in itertools.product(*choices)]


@pytest.mark.parametrize("seed", range(3))
def test_no_combination_of_spacings_and_strips_has_less_pipe(seed: int) -> None:
    design = house(seed, 3, pipe_spacings=(0.1, 0.15, 0.2))
    found = options(design, strips=strips(design), additional_circuits=0)
    assert all(option.proven for option in found.options)
    for supply in (found.options[1].supply_temperature, found.options[-2].supply_temperature):
        source = replace(design.source, supply_temperature=supply)
        every = [designs.calculate(replace(one, source=source)) for one in combinations(design)]
        least = min(one.heat_missing for one in every)
        here = [option for option in found.options if option.supply_temperature <= supply + 0.1]
        for other in (one for one in every if one.heat_missing <= least + 0.05):
            assert any(
                option.heat_missing <= other.heat_missing + 1.0
                and option.pipe_length <= other.pipe_length * 1.01
                for option in here
            )


@pytest.mark.parametrize("seed", range(4))
def test_strips_only_add_to_what_a_house_can_be(seed: int) -> None:
    """Whatever is possible without strips is no better than some option with them."""
    design = house(seed, 5)
    found, without = options(design, strips=strips(design)), options(design)
    assert any(room.peripheral is not None for option in found.options for room in option.rooms)
    for one in without.options:
        assert any(
            other.supply_temperature <= one.supply_temperature + 0.1
            and other.heat_missing <= one.heat_missing + 1.0
            and other.pipe_length <= one.pipe_length * 1.01
            for other in found.options
        )


@pytest.mark.parametrize("seed", range(3))
def test_each_option_with_strips_is_what_designs_answers_for_it(seed: int) -> None:
    design = house(seed, 4)
    for option in options(design, strips=strips(design), additional_circuits=0).options:
        rooms = tuple(
            replace(room, pipe_spacing=own.pipe_spacing, peripheral=own.peripheral)
            for room, own in zip(design.rooms, option.rooms, strict=True)
        )
        source = replace(design.source, supply_temperature=option.supply_temperature)
        again = designs.calculate(replace(design, rooms=rooms, source=source))
        assert option.pipe_length == pytest.approx(again.pipe_length, rel=1e-9)
        assert option.heat_missing == pytest.approx(again.heat_missing, abs=1e-6)
        assert option.pump.hydraulic_power == pytest.approx(again.pump.hydraulic_power, rel=1e-9)


@pytest.mark.parametrize(
    ("least", "spacings"), [("material", (0.1, 0.15, 0.2)), ("supply_temperature", (0.15, 0.2))]
)
def test_a_design_with_least_of_something_may_have_strips(least: Least, spacings: tuple[float, ...]) -> None:
    """Held to every combination, each designed by itself at the coldest supply that serves it."""
    asked = house(4, 3, pipe_spacings=spacings)
    objective = DesignObjective(least, strips=strips(asked))
    found = designs.calculate(replace(asked, objective=objective))
    rule = designs.calculate(asked)
    assert found.objective is not None
    assert found.objective.proven
    for one in combinations(asked):
        other = designs.calculate(one)
        if other.heat_missing <= rule.heat_missing + 1.0:
            if least == "material":
                assert other.pipe_length >= found.pipe_length * (1.0 - 1e-6)
            else:
                assert other.supply_temperature >= found.supply_temperature - 1e-6
    assert any(room.peripheral is not None for room in found.rooms) == (least != "material")


def test_a_storey_is_drawn_with_the_strips_that_were_chosen() -> None:
    walls = {"west": (2, 3), "middle": (2,), "east": (1, 2)}
    given = tuple(StripOption(name, PeripheralStrip(0.1, 0.8, edges=edges)) for name, edges in walls.items())
    asked = replace(FLAT, limits=replace(FLAT.limits, pipe_spacings=(0.15, 0.2)))
    plain = designs.calculate(replace(asked, objective=DesignObjective("supply_temperature")))
    found = designs.calculate(replace(asked, objective=DesignObjective("supply_temperature", strips=given)))
    assert found.layout is not None
    assert not found.layout.unplaced
    assert any(room.peripheral is not None for room in found.rooms)
    assert found.supply_temperature < plain.supply_temperature - 0.1


def test_strips_that_were_chosen_stay_with_the_former_design() -> None:
    """Sent again with the former answer and without the objective, nothing of the rooms changes."""
    asked = house(4, 3, pipe_spacings=(0.15, 0.2))
    objective = DesignObjective("supply_temperature", strips=strips(asked))
    before = designs.calculate(replace(asked, objective=objective))
    assert any(room.peripheral is not None for room in before.rooms)
    rooms = tuple(
        FormerRoom(
            room.id,
            room.manifold,
            room.pipe_spacing,
            room.circuit_ids,
            room.heat_demand,
            pattern=room.pattern,
            peripheral=room.peripheral and FormerStrip(room.peripheral.strip),
        )
        for room in before.rooms
    )
    inputs = FormerInputs(asked.rooms, asked.build_ups, source=asked.source, limits=asked.limits)
    former = FormerDesign(inputs=inputs, rooms=rooms, supply_temperature=before.supply_temperature)
    again = designs.calculate(replace(asked, former=former))
    assert again.pipe_length == pytest.approx(before.pipe_length)
    assert [room.peripheral for room in again.rooms] == [room.peripheral for room in before.rooms]


# --- patterns ---


def test_without_evenness_asked_for_every_room_keeps_its_pattern() -> None:
    design = house(3, 4)
    found = options(design, patterns=(SERPENTINE,))
    assert "patterns_alike" in codes(found)
    assert found.options == options(design).options


def test_how_uneven_a_serpentine_is() -> None:
    """EN 1264-2: q = 8.92 (theta_F - theta_i)^1.1, and q = K_H dtheta at the water's temperature at either end."""
    design = house(3, 2)
    rooms = tuple(replace(room, pattern="serpentine", pipe_spacing=0.2) for room in design.rooms)
    found = options(replace(design, rooms=rooms), additional_circuits=0, supply_temperatures=(45.0,)).options[
        0
    ]
    answer = designs.calculate(
        replace(design, rooms=rooms, source=replace(design.source, supply_temperature=45.0))
    )
    for room, own in zip(found.rooms, answer.rooms, strict=True):
        assert own.field_supply_temperature is not None
        assert own.return_temperature is not None
        flow, back = own.field_supply_temperature - 20.0, own.return_temperature - 20.0
        slope = own.heat_output / _log_mean(flow, back)
        warm, cool = ((slope * excess / 8.92) ** (1.0 / 1.1) for excess in (flow, back))
        assert room.surface_range == pytest.approx(
            warm - cool, rel=1e-3
        )  # the curve's constant has three digits


def _log_mean(flow: float, back: float) -> float:
    import math  # noqa: PLC0415

    return (flow - back) / math.log(flow / back)


def test_evenness_is_bought_where_it_is_asked_for() -> None:
    """Of rooms laid as serpentines those get the dearer counterflow whose floor would be too uneven."""
    design = house(3, 4)
    rooms = tuple(replace(room, pattern="serpentine") for room in design.rooms)
    design, prices = replace(design, rooms=rooms), OptionPrices(2.0, 50.0)
    counterflow = PatternOption("counterflow", price=3.0)
    found = options(design, patterns=(counterflow,), maximum_surface_range=1.0, prices=prices)
    without = options(design, prices=prices)
    assert "floor_not_even" not in codes(found)
    assert max(room.surface_range for option in found.options for room in option.rooms) <= 1.0
    assert max(room.surface_range for option in without.options for room in option.rooms) > 1.0
    for option in found.options:
        bought = sum(
            room.area or 0.0
            for room, own in zip(design.rooms, option.rooms, strict=True)
            if own.pattern == "counterflow"
        )
        cost = 2.0 * option.pipe_length + 50.0 * option.circuit_count + 3.0 * bought
        assert option.material_cost == pytest.approx(cost, rel=1e-12)
    assert "floor_not_even" in codes(options(design, maximum_surface_range=0.2, prices=prices))


def test_a_design_takes_the_pattern_that_makes_it_even() -> None:
    design = house(3, 3)
    rooms = tuple(replace(room, pattern="serpentine") for room in design.rooms)
    objective = DesignObjective(
        "material", patterns=(PatternOption("counterflow"),), maximum_surface_range=1.0
    )
    found = designs.calculate(replace(design, rooms=rooms, objective=objective))
    assert {room.pattern for room in found.rooms} >= {"counterflow"}
    assert "floor_not_even" not in codes(found)


# --- coils ---

KINDS = (CoilKindPriced(50_000, 80_00), CoilKindPriced(120_000, 160_00))


def cheapest(kinds: Sequence[CoilKindPriced], cuts: Sequence[int]) -> int:
    """Every way to group the cuts, each group in the cheapest coil that holds it."""
    if not cuts:
        return 0
    first, rest, best = cuts[0], cuts[1:], 10**9
    for size in range(len(rest) + 1):
        for beside in itertools.combinations(range(len(rest)), size):
            length = first + sum(rest[place] for place in beside)
            prices = [kind.price for kind in kinds if kind.length >= length]
            if prices:
                left = [cut for place, cut in enumerate(rest) if place not in beside]
                best = min(best, min(prices) + cheapest(kinds, left))
    return best


@pytest.mark.parametrize("seed", range(60))
def test_coils_for_a_few_cuts(seed: int) -> None:
    """Never cheaper than the cheapest grouping of all, and not much dearer."""
    numbers = random.Random(seed)
    cuts = [numbers.randrange(12_000, 100_000) for _ in range(6)]
    stock = CoilStock(KINDS)
    bought = stock.bought([Cuts(cut, 1) for cut in cuts])
    least = cheapest(KINDS, sorted(cuts, reverse=True))
    assert least <= bought.cost <= 1.12 * least
    assert bought.cost == sum(dict(KINDS)[length] for length in bought.lengths)


def coil_task(seed: int) -> SelectionTask:
    numbers = random.Random(seed)
    rooms = tuple(
        tuple(
            Candidate(
                (0, numbers.randrange(2_000, 9_000)),
                0,
                count := numbers.randrange(1, 3),
                0,
                Cuts(numbers.randrange(15_000, 90_000), count),
            )
            for _ in range(3)
        )
        for _ in range(3)
    )
    return SelectionTask(rooms, (12,), None, 2000, Coils(CoilStock(KINDS), 1))


@pytest.mark.parametrize("seed", range(40))
def test_a_selection_with_coils_against_every_selection(seed: int) -> None:
    """The bound is below the best of all selections, each with its cheapest coils, and what is proven is that best."""
    task = coil_task(seed)
    best = min(
        sum(one.measures[1] for one in chosen)
        + cheapest(
            KINDS,
            sorted((each for one in chosen for each in [one.cut.length] * one.cut.circuits), reverse=True),
        )
        for chosen in itertools.product(*task.rooms)
    )
    found = best_selection(task)
    assert found is not None
    assert found.bounds[1] <= best <= task.measure(found.taken, 1)
    if found.proven(task):
        assert task.measure(found.taken, 1) == best


COILS = (CoilPrice(120.0, 170.0), CoilPrice(200.0, 270.0), CoilPrice(500.0, 620.0))


def test_coils_are_part_of_the_cost() -> None:
    design = house(3, 4, maximum_circuits=60)
    found = options(design, prices=OptionPrices(0.5, 40.0, coils=COILS))
    prices = {coil.length: coil.coil_price for coil in COILS}
    for option in found.options:
        coils = option.coils
        assert coils is not None
        assert coils.coils_price == pytest.approx(sum(own.count * prices[own.length] for own in coils.to_buy))
        assert coils.bought_length == pytest.approx(sum(own.count * own.length for own in coils.to_buy))
        cut = sum(room.circuit_count * (room.circuit_length + 1.0) for room in option.rooms)
        assert coils.bought_length >= cut
        cost = 0.5 * option.pipe_length + 40.0 * option.circuit_count + coils.coils_price
        assert option.material_cost == pytest.approx(cost, rel=1e-9)
        assert option.proven == (option.gap == 0.0)
    assert any(option.proven for option in found.options)
    assert "option_not_proven" not in codes(found)


def test_a_circuit_that_no_coil_holds_is_told() -> None:
    found = options(house(3, 3), prices=OptionPrices(coils=(CoilPrice(25.0, 40.0),)), additional_circuits=0)
    assert "circuit_longer_than_coils" in codes(found)


def test_a_design_buys_its_coils() -> None:
    asked = house(3, 3, maximum_circuits=60)
    prices = OptionPrices(0.0, 40.0, coils=COILS)
    found = designs.calculate(replace(asked, objective=DesignObjective("material", prices=prices)))
    assert found.objective is not None
    assert found.objective.value <= found.objective.value_by_rule
    stock = CoilStock(
        tuple(CoilKindPriced(round(1000 * coil.length), round(100 * coil.coil_price)) for coil in COILS)
    )
    cuts = [Cuts(round(1000.0 * (own.total_length + 1.0)), 1) for own in found.circuits]
    cost = 40.0 * len(found.circuits) + stock.bought(cuts).cost / 100.0
    assert found.objective.value == pytest.approx(cost)


# --- what is asked wrongly ---


@pytest.mark.parametrize(
    ("others", "pointer"),
    [
        ({"patterns": (PatternOption("serpentine", ("attic",)),)}, "/patterns/0/rooms/0"),
        ({"strips": (StripOption("attic", STRIP),)}, "/strips/0/room"),
        ({"strips": (StripOption("r0", replace(STRIP, length=None)),)}, "/strips/0/strip/length"),
        ({"strips": (StripOption("r0", replace(STRIP, length=90.0)),)}, "/strips/0/strip"),
        ({"strips": (StripOption("r0", replace(STRIP, pipe_spacing=0.05)),)}, "/strips/0/strip/pipe_spacing"),
    ],
)
def test_refusals(others: dict[str, object], pointer: str) -> None:
    with pytest.raises(InputError) as refused:
        options(house(1, 3), **others)
    assert [fault.pointer for fault in refused.value.faults] == [pointer]
