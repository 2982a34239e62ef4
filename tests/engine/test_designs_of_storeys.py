"""A house of two storeys with a manifold each: what belongs together stays together, and all adds up.

Oracles: sums made here from the pieces of every pipe by school geometry; shapely's predicates for joints and rooms;
branches on one pump by the pressure balance (each needs the same in all); EN 1264-4 for joints.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import msgspec
import pytest
import shapely
from shapely import LineString, Point, Polygon
from shapely.ops import substring, unary_union
from tepidarium_api.finding_examples import finding_examples
from tepidarium_engine import designs, hydraulics
from tepidarium_engine.building import solving
from tepidarium_engine.designs import (
    BuildUp,
    DesignLimits,
    DesignRoom,
    DesignsInputs,
    DesignsResult,
    DrawnCircuit,
    Manifold,
    PlanDoorway,
    Storey,
    TailInsulation,
)
from tepidarium_engine.errors import InputError
from tepidarium_engine.hydraulics import Circuit, HydraulicsInputs
from tepidarium_engine.thermal.floor import Floor
from tepidarium_engine.thermal.single_pipes import single_pipe

from tests.storeys.case import rect

FLOOR = BuildUp("floor", resistance_below=2.5, temperature_below=10.0, covering_resistance=0.08)


def _room(name: str, storey: str, outline: Any, demand: float, **changes: Any) -> DesignRoom:
    return DesignRoom(name, "floor", demand, outline=outline, storey=storey, **changes)


JOINT = ((2.4, 1.52), (2.4, 4.6))
HOUSE = DesignsInputs(
    rooms=(
        _room("hall", "ground", rect(0.0, 0.0, 4.8, 1.4), 250.0, room_temperature=18.0),
        _room("living", "ground", rect(0.0, 1.52, 4.8, 4.6), 700.0, movement_joints=(JOINT,)),
        _room("landing", "upper", rect(0.0, 0.0, 4.8, 1.4), 200.0, room_temperature=18.0),
        _room("bed", "upper", rect(0.0, 1.52, 4.8, 4.6), 600.0, pipe_spacing=0.2),
    ),
    build_ups=(FLOOR,),
    doorways=(
        PlanDoorway(("landing", "bed"), (3.2, 1.46)),
        PlanDoorway(("hall", "living"), (1.6, 1.46)),
    ),
    limits=DesignLimits(pipe_spacings=(0.15, 0.2)),
    storeys=(Storey("ground", "Ground floor"), Storey("upper", "Upper floor")),
    manifolds=(
        Manifold(position=(1.0, 0.0), id="low", storey="ground"),
        Manifold(position=(1.0, 0.0), id="high", storey="upper", mains_pressure_drop=3000.0, height=0.4),
    ),
)


@pytest.fixture(scope="module")
def designed() -> DesignsResult:
    return designs.calculate(HOUSE)


def _length(circuit: DrawnCircuit) -> float:
    return math.fsum(
        math.dist(piece.start, piece.end) if piece.radius is None else piece.radius * abs(piece.sweep or 0.0)
        for piece in circuit.pieces
    )


def _storey(circuit: DrawnCircuit) -> str | None:
    return next(room.storey for room in HOUSE.rooms if room.id == circuit.room)


def _line(circuit: DrawnCircuit) -> LineString:
    """Bends in sixteen chords each."""
    points = [circuit.pieces[0].start]
    for piece in circuit.pieces:
        if piece.centre is not None and piece.sweep is not None:
            (x, y), (x0, y0) = piece.centre, piece.start
            for step in range(1, 16):
                c, s = math.cos(piece.sweep * step / 16.0), math.sin(piece.sweep * step / 16.0)
                points.append((x + c * (x0 - x) - s * (y0 - y), y + s * (x0 - x) + c * (y0 - y)))
        points.append(piece.end)
    return LineString(points)


def test_all_of_it_is_drawn_and_the_schedule_has_the_lengths_of_the_drawing(designed: DesignsResult) -> None:
    """Within 1 mm; the pipe at the manifold comes on top, twice its height."""
    layout = designed.layout
    assert layout is not None and not layout.unplaced
    heights = {manifold.id: manifold.height for manifold in HOUSE.manifolds}
    rows = {circuit.id: circuit for circuit in designed.circuits}
    assert {circuit.id for circuit in layout.drawn_circuits} == set(rows)
    for drawn in layout.drawn_circuits:
        row = rows[drawn.id]
        assert (row.port, row.manifold, row.room) == (drawn.port, drawn.manifold, drawn.room)
        assert row.total_length - 2.0 * heights[row.manifold] == pytest.approx(_length(drawn), abs=1e-3)
    whole = math.fsum(map(_length, layout.drawn_circuits))
    assert layout.drawn_length == pytest.approx(whole, abs=1e-3)
    at_manifolds = math.fsum(2.0 * heights[circuit.manifold] for circuit in designed.circuits)
    assert designed.pipe_length == pytest.approx(whole + at_manifolds, abs=1e-3)


def test_each_storey_has_its_manifold_and_its_ports(designed: DesignsResult) -> None:
    assert [manifold.id for manifold in designed.manifolds] == ["low", "high"]
    assert [manifold.room_ids for manifold in designed.manifolds] == [("hall", "living"), ("landing", "bed")]
    for manifold in designed.manifolds:
        ports = [circuit.port for circuit in designed.circuits if circuit.manifold == manifold.id]
        assert ports == list(range(1, manifold.circuit_count + 1))
    layout = designed.layout
    assert layout is not None
    assert [(one.id, one.room) for one in layout.placed_manifolds] == [("low", "hall"), ("high", "landing")]
    assert [doorway.rooms for doorway in layout.doorway_stretches] == [("landing", "bed"), ("hall", "living")]


@pytest.mark.parametrize(("more", "is_set"), [(0.0, False), (990.0, False), (1010.0, True)])
def test_a_balancing_valve_is_due_for_what_a_person_can_set(more: float, is_set: bool) -> None:
    """Two manifolds alike, one of them with mains that lose so much more: the other's valve takes that."""
    result = designs.calculate(
        DesignsInputs(
            rooms=tuple(
                DesignRoom(name, "floor", 600.0, area=14.0, tail_length=4.0, manifold=name)
                for name in ("near", "far")
            ),
            build_ups=(FLOOR,),
            manifolds=(Manifold(id="near"), Manifold(id="far", mains_pressure_drop=more)),
        )
    )
    near, far = result.manifolds
    assert (near.balancing_pressure_drop, far.balancing_pressure_drop) == (pytest.approx(more, abs=1e-6), 0.0)
    assert ((near.balancing_kv is not None), far.balancing_kv) == (is_set, None)
    assert ("balancing_valve_due" in {one.code for one in result.findings}) == is_set


