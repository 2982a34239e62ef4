"""Movement joints proposed, against the figures of the rules: EN 1264-4 (40 m2, 8 m for cement screed), common practice
with DIN 18560-2 (2:1, re-entrant corners, doorways), joint guidance for calcium sulphate screed (10 m)."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString
from tepidarium_engine import designs
from tepidarium_engine.designs import BuildUp, DesignRoom, DesignsInputs
from tepidarium_engine.errors import InputError
from tepidarium_engine.plan.outlines.polygons import RoomOutline, room_outline
from tepidarium_engine.practice.screed import Binder
from tepidarium_engine.routes import RoutesInputs, calculate
from tepidarium_engine.storey.joints.proposed_joints import ProposedJoint, proposed_joints


def box(width: float, depth: float, x: float = 0.0) -> RoomOutline:
    return room_outline(((x, 0.0), (x + width, 0.0), (x + width, depth), (x, depth)), ())


def reasons(joints: tuple[ProposedJoint, ...]) -> list[str]:
    return [joint.reason for joint in joints]


@pytest.mark.parametrize(
    ("width", "depth", "binder", "reason"),
    [
        (7.9, 5.0, "cement", None),
        (8.1, 4.5, "cement", "field_side"),
        (6.4, 6.4, "cement", "field_area"),
        (6.3, 6.3, "cement", None),
        (5.1, 2.5, "cement", "field_ratio"),
        (5.0, 2.5, "cement", None),
        (9.9, 9.9, "calcium_sulphate", None),
        (10.1, 3.0, "calcium_sulphate", "field_side"),
        (10.1, 3.0, "calcium_sulphate_flowing", "field_side"),
    ],
)
def test_a_rectangle_is_parted_where_a_limit_is_passed(
    width: float, depth: float, binder: Binder, reason: str | None
) -> None:
    joints = proposed_joints(box(width, depth, 5.0), binder)
    assert reasons(joints) == ([] if reason is None else [reason])
    if reason is not None:
        # square to the longer side, in its middle
        assert joints[0].middle == pytest.approx((5.0 + width / 2.0, depth / 2.0))
        assert math.dist(*joints[0].line) == pytest.approx(depth)
        assert joints[0].value is not None and joints[0].limit is not None
        assert joints[0].value > joints[0].limit


def test_an_l_is_parted_by_the_shortest_joint_from_its_corner() -> None:
    ell = room_outline(((0, 0), (6, 0), (6, 3), (4, 3), (4, 5), (0, 5)), ())
    joints = proposed_joints(ell, "cement")
    assert reasons(joints) == ["re_entrant_corner"]
    assert {tuple(map(round, end)) for end in joints[0].line} == {(4, 3), (4, 0)}
    assert proposed_joints(ell, "calcium_sulphate") == ()


def shape(*corners: tuple[float, float], turn: float = 0.0) -> RoomOutline:
    c, s = math.cos(turn), math.sin(turn)
    return room_outline(tuple((c * x - s * y + 3.0, s * x + c * y - 7.0) for x, y in corners), ())


T_HALL = ((0, 0), (9.08, 0), (9.08, 1.28), (4.78, 1.28), (4.78, 5.38), (3.18, 5.38), (3.18, 1.28), (0, 1.28))
SHAPES: dict[str, tuple[tuple[float, float], ...]] = {
    "T-shaped hall": T_HALL,
    "L": ((0, 0), (6, 0), (6, 3), (4, 3), (4, 5), (0, 5)),
    "U": ((0, 0), (9, 0), (9, 6), (6, 6), (6, 3), (3, 3), (3, 6), (0, 6)),
    "H": ((0, 0), (3, 0), (3, 3), (6, 3), (6, 0), (9, 0), (9, 8), (6, 8), (6, 5), (3, 5), (3, 8), (0, 8)),
    "cross": ((3, 0), (6, 0), (6, 3), (9, 3), (9, 6), (6, 6), (6, 9), (3, 9), (3, 6), (0, 6), (0, 3), (3, 3)),
    "Z": ((0, 0), (5, 0), (5, 3), (9, 3), (9, 7), (3, 7), (3, 4), (0, 4)),
    "open plan": ((0, 0), (11, 0), (11, 5), (7, 5), (7, 9), (0, 9)),
    "deep bay": ((0, 0), (1.4, 0), (2.1, -2.2), (4.5, -2.2), (5.2, 0), (6.6, 0), (6.6, 4.7), (0, 4.7)),
    "corridor": ((0, 0), (14, 0), (14, 1.4), (0, 1.4)),
    "long room": ((0, 0), (20, 0), (20, 8), (0, 8)),
    "trapezium": ((0, 0), (9, 0), (8, 5), (0, 4)),
}
WHOLE: dict[str, tuple[tuple[float, float], ...]] = {
    "bedroom of 18 m2 with a niche": ((0, 0), (4.28, 0), (4.28, 4), (1.08, 4), (1.08, 4.7), (0, 4.7)),
    "shallow bay": ((0, 0), (1.4, 0), (2.1, -0.9), (3.5, -0.9), (4.2, 0), (5.6, 0), (5.6, 4.7), (0, 4.7)),
    "piece of a hall of 3.8 m2": ((0, 0), (3.0, 0), (3.0, 1.27), (0, 1.27)),
    "narrow utility room": ((0, 0), (1.86, 0), (1.86, 3.98), (0, 3.98)),
    "small L-shaped hall": ((0, 0), (4, 0), (4, 1.2), (1.2, 1.2), (1.2, 4), (0, 4)),
    "bathroom with a leg": ((0, 0), (3.18, 0), (3.18, 3.98), (1.7, 3.98), (1.7, 2.26), (0, 2.26)),
    "chimney at the wall": ((0, 0), (3, 0), (3, 0.4), (3.6, 0.4), (3.6, 0), (6, 0), (6, 5), (0, 5)),
}


def parts_of(room: RoomOutline, joints: tuple[ProposedJoint, ...]) -> list[shapely.Polygon]:
    """By general geometry: the floor less the joints as thin strips."""
    strips = [LineString(joint.line).buffer(1e-4, cap_style="square") for joint in joints]
    return list(shapely.get_parts(shapely.difference(room.placed, shapely.union_all(strips))))


@pytest.mark.parametrize("turn", [0.0, 0.7])
@pytest.mark.parametrize("name", SHAPES)
def test_joints_are_such_as_a_screed_layer_makes(name: str, turn: float) -> None:
    """Straight from wall to wall or to another joint, square to the walls, no slivers, and enough of them; the figures
    are those of EN 1264-4 (40 m2, 8 m), the least field is common practice, no source."""
    room = shape(*SHAPES[name], turn=turn)
    joints = proposed_joints(room, "cement")
    assert joints
    walls = [
        LineString(pair)
        for pair in zip(room.placed.exterior.coords, room.placed.exterior.coords[1:], strict=False)
    ]
    for joint in joints:
        others = [LineString(other.line) for other in joints if other is not joint]
        (ax, ay), (bx, by) = joint.line
        for end in joint.line:
            assert min(shapely.Point(end).distance(line) for line in (*walls, *others)) < 1e-6
        main = max(walls, key=lambda wall: wall.length).coords
        angle = math.atan2(by - ay, bx - ax) - math.atan2(main[1][1] - main[0][1], main[1][0] - main[0][0])
        assert abs(math.remainder(angle, math.pi / 2.0)) < 1e-4, (name, joint)
    parts = parts_of(room, joints)
    assert math.fsum(part.area for part in parts) == pytest.approx(room.area, rel=1e-2)
    for part in parts:
        assert 2.0 < part.area < 40.1
        short, long = sorted(_sides(part))
        # what has a leg is judged without it
        assert short > 0.8 and (long < 8.1 or part.area < 0.8 * short * long)
    assert len(parts) <= len(joints) + 1


def _sides(part: shapely.Polygon) -> tuple[float, float]:
    ring = part.minimum_rotated_rectangle.exterior.coords
    return math.dist(ring[0], ring[1]), math.dist(ring[1], ring[2])


@pytest.mark.parametrize("turn", [0.0, 0.7])
@pytest.mark.parametrize("name", WHOLE)
def test_a_room_that_is_nearly_a_rectangle_or_small_stays_whole(name: str, turn: float) -> None:
    assert proposed_joints(shape(*WHOLE[name], turn=turn), "cement") == ()


def test_a_hall_is_parted_at_its_corners_first() -> None:
    """One joint across the mouth of the stem, from corner to corner, and one across what is then too long."""
    joints = proposed_joints(room_outline(T_HALL, ()), "cement")
    assert reasons(joints) == ["re_entrant_corner", "field_side"]
    assert {tuple(round(x, 6) for x in end) for end in joints[0].line} == {(3.18, 1.28), (4.78, 1.28)}
    assert math.dist(*joints[1].line) == pytest.approx(1.28)


@pytest.mark.parametrize("name", [*SHAPES, *WHOLE])
def test_joints_that_are_adopted_are_enough(name: str) -> None:
    room = shape(*{**SHAPES, **WHOLE}[name], turn=0.3)
    found = proposed_joints(room, "cement")
    assert proposed_joints(room, "cement", joints=[joint.line for joint in found]) == ()


def test_a_joint_does_not_end_in_a_doorway_if_it_can_end_beside_it() -> None:
    hall = box(9.0, 1.8)
    doorway = ((4.1, 0.0), (5.0, 0.0))
    joints = [
        joint for joint in proposed_joints(hall, "cement", doorways=[doorway]) if joint.reason != "doorway"
    ]
    ends = [x for joint in joints for x, y in joint.line if y < 0.1]
    assert ends and all(not 4.1 + 0.1 < x < 5.0 - 0.1 for x in ends)


@settings(max_examples=40, deadline=None)
@given(
    width=st.floats(2.0, 9.0),
    depth=st.floats(2.0, 7.0),
    leg=st.floats(0.2, 5.0),
    share=st.floats(0.1, 0.9),
    turn=st.floats(0.0, 6.3),
)
def test_no_joint_of_an_l_cuts_off_a_sliver(
    width: float, depth: float, leg: float, share: float, turn: float
) -> None:
    """Whatever its legs: what a joint leaves is a field, and what is adopted is enough."""
    across = share * width
    room = shape(
        (0, 0),
        (width, 0),
        (width, depth),
        (across, depth),
        (across, depth + leg),
        (0, depth + leg),
        turn=turn,
    )
    joints = proposed_joints(room, "cement")
    assert all(part.area > 1.9 and min(_sides(part)) > 0.45 for part in parts_of(room, joints))
    assert proposed_joints(room, "cement", joints=[joint.line for joint in joints]) == ()


def test_a_joint_that_is_given_is_not_proposed() -> None:
    assert proposed_joints(box(9.0, 4.6), "cement", joints=[((4.5, 0.0), (4.5, 4.6))]) == ()


def test_a_doorway_takes_a_joint_between_its_jambs() -> None:
    doorway = ((1.0, 0.0), (1.9, 0.0))
    joints = proposed_joints(box(4.0, 3.0), "cement", doorways=[doorway])
    assert [(joint.reason, joint.line) for joint in joints] == [("doorway", doorway)]
    assert proposed_joints(box(4.0, 3.0), "cement", doorways=[doorway], joints=[doorway]) == ()


@settings(max_examples=40, deadline=None)
@given(width=st.floats(1.0, 40.0), depth=st.floats(1.5, 30.0))
def test_what_the_joints_leave_keeps_the_limits(width: float, depth: float) -> None:
    room = box(width, depth)
    joints = proposed_joints(room, "cement")
    if len(joints) == 32:  # as many as are proposed for one room
        return
    cut = shapely.union_all(
        [room.polygon.boundary, *(LineString(joint.line).buffer(1e-6) for joint in joints)]
    )
    parts = list(shapely.get_parts(shapely.difference(room.polygon, cut.buffer(1e-6))))
    for part in parts:
        x0, y0, x1, y1 = part.bounds
        assert part.area <= 40.0 + 1e-6
        assert max(x1 - x0, y1 - y0) <= 8.0 + 1e-6
    assert sum(part.area for part in parts) == pytest.approx(width * depth, rel=1e-3)


def test_a_route_tells_of_joints_that_are_due() -> None:
    inputs = RoutesInputs(
        outline=((0.0, 0.0), (5.2, 0.0), (5.2, 2.4), (0.0, 2.4)),
        pipe_spacing=0.2,
        entry=(1.0, 0.0),
        quick=True,
    )
    (finding,) = (one for one in calculate(inputs).findings if one.code == "movement_joint_proposed")
    assert finding.point == pytest.approx((2.6, 1.2))
    assert f"{5.2 / 2.4:.1f} times" in finding.places[0].message


BAD_JOINTS = [
    ((((2.0, 0.0), (2.0, 0.0)),), "/0/1", "repeated_point"),
    ((((2.0, 0.0), (2.0, 2.0), (2.0, 2.0), (2.0, 4.0)),), "/0/2", "repeated_point"),
    ((((0.0, 0.0), (4.0, 4.0), (4.0, 0.0), (0.0, 4.0)),), "/0", "crosses_itself"),
    ((((2.0, 0.0), (2.0, 9.0)),), "/0", "outside_room"),
    ((((9.0, 0.0), (9.0, 4.0)),), "/0", "outside_room"),
    ((((2.0, 1.0), (2.0, 1.02)),), "/0", "too_short"),
    ((((2.0, 0.0), (2.0, 4.0)), ((2.0, 4.0), (2.0, 1.0))), "/1", "repeated_joint"),
    ((((2.0, 0.0), (2.0, 4.0)), ((2.002, 4.0), (2.002, 0.0))), "/1", "repeated_joint"),
]


@pytest.mark.parametrize(("joints", "pointer", "code"), BAD_JOINTS)
def test_what_is_no_joint_is_refused_alike_for_a_room_and_for_a_house(
    joints: tuple[tuple[tuple[float, float], ...], ...], pointer: str, code: str
) -> None:
    square = ((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0))
    with pytest.raises(InputError) as of_room:
        calculate(RoutesInputs(square, 0.2, entry=(1.0, 0.0), movement_joints=joints))
    room = DesignRoom("room", "floor", 300.0, outline=square, movement_joints=joints)
    with pytest.raises(InputError) as of_house:
        designs.calculate(DesignsInputs((room,), (BuildUp("floor", 2.0, 10.0),)))
    for refusal, where in ((of_room, ""), (of_house, "/rooms/0")):
        told = [(fault.pointer, fault.code) for fault in refusal.value.faults]
        assert told == [(f"{where}/movement_joints{pointer}", code)]


def test_joints_that_meet_cross_or_lie_in_a_doorway_are_joints() -> None:
    square = ((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0))
    joints = (
        ((2.0, 0.0), (2.0, 4.0)),
        ((0.0, 2.0), (4.0, 2.0)),
        ((2.0, 1.0), (4.0, 1.0)),
        ((1.0, -0.1), (1.8, -0.1)),
    )
    room = DesignRoom("room", "floor", 300.0, outline=square, movement_joints=joints)
    result = designs.calculate(DesignsInputs((room,), (BuildUp("floor", 2.0, 10.0),)))
    assert result.movement_joint_length == pytest.approx(10.8)


def test_joints_of_a_room_without_an_outline_are_refused() -> None:
    room = DesignRoom("room", "floor", 300.0, area=9.0, movement_joints=(((0.0, 0.0), (1.0, 0.0)),))
    with pytest.raises(InputError) as refusal:
        designs.calculate(DesignsInputs((room,), (BuildUp("floor", 2.0, 10.0),)))
    assert [fault.pointer for fault in refusal.value.faults] == ["/rooms/0/movement_joints"]
