"""Movement joints of a house that are adopted as proposed: laid out, drawn, sleeved and counted.

Oracles: shapely on the drawn lines for sleeves and for fields that keep to their side; EN 1264-4 (joints in doorways,
only tails in sleeves cross a joint).
"""

from __future__ import annotations

import json
import math
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import msgspec
import pytest
from shapely import LineString, Point
from tepidarium_engine import designs, manifold_position
from tepidarium_engine.designs import (
    BuildUp,
    DesignRoom,
    DesignScreed,
    DesignsInputs,
    DesignsResult,
    DrawnCircuit,
    HeatSource,
    Manifold,
    PlanDoorway,
)
from tepidarium_engine.manifold_position import ManifoldPositionInputs, ManifoldRoom

EXAMPLES = Path(__file__).parents[2] / "examples"
FLOOR = BuildUp("floor", resistance_below=2.5, temperature_below=8.0, covering_resistance=0.05)


def example(name: str, **changes: Any) -> DesignsInputs:
    inputs = msgspec.convert(json.loads((EXAMPLES / f"{name}.json").read_text()), DesignsInputs, strict=True)
    return replace(inputs, **changes)


@pytest.fixture(scope="module", params=["house", "two-storeys"])
def pair(request: pytest.FixtureRequest) -> tuple[DesignsResult, DesignsResult]:
    """A house as it is, and with the joints adopted."""
    asked = example(request.param)
    return designs.calculate(asked), designs.calculate(replace(asked, movement_joints="proposed"))


def line(circuit: DrawnCircuit) -> LineString:
    points = []
    for piece in circuit.pieces:
        points.append(piece.start)
        if piece.kind == "arc" and piece.centre is not None and piece.sweep is not None:
            (cx, cy), (x, y) = piece.centre, piece.start
            radius, start = math.dist(piece.centre, piece.start), math.atan2(y - cy, x - cx)
            points += [
                (
                    cx + radius * math.cos(start + piece.sweep * k / 12),
                    cy + radius * math.sin(start + piece.sweep * k / 12),
                )
                for k in range(1, 12)
            ]
    points.append(circuit.pieces[-1].end)
    return LineString(points)


def codes(result: DesignsResult) -> set[str]:
    return {finding.code for finding in result.findings}


def test_what_is_due_is_counted_apart(pair: tuple[DesignsResult, DesignsResult]) -> None:
    """As long as joints are due, neither they nor their sleeves are taken for nothing."""
    plain, adopted = pair
    due = [joint for joint in plain.joints if joint.state == "due"]
    assert due and "movement_joint_proposed" in codes(plain)
    assert plain.due_joint_length == pytest.approx(math.fsum(joint.length for joint in due))
    assert plain.due_sleeve_count == sum(joint.sleeve_count for joint in due)
    assert plain.due_joint_length > 0.0 and plain.due_sleeve_count > 0
    assert plain.movement_joint_length == pytest.approx(
        math.fsum(joint.length for joint in plain.joints if joint.state == "given")
    )
    (finding,) = (one for one in plain.findings if one.code == "movement_joint_proposed")
    assert len(finding.places) == len(due)
    assert {joint.reason for joint in due} >= {"doorway"}
    assert (adopted.due_joint_length, adopted.due_sleeve_count) == (0.0, 0)


def test_joints_that_are_adopted_are_those_that_were_due(pair: tuple[DesignsResult, DesignsResult]) -> None:
    plain, adopted = pair
    wanted = [(joint.room, joint.doorway, joint.points) for joint in plain.joints if joint.state == "due"]
    taken = [
        (joint.room, joint.doorway, joint.points) for joint in adopted.joints if joint.state == "adopted"
    ]
    assert sorted(taken) == sorted(wanted)
    assert "movement_joint_proposed" not in codes(adopted)
    (finding,) = (one for one in adopted.findings if one.code == "movement_joints_adopted")
    assert finding.where == "/movement_joints"
    assert adopted.movement_joint_length == pytest.approx(
        plain.movement_joint_length + plain.due_joint_length, rel=1e-12
    )


def test_every_pipe_on_an_adopted_joint_has_its_sleeve(pair: tuple[DesignsResult, DesignsResult]) -> None:
    """Counted on the drawn lines; storeys lie over each other, so a joint counts for the rooms of its storey."""
    _, adopted = pair
    layout = adopted.layout
    assert layout is not None and not layout.unplaced
    assert "crosses_movement_joint" not in codes(adopted)
    assert adopted.sleeve_count == len(layout.sleeves) == sum(joint.sleeve_count for joint in adopted.joints)
    for joint in adopted.joints:
        drawn = LineString(joint.points)
        own = [
            one
            for one in layout.sleeves
            if one.room == joint.room and drawn.distance(Point(one.place)) < 1e-6
        ]
        assert len(own) >= joint.sleeve_count
        for sleeve in own:
            (circuit,) = (one for one in layout.drawn_circuits if one.id == sleeve.circuit)
            assert line(circuit).distance(Point(sleeve.place)) < 2e-3
        if joint.doorway:
            # through a doorway all pipe of the circuits behind it comes and goes
            crossed = [one for one in layout.drawn_circuits if line(one).intersects(drawn)]
            assert {one.id for one in crossed} >= {one.circuit for one in own}