def test_manifolds_share_one_pump(designed: DesignsResult) -> None:
    """Flows add up; with what its balancing valve takes, each manifold needs the pump's pressure; each is balanced
    as the hydraulics balance its circuits alone."""
    assert designed.mass_flow == pytest.approx(
        math.fsum(one.mass_flow for one in designed.manifolds), rel=1e-12
    )
    assert designed.pump.volume_flow == pytest.approx(designed.volume_flow, rel=1e-12)
    mains = {manifold.id: manifold.mains_pressure_drop for manifold in HOUSE.manifolds}
    needs = [
        one.manifold_pressure + mains[one.id] + one.balancing_pressure_drop for one in designed.manifolds
    ]
    assert needs == pytest.approx([designed.pump.pressure_best_estimate] * 2, rel=1e-12)
    assert min(one.balancing_pressure_drop for one in designed.manifolds) == 0.0
    throttled = max(designed.manifolds, key=lambda one: one.balancing_pressure_drop)
    # kv by definition: m3/h at 1 bar, flow with the root of the pressure (IEC 60534-2-1)
    assert throttled.balancing_kv == pytest.approx(
        throttled.volume_flow * 3600.0 / math.sqrt(throttled.balancing_pressure_drop / 1e5), rel=1e-9
    )
    own = [circuit for circuit in designed.circuits if circuit.manifold == "low"]
    alone = hydraulics.calculate(
        HydraulicsInputs(
            pipe=HOUSE.pipe,
            circuits=tuple(
                Circuit(
                    one.id, one.total_length, mass_flow=one.mass_flow, temperature_drop=one.temperature_drop
                )
                for one in own
            ),
            supply_temperature=designed.supply_temperature,
        )
    )
    assert designed.manifolds[0].manifold_pressure == pytest.approx(alone.manifold_pressure, rel=1e-9)
    assert {one.id: one.valve_kv for one in own} == pytest.approx(
        {one.id: one.valve_kv for one in alone.circuits}, rel=1e-9
    )


