"""Coverings that an objective chooses: held to every house in which the coverings are written into the request.

Oracles: exhaustive search with the calculation itself, one plain request for each combination of coverings; prices by
arithmetic done here.
"""

from __future__ import annotations

import itertools
from dataclasses import fields, replace
from datetime import date
from functools import cache
from typing import Any

import pytest
from tepidarium_engine import designs
from tepidarium_engine.building.chosen_floors import ChosenFloor
from tepidarium_engine.building.former_records import FormerDesign, FormerFloor, FormerInputs, FormerRoom
from tepidarium_engine.building.objective_records import (
    CoveringOption,
    DesignObjective,
    EfficiencyPoint,
    HeatPump,
    OptionPrices,
)
from tepidarium_engine.designs import DesignScreed, DesignsInputs, DesignsResult
from tepidarium_engine.errors import InputError

from tests.engine.test_designs_comparison import FLAT
from tests.options.houses import house

COVERINGS = (
    CoveringOption("natural_stone", 0.01, price=6.0),
    CoveringOption("laminate", 0.06, rooms=("r0", "r2"), price=1.5),
)
PRICES = OptionPrices(pipe=2.0, circuit=60.0)
CURVE = (EfficiencyPoint(20.0, 6.0), EfficiencyPoint(55.0, 2.5))
PUMP = HeatPump(CURVE, heating_energy=9000.0, electricity_price=0.35, years=20.0)
SEEDS = (9, 11, 13, 18)
OBJECTIVES = (
    DesignObjective("supply_temperature", coverings=COVERINGS),
    DesignObjective("material", prices=PRICES, coverings=COVERINGS),
    DesignObjective("cost_of_use", prices=PRICES, heat_pump=PUMP, coverings=COVERINGS),
)


def _asked(seed: int) -> DesignsInputs:
    """All rooms count for the supply, so that none lacks heat in any house that is compared."""
    own = house(seed, 3, maximum_circuits=60)
    rooms = tuple(replace(room, counts_for_supply=True) for room in own.rooms)
    return replace(own, rooms=rooms, screed=DesignScreed(date(2027, 4, 1)), solve_sections=True)


@cache
def _chosen(seed: int, number: int) -> DesignsResult:
    return designs.calculate(replace(_asked(seed), objective=OBJECTIVES[number]))


def _written(asked: DesignsInputs, taken: tuple[int | None, ...]) -> DesignsInputs:
    """The request with coverings written into it, each room with a build-up of its own where it has another."""
    floors = {floor.id: floor for floor in asked.build_ups}
    rooms, more = [], []
    for room, number in zip(asked.rooms, taken, strict=True):
        if number is None:
            rooms.append(room)
            continue
        option = COVERINGS[number]
        more.append(
            replace(
                floors[room.build_up],
                id=f"for {room.id}",
                covering=option.covering,
                covering_resistance=option.covering_resistance,
            )
        )
        rooms.append(replace(room, build_up=more[-1].id))
    return replace(asked, rooms=tuple(rooms), build_ups=(*asked.build_ups, *more))


def _price(asked: DesignsInputs, taken: tuple[int | None, ...]) -> float:
    return sum(
        (room.area or 0.0) * COVERINGS[number].price
        for room, number in zip(asked.rooms, taken, strict=True)
        if number is not None
    )


@pytest.mark.parametrize("number", range(len(OBJECTIVES)), ids=[one.least for one in OBJECTIVES])
@pytest.mark.parametrize("seed", SEEDS)
def test_no_combination_of_coverings_is_better(seed: int, number: int) -> None:
    """Each combination as a plain request with the same objective. With coverings to choose from more supplies
    are looked at, so that a house may even be better, by circuits that a warmer supply saves."""
    asked, objective = _asked(seed), replace(OBJECTIVES[number], coverings=())
    found, rule = _chosen(seed, number), designs.calculate(_asked(seed))
    assert found.objective is not None
    assert not rule.heat_missing
    values = {}
    for taken in itertools.product((None, 0, 1), (None, 0), (None, 0, 1)):
        other = designs.calculate(
            replace(_written(asked, taken), objective=objective, screed=None, solve_sections=False)
        )
        assert other.objective is not None
        if other.heat_missing <= 1.0:
            price = 0.0 if objective.least == "supply_temperature" else _price(asked, taken)
            values[taken] = other.objective.value + price
    assert found.objective.value <= min(values.values()) * (1.0 + 2e-6)
    if objective.least != "material":
        assert found.objective.value == pytest.approx(values[_taken(found)], rel=2e-6)


