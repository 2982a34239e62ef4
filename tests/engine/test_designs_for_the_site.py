"""What a design makes for the site: order, coil plan, commissioning and laying sheets agree with its drawing."""

from __future__ import annotations

import json
import math
from dataclasses import replace
from pathlib import Path
from typing import Any

import msgspec
import pytest
import shapely
from shapely import LineString, Polygon
from tepidarium_engine.designs import (
    Commissioning,
    DesignRoom,
    DesignsInputs,
    DesignsResult,
    Manifold,
    WallAllowed,
    calculate,
)
from tepidarium_engine.envelope.check_records import CheckLayer, InsulationCheckInputs
from tepidarium_engine.findings import STAGES
from tepidarium_engine.materials import Ordering, Price, PriceList
from tepidarium_engine.own_place import moved
from tepidarium_engine.plan.asking.given_path import path_of_pieces
from tepidarium_engine.site_work.commissioning_records import LeakTest

from tests.findings.answered import finding_faults, wording_faults

EXAMPLES = Path(__file__).parents[2] / "examples"


def _example(name: str) -> DesignsInputs:
    return msgspec.convert(json.loads((EXAMPLES / name).read_text()), DesignsInputs, strict=True)


HOUSE = replace(moved(_example("two-storeys.json"), (37.5, -4.25)), laying_sheets=True)
"""Not at the origin, where what is counted from elsewhere looks right, too."""


@pytest.fixture(scope="module")
def designed() -> DesignsResult:
    return calculate(HOUSE)


def _lines(result: DesignsResult) -> dict[str, Any]:
    assert result.materials is not None
    return {line.item: line for line in result.materials.quantities}


def test_the_order_has_the_pipe_of_the_drawing(designed: DesignsResult) -> None:
    assert designed.materials is not None
    order = designed.materials
    assert order.pipe_length == pytest.approx(designed.pipe_length)
    assert [own.circuit for own in order.circuits] == [circuit.id for circuit in designed.circuits]
    assert order.system_volume == designed.system_volume
    cuts = {cut.circuit: cut for coil in order.coil_plan.coils for cut in coil.cuts}
    for circuit in designed.circuits:
        assert cuts[circuit.id].length == pytest.approx(circuit.total_length + 1.0, abs=1.1e-3)


def test_places_on_a_laying_sheet_lead_to_the_drawn_pipe(designed: DesignsResult) -> None:
    """From the corner along the walls, as somebody with a folding rule finds the beginning of each step."""
    assert designed.layout is not None
    pieces = {own.id: own.pieces for own in designed.layout.drawn_circuits}
    outlines = {room.id: room.outline for room in HOUSE.rooms}
    assert len(designed.laying_sheets) == len(pieces)
    for sheet in designed.laying_sheets:
        pipe, room = LineString(path_of_pieces(pieces[sheet.circuit]).polyline(1e-4)), outlines[sheet.room]
        assert room is not None
        (x, y), (c, s) = sheet.datum, sheet.datum_direction
        assert math.hypot(c, s) == pytest.approx(1.0)
        assert min(math.dist(sheet.datum, corner) for corner in room) < 1e-6
        ahead = LineString([(x + 0.01 * c, y + 0.01 * s), (x + 0.3 * c, y + 0.3 * s)])
        assert (
            shapely.hausdorff_distance(
                ahead, shapely.intersection(ahead, Polygon(room).exterior.buffer(1e-6))
            )
            < 1e-5
        )
        for step in sheet.steps:
            along, across = step.from_datum
            found = shapely.Point(x + c * along - s * across, y + s * along + c * across)
            assert pipe.distance(found) < 1e-3
            assert math.dist(found.coords[0], step.start) < 1e-6


@pytest.mark.parametrize("manifold", [{"position": (4.0, 1.0)}, {"allowed_places": (WallAllowed("studio"),)}])
def test_a_house_of_one_room_is_drawn_and_has_no_doorway_to_give(manifold: dict[str, Any]) -> None:
    outline = ((0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0))
    room = DesignRoom("studio", HOUSE.build_ups[0].id, 500.0, outline=outline)
    bare = DesignsInputs((room,), HOUSE.build_ups, manifold=Manifold(**manifold), laying_sheets=True)
    result = calculate(bare)
    assert result.layout is not None
    pipes = [LineString(path_of_pieces(own.pieces).polyline(1e-3)) for own in result.layout.drawn_circuits]
    for pipe in pipes:
        assert Polygon(outline).buffer(1e-6).covers(pipe)
        assert Polygon(outline).exterior.distance(shapely.Point(pipe.coords[0])) < 0.05
    at_the_manifold = 2.0 * 0.5 * len(pipes)
    assert result.pipe_length == pytest.approx(sum(pipe.length for pipe in pipes) + at_the_manifold, rel=1e-3)
    assert len(result.laying_sheets) == len(pipes) > 0