def test_only_tails_cross_the_joint_each_in_a_sleeve(designed: DesignsResult) -> None:
    """EN 1264-4: no field across a movement joint. Both pipes of the one circuit whose field lies beyond."""
    layout = designed.layout
    assert layout is not None
    joint = LineString(JOINT)
    own = [circuit for circuit in layout.drawn_circuits if circuit.room == "living"]
    assert len(own) == 2
    crossed = {circuit.id for circuit in own if _line(circuit).intersects(joint)}
    assert len(crossed) == 1
    assert [sleeve.circuit for sleeve in layout.sleeves] == [*crossed] * 2
    for sleeve in layout.sleeves:
        assert joint.distance(Point(sleeve.place)) < 1e-6
        assert math.hypot(*sleeve.ahead) == pytest.approx(1.0)
    assert designed.sleeve_count == len(layout.sleeves)
    assert designed.movement_joint_length == pytest.approx(joint.length)
    assert "crosses_movement_joint" not in {finding.code for finding in designed.findings}


def test_joints_that_are_due_are_proposed_with_their_place(designed: DesignsResult) -> None:
    """EN 1264-4: doorways. The halls are no longer than 4.8 m, so nothing is due in them."""
    (due,) = (one for one in designed.findings if one.code == "movement_joint_proposed")
    assert {place.where for place in due.places} == {"/doorways/1", "/doorways/0"}
    given = replace(HOUSE.rooms[1], movement_joints=(JOINT, ((1.2, 1.46), (2.0, 1.46))))
    again = designs.calculate(
        replace(
            HOUSE, rooms=(HOUSE.rooms[0], given), doorways=HOUSE.doorways[1:], manifolds=HOUSE.manifolds[:1]
        )
    )
    assert "/doorways/0" not in {place.where for one in again.findings for place in one.places}
    # all pipes of both circuits pass the doorway, those of one the joint in the room
    assert again.sleeve_count == 2 * 2 + 2


def test_what_one_storey_changes_leaves_the_other_as_it_is(designed: DesignsResult) -> None:
    """On the same supply: the lower storey stays the same to the last bit."""
    closer = replace(HOUSE.rooms[3], heat_demand=500.0, pipe_spacing=0.175)
    changed = designs.calculate(replace(HOUSE, rooms=(*HOUSE.rooms[:3], closer)))
    assert changed.supply_temperature == designed.supply_temperature
    assert designed.layout is not None and changed.layout is not None
    before, after = (
        {circuit.room: circuit.pieces for circuit in layout.drawn_circuits}
        for layout in (designed.layout, changed.layout)
    )
    assert {room: before[room] == after[room] for room in before} == {
        "hall": True,
        "living": True,
        "landing": True,
        "bed": False,
    }
    assert designed.rooms[:2] == changed.rooms[:2]


def _in_rooms_of_others(result: DesignsResult, name: str) -> dict[str, tuple[float, float]]:
    """Metres of flow and return of each circuit in a room that is not its own, from the drawing."""
    assert result.layout is not None
    storey = next(room.storey for room in HOUSE.rooms if room.id == name)
    floor = Polygon(next(room.outline for room in HOUSE.rooms if room.id == name))
    found = {}
    for circuit in result.layout.drawn_circuits:
        if circuit.room == name or next(r for r in HOUSE.rooms if r.id == circuit.room).storey != storey:
            continue
        line = _line(circuit)
        halves = (substring(line, 0.0, 0.5, normalized=True), substring(line, 0.5, 1.0, normalized=True))
        found[circuit.id] = (halves[0].intersection(floor).length, halves[1].intersection(floor).length)
    return found


def _free_beside(
    line: LineString,
    along: float,
    side: float,
    room: Polygon,
    *,
    tails: list[LineString],
    own: list[LineString],
) -> float:
    """Floor on one side of a place on a tail [m]: to the wall, half the way to the next tail, or half the pitch of
    tails where the room's own circuits lie beside."""
    before, place, after = (line.interpolate(along + step) for step in (-1e-4, 0.0, 1e-4))
    across = (before.y - after.y, after.x - before.x)
    scale = side / math.hypot(*across)
    start, end = (
        (place.x + far * scale * across[0], place.y + far * scale * across[1]) for far in (0.01, 2.0)
    )
    ray = LineString([start, end])
    walls = [ray.intersection(room.exterior)]
    others = [ray.intersection(pipe) for pipe in tails if ray.intersects(pipe)]
    to_wall = min([2.0] + [place.distance(met) for met in walls if not met.is_empty])
    beside_own = any(
        ray.intersects(pipe) and place.distance(ray.intersection(pipe)) < to_wall for pipe in own
    )
    return min(
        [to_wall]
        + [place.distance(met) / 2.0 for met in others]
        + [HOUSE.limits.tail_pitch / 2.0] * beside_own
    )