@pytest.mark.parametrize("seed", SEEDS)
def test_what_is_to_be_least_follows_from_the_answer(seed: int) -> None:
    found, supply = _chosen(seed, 2), _chosen(seed, 2).supply_temperature
    assert found.objective is not None
    material = 2.0 * found.pipe_length + 60.0 * len(found.circuits) + _price(_asked(seed), _taken(found))
    efficiency = 6.0 - (supply - 20.0) * 0.1
    assert found.objective.value == pytest.approx(material + 20.0 * 0.35 * 9000.0 / efficiency, rel=1e-9)


def _taken(found: DesignsResult) -> tuple[int | None, ...]:
    by_room = {room: floor.covering_option for floor in found.chosen_floors for room in floor.rooms}
    return tuple(by_room.get(room.id) for room in found.rooms)


def test_floors_are_chosen_somewhere_and_with_other_coverings_in_one_house() -> None:
    every = [_taken(_chosen(seed, number)) for seed in SEEDS for number in range(len(OBJECTIVES))]
    assert {0, 1, None} <= {number for taken in every for number in taken}
    assert any(len(set(taken)) > 1 for taken in every)


def _with_chosen(asked: DesignsInputs, found: DesignsResult) -> DesignsInputs:
    """The request with the chosen floors written into it, as their answer says to do."""
    named = {room: floor.build_up.id for floor in found.chosen_floors for room in floor.rooms}
    return replace(
        asked,
        build_ups=(*asked.build_ups, *(floor.build_up for floor in found.chosen_floors)),
        rooms=tuple(replace(room, build_up=named.get(room.id, room.build_up)) for room in asked.rooms),
    )


_LED_ELSEWHERE = {"objective", "options", "chosen_floors", "findings"}


@pytest.mark.parametrize("seed", SEEDS)
def test_the_house_is_that_of_a_request_with_the_chosen_floors(seed: int) -> None:
    """Every figure, date and check the same; findings of a floor stand where that floor is answered."""
    found, known = _chosen(seed, 2), len(_asked(seed).build_ups)
    written = replace(_with_chosen(_asked(seed), found), objective=replace(OBJECTIVES[2], coverings=()))
    other = designs.calculate(written)
    for item in fields(DesignsResult):
        if item.name not in _LED_ELSEWHERE:
            assert getattr(found, item.name) == getattr(other, item.name), item.name
    assert [_places(finding) for finding in found.findings if finding.code != "objective_met_by_rule"] == [
        [_led(place, known) for place in _places(finding)]
        for finding in other.findings
        if finding.code != "objective_met_by_rule"
    ]
    assert designs.workings(replace(_asked(seed), objective=OBJECTIVES[2]), found) == designs.workings(
        written, other
    )


_Place = tuple[str, str, str, str, float | None]


def _places(finding: Any) -> list[_Place]:
    return [(finding.code, own.where_in, own.where, own.subject, own.value) for own in finding.places]


def _led(place: _Place, known: int) -> _Place:
    code, where_in, where, subject, value = place
    _, head, *rest = where.split("/")
    if where_in == "request" and head == "build_ups" and int(rest[0]) >= known:
        where = "/".join(["", "chosen_floors", str(int(rest[0]) - known), "build_up", *rest[1:]])
        where_in = "answer"
    return code, where_in, where, subject, value


def test_dates_and_sections_are_those_of_the_chosen_covering() -> None:
    found = _chosen(11, 0)
    (floor, *_) = found.chosen_floors
    plan = next(own for own in found.curing_plans if own.build_up == floor.build_up.id)
    check = next(own for own in found.build_up_checks if own.build_up == floor.build_up.id)
    assert plan.plan_inputs.covering == COVERINGS[floor.covering_option or 0].covering
    assert check.section_inputs is not None
    assert check.section_inputs.covering_resistance == floor.build_up.covering_resistance
    assert not {own.build_up for own in found.curing_plans} & _abandoned(_asked(11), found)


def _abandoned(asked: DesignsInputs, found: DesignsResult) -> set[str]:
    """Build-ups that all rooms have left."""
    named = {room for floor in found.chosen_floors for room in floor.rooms}
    return {own.id for own in asked.build_ups} - {
        room.build_up for room in asked.rooms if room.id not in named
    }


def test_a_storey_is_drawn_and_ordered_with_its_chosen_floors() -> None:
    option = CoveringOption("natural_stone", 0.01)
    found = designs.calculate(
        replace(FLAT, objective=DesignObjective("supply_temperature", coverings=(option,)))
    )
    assert found.layout is not None
    assert found.chosen_floors
    assert found.supply_temperature < designs.calculate(FLAT).supply_temperature