def test_screed_leaves_out_the_pipe_that_is_drawn_in_each_room(designed: DesignsResult) -> None:
    """Room by room, storey by storey: plans of storeys lie over each other."""
    assert designed.materials is not None and designed.layout is not None
    storey_of = {room.id: room.storey for room in HOUSE.rooms}
    for own, room in zip(designed.materials.areas, HOUSE.rooms, strict=True):
        assert room.outline is not None
        floor = Polygon(room.outline, room.voids)
        drawn = sum(
            shapely.intersection(LineString(path_of_pieces(circuit.pieces).polyline(1e-3)), floor).length
            for circuit in designed.layout.drawn_circuits
            if storey_of[circuit.room] == room.storey
        )
        assert own.pipe_length == pytest.approx(drawn, abs=1e-6)
        thickness = next(b.screed_cover for b in HOUSE.build_ups if b.id == room.build_up) + 0.016
        volume = floor.area * thickness - math.pi / 4.0 * 0.016**2 * drawn
        assert own.screed_volume == pytest.approx(volume)


def test_edge_strip_stops_at_doorways(designed: DesignsResult) -> None:
    assert designed.materials is not None
    for own, room in zip(designed.materials.areas, HOUSE.rooms, strict=True):
        assert room.outline is not None
        widths = sum(doorway.width for doorway in HOUSE.doorways if room.id in doorway.rooms)
        around = Polygon(room.outline, room.voids).length
        assert own.wall_length == pytest.approx(around - widths, abs=0.02)


def test_given_joints_and_due_ones_stand_apart(designed: DesignsResult) -> None:
    lines = _lines(designed)
    assert lines["joint_profile"].net_quantity == pytest.approx(designed.movement_joint_length)
    assert lines["sleeve"].net_quantity == designed.sleeve_count
    due = next(finding for finding in designed.findings if finding.code == "movement_joint_proposed")
    assert lines["joint_profile_due"].net_quantity > 0.0
    assert len(due.places) > 0
    assert lines["joint_profile_due"].status == "due"


def test_manifolds_controls_and_valves_are_those_of_the_design(designed: DesignsResult) -> None:
    lines = _lines(designed)
    assert lines["actuator"].order_quantity == len(designed.circuits)
    assert lines["room_control"].order_quantity == len(HOUSE.rooms)
    ports = sum(
        int(item.split("_")[1]) * line.order_quantity
        for item, line in lines.items()
        if item.endswith("_ports")
    )
    assert ports == len(designed.circuits)
    balanced = sum(manifold.balancing_kv is not None for manifold in designed.manifolds)
    assert lines["balancing_valve"].order_quantity == balanced
    assert lines["tail_insulation"].net_quantity == pytest.approx(designed.insulated_tail_length)


def test_commissioning_has_the_designs_own_figures(designed: DesignsResult) -> None:
    site = designed.commissioning
    assert site is not None
    assert site.system_volume == designed.system_volume
    assert [row.volume_flow for row in site.balancing] == [
        circuit.volume_flow for circuit in designed.circuits
    ]
    assert site.water_limits.specific_volume == pytest.approx(designed.system_volume / designed.heat_flow)
    assert site.filling.fill_pressure == designed.expansion_vessel.fill_pressure
    dates = {day.date for plan in designed.curing_plans for day in plan.plan.daily_programme}
    assert {row.date for row in site.heat_up_log} == dates
    names = {room.name or room.id for room in HOUSE.rooms}
    assert {row.room for row in site.moisture_points} == names
    joints = [joint for room in HOUSE.rooms for joint in room.movement_joints]
    assert len(site.joint_movements) == len(joints)
    assert all(0.0 < movement.movement < 0.005 for movement in site.joint_movements)