def test_tails_heat_the_rooms_they_cross(designed: DesignsResult) -> None:
    """Each tail by the floor that it has for itself, looked at every 5 cm on the drawing; off the room's demand, so
    that its own field gives the rest."""
    layout = designed.layout
    assert layout is not None
    rows = {circuit.id: circuit for circuit in designed.circuits}
    pipe = single_pipe(
        Floor(
            HOUSE.limits.tail_pitch,
            HOUSE.pipe,
            FLOOR.screed_cover,
            FLOOR.resistance_below,
            FLOOR.screed_conductivity,
            FLOOR.covering_resistance,
        ),
        designed.supply_temperature,
    )
    for room in designed.rooms:
        if room.id not in {"hall", "landing"}:
            assert room.tails_heat == 0.0
            continue
        asked = next(one for one in HOUSE.rooms if one.id == room.id)
        floor = Polygon(asked.outline)
        drawn = [one for one in layout.drawn_circuits if _storey(one) == asked.storey]
        own = [_line(one) for one in drawn if one.room == room.id]
        tails = [one for one in drawn if one.room != room.id]
        pipes = [_line(one) for one in tails]
        expected = 0.0
        for circuit, line in zip(tails, pipes, strict=True):
            steps = round(line.length / 0.05)
            for step in range(steps):
                along = (step + 0.5) * line.length / steps
                if floor.contains(line.interpolate(along)):
                    free = [
                        _free_beside(line, along, side, floor, tails=pipes, own=own) for side in (1.0, -1.0)
                    ]
                    flows = along < line.length / 2.0
                    water = designed.supply_temperature if flows else rows[circuit.id].return_temperature
                    expected += pipe.output(*free) * (water - 18.0) * line.length / steps
        assert room.tails_heat == pytest.approx(expected, rel=0.03, abs=designed.convergence.tolerance)
        rest = room.heat_output * (room.area - room.tails_area)
        assert room.heat_given == pytest.approx(rest + room.tails_heat, rel=1e-12)
        assert rest >= room.heat_demand - room.tails_heat - 1e-6


def test_energy_and_mass_balances_close_with_tails(designed: DesignsResult) -> None:
    """What the water gives is what rooms get and lose downwards; what circuits lose on the way is what tails give.
    Water carries 4.18 kJ/(kg.K) (IAPWS-IF97, 30 degC, within 0.1 %)."""
    rooms, circuits = designed.rooms, designed.circuits
    assert designed.heat_flow == pytest.approx(
        math.fsum(room.heat_given + room.downward_heat_flow for room in rooms), rel=1e-9
    )
    assert designed.heat_flow == pytest.approx(math.fsum(one.heat_flow for one in circuits), rel=1e-9)
    for circuit in circuits:
        assert circuit.heat_flow == pytest.approx(
            circuit.mass_flow * 4180.0 * circuit.temperature_drop, rel=1e-3
        )
    for room in (room for room in rooms if not room.tails_area):
        own = math.fsum(one.heat_flow - one.lost_on_the_way for one in circuits if one.room == room.id)
        assert own == pytest.approx(room.heat_given + room.downward_heat_flow, rel=1e-9)
    for room in rooms:
        own = [circuit for circuit in circuits if circuit.room == room.id]
        lost = math.fsum(one.lost_on_the_way for one in own)
        flow = math.fsum(one.mass_flow for one in own) * 4180.0
        by_flow = flow * (designed.supply_temperature - room.field_supply_temperature)
        assert (
            0.45 * lost <= by_flow + 1e-9 <= 0.8 * lost + 1e-9
        )  # the return is colder, and may have more floor
        assert room.return_temperature == pytest.approx(
            room.field_supply_temperature - room.temperature_drop, abs=1e-9
        )
    given = math.fsum(room.tails_heat for room in rooms)
    assert given < math.fsum(one.lost_on_the_way for one in circuits) < 1.5 * given
    assert designed.convergence.settled
    assert designed.convergence.residual <= designed.convergence.tolerance == 1.0
    assert designed.convergence.rounds <= 8