def test_a_chosen_floor_stays_with_a_former_answer_where_its_build_up_is_as_it_was() -> None:
    found = _chosen(11, 0)
    former = _former(_asked(11), found)
    same = designs.calculate(replace(_asked(11), former=former))
    assert same.comparison is not None
    assert not same.comparison.asked
    assert not same.comparison.decisions
    assert same.rooms == found.rooms
    assert [(floor.build_up, floor.rooms) for floor in same.chosen_floors] == [
        (floor.build_up, floor.rooms) for floor in found.chosen_floors
    ]
    (first, *_) = found.chosen_floors
    screeds = tuple(
        replace(own, screed_cover=0.055) if own.id == first.like else own for own in _asked(11).build_ups
    )
    changed = designs.calculate(replace(_asked(11), build_ups=screeds, former=former))
    assert first.build_up.id not in {floor.build_up.id for floor in changed.chosen_floors}
    assert changed.comparison is not None
    assert "build up" in {own.what for own in changed.comparison.asked}
    written = designs.calculate(replace(_with_chosen(_asked(11), found), former=former))
    assert written.comparison is not None
    assert not written.comparison.asked
    assert not written.chosen_floors
    assert written.rooms == found.rooms


def _former(asked: DesignsInputs, found: DesignsResult) -> FormerDesign:
    return FormerDesign(
        FormerInputs(
            asked.rooms,
            asked.build_ups,
            source=asked.source,
            limits=asked.limits,
            screed=asked.screed,
            solve_sections=True,
        ),
        supply_temperature=found.supply_temperature,
        rooms=tuple(
            FormerRoom(room.id, room.manifold, room.pipe_spacing, room.circuit_ids, room.heat_demand)
            for room in found.rooms
        ),
        chosen_floors=tuple(
            FormerFloor(floor.build_up, floor.like, floor.rooms) for floor in found.chosen_floors
        ),
    )


def test_names_stay_within_what_a_request_takes() -> None:
    asked = _asked(11)
    long = {own.id: own.id + "x" * (64 - len(own.id)) for own in asked.build_ups}
    renamed = replace(
        asked,
        build_ups=tuple(replace(own, id=long[own.id], name="y" * 120) for own in asked.build_ups),
        rooms=tuple(replace(room, build_up=long[room.build_up]) for room in asked.rooms),
    )
    found = designs.calculate(replace(renamed, objective=OBJECTIVES[0]))
    assert found.chosen_floors
    designs.calculate(_with_chosen(renamed, found))
    names = [floor.build_up.name for floor in found.chosen_floors]
    assert all("m²K/W" in name for name in names)


@pytest.mark.parametrize(
    ("option", "pointer"),
    [
        (CoveringOption("carpet", 0.1, rooms=("attic",)), "/objective/coverings/0/rooms/0"),
        (CoveringOption("carpet", 99.0), "/objective/coverings/0/covering_resistance"),
    ],
)
def test_coverings_that_cannot_be_are_told_with_the_field(option: CoveringOption, pointer: str) -> None:
    with pytest.raises(InputError) as refused:
        designs.calculate(
            replace(_asked(11), objective=DesignObjective("supply_temperature", coverings=(option,)))
        )
    assert [fault.pointer for fault in refused.value.faults] == [pointer]


def test_a_floor_that_was_chosen_is_a_record_of_a_request() -> None:
    floor: ChosenFloor = _chosen(11, 0).chosen_floors[0]
    like = next(own for own in _asked(11).build_ups if own.id == floor.like)
    option = COVERINGS[floor.covering_option or 0]
    assert replace(floor.build_up, id=like.id, name=like.name) == replace(
        like, covering=option.covering, covering_resistance=option.covering_resistance
    )


def test_a_price_of_coverings_alone_is_told() -> None:
    """Material is money then, and pipe costs none."""
    option = replace(COVERINGS[0], price=3.0)
    found = designs.calculate(replace(_asked(11), objective=DesignObjective("material", coverings=(option,))))
    assert "prices_are_zero" in {finding.code for finding in found.findings}


def test_supplies_that_were_not_looked_at_are_told() -> None:
    """Each spacing under each covering asks for a supply of its own: of so many some are left out."""
    asked = replace(house(14, 8, maximum_circuits=60), screed=None)
    coverings = tuple(CoveringOption("carpet", 0.02 * place) for place in range(1, 6))
    found = designs.calculate(replace(asked, objective=DesignObjective("material", coverings=coverings)))
    assert found.objective is not None
    assert not found.objective.proven
    assert "supplies_left_out" in {finding.code for finding in found.findings}
