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
from tepidarium_engine.storey.joint_rules import ProposedJoint, proposed_joints


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