def test_insulated_tails_give_less_by_the_hollow_cylinder(designed: DesignsResult) -> None:
    """ln(D/d) / (2 pi lambda) in series with the floor (Fourier's law for a hollow cylinder, any handbook)."""
    insulated = designs.calculate(replace(HOUSE, tail_insulation=TailInsulation(0.009, 0.04)))
    shell = math.log((0.016 + 2 * 0.009) / 0.016) / (2.0 * math.pi * 0.04)
    returns = {circuit.id: circuit.return_temperature for circuit in designed.circuits}
    for before, after in zip(designed.rooms, insulated.rooms, strict=True):
        if not before.tails_heat:
            assert after.tails_heat == 0.0
            continue
        kelvins = math.fsum(
            flow * (designed.supply_temperature - 18.0) + back * (returns[name] - 18.0)
            for name, (flow, back) in _in_rooms_of_others(designed, before.id).items()
        )
        bare = kelvins / before.tails_heat
        # the waters differ a little, and so do the places along a tail
        assert after.tails_heat == pytest.approx(before.tails_heat * bare / (bare + shell), rel=0.03)
    assert insulated.insulated_tail_length == pytest.approx(
        sum(sum(map(sum, _in_rooms_of_others(insulated, name).values())) for name in ("hall", "landing")),
        rel=0.01,
    )
    assert insulated.supply_temperature < designed.supply_temperature
    assert designed.insulated_tail_length == 0.0


def test_what_does_not_settle_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    """After one round nothing has been taken off yet: what the tails give is what still changes."""
    monkeypatch.setattr(solving, "_SKETCHES", 0)
    monkeypatch.setattr(solving, "_MOST_ROUNDS", 1)
    result = designs.calculate(HOUSE)
    told = next(finding for finding in result.findings if finding.code == "design_not_settled")
    assert not result.convergence.settled
    assert told.value == result.convergence.residual > result.convergence.tolerance == told.limit
    assert all(room.tails_heat == 0.0 for room in result.rooms)


def test_floor_that_tails_cut_off_is_told_with_its_place(designed: DesignsResult) -> None:
    """The manifold stands a metre from the corner, all doorways lie to its right: the corner stays without pipe."""
    layout = designed.layout
    assert layout is not None
    told = {
        place.where: place
        for finding in designed.findings
        if finding.code == "floor_cut_off"
        for place in finding.places
    }
    for number, name in ((0, "hall"), (2, "landing")):
        finding = told.get(f"/rooms/{number}")
        drawn = [
            _line(circuit)
            for circuit in layout.drawn_circuits
            if HOUSE.rooms[number].storey == _storey(circuit)
        ]
        floor = Polygon(next(room.outline for room in HOUSE.rooms if room.id == name))
        bare = floor.difference(unary_union([line.buffer(0.25) for line in drawn])).area
        assert (finding is not None) == (bare > 0.2)
        if finding is not None:
            assert finding.point is not None and floor.contains(Point(finding.point))
            assert min(line.distance(Point(finding.point)) for line in drawn) > 0.1


def test_two_manifolds_on_a_storey_share_the_rooms_by_their_ways() -> None:
    """By hand: each room's doorway is nearest to its own end of the hall; a room that names a manifold gets it."""
    rooms = (
        _room("hall", "ground", rect(0.0, 0.0, 9.0, 1.6), 200.0, manifold="east"),
        _room("one", "ground", rect(0.0, 1.7, 3.0, 4.3), 350.0),
        _room("two", "ground", rect(6.0, 1.7, 9.0, 4.3), 350.0),
    )
    house = replace(
        HOUSE,
        rooms=tuple(replace(room, pipe_spacing=0.2) for room in rooms),
        doorways=(PlanDoorway(("hall", "one"), (1.5, 1.65)), PlanDoorway(("hall", "two"), (7.5, 1.65))),
        storeys=(Storey("ground"),),
        manifolds=(
            Manifold(position=(1.0, 0.0), id="west", storey="ground"),
            Manifold(position=(8.0, 0.0), id="east", storey="ground"),
        ),
    )
    result = designs.calculate(house)
    assert {room.id: room.manifold for room in result.rooms} == {"hall": "east", "one": "west", "two": "east"}
    layout = result.layout
    assert layout is not None and not layout.unplaced
    hall = Polygon(rect(0.0, 0.0, 9.0, 1.6))
    lines = [_line(circuit) for circuit in layout.drawn_circuits]
    for circuit, line in zip(layout.drawn_circuits, lines, strict=True):
        start = Point(circuit.pieces[0].start)
        assert start.distance(Point(1.0 if circuit.manifold == "west" else 8.0, 0.0)) < 0.5
        assert hall.buffer(1e-6).contains(start)
        others = [other for other in lines if other is not line]
        assert all(line.distance(other) > 0.05 for other in others)  # tails lie 60 mm apart