def test_sheets_have_the_lengths_and_the_coils_of_the_schedule(designed: DesignsResult) -> None:
    assert designed.materials is not None and designed.layout is not None
    own = {circuit.circuit: circuit for circuit in designed.materials.circuits}
    totals = {circuit.id: circuit.total_length for circuit in designed.circuits}
    assert [sheet.circuit for sheet in designed.laying_sheets] == [
        circuit.id for circuit in designed.layout.drawn_circuits
    ]
    for sheet in designed.laying_sheets:
        cut = own[sheet.circuit]
        assert sheet.total_length == pytest.approx(totals[sheet.circuit])
        assert (sheet.coil, sheet.coil_start_mark) == (cut.coil, cut.start_mark)
        assert sheet.coil_end_mark == pytest.approx(cut.end_mark, abs=1.1e-3)
        assert (sheet.fixings_on_straights, sheet.fixings_at_bends) == (
            cut.fixings_on_straights,
            cut.fixings_at_bends,
        )


def test_findings_point_into_the_design(designed: DesignsResult) -> None:
    document = {**msgspec.to_builtins(designed), "inputs": msgspec.to_builtins(HOUSE)}
    document = json.loads(msgspec.json.encode(document))
    assert finding_faults(document) == []
    codes = (*STAGES["order"], *STAGES["site"])
    assert [fault for fault in wording_faults(document) if fault.startswith(codes)] == []


def test_parts_can_be_left_out() -> None:
    plain = replace(HOUSE, ordering=None, commissioning=None, laying_sheets=False)
    result = calculate(plain)
    assert (result.materials, result.commissioning, result.laying_sheets) == (None, None, ())
    sheets = calculate(replace(plain, laying_sheets=True)).laying_sheets
    assert sheets and all(sheet.coil is None for sheet in sheets)


def test_options_reach_order_and_commissioning() -> None:
    ordering = Ordering(
        coil_lengths=(60.0,), fixing_distance=0.6, price_list=PriceList((Price("actuator", 20.0),))
    )
    site = Commissioning(
        pipe_material="multilayer", leak_test=LeakTest(test_pressure=900_000.0), project="Mill"
    )
    result = calculate(replace(HOUSE, ordering=ordering, commissioning=site))
    assert result.materials is not None and result.commissioning is not None
    assert result.materials.total_cost == pytest.approx(20.0 * len(result.circuits))
    codes = {finding.code: finding for finding in result.findings}
    assert {"circuit_longer_than_coils", "test_pressure_above_rating", "price_missing"} <= set(codes)
    (place, *_) = codes["circuit_longer_than_coils"].places
    assert (place.where_in, place.where.split("/")[1]) == ("answer", "circuits")
    assert codes["test_pressure_above_rating"].where == "/commissioning/leak_test/test_pressure"
    assert result.commissioning.leak_test.drift.pressure_per_kelvin > 0.0
    assert (
        result.laying_sheets[0].fixings_on_straights < calculate(HOUSE).laying_sheets[0].fixings_on_straights
    )


def test_a_design_without_drawing_is_ordered_by_its_areas() -> None:
    rooms = tuple(
        replace(room, outline=None, voids=(), movement_joints=(), entry=None, area=18.0)
        for room in HOUSE.rooms
    )
    manifolds = tuple(replace(manifold, position=None, allowed_places=()) for manifold in HOUSE.manifolds)
    result = calculate(replace(HOUSE, rooms=rooms, doorways=(), manifolds=manifolds))
    assert result.materials is not None and result.layout is None and result.laying_sheets == ()
    assert result.materials.floor_area == pytest.approx(18.0 * len(rooms))
    assert {area.measured for area in result.materials.areas} == {False}
    assert "estimated_by_area" in {finding.code for finding in result.findings}


def test_insulation_of_the_check_is_what_is_ordered() -> None:
    layers = (
        CheckLayer(0.03, 0.035, name="EPS"),
        CheckLayer(0.08, 0.035),
        CheckLayer(0.2, 2.0, part="structure"),
    )
    check = InsulationCheckInputs(below="ground", layers=layers)
    build_ups = tuple(replace(build_up, insulation=check) for build_up in HOUSE.build_ups)
    lines = _lines(calculate(replace(HOUSE, build_ups=build_ups, laying_sheets=False)))
    assert {item for item in lines if item.startswith("insulation")} == {
        "insulation_80mm_1000x500",
        "insulation_30mm_1000x500",
    }