def test_a_long_room_is_laid_out_in_the_fields_that_are_adopted() -> None:
    """11 m of cement screed are parted in the middle (EN 1264-4: 8 m): no circuit lies on both sides."""
    room = DesignRoom("room", "floor", 1700.0, outline=((0, 0), (11, 0), (11, 3.5), (0, 3.5)))
    hall = DesignRoom("hall", "floor", 300.0, outline=((0, -1.7), (11, -1.7), (11, -0.1), (0, -0.1)))
    asked = DesignsInputs(
        (room, hall),
        (FLOOR,),
        manifold=Manifold(position=(5.5, -1.7)),
        doorways=(PlanDoorway(("room", "hall"), (3.0, -0.05), 0.9),),
        movement_joints="proposed",
    )
    result = designs.calculate(asked)
    (joint,) = (one for one in result.joints if one.room == "room" and one.reason == "field_side")
    assert {round(x, 6) for x, _ in joint.points} == {5.5}
    assert result.layout is not None and not result.layout.unplaced
    sides = []
    for circuit in result.layout.drawn_circuits:
        if circuit.room == "room":
            beyond = line(circuit).intersection(LineString(joint.points))
            crossings = len(getattr(beyond, "geoms", [beyond] if not beyond.is_empty else []))
            assert crossings in (0, 2)  # both tails of a circuit beyond the joint, or none
            sides.append(crossings)
    assert set(sides) == {0, 2} and joint.sleeve_count == sum(sides)


def test_without_a_plan_joints_are_adopted_and_circuits_keep_to_them() -> None:
    """An outline without doorways: as many circuits as fields at least."""
    room = DesignRoom(
        "room",
        "floor",
        800.0,
        outline=((0, 0), (9, 0), (9, 4.4), (0, 4.4)),
        tail_length=4.0,
        pipe_spacing=0.3,
    )
    one, two = (
        designs.calculate(
            DesignsInputs(
                (room,), (FLOOR,), movement_joints=mode, source=HeatSource(maximum_supply_temperature=50.0)
            )
        )
        for mode in ("given", "proposed")
    )
    assert len(two.circuits) >= 2
    assert [joint.state for joint in two.joints] == ["adopted"]
    assert two.movement_joint_length == pytest.approx(4.4)
    assert (two.sleeve_count, one.due_joint_length) == (0, pytest.approx(4.4))


def test_the_binder_of_the_screed_decides() -> None:
    """9 m: too long for cement screed (8 m), not for calcium sulphate (10 m, joint guidance of the trade)."""
    room = DesignRoom("room", "floor", 800.0, outline=((0, 0), (9, 0), (9, 4.0), (0, 4.0)), tail_length=4.0)
    screed = DesignScreed(date(2027, 3, 1))
    for binder, count in (("cement", 1), ("calcium_sulphate_flowing", 0)):
        asked = DesignsInputs((room,), (FLOOR,), screed=replace(screed, binder=binder))
        assert len(designs.calculate(asked).joints) == count


@pytest.mark.parametrize(("y", "told"), [(1.6, False), (1.5, False), (1.44, True), (0.8, True)])
def test_a_manifold_away_from_the_wall_is_reported(y: float, told: bool) -> None:
    """The hall's nearest wall lies at y = 1.6; up to 150 mm are the depth of a cabinet (common practice, no source)."""
    asked = example("two-storeys")
    low = replace(asked.manifolds[0], position=(3.0, y))
    result = designs.calculate(replace(asked, manifolds=(low, asked.manifolds[1])))
    found = [one for one in result.findings if one.code == "manifold_moved"]
    assert bool(found) == told
    if told:
        (place,) = found[0].places
        assert place.where == "/manifolds/0/position" and place.subject == "manifold G"
        assert place.value == pytest.approx(min(y, 1.6 - y))
        assert f"[3.00, {y:.2f}]" in place.message


def test_the_search_for_a_place_reports_a_position_in_mid_room_too() -> None:
    asked = ManifoldPositionInputs(
        rooms=(
            ManifoldRoom("hall", ((0, 0), (6, 0), (6, 4), (0, 4)), circuits=0),
            ManifoldRoom("room", ((0, 4.1), (6, 4.1), (6, 8), (0, 8)), circuits=2),
        ),
        doorways=(PlanDoorway(("hall", "room"), (3.0, 4.05), 0.9),),
        position=(3.0, 1.8),
    )
    (finding,) = (one for one in manifold_position.calculate(asked).findings if one.code == "manifold_moved")
    assert (finding.where, finding.value) == ("/position", pytest.approx(1.8))