TWICE = replace(HOUSE.manifolds[0], id="high")


@pytest.mark.parametrize(
    ("change", "pointer"),
    [
        ({"storeys": (Storey("ground"), Storey("ground"))}, "/storeys/1/id"),
        ({"storeys": ()}, "/rooms/0/storey"),
        ({"manifolds": (HOUSE.manifolds[1], TWICE)}, "/manifolds/1/id"),
        ({"manifolds": HOUSE.manifolds[:1]}, "/storeys/1"),
        ({"manifold": Manifold(height=0.3)}, "/manifold"),
        (
            {"manifolds": (HOUSE.manifolds[0], replace(HOUSE.manifolds[1], storey=None))},
            "/manifolds/1/storey",
        ),
        (
            {"manifolds": (replace(HOUSE.manifolds[0], position=(20.0, 3.0)), HOUSE.manifolds[1])},
            "/manifolds/0/position",
        ),
        ({"rooms": (replace(HOUSE.rooms[0], storey="attic"), *HOUSE.rooms[1:])}, "/rooms/0/storey"),
        ({"rooms": (replace(HOUSE.rooms[0], manifold="none"), *HOUSE.rooms[1:])}, "/rooms/0/manifold"),
        ({"rooms": (replace(HOUSE.rooms[0], manifold="high"), *HOUSE.rooms[1:])}, "/rooms/0/manifold"),
        ({"tail_insulation": TailInsulation(0.03)}, "/tail_insulation/thickness"),
        ({"doorways": (PlanDoorway(("hall", "bed"), (2.4, 1.46)),)}, "/doorways/0/rooms/1"),
        (
            {"rooms": (*HOUSE.rooms[:3], replace(HOUSE.rooms[3], outline=rect(0.0, 1.2, 4.8, 4.6)))},
            "/rooms/3/outline",
        ),
        (
            {
                "rooms": (
                    replace(HOUSE.rooms[0], movement_joints=(((2.0, 0.0), (2.0, 9.0)),)),
                    *HOUSE.rooms[1:],
                )
            },
            "/rooms/0/movement_joints/0",
        ),
        (
            {
                "rooms": (
                    replace(HOUSE.rooms[0], movement_joints=(((2.0, 1.0), (2.0, 1.0)),)),
                    *HOUSE.rooms[1:],
                )
            },
            "/rooms/0/movement_joints/0/1",
        ),
    ],
)
def test_what_does_not_go_together_points_to_the_field(change: dict[str, Any], pointer: str) -> None:
    with pytest.raises(InputError) as refusal:
        designs.calculate(replace(HOUSE, **change))
    assert pointer in [fault.pointer for fault in refusal.value.faults]


def _square(name: str, x: float, **changes: Any) -> DesignRoom:
    changes = {"pipe_spacing": 0.2, **changes}
    return DesignRoom(name, "floor", 300.0, outline=rect(x, 0.0, x + 4.0, 4.0), **changes)


def test_joints_that_cross_part_a_room_in_four() -> None:
    """EN 1264-4: each circuit keeps to its field; both pipes of a tail pass a joint or two on the way."""
    joints = (((2.0, 0.0), (2.0, 4.0)), ((0.0, 2.0), (4.0, 2.0)))
    house = DesignsInputs(
        rooms=(_square("hall", 0.0, movement_joints=joints), _square("room", 4.1)),
        build_ups=(FLOOR,),
        doorways=(PlanDoorway(("hall", "room"), (4.05, 1.0)),),
        manifold=Manifold(position=(5.0, 0.0)),
    )
    result = designs.calculate(house)
    layout = result.layout
    assert layout is not None and not layout.unplaced
    own = [circuit for circuit in layout.drawn_circuits if circuit.room == "hall"]
    assert len(own) == 4
    crossings = 0
    for circuit in own:
        met = [_line(circuit).intersection(LineString(joint)) for joint in joints]
        count = sum(0 if one.is_empty else len(getattr(one, "geoms", (one,))) for one in met)
        assert count in {0, 2, 4}
        crossings += count
    assert result.sleeve_count == crossings > 0


