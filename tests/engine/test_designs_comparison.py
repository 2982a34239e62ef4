"""A design beside a former one: only what must change changes, and every change has its reason.

Oracles: the drawn pipe of both answers, piece by piece, read here from their layouts; the same request designed without
the former answer; EN 1264-3 (the room that needs most sets the supply).
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Any

import msgspec
import pytest
from tepidarium_api.schemas import request_type
from tepidarium_engine import __version__, designs
from tepidarium_engine.designs import (
    BuildUp,
    DesignComparison,
    DesignRoom,
    DesignsInputs,
    DesignsResult,
    FormerDesign,
    HeatSource,
    Manifold,
    PeripheralStrip,
    PlanDoorway,
)
from tepidarium_engine.errors import InputError

from tests.storeys.case import rect

BARE = BuildUp("bare", resistance_below=2.5, temperature_below=8.0, covering_resistance=0.02)
CARPET = replace(BARE, id="carpet", covering="carpet", covering_resistance=0.13)
ROOMS = (
    DesignRoom("hall", "bare", 560.0, outline=rect(0.0, 0.0, 9.0, 1.6), name="Hall"),
    DesignRoom("west", "bare", 420.0, outline=rect(0.0, 1.7, 3.0, 4.9), name="West room"),
    DesignRoom("middle", "bare", 300.0, outline=rect(3.1, 1.7, 5.9, 4.9)),
    DesignRoom("east", "bare", 300.0, outline=rect(6.0, 1.7, 9.0, 4.9)),
)
DOORS = (
    PlanDoorway(("hall", "west"), (1.5, 1.65)),
    PlanDoorway(("hall", "middle"), (4.5, 1.65)),
    PlanDoorway(("hall", "east"), (7.5, 1.65)),
)
FLAT = DesignsInputs(ROOMS, (BARE, CARPET), doorways=DOORS)


def _former(inputs: DesignsInputs, result: DesignsResult, **changes: Any) -> FormerDesign:
    """A former answer as it comes back over the wire, with everything that is not read of it."""
    answer = msgspec.to_builtins(result) | {
        "inputs": msgspec.to_builtins(inputs),
        "engine_version": __version__,
    }
    read = msgspec.convert(
        {**msgspec.to_builtins(FLAT), "former": answer | changes}, request_type(DesignsInputs), strict=True
    )
    return msgspec.convert(read, DesignsInputs, from_attributes=True).former  # type: ignore[return-value]


@cache
def _first() -> tuple[DesignsResult, FormerDesign]:
    result = designs.calculate(FLAT)
    return result, _former(FLAT, result)


def _with(room: str, **changes: Any) -> DesignsInputs:
    rooms = tuple(replace(own, **changes) if own.id == room else own for own in ROOMS)
    return replace(FLAT, rooms=rooms)


def _again(inputs: DesignsInputs) -> tuple[DesignsResult, DesignComparison]:
    result = designs.calculate(replace(inputs, former=_first()[1]))
    assert result.comparison is not None
    return result, result.comparison


def _pipes(result: DesignsResult, room: str) -> dict[str, tuple[Any, ...]]:
    """The drawn circuits of a room: port, manifold, and every piece to a tenth of a millimetre."""
    assert result.layout is not None
    return {
        own.id: (own.port, own.manifold, *(_rounded(piece.start, piece.end) for piece in own.pieces))
        for own in result.layout.drawn_circuits
        if own.room == room
    }


def _rounded(*points: tuple[float, float]) -> tuple[float, ...]:
    return tuple(round(number, 4) + 0.0 for point in points for number in point)


def test_nothing_changes_where_nothing_is_asked_otherwise() -> None:
    before = _first()[0]
    after, comparison = _again(FLAT)
    assert comparison.kept
    assert (comparison.asked, comparison.decisions, comparison.figures, comparison.findings) == (
        (),
        (),
        (),
        (),
    )
    assert set(comparison.unchanged_rooms) == {room.id for room in ROOMS}
    assert [finding.code for finding in after.findings] == [finding.code for finding in before.findings]
    assert all(_pipes(after, room.id) == _pipes(before, room.id) for room in ROOMS)


def test_a_request_alone_is_designed_again() -> None:
    former = FormerDesign(inputs=_first()[1].inputs)
    comparison = designs.calculate(replace(FLAT, former=former)).comparison
    assert comparison is not None
    assert comparison.former_version == __version__
    assert not (*comparison.asked, *comparison.decisions, *comparison.figures, *comparison.findings)


CHANGES: dict[str, dict[str, Any]] = {
    "covering": {"build_up": "carpet"},
    "more heat": {"heat_demand": 420.0},
    "less heat": {"heat_demand": 200.0},
    "warmer": {"room_temperature": 22.0},
    "smaller": {"outline": rect(3.1, 1.7, 5.9, 4.3)},
    "pattern": {"pattern": "serpentine"},
}


@pytest.mark.parametrize("changes", CHANGES.values(), ids=CHANGES)
def test_a_room_that_is_not_touched_is_laid_as_before(changes: dict[str, Any]) -> None:
    before = _first()[0]
    after, comparison = _again(_with("middle", **changes))
    spacing = {room.id: room.pipe_spacing for room in before.rooms}
    for room in after.rooms:
        if room.id == "middle":
            continue
        same = _pipes(after, room.id) == _pipes(before, room.id)
        assert room.pipe_spacing == spacing[room.id]
        assert same
        assert room.id in comparison.unchanged_rooms
    told = {own.subject for own in comparison.decisions if own.where.startswith("/rooms/")}
    assert told <= {"middle"}
    assert all(own.where.startswith(("/rooms/2", "/build_ups")) for own in comparison.asked)
    assert comparison.asked


def test_a_supply_that_must_rise_names_the_room_that_asks_for_it() -> None:
    """The room that needs most sets the supply (EN 1264-3)."""
    before = _first()[0]
    after, comparison = _again(_with("west", heat_demand=700.0))
    assert after.governing_room == "west"
    supply = next(own for own in comparison.decisions if own.where == "/supply_temperature")
    assert (supply.value_before, supply.value_after) == (before.supply_temperature, after.supply_temperature)
    assert "West room" in supply.because
    flows = [
        own for own in comparison.figures if own.where.startswith("/circuits/") and "west" not in own.subject
    ]
    assert all(own.because for own in flows)


def test_a_supply_that_no_room_asks_for_stays_and_is_reported() -> None:
    rooms = (
        DesignRoom("a", "bare", 1000.0, area=14.0, tail_length=5.0),
        DesignRoom("b", "bare", 640.0, area=14.0, tail_length=5.0),
    )
    house = DesignsInputs(rooms, (BARE,))
    before = designs.calculate(house)
    asked = replace(house, rooms=(replace(rooms[0], heat_demand=660.0), rooms[1]))
    by_rule = designs.calculate(asked)
    after = designs.calculate(replace(asked, former=_former(house, before)))
    assert by_rule.supply_temperature < before.supply_temperature - 1.0
    assert by_rule.rooms[1].pipe_spacing != before.rooms[1].pipe_spacing
    assert after.supply_temperature == before.supply_temperature
    assert after.rooms[1].pipe_spacing == before.rooms[1].pipe_spacing
    assert after.comparison is not None
    assert after.comparison.unchanged_rooms[-1] == "b"
    finding = next(own for own in after.findings if own.code == "supply_kept")
    assert finding.limit is not None
    assert finding.limit < before.supply_temperature


def test_a_changed_source_sets_the_supply_anew() -> None:
    warm = replace(FLAT, source=HeatSource(supply_temperature=44.0))
    result = designs.calculate(warm)
    after = designs.calculate(replace(FLAT, former=_former(warm, result)))
    assert after.comparison is not None
    assert after.supply_temperature < 43.0
    supply = next(own for own in after.comparison.decisions if own.where == "/supply_temperature")
    assert "source" in supply.because


def test_rooms_that_are_new_or_gone_are_decisions() -> None:
    more = DesignRoom("attic", "bare", 300.0, area=9.0, tail_length=6.0)
    asked = replace(FLAT, rooms=(*ROOMS[:3], more), doorways=DOORS[:2])
    _, comparison = _again(asked)
    rooms = {
        (own.subject, own.text_before, own.text_after) for own in comparison.decisions if own.what == "room"
    }
    assert rooms == {("attic", "none", "new"), ("east", "there", "none")}
    order = [own for own in comparison.figures if own.subject == "order"]
    pieces = [own for own in order if own.unit == "1"]
    assert 0 < len(pieces) < len(order)
    for own in order:
        unit = "" if own.unit == "1" else f" {own.unit}"
        for words, value in ((own.text_before, own.value_before), (own.text_after, own.value_after)):
            assert float(words.removesuffix(unit)) == pytest.approx(value, abs=5e-4)


def test_a_manifold_that_was_found_stays_and_one_that_is_moved_is_told() -> None:
    """The best place of the smaller storey lies elsewhere; what stands is not moved for that."""
    before = _first()[0]
    asked = replace(FLAT, rooms=ROOMS[:3], doorways=DOORS[:2])
    by_rule = designs.calculate(asked)
    after, _ = _again(asked)
    assert before.layout is not None
    assert by_rule.layout is not None
    assert after.layout is not None
    assert by_rule.layout.placed_manifolds[0].position != before.layout.placed_manifolds[0].position
    assert after.layout.placed_manifolds == before.layout.placed_manifolds
    moved, comparison = _again(replace(FLAT, manifold=Manifold(position=(0.0, 0.8))))
    assert moved.layout is not None
    place = next(own for own in comparison.decisions if own.what == "place of the manifold")
    assert place.text_after == "[0.00, 0.80]"
    assert all(own.because for own in comparison.decisions if own.what in {"ports", "drawn pipe"})


def test_decisions_that_would_break_a_limit_are_not_kept() -> None:
    """With the limit of before each room was one circuit; with the one of now the rules divide them."""
    rooms = tuple(DesignRoom(name, "bare", 700.0, area=14.0, tail_length=5.0) for name in "ab")
    loose = DesignsInputs(rooms, (BARE,), limits=replace(FLAT.limits, maximum_circuit_length=120.0))
    tight = replace(loose, limits=replace(FLAT.limits, maximum_circuit_length=60.0))
    former = _former(loose, designs.calculate(loose))
    after = designs.calculate(replace(tight, former=former))
    by_rule = designs.calculate(tight)
    broken = [own.code for own in after.findings if own.severity == "violation"]
    assert set(broken) <= {own.code for own in by_rule.findings if own.severity == "violation"}
    assert after.comparison is not None
    again = [own for own in after.comparison.decisions if own.what == "circuits"]
    assert again
    assert all(own.because for own in again)


def test_findings_that_are_new_and_gone_are_told() -> None:
    hot = _with("middle", heat_demand=1500.0)
    after, comparison = _again(hot)
    new = next(own for own in comparison.findings if own.code == "heat_missing")
    assert (new.change, new.former_severity, new.severity) == ("new", None, "violation")
    assert after.findings[int(new.where.removeprefix("/findings/"))].code == "heat_missing"
    back = designs.calculate(replace(FLAT, former=_former(hot, after))).comparison
    assert back is not None
    gone = next(own for own in back.findings if own.code == "heat_missing")
    assert (gone.change, gone.severity, gone.where) == ("gone", None, "")


def test_an_answer_for_another_house_or_of_another_version_is_reported() -> None:
    result, former = _first()
    other = replace(former, rooms=tuple(replace(room, id=f"other {room.id}") for room in former.rooms))
    alone = designs.calculate(replace(FLAT, former=other))
    assert alone.comparison is None
    assert "former_of_another_house" in {own.code for own in alone.findings}
    assert replace(alone, findings=()) == replace(result, findings=())
    old = designs.calculate(replace(FLAT, former=replace(former, engine_version="0.0.1")))
    assert "former_version_differs" in {own.code for own in old.findings}
    assert old.comparison is not None
    assert old.comparison.former_version == "0.0.1"


def test_a_former_request_that_cannot_be_designed_points_below_former() -> None:
    former = _first()[1]
    nowhere = replace(former.inputs.rooms[0], build_up="no such floor")
    inputs = replace(former.inputs, rooms=(nowhere, *former.inputs.rooms[1:]))
    with pytest.raises(InputError) as refused:
        designs.calculate(replace(FLAT, former=FormerDesign(inputs=inputs)))
    assert [fault.pointer for fault in refused.value.faults] == ["/former/inputs/rooms/0/build_up"]


def test_decisions_of_nonsense_do_not_stop_a_design() -> None:
    """What is no decision for this house is not kept."""
    former = _first()[1]
    rooms = tuple(
        replace(room, pipe_spacing=0.07, circuit_ids=tuple(map(str, range(200))), manifold="none such")
        for room in former.rooms
    )
    strange = replace(former, rooms=rooms, supply_temperature=95.0)
    after = designs.calculate(replace(FLAT, former=strange))
    assert after.supply_temperature <= FLAT.source.maximum_supply_temperature
    assert {room.pipe_spacing for room in after.rooms} <= {*FLAT.limits.pipe_spacings, None}


STRIP = PeripheralStrip(0.1, length=4.0)


def _by_area(room: DesignRoom) -> DesignsInputs:
    return DesignsInputs((room,), (BARE,), limits=replace(FLAT.limits, pipe_spacings=(0.2,)))


PLAIN = DesignRoom("a", "bare", 700.0, area=16.0, tail_length=5.0, name="Parlour")


@pytest.mark.parametrize(
    ("before", "after", "what", "texts"),
    [
        ({}, {"pattern": "serpentine"}, "pattern", ("counterflow", "serpentine")),
        ({}, {"peripheral": STRIP}, "strip of closer pipe", ("none", "1000 mm wide along 4.0 m, at 100 mm")),
        (
            {"peripheral": STRIP},
            {"peripheral": replace(STRIP, width=0.6)},
            "strip of closer pipe",
            ("1000 mm wide along 4.0 m, at 100 mm", "600 mm wide along 4.0 m, at 100 mm"),
        ),
        ({"peripheral": STRIP}, {}, "strip of closer pipe", ("1000 mm wide along 4.0 m, at 100 mm", "none")),
    ],
)
def test_pattern_and_strip_have_lines_of_their_own(
    before: dict[str, Any], after: dict[str, Any], what: str, texts: tuple[str, str]
) -> None:
    first = _by_area(replace(PLAIN, **before))
    former = _former(first, designs.calculate(first))
    comparison = designs.calculate(replace(_by_area(replace(PLAIN, **after)), former=former)).comparison
    assert comparison is not None
    (line,) = [own for own in comparison.decisions if own.what in {"pattern", "strip of closer pipe"}]
    assert (line.what, line.subject, line.where_in) == (what, "Parlour", "answer")
    assert (line.text_before, line.text_after) == texts
    assert line.because == "The request for this room has changed."
    assert comparison.unchanged_rooms == ()


def test_walls_of_a_strip_are_counted_as_people_do() -> None:
    """Edge 2 of an outline is its third wall."""
    room = replace(PLAIN, area=None, outline=rect(0.0, 0.0, 4.0, 4.0))
    first = _by_area(room)
    former = _former(first, designs.calculate(first))
    strip = PeripheralStrip(0.1, edges=(0, 2))
    comparison = designs.calculate(
        replace(_by_area(replace(room, peripheral=strip)), former=former)
    ).comparison
    assert comparison is not None
    (line,) = [own for own in comparison.decisions if own.what == "strip of closer pipe"]
    assert line.text_after == "1000 mm wide along walls 1, 3, at 100 mm"


def test_a_strip_that_was_chosen_stays_where_only_the_demand_changes() -> None:
    """Nobody asked for another floor: the strip of the former answer still lies there, though no request has it."""
    first = _by_area(PLAIN)
    chosen = _by_area(replace(PLAIN, peripheral=STRIP))
    former = replace(
        _former(chosen, designs.calculate(chosen)), inputs=_former(first, designs.calculate(first)).inputs
    )
    after = designs.calculate(replace(_by_area(replace(PLAIN, heat_demand=720.0)), former=former))
    assert after.rooms[0].peripheral is not None
    assert after.rooms[0].peripheral.strip == STRIP
    assert after.comparison is not None
    assert not [own for own in after.comparison.decisions if own.what == "strip of closer pipe"]
