"""Each line of a sensitivity against the design that a request with that change gets."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tepidarium_engine import designs
from tepidarium_engine.design_sensitivity import (
    DesignSensitivityInputs,
    DesignSensitivityResult,
    SensitivityLine,
    calculate,
)
from tepidarium_engine.designs import DesignsInputs
from tepidarium_engine.errors import InputError

from tests.options.houses import house

OUTSIDE = -12.0
SAME = 1e-9


def sensitivity(design: DesignsInputs, **others: object) -> DesignSensitivityResult:
    return calculate(DesignSensitivityInputs(design, **others))  # type: ignore[arg-type]


def changed(design: DesignsInputs, line: SensitivityLine) -> DesignsInputs:
    """The request with the change of a line, made here."""
    if line.kind == "supply_limit":
        return replace(design, source=replace(design.source, maximum_supply_temperature=35.0))
    if line.kind == "screed":
        thicker = tuple(replace(each, screed_cover=each.screed_cover + 0.02) for each in design.build_ups)
        return replace(design, build_ups=thicker)
    carpets = tuple(
        replace(each, id=f"{each.id} carpet", covering="carpet", covering_resistance=0.15)
        for each in design.build_ups
    )
    rooms = []
    for room in design.rooms:
        demand = room.heat_demand or 0.0
        if line.room not in ("", room.id):
            rooms.append(room)
        elif line.kind == "demand":
            rooms.append(replace(room, heat_demand=1.1 * demand))
        elif line.kind == "room_temperature":
            warmer = room.room_temperature + 2.0
            more = demand * (warmer - OUTSIDE) / (room.room_temperature - OUTSIDE)
            rooms.append(replace(room, room_temperature=warmer, heat_demand=more))
        else:
            rooms.append(replace(room, build_up=f"{room.build_up} carpet"))
    return replace(design, rooms=tuple(rooms), build_ups=(*design.build_ups, *carpets))


@pytest.mark.parametrize("seed", [1, 4, 9])
def test_every_line_is_the_design_of_the_changed_request(seed: int) -> None:
    design = house(seed, 4)
    found, before = sensitivity(design), designs.calculate(design)
    assert found.supply_temperature == before.supply_temperature
    assert found.pipe_length == pytest.approx(before.pipe_length, rel=SAME)
    kinds = {line.kind for line in found.lines}
    assert kinds == {"covering", "demand", "room_temperature", "screed", "supply_limit"}
    for line in found.lines:
        now = designs.calculate(changed(design, line))
        assert line.supply_temperature == pytest.approx(now.supply_temperature, rel=SAME), line.message
        assert line.pipe_difference == pytest.approx(now.pipe_length - before.pipe_length, abs=1e-6)
        assert line.circuit_difference == len(now.circuits) - len(before.circuits)
        assert line.missing_difference == pytest.approx(now.heat_missing - before.heat_missing, abs=1e-6)
        power = now.pump.hydraulic_power - before.pump.hydraulic_power
        assert line.power_difference == pytest.approx(power, abs=1e-9)


def test_the_greatest_effect_comes_first() -> None:
    lines = sensitivity(house(4, 6)).lines
    effects = [
        (abs(round(line.missing_difference, 3)), abs(round(line.supply_difference, 6))) for line in lines
    ]
    assert effects == sorted(effects, reverse=True)


@pytest.mark.parametrize("seed", [2, 5])
def test_a_room_bears_its_tolerance_and_no_more(seed: int) -> None:
    """Designed again at its spacing on the warmest supply: the heat just suffices, and does not 0.1 % above."""
    design = house(seed, 3)
    warmest = replace(design.source, supply_temperature=design.source.maximum_supply_temperature)
    for place, room in enumerate(sensitivity(design).tolerances):
        for above, suffices in ((0.9999, True), (1.001, False)):
            demand = room.heat_demand * (1.0 + room.tolerance_at_most) * above
            asking = replace(design.rooms[place], heat_demand=demand, pipe_spacing=room.pipe_spacing)
            rooms = tuple(asking if own.id == room.id else own for own in design.rooms)
            missing = (
                designs.calculate(replace(design, rooms=rooms, source=warmest)).rooms[place].heat_missing
            )
            assert (missing == 0.0) == suffices


def test_a_room_without_reserve_is_reported_and_one_with_it_is_not() -> None:
    design = house(5, 3)
    least = sensitivity(design).demand_tolerance
    for rise, reported in ((least - 1e-6, False), (least + 1e-6, True)):
        found = sensitivity(design, demand_rise=rise).findings
        assert ("little_reserve" in {finding.code for finding in found}) == reported


@pytest.mark.parametrize(
    ("others", "pointer"),
    [
        ({"outside_temperature": 20.0}, "/outside_temperature"),
        ({"supply_limit": 26.0}, "/supply_limit"),
        ({"demand_rise": -0.1}, "/demand_rise"),
    ],
)
def test_refusals(others: dict[str, object], pointer: str) -> None:
    with pytest.raises(InputError) as refused:
        sensitivity(house(1, 3), **others)
    assert [fault.pointer for fault in refused.value.faults] == [pointer]


def test_no_limit_is_looked_at_where_none_is_given() -> None:
    assert "supply_limit" not in {line.kind for line in sensitivity(house(1, 2), supply_limit=None).lines}


@pytest.mark.parametrize(("limit", "computed"), [(22.0, False), (22.1, True)])
def test_a_change_that_cannot_be_computed_is_reported(limit: float, computed: bool) -> None:
    """A floor of at most 22 degC gives no heat to a room that is kept at 22 degC."""
    design = house(1, 2)
    cool = replace(design.rooms[1], surface_temperature_limit=limit)
    found = sensitivity(replace(design, rooms=(design.rooms[0], cool)))
    assert ("change_not_computed" not in {finding.code for finding in found.findings}) == computed
    warmer = [line.room for line in found.lines if line.kind == "room_temperature"]
    assert (cool.id in warmer) == computed


@pytest.mark.parametrize("seed", [1, 9])
def test_each_room_has_a_table_of_what_its_changes_and_those_of_the_house_do_to_it(seed: int) -> None:
    design = house(seed, 4)
    found, before = sensitivity(design), designs.calculate(design)
    for place, own in enumerate(found.rooms):
        assert own.id == design.rooms[place].id
        lines = [line for line in found.lines if line.room in ("", own.id)]
        assert sorted(effect.message for effect in own.effects) == sorted(line.message for line in lines)
        for effect in own.effects:
            (line,) = [line for line in lines if line.message == effect.message]
            now, was = designs.calculate(changed(design, line)).rooms[place], before.rooms[place]
            assert effect.of_house == (line.room == "")
            assert effect.pipe_spacing == now.pipe_spacing
            assert effect.missing_difference == pytest.approx(now.heat_missing - was.heat_missing, abs=1e-6)
            assert effect.pipe_difference == pytest.approx(now.pipe_length - was.pipe_length, abs=1e-6)
            assert effect.circuit_difference == len(now.circuit_ids) - len(was.circuit_ids)
        sizes = [abs(round(effect.missing_difference, 3)) for effect in own.effects]
        assert sizes == sorted(sizes, reverse=True)