def test_a_room_that_nothing_reaches_is_told_and_the_rest_is_drawn() -> None:
    """And one without an outline; their circuits come after the drawn ones."""
    rooms = (
        _square("hall", 0.0),
        _square("room", 4.1),
        _square("shut", 8.2),
        DesignRoom("attic", "floor", 300.0, area=9.0),
    )
    result = designs.calculate(
        DesignsInputs(
            rooms=rooms,
            build_ups=(FLOOR,),
            doorways=(PlanDoorway(("hall", "room"), (4.05, 1.0)),),
            manifold=Manifold(position=(1.0, 0.0)),
        )
    )
    told = {
        finding.code: finding.where for finding in result.findings if finding.code.startswith("not_drawn")
    }
    assert told == {"not_drawn_tails_no_way": "/rooms/2", "not_drawn_no_outline": "/rooms/3/outline"}
    assert result.layout is not None
    assert {circuit.room for circuit in result.layout.drawn_circuits} == {"hall", "room"}
    assert [circuit.room for circuit in result.circuits[-2:]] == ["shut", "attic"]
    assert [circuit.port for circuit in result.circuits] == [1, 2, 3, 4]


def _behind_a_narrow_doorway(limits: DesignLimits) -> DesignsResult:
    """16 m2 at 200 mm, some 80 m of pipe, behind 0.30 m, which take one pair (0.15 m clear of jambs, 0.12 m a pair)."""
    return designs.calculate(
        DesignsInputs(
            rooms=(_square("hall", 0.0), _square("room", 4.1)),
            build_ups=(FLOOR,),
            doorways=(PlanDoorway(("hall", "room"), (4.05, 1.0), width=0.3),),
            manifold=Manifold(position=(2.0, 0.0)),
            limits=limits,
        )
    )


def test_drawn_circuits_of_a_room_that_is_served_in_part_are_in_the_schedule_as_drawn() -> None:
    result = _behind_a_narrow_doorway(DesignLimits(maximum_circuit_length=60.0))
    layout = result.layout
    assert layout is not None
    told = [one for one in result.findings if one.code == "not_drawn_tails_doorway"]
    assert [one.where for one in told] == ["/rooms/1"]
    assert told[0].point == pytest.approx((4.0, 1.0))
    assert "m2 of the room's floor stay without pipe" in told[0].places[0].message
    (drawn,) = (circuit for circuit in layout.drawn_circuits if circuit.room == "room")
    assert 50.0 < drawn.length <= 60.0
    rows = {circuit.id: circuit for circuit in result.circuits if circuit.room == "room"}
    assert rows.keys() == {"room-1", "room-2"}
    assert rows[drawn.id].total_length == pytest.approx(_length(drawn) + 2.0 * Manifold().height, abs=1e-3)
    # together they serve the floor: length is area over spacing
    assert sum(row.field_length for row in rows.values()) == pytest.approx(16.0 / 0.2, rel=0.05)


def test_circuits_of_a_room_that_lack_the_same_are_one_place() -> None:
    """Clear of jambs by 0.12 m, 0.30 m take no pair; 16 m2 at 200 mm are 80 m, of which a circuit may have 50."""
    result = _behind_a_narrow_doorway(DesignLimits(maximum_circuit_length=50.0, wall_clearance=0.12))
    assert result.layout is not None
    assert {one.id for one in result.layout.unplaced} == {"room-1", "room-2"}
    (told,) = (one for one in result.findings if one.code.startswith("not_drawn"))
    assert [(place.where, place.subject) for place in told.places] == [("/rooms/1", "room (2 circuits)")]


def test_a_room_that_does_with_fewer_circuits_says_so() -> None:
    """Pressure asks for two circuits, length for one; one pair passes."""
    result = _behind_a_narrow_doorway(
        DesignLimits(maximum_circuit_length=100.0, maximum_pressure_drop=1500.0)
    )
    assert result.layout is not None and not result.layout.unplaced
    assert {circuit.id for circuit in result.circuits if circuit.room == "room"} == {"room"}
    (told,) = (one for one in result.findings if one.code == "fewer_circuits")
    assert (told.where, told.value) == ("/rooms/1", 1.0)
    assert told.limit is not None and told.limit >= 2.0
    assert told.point == pytest.approx((4.0, 1.0))
    assert any(one.code == "drawing_not_settled" for one in result.findings)


def test_a_manifold_in_a_doorway_is_told() -> None:
    result = designs.calculate(
        DesignsInputs(
            rooms=(_square("hall", 0.0), _square("room", 4.1)),
            build_ups=(FLOOR,),
            doorways=(PlanDoorway(("hall", "room"), (4.05, 1.0)),),
            manifold=Manifold(position=(4.0, 1.2)),
        )
    )
    told = next(finding for finding in result.findings if finding.code == "manifold_in_doorway")
    assert told.where == "/manifold/position"
    assert told.point == pytest.approx((4.0, 1.2))


@pytest.mark.parametrize("length", [3.0, 12.0])
def test_a_circuit_with_much_of_its_pipe_on_the_way_says_so(length: float) -> None:
    """A store of 2 m by 2 m, some 20 m of pipe at 200 mm, at the far end of a hall."""
    result = designs.calculate(
        DesignsInputs(
            rooms=(
                DesignRoom("hall", "floor", 300.0, outline=rect(0.0, 0.0, length, 2.0), pipe_spacing=0.2),
                DesignRoom(
                    "store",
                    "floor",
                    100.0,
                    outline=rect(length + 0.1, 0.0, length + 2.1, 2.0),
                    pipe_spacing=0.2,
                ),
            ),
            build_ups=(FLOOR,),
            doorways=(PlanDoorway(("hall", "store"), (length + 0.05, 1.0)),),
            manifold=Manifold(position=(0.0, 1.0)),
        )
    )
    told = [one for one in result.findings if one.code == "long_tails"]
    store = next(circuit for circuit in result.circuits if circuit.room == "store")
    assert bool(told) == (2.0 * length / store.total_length > 0.35)
    assert [one.where for one in told] == ["/rooms/1"] * len(told)


def test_a_doorway_for_which_tails_come_closer_is_named_with_their_pitch() -> None:
    """0.30 m less 2 x 75 mm take one pair, and two at 37 mm, which is too close for them; 0.34 m take two at 47 mm."""
    pitches = {}
    for width in (0.3, 0.34, 0.4):
        result = designs.calculate(
            DesignsInputs(
                rooms=(_square("hall", 0.0), _square("room", 4.1)),
                build_ups=(FLOOR,),
                doorways=(PlanDoorway(("hall", "room"), (4.05, 1.0), width=width),),
                manifold=Manifold(position=(2.0, 0.0)),
                limits=DesignLimits(maximum_circuit_length=60.0),
            )
        )
        assert result.layout is not None
        pitches[width] = result.layout.placed_manifolds[0].tail_pitch
        told = [one for one in result.findings if one.code == "tails_closer"]
        if width != 0.34:
            assert not told
            continue
        assert not result.layout.unplaced
        assert (told[0].where, told[0].value, told[0].limit) == ("/doorways/0/width", 0.047, 0.06)
        assert told[0].point == pytest.approx((4.0, 1.0))
        assert "For 2 pairs of pipes in 0.34 m" in told[0].places[0].message
    assert pitches == {0.3: 0.06, 0.34: 0.047, 0.4: 0.06}


def test_only_floor_that_stays_cold_is_told_as_cut_off() -> None:
    """By hand from the pipes as drawn: further than 0.75 spacings from all of them, between tails and a wall. Loops of
    others and pipe led aside warm what tails cut off else."""
    inputs = msgspec.convert(finding_examples()["floor_cut_off"].body, DesignsInputs)
    result = designs.calculate(inputs)
    (told,) = (
        place for finding in result.findings if finding.code == "floor_cut_off" for place in finding.places
    )
    hall, layout = inputs.rooms[0], result.layout
    assert layout is not None and hall.outline is not None
    assert told.where == "/rooms/0" and told.point is not None
    floor = Polygon(hall.outline, hall.voids)
    near = unary_union(
        [_line(circuit).buffer(0.75 * result.rooms[0].pipe_spacing) for circuit in layout.drawn_circuits]
    )
    parts = [part for part in shapely.get_parts(floor.difference(near)) if part.area > 0.01]
    at_wall = [part for part in parts if part.distance(floor.exterior) < 0.01]
    assert told.value == pytest.approx(sum(part.area for part in at_wall), rel=0.01)
    assert max(at_wall, key=lambda part: part.area).buffer(1e-3).contains(Point(told.point))
